using System.Numerics;

namespace SandwichMech.Core.Plates;

/// <summary>What moves somewhere per force elsewhere, from a plate's modes and a static residual.</summary>
/// <remarks>T(ω) = iω [Σ d_n m_n/(ω_n²(1 + iη_n) − ω²) + R], R of the modes left out (Skudrzyk 1968, Simple and Complex Vibratory Systems; from memory).</remarks>
/// <param name="Frequencies">Of the modes, Hz.</param>
/// <param name="Drive">Their movement where the force acts, for unit modal mass, 1/√kg.</param>
/// <param name="Measured">What is measured of them, for unit modal mass: a movement, 1/√kg, or the volume that they move, m²/√kg.</param>
/// <param name="Residual">R, m/N or m³/N.</param>
/// <param name="Losses">Loss factor of each mode.</param>
public sealed record ModalTransfer(
    IReadOnlyList<double> Frequencies, IReadOnlyList<double> Drive, IReadOnlyList<double> Measured, double Residual, IReadOnlyList<double> Losses)
{
    /// <summary>Velocity, or volume velocity, per force.</summary>
    /// <param name="frequency">Hz, below the highest mode's.</param>
    /// <returns>m/(N·s), or m³/(N·s).</returns>
    public Complex At(double frequency)
    {
        double omega = 2 * Math.PI * frequency;
        Complex sum = Residual;
        for (int i = 0; i < Frequencies.Count; i++)
        {
            double own = Math.Pow(2 * Math.PI * Frequencies[i], 2);
            sum += Drive[i] * Measured[i] / (new Complex(own, own * Losses[i]) - omega * omega);
        }

        return Complex.ImaginaryOne * omega * sum;
    }

    /// <summary>The displacement, or volume, that a steady force brings.</summary>
    public double Steady => Residual + Enumerable.Range(0, Frequencies.Count).Sum(i => Drive[i] * Measured[i] / Math.Pow(2 * Math.PI * Frequencies[i], 2));

    /// <summary>Geometric mean of the magnitude over even steps of the logarithm of frequency.</summary>
    /// <param name="low">Hz.</param>
    /// <param name="high">Hz, above it and below the highest mode's.</param>
    /// <returns>In the unit of <see cref="At"/>.</returns>
    public double TypicalMagnitude(double low, double high)
    {
        const int steps = 160;
        return Math.Exp(Enumerable.Range(0, steps).Average(i => Math.Log(At(low * Math.Pow(high / low, i / (steps - 1.0))).Magnitude)));
    }
}
