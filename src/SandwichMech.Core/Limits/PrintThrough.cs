using SandwichMech.Core.Layups;

namespace SandwichMech.Core.Limits;

/// <summary>How far a skin sinks into one cell while the vacuum presses it on and the adhesive is still soft.</summary>
/// <remarks>
/// The cell is a circle of its size across the flats, the skin clamped on it, no adhesive and no air in it. Bending: w = p a⁴/(64 D'),
/// D' = (3 D11 + 2(D12 + 2 D66) + 3 D22)/8, exact for an orthotropic clamped circle, w ∝ (1 − r²/a²)² (Lekhnitskii 1968, Anisotropic Plates).
/// Shear, which is more of it since a cell is only some five skins wide: p a²/(2·⅚ t (G13 + G23)), exact for shear alone. Their sum is exact for
/// one isotropic skin (Reissner's theory) and an estimate for wood.
/// </remarks>
public static class PrintThrough
{
    /// <summary>From what depth on a cell is taken to show under gloss, m. Judgement: no source.</summary>
    public const double Shows = 10e-6;

    /// <summary>Standard deviation of its logarithm. Judgement.</summary>
    public const double ShowsSpread = 0.7;

    private const double ShearCorrection = 5.0 / 6;

    /// <summary>Deflection at the middle of the cell.</summary>
    /// <param name="skin">The skin.</param>
    /// <param name="cell">Cell size across the flats, m.</param>
    /// <param name="pressure">Pa.</param>
    /// <returns>m.</returns>
    public static double Deflection(Ply skin, double cell, double pressure)
    {
        double a = cell / 2, t = skin.Thickness;
        Sym3 d = (skin with { Angle = 0 }).ReducedStiffness() * (t * t * t / 12);
        double bending = (3 * d.M11 + 2 * (d.M12 + 2 * d.M66) + 3 * d.M22) / 8;
        return pressure * a * a * (a * a / (64 * bending) + 1 / (2 * ShearCorrection * t * (skin.G13 + skin.G23)));
    }
}
