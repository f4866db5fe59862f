using SandwichMech.Core.Identification;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Building;

/// <summary>A board as its build has made it so far: what was read goes before what was wished.</summary>
public static class BuiltBoard
{
    /// <summary>The board as known.</summary>
    /// <param name="wish">The board as wished.</param>
    /// <param name="areas">Its areas.</param>
    /// <param name="readings">Readings in force.</param>
    /// <returns>Thicknesses and densities of what was measured and weighed; the adhesive of both bonds as kept, or as expected where a bond is still to come.</returns>
    public static Board Of(Board wish, BlankAreas areas, IReadOnlyList<BuildReading> readings)
    {
        BuildReading? Last(BuildQuantity quantity) => readings.LastOrDefault(r => r.Quantity == quantity && r.Stage <= BuildStage.SecondBond);
        Estimate? Thickness(BuildQuantity quantity) => Last(quantity) is { } r ? MeanThickness.Of(new ThicknessReading(r.Values, r.Deviation)).Mean : null;
        Skin Skin(Skin skin, BuildQuantity thickness, BuildQuantity mass)
        {
            Skin measured = Thickness(thickness) is { } t ? skin with { Thickness = t } : skin;
            return Last(mass) is { } m ? measured with { Wood = measured.Wood with { Density = Density(m, measured.Thickness, areas.Blank) } } : measured;
        }

        CoreSheet core = Thickness(BuildQuantity.CoreHeight) is { } h ? wish.Core with { Height = h } : wish.Core;
        if (Last(BuildQuantity.CoreMass) is { } coreMass && areas.Core > 0) { core = core with { Material = core.Material with { Density = Density(coreMass, core.Height, areas.Core) } }; }
        Board board = wish with
        {
            Outer = Skin(wish.Outer, BuildQuantity.OuterThickness, BuildQuantity.OuterMass),
            Inner = Skin(wish.Inner, BuildQuantity.InnerThickness, BuildQuantity.InnerMass),
            Core = core,
        };
        var masses = new BuildMasses(board, areas, readings);
        (MassPart first, MassPart second) = (masses.Kept(BuildStage.FirstBond), masses.Kept(BuildStage.SecondBond));
        // One adhesive stands for both bond lines: each as their mean.
        double kept = (first.Value + second.Value) / 2, deviation = Math.Sqrt(first.Deviation * first.Deviation + second.Deviation * second.Deviation) / 2;
        double share = Math.Clamp(kept / (wish.Adhesive.Mixed.Value * areas.Blank), 0.01, 0.99);
        return board with { Adhesive = board.Adhesive with { Mixed = board.Adhesive.Mixed with { Spread = 0 }, KeptShare = new(share, deviation / kept) } };
    }

    private static Estimate Density(BuildReading mass, Estimate thickness, double area) =>
        new(mass.Mean / (area * thickness.Value), Math.Sqrt(Math.Pow(mass.Deviation / mass.Mean, 2) + thickness.Spread * thickness.Spread));
}
