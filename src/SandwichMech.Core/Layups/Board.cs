using SandwichMech.Core.Materials;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Layups;

/// <summary>A wooden skin.</summary>
/// <param name="Wood">Its wood, quarter-sawn: L and R in the plane of the board.</param>
/// <param name="Thickness">m.</param>
/// <param name="GrainAngle">From the board's length to the grain, rad, seen from outside, positive anticlockwise.</param>
public sealed record Skin(Wood Wood, Estimate Thickness, double GrainAngle);

/// <summary>A core sheet.</summary>
/// <param name="Material">Its material.</param>
/// <param name="Height">m.</param>
/// <param name="RibbonAngle">From the board's length to the ribbon (L) direction, rad.</param>
public sealed record CoreSheet(CoreMaterial Material, Estimate Height, double RibbonAngle);

/// <summary>Size of the board; length and width may be unknown where only mass and stiffness are wanted.</summary>
/// <param name="Area">m².</param>
/// <param name="Length">Along the grain, m.</param>
/// <param name="Width">Widest, across, m.</param>
public sealed record BoardSize(double Area, double? Length, double? Width);

/// <summary>The solid top that the board replaces.</summary>
/// <param name="Wood">Its wood.</param>
/// <param name="Thickness">m, where the maker has a certain top in mind.</param>
public sealed record SolidTop(Wood Wood, Estimate? Thickness);

/// <summary>A sandwich board as wished: two skins, a core, two bond lines of one adhesive, and its size.</summary>
public sealed record Board
{
    /// <summary>Its name.</summary>
    public required string Name { get; init; }
    /// <summary>The skin that is seen and strung.</summary>
    public required Skin Outer { get; init; }
    /// <summary>The core between the skins.</summary>
    public required CoreSheet Core { get; init; }
    /// <summary>The skin inside the box, bonded last.</summary>
    public required Skin Inner { get; init; }
    /// <summary>The adhesive of both bond lines.</summary>
    public required Adhesive Adhesive { get; init; }
    /// <summary>Area, length and width.</summary>
    public required BoardSize Size { get; init; }
    /// <summary>What it is compared with.</summary>
    public required SolidTop Solid { get; init; }
    /// <summary>Outline, hole, let-in wood and edge, where the board file gives an outline.</summary>
    public BoardShape? Shape { get; init; }
    /// <summary>Whether inner skin and its bond line are still missing: as it lies on the bench between its bonds.</summary>
    public bool IsHalfBuilt { get; init; }

    /// <summary>The board with all its woods as a tap finds them.</summary>
    /// <returns>The board.</returns>
    public Board Tapped() => InWoods(w => w.Tapped());

    /// <summary>The board for its modes: where one wood was measured by taps, those of the tables are raised to the same.</summary>
    /// <returns>Itself, where all its woods are of the tables.</returns>
    public Board ForModes() => Woods.Any(w => w.IsTapped) ? Tapped() : this;

    /// <summary>All its woods, the solid top's too.</summary>
    public IEnumerable<Wood> Woods => [Outer.Wood, Inner.Wood, Solid.Wood, .. Shape?.Regions.Select(r => r.Change.OwnWood).OfType<Wood>() ?? []];

    /// <summary>The board with all its woods as a weight finds them, so that a measured wood is beside a tabulated one what it is.</summary>
    /// <returns>The board.</returns>
    public Board UnderWeight() => InWoods(w => w.UnderWeight());

    /// <summary>The layup at the medians, inner face first: skin, film, core, film, skin.</summary>
    /// <returns>Five plies, the last three of a half-built board; the fillets' mass sits in the film plies.</returns>
    public IReadOnlyList<Ply> Plies() => WithInner(() => HoneycombFilm("inner bond line"), Of(Core), HoneycombFilm("outer bond line"));

    /// <summary>The layup with solid wood in place of the core: there all adhesive that is kept lies as film.</summary>
    /// <param name="letIn">The wood; nothing where the core is.</param>
    /// <returns>Five plies, inner face first; the last three of a half-built board.</returns>
    public IReadOnlyList<Ply> PliesWith(LetInWood? letIn)
    {
        if (letIn is null) { return Plies(); }
        Ply film = Film("bond line", Adhesive.Kept / Adhesive.Density.Value, 0);
        return WithInner(() => film, Of(new Skin(letIn.Wood, Core.Height, letIn.GrainAngle), "let-in wood"), film);
    }

    private IReadOnlyList<Ply> WithInner(Func<Ply> innerFilm, Ply core, Ply outerFilm) =>
        IsHalfBuilt ? [core, outerFilm, Of(Outer, "outer skin")] : [Of(Inner, "inner skin"), innerFilm(), core, outerFilm, Of(Outer, "outer skin")];

