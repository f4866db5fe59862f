using SandwichMech.Core.Layups;
using SandwichMech.Core.Materials;
using SandwichMech.Core.Outlines;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Boards;

/// <summary>A region as the file gives it.</summary>
/// <param name="Region">The region.</param>
/// <param name="Line">The line to look at.</param>
/// <param name="Field">The field to look at.</param>
/// <param name="Whole">Mass of all of it that lies on the board, kg, where that is what is known.</param>
internal sealed record FiledRegion(BoardRegion Region, int? Line, string Field, Estimate? Whole = null)
{
    /// <summary>Whether it is one of a list, whose cover is worth showing back.</summary>
    internal bool IsListed { get; init; }
}

/// <summary>Regions of which a board may have several: let-in wood, parts of skins, core sheets, added masses.</summary>
internal static class RegionLists
{
    private static readonly BoardTable
        LetInTable = List("let_in", "Solid wood in place of the core in a place of your own; after edge_band, hole_ring and bridge_patch, later ones over earlier ones."),
        SkinTable = List("skin_part", "Another wood, thickness or grain in part of a skin; later ones over earlier ones."),
        CoreTable = List("core_sheet", "A sheet of the same core laid another way; later ones over earlier ones."),
        MassTable = List("added_mass", "Mass that carries nothing, spread evenly over a place: a pickup, lacquer, a weight for trying; they add up.");

    private static readonly Listing[] All =
    [
        new("core sheet", CoreTable, new(CoreTable, "500 mm", "100 mm", "250 mm", "150 mm"),
        [
            FieldForms.Angle(CoreTable, "ribbon", "Where its ribbon runs: along, across, or an angle from the board's length.", "across") with { Required = true },
        ], (item, own, _) => new TurnedCore(item.Typed(own[0])!.Value)),
        new("let-in wood", LetInTable, new(LetInTable, "40 mm", "60 mm", "40 mm", "0 mm"),
        [
            FieldForms.Wood(LetInTable, "Its wood.", "Sitka spruce") with { Required = true },
            FieldForms.Angle(LetInTable, "grain", "Angle from the board's length to its grain, or along or across; along when left out.", "across"),
        ], (item, own, taken) => new LetInWood(taken.Wood(item, own[0])!, item.Typed(own[1])?.Value ?? 0)),
        new("skin part", SkinTable, new(SkinTable, "60 mm", "120 mm", "120 mm", "0 mm"),
        [
            FaceOf(SkinTable, "Which skin: outer or inner.") with { Required = true },
            FieldForms.Wood(SkinTable, "Its wood; the skin's when left out.", "Sitka spruce"),
            FieldForms.Thickness(SkinTable, "thickness", "Its thickness; the skin's when left out. The spread is the skin's.", "0.9 mm"),
            FieldForms.Angle(SkinTable, "grain", "Angle from the board's length to its grain, or along or across; the skin's when left out.", "10°"),
        ], (item, own, taken) =>
        {
            Face face = FaceIn(item, own[0]);
            return new SkinPart(face, taken.Wood(item, own[1]), item.Typed(own[2])?.Value / taken.Thickness(face), item.Typed(own[3])?.Value);
        })
        {
            Refuse = (item, own) => own.Skip(1).Any(item.IsGiven) ? null : new(own[0], "nothing differs from the skin: write wood, thickness or grain too"),
        },
        new("added mass", MassTable, new(MassTable, "60 mm", "30 mm", "420 mm", "0 mm"),
        [
            new(MassTable, "mass", new TypedKind(Dimension.Mass, "an added mass", FieldForms.Range(Dimension.Mass, "1 mg to 2 kg"), FieldForms.Range(Dimension.Mass, "0.1 g to 200 g"), ["g", "oz"]) { TakesSpread = true },
                "Its mass; a spread may follow.", "5 g"),
            new(MassTable, "per_area", new TypedKind(Dimension.ArealDensity, "an added mass per area", FieldForms.Range(Dimension.ArealDensity, "0.1 g/m² to 50 kg/m²"), FieldForms.Range(Dimension.ArealDensity, "1 g/m² to 20 kg/m²"), ["g/m²", "g/in²"]) { TakesSpread = true },
                "In place of mass: its mass per area.", "60 g/m²"),
        ], (item, own, _) => new AddedMass(item.Typed(own[1]) is { } typed ? Of(typed) : new(0, 0)))
        {
            Whole = (item, own) => item.Typed(own[0]) is { } typed ? Of(typed) : null,
            Refuse = (item, own) => own.Count(item.IsGiven) == 1 ? null : new(own[0], "either mass or per_area is wanted: write one of them"),
        },
    ];

