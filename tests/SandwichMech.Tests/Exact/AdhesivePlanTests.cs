using SandwichMech.Core.Building;
using SandwichMech.Core.Materials;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Exact;

/// <summary>What to mix for a bond line: sums, ratios and limits.</summary>
[Trait("Check", "exact")]
public class AdhesivePlanTests
{
    private const double Area = 0.15;

    private static Adhesive Epoxy => SampleBoard.Epoxy;

    [Fact]
    public void Both_parts_add_up_in_their_ratio_by_mass()
    {
        BondLinePlan plan = AdhesivePlan.Of(Epoxy, Area, null);
        Checks.Near(0.2325 * Area, plan.Mixed, 1e-14);
        Checks.Near(plan.Mixed, plan.Resin!.Value.Mass + plan.Hardener!.Value.Mass, 1e-14);
        Checks.Near(45.0 / 100, plan.Hardener.Value.Mass / plan.Resin.Value.Mass, 1e-14);
    }

    // 100:45 by mass with 1150 and 1035 kg/m³ is 2:1 by volume.
    [Fact]
    public void Both_parts_are_in_their_ratio_by_volume()
    {
        BondLinePlan plan = AdhesivePlan.Of(Epoxy, Area, null);
        Checks.Near(2, plan.Resin!.Value.Volume!.Value / plan.Hardener!.Value.Volume!.Value, 1e-12);
    }

    [Fact]
    public void A_part_without_density_has_no_volume_and_one_part_glue_has_no_parts()
    {
        Assert.Null(AdhesivePlan.Of(Epoxy with { ResinDensity = null }, Area, null).Resin!.Value.Volume);
        BondLinePlan onePart = AdhesivePlan.Of(Epoxy with { HardenerParts = null }, Area, null);
        Assert.Equal((null, null), (onePart.Resin, onePart.Hardener));
    }

    [Fact]
    public void Kept_and_left_over_are_the_mixed_mass()
    {
        BondLinePlan plan = AdhesivePlan.Of(Epoxy, Area, null);
        Checks.Near(plan.Mixed / 2, plan.Kept.Value, 1e-14);
        Checks.Near(plan.Mixed, plan.Kept.Value + plan.LeftOver, 1e-14);
    }

    // A share spreads in its odds: ln(p/(1 − p)) is normal, with the spread of ln p over 1 − p. Half kept: odds 1.
    [Fact]
    public void The_interval_of_the_kept_mass_is_that_of_the_shares_odds()
    {
        BondLinePlan plan = AdhesivePlan.Of(Epoxy, Area, null);
        double spread = Math.Sqrt(Math.Log(1 + 0.2 * 0.2));
        double odds90 = Math.Exp(1.644853626951473 * spread / 0.5), odds50 = Math.Exp(0.674489750196082 * spread / 0.5);
        Checks.Near(plan.Mixed * odds90 / (1 + odds90), plan.Kept.High90, 1e-12);
        Checks.Near(plan.Mixed / (1 + odds90), plan.Kept.Low90, 1e-12);
        Checks.Near(plan.Mixed * odds50 / (1 + odds50), plan.Kept.High50, 1e-12);
        Checks.Near(plan.Mixed / (1 + odds50), plan.Kept.Low50, 1e-12);
        Checks.Near(1, Assert.Single(plan.Kept.MostlyFrom).Share, 0);
    }

    [Fact]
    public void The_bead_is_as_long_as_the_mixed_mass_lasts()
    {
        BondLinePlan plan = AdhesivePlan.Of(Epoxy, Area, new Bead(2.5e-3, 0.5));
        Checks.Near(0.2325 * 0.15 / (2.5e-3 * 0.5), plan.BeadLines!.Value, 1e-12);
        Assert.Null(AdhesivePlan.Of(Epoxy, Area, null).BeadLines);
    }

    // What stays in the board was mixed first. Shares near 1 are rare but possible: a brush straight from the cup.
    [Theory]
    [InlineData(0.5)]
    [InlineData(0.8)]
    [InlineData(0.95)]
    [InlineData(0.9999)]
    public void No_more_is_kept_than_was_mixed(double share)
    {
        BondLinePlan plan = AdhesivePlan.Of(Epoxy with { KeptShare = Estimate.FromCv(share, 0.2) }, Area, null);
        Checks.Within(plan.Kept.Value, plan.Kept.High90, plan.Kept.High50);
        Checks.Within(plan.Kept.High50, plan.Mixed, plan.Kept.High90);
        Checks.Within(plan.Kept.Low90, plan.Kept.Value, plan.Kept.Low50);
    }

    [Fact]
    public void All_kept_for_sure_leaves_nothing_over()
    {
        BondLinePlan plan = AdhesivePlan.Of(Epoxy with { KeptShare = new(1, 0.2) }, Area, null);
        Assert.Equal((plan.Mixed, plan.Mixed, 0), (plan.Kept.Low90, plan.Kept.High90, plan.LeftOver));
    }
}
