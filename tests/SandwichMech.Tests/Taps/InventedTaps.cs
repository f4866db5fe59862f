using SandwichMech.Core.Numerics;
using SandwichMech.Core.Taps;

namespace SandwichMech.Tests.Taps;

/// <summary>Recordings of taps that never were: all values are invented.</summary>
internal static class InventedTaps
{
    internal const double Rate = 48_000, Noise = 4e-4;

    internal static readonly (double Frequency, double Q, double Level)[] Tones =
        [(72.3, 61, 0.05), (104.1, 47, 0.06), (151.7, 70, 0.04), (203.9, 55, 0.05), (288.4, 65, 0.03), (377.6, 52, 0.03), (514.2, 74, 0.02)];

    internal static readonly double[] Times = [0.72, 2.31, 3.88, 5.43];

    /// <summary>Taps by a short push, a half-sine of a millisecond.</summary>
    internal static double[] Sound(IReadOnlyList<double> times, double length = 7, ulong seed = 5, IReadOnlyList<(double Frequency, double Q, double Level)>? tones = null)
    {
        var chance = new Xorshift(seed);
        var x = new double[(int)(length * Rate)];
        int width = (int)(0.001 * Rate);
        double[] push = [.. Enumerable.Range(0, width).Select(n => Math.Sin(Math.PI * (n + 0.5) / width))];
        foreach (double time in times)
        {
            foreach ((double frequency, double q, double level) in tones ?? Tones)
            {
                double strength = level * (0.6 + 0.8 * chance.Next()) * (chance.Next() < 0.5 ? -1 : 1) / push.Sum(), decay = Math.PI * frequency / q;
                var turn = System.Numerics.Complex.Exp(new System.Numerics.Complex(-decay, 2 * Math.PI * frequency) / Rate);
                System.Numerics.Complex state = 0;
                int first = (int)(time * Rate);
                for (int n = first; n < Math.Min(x.Length, first + (int)(9 / decay * Rate)); n++)
                {
                    state = state * turn + (n - first < width ? strength * push[n - first] : 0);
                    x[n] += state.Imaginary;
                }
            }
        }

        return x;
    }

    internal static void AddNoise(double[] x, double size = Noise, ulong seed = 9)
    {
        var chance = new Xorshift(seed);
        for (int n = 0; n < x.Length; n++) { x[n] += size * TapTrial.Gauss(chance); }
    }

    internal static TapReport Heard(double[] x) => TapListening.Of(new(Rate, x), 40, 2000);

    /// <summary>All tones are found, within five standard deviations (or a share, where it is larger), and nothing else.</summary>
    internal static void AllFound(TapReport report, double share = 0)
    {
        Assert.Equal(Tones.Length, report.Partials.Count);
        foreach ((TapPartial p, (double frequency, double q, _)) in report.Partials.Zip(Tones))
        {
            Checks.Close(frequency, p.Frequency, Math.Max(5 * p.FrequencySd, share * frequency), "frequency");
            Checks.Close(q, p.Q, Math.Max(5 * p.QSd, share * q), $"Q at {frequency} Hz");
        }
    }
}
