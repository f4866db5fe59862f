using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Tests.Published;

/// <summary>The end gauge of JCGM 100:2008, H.1: the propagation law on a standard's own numbers.</summary>
/// <remarks>
/// Inputs here are log-normal by their kind; the gauge's are normal and two have the value zero, so they cannot be. What is
/// checked is the law of propagation (eq. 10) itself: an input is a shift in units of its own spread, and giving it the
/// spread 1 and the effect x + u·t makes t a standard-normal variable. The model is linear in each input, so the central
/// differences are the exact sensitivity coefficients.
/// </remarks>
[Trait("Check", "published")]
public class EndGaugeTests
{
    // l = lS + d − lS(δα·θ + αS·δθ), lengths in nm.
    private sealed record Gauge(double LS = 50_000_623, double D = 215, double AlphaS = 11.5e-6, double Theta = -0.1, double DeltaAlpha = 0, double DeltaTheta = 0)
    {
        public double Length => LS + D - LS * (DeltaAlpha * Theta + AlphaS * DeltaTheta);
    }

    private static Prediction Length
    {
        get
        {
            Gauge g = new();
            return Propagation.Through(
                g,
                [
                    new("lS", 1, t => g with { LS = g.LS + 25 * t }),
                    new("d", 1, t => g with { D = g.D + 9.7 * t }),
                    new("alphaS", 1, t => g with { AlphaS = g.AlphaS + 1.2e-6 * t }),
                    new("theta", 1, t => g with { Theta = g.Theta + 0.41 * t }),
                    new("delta alpha", 1, t => g with { DeltaAlpha = g.DeltaAlpha + 0.58e-6 * t }),
                    new("delta theta", 1, t => g with { DeltaTheta = g.DeltaTheta + 0.029 * t }),
                ],
                gauge => gauge.Length).OfEitherSign(length => length);
        }
    }

    private static double StandardUncertainty => (Length.High90 - Length.Value) / 1.644853626951473;

    [Fact]
    public void The_length_and_its_standard_uncertainty_are_the_printed_ones()
    {
        Checks.Printed("50000838", Length.Value);
        Checks.Printed("32", StandardUncertainty);
        Checks.Printed("31.7106", StandardUncertainty); // recomputed from the same inputs
    }

    // Table H.1: contributions 25, 9.7, 0, 0, 2.9, 16.7 nm.
    [Theory]
    [InlineData("lS", "25")]
    [InlineData("d", "9.7")]
    [InlineData("delta alpha", "2.9")]
    [InlineData("delta theta", "16.7")]
    public void Each_contribution_is_the_printed_one(string input, string nanometres) =>
        Checks.Printed(nanometres, Math.Sqrt(Length.MostlyFrom.Single(s => s.Input == input).Share) * StandardUncertainty);

    [Fact]
    public void The_two_inputs_without_effect_are_not_named() =>
        Assert.Equal(["lS", "delta theta", "d", "delta alpha"], Length.MostlyFrom.Select(s => s.Input));
}
