using MathNet.Numerics.LinearAlgebra;
using SandwichMech.Core.Identification;
using SandwichMech.Core.Numerics;
using SandwichMech.Core.Plates.Reduced;
using SandwichMech.Tests.Taps;

namespace SandwichMech.Tests.Identification;

/// <summary>What the fit says of a piece, linear about the likeliest values, against samples of all values in the measure of how likely they are.</summary>
/// <remarks>
/// Importance sampling (Robert &amp; Casella 2004, Monte Carlo Statistical Methods, section 3.3): values drawn from the fit's own normal spread, a tenth wider, each with the weight of
/// how likely it truly is over how often it is drawn. With n = (Σw)²/Σw² effective samples a mean is known to σ/√n, a spread to 1/√(2n) of itself, a correlation to (1 − r²)/√n;
/// four of these are allowed.
/// </remarks>
[Trait("Check", "independent")]
public class SampledPosteriorTests
{
    private const int Samples = 1500, Modes = 6;
    private const double Wider = 1.1, Allowed = 4;

    [Theory]
    [InlineData(3)]
    [InlineData(5)]
    [InlineData(8)]
    public void Mean_spread_and_correlation_are_those_of_samples(ulong seed)
    {
        PieceBefore before = CoverageCases.Wood;
        var trial = new CoverageTrial(before, CoverageCases.WeighedAndBent(before.Start));
        Xorshift chance = DesignSample.Random(seed);
        TappedPlate plate = trial.Plate(Modes, chance);
        InventedPiece piece = trial.Draw(plate, Modes, chance);
        Observation[] plain = [.. piece.Read.Where(r => r.Tone is null)], tones = [.. piece.Read.Where(r => r.Tone is not null).OrderBy(r => r.Value)];
        var model = new PieceModel(before, plain);
        FitResult without = LogFit.Fit(new double[model.Count], model.Precision, Identify.Logs(plain), Identify.Spreads(plain), model.WithoutTones);
        FittedWay way = ToneFits.Of(model, plate, tones, without)[0];
        Func<Sample, double>[] figures = [.. before.Properties.Select(p => p.Of)];
        double[,] slopes = model.Slopes(way.Fit.Parameters, figures);
        Matrix<double> g = Matrix<double>.Build.DenseOfArray(slopes), covariance = g * way.Fit.Covariance * g.Transpose();
        double[] likeliest = Logs(model.At(way.Fit.Parameters));

        (double[][] logs, double[] weights) = Sampled();
        double sum = weights.Sum(), n = sum * sum / weights.Sum(w => w * w);
        Assert.True(n > Samples / 2, $"{n:F0} effective samples");
        double[] mean = [.. figures.Select((_, i) => logs.Zip(weights, (x, w) => w * x[i]).Sum() / sum)];
        Matrix<double> sampled = Matrix<double>.Build.Dense(figures.Length, figures.Length, (i, j) => logs.Zip(weights, (x, w) => w * (x[i] - mean[i]) * (x[j] - mean[j])).Sum() / sum);
        for (int i = 0; i < figures.Length; i++)
        {
            string symbol = before.Properties[i].Symbol;
            double spread = Math.Sqrt(covariance[i, i]);
            Checks.Close(0, (mean[i] - likeliest[i]) / spread, Allowed / Math.Sqrt(n), $"{symbol}: mean of samples from the likeliest, in spreads");
            Checks.Near(Math.Sqrt(sampled[i, i]), spread, Allowed / Math.Sqrt(2 * n), $"{symbol}: spread");
            for (int j = 0; j < i; j++)
            {
                double r = Correlation(sampled, i, j);
                Checks.Close(r, Correlation(covariance, i, j), Allowed * (1 - r * r) / Math.Sqrt(n), $"{symbol} with {before.Properties[j].Symbol}");
            }
        }

        double[] Logs(Sample s) => [.. figures.Select(f => Math.Log(f(s)))];

        (double[][] Logs, double[] Weights) Sampled()
        {
            Matrix<double> root = way.Fit.Covariance.Cholesky().Factor;
            var at = Vector<double>.Build.Dense(way.Fit.Parameters);
            double[][] all = new double[Samples][];
            double[] costs = new double[Samples];
            for (int k = 0; k < Samples; k++)
            {
                Vector<double> z = Vector<double>.Build.Dense(model.Count, _ => TapTrial.Gauss(chance)), p = at + Wider * root * z;
                Sample s = model.At([.. p]);
                all[k] = Logs(s);
                costs[k] = Cost(s, p) - z * z;
            }

            double least = costs.Min();
            return (all, [.. costs.Select(c => Math.Exp((least - c) / 2))]);
        }

        // −2 ln of how likely values are, without the fit's own functions: squares of what is off, in parts of what it may be off by.
        double Cost(Sample s, Vector<double> p)
        {
            IReadOnlyList<TapMode> modes = plate.Solve(s);
            double cost = p * (model.Precision * p) + plain.Sum(o => Math.Pow(Math.Log(o.Value / o.Of!(s)) / o.Spread, 2));
            for (int t = 0; t < tones.Length; t++)
            {
                if (way.Numbers[t] < 0) { continue; }
                double frequency = modes[plate.MostLike(way.Modes[way.Numbers[t]].Shape, modes)].Frequency;
                cost += Math.Pow((Math.Log(tones[t].Value / frequency) - p[^1]) / tones[t].Spread, 2);
            }

            return cost;
        }
    }

    private static double Correlation(Matrix<double> covariance, int i, int j) => covariance[i, j] / Math.Sqrt(covariance[i, i] * covariance[j, j]);
}
