using SandwichMech.Core.Acoustics;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Tests.Plates;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Acoustics;

/// <summary>Loss factors of modes from those of plies.</summary>
public class ModalLossTests
{
    private const double Length = 0.4, Width = 0.3;

    // Whatever the plies, if all lose alike the mode does: the parts hold all of its energy, coupling and shear too.
    [Theory]
    [Trait("Check", "exact")]
    [InlineData(0)]
    [InlineData(0.3)]
    public void Where_all_lose_alike_the_mode_does(double grain)
    {
        Ply[] plies = [.. Sandwich().Select(p => p with { Angle = p.Angle + grain, Loss = new(p.Loss!.Material, new(0.013, 0.2), new(0.013, 0.2), new(0.013, 0.2)) })];
        foreach (PlateMode mode in Modes(plies))
        {
            ModalLoss loss = ModalLoss.OfMaterials(mode, [Layup(plies)]);
            Checks.Near(0.013, loss.Total.Value, 1e-6);
            Assert.All(loss.Parts, p => Assert.True(p.Value.Value > 0));
            Assert.All(loss.Parts, p => Checks.Near(0.2, p.Value.Spread, 1e-9));
        }
    }

    // The share of a stiffness in ω² is the slope of ln ω² over its logarithm (Fox and Kapoor 1968): each kind against plates solved again with that kind's moduli 1 % up and down.
    // Young's moduli also move the profile of the shear stress from which S is made (Whitney 1973 takes it from equilibrium, not from least energy): S keeps its profile here.
    [Fact]
    [Trait("Check", "independent")]
    public void Each_kinds_part_is_the_slope_of_the_frequency_over_its_moduli()
    {
        Ply[] plies = Sandwich();
        PlateMode[] modes = Modes(plies);
        foreach ((LossKind[] kinds, Func<Ply, double, Ply> more) in new (LossKind[], Func<Ply, double, Ply>)[]
        {
            ([LossKind.Core], (p, f) => p.Loss!.Material == LossyMaterial.Core ? p with { G13 = f * p.G13, G23 = f * p.G23 } : p),
            ([LossKind.Film], (p, f) => p.Loss!.Material == LossyMaterial.Film ? Times(p, f) : p),
            ([LossKind.WoodAlong, LossKind.WoodAcross, LossKind.WoodShear], (p, f) => p.Loss!.Material == LossyMaterial.Wood ? Times(p, f) : p),
            ([LossKind.WoodShear], (p, f) => p.Loss!.Material == LossyMaterial.Wood ? p with { G12 = f * p.G12, G13 = f * p.G13, G23 = f * p.G23 } : p),
        })
        {
            PlateMode[] up = Changed(1.01), down = Changed(1 / 1.01);
            for (int i = 0; i < modes.Length; i++)
            {
                double slope = Math.Log(up[i].Frequency / down[i].Frequency) / Math.Log(1.01);
                ModalLoss loss = ModalLoss.OfMaterials(modes[i], [Layup([.. plies.Select(p => p with { Loss = new(p.Loss!.Material, new(1, 0), new(1, 0), new(1, 0)) })])]);
                Checks.Close(slope, kinds.Sum(loss.Of), 2e-5, $"{kinds[0]} of mode {i + 1}");
            }

            PlateMode[] Changed(double f)
            {
                Ply[] changed = [.. plies.Select(p => more(p, f))];
                return Modes(PlateSection.Of(Laminate.From(changed)) with
                {
                    S = Laminate.From([.. plies.Zip(changed, (p, c) => p with { G13 = c.G13, G23 = c.G23 })]).Shear,
                });
            }
        }

        static Ply Times(Ply p, double f) => p with { E1 = f * p.E1, E2 = f * p.E2, G12 = f * p.G12, G13 = f * p.G13, G23 = f * p.G23 };
    }

    // Kinds are independent, one kind wrong together: spreads add in squares.
    [Fact]
    [Trait("Check", "exact")]
    public void Parts_and_spreads_add_up()
    {
        ModalLoss loss = new ModalLoss([new(LossKind.WoodAlong, new(0.006, 0.4)), new(LossKind.Core, new(0.004, 0.7))]).With(0.003, new Estimate(0.004, 0.7));
        Checks.Near(0.017, loss.Total.Value, 1e-12);
        Checks.Near(1 / 0.017, loss.Q, 1e-12);
        Checks.Near(Math.Sqrt(Math.Pow(0.006 * 0.4, 2) + 2 * Math.Pow(0.004 * 0.7, 2) + Math.Pow(0.003 * 0.5, 2)) / 0.017, loss.Total.Spread, 1e-12);
        Assert.Equal(0.003, loss.Of(LossKind.Radiation));
        Assert.Equal(0, loss.Of(LossKind.Film));
    }

    [Fact]
    [Trait("Check", "exact")]
    public void Shear_stiffness_is_the_sum_of_its_plies()
    {
        Ply[] turned = [.. Sandwich().Select(p => p with { Angle = p.Angle + 0.4 })];
        var laminate = Laminate.From(turned);
        IReadOnlyList<ShearStiffness> shares = laminate.ShearShares();
        Checks.Near(laminate.Shear.Sx, shares.Sum(s => s.Sx), 1e-12);
        Checks.Near(laminate.Shear.Sy, shares.Sum(s => s.Sy), 1e-12);
        Checks.Near(laminate.Shear.Sxy, shares.Sum(s => s.Sxy), 1e-9);
        // A honeycomb takes nearly all of it.
        Assert.True(shares[2].Sx > 0.9 * laminate.Shear.Sx);
    }

    private static Ply[] Sandwich() => [.. SampleBoard.Unsymmetric.Plies()];

    private static LocalLayup Layup(Ply[] plies) => new(plies, plies.Sum(p => p.Thickness) / 2, null, null);

    private static PlateMode[] Modes(Ply[] plies) => Modes(PlateSection.Of(Laminate.From(plies)));

    private static PlateMode[] Modes(PlateSection section) =>
        [.. PlateSolver.Once(SamplePlate.Rectangle(section, Length, Width, 4, 4, "CCCC"), 4, 5).Modes];
}
