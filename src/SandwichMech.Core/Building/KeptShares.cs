using MathNet.Numerics.Distributions;
using MathNet.Numerics.Statistics;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Building;

/// <summary>The shop's own kept share over its bonds, as a control chart of single values (Shewhart 1931; Montgomery 2009, Introduction to Statistical Quality Control, ch. 6).</summary>
/// <param name="Mean">Mean of all.</param>
/// <param name="Low">Lower control limit, mean − 2.66 of the mean moving range, not below 0.</param>
/// <param name="High">Upper control limit.</param>
/// <param name="Out">Numbers, from 0, of the bonds that lie outside.</param>
public sealed record KeptShares(double Mean, double Low, double High, IReadOnlyList<int> Out)
{
    /// <summary>Factor on the mean moving range of two: 3/d₂, d₂ = 2/√π = 1.128 for two.</summary>
    public static readonly double Factor = 3 * Math.Sqrt(Math.PI) / 2;

    /// <summary>The same as it is printed: "2.66".</summary>
    public static string FactorText => Factor.ToString("F2", System.Globalization.CultureInfo.InvariantCulture);

    /// <summary>Fewer bonds teach nothing of a shop.</summary>
    public const int Fewest = 3;

    /// <summary>The chart.</summary>
    /// <param name="shares">Kept over mixed of each bond, in the order of time; two or more.</param>
    /// <returns>Mean and limits.</returns>
    public static KeptShares Of(IReadOnlyList<double> shares)
    {
        double mean = shares.Average(), range = shares.Zip(shares.Skip(1), (a, b) => Math.Abs(b - a)).DefaultIfEmpty(0).Average();
        double low = Math.Max(0, mean - Factor * range), high = mean + Factor * range;
        return new(mean, low, high, [.. Enumerable.Range(0, shares.Count).Where(i => shares[i] < low || shares[i] > high)]);
    }

    /// <summary>What the shop's bonds make of the next one's share.</summary>
    /// <remarks>Normal with unknown mean and spread: the next value lies about the mean by s √(1 + 1/n) with Student's distribution, here by a normal of the same 90 % width.</remarks>
    /// <param name="shares">Of its bonds, in any order.</param>
    /// <param name="before">What is taken without any.</param>
    /// <returns>The share; as before with fewer than <see cref="Fewest"/> bonds.</returns>
    public static Estimate Next(IReadOnlyList<double> shares, Estimate before)
    {
        if (shares.Count < Fewest) { return before; }
        double mean = shares.Average(), s = Math.Max(shares.StandardDeviation(), 0.01), wide = StudentT.InvCDF(0, 1, shares.Count - 1, 0.95) / Propagation.Z90;
        return new(mean, s * Math.Sqrt(1 + 1.0 / shares.Count) * wide / mean);
    }
}
