using SandwichMech.Core.Building;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Outlines;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Tables;

namespace SandwichMech.Tests.Building;

/// <summary>Masses of a build, verdicts, kept shares and areas.</summary>
[Trait("Check", "exact")]
public class BuildMassesTests
{
    private static readonly Board Demo = BoardFiles.Read(Repository.File("shared", "demo", "outline.toml"), MaterialTables.BuiltIn()).Board;
    private static readonly BlankAreas Areas = BlankAreas.Of(Demo, 0.01);

    // Common practice, no source: mixed at about 36 g, 128 g dry, 145 g cured, 144 g after let-in wood went from 0.065 to 0.060 in.
    [Fact]
    public void A_bond_that_gained_17_g_of_36_kept_47_percent_and_levelling_took_a_gram()
    {
        BuildReading[] read =
        [
            Mass(BuildStage.Skins, BuildQuantity.OuterMass, 128), Mass(BuildStage.FirstBond, BuildQuantity.AdhesiveMixed, 36), Mass(BuildStage.FirstBond, BuildQuantity.BoardMass, 145),
            Mass(BuildStage.Skins, BuildQuantity.CoreMass, 1e-6), Mass(BuildStage.Skins, BuildQuantity.LetInMass, 1e-6),
            Height(BuildQuantity.CoreHeight, 0.060), Height(BuildQuantity.LetInHeight, 0.065),
        ];
        var masses = new BuildMasses(Demo, Areas, read);
        BondBalance bond = masses.Balance(BuildStage.FirstBond)!;
        Checks.Close(0.017, bond.Gain, 1e-8);
        Checks.Close(17.0 / 36, bond.Share!.Value, 1e-6);
        // What stands proud comes off: its height times the wood's density and area.
        double off = 0.005 * 0.0254 * Demo.Shape!.Regions.Select(r => r.Change).OfType<LetInWood>().First().Wood.Density.Value * Areas.LetIn;
        Checks.Close(0.145 - off, masses.Expected(BuildStage.Levelled)[0].Reading.Value, 1e-8);
        Checks.Within(0.7e-3, 3e-3, off, "about a gram, as on the bench");
    }

    // 1 % of moisture in 128 g of wood is 1.2 g to 1.3 g; kept is gain and water lost.
    [Fact]
    public void What_the_witness_lost_the_wood_lost_too_and_the_adhesive_is_more_by_it()
    {
        BuildReading[] dry = [Mass(BuildStage.Skins, BuildQuantity.OuterMass, 100), Mass(BuildStage.Skins, BuildQuantity.CoreMass, 6), Mass(BuildStage.Skins, BuildQuantity.LetInMass, 28), Mass(BuildStage.FirstBond, BuildQuantity.BoardMass, 150)];
        BuildReading[] wet = [.. dry, Mass(BuildStage.Skins, BuildQuantity.WitnessBefore, 50), Mass(BuildStage.FirstBond, BuildQuantity.WitnessAfter, 49.5)];
        (BondBalance without, BondBalance with) = (new BuildMasses(Demo, Areas, dry).Balance(BuildStage.FirstBond)!, new BuildMasses(Demo, Areas, wet).Balance(BuildStage.FirstBond)!);
        Checks.Close(0.016, without.Kept.Value, 1e-9);
        Checks.Close(0.016 + 0.128 * 0.01, with.Kept.Value, 1e-9);
        Assert.Null(without.WaterLost);
        Assert.True(with.Kept.Deviation < without.Kept.Deviation);
    }