    /// <summary>Stiffness and mass of the layup at the medians.</summary>
    /// <returns>The laminate.</returns>
    public Laminate Laminate() => Layups.Laminate.From(Plies());

    /// <summary>Mass at the medians, with all that differs from place to place where its shape is known.</summary>
    /// <param name="laminate">Its sandwich.</param>
    /// <returns>kg.</returns>
    public double Mass(Laminate laminate) => Shape is null ? laminate.ArealMass * Size.Area : Shape.Parts.Sum(MassOf);

    /// <summary>The same without bridge, braces and added mass, which a solid top would carry too.</summary>
    /// <param name="laminate">Its sandwich.</param>
    /// <returns>kg.</returns>
    public double MassWithoutBars(Laminate laminate) => Shape is null
        ? laminate.ArealMass * Size.Area
        : Shape.Parts.Sum(part => part.Samples.Sum(s => s.Area * LocalLayup.Of(this, part.Regions, s.At).ArealMassWithoutBars));

    /// <summary>Mass of a part of its shape at the medians.</summary>
    /// <param name="part">The part.</param>
    /// <returns>kg.</returns>
    public double MassOf(BoardPart part) => part.Samples.Sum(s => s.Area * LocalLayup.Of(this, part.Regions, s.At).ArealMass);

    /// <summary>A solid plate of one wood, grain along the board.</summary>
    /// <param name="wood">The wood.</param>
    /// <param name="thickness">m, positive.</param>
    /// <returns>A laminate of one ply.</returns>
    public static Laminate SolidPlate(Wood wood, double thickness) =>
        Layups.Laminate.From([Of(new Skin(wood, new(thickness, 0), 0), "solid top")]);

    /// <summary>The board in other woods; one wood that several parts share stays one.</summary>
    internal Board InWoods(Func<Wood, Wood> change)
    {
        var known = new Dictionary<Wood, Wood>(ReferenceEqualityComparer.Instance);
        Wood Changed(Wood wood) => known.TryGetValue(wood, out Wood? changed) ? changed : known[wood] = change(wood);
        return this with
        {
            Outer = Outer with { Wood = Changed(Outer.Wood) },
            Inner = Inner with { Wood = Changed(Inner.Wood) },
            Solid = Solid with { Wood = Changed(Solid.Wood) },
            Shape = Shape is null ? null : Shape with { Regions = [.. Shape.Regions.Select(r => r.Change.OwnWood is { } wood ? r with { Change = r.Change.InWood(Changed(wood)) } : r)] },
        };
    }

    internal static Ply Of(Skin skin, string name) => new()
    {
        Name = name,
        Thickness = skin.Thickness.Value,
        E1 = skin.Wood.EL.Value,
        E2 = skin.Wood.ER,
        Nu12 = skin.Wood.NuLR,
        G12 = skin.Wood.Glr,
        G13 = skin.Wood.Glt,
        G23 = skin.Wood.Grt,
        Density = skin.Wood.Density.Value,
        Angle = skin.GrainAngle,
        Loss = PlyLoss.Of(skin.Wood),
    };

    private static Ply Of(CoreSheet core) => new()
    {
        Name = "core",
        Thickness = core.Height.Value,
        E1 = core.Material.InPlaneModulus,
        E2 = core.Material.InPlaneModulus,
        Nu12 = 0,
        G12 = core.Material.InPlaneModulus / 2,
        G13 = core.Material.ShearRibbon.Value,
        G23 = core.Material.ShearAcross.Value,
        Density = core.Material.Density.Value,
        Angle = core.RibbonAngle,
        Loss = PlyLoss.OfCore,
    };

    private Ply HoneycombFilm(string name) => Film(name, Adhesive.FilmThickness, Adhesive.Fillets);

    private Ply Film(string name, double thickness, double fillets) => new()
    {
        Name = name,
        Thickness = thickness,
        E1 = Adhesive.FilmModulus.Value,
        E2 = Adhesive.FilmModulus.Value,
        Nu12 = Adhesive.FilmNu,
        G12 = Adhesive.FilmModulus.Value / (2 * (1 + Adhesive.FilmNu)),
        G13 = Adhesive.FilmModulus.Value / (2 * (1 + Adhesive.FilmNu)),
        G23 = Adhesive.FilmModulus.Value / (2 * (1 + Adhesive.FilmNu)),
        Density = Adhesive.Density.Value,
        AddedArealMass = fillets,
        Loss = PlyLoss.OfFilm,
    };
}
