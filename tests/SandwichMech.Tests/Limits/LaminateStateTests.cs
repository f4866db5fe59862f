using SandwichMech.Core.Layups;
using SandwichMech.Core.Limits;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Limits;

/// <summary>Layups under line loads and with plies that grow.</summary>
[Trait("Check", "exact")]
public class LaminateStateTests
{
    private static readonly Laminate Board = Laminate.From([.. SampleBoard.Unsymmetric.Plies().Select((p, i) => i == 4 ? p with { Angle = 0.2 } : p)]);

    // S. Timoshenko (1925), Analysis of bi-metal thermostats, J. Opt. Soc. Am. 11, 233:
    // κ = 6 (α2 − α1) ΔT (1 + m)²/(h (3 (1 + m)² + (1 + mn)(m² + 1/(mn)))), m = a1/a2, n = E1/E2.
    // Strips (ν = 0), and plates of equal ν, where E/(1 − ν) stands for E in both.
    [Theory]
    [InlineData(1, 1, 0)]
    [InlineData(0.5, 3, 0)]
    [InlineData(2, 0.1, 0)]
    [InlineData(0.8, 13, 0.3)]
    public void A_bimetal_strip_curves_as_Timoshenko_has_it(double m, double n, double nu)
    {
        const double h = 2e-3, e2 = 70e9, growth = 1.2e-3;
        double a2 = h / (1 + m), a1 = m * a2;
        // The second metal, which grows, is the outer one: it is stretched, κ positive.
        Laminate strip = Laminate.From([SamplePly.Isotropic(a1, n * e2, nu), SamplePly.Isotropic(a2, e2, nu)]);
        LaminateState state = LaminateState.Grown(strip, [default, InPlane.Strain(growth, growth, 0)], Restraint.Free);
        double printed = 6 * growth * (1 + m) * (1 + m) / (h * (3 * (1 + m) * (1 + m) + (1 + m * n) * (m * m + 1 / (m * n))));
        Checks.Near(printed, state.Curvature.X, 1e-9);
        Checks.Near(printed, state.Curvature.Y, 1e-9);
        Checks.Close(0, state.Curvature.Xy, 1e-12);
    }

    [Fact]
    public void A_symmetric_layup_stays_flat()
    {
        Ply skin = Board.Plies[4];
        Laminate symmetric = Laminate.From([skin, Board.Plies[1], Board.Plies[2], Board.Plies[1], skin]);
        InPlane growth = InPlane.Strain(-1e-4, -4e-3, skin.Angle);
        LaminateState state = LaminateState.Grown(symmetric, [growth, default, default, default, growth], Restraint.Free);
        Checks.Close(0, Math.Abs(state.Curvature.X) + Math.Abs(state.Curvature.Y) + Math.Abs(state.Curvature.Xy), 1e-12);
        Assert.True(Math.Abs(state.Stretch.Y) > 1e-3);
        // So keeping it flat changes nothing.
        Checks.Near(state.Stretch.Y, LaminateState.Grown(symmetric, [growth, default, default, default, growth], Restraint.Flat).Stretch.Y, 1e-9);
    }

    [Fact]
    public void What_grows_alike_has_no_stress_when_free_and_minus_Qe_when_held()
    {
        Laminate one = Laminate.From([Board.Plies[4]]);
        InPlane growth = InPlane.Strain(1e-4, 4e-3, 0.2), free = LaminateState.Grown(one, [growth], Restraint.Free).Stress(0, 1);
        Checks.Close(0, Math.Abs(free.X) + Math.Abs(free.Y) + Math.Abs(free.Xy), 1e-3);
        InPlane held = LaminateState.Grown(one, [growth], Restraint.Held).Stress(0, 1);
        Ply p = one.Plies[0];
        double mu = 1 - p.Nu12 * p.Nu12 * p.E2 / p.E1;
        Checks.Near(-p.E2 / mu * (4e-3 + p.Nu12 * 1e-4), held.Y, 1e-9);
        Checks.Near(-(p.E1 * 1e-4 + p.Nu12 * p.E2 * 4e-3) / mu, held.X, 1e-9);
    }

    // Integrals of the stresses over the thickness: nothing in a free board, the loads in a loaded one. They are straight in z in each ply: Simpson's rule is exact.
    [Fact]
    public void Stresses_hold_the_loads_in_balance()
    {
        InPlane force = new(300, -200, 50), moment = new(2, -1, 0.4);
        Balance(LaminateState.Under(Board, force, moment), force, moment);
        InPlane[] growth = [InPlane.Strain(-1e-4, -2e-3, 0), default, default, default, InPlane.Strain(-2e-4, -4e-3, 0.2)];
        Balance(LaminateState.Grown(Board, growth, Restraint.Free), default, default);

        static void Balance(LaminateState state, InPlane force, InPlane moment)
        {
            InPlane n = default, m = default;
            double z = -Board.Thickness / 2;
            for (int i = 0; i < Board.Plies.Count; i++)
            {
                double t = Board.Plies[i].Thickness;
                foreach ((double at, double weight) in new[] { (0, 1.0 / 6), (0.5, 4.0 / 6), (1, 1.0 / 6) })
                {
                    InPlane stress = state.Stress(i, at).SeenFrom(-Board.Plies[i].Angle);
                    n += stress * (weight * t);
                    m += stress * (weight * t * (z + at * t));
                }

                z += t;
            }

            InPlane dn = n - force, dm = m - moment;
            Checks.Close(0, Math.Abs(dn.X) + Math.Abs(dn.Y) + Math.Abs(dn.Xy), 1e-7, "force");
            Checks.Close(0, Math.Abs(dm.X) + Math.Abs(dm.Y) + Math.Abs(dm.Xy), 1e-9, "moment");
        }
    }
}
