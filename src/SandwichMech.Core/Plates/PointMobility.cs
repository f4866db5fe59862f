using System.Numerics;

namespace SandwichMech.Core.Plates;

/// <summary>Velocity per force at one place of a plate, from its modes and a static residual.</summary>
/// <remarks>
/// Y(ω) = iω [Σ φ²/(ω_n²(1 + iη) − ω²) + R], one loss factor η = 1/Q for all modes, R of the modes left out. Sound that is radiated and the box's air are
/// not in it.
/// </remarks>
/// <param name="Frequencies">Of the modes, Hz.</param>
/// <param name="Amplitudes">Their movement at the place, for unit modal mass, 1/√kg.</param>
/// <param name="Residual">R, m/N.</param>
/// <param name="Loss">η.</param>
public sealed record PointMobility(IReadOnlyList<double> Frequencies, IReadOnlyList<double> Amplitudes, double Residual, double Loss)
{
    /// <summary>Mobility.</summary>
    /// <param name="frequency">Hz, below the highest mode's.</param>
    /// <returns>m/(N·s), or s/kg.</returns>
    public Complex At(double frequency) =>
        new ModalTransfer(Frequencies, Amplitudes, Amplitudes, Residual, [.. Frequencies.Select(_ => Loss)]).At(frequency);
}