    // By hand: 100 + 28 g of wood less 1 g levelled off and 60 g of inner skin lose 1 %; the core and the adhesive of the first bond lose nothing.
    [Fact]
    public void In_the_second_bond_core_and_cured_adhesive_lose_no_water()
    {
        BuildReading[] read =
        [
            Mass(BuildStage.Skins, BuildQuantity.OuterMass, 100), Mass(BuildStage.Skins, BuildQuantity.CoreMass, 6), Mass(BuildStage.Skins, BuildQuantity.LetInMass, 28), Mass(BuildStage.FirstBond, BuildQuantity.BoardMass, 150),
            Mass(BuildStage.Levelled, BuildQuantity.BoardMass, 149), Mass(BuildStage.SecondBond, BuildQuantity.InnerMass, 60), Mass(BuildStage.SecondBond, BuildQuantity.BoardMass, 222),
            Mass(BuildStage.SecondBond, BuildQuantity.WitnessBefore, 50), Mass(BuildStage.SecondBond, BuildQuantity.WitnessAfter, 49.5),
        ];
        BondBalance bond = new BuildMasses(Demo, Areas, read).Balance(BuildStage.SecondBond)!;
        Checks.Close(0.013, bond.Gain, 1e-9);
        Checks.Close(0.00187, bond.WaterLost!.Value, 1e-9);
        Checks.Close(0.01487, bond.Kept.Value, 1e-9);
    }

    [Fact]
    public void The_bonded_board_is_as_thick_as_its_parts_and_a_thick_one_is_questioned()
    {
        BuildReading At(BuildStage stage, BuildQuantity quantity, double mm) => new(stage, quantity, [mm * 1e-3], 1.2e-5);
        BuildReading[] read = [At(BuildStage.Skins, BuildQuantity.OuterThickness, 0.76), At(BuildStage.Skins, BuildQuantity.CoreHeight, 1.81), At(BuildStage.Skins, BuildQuantity.LetInHeight, 1.86), At(BuildStage.SecondBond, BuildQuantity.InnerThickness, 0.55)];
        var masses = new BuildMasses(Demo, Areas, read);
        ExpectedReading whole = masses.Thicknesses(BuildStage.SecondBond).Single(t => t.Quantity == BuildQuantity.BoardThickness);
        Checks.Close((0.76 + 1.81 + 0.55) * 1e-3 + 2 * Demo.Adhesive.FilmThickness, whole.Reading.Value, 1e-9);
        Checks.Close(0.05e-3, masses.Levelling!.Value.Proud, 1e-9);
        Assert.Equal(Verdict.Go, BuildVerdicts.Of(masses, read, At(BuildStage.SecondBond, BuildQuantity.BoardThickness, 3.22)).Verdict);
        JudgedReading thick = BuildVerdicts.Of(masses, read, At(BuildStage.SecondBond, BuildQuantity.BoardThickness, 3.6));
        Assert.Equal(Verdict.Stop, thick.Verdict);
        Assert.Contains("more than is likely", thick.Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0.0845, Verdict.Go)]
    [InlineData(0.0700, Verdict.Stop)]
    [InlineData(0.1200, Verdict.Stop)]
    public void A_bond_is_judged_by_what_went_into_it(double cured, Verdict verdict)
    {
        BuildReading[] before = [Mass(BuildStage.Skins, BuildQuantity.OuterMass, 41), Mass(BuildStage.Skins, BuildQuantity.CoreMass, 6), Mass(BuildStage.Skins, BuildQuantity.LetInMass, 20), Mass(BuildStage.FirstBond, BuildQuantity.AdhesiveMixed, 36)];
        JudgedReading judged = BuildVerdicts.Of(new(Demo, Areas, before), before, Mass(BuildStage.FirstBond, BuildQuantity.BoardMass, cured * 1000) with { Deviation = 3e-5 });
        Assert.Equal(verdict, judged.Verdict);
        if (verdict == Verdict.Stop) { Assert.Contains(cured < 0.08 ? "less" : "more", judged.Reason, StringComparison.Ordinal); }
    }

    [Fact]
    public void What_cannot_be_is_stopped()
    {
        BuildReading bonded = Mass(BuildStage.FirstBond, BuildQuantity.BoardMass, 90), core = Height(BuildQuantity.CoreHeight, 0.070);
        Assert.Contains("gained mass", Judge([bonded], Mass(BuildStage.Levelled, BuildQuantity.BoardMass, 91)).Reason, StringComparison.Ordinal);
        Assert.Contains("lower than the core", Judge([core], Height(BuildQuantity.LetInHeight, 0.060)).Reason, StringComparison.Ordinal);
        Assert.Contains("no bond takes mass away", Judge([Mass(BuildStage.Skins, BuildQuantity.OuterMass, 60)], Mass(BuildStage.FirstBond, BuildQuantity.BoardMass, 55)).Reason, StringComparison.Ordinal);
        static JudgedReading Judge(BuildReading[] before, BuildReading now)
        {
            JudgedReading j = BuildVerdicts.Of(new(Demo, Areas, before), before, now);
            Assert.Equal(Verdict.Stop, j.Verdict);
            return j;
        }
    }

