using SandwichMech.Core.Identification;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Materials;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Building;

/// <summary>A board as its build has made it so far: what was read goes before what was wished.</summary>
public static class BuiltBoard
{
    // A bond keeps something, and never all that was mixed.
    private const double LeastShare = 0.01, MostShare = 0.99;
    // A skin that was not sanded through.
    private const double MostSanded = 0.9;

    /// <summary>The board as known.</summary>
    /// <param name="wish">The board as wished.</param>
    /// <param name="areas">Its areas.</param>
    /// <param name="readings">Readings in force.</param>
    /// <returns>Thicknesses and densities of what was measured and weighed, the adhesive of both bonds as kept, or as expected where a bond is still to come, and the outer skin less what was sanded off it.</returns>
    public static Board Of(Board wish, BlankAreas areas, IReadOnlyList<BuildReading> readings)
    {
        Board parts = Parts(wish, areas, readings);
        Board bonded = parts with { Adhesive = AdhesiveOf(parts, wish, areas, readings, BuildStage.FirstBond, BuildStage.SecondBond) };
        Board sanded = SandedOff(bonded, areas, readings) is { } off ? bonded with { Outer = bonded.Outer with { Thickness = Less(bonded.Outer.Thickness, off) } } : bonded;
        return readings.LastOrDefault(r => r.Quantity == BuildQuantity.FinishMass) is { } finish ? sanded with { Outer = sanded.Outer with { Wood = Under(sanded.Outer, finish.Mean / areas.Board) } } : sanded;
    }

    /// <summary>The adhesive as its first bond line alone has it, for the half-built board.</summary>
    /// <param name="wish">The board as wished.</param>
    /// <param name="areas">Its areas.</param>
    /// <param name="readings">Readings in force.</param>
    /// <returns>The adhesive.</returns>
    public static Adhesive FirstBond(Board wish, BlankAreas areas, IReadOnlyList<BuildReading> readings) => AdhesiveOf(Parts(wish, areas, readings), wish, areas, readings, BuildStage.FirstBond);

    /// <summary>What was sanded off the outer skin: by the board's thickness before and after, or by what it weighs less.</summary>
    /// <param name="board">The board as bonded.</param>
    /// <param name="areas">Its areas.</param>
    /// <param name="readings">Readings in force.</param>
    /// <returns>m, with its standard deviation; nothing while nothing was read of it.</returns>
    public static (double Off, double Deviation)? SandedOff(Board board, BlankAreas areas, IReadOnlyList<BuildReading> readings)
    {
        BuildReading? At(BuildStage stage, BuildQuantity quantity) => readings.LastOrDefault(r => r.Stage == stage && r.Quantity == quantity);
        if (At(BuildStage.SecondBond, BuildQuantity.BoardThickness) is { } thick && At(BuildStage.Sanded, BuildQuantity.BoardThickness) is { } thin) { return Between(thick, thin, 1); }
        return At(BuildStage.SecondBond, BuildQuantity.BoardMass) is { } before && At(BuildStage.Sanded, BuildQuantity.BoardMass) is { } after
            ? Between(before, after, board.Outer.Wood.Density.Value * areas.Blank) : null;

        static (double, double) Between(BuildReading before, BuildReading after, double per) =>
            (Math.Max(0, before.Mean - after.Mean) / per, Math.Sqrt(before.Deviation * before.Deviation + after.Deviation * after.Deviation) / per);
    }

    private static Board Parts(Board wish, BlankAreas areas, IReadOnlyList<BuildReading> readings)
    {
        BuildReading? Last(BuildQuantity quantity) => readings.LastOrDefault(r => r.Quantity == quantity && r.Stage <= BuildStage.SecondBond);
        Estimate? Thickness(BuildQuantity quantity) => Last(quantity) is { } r ? MeanThickness.Of(new ThicknessReading(r.Values, r.Deviation)).Mean : null;
        Skin Skin(Skin skin, BuildQuantity thickness, BuildQuantity mass)
        {
            Skin measured = Thickness(thickness) is { } t ? skin with { Thickness = t } : skin;
            return Last(mass) is { } m ? measured with { Wood = Weighed(measured.Wood, Density(m, measured.Thickness, areas.Blank)) } : measured;
        }

        CoreSheet core = Thickness(BuildQuantity.CoreHeight) is { } h ? wish.Core with { Height = h } : wish.Core;
        if (Last(BuildQuantity.CoreMass) is { } coreMass && areas.Core > 0) { core = core with { Material = core.Material with { Density = Density(coreMass, core.Height, areas.Core) } }; }
        Board board = wish with
        {
            Outer = Skin(wish.Outer, BuildQuantity.OuterThickness, BuildQuantity.OuterMass),
            Inner = Skin(wish.Inner, BuildQuantity.InnerThickness, BuildQuantity.InnerMass),
            Core = core,
        };
        return Last(BuildQuantity.LetInMass) is { } letIn && areas.LetIn > 0 ? WithLetIn(board, letIn, Thickness(BuildQuantity.LetInHeight) ?? core.Height, areas.LetIn) : board;
    }

