using SandwichMech.Core.Layups;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Exact;

/// <summary>One rule for solid and sandwich: both limits, and the closed form between them.</summary>
[Trait("Check", "exact")]
public class TransverseShearLimitTests
{
    private const double Rounding = 1e-12;

    [Theory]
    [InlineData(1, 0.0)]
    [InlineData(1, 30.0)]
    [InlineData(7, 0.0)]
    [InlineData(7, -55.0)]
    public void A_homogeneous_plate_has_five_sixths_of_its_shear_modulus(int plies, double degrees)
    {
        const double h = 2.6e-3, g13 = 0.73e9, g23 = 0.036e9;
        Ply ply = SamplePly.Orthotropic(h / plies, 11.9e9, 0.93e9, 0.37, 0.76e9, g13, g23, degrees);
        ShearStiffness s = Laminate.From([.. Enumerable.Repeat(ply, plies)]).Shear;
        double c = Math.Cos(ply.Angle), n = Math.Sin(ply.Angle);
        Checks.Near(5.0 / 6 * h * (c * c * g13 + n * n * g23), s.Sx, Rounding);
        Checks.Near(5.0 / 6 * h * (n * n * g13 + c * c * g23), s.Sy, Rounding);
        Checks.Close(5.0 / 6 * h * c * n * (g13 - g23), s.Sxy, Rounding * h * g13);
    }

    // Symmetric sandwich on a core that carries shear alone. Equilibrium: τ = E(b² − z²)/(2D) in a skin, with b = h/2 and
    // a = tc/2, and τ = E(b² − a²)/(2D) in the core; D = 2E(b³ − a³)/3. The energy integrals are elementary.
    [Theory]
    [InlineData(0.60e-3, 2.0e-3)]
    [InlineData(0.80e-3, 1.6e-3)]
    [InlineData(2.00e-3, 0.5e-3)]
    public void A_symmetric_sandwich_follows_its_closed_form(double skin, double core)
    {
        const double gSkin = 0.7e9, gCore = 26e6;
        double a = core / 2, b = a + skin;
        double perD = 3 / (4 * (Math.Pow(b, 3) - Math.Pow(a, 3)));
        double inSkins = 2 * (Math.Pow(b, 4) * (b - a) - 2 * b * b * (Math.Pow(b, 3) - Math.Pow(a, 3)) / 3 + (Math.Pow(b, 5) - Math.Pow(a, 5)) / 5) / gSkin;
        double inCore = core * Math.Pow(b * b - a * a, 2) / gCore;
        double expected = 1 / (perD * perD * (inSkins + inCore));
        Checks.Near(expected, Sandwich(skin, core, gSkin, gCore).Shear.Sx, Rounding);
    }

    // Gc·d²/tc is the limit of thin skins. The skins are made rigid in shear, so that one power of their thickness is left:
    // the distance is (2/3)(t/d)². Slope and ceiling: each halving brings it to about a quarter, and at 1/2000 of the core
    // it is below one in a million.
    [Fact]
    public void Thin_skins_on_a_soft_core_reach_the_thin_skin_formula()
    {
        const double core = 2e-3, gSkin = 1e18, gCore = 26e6;
        double skin = 0.4e-3, last = Distance(skin);
        Checks.Near(2.0 / 3 * Math.Pow(0.4 / 2.4, 2), last, 0.1, "at skins of a fifth of the core the formula is 2 % low");
        while (skin > core / 2000)
        {
            skin /= 2;
            double now = Distance(skin);
            Checks.Within(0.24, 0.33, now / last, "slope");
            last = now;
        }

        Checks.Within(0, 1e-6, last, "ceiling");

        double Distance(double t) => Sandwich(t, core, gSkin, gCore).Shear.Sx / (gCore * Math.Pow(core + t, 2) / core) - 1;
    }

    [Fact]
    public void Five_sixths_of_the_summed_moduli_is_no_rule_for_a_sandwich()
    {
        Laminate sandwich = Sandwich(0.7e-3, 1.8e-3, 0.7e9, 26e6);
        double summed = 5.0 / 6 * sandwich.Plies.Sum(p => p.G13 * p.Thickness);
        Checks.Within(5, 20, summed / sandwich.Shear.Sx, "the wrong rule is several times too stiff");
    }

    private static Laminate Sandwich(double skin, double core, double gSkin, double gCore)
    {
        Ply face = SamplePly.Orthotropic(skin, 11.9e9, 0.93e9, 0.37, 0.76e9, gSkin, gSkin);
        return Laminate.From([face, SamplePly.Core(core, gCore, gCore), face]);
    }
}
