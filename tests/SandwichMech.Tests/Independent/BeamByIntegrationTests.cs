using CsCheck;
using SandwichMech.Core.Plates;

namespace SandwichMech.Tests.Independent;

/// <summary>Three- and four-point bending by the unit-load integral ∫Mm/D + ∫Vv/U dx, instead of the formula.</summary>
[Trait("Check", "independent")]
public class BeamByIntegrationTests
{
    [Fact]
    public void The_formula_is_the_unit_load_integral() =>
        Gen.Select(Gen.Double[0.05, 1], Gen.Double[0, 0.95], Gen.Double[0.1, 100], Gen.Double[100, 1e5]).Sample((span, share, d, u) =>
        {
            const double load = 12;
            double loadSpan = share * span;
            BeamDeflection formula = BeamBending.Deflection(load, span, loadSpan, d, u);
            (double bending, double shear) = Integrate(load, span, loadSpan);
            Checks.Near(bending / d, formula.Bending, 1e-6);
            Checks.Near(shear / u, formula.Shear, 1e-6);
        }, iter: 50);

    private static (double Bending, double Shear) Integrate(double load, double span, double loadSpan)
    {
        // Half the beam, cut at the load so that every integrand is a polynomial in each part; unit load at mid-span.
        double arm = (span - loadSpan) / 2, bending = 0, shear = 0;
        foreach ((double from, double to) in ((double, double)[])[(0, arm), (arm, span / 2)])
        {
            const int steps = 1000;
            double dx = (to - from) / steps;
            for (int i = 0; i < steps; i++)
            {
                double x = from + (i + 0.5) * dx;
                double moment = load / 2 * Math.Min(x, arm), force = x < arm ? load / 2 : 0;
                bending += 2 * moment * (x / 2) * dx;
                shear += 2 * force * 0.5 * dx;
            }
        }

        return (bending, shear);
    }
}
