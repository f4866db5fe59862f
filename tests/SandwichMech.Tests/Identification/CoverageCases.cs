using SandwichMech.Core.Identification;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Materials;
using SandwichMech.Workshop.Tables;

namespace SandwichMech.Tests.Identification;

/// <summary>Pieces that intervals are checked on, as tables have them.</summary>
internal static class CoverageCases
{
    private const double Sizes = 0.002, ByScale = 1e-3, BySpan = 2e-3, ByGauge = 0.02, Load = 0.5, SpanShare = 0.8;
    private static readonly MaterialTables Tables = MaterialTables.BuiltIn();
    private static readonly Wood Spruce = MaterialTables.Find(Tables.Woods, "Sitka spruce")!.Item;

    /// <summary>A plate of spruce, 300 × 150 × 4 mm, its moisture known to a percent.</summary>
    internal static PieceBefore Wood
    {
        get
        {
            Wood tapped = Spruce.Tapped();
            return new(new WoodSample(0.3, 0.15, tapped, 4e-3, Spruce.MoisturePercent), SampleInputs.OfWood(tapped, 0.007, 1), SampleInputs.WoodProperties, Sizes);
        }
    }

    /// <summary>A sandwich of spruce skins and honeycomb, 400 × 250 mm.</summary>
    internal static PieceBefore Sandwich
    {
        get
        {
            Wood tapped = Spruce.Tapped();
            var board = new Board
            {
                Name = "blank",
                Outer = new(tapped, new(0.7e-3, 0.02), 0),
                Inner = new(tapped, new(0.6e-3, 0.02), 0),
                Core = new(Tables.Cores[0].Item, new(1.8e-3, 0.02), 0),
                Adhesive = Tables.Adhesives[0].Item,
                Solid = new(Spruce, null),
                Size = new(0.1, 0.4, 0.25),
            };
            return new(new SandwichSample(0.4, 0.25, board), SampleInputs.OfSandwich(board), SampleInputs.SandwichProperties, Sizes);
        }
    }

    /// <summary>On a scale.</summary>
    internal static IReadOnlyList<Reading> Weighed => [new Weighing(new(1, ByScale))];

    /// <summary>On a scale, and bent along and across.</summary>
    internal static IReadOnlyList<Reading> WeighedAndBent(Sample s) =>
        [.. Weighed, .. new[] { (false, s.Length), (true, s.Width) }.Select(b => new BendingReading(b.Item1, new(SpanShare * b.Item2, BySpan), 0, new(Load, ByScale), new(1, ByGauge), 0))];
}
