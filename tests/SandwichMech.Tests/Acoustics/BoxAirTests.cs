using SandwichMech.Core.Acoustics;

namespace SandwichMech.Tests.Acoustics;

/// <summary>Top and air of a box as two oscillators (Christensen and Vistisen 1980, J. Acoust. Soc. Am. 68, 758–766).</summary>
public class BoxAirTests
{
    private const double Radius = 0.043;
    private static readonly BoxAir Box = new(0.0125, Math.PI * Radius * Radius, 2.5e-3, 1.7, 1.1993);

    // A set recomputed from the equations by another route, not published: m_p 80 g, A 0.04 m², 150 Hz without the box.
    [Fact]
    [Trait("Check", "independent")]
    public void A_recomputed_pair_is_met()
    {
        BoxCoupling pair = Box.With(150, 0.04 / Math.Sqrt(0.080));
        Checks.Printed("0.52667e-3", Box.HoleMass);
        Checks.Printed("168.003", pair.HoleShut);
        Checks.Printed("135.424", pair.Helmholtz);
        Checks.Printed("101.226", pair.Coupling);
        Checks.Printed("109.114", pair.Lower);
        Checks.Printed("186.169", pair.Upper);
    }

    // The equations of motion themselves: the determinant at both frequencies, in the unknowns that the model is written in.
    [Theory]
    [Trait("Check", "independent")]
    [InlineData(80, 0.06)]
    [InlineData(150, 0.04)]
    [InlineData(300, 0.02)]
    public void Both_frequencies_solve_the_equations_of_motion(double own, double area)
    {
        const double mass = 0.09;
        BoxCoupling pair = Box.With(own, area / Math.Sqrt(mass));
        foreach (double f in new[] { pair.Lower, pair.Upper })
        {
            double w = Math.Pow(2 * Math.PI * f, 2), kappa = Box.Spring, hole = Box.HoleArea;
            double top = mass * Math.Pow(2 * Math.PI * own, 2) + kappa * area * area - mass * w, air = kappa * hole * hole - Box.HoleMass * w;
            Checks.Near(Math.Pow(kappa * area * hole, 2), top * air, 1e-9);
        }

        // The sum rule, and the coupling by either oscillator.
        double Sq(double x) => x * x;
        Checks.Near(Sq(pair.HoleShut) + Sq(pair.Helmholtz), Sq(pair.Lower) + Sq(pair.Upper), 1e-12);
        Checks.Near(Math.Pow(pair.Coupling, 4), (Sq(pair.Upper) - Sq(pair.Helmholtz)) * (Sq(pair.Helmholtz) - Sq(pair.Lower)), 1e-9);
        Checks.Near(Math.Pow(pair.Coupling, 4), (Sq(pair.Upper) - Sq(pair.HoleShut)) * (Sq(pair.HoleShut) - Sq(pair.Lower)), 1e-9);
        // And back.
        BoxCoupling back = BoxCoupling.From(pair.Lower, pair.Upper, pair.Helmholtz)!;
        Checks.Near(own, back.TopAlone, 1e-12);
        Checks.Near(pair.HoleShut, back.HoleShut, 1e-12);
        Checks.Near(pair.Coupling, back.Coupling, 1e-9);
    }

    [Fact]
    [Trait("Check", "exact")]
    public void Limits_are_those_of_one_oscillator()
    {
        double volume = 0.04 / Math.Sqrt(0.080);
        // No hole: the top against a spring, f_p² = f_0² + κV²/(2π)².
        BoxCoupling shut = (Box with { HoleArea = 0 }).With(150, volume);
        Checks.Near(Math.Sqrt(150 * 150 + Box.Spring * volume * volume / (4 * Math.PI * Math.PI)), shut.Upper, 1e-12);
        Assert.Equal(0, shut.Lower);
        BoxCoupling pinhole = (Box with { HoleArea = 1e-12 }).With(150, volume);
        Checks.Near(shut.Upper, pinhole.Upper, 1e-6);
        Checks.Close(0, pinhole.Lower, 1);
        // An endless box: the top alone.
        BoxCoupling open = (Box with { Volume = 1e6 }).With(150, volume);
        Checks.Near(150, open.Upper, 1e-6);
        Checks.Near(150, open.HoleShut, 1e-6);
        // A top that moves no air: both as they are.
        BoxCoupling apart = Box.With(150, 0);
        Checks.Near(150, apart.Upper, 1e-12);
        Checks.Near(Box.Helmholtz, apart.Lower, 1e-12);
        // Top and air of one frequency share it: f² = f_p² ± f_ph².
        double own = Math.Sqrt(Box.Helmholtz * Box.Helmholtz - (shut.Upper * shut.Upper - 150 * 150));
        BoxCoupling equal = Box.With(own, volume);
        Checks.Near(Math.Sqrt(Math.Pow(Box.Helmholtz, 2) + Math.Pow(equal.Coupling, 2)), equal.Upper, 1e-12);
        Assert.Null(BoxCoupling.From(100, 200, 90));
    }

    // Recomputed, not published: c 343.2, V 12.5 l, R 43 mm, wall 2.5 mm.
    [Theory]
    [Trait("Check", "independent")]
    [InlineData(2 * HoleEnds.Piston, "135.51")]
    [InlineData(2 * HoleEnds.Flanged, "137.66")]
    [InlineData(HoleEnds.Flanged + HoleEnds.Unflanged, "146.95")]
    [InlineData(HoleEnds.ThinWall, "140.69")]
    public void A_box_sounds_by_its_holes_ends(double ends, string frequency) =>
        Checks.Printed(frequency, (Box with { EndCorrection = ends }).Helmholtz);
}
