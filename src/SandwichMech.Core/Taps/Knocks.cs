using SandwichMech.Core.Numerics;

namespace SandwichMech.Core.Taps;

/// <summary>Another push within a tap.</summary>
/// <param name="After">s after the tap.</param>
/// <param name="Level">dB below the tap's own.</param>
internal sealed record Knock(double After, double Level);

/// <summary>What pushed the piece while it sounded, after the tap: a second touch, or an echo of the tap from the room.</summary>
/// <remarks>
/// Free vibration can be foretold from its own past: x_n = −Σ a_i x_(n−i), with coefficients by Burg's method (Burg 1975; from memory) from the later, undisturbed part of the tap.
/// What cannot be foretold, e_n, is noise, or a push. The sound is first filtered and thinned out to the band of interest.
/// </remarks>
internal sealed class Knocks
{
    private const int Order = 60;
    private const double Pause = 0.008, Within = 0.15, Settled = 0.03, Step = 0.002, LowestLevel = -26;

    private Knocks(IReadOnlyList<Knock> others) => Others = others;

    /// <summary>Pushes after the first.</summary>
    internal IReadOnlyList<Knock> Others { get; }

    /// <summary>Sample of the last push that is not far below the first.</summary>
    internal int LastOf(SuddenSound sound) => Others.Where(k => k.Level > LowestLevel).Select(k => sound.Start + (int)((k.After + Step) * Rate)).DefaultIfEmpty(0).Max();

    private double Rate { get; init; }

    internal static Knocks In(Recording recording, SuddenSound sound, double high)
    {
        int thin = Math.Max(1, (int)(recording.SampleRate / Math.Max(3 * high, 6000)));
        double rate = recording.SampleRate / thin;
        int lead = (int)(0.2 * rate), from = sound.Start - lead * thin;
        double[] x = Thinned(recording.Samples, from, Math.Min(sound.End, sound.Start + (int)recording.SampleRate), thin);
        int later = lead + (int)(Settled * rate), block = Math.Max(4, (int)(Step * rate));
        if (x.Length - later < 8 * Order) { return new([]) { Rate = recording.SampleRate }; }
        double[] a = Burg(x.AsSpan(later, Math.Min(x.Length - later, (int)(0.4 * rate))));
        var e = new double[x.Length];
        for (int n = Order; n < x.Length; n++)
        {
            double sum = x[n];
            for (int i = 0; i < Order; i++) { sum += a[i] * x[n - 1 - i]; }
            e[n] = sum * sum;
        }

        double[] blocks = [.. Enumerable.Range(0, (x.Length - lead) / block).Select(b => Mean(e, lead + b * block, block))];
        return new(Pushes(blocks, block / rate)) { Rate = recording.SampleRate };
    }

    private static List<Knock> Pushes(double[] blocks, double step)
    {
        int within = Math.Min(blocks.Length, (int)(Within / step)), pause = (int)(Pause / step);
        double[] later = [.. blocks[within..].Order()];
        double floor = later.Length == 0 ? 0 : later[later.Length / 2], first = blocks.Take(pause).DefaultIfEmpty().Max();
        var found = new List<Knock>();
        for (int b = pause; b < within; b++)
        {
            // Far above what was there just before, and above the noise.
            double past = 0;
            for (int i = Math.Max(1, b - 4); i < b - 1; i++) { past = Math.Max(past, blocks[i]); }
            bool isTop = blocks[b] >= blocks[b - 1] && (b + 1 >= blocks.Length || blocks[b] >= blocks[b + 1]);
            if (isTop && blocks[b] > 12 * floor && blocks[b] > 6 * past && (found.Count == 0 || b * step - found[^1].After > Pause / 2)) { found.Add(new(b * step, 10 * Math.Log10(blocks[b] / first))); }
        }

        return found;
    }

    private static double Mean(double[] e, int from, int count)
    {
        double sum = 0;
        for (int n = from; n < from + count; n++) { sum += e[n]; }
        return count > 0 ? sum / count : 0;
    }

    // Low-pass by a windowed sinc of eight of the thinner samples, then one of so many.
    private static double[] Thinned(double[] samples, int from, int to, int thin)
    {
        int half = 4 * thin;
        var filter = new double[2 * half + 1];
        for (int i = -half; i <= half; i++)
        {
            double t = 0.8 * i / thin, window = 0.5 + 0.5 * Math.Cos(Math.PI * i / (half + 1));
            filter[i + half] = window * (i == 0 ? 1 : Math.Sin(Math.PI * t) / (Math.PI * t)) * 0.8 / thin;
        }

        var result = new double[Math.Max(0, (to - from) / thin)];
        for (int m = 0; m < result.Length; m++)
        {
            int at = from + m * thin - half;
            if (at >= 0 && at + filter.Length <= samples.Length) { result[m] = DenseRows.Dot(filter, samples.AsSpan(at, filter.Length)); }
        }

        return result;
    }

    private static double[] Burg(ReadOnlySpan<double> x)
    {
        double[] forward = x.ToArray(), backward = x.ToArray(), a = new double[Order];
        for (int m = 0; m < Order; m++)
        {
            int count = x.Length - m - 1;
            double top = 0, under = 1e-300;
            for (int n = 0; n < count; n++)
            {
                double f = forward[n + 1], b = backward[n];
                top += f * b;
                under += f * f + b * b;
            }

            double k = -2 * top / under;
            double[] old = a[..m];
            for (int i = 0; i < m; i++) { a[i] = old[i] + k * old[m - 1 - i]; }
            a[m] = k;
            for (int n = 0; n < count; n++)
            {
                double f = forward[n + 1], b = backward[n];
                (forward[n], backward[n]) = (f + k * b, b + k * f);
            }
        }

        return a;
    }
}
