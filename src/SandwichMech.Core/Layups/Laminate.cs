namespace SandwichMech.Core.Layups;

/// <summary>Transverse shear stiffness per width, N/m.</summary>
/// <param name="Sx">S55, xz: bending along x.</param>
/// <param name="Sy">S44, yz: bending across, along y.</param>
/// <param name="Sxy">S45, coupling; 0 where grain and ribbon lie along x or y.</param>
public readonly record struct ShearStiffness(double Sx, double Sy, double Sxy);

/// <summary>What one ply brings to the board.</summary>
/// <param name="Name">The ply's name.</param>
/// <param name="Thickness">m.</param>
/// <param name="ArealMass">kg/m², its fillets included.</param>
/// <param name="StiffnessAlong">Its part of D11 of the reduced bending stiffness, N·m; the parts add up exactly.</param>
/// <param name="StiffnessAcross">Its part of D22, N·m.</param>
/// <param name="StiffnessTwist">Its part of D66, N·m.</param>
public sealed record PlyShare(
    string Name, double Thickness, double ArealMass, double StiffnessAlong, double StiffnessAcross, double StiffnessTwist);

/// <summary>A layup's stiffness and mass per area: classical lamination with first-order transverse shear.</summary>
/// <remarks>
/// Axes: x along the grain, y across, z outward; z = 0 at half the total thickness, plies listed from the inner face
/// (z = −h/2) to the outer (z = +h/2). N = Aε + Bκ, M = Bε + Dκ (Reddy 2004, eq. 3.3.37–38), κ the curvatures with
/// engineering twist 2w,xy. Assumes thin plies in plane stress and a core that does not change height.
/// </remarks>
public sealed record Laminate
{
    private Laminate() { }

    /// <summary>The plies, inner face first.</summary>
    public required IReadOnlyList<Ply> Plies { get; init; }
    /// <summary>Membrane stiffness A, N/m.</summary>
    public required Sym3 A { get; init; }
    /// <summary>Coupling stiffness B about the mid-plane, N.</summary>
    public required Sym3 B { get; init; }
    /// <summary>Bending stiffness D about the mid-plane, N·m.</summary>
    public required Sym3 D { get; init; }
    /// <summary>Reduced bending stiffness D − B A⁻¹ B, N·m: bending with the plane free to stretch (Ashton 1969).</summary>
    public required Sym3 Bending { get; init; }
    /// <summary>Energy-consistent transverse shear stiffness, N/m.</summary>
    public required ShearStiffness Shear { get; init; }
    /// <summary>Total thickness, m.</summary>
    public required double Thickness { get; init; }
    /// <summary>Areal density, kg/m².</summary>
    public required double ArealMass { get; init; }
    /// <summary>First moment of mass about the mid-plane, kg/m.</summary>
    public required double FirstMoment { get; init; }
    /// <summary>Rotary inertia about the mid-plane, kg.</summary>
    public required double RotaryInertia { get; init; }

    /// <summary>z of the neutral plane for bending along x, B11/A11, m from the mid-plane, outward positive.</summary>
    public double NeutralPlaneAlong => B.M11 / A.M11;
    /// <summary>z of the neutral plane for bending across, B22/A22, m.</summary>
    public double NeutralPlaneAcross => B.M22 / A.M22;
    /// <summary>Young's modulus along x of a solid strip of the same thickness and bending stiffness, 12/(h³ d11), Pa.</summary>
    public double FlexuralModulusAlong => 12 / (Math.Pow(Thickness, 3) * Bending.Inverse().M11);
    /// <summary>Young's modulus across of a solid strip of the same thickness and bending stiffness, Pa.</summary>
    public double FlexuralModulusAcross => 12 / (Math.Pow(Thickness, 3) * Bending.Inverse().M22);
    /// <summary>Young's modulus along x in stretching, 1/(h a11) with a = (A − B D⁻¹ B)⁻¹, Pa.</summary>
    public double MembraneModulusAlong => 1 / (Thickness * FreeMembrane().Inverse().M11);
    /// <summary>Young's modulus across in stretching, Pa.</summary>
    public double MembraneModulusAcross => 1 / (Thickness * FreeMembrane().Inverse().M22);

