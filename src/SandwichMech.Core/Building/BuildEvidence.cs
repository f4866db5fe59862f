using SandwichMech.Core.Identification;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Materials;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Building;

/// <summary>What taps and bending of the board at a stage said.</summary>
/// <param name="Stage">The stage.</param>
/// <param name="Found">The fit of the board as it lay on the bench.</param>
public sealed record TappedStage(BuildStage Stage, Identified Found);

/// <summary>A build as known from all that was read: weighed, measured, bent and tapped.</summary>
/// <param name="Board">The board, wished shape, as known now.</param>
/// <param name="Taps">What taps and bending at its stages said.</param>
public sealed record KnownBuild(Board Board, IReadOnlyList<TappedStage> Taps);

/// <summary>Takes taps on the half-built or finished board and its bending over two supports into what is known of its woods and core, stage after stage.</summary>
/// <remarks>
/// At each stage the board is taken as it lies there (<see cref="BoardOnBench"/>) from what was read until then, and fitted; its woods and core sheet then have the medians and spreads that the fit found.
/// What the fit found of them together, as stiffness times thickness, is kept in their own spreads alone: intervals of what is built of them come out rather wider than narrower.
/// </remarks>
public static class BuildEvidence
{
    // Of the logarithm of the rim's hold from one stage to the next: judgement.
    private const double RimChanges = 0.2;
    private const string Outer = "outer ", Inner = "inner ", Core = "core G";

    /// <summary>The board from all that was read.</summary>
    /// <param name="wish">The board as wished.</param>
    /// <param name="areas">Its areas.</param>
    /// <param name="margin">Of the blank, m.</param>
    /// <param name="readings">Readings in force.</param>
    /// <param name="progress">Told that taps are fitted, and its share.</param>
    /// <returns>The board, and one fit a stage that was tapped or bent; of a board without an outline neither says anything.</returns>
    /// <exception cref="Plates.DomainException">The blank cannot be meshed.</exception>
    /// <exception cref="InvalidOperationException">No board fits.</exception>
    public static KnownBuild Of(Board wish, BlankAreas areas, double margin, IReadOnlyList<BuildReading> readings, Action<string, double>? progress = null)
    {
        var taps = new List<TappedStage>();
        var changes = new List<Func<Board, Board>>();
        Board Known(IEnumerable<BuildReading> read) => changes.Aggregate(BuiltBoard.Of(wish, areas, [.. read]), (board, change) => change(board));
        BuildStage[] stages = [.. readings.Where(r => wish.Shape is not null && IsEvidence(r) && r.Stage >= BuildStage.FirstBond).Select(r => r.Stage).Distinct().Order()];
        foreach (BuildStage stage in stages)
        {
            progress?.Invoke("taps and bending fitted", (double)taps.Count / stages.Length);
            BuildReading[] before = [.. readings.Where(r => r.Stage <= stage)];
            bool half = stage < BuildStage.SecondBond;
            Board board = Known(before);
            Board bench = BoardOnBench.At(half ? board with { Adhesive = BuiltBoard.FirstBond(wish, areas, before) } : board, stage, margin);
            var evidence = PieceEvidence.OfBoard(bench, Read(stage, before));
            PieceBefore with = Held(evidence.Before with { Properties = [.. evidence.Before.Properties, .. Properties(half)] }, taps.LastOrDefault(t => t.Stage >= BuildStage.OnRim)?.Found);
            Identified found = Identify.Run(with, evidence.Observed);
            taps.Add(new(stage, found));
            changes.Add(b => With(b, bench.Tapped(), found));
        }

        return new(Known(readings), taps);
    }

    // What an earlier fit found of the rim's hold; finish and strings may have changed it since.
    private static PieceBefore Held(PieceBefore before, Identified? earlier)
    {
        if (earlier?.Properties.FirstOrDefault(p => p.Property.Symbol == SampleInputs.RimSymbol) is not { } rim) { return before; }
        double spread = Math.Sqrt(rim.Found.Spread * rim.Found.Spread + RimChanges * RimChanges);
        return before with
        {
            Start = (BoardSample)before.Start with { RimShift = ((BoardSample)earlier.Best).RimShift },
            Inputs = [.. before.Inputs.Select(i => i.Name == SampleInputs.RimsHold ? i with { Spread = spread } : i)],
        };
    }

