using SandwichMech.Core.Layups;

namespace SandwichMech.Core.Limits;

/// <summary>The stress at which a thin skin on its core buckles on its own: wrinkling, dimpling over a cell, crimping of the core.</summary>
/// <remarks>Zenkert (1995), An Introduction to Sandwich Construction, chapter 6; equation numbers as transcribed.</remarks>
public static class SkinBuckling
{
    /// <summary>Factor of the design value of wrinkling; holds a knock-down of about 80 % for imperfect skins against 0.91 in theory (eq. 6.10, 6.14).</summary>
    public const double DesignFactor = 0.5;

    /// <summary>Factor of perfect skins on a thick core (Hoff's; eq. 6.10).</summary>
    public const double PerfectFactor = 0.91;

    /// <summary>Stress at which a skin wrinkles on a thick core: 0.5 (E_f E_c G_c)^⅓ (eq. 6.14).</summary>
    /// <param name="skinModulus">E_f: bending modulus of the skin along the load, Pa.</param>
    /// <param name="coreModulus">E_c: Young's modulus of the core through its height, Pa.</param>
    /// <param name="coreShear">G_c: shear modulus of the core in the direction of the load, Pa.</param>
    /// <returns>Pa, compression positive.</returns>
    public static double Wrinkling(double skinModulus, double coreModulus, double coreShear) =>
        DesignFactor * Math.Cbrt(skinModulus * coreModulus * coreShear);

    /// <summary>Stress at which both skins of a thin core wrinkle against each other, perfect: 2/√6 √(E_f E_c t_f/t_c).</summary>
    /// <remarks>A strip on springs of stiffness 2 E_c/t_c up to the core's unmoved middle: σ = 2√(E_f I k)/t_f, I = t_f³/12; the core's shear left out, so it is low.</remarks>
    /// <param name="skinModulus">E_f, Pa.</param>
    /// <param name="coreModulus">E_c, Pa.</param>
    /// <param name="skin">t_f, m.</param>
    /// <param name="core">t_c, m.</param>
    /// <returns>Pa.</returns>
    public static double ThinCoreWrinkling(double skinModulus, double coreModulus, double skin, double core) =>
        2 / Math.Sqrt(6) * Math.Sqrt(skinModulus * coreModulus * skin / core);

    /// <summary>How deep a wrinkle reaches into a thick core: 0.91 t_f (E_f E_c/G_c²)^⅓ (Hoff and Mautner 1945; from memory).</summary>
    /// <param name="skinModulus">E_f, Pa.</param>
    /// <param name="coreModulus">E_c, Pa.</param>
    /// <param name="coreShear">G_c, Pa.</param>
    /// <param name="skin">t_f, m.</param>
    /// <returns>m.</returns>
    public static double WrinkleDepth(double skinModulus, double coreModulus, double coreShear, double skin) =>
        0.91 * skin * Math.Cbrt(skinModulus * coreModulus / (coreShear * coreShear));

    /// <summary>Stress at which a skin dimples over the cells: 2 E_f/(1 − ν²) (t_f/s)² (eq. 6.32).</summary>
    /// <param name="skinModulus">E_f: modulus of the skin along the load, Pa.</param>
    /// <param name="nuSquared">ν², of an orthotropic skin ν12 ν21.</param>
    /// <param name="skin">t_f, m.</param>
    /// <param name="cell">s: cell size across the flats, m.</param>
    /// <returns>Pa.</returns>
    public static double Dimpling(double skinModulus, double nuSquared, double skin, double cell) =>
        2 * skinModulus / (1 - nuSquared) * (skin / cell) * (skin / cell);

    /// <summary>Compression per width at which the core gives way in shear, both skins bowing alike: G_c d²/t_c.</summary>
    /// <param name="coreShear">G_c in the direction of the load, Pa.</param>
    /// <param name="apart">d: between the middles of the skins, m.</param>
    /// <param name="core">t_c, m.</param>
    /// <returns>N/m.</returns>
    public static double Crimping(double coreShear, double apart, double core) => coreShear * apart * apart / core;

    /// <summary>Young's modulus of a ply in a direction (Jones 1999, eq. 2.97).</summary>
    /// <param name="ply">The ply.</param>
    /// <param name="direction">From x towards y, rad.</param>
    /// <returns>1/S̄11, Pa.</returns>
    public static double Modulus(Ply ply, double direction)
    {
        double c = Math.Cos(direction - ply.Angle), s = Math.Sin(direction - ply.Angle), c2 = c * c, s2 = s * s;
        return 1 / (c2 * c2 / ply.E1 + s2 * s2 / ply.E2 + c2 * s2 * (1 / ply.G12 - 2 * ply.Nu12 / ply.E1));
    }

    /// <summary>Transverse shear modulus of a ply in a direction, the other way free to shear: the lower of the two that could be meant.</summary>
    /// <param name="ply">The ply.</param>
    /// <param name="direction">From x towards y, rad.</param>
    /// <returns>Pa.</returns>
    public static double TransverseShear(Ply ply, double direction)
    {
        double c = Math.Cos(direction - ply.Angle), s = Math.Sin(direction - ply.Angle);
        return 1 / (c * c / ply.G13 + s * s / ply.G23);
    }
}
