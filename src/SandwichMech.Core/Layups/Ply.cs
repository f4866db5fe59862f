namespace SandwichMech.Core.Layups;

/// <summary>One layer: thickness, orthotropic elastic constants in its own axes 1 (grain or ribbon), 2, and its turn against x.</summary>
/// <remarks>Plane stress through the thickness; a honeycomb has E1 = E2 = G12 = 0 and only its two transverse shear moduli.</remarks>
public sealed record Ply
{
    /// <summary>What the layer is in the maker's words: "outer skin", "core".</summary>
    public required string Name { get; init; }
    /// <summary>Thickness, m, positive.</summary>
    public required double Thickness { get; init; }
    /// <summary>Young's modulus along 1, Pa, 0 or more.</summary>
    public required double E1 { get; init; }
    /// <summary>Young's modulus along 2, Pa, 0 or more.</summary>
    public required double E2 { get; init; }
    /// <summary>Poisson's ratio ν12.</summary>
    public required double Nu12 { get; init; }
    /// <summary>In-plane shear modulus, Pa, 0 or more.</summary>
    public required double G12 { get; init; }
    /// <summary>Transverse shear modulus in the 1–z plane, Pa, positive.</summary>
    public required double G13 { get; init; }
    /// <summary>Transverse shear modulus in the 2–z plane, Pa, positive.</summary>
    public required double G23 { get; init; }
    /// <summary>Density, kg/m³.</summary>
    public required double Density { get; init; }
    /// <summary>Angle from x to axis 1, rad, positive from x towards y.</summary>
    public double Angle { get; init; }
    /// <summary>Mass per area that sits in the layer and carries nothing (fillets), kg/m².</summary>
    public double AddedArealMass { get; init; }

    /// <summary>How its material loses energy; nothing where only stiffness and mass are wanted.</summary>
    public PlyLoss? Loss { get; init; }

    /// <summary>Mass per area, kg/m².</summary>
    public double ArealMass => Density * Thickness + AddedArealMass;

    /// <summary>Plane-stress reduced stiffness in the board's axes, Pa (Jones 1999, eq. 2.85; Reddy 2004, eq. 2.4.8).</summary>
    /// <returns>Q̄ in the order 11, 12, 22, 16, 26, 66.</returns>
    public Sym3 ReducedStiffness() => ReducedStiffness(1, 1, 1);

    /// <summary>The same with each stiffness times a factor of its own: with loss factors, what a cycle loses (the imaginary part of complex moduli).</summary>
    /// <param name="along">Of Q11.</param>
    /// <param name="across">Of Q22; Q12, which is of both, takes the mean.</param>
    /// <param name="shear">Of Q66.</param>
    /// <returns>Q̄.</returns>
    internal Sym3 ReducedStiffness(double along, double across, double shear)
    {
        double nu21 = E1 > 0 ? Nu12 * E2 / E1 : 0;
        double mu = 1 - Nu12 * nu21;
        double q11 = E1 / mu * along, q22 = E2 / mu * across, q12 = Nu12 * E2 / mu * ((along + across) / 2), q66 = G12 * shear;
        if (Angle == 0)
        {
            return new(q11, q12, q22, 0, 0, q66);
        }

        double c = Math.Cos(Angle), s = Math.Sin(Angle), c2 = c * c, s2 = s * s;
        return new(
            q11 * c2 * c2 + 2 * (q12 + 2 * q66) * s2 * c2 + q22 * s2 * s2,
            (q11 + q22 - 4 * q66) * s2 * c2 + q12 * (s2 * s2 + c2 * c2),
            q11 * s2 * s2 + 2 * (q12 + 2 * q66) * s2 * c2 + q22 * c2 * c2,
            (q11 - q12 - 2 * q66) * s * c2 * c + (q12 - q22 + 2 * q66) * s2 * s * c,
            (q11 - q12 - 2 * q66) * s2 * s * c + (q12 - q22 + 2 * q66) * s * c2 * c,
            (q11 + q22 - 2 * q12 - 2 * q66) * s2 * c2 + q66 * (s2 * s2 + c2 * c2));
    }

    /// <summary>Transverse shear compliance in the board's axes, 1/Pa: xz–xz, yz–yz and the coupling.</summary>
    /// <returns>Compliances (xx, yy, xy).</returns>
    public (double Xx, double Yy, double Xy) ShearCompliance()
    {
        double c = Math.Cos(Angle), s = Math.Sin(Angle);
        return (c * c / G13 + s * s / G23, s * s / G13 + c * c / G23, c * s * (1 / G13 - 1 / G23));
    }
}
