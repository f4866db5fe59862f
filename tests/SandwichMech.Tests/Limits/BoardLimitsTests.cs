using SandwichMech.Core.Layups;
using SandwichMech.Core.Limits;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Tests.Published;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Tables;

namespace SandwichMech.Tests.Limits;

/// <summary>The limits of the demo board.</summary>
[Trait("Check", "exact")]
public class BoardLimitsTests
{
    private static readonly MaterialTables Tables = MaterialTables.BuiltIn();
    private static readonly Board Demo = BoardFiles.Read(Repository.File("shared", "demo", "board.toml"), Tables).Board;

    // Invented line loads of the size that strings bring before a bridge.
    private static readonly BoardLoads Loads = new()
    {
        Places = [new("before the bridge") { Force = new(-700, 0, 0), Moment = new(-6, -1, 0.5), ShearAlong = 150 }, new("behind the bridge") { Moment = new(5, 1, 0), ShearAlong = -120, ShearAcross = 60 }],
    };

    // Hexcel, HexWeb Honeycomb Attributes and Properties, p. 30: bare 1/8-1.8 typical 105, least 85 psi; an atmosphere is 101.325 kPa.
    [Fact]
    [Trait("Check", "published")]
    public void The_core_bears_the_vacuum_by_its_bare_strength()
    {
        Limit crush = Named(BoardLimits.Of(Demo, new()), "core crushing under vacuum");
        Checks.Near(105 * 6894.757 / 101_325, crush.Margin!.Value, 2e-3);
        Checks.Printed("5.8", Demo.Core.Material.BareStrengthMinimum!.Value / 101_325);
        Assert.Contains("least 0.586 MPa", crush.Notes[0], StringComparison.Ordinal);
    }

    [Fact]
    public void What_no_source_gives_is_not_known()
    {
        // A wood whose strengths no table gives.
        Core.Materials.Wood untested = Demo.Outer.Wood with { CompressionAlong = null, TensionAcross = null };
        Board other = Demo with { Core = Demo.Core with { Material = MaterialTables.Find(Tables.Cores, "aramid honeycomb 3.2-64")!.Item }, Outer = Demo.Outer with { Wood = untested }, Inner = Demo.Inner with { Wood = untested } };
        LimitReport report = BoardLimits.Of(other, Loads);
        Limit crush = Named(report, "core crushing under vacuum");
        Assert.Null(crush.Resistance);
        Assert.Null(crush.ChanceExceeded);
        Assert.NotNull(crush.Load);
        Assert.Contains(report.NotKnown, l => l.Name == "skin tension across the grain");
        Assert.Contains(report.NotKnown, l => l.Name == "skin compression along the grain");
        Assert.DoesNotContain(report.Governing, report.NotKnown);
    }

    [Fact]
    public void Without_loads_resistances_stand_alone()
    {
        LimitReport report = BoardLimits.Of(Demo, new());
        Limit along = Named(report, "skin wrinkling along");
        Assert.Null(along.Load);
        Ply cedar = Demo.Plies()[4], core = Demo.Plies()[2];
        Checks.Near(SkinBuckling.Wrinkling(cedar.E1, Demo.Core.Material.CompressionModulus!.Value.Value, core.G13), along.Resistance!.Value, 1e-9);
        Assert.Contains("made for thick cores", along.Notes[0], StringComparison.Ordinal);
    }

    [Fact]
    public void The_governing_limit_is_the_likeliest_and_margin_is_resistance_over_load()
    {
        LimitReport report = BoardLimits.Of(Demo, Loads);
        foreach (Limit l in report.Limits.Where(l => l.Margin is not null))
        {
            Checks.Near(l.Resistance!.Value / l.Load!.Value, l.Margin!.Value, 1e-9, l.Name);
            Assert.True(l.ChanceExceeded <= report.Governing!.ChanceExceeded, l.Name);
            Assert.NotEqual("", l.Source);
        }

        // Twice the loads, half the margin of all that comes from strings.
        LimitReport twice = BoardLimits.Of(Demo, Loads with { Places = [.. Loads.Places.Select(p => p with { Force = p.Force * 2, Moment = p.Moment * 2, ShearAlong = 2 * p.ShearAlong, ShearAcross = 2 * p.ShearAcross })] });
        foreach (string name in new[] { "skin wrinkling along", "skin dimpling over the cells", "core shear", "skin tension along the grain", "shear crimping of the board" })
        {
            Checks.Near(Named(report, name).Margin!.Value / 2, Named(twice, name).Margin!.Value, 1e-9, name);
        }
    }

