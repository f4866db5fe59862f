using SandwichMech.Core.Choosing;
using SandwichMech.Core.Layups;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Boards;

/// <summary>Every table and field of a board file, each defined once.</summary>
/// <remarks>What is usual is common practice of classical-size boards, no source; what is possible is wide on purpose.</remarks>
public static class BoardFields
{
    private static readonly string[] ThicknessUnits = ["mm", "in", "thou"];
    private static readonly string[] LengthUnits = ["cm", "in", "mm"];
    private static readonly Meant<StiffnessCriterion>[] Criteria =
    [
        new("stiffness along", StiffnessCriterion.Along),
        new("stiffness across", StiffnessCriterion.Across),
        new("geometric mean", StiffnessCriterion.GeometricMean),
        new("mid-span deflection", StiffnessCriterion.MidSpanDeflection),
        new("first mode", StiffnessCriterion.FirstMode),
    ];

    private static readonly BoardTable
        Top = new("", "The board."),
        SizeTable = new("size", "The board as cut out, without margin."),
        OutlineTable = new("outline", "The outline, by its widths or from a drawing; with it the modes are the board's own and the area follows."),
        HoleTable = new("hole", "The soundhole."),
        EdgeBandTable = new("edge_band", "Solid wood in place of the core all along the edge."),
        HoleRingTable = new("hole_ring", "Solid wood in place of the core around the soundhole."),
        BridgePatchTable = new("bridge_patch", "Solid wood in place of the core under the bridge."),
        EdgeTable = new("edge", "How the edge of the board is held."),
        DomeTable = new("dome", "The dome of the board, bulging outward; flat when left out."),
        OuterTable = new("outer", "The skin that is seen and strung."),
        CoreTable = new("core", "The sheet between the skins."),
        InnerTable = new("inner", "The skin inside the box, bonded last."),
        AdhesiveTable = new("adhesive", "The adhesive of both bond lines, and how the shop uses it."),
        SolidTable = new("solid", "The solid top that the board is compared with."),
        MaterialsTable = new("materials", "The maker's own tables of woods, cores and adhesives.");

    /// <summary>What the board is called.</summary>
    public static BoardField BoardName { get; } = new(Top, "name", new TextKind(100, ManyLines: false),
        "What the board is called; the file's name when left out.", "my first board")
    { Question = "What is the board called?" };

    /// <summary>Anything worth keeping.</summary>
    public static BoardField Note { get; } = new(Top, "note", new TextKind(2000, ManyLines: true),
        "Anything worth keeping; shown, never computed with.", "for the next classical, cedar from the third billet");

    /// <summary>Width of the lower bout.</summary>
    public static BoardField OutlineLower { get; } = WidthOf(OutlineTable, "lower", "the width of the lower bout", "Widest width of the lower bout; with waist, upper and size.length it makes the outline.", "14.5 in");

    /// <summary>Width of the waist.</summary>
    public static BoardField OutlineWaist { get; } = WidthOf(OutlineTable, "waist", "the width of the waist", "Width of the waist.", "9.5 in");

    /// <summary>Width of the upper bout.</summary>
    public static BoardField OutlineUpper { get; } = WidthOf(OutlineTable, "upper", "the width of the upper bout", "Widest width of the upper bout.", "11.2 in");

    /// <summary>The drawing of the outline.</summary>
    public static BoardField OutlineFile { get; } = DrawnShape.File(OutlineTable);

    /// <summary>Which curve of the drawing is the outline.</summary>
    public static BoardField OutlinePart { get; } = DrawnShape.Part(OutlineTable);

    /// <summary>The drawing's unit.</summary>
    public static BoardField OutlineUnit { get; } = DrawnShape.Unit(OutlineTable);

    /// <summary>Which way the grain runs on the drawing.</summary>
    public static BoardField OutlineAlong { get; } = DrawnShape.Along(OutlineTable);

    /// <summary>Whether straight lines of the drawing are to be smoothed.</summary>
    public static BoardField OutlineSmooth { get; } = DrawnShape.Smooth(OutlineTable);

