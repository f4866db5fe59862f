using SandwichMech.Core.Layups;

namespace SandwichMech.Core.Acoustics;

/// <summary>How much a material or a layup moves for its mass, at a given tuning: sound speed over density.</summary>
/// <remarks>
/// R = c/ρ = √(E/ρ³) (Schelleng 1963, J. Acoust. Soc. Am. 35, 326–338: of two plates of one size and one first frequency the response goes with c/ρ;
/// Wegst 2006, Am. J. Bot. 93, 1439–1448, "sound radiation coefficient"; both from memory). A plate's first frequency goes with √(D/m) and its response at
/// that tuning with 1/m, so of a layup the same argument gives √(D/m³). With D = Eh³/12 and m = ρh the thickness falls out: √(12 D/m³) of one
/// solid layer is exactly its material's ratio, which makes solid and sandwich one scale. It knows nothing of damping, shear or the edge.
/// </remarks>
public static class RadiationRatio
{
    /// <summary>Of a material.</summary>
    /// <param name="modulus">Young's modulus in the direction of the bending, Pa.</param>
    /// <param name="density">kg/m³.</param>
    /// <returns>√(E/ρ³), m⁴/(kg·s).</returns>
    public static double OfMaterial(double modulus, double density) => Math.Sqrt(modulus / Math.Pow(density, 3));

    /// <summary>Of a layup, bending along: with the stiffness of a strip that is free at its sides, 1/d11.</summary>
    /// <param name="laminate">The layup.</param>
    /// <returns>√(12 D/m³), m⁴/(kg·s).</returns>
    public static double Along(Laminate laminate) => OfStrip(1 / laminate.Bending.Inverse().M11, laminate.ArealMass);

    /// <summary>Of a layup, bending across.</summary>
    /// <param name="laminate">The layup.</param>
    /// <returns>m⁴/(kg·s).</returns>
    public static double Across(Laminate laminate) => OfStrip(1 / laminate.Bending.Inverse().M22, laminate.ArealMass);

    /// <summary>Geometric mean of the two: a plate's modes have about as much of one as of the other.</summary>
    /// <param name="laminate">The layup.</param>
    /// <returns>m⁴/(kg·s).</returns>
    public static double Mean(Laminate laminate) => Math.Sqrt(Along(laminate) * Across(laminate));

    private static double OfStrip(double bending, double mass) => Math.Sqrt(12 * bending / Math.Pow(mass, 3));
}
