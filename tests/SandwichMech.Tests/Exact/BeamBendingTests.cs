using SandwichMech.Core.Plates;

namespace SandwichMech.Tests.Exact;

/// <summary>Three- and four-point bending with shear: coefficients and the separation of D from the shear rigidity.</summary>
[Trait("Check", "exact")]
public class BeamBendingTests
{
    private const double D = 1.10075, U = 3209.5, Span = 0.150, Load = 10;

    // ASTM D7250/D7250M writes Δ = P(2S³ − 3SL² + L³)/(96D) + P(S − L)/(4U); these are its three usual cases.
    [Theory]
    [InlineData("three-point", 0.0, 1.0 / 48, 1.0 / 4)]
    [InlineData("quarter-point", 1.0 / 2, 11.0 / 768, 1.0 / 8)]
    [InlineData("third-point", 1.0 / 3, 23.0 / 1296, 1.0 / 6)]
    public void The_usual_load_spans_have_their_known_coefficients(string which, double share, double bending, double shear)
    {
        BeamDeflection d = BeamBending.Deflection(Load, Span, share * Span, D, U);
        Checks.Near(bending * Load * Math.Pow(Span, 3) / D, d.Bending, 1e-13, which);
        Checks.Near(shear * Load * Span / U, d.Shear, 1e-13, which);
        Checks.Near(d.Bending + d.Shear, d.Total, 0, which);
    }

    // A strip 30 mm wide: skins 0.5 mm of 11.9 GPa on a core of 3 mm and 26.2 MPa, D = 1.10075 N·m², U = 3209.5 N.
    // Recomputed by hand from the formula above; not published.
    [Theory]
    [InlineData(0.0, "0.755610e-3")]
    [InlineData(0.075, "0.497574e-3")]
    public void A_sandwich_strip_deflects_as_computed_by_hand(double loadSpan, string deflection) =>
        Checks.Printed(deflection, BeamBending.Deflection(Load, Span, loadSpan, D, U).Total);

    [Theory]
    [InlineData(0.150, 0.0, 0.150, 0.075)]
    [InlineData(0.150, 0.0, 0.300, 0.0)]
    [InlineData(0.120, 0.04, 0.400, 0.20)]
    public void Two_readings_give_back_both_stiffnesses(double span1, double load1, double span2, double load2)
    {
        BeamReading first = Reading(span1, load1, 7), second = Reading(span2, load2, 12);
        (double d, double u) = BeamBending.Separate(first, second);
        Checks.Near(D, d, 1e-11);
        Checks.Near(U, u, 1e-11);
        (d, u) = BeamBending.Separate(second, first);
        Checks.Near(D, d, 1e-11);
        Checks.Near(U, u, 1e-11);
    }

    // The closed form of D7250 sec. 10.1 for one three-point (1) and one quarter-point (2) test (from memory; its algebra
    // is what this test checks).
    [Fact]
    public void The_separation_is_the_standards_closed_form()
    {
        BeamReading one = Reading(0.150, 0, 10), two = Reading(0.260, 0.130, 14);
        double s1 = one.SupportSpan, s2 = two.SupportSpan, p1 = one.Load, p2 = two.Load, d1 = one.Deflection, d2 = two.Deflection;
        double bending = p1 * Math.Pow(s1, 3) * (1 - 11 * s2 * s2 / (8 * s1 * s1)) / (48 * d1 * (1 - 2 * p1 * s1 * d2 / (p2 * s2 * d1)));
        double shear = p1 * s1 * (8 * s1 * s1 / (11 * s2 * s2) - 1) / (4 * d1 * (16 * p1 * Math.Pow(s1, 3) * d2 / (11 * p2 * Math.Pow(s2, 3) * d1) - 1));
        (double d, double u) = BeamBending.Separate(one, two);
        Checks.Near(bending, d, 1e-11);
        Checks.Near(shear, u, 1e-11);
    }

    [Fact]
    public void Two_readings_that_cannot_tell_bending_from_shear_are_refused()
    {
        Assert.Contains("span", Refusal(Reading(0.150, 0, 5), Reading(0.150, 0, 10)), StringComparison.Ordinal);
        Assert.Contains("span", Refusal(Reading(0.150, 0, 5), Reading(0.150 * (1 + 1e-8), 0, 10)), StringComparison.Ordinal);
    }

    [Fact]
    public void Readings_that_ask_for_a_negative_stiffness_are_refused()
    {
        // Deflection that grows slower than the span: no beam does that.
        BeamReading shortSpan = Reading(0.150, 0, 10), longSpan = Reading(0.300, 0, 10);
        Assert.Contains("negative stiffness", Refusal(shortSpan, longSpan with { Deflection = shortSpan.Deflection * 1.5 }), StringComparison.Ordinal);
        // Deflection that grows faster than the cube of the span: shear would have to be negative.
        Assert.Contains("negative stiffness", Refusal(shortSpan, longSpan with { Deflection = shortSpan.Deflection * 8.5 }), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(-1e-3)]
    [InlineData(0)]
    public void A_deflection_that_is_no_deflection_is_refused(double deflection)
    {
        Refusal(Reading(0.150, 0, 10) with { Deflection = deflection }, Reading(0.300, 0, 10));
        Refusal(Reading(0.300, 0, 10), Reading(0.150, 0, 10) with { Deflection = deflection });
    }

    [Theory]
    [InlineData(0.150, 0.150)]
    [InlineData(0.150, 0.200)]
    [InlineData(0.150, -0.010)]
    [InlineData(0.0, 0.0)]
    [InlineData(-0.150, 0.0)]
    [InlineData(double.NaN, 0.0)]
    [InlineData(0.150, double.NaN)]
    public void A_load_span_outside_the_support_span_is_refused(double supportSpan, double loadSpan)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => BeamBending.Deflection(Load, supportSpan, loadSpan, D, U));
        Assert.Throws<ArgumentOutOfRangeException>(() => BeamBending.Separate(new(Load, supportSpan, loadSpan, 1e-3), Reading(0.3, 0, 10)));
        Assert.Throws<ArgumentOutOfRangeException>(() => BeamBending.Separate(Reading(0.3, 0, 10), new(Load, supportSpan, loadSpan, 1e-3)));
    }

    private static BeamReading Reading(double span, double loadSpan, double load) =>
        new(load, span, loadSpan, BeamBending.Deflection(load, span, loadSpan, D, U).Total);

    private static string Refusal(BeamReading first, BeamReading second) =>
        Assert.Throws<ArgumentException>(() => BeamBending.Separate(first, second)).Message;
}