    /// <summary>Which curve of the drawing is the soundhole.</summary>
    public static BoardField HolePart { get; } = DrawnShape.HolePart(HoleTable);

    /// <summary>Diameter of the soundhole.</summary>
    public static BoardField HoleDiameter { get; } = Place(HoleTable, "diameter", "a soundhole's diameter", "1 cm", "20 cm", "6 cm", "12 cm", "Its diameter.", "85 mm");

    /// <summary>Centre of the soundhole.</summary>
    public static BoardField HoleAt { get; } = Place(HoleTable, "at", "the hole's distance from the lower end", "1 cm", "2 m", "20 cm", "50 cm", "From the board's lower end to its centre, along the centre line.", "335 mm");

    /// <summary>Width of the edge band.</summary>
    public static BoardField EdgeBandWidth { get; } = Place(EdgeBandTable, "width", "an edge band's width", "2 mm", "30 cm", "4 mm", "3 cm", "Its width, from the edge inward.", "10 mm");

    /// <summary>Wood of the edge band.</summary>
    public static BoardField EdgeBandWood { get; } = LetInWood(EdgeBandTable);

    /// <summary>Width of the ring around the hole.</summary>
    public static BoardField HoleRingWidth { get; } = Place(HoleRingTable, "width", "a ring's width", "2 mm", "10 cm", "5 mm", "4 cm", "Its width, from the hole outward.", "15 mm");

    /// <summary>Wood of the ring.</summary>
    public static BoardField HoleRingWood { get; } = LetInWood(HoleRingTable);

    /// <summary>Extent of the bridge patch along the grain.</summary>
    public static BoardField BridgePatchAlong { get; } = Place(BridgePatchTable, "along", "a bridge patch's extent along", "5 mm", "20 cm", "2 cm", "6 cm", "Its extent along the grain.", "32 mm");

    /// <summary>Extent of the bridge patch across.</summary>
    public static BoardField BridgePatchAcross { get; } = Place(BridgePatchTable, "across", "a bridge patch's extent across", "2 cm", "50 cm", "10 cm", "25 cm", "Its extent across the grain.", "190 mm");

    /// <summary>Centre of the bridge patch.</summary>
    public static BoardField BridgePatchAt { get; } = Place(BridgePatchTable, "at", "the bridge's distance from the lower end", "1 cm", "2 m", "8 cm", "30 cm", "From the board's lower end to its centre, along the centre line.", "165 mm");

    /// <summary>Wood of the bridge patch.</summary>
    public static BoardField BridgePatchWood { get; } = LetInWood(BridgePatchTable);

    /// <summary>Radius of the dome along the board.</summary>
    public static BoardField DomeAlong { get; } = Place(DomeTable, "along", "a dome's radius", "50 cm", "200 m", "2 m", "20 m", "Its radius along the board.", "7.5 m");

    /// <summary>Radius of the dome across.</summary>
    public static BoardField DomeAcross { get; } = Place(DomeTable, "across", "a dome's radius", "50 cm", "200 m", "2 m", "20 m", "Its radius across.", "5 m");

    /// <summary>How the edge is held.</summary>
    public static BoardField EdgeHeld { get; } = new(EdgeTable, "held", EdgeHolds.Kind,
        "free: lying on foam for a tap test; hinged: held against moving up and down only; clamped: held against turning too; rim: between the last two, by a spring that is a guess until taps say.", "free")
    { Default = "free" };

    /// <summary>Area.</summary>
    public static BoardField Area { get; } = new(SizeTable, "area",
        new TypedKind(Dimension.Area, "a board's area", Range(Dimension.Area, "50 cm²", "2 m²"), Range(Dimension.Area, "800 cm²", "2500 cm²"), ["cm²", "in²", "m²", "mm²"]),
        "Area of the outline; masses are this times mass per area.", "241 in²")
    { Required = true, Unless = [OutlineLower, OutlineFile], Question = "Area of the board's outline?" };

