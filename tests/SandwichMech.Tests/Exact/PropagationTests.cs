using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Tests.Exact;

/// <summary>Propagation where the answer is known exactly: products of powers of log-normals, and sums.</summary>
[Trait("Check", "exact")]
public class PropagationTests
{
    // Quantiles of the standard normal distribution at 0.75 and 0.95.
    private const double Z50 = 0.674489750196082, Z90 = 1.644853626951473;

    // D ∝ E·t³/(1 − …) is a product of powers; so are mass and the frequency of a thin plate. The spreads lie on both
    // sides of the largest step (0.2).
    [Fact]
    public void A_product_of_powers_is_exact()
    {
        (double Value, double Power, double Spread)[] x = [(11.9, 1, 0.22), (0.76, 3, 0.03), (448, -0.5, 0.10), (2, 0.7, 0.5), (5, -2, 0)];
        Prediction p = Propagate(x).Positive(v => v);

        double value = x.Aggregate(1.0, (product, i) => product * Math.Pow(i.Value, i.Power));
        double sd = Math.Sqrt(x.Sum(i => Math.Pow(i.Power * i.Spread, 2)));
        Checks.Near(value, p.Value, 1e-12);
        Checks.Near(value * Math.Exp(-Z90 * sd), p.Low90, 1e-12);
        Checks.Near(value * Math.Exp(Z90 * sd), p.High90, 1e-12);
        Checks.Near(value * Math.Exp(-Z50 * sd), p.Low50, 1e-12);
        Checks.Near(value * Math.Exp(Z50 * sd), p.High50, 1e-12);

        Assert.Equal(["3", "0", "1", "2"], p.MostlyFrom.Select(s => s.Input));
        Checks.Near(1, p.MostlyFrom.Sum(s => s.Share), 1e-12);
        Checks.Near(Math.Pow(0.7 * 0.5 / sd, 2), p.MostlyFrom[0].Share, 1e-12);
    }

    [Fact]
    public void A_sum_of_either_sign_is_symmetric_about_its_value()
    {
        // Grams saved = solid − board, each linear in its own standard-normal shift.
        UncertainInput<double[]>[] inputs =
        [
            new("solid", 0.3, t => [160 + 40 * t, 150]),
            new("board", 0.1, t => [160, 150 + 50 * t]),
        ];
        Prediction p = Propagation.Through([160.0, 150.0], inputs, v => v[0] - v[1]).OfEitherSign(v => v);
        double sd = Math.Sqrt(12 * 12 + 5 * 5);
        Checks.Near(10, p.Value, 1e-14);
        Checks.Near(10 - Z90 * sd, p.Low90, 1e-12);
        Checks.Near(10 + Z90 * sd, p.High90, 1e-12);
        Checks.Near(10 - Z50 * sd, p.Low50, 1e-12);
        Checks.Near(10 + Z50 * sd, p.High50, 1e-12);
        Checks.Near(144.0 / 169, p.MostlyFrom.Single(s => s.Input == "solid").Share, 1e-12);
    }

    [Fact]
    public void Nothing_uncertain_gives_the_value_alone()
    {
        Prediction p = Propagate([(3, 2, 0)]).Positive(v => v);
        Assert.Equal((9, 9, 9, 9, 9), (p.Value, p.Low50, p.High50, p.Low90, p.High90));
        Assert.Empty(p.MostlyFrom);
    }

    [Fact]
    public void Inputs_of_one_name_are_counted_together()
    {
        UncertainInput<double> Named(string name, double power) => new(name, 0.1, t => Math.Exp(power * t));
        Prediction p = Propagation.Through(1.0, [Named("wood", 3), Named("glue", 4), Named("wood", 1)], v => v).Positive(v => v);
        Assert.Equal(["glue", "wood"], p.MostlyFrom.Select(s => s.Input));
        Checks.Near(16.0 / 26, p.MostlyFrom[0].Share, 1e-12);
    }

    [Theory]
    [InlineData(0.001)]
    [InlineData(0.22)]
    [InlineData(1.5)]
    public void A_coefficient_of_variation_becomes_the_log_normals_own(double cv)
    {
        Estimate e = Estimate.FromCv(7, cv);
        Assert.Equal(7, e.Value);
        // sd/mean of a log-normal is √(exp σ² − 1).
        Checks.Near(cv, Math.Sqrt(Math.Exp(e.Spread * e.Spread) - 1), 1e-9);
        Assert.Equal(e, Estimate.FromSd(7, 7 * cv));
    }

    [Fact]
    public void Shifting_and_scaling_move_the_median_alone()
    {
        Estimate e = new(2, 0.3);
        Checks.Near(2 * Math.Exp(0.5), e.Shifted(0.5).Value, 1e-15);
        Checks.Near(6, e.Times(3).Value, 1e-15);
        Assert.Equal((0.3, 0.3), (e.Shifted(0.5).Spread, e.Times(3).Spread));
    }

    // Near its middle a share moves as its logarithm does; far out it stays between 0 and 1.
    [Theory]
    [InlineData(0.05)]
    [InlineData(0.5)]
    [InlineData(0.98)]
    public void A_share_moves_with_its_logarithm_and_stays_a_share(double share)
    {
        Estimate e = new(share, 0.2);
        Checks.Near(1e-4, Math.Log(e.ShiftedShare(1e-4).Value / share), 0.01, "slope");
        Checks.Near(-1e-4, Math.Log(e.ShiftedShare(-1e-4).Value / share), 0.01, "slope");
        Checks.Within(share, 1, e.ShiftedShare(0.7).Value);
        Checks.Within(0.9, 1, e.ShiftedShare(50).Value);
        Checks.Within(0, 1e-9, e.ShiftedShare(-50).Value);
        Checks.Near(share, e.ShiftedShare(0).Value, 1e-15);
        Assert.Equal(0.2, e.ShiftedShare(0.3).Spread);
        Assert.Equal(1, new Estimate(1, 0.2).ShiftedShare(0.3).Value);
    }

    private static Propagation<double> Propagate((double Value, double Power, double Spread)[] x)
    {
        var medians = x.Select(i => i.Value).ToArray();
        var inputs = x.Select((i, at) => new UncertainInput<double[]>(
            $"{at}", i.Spread, t => [.. medians.Select((m, j) => j == at ? m * Math.Exp(t) : m)]));
        return Propagation.Through(medians, inputs, v => v.Select((m, j) => Math.Pow(m, x[j].Power)).Aggregate((p, q) => p * q));
    }
}
