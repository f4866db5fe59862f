using SandwichMech.Core.Layups;

namespace SandwichMech.Core.Plates;

/// <summary>Where transverse shear begins to soften a board.</summary>
/// <remarks>
/// A bending wave of wave number k on a strip with D and S per width has the effective stiffness D/(1 + Dk²/S)
/// (Timoshenko without rotary inertia) and ω² = Dk⁴/(m(1 + Dk²/S)). A stiffness loss r is reached at Dk²/S = r/(1 − r).
/// </remarks>
public static class WaveSoftening
{
    /// <summary>Frequency above which shear takes more than a given share of the bending stiffness.</summary>
    /// <param name="bendingStiffness">D per width, N·m.</param>
    /// <param name="shearStiffness">S per width, N/m.</param>
    /// <param name="arealMass">kg/m².</param>
    /// <param name="loss">Share of the stiffness lost, between 0 and 1; 0.1 by default.</param>
    /// <returns>Hz.</returns>
    public static double Frequency(double bendingStiffness, double shearStiffness, double arealMass, double loss = 0.1)
    {
        double k2 = shearStiffness / bendingStiffness * loss / (1 - loss);
        return k2 * Math.Sqrt(bendingStiffness * (1 - loss) / arealMass) / (2 * Math.PI);
    }

    /// <summary>Wave number of a bending wave at a frequency: Dk⁴ = mω²(1 + Dk²/S).</summary>
    /// <param name="bendingStiffness">D per width, N·m.</param>
    /// <param name="shearStiffness">S per width, N/m.</param>
    /// <param name="arealMass">kg/m².</param>
    /// <param name="frequency">Hz.</param>
    /// <returns>k², 1/m².</returns>
    public static double WaveNumberSquared(double bendingStiffness, double shearStiffness, double arealMass, double frequency)
    {
        double inertia = arealMass * Math.Pow(2 * Math.PI * frequency, 2), half = inertia / (2 * shearStiffness);
        return half + Math.Sqrt(half * half + inertia / bendingStiffness);
    }

    /// <summary>Frequency of that softening for bending along the board.</summary>
    /// <param name="laminate">The layup.</param>
    /// <returns>Hz, for a loss of 10 %.</returns>
    public static double Along(Laminate laminate) => Frequency(laminate.Bending.M11, laminate.Shear.Sx, laminate.ArealMass);

    /// <summary>The same across.</summary>
    /// <param name="laminate">The layup.</param>
    /// <returns>Hz, for a loss of 10 %.</returns>
    public static double Across(Laminate laminate) => Frequency(laminate.Bending.M22, laminate.Shear.Sy, laminate.ArealMass);
}