    /// <summary>Length along the grain.</summary>
    public static BoardField Length { get; } = new(SizeTable, "length",
        new TypedKind(Dimension.Length, "a board's length", Range(Dimension.Length, "10 cm", "3 m"), Range(Dimension.Length, "30 cm", "70 cm"), LengthUnits),
        "Longest, along the grain; needed for modes and for deflection.", "19 in")
    { Question = "Length, along the grain?" };

    /// <summary>Widest width.</summary>
    public static BoardField Width { get; } = new(SizeTable, "width",
        new TypedKind(Dimension.Length, "a board's width", Range(Dimension.Length, "5 cm", "2 m"), Range(Dimension.Length, "20 cm", "60 cm"), LengthUnits),
        "Widest, across the grain; needed for modes and for deflection.", "14.5 in")
    { Question = "Width, at the widest?" };

    /// <summary>Thickness of the whole board.</summary>
    public static BoardField TotalThickness { get; } = new(SizeTable, "thickness",
        Thickness("a board's thickness", Range(Dimension.Length, "0.6 mm", "60 mm"), Range(Dimension.Length, "1.6 mm", "8 mm")),
        "Thickness of the whole board; with it the core's height may be left out, and is what the skins leave.", "3.2 mm");

    /// <summary>The outer skin.</summary>
    public static SkinFields Outer { get; } = Skin(OuterTable, "outer skin", "western redcedar", "0.030 in");

    /// <summary>The core's material.</summary>
    public static BoardField CoreMaterial { get; } = new(CoreTable, "material", new NameKind(MaterialKind.Core),
        "The core's material; `sandwichmech materials` lists them.", "aramid honeycomb 3.2-29")
    { Required = true, Question = "Core material?" };

    /// <summary>The core's height.</summary>
    public static BoardField CoreHeight { get; } = new(CoreTable, "height",
        Thickness("a core's height", Range(Dimension.Length, "0.3 mm", "50 mm"), Range(Dimension.Length, "1 mm", "6 mm")),
        "Height of the core as bonded; a spread may follow it.", "1.8 mm")
    { Required = true, Unless = [TotalThickness], Question = "Height of the core?" };

    /// <summary>Which way the core lies.</summary>
    public static BoardField Ribbon { get; } = new(CoreTable, "ribbon",
        new TypedKind(Dimension.Angle, "a ribbon angle", Range(Dimension.Angle, "-90°", "90°"), Range(Dimension.Angle, "-90°", "90°"), ["°"]) { Words = FieldForms.Directions },
        "Where the honeycomb's ribbon runs: along the board, across it, or an angle from its length; foam and balsa do not mind.", "along")
    { Default = "along" };

    /// <summary>The inner skin.</summary>
    public static SkinFields Inner { get; } = Skin(InnerTable, "inner skin", "Sitka spruce", "0.024 in");

    /// <summary>Which adhesive.</summary>
    public static BoardField Product { get; } = new(AdhesiveTable, "product", new NameKind(MaterialKind.Adhesive),
        "The adhesive; `sandwichmech materials` lists them.", "thixotropic two-part epoxy")
    { Default = "thixotropic two-part epoxy" };

    /// <summary>Mass mixed per area of one bond line.</summary>
    public static BoardField Mixed { get; } = new(AdhesiveTable, "mixed",
        new TypedKind(Dimension.ArealDensity, "the mass mixed for a bond line", Range(Dimension.ArealDensity, "10 g/m²", "2000 g/m²"), Range(Dimension.ArealDensity, "120 g/m²", "450 g/m²"), ["g/m²", "g/in²"]) { TakesSpread = true },
        "Mass mixed per area of one bond line, as your shop does it; the adhesive's own figure when left out.", "0.15 g/in²");

    /// <summary>Share of the mixed mass that stays in the board.</summary>
    public static BoardField Kept { get; } = new(AdhesiveTable, "kept",
        new TypedKind(Dimension.Ratio, "the share kept", Range(Dimension.Ratio, "1 %", "100 %"), Range(Dimension.Ratio, "25 %", "80 %"), ["%"]) { TakesSpread = true },
        "Share of it that stays in the board; the adhesive's own figure when left out.", "50 %");

