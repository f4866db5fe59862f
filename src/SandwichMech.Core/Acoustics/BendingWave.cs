using SandwichMech.Core.Layups;

namespace SandwichMech.Core.Acoustics;

/// <summary>Straight bending waves in one direction of a plate that gives way in shear.</summary>
/// <remarks>
/// (S k² − m ω²)(D k² + S − I ω²) = S² k² (Timoshenko 1921, Phil. Mag. 41, 744; for plates Mindlin 1951, J. Appl. Mech. 18, 31). With K = k² and
/// W = ω²: DS K² − (mD + SI) W K − mS W + mI W² = 0, of which the larger K is the bending wave. It is slow and thin at low frequency, (D/m)^¼ √ω,
/// and never faster than √(S/m) or √(D/I). This theory leaves out the skins' own bending, which lets the wave of a sandwich run faster again near the skins' own
/// critical frequency, some 20 kHz for 0.7 mm of spruce along the grain.
/// </remarks>
/// <param name="Bending">D per width, N·m.</param>
/// <param name="Shear">S per width, N/m.</param>
/// <param name="ArealMass">m, kg/m².</param>
/// <param name="RotaryInertia">I, kg; 0 leaves it out.</param>
public sealed record BendingWave(double Bending, double Shear, double ArealMass, double RotaryInertia = 0)
{
    /// <summary>Waves along a layup: crests across the grain.</summary>
    /// <param name="laminate">The layup.</param>
    /// <returns>The wave.</returns>
    public static BendingWave Along(Laminate laminate) => new(laminate.Bending.M11, laminate.Shear.Sx, laminate.ArealMass, laminate.RotaryInertia);

    /// <summary>Waves across a layup.</summary>
    /// <param name="laminate">The layup.</param>
    /// <returns>The wave.</returns>
    public static BendingWave Across(Laminate laminate) => new(laminate.Bending.M22, laminate.Shear.Sy, laminate.ArealMass, laminate.RotaryInertia);

    /// <summary>Wave number.</summary>
    /// <param name="frequency">Hz, positive.</param>
    /// <returns>k, rad/m.</returns>
    public double WaveNumber(double frequency)
    {
        double w = Square(frequency), difference = (ArealMass * Bending - Shear * RotaryInertia) * w;
        double root = Math.Sqrt(difference * difference + 4 * Bending * Shear * Shear * ArealMass * w);
        return Math.Sqrt(((ArealMass * Bending + Shear * RotaryInertia) * w + root) / (2 * Bending * Shear));
    }

    /// <summary>Speed of the crests.</summary>
    /// <param name="frequency">Hz, positive.</param>
    /// <returns>ω/k, m/s.</returns>
    public double PhaseSpeed(double frequency) => 2 * Math.PI * frequency / WaveNumber(frequency);

    /// <summary>Speed of the energy, dω/dk, by differentiating the dispersion relation.</summary>
    /// <param name="frequency">Hz, positive.</param>
    /// <returns>m/s: twice the phase speed of a thin plate, the same where shear is all.</returns>
    public double GroupSpeed(double frequency)
    {
        double w = Square(frequency), k = WaveNumber(frequency), sum = ArealMass * Bending + Shear * RotaryInertia;
        double slope = (2 * Bending * Shear * k * k - sum * w) / (sum * k * k + ArealMass * Shear - 2 * ArealMass * RotaryInertia * w);
        return k * slope / (2 * Math.PI * frequency);
    }

    /// <summary>Frequency above which the wave is faster than sound and radiates all along: phase speed equal to the air's.</summary>
    /// <remarks>
    /// k = ω/c in the dispersion relation leaves ω² = m S c⁴/((D − I c²)(S − m c²)), which is c⁴m/D of the thin plate (Cremer 1942) over (1 − mc²/S)(1 − Ic²/D). It lies
    /// on the bending wave only where both factors are positive: a wave that shear holds below √(S/m) &lt; c has no critical frequency.
    /// </remarks>
    /// <param name="soundSpeed">c, m/s.</param>
    /// <returns>Hz; nothing where shear (or turning) keeps the wave slower than sound.</returns>
    public double? Critical(double soundSpeed = Plates.AmbientAir.SoundSpeed)
    {
        double c2 = soundSpeed * soundSpeed, shear = Shear - ArealMass * c2, turning = Bending - RotaryInertia * c2;
        return shear > 0 && turning > 0 ? c2 * Math.Sqrt(ArealMass * Shear / (shear * turning)) / (2 * Math.PI) : null;
    }

    private static double Square(double frequency) => Math.Pow(2 * Math.PI * frequency, 2);
}