    // τ = V/(b d) by hand, the ribbon along: 150/d before the bridge, 60/d across it behind.
    [Fact]
    public void The_core_shears_by_force_over_the_skins_distance()
    {
        IReadOnlyList<Ply> p = Demo.Plies();
        double d = p[2].Thickness + p[1].Thickness + p[3].Thickness + (p[0].Thickness + p[4].Thickness) / 2;
        Limit shear = Named(BoardLimits.Of(Demo, Loads), "core shear");
        double along = 0.62e6 / (150 / d), across = 0.34e6 / (60 / d);
        Checks.Near(Math.Min(along, across), shear.Margin!.Value, 1e-9);
        Assert.Contains("before the bridge", shear.Governing, StringComparison.Ordinal);
    }

    [Fact]
    public void A_foam_core_has_no_cells_to_dimple_over()
    {
        Board foam = Demo with { Core = Demo.Core with { Material = MaterialTables.Find(Tables.Cores, "PVC foam 80")!.Item } };
        LimitReport report = BoardLimits.Of(foam, Loads);
        Assert.DoesNotContain(report.Limits, l => l.Name.Contains("cells", StringComparison.Ordinal));
        Checks.Near(1.45e6 / 101_325, Named(report, "core crushing under vacuum").Margin!.Value, 1e-9);
    }

    // The chance of exceeding against drawing each input from its distribution, all inputs of skins, core and adhesive at once.
    [Fact]
    [Trait("Check", "independent")]
    public void The_chance_of_exceeding_is_that_of_drawn_boards()
    {
        BoardLoads heavy = new() { Places = [new("here") { Moment = new(-210, 0, 0) }] };
        Limit limit = Named(BoardLimits.Of(Demo, heavy), "skin wrinkling along");
        var source = new Random(7);
        double Normal() => MathNet.Numerics.Distributions.Normal.Sample(source, 0, 1);
        const int draws = 6000;
        int exceeded = 0;
        for (int i = 0; i < draws; i++)
        {
            Board b = InputShifts.OfLayup(Demo).Aggregate(Demo, (board, input) => input.Shift(board, input.Spread * Normal()));
            Estimate e = Demo.Core.Material.CompressionModulus!.Value;
            double wrinkle = SkinBuckling.Wrinkling(b.Outer.Wood.EL.Value, e.Value * Math.Exp(e.Spread * Normal()), b.Core.Material.ShearRibbon.Value) * Math.Exp(0.15 * Normal());
            InPlane stress = LaminateState.Under(b.Laminate(), default, new(-210, 0, 0)).Stress(4, 0.5);
            exceeded += -stress.X * Math.Exp(heavy.Spread * Normal()) > wrinkle ? 1 : 0;
        }

        Checks.Within(0.05, 0.95, limit.ChanceExceeded!.Value, "a case that tells something");
        Checks.Close(exceeded / (double)draws, limit.ChanceExceeded!.Value, 0.025);
    }

    // Wood Handbook, table 5-3b (FPL-GTR-282), psi at 12 %: bending strength, compression across and along the grain, tension across it (0: not printed).
    [Theory]
    [Trait("Check", "published")]
    [InlineData("Sitka spruce", 10200, 580, 5610, 370)]
    [InlineData("Engelmann spruce", 9300, 410, 4480, 350)]
    [InlineData("white spruce", 9400, 430, 5180, 360)]
    [InlineData("red spruce", 10800, 550, 5540, 350)]
    [InlineData("western redcedar", 7500, 460, 4560, 220)]
    [InlineData("redwood old growth", 10000, 700, 6150, 240)]
    [InlineData("Port-Orford-cedar", 12700, 720, 6250, 400)]
    [InlineData("yellow-cedar", 11100, 620, 6310, 360)]
    [InlineData("northern white-cedar", 6500, 310, 3960, 240)]
    [InlineData("Douglas-fir", 12400, 800, 7230, 340)]
    [InlineData("subalpine fir", 8600, 390, 4860, 0)]
    [InlineData("western white pine", 9700, 470, 5040, 0)]
    [InlineData("sugar maple", 15800, 1470, 7830, 0)]
    [InlineData("basswood", 8700, 370, 4730, 350)]
    [InlineData("yellow-poplar", 10100, 500, 5540, 540)]
    public void Strengths_of_the_table_are_the_handbooks(string wood, double bending, double across, double along, double tension)
    {
        Checks.Printed(WoodTable.Text(wood, "bending_strength_mpa"), bending * 0.006894757, what: wood);
        Checks.Printed(WoodTable.Text(wood, "compression_across_mpa"), across * 0.006894757, what: wood);
        Checks.Printed(WoodTable.Text(wood, "compression_along_mpa"), along * 0.006894757, what: wood);
        if (tension == 0) { Assert.Equal("", WoodTable.Text(wood, "tension_across_mpa")); }
        else { Checks.Printed(WoodTable.Text(wood, "tension_across_mpa"), tension * 0.006894757, what: wood); }
    }

    private static Limit Named(LimitReport report, string name) => report.Limits.Single(l => l.Name == name);
}