    /// <summary>Mass of a bead per length.</summary>
    public static BoardField BeadMass { get; } = new(AdhesiveTable, "bead",
        new TypedKind(Dimension.LineDensity, "a bead's mass per length", Range(Dimension.LineDensity, "0.1 g/m", "200 g/m"), Range(Dimension.LineDensity, "1 g/m", "20 g/m"), ["g/m", "g/in", "g/cm"]),
        "Mass of the bead that you lay, per length; with bead_line, `bond` tells how many lines to lay.", "5 g/m");

    /// <summary>Length of one line of bead.</summary>
    public static BoardField BeadLine { get; } = new(AdhesiveTable, "bead_line",
        new TypedKind(Dimension.Length, "a line of bead", Range(Dimension.Length, "1 cm", "2 m"), Range(Dimension.Length, "1 cm", "2 m"), LengthUnits),
        "Length of one line of bead.", "40 cm");

    /// <summary>Wood of the solid top.</summary>
    public static BoardField SolidWood { get; } = new(SolidTable, "wood", new NameKind(MaterialKind.Wood),
        "Its wood; the outer skin's when left out.", "Sitka spruce");

    /// <summary>Thickness of the solid top.</summary>
    public static BoardField SolidThickness { get; } = new(SolidTable, "thickness",
        Thickness("a solid top's thickness", Range(Dimension.Length, "0.5 mm", "20 mm"), Range(Dimension.Length, "1.5 mm", "5 mm")),
        "Its thickness, where you have a certain top in mind.", "2.6 mm");

    /// <summary>What "as stiff as" means.</summary>
    public static BoardField Criterion { get; } = new(SolidTable, "criterion", new ChoiceKind("criterion", [.. Criteria.Select(c => c.Words)]),
        "What 'as stiff as' means; the last two need length and width, and 'first mode' is equal tuning rather than equal stiffness.", "stiffness along")
    { Default = "stiffness along" };

    /// <summary>Folder of the maker's own tables.</summary>
    public static BoardField OwnTables { get; } = new(MaterialsTable, "folder", new FolderKind(),
        "Folder with your own woods.csv, cores.csv or adhesives.csv, seen from this file; its rows go before the tool's.", "my-materials");

    /// <summary>All fields, in the order of the file.</summary>
    public static IReadOnlyList<BoardField> All { get; } =
    [
        BoardName, Note,
        Area, Length, Width, TotalThickness,
        OutlineLower, OutlineWaist, OutlineUpper, OutlineFile, OutlinePart, OutlineUnit, OutlineAlong, OutlineSmooth,
        HoleDiameter, HoleAt, HolePart, .. ExtraHoles.Fields,
        Outer.Wood, Outer.Thickness, Outer.Grain, Outer.BookMatched,
        CoreMaterial, CoreHeight, Ribbon,
        Inner.Wood, Inner.Thickness, Inner.Grain, Inner.BookMatched,
        Product, Mixed, Kept, BeadMass, BeadLine,
        EdgeBandWidth, EdgeBandWood, HoleRingWidth, HoleRingWood,
        BridgePatchAlong, BridgePatchAcross, BridgePatchAt, BridgePatchWood,
        .. RegionLists.Fields, .. SkinGradings.Fields, .. Channels.Fields, .. Joints.Fields, .. GluedBars.Fields, DomeAlong, DomeAcross, EdgeHeld, .. EdgeStretches.Fields,
        SolidWood, SolidThickness, Criterion,
        OwnTables,
    ];

    /// <summary>Fields that stand in the place of others: no board has all of them.</summary>
    public static IReadOnlyList<BoardField> Alternatives { get; } = [.. ExtraHoles.Excluded, .. RegionLists.Alternatives, .. SkinGradings.Excluded, .. Channels.Excluded];

    /// <summary>All tables, in the order of the file; the first is the top, without a name.</summary>
    public static IReadOnlyList<BoardTable> Tables { get; } = [.. All.Select(field => field.Table).Distinct()];

