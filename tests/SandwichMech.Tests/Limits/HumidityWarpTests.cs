using SandwichMech.Core.Layups;
using SandwichMech.Core.Limits;
using SandwichMech.Core.Materials;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Tables;

namespace SandwichMech.Tests.Limits;

/// <summary>Warp and locked-in stress when the air changes.</summary>
[Trait("Check", "exact")]
public class HumidityWarpTests
{
    private static readonly Board Demo = BoardFiles.Read(Repository.File("shared", "demo", "board.toml"), MaterialTables.BuiltIn()).Board;
    private static readonly double Bonding = Moisture.Equilibrium(45, 20);

    // Wood Handbook, table 4-3 (from memory): Sitka spruce shrinks 4.3 % radially from green (30 %) to dry, western redcedar 2.4 %.
    [Fact]
    [Trait("Check", "published")]
    public void Wood_grows_by_its_shrinkage()
    {
        Checks.Near(-0.043, Moisture.Growth(0.043, 30, 0), 1e-12);
        Checks.Near(-0.043 * 12 / 30, Moisture.Growth(0.043, 30, 18), 1e-12);
        Checks.Close(0, Moisture.Growth(0.043, 30, 60), 1e-12);
        Checks.Near(1, (1 + Moisture.Growth(0.043, 12, 6)) * (1 + Moisture.Growth(0.043, 6, 12)), 1e-12);
        Checks.Near(0.043, Demo.Inner.Wood.ShrinkageRadial!.Value.Value, 1e-12);
        Checks.Near(0.024, Demo.Outer.Wood.ShrinkageRadial!.Value.Value, 1e-12);
    }

    [Fact]
    public void Skins_alike_stay_flat_but_not_surely()
    {
        Board alike = Demo with { Outer = Demo.Inner };
        HumidityState dry = HumidityWarp.At(alike, new(Bonding, Bonding), 30);
        Checks.Close(0, dry.CurvatureAcross.Value, 1e-12);
        Checks.Close(0, dry.CurvatureAlong.Value, 1e-12);
        Assert.True(dry.CurvatureAcross.High90 > 0.01);
        HumidityState unlike = HumidityWarp.At(alike, new(Bonding - 3, Bonding), 30);
        Assert.True(unlike.CurvatureAcross.Value > 0.1, "The inner skin, wetter when bonded, shrinks more: hollow inside.");
    }

    // The demo board in dry air: the inner spruce shrinks more than the outer cedar, so it becomes hollow inside; in damp air the other way.
    [Fact]
    public void Cedar_over_spruce_bows_both_ways()
    {
        HumidityState dry = HumidityWarp.At(Demo, new(Bonding, Bonding), 30), damp = HumidityWarp.At(Demo, new(Bonding, Bonding), 70);
        Assert.True(dry.CurvatureAcross.Value > 0 && damp.CurvatureAcross.Value < 0);
        Checks.Near(dry.CurvatureAcross.Value * 0.3683 * 0.3683 / 8, dry.BowAcross!.Value, 1e-9);
        LockedStress held = dry.Stresses.Single(s => s.Skin == "inner skin" && s.Restraint == Restraint.Held), free = dry.Stresses.Single(s => s.Skin == "inner skin" && s.Restraint == Restraint.Free);
        // Held: −Q e, both by hand.
        Wood spruce = Demo.Inner.Wood;
        double e = Moisture.Growth(0.043, Bonding, dry.Moisture), along = Moisture.Growth(0.0015, Bonding, dry.Moisture), ratio = spruce.ErOverEl.Value;
        Checks.Near(-spruce.ER * (e + spruce.NuLR * along) / (1 - spruce.NuLR * spruce.NuLR * ratio), held.Across.Value, 1e-9);
        Assert.True(held.Across.Value > free.Across.Value && free.Across.Value > 0);
    }

    // Without a strength there is no margin; a maker's own gives it on the held stress.
    [Fact]
    public void A_held_skin_splits_by_its_own_strength_across()
    {
        HumidityState dry = HumidityWarp.At(Demo, new(Bonding, Bonding), 30);
        Board untested = Demo with { Inner = Demo.Inner with { Wood = Demo.Inner.Wood with { TensionAcross = null } }, Outer = Demo.Outer with { Wood = Demo.Outer.Wood with { TensionAcross = null } } };
        Limit unknown = HumidityWarp.Splitting(untested, dry);
        Assert.Null(unknown.Resistance);
        Checks.Near(dry.Stresses[3].Across.Value, unknown.Load!.Value, 1e-12);
        Wood tested = Demo.Inner.Wood with { TensionAcross = new(2e6, 0.2) };
        Board own = Demo with { Inner = Demo.Inner with { Wood = tested }, Outer = Demo.Outer with { Wood = Demo.Outer.Wood with { TensionAcross = new(2e6, 0.2) } } };
        Limit known = HumidityWarp.Splitting(own, dry);
        Checks.Near(2e6 / unknown.Load.Value, known.Margin!.Value, 1e-12);
        Checks.Within(0.5, 1, known.ChanceExceeded!.Value);
        Assert.Null(HumidityWarp.Splitting(Demo, HumidityWarp.At(Demo, new(Bonding, Bonding), 70)).Load);
    }

    [Fact]
    public void Without_a_shrinkage_nothing_is_said()
    {
        Board norway = Demo with { Outer = Demo.Outer with { Wood = MaterialTables.Find(MaterialTables.BuiltIn().Woods, "Norway spruce")!.Item } };
        Assert.Equal(["Norway spruce"], HumidityWarp.Unknown(norway));
        Assert.Throws<ArgumentException>(() => HumidityWarp.At(norway, new(9, 9), 30));
        Assert.Empty(HumidityWarp.Unknown(Demo));
    }
}