    /// <summary>Builds the laminate.</summary>
    /// <param name="plies">Inner face first; at least one.</param>
    /// <returns>All stiffness and mass figures.</returns>
    /// <exception cref="ArgumentException">No ply; a thickness or transverse shear modulus that is not positive and finite; a negative modulus; no ply that carries in-plane load.</exception>
    public static Laminate From(IReadOnlyList<Ply> plies)
    {
        if (plies.Count == 0)
        {
            throw new ArgumentException("A layup needs at least one ply.", nameof(plies));
        }

        foreach (Ply p in plies)
        {
            Require(p, p.Thickness > 0 && p.G13 > 0 && p.G23 > 0, "thickness and transverse shear moduli must be positive");
            Require(p, p.E1 >= 0 && p.E2 >= 0 && p.G12 >= 0 && p.Density >= 0 && p.AddedArealMass >= 0, "moduli and masses must not be negative");
            Require(p, p.E2 == 0 || p.Nu12 * p.Nu12 * p.E2 < p.E1, "Poisson's ratio is too large for its moduli");
            Require(p, double.IsFinite(p.Thickness + p.E1 + p.E2 + p.G12 + p.G13 + p.G23 + p.Density + p.Angle + p.Nu12 + p.AddedArealMass), "all values must be finite");
        }

        double h = 0;
        foreach (Ply p in plies)
        {
            h += p.Thickness;
        }

        double z = -h / 2;
        Sym3 a = default, b = default, d = default;
        double m = 0, m1 = 0, m2 = 0;
        foreach (Ply p in plies)
        {
            double top = z + p.Thickness, mid = (z + top) / 2;
            Sym3 q = p.ReducedStiffness();
            a += q * p.Thickness;
            b += q * (p.Thickness * mid);
            double second = p.Thickness * (mid * mid + p.Thickness * p.Thickness / 12);
            d += q * second;
            m += p.ArealMass;
            m1 += p.ArealMass * mid;
            m2 += p.Density * second + p.AddedArealMass * mid * mid;
            z = top;
        }

        Mat3 stretchPerCurvature = (a.Inverse() * b);
        Sym3 bending = d - (b.Full() * stretchPerCurvature).Symmetric();
        return new()
        {
            Plies = plies,
            A = a,
            B = b,
            D = d,
            Bending = bending,
            Shear = TransverseShear.Stiffness(plies, h, stretchPerCurvature, bending.Inverse()),
            Thickness = h,
            ArealMass = m,
            FirstMoment = m1,
            RotaryInertia = m2,
        };
    }

    /// <summary>What each ply brings to bending stiffness and mass.</summary>
    /// <remarks>
    /// With no net in-plane force the strain at z is (zI − C)κ, C = A⁻¹B, so the reduced bending stiffness is exactly
    /// ∫(zI − C)ᵀ Q (zI − C) dz, a sum over plies.
    /// </remarks>
    /// <returns>One row a ply, inner face first.</returns>
    public IReadOnlyList<PlyShare> Shares()
    {
        Mat3 c = A.Inverse() * B;
        double z = -Thickness / 2;
        var shares = new List<PlyShare>(Plies.Count);
        foreach (Ply p in Plies)
        {
            double mid = z + p.Thickness / 2;
            Mat3 q = p.ReducedStiffness().Full();
            Mat3 qc = q * c;
            Mat3 sum = q * (p.Thickness * (mid * mid + p.Thickness * p.Thickness / 12))
                - qc * (p.Thickness * mid) - qc.Transposed() * (p.Thickness * mid);
            Sym3 part = sum.Symmetric() + (c.Transposed() * qc * p.Thickness).Symmetric();
            shares.Add(new(p.Name, p.Thickness, p.ArealMass, part.M11, part.M22, part.M66));
            z += p.Thickness;
        }

        return shares;
    }

    /// <summary>What each ply brings to the transverse shear stiffness: at a given shear strain the plies' energies are in these parts, which add up to it exactly.</summary>
    /// <remarks>S H_p S, with S⁻¹ = Σ H_p the complementary energy by plies.</remarks>
    /// <returns>N/m, inner face first.</returns>
    public IReadOnlyList<ShearStiffness> ShearShares()
    {
        (double x, double y, double xy) = (Shear.Sx, Shear.Sy, Shear.Sxy);
        return [.. TransverseShear.Compliances(Plies, Thickness, A.Inverse() * B, Bending.Inverse()).Select(h => new ShearStiffness(
            x * x * h.Xx + 2 * x * xy * h.Xy + xy * xy * h.Yy,
            xy * xy * h.Xx + 2 * xy * y * h.Xy + y * y * h.Yy,
            x * xy * h.Xx + (x * y + xy * xy) * h.Xy + xy * y * h.Yy))];
    }

    private Sym3 FreeMembrane() => A - (B.Full() * (D.Inverse() * B)).Symmetric();

    private static void Require(Ply p, bool holds, string what)
    {
        if (!holds)
        {
            throw new ArgumentException($"Ply '{p.Name}': {what}.");
        }
    }
}
