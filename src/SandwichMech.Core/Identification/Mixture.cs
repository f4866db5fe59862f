using MathNet.Numerics.Distributions;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Identification;

/// <summary>What several possibilities say together of one figure.</summary>
internal static class Mixture
{
    private const double Inside = 0.9;
    private const int Halvings = 60;

    /// <summary>The normal spread whose 90 % interval about 0 holds 90 % of all possibilities together.</summary>
    /// <param name="parts">Normal ones: their middle, their spread, their weight; the weights add up to 1.</param>
    /// <returns>The spread; that of a single part about 0 is its own.</returns>
    internal static double SpreadAbout(IReadOnlyList<(double Off, double Spread, double Weight)> parts)
    {
        double low = 0, high = parts.Max(p => Math.Abs(p.Off) + Propagation.Z90 * p.Spread);
        for (int i = 0; i < Halvings; i++)
        {
            double half = (low + high) / 2, held = 0;
            foreach ((double off, double spread, double weight) in parts) { held += weight * Held(off, spread, half); }
            (low, high) = held < Inside ? (half, high) : (low, half);
        }

        return high / Propagation.Z90;
    }

    private static double Held(double off, double spread, double half) =>
        spread > 0 ? Normal.CDF(0, 1, (half - off) / spread) - Normal.CDF(0, 1, (-half - off) / spread) : Math.Abs(off) <= half ? 1 : 0;
}