    /// <summary>What the rest of the file decides.</summary>
    /// <param name="Wood">The wood that a field of one of a list names.</param>
    /// <param name="Thickness">Thickness of a skin, m.</param>
    internal sealed record Taken(Func<ReadFields, BoardField, Wood?> Wood, Func<Face, double> Thickness);

    /// <summary>The fields, in the order of the file.</summary>
    internal static IReadOnlyList<BoardField> Fields { get; } = [.. All.SelectMany(l => (BoardField[])[l.Name, .. l.Place.All, .. l.Own])];

    /// <summary>Those of which only one can stand in an item: they have examples that exclude each other.</summary>
    internal static IReadOnlyList<BoardField> Alternatives { get; } = [.. All.SelectMany(l => l.Place.Excluded), All[3].Own[1]];

    /// <summary>Reports what is wrong with single items.</summary>
    internal static void Check(ReadFields board, Findings findings)
    {
        foreach (Listing listing in All)
        {
            foreach (ReadFields item in board.Items(listing.Table))
            {
                listing.Place.Check(item, board, findings);
                if (listing.Refuse?.Invoke(item, listing.Own) is { } wrong) { findings.Report(item.LineOrNull(wrong.Field), wrong.Field.Name, wrong.Message); }
            }
        }
    }

    /// <summary>The regions of one list, in the order of the file.</summary>
    internal static IEnumerable<FiledRegion> Of(string kind, ReadFields board, Taken taken)
    {
        Listing listing = All.First(l => l.Kind == kind);
        int number = 0, count = board.Items(listing.Table).Count();
        foreach (ReadFields item in board.Items(listing.Table))
        {
            number++;
            IReadOnlyList<Curve> curves = listing.Place.Curves(item, board);
            string name = item.Reading(listing.Name)?.Name ?? (count == 1 ? kind : $"{kind} {number}");
            BoardField place = listing.Place.Place(item);
            yield return new(
                new(name, curves, p => curves.Any(c => c.Contains(p)), listing.Change(item, listing.Own, taken)),
                item.LineOrNull(place), place.Name, listing.Whole?.Invoke(item, listing.Own))
            { IsListed = true };
        }
    }

    /// <summary>A field that names a face.</summary>
    internal static BoardField FaceOf(BoardTable table, string help) => new(table, "face", new ChoiceKind("skin", ["outer", "inner"]), help, "outer");

    private static Face FaceIn(ReadFields item, BoardField field) => item.Reading(field)!.Name == "outer" ? Face.Outer : Face.Inner;

    private static Estimate Of(TypedValue typed) => Estimate.FromSd(typed.Value, typed.StandardDeviation);

    private static BoardTable List(string name, string help) => new(name, help) { IsList = true };

    private sealed record Listing(string Kind, BoardTable Table, PlaceFields Place, IReadOnlyList<BoardField> Own, Func<ReadFields, IReadOnlyList<BoardField>, Taken, RegionChange> Change)
    {
        internal BoardField Name { get; } = FieldForms.Name(Table, Kind);
        internal Func<ReadFields, IReadOnlyList<BoardField>, Estimate?>? Whole { get; init; }
        internal Func<ReadFields, IReadOnlyList<BoardField>, Refusal?>? Refuse { get; init; }
    }

    // A class, not a tuple: generics over our own value types are compiled anew at every start.
    private sealed record Refusal(BoardField Field, string Message);
}