    private static bool IsEvidence(BuildReading r) => r.Quantity == BuildQuantity.Tones || r.Bending is not null;

    private static IReadOnlyList<Reading> Read(BuildStage stage, IReadOnlyList<BuildReading> before)
    {
        BuildReading[] own = [.. before.Where(r => r.Stage == stage)];
        // On the rim the scale has no board of its own any more.
        return
        [
            .. own.Where(r => r.Quantity == BuildQuantity.BoardMass && stage < BuildStage.OnRim).TakeLast(1).Select(r => new Weighing(Estimate.FromSd(r.Mean, r.Deviation))),
            .. own.Select(r => r.Bending).OfType<BendingReading>(),
            .. own.Where(r => r.Quantity == BuildQuantity.Tones).TakeLast(1).Select(r => new TapReading([.. r.Values.Order().Select(f => new Tone(new(f, r.Deviation / f)))])),
        ];
    }

    private static IEnumerable<SampleProperty> Properties(bool half) =>
    [
        .. OfWood(Outer, b => b.Outer.Wood),
        .. half ? [] : OfWood(Inner, b => b.Inner.Wood),
        .. half ? Array.Empty<SampleProperty>() : [Own("core shear", Core, b => b.Core.Material.ShearRibbon.Value)],
    ];

    private static IEnumerable<SampleProperty> OfWood(string of, Func<Board, Wood> wood) =>
    [
        Own($"{of}skin, density", $"{of}rho", b => wood(b).Density.Value),
        Own($"{of}skin, stiffness along the grain", $"{of}E_L", b => wood(b).EL.Value),
        Own($"{of}skin, stiffness across the grain", $"{of}E_R", b => wood(b).ER),
        Own($"{of}skin, shear in the plate", $"{of}G_LR", b => wood(b).Glr),
    ];

    private static SampleProperty Own(string name, string symbol, Func<Board, double> of) => new(name, symbol, s => of(((BoardSample)s).Board));

    private static Board With(Board board, Board before, Identified found)
    {
        Board best = ((BoardSample)found.Best).Board, tapped = board.Tapped();
        Board outer = tapped with { Outer = Of(tapped.Outer, before.Outer, best.Outer, Outer) };
        if (best.IsHalfBuilt) { return outer; }
        CoreMaterial core = tapped.Core.Material;
        return outer with
        {
            Inner = Of(tapped.Inner, before.Inner, best.Inner, Inner),
            Core = tapped.Core with
            {
                Height = Moved(tapped.Core.Height, before.Core.Height, best.Core.Height),
                Material = core with
                {
                    ShearRibbon = Moved(core.ShearRibbon, before.Core.Material.ShearRibbon, best.Core.Material.ShearRibbon) with { Spread = Spread(Core) },
                    ShearAcross = Moved(core.ShearAcross, before.Core.Material.ShearAcross, best.Core.Material.ShearAcross),
                },
            },
        };

        Skin Of(Skin now, Skin then, Skin found, string of) => now with { Thickness = Moved(now.Thickness, then.Thickness, found.Thickness), Wood = WoodOf(now.Wood, then.Wood, found.Wood, of) };

        Wood WoodOf(Wood now, Wood then, Wood best, string of) => Identified.WithSpreads(
            now with
            {
                Density = Moved(now.Density, then.Density, best.Density),
                EL = Moved(now.EL, then.EL, best.EL),
                ErOverEl = Moved(now.ErOverEl, then.ErOverEl, best.ErOverEl),
                GlrOverEl = Moved(now.GlrOverEl, then.GlrOverEl, best.GlrOverEl),
            },
            symbol => Spread(of + symbol));

        double Spread(string symbol) => found.Properties.First(p => p.Property.Symbol == symbol).Found.Spread;

        // As a factor on what is known now: since the taps, some of it may have been sanded off.
        static Estimate Moved(Estimate now, Estimate then, Estimate found) => now.Times(found.Value / then.Value);
    }
}
