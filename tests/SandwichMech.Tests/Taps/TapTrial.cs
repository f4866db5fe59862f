using SandwichMech.Core.Numerics;
using SandwichMech.Core.Taps;

namespace SandwichMech.Tests.Taps;

/// <summary>What trials gave: see <see cref="TapTrial"/>.</summary>
/// <param name="Runs">How many.</param>
/// <param name="Found">In how many all partials were found, each once, and nothing else near them.</param>
/// <param name="Ratio">Mean square error of the frequencies over the bound.</param>
/// <param name="Stated">The variances that were stated, over the bound.</param>
internal sealed record TrialResult(int Runs, int Found, double Ratio, double Stated);

/// <summary>Trials of the whole way from a recording to partials on invented sound: noise, then a tap of one or two damped sinusoids at 20 dB, at 48 kHz.</summary>
/// <remarks>Signal-to-noise ratio: initial power of one partial over the noise in the whole band. Frequencies are spread evenly in their logarithm from 80 to 800 Hz, phases evenly.</remarks>
internal static class TapTrial
{
    private const double Rate = 48_000, Quiet = 0.3, Length = 1.5, SignalToNoise = 100, Scale = 0.1;

    /// <summary>One partial, Q from 30 to 100.</summary>
    internal static TrialResult One(int runs, ulong seed) => Run(runs, seed, chance =>
    {
        double frequency = Spread(chance), q = 30 + 70 * chance.Next();
        return [Tone(frequency, q, chance)];
    });

    /// <summary>Two equal partials 1 % apart at Q 50.</summary>
    internal static TrialResult Two(int runs, ulong seed) => Run(runs, seed, chance =>
    {
        double frequency = Spread(chance);
        return [Tone(frequency, 50, chance), Tone(1.01 * frequency, 50, chance)];
    });

    /// <summary>White Gaussian noise (Box &amp; Muller 1958).</summary>
    internal static double Gauss(Xorshift chance) => Math.Sqrt(-2 * Math.Log(1 - chance.Next())) * Math.Cos(2 * Math.PI * chance.Next());

    private static double Spread(Xorshift chance) => 80 * Math.Pow(10, chance.Next());

    private static DampedSinusoid Tone(double frequency, double q, Xorshift chance) => new(Scale, frequency, Math.PI * frequency / q, 2 * Math.PI * chance.Next());

    private static TrialResult Run(int runs, ulong seed, Func<Xorshift, DampedSinusoid[]> draw)
    {
        int found = 0;
        double errors = 0, stated = 0, variance = Scale * Scale / 2 / SignalToNoise;
        int samples = (int)(Rate * Length), first = (int)(Rate * Quiet);
        var gate = new Lock();
        // A seed of its own for each run, so that the order does not matter.
        Parallel.For(0, runs, run =>
        {
            var chance = new Xorshift(seed * 1_000_003 + (ulong)run * 7919 + 1);
            for (int i = 0; i < 20; i++) { chance.Next(); }
            DampedSinusoid[] truth = draw(chance);
            var sound = new double[samples];
            for (int n = 0; n < samples; n++) { sound[n] = truth.Sum(s => s.At((n - first) / Rate)) + Math.Sqrt(variance) * Gauss(chance); }
            TapReport report = TapListening.Of(new(Rate, sound), 40, 2000);
            TapPartial[] near = [.. report.Partials.Where(p => Math.Abs(p.Frequency - truth[0].Frequency) < 0.1 * truth[0].Frequency)];
            if (near.Length != truth.Length || report.Taps.Count != 1) { return; }
            double[] bound = DampedBound.Of(truth, variance, Rate, samples - first);
            double error = near.Select((p, i) => Math.Pow(p.Frequency - truth[i].Frequency, 2) / bound[i]).Average(), said = near.Select((p, i) => p.FrequencySd * p.FrequencySd / bound[i]).Average();
            lock (gate)
            {
                found++;
                errors += error;
                stated += said;
            }
        });
        return new(runs, found, errors / found, stated / found);
    }
}
