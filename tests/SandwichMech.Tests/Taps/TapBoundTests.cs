using SandwichMech.Core.Taps;

namespace SandwichMech.Tests.Taps;

/// <summary>Frequencies of tap tones against the bound of Cramér and Rao. The full count of runs is in the benchmark `taps`.</summary>
public class TapBoundTests
{
    private const int Runs = 250;

    // Sums over samples against the closed form of their integrals.
    [Theory]
    [Trait("Check", "independent")]
    [InlineData(180, 50)]
    [InlineData(440, 80)]
    public void The_bound_by_sums_is_that_by_integrals(double frequency, double q)
    {
        double decay = Math.PI * frequency / q;
        double sums = DampedBound.Of([new(1, frequency, decay, 0.7)], 0.5 / 100, 48_000, 96_000)[0];
        // The integrals leave out what turns twice as fast, of relative size a/(2πf) = 1/(2Q).
        Checks.Near(DampedBound.OfOne(decay, 100, 48_000), sums, 2 / q, "variance");
    }

    // Wanted: at most 1.15 of the bound. The mean of n squares of a normal variable scatters by √(2/n) of itself: three of these either way.
    [Fact]
    [Trait("Check", "exact")]
    public void One_partial_at_20_dB_comes_near_the_bound()
    {
        TrialResult result = TapTrial.One(Runs, 1);
        double scatter = 3 * Math.Sqrt(2.0 / Runs);
        Assert.Equal(Runs, result.Found);
        Checks.Within(1 - scatter, 1.15 * (1 + scatter), result.Ratio, "variance over its bound");
        Checks.Within(1 - scatter, 1.15 * (1 + scatter), result.Stated, "stated variance over the bound");
    }

    // Wanted: at most 1.5 of the joint bound, told apart in 99 %: of 250 runs at a rate of 1 % seven or more fail once in 75 times.
    [Fact]
    [Trait("Check", "exact")]
    public void Two_partials_one_percent_apart_are_told_apart_near_their_joint_bound()
    {
        TrialResult result = TapTrial.Two(Runs, 2);
        double scatter = 3 * Math.Sqrt(2.0 / Runs);
        Checks.Within(Runs - 6, Runs, result.Found, "told apart");
        Checks.Within(1 - scatter, 1.5 * (1 + scatter), result.Ratio, "variance over the joint bound");
    }

    // The mean over taps of different sureness, by hand: no scatter beyond their own leaves weights 1/s².
    [Fact]
    [Trait("Check", "exact")]
    public void Taps_are_weighed_by_their_sureness_and_their_scatter_counts()
    {
        (double mean, double sd) = TapMerging.Weighted([(10.0, 1.0), (10.0, 2.0)]);
        Checks.Near(10, mean, 1e-12, "mean");
        Checks.Near(Math.Sqrt(1 / 1.25), sd, 1e-12, "sd");
        // Two equal ones ten apart: the scatter (50) is all there is, the mean's variance half of the values' variance.
        (_, double wide) = TapMerging.Weighted([(0.0, 1.0), (10.0, 1.0)]);
        Checks.Near(5, wide, 1e-12, "sd of two that differ");
    }
}
