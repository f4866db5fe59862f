using System.Numerics;

namespace SandwichMech.Core.Taps;

/// <summary>How much power a bin holds where there is no line, and where the spectrum stands out above it.</summary>
/// <remarks>
/// The floor is the lower quartile of the power in blocks of bins over ln 4/3, that of the exponential distribution which the power of noise has: lines may fill
/// half a block and hardly move it. Between the middles of the blocks it is interpolated.
/// Of noise alone one of n bins stands above the floor by ln(n) + c with the chance e^(−c).
/// </remarks>
internal static class SpectrumFloor
{
    private const int FewestBins = 48;
    private const double Widening = 1.35;

    internal static double[] Of(Complex[] rest)
    {
        var edges = new List<int> { 0 };
        while (edges[^1] < rest.Length) { edges.Add(Math.Max(edges[^1] + FewestBins, (int)(Widening * edges[^1]))); }
        edges[^1] = rest.Length;
        // What is left over at the end goes with the block before.
        if (edges.Count > 2 && edges[^1] - edges[^2] < FewestBins) { edges.RemoveAt(edges.Count - 2); }
        int blocks = edges.Count - 1;
        double[] level = new double[blocks], middle = new double[blocks];
        for (int b = 0; b < blocks; b++)
        {
            var powers = new double[edges[b + 1] - edges[b]];
            for (int i = 0; i < powers.Length; i++) { powers[i] = Power(rest[edges[b] + i]); }
            Array.Sort(powers);
            (level[b], middle[b]) = (powers[powers.Length / 4] / Math.Log(4.0 / 3), 0.5 * (edges[b] + edges[b + 1]));
        }

        var floor = new double[rest.Length];
        for (int k = 0, b = 0; k < floor.Length; k++)
        {
            while (b < blocks - 2 && k > middle[b + 1]) { b++; }
            int next = Math.Min(b + 1, blocks - 1);
            double share = next == b ? 0 : Math.Clamp((k - middle[b]) / (middle[next] - middle[b]), 0, 1);
            floor[k] = level[b] + share * (level[next] - level[b]);
        }

        return floor;
    }

    /// <summary>Bins that stand out most in their neighbourhood, the strongest first.</summary>
    /// <param name="rest">What is left of the spectrum.</param>
    /// <param name="floor">From <see cref="Of"/>.</param>
    /// <param name="from">First bin to look at.</param>
    /// <param name="to">Last bin.</param>
    /// <param name="share">Bins to each side, as a share of the frequency, in which there is no second.</param>
    internal static List<int> Peaks(Complex[] rest, double[] floor, int from, int to, double share)
    {
        var found = new List<int>();
        // Alone, and together with neighbours: a line is often wider than a bin.
        foreach (int width in (int[])[1, 5, 17])
        {
            double limit = Math.Log(rest.Length) + 5, spare = limit / width + 3 * Math.Sqrt(2.0 / width);
            double wanted = width == 1 ? limit : 1 + spare;
            int half = width / 2;
            for (int k = Math.Max(from, half); k <= Math.Min(to, rest.Length - 1 - half); k++)
            {
                double sum = 0;
                for (int i = k - half; i <= k + half; i++) { sum += Power(rest[i]); }
                if (sum > wanted * width * floor[k])
                {
                    int top = k;
                    for (int i = k - half; i <= k + half; i++) { top = Power(rest[i]) > Power(rest[top]) ? i : top; }
                    found.Add(Math.Clamp(top, from, to));
                }
            }
        }

        found = [.. found.Distinct().OrderByDescending(k => Power(rest[k]))];
        var kept = new List<int>();
        foreach (int k in found)
        {
            if (!kept.Any(o => Math.Abs(o - k) <= Math.Max(2, share * Math.Max(k, o)))) { kept.Add(k); }
        }

        return kept;
    }

    internal static double Power(Complex value) => value.Real * value.Real + value.Imaginary * value.Imaginary;
}