    /// <summary>The fields that `new` asks for, in this order; at most ten.</summary>
    public static IReadOnlyList<BoardField> Questions { get; } = [.. All.Where(field => field.Question is not null)];

    /// <summary>The fields of a table.</summary>
    /// <param name="table">The table.</param>
    /// <returns>In the order of the file.</returns>
    public static IEnumerable<BoardField> In(BoardTable table) => All.Where(field => field.Table == table);

    /// <summary>The field of a name such as "outer.thickness".</summary>
    /// <param name="name">The name.</param>
    /// <returns>The field, or null.</returns>
    public static BoardField? Named(string name) => All.FirstOrDefault(field => field.Name == name);

    /// <summary>The words for a criterion.</summary>
    /// <param name="criterion">The criterion.</param>
    /// <returns>As "stiffness along".</returns>
    public static string NameOf(StiffnessCriterion criterion) =>
        Criteria.First(choice => choice.Meaning == criterion).Words;

    /// <summary>The criterion of words that <see cref="Criterion"/> accepts.</summary>
    /// <param name="words">As "stiffness along".</param>
    /// <returns>The criterion.</returns>
    public static StiffnessCriterion CriterionOf(string words) => Criteria.First(choice => choice.Words == words).Meaning;

    /// <summary>The way an edge is held, of words that <see cref="EdgeHeld"/> accepts.</summary>
    /// <param name="words">As "free".</param>
    /// <returns>How it is held.</returns>
    public static EdgeHold HoldOf(string words) => EdgeHolds.Of(words);

    /// <summary>The words for a way to hold an edge.</summary>
    /// <param name="hold">How it is held.</param>
    /// <returns>As "free".</returns>
    public static string NameOf(EdgeHold hold) => EdgeHolds.Name(hold);

    private static SkinFields Skin(BoardTable table, string called, string wood, string thickness) => new(
        new(table, "wood", new NameKind(MaterialKind.Wood), $"Wood of the {called}; `sandwichmech materials` lists them.", wood)
        { Required = true, Question = $"Wood of the {called}?" },
        new(table, "thickness", Thickness("a skin's thickness", Range(Dimension.Length, "0.1 mm", "10 mm"), Range(Dimension.Length, "0.3 mm", "2 mm")),
            $"Thickness of the {called} when all is sanded: 0.030 in, 30 thou, 0.76 mm, 1/32 in; a spread may follow, as ± 0.002 in.", thickness)
        { Required = true, Question = $"Thickness of the {called}?" },
        new(table, "grain", new TypedKind(Dimension.Angle, "a grain angle", Range(Dimension.Angle, "-90°", "90°"), Range(Dimension.Angle, "-10°", "10°"), ["°"]),
            "Angle from the board's length to the grain, seen from outside, anticlockwise.", "0°")
        { Default = "0°" },
        FieldForms.YesNo(table, "book_matched", "Whether the grain of the right half is that of the left one mirrored at the centre line, as in a book-matched pair."));

    private static BoardField WidthOf(BoardTable table, string key, string of, string help, string example) =>
        Place(table, key, of, "3 cm", "2 m", "15 cm", "50 cm", help, example);

    private static BoardField Place(BoardTable table, string key, string of, string low, string high, string usualLow, string usualHigh, string help, string example) =>
        new(table, key, new TypedKind(Dimension.Length, of, Range(Dimension.Length, low, high), Range(Dimension.Length, usualLow, usualHigh), ["mm", "in", "cm"]), help, example);

    private static BoardField LetInWood(BoardTable table) => new(table, "wood", new NameKind(MaterialKind.Wood), "Its wood, grain along the board.", "Sitka spruce");

    private static TypedKind Thickness(string of, TypedRange possible, TypedRange usual) =>
        new(Dimension.Length, of, possible, usual, ThicknessUnits) { TakesSpread = true };

    private static TypedRange Range(Dimension dimension, string low, string high) => new(dimension, low, high);

    // A class, not a tuple: generics over our own value types are compiled anew at every start.
    private sealed record Meant<T>(string Words, T Meaning);
}
