using SandwichMech.Core.Layups;

namespace SandwichMech.Core.Plates;

/// <summary>Stiffness and inertia per area of a plate section about one reference plane that the whole board shares.</summary>
/// <remarks>N = Aε + Bκ, M = Bε + Dκ, V = Sγ; kinetic energy ½(m₀ u̇² + 2 m₁ u̇·φ̇ + m₂ φ̇²) with displacement u + zφ.</remarks>
/// <param name="A">Membrane stiffness, N/m.</param>
/// <param name="B">Coupling stiffness, N.</param>
/// <param name="D">Bending stiffness, N·m.</param>
/// <param name="S">Transverse shear stiffness, N/m.</param>
/// <param name="Mass">m₀, kg/m².</param>
/// <param name="FirstMoment">m₁, kg/m.</param>
/// <param name="RotaryInertia">m₂, kg.</param>
public readonly record struct PlateSection(
    Sym3 A, Sym3 B, Sym3 D, ShearStiffness S, double Mass, double FirstMoment, double RotaryInertia)
{
    /// <summary>The section of a laminate.</summary>
    /// <param name="laminate">The layup about its own mid-plane.</param>
    /// <param name="offset">Height of that mid-plane above the reference plane, m.</param>
    /// <returns>The section about the reference plane (parallel-axis rule: z = offset + z').</returns>
    public static PlateSection Of(Laminate laminate, double offset = 0) => new(
        laminate.A,
        laminate.B + laminate.A * offset,
        laminate.D + laminate.B * (2 * offset) + laminate.A * (offset * offset),
        laminate.Shear,
        laminate.ArealMass,
        laminate.FirstMoment + offset * laminate.ArealMass,
        laminate.RotaryInertia + 2 * offset * laminate.FirstMoment + offset * offset * laminate.ArealMass);

    /// <summary>The section that bends alike with its plane free to stretch: D − BA⁻¹B in the place of D, nothing in the plane.</summary>
    /// <returns>The section.</returns>
    /// <remarks>Exact where no in-plane force is held at the edge and the section is the same everywhere; within some 0.1 % for one board of one layup.</remarks>
    public PlateSection FreeInItsPlane() => this with { B = default, D = D - (B.Full() * (A.Inverse() * B)).Symmetric(), FirstMoment = 0 };

    /// <summary>Component of the 8 × 8 section stiffness in the order εx εy γxy κx κy κxy γxz γyz.</summary>
    internal double this[int i, int j] => (i, j) switch
    {
        ( < 3, < 3) => Component(A, i, j),
        ( < 3, < 6) => Component(B, i, j - 3),
        ( < 6, < 3) => Component(B, i - 3, j),
        ( < 6, < 6) => Component(D, i - 3, j - 3),
        (6, 6) => S.Sx,
        (7, 7) => S.Sy,
        (6, 7) or (7, 6) => S.Sxy,
        _ => 0,
    };

    /// <summary>Inertia between two of the five motions u, v, w, φx, φy.</summary>
    internal double Inertia(int a, int b) =>
        a == b ? (a < 3 ? Mass : RotaryInertia)
        : (a, b) is (0, 3) or (3, 0) or (1, 4) or (4, 1) ? FirstMoment : 0;

    private static double Component(Sym3 m, int i, int j) => (Math.Min(i, j), Math.Max(i, j)) switch
    {
        (0, 0) => m.M11,
        (0, 1) => m.M12,
        (1, 1) => m.M22,
        (0, 2) => m.M16,
        (1, 2) => m.M26,
        _ => m.M66,
    };
}