    [Fact]
    public void A_round_blank_is_the_circle_with_its_margin()
    {
        const double r = 0.2, m = 0.012;
        Curve circle = Shapes.Circle(new(r, 0), r);
        Board board = Demo with { Shape = Demo.Shape! with { Outline = circle, Holes = [], Regions = [], Parts = [new([], [new(new(r, 0), Math.PI * r * r)])] } };
        Checks.Near(Math.PI * (r + m) * (r + m), BlankAreas.Of(board, m).Blank, 1e-6);
    }

    [Fact]
    public void With_an_edge_band_the_margin_is_let_in_wood_and_without_one_core()
    {
        BlankAreas none = BlankAreas.Of(Demo, 0);
        Checks.Near(Areas.Blank - none.Blank, Areas.LetIn - none.LetIn, 1e-9);
        Board bare = Demo with { Shape = Demo.Shape! with { Regions = [] } };
        Board plain = bare with { Shape = bare.Shape! with { Parts = [new([], [new(new(0.2, 0), bare.Shape.Area)])] } };
        Assert.Equal(0, BlankAreas.Of(plain, 0.01).LetIn);
    }

    // d2 = 1.128 for two, so 3/d2 = 2.660: the factor of charts of single values in every table (ISO 7870-2; from memory).
    [Fact]
    [Trait("Check", "published")]
    public void The_chart_of_single_values_has_the_factor_of_the_tables()
    {
        Checks.Printed("2.66", KeptShares.Factor);
        var chart = KeptShares.Of([0.50, 0.48, 0.52, 0.49, 0.80]);
        Checks.Near(0.558, chart.Mean, 1e-9);
        Checks.Near(0.558 + KeptShares.Factor * (0.02 + 0.04 + 0.03 + 0.31) / 4, chart.High, 1e-9);
        Assert.Empty(KeptShares.Of([0.5, 0.5, 0.5]).Out);
        Assert.Equal([4], KeptShares.Of([0.50, 0.49, 0.50, 0.51, 0.90, 0.50, 0.49, 0.51, 0.50, 0.49, 0.50, 0.51]).Out);
    }

    [Fact]
    public void Three_bonds_teach_the_shops_own_share_and_two_do_not()
    {
        var table = new Estimate(0.5, 0.2);
        Assert.Equal(table, KeptShares.Next([0.4, 0.42], table));
        Estimate own = KeptShares.Next([0.40, 0.42, 0.41, 0.43, 0.39, 0.41, 0.40, 0.42], table);
        Checks.Near(0.41, own.Value, 1e-9);
        Checks.Within(0.03, 0.06, own.Spread);
    }

    [Fact]
    public void What_was_measured_goes_before_what_was_wished()
    {
        BuildReading[] read = [Mass(BuildStage.Skins, BuildQuantity.OuterMass, 45), Height(BuildQuantity.OuterThickness, 0.030), Height(BuildQuantity.CoreHeight, 0.071)];
        Board known = BuiltBoard.Of(Demo, Areas, read);
        Checks.Near(0.030 * 0.0254, known.Outer.Thickness.Value, 1e-9);
        Checks.Near(0.045 / (Areas.Blank * 0.030 * 0.0254), known.Outer.Wood.Density.Value, 1e-9);
        Checks.Near(0.071 * 0.0254, known.Core.Height.Value, 1e-9);
        Assert.Equal(Demo.Inner, known.Inner);
        Assert.True(known.Outer.Wood.Density.Spread < Demo.Outer.Wood.Density.Spread);
    }

    private static BuildReading Mass(BuildStage stage, BuildQuantity quantity, double grams) => new(stage, quantity, [grams / 1000], 2.9e-5);

    private static BuildReading Height(BuildQuantity quantity, double inch) => new(BuildStage.Skins, quantity, [inch * 0.0254], 1.2e-5);
}