    // All wood let in was weighed together: each wood is as much heavier than thought as all of it is.
    private static Board WithLetIn(Board board, BuildReading mass, Estimate height, double area)
    {
        double thought = board.Shape?.Regions.Select(r => r.Change).OfType<LetInWood>().Select(l => l.Wood.Density.Value).DefaultIfEmpty(0).First() ?? 0;
        if (thought == 0) { return board; }
        double factor = mass.Mean / (thought * height.Value * area), spread = Math.Sqrt(Math.Pow(mass.Deviation / mass.Mean, 2) + height.Spread * height.Spread);
        var known = new Dictionary<Wood, Wood>(ReferenceEqualityComparer.Instance);
        Wood Changed(Wood wood) => known.TryGetValue(wood, out Wood? changed) ? changed : known[wood] = Weighed(wood, new(wood.Density.Value * factor, spread));
        return board with { Shape = board.Shape! with { Regions = [.. board.Shape.Regions.Select(r => r.Change is LetInWood l ? r with { Change = l.InWood(Changed(l.Wood)) } : r)] } };
    }

    // A table's wood that is weighed: denser wood is stiffer, by what goes with density (see InputShifts.ModulusWithDensity). A piece that was tapped or bent is known better by that.
    private static Wood Weighed(Wood wood, Estimate density)
    {
        if (wood.IsTapped || wood.Density.Spread <= density.Spread) { return wood with { Density = density }; }
        const double With = InputShifts.ModulusWithDensity;
        double shift = With * wood.EL.Spread / wood.Density.Spread * Math.Log(density.Value / wood.Density.Value);
        // What density tells of the modulus, for a density known so well.
        double told = With * With * (1 - Math.Pow(density.Spread / wood.Density.Spread, 2));
        return wood with { Density = density, EL = new(wood.EL.Value * Math.Exp(shift), wood.EL.Spread * Math.Sqrt(1 - told)) };
    }

    // One adhesive stands for all bond lines: each as the mean of them.
    private static Adhesive AdhesiveOf(Board board, Board wish, BlankAreas areas, IReadOnlyList<BuildReading> readings, params BuildStage[] bonds)
    {
        var masses = new BuildMasses(board, areas, readings);
        MassPart[] parts = [.. bonds.Select(masses.Kept)];
        double kept = parts.Average(p => p.Value), deviation = Math.Sqrt(parts.Sum(p => p.Deviation * p.Deviation)) / parts.Length;
        double share = Math.Clamp(kept / (wish.Adhesive.Mixed.Value * areas.Blank), LeastShare, MostShare);
        return wish.Adhesive with { Mixed = wish.Adhesive.Mixed with { Spread = 0 }, KeptShare = new(share, deviation / kept) };
    }

    private static Estimate Less(Estimate thickness, (double Off, double Deviation) sanded)
    {
        double left = Math.Max(thickness.Value - sanded.Off, (1 - MostSanded) * thickness.Value);
        return Estimate.FromSd(left, Math.Sqrt(Math.Pow(thickness.Spread * thickness.Value, 2) + sanded.Deviation * sanded.Deviation));
    }

    // Finish is carried as mass on the outer skin, the skin's stiffness as it was: what a thin coat stiffens is not in it.
    private static Wood Under(Skin skin, double finish) => skin.Wood with { Density = skin.Wood.Density.Times(1 + finish / (skin.Wood.Density.Value * skin.Thickness.Value)) };

    private static Estimate Density(BuildReading mass, Estimate thickness, double area) =>
        new(mass.Mean / (area * thickness.Value), Math.Sqrt(Math.Pow(mass.Deviation / mass.Mean, 2) + thickness.Spread * thickness.Spread));
}
