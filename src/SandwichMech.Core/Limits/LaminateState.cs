using SandwichMech.Core.Layups;

namespace SandwichMech.Core.Limits;

/// <summary>How a board is kept from following what its plies want.</summary>
public enum Restraint
{
    /// <summary>Free to stretch and to bend, as on the bench.</summary>
    Free,
    /// <summary>Kept flat, free to stretch.</summary>
    Flat,
    /// <summary>Kept flat and from stretching, as on a stiff rim.</summary>
    Held,
}

/// <summary>A layup under line loads, or with plies that grow: strain, curvature and the stress in each ply.</summary>
/// <remarks>
/// Classical lamination: N = Aε + Bκ − Nᴴ, M = Bε + Dκ − Mᴴ with Nᴴ = Σ Q e t, Mᴴ = Σ Q e t z of each ply's own growth e (Jones 1999, section 4.5;
/// Reddy 2004, section 3.3, thermal forces). So κ = D*⁻¹(M + Mᴴ − BA⁻¹(N + Nᴴ)) with D* = D − BA⁻¹B, and ε = A⁻¹(N + Nᴴ − Bκ). Stress is
/// Q(ε + zκ − e).
/// </remarks>
public sealed class LaminateState
{
    private readonly Laminate _laminate;
    private readonly IReadOnlyList<InPlane> _growth;

    private LaminateState(Laminate laminate, InPlane stretch, InPlane curvature, IReadOnlyList<InPlane> growth) =>
        (_laminate, Stretch, Curvature, _growth) = (laminate, stretch, curvature, growth);

    /// <summary>Strain of the mid-plane.</summary>
    public InPlane Stretch { get; }

    /// <summary>Curvature, 1/m; positive stretches the outer face, so that the board is hollow inside.</summary>
    public InPlane Curvature { get; }

    /// <summary>Under loads per width.</summary>
    /// <param name="laminate">The layup.</param>
    /// <param name="force">N, N/m, tension positive.</param>
    /// <param name="moment">M, N·m/m, positive where it stretches the outer face.</param>
    /// <returns>Its state.</returns>
    public static LaminateState Under(Laminate laminate, InPlane force, InPlane moment)
    {
        (InPlane stretch, InPlane curvature) = Solve(laminate, force, moment);
        return new(laminate, stretch, curvature, [.. laminate.Plies.Select(_ => default(InPlane))]);
    }

    /// <summary>With plies that grow.</summary>
    /// <param name="laminate">The layup.</param>
    /// <param name="growth">Own strain of each ply in the board's axes, inner face first.</param>
    /// <param name="restraint">How it is kept.</param>
    /// <returns>Its state.</returns>
    public static LaminateState Grown(Laminate laminate, IReadOnlyList<InPlane> growth, Restraint restraint)
    {
        InPlane force = default, moment = default;
        double z = -laminate.Thickness / 2;
        for (int i = 0; i < laminate.Plies.Count; i++)
        {
            Ply ply = laminate.Plies[i];
            InPlane own = ply.ReducedStiffness() * growth[i] * ply.Thickness;
            force += own;
            moment += own * (z + ply.Thickness / 2);
            z += ply.Thickness;
        }

        (InPlane stretch, InPlane curvature) = restraint switch
        {
            Restraint.Free => Solve(laminate, force, moment),
            Restraint.Flat => (laminate.A.Inverse() * force, default),
            _ => (default, default),
        };
        return new(laminate, stretch, curvature, growth);
    }

    /// <summary>Stress in a ply, in its own axes.</summary>
    /// <param name="ply">Its number, inner face first.</param>
    /// <param name="outward">0 at its inner face, 1 at its outer.</param>
    /// <returns>σ1, σ2, τ12, Pa, tension positive.</returns>
    public InPlane Stress(int ply, double outward)
    {
        double z = -_laminate.Thickness / 2;
        for (int i = 0; i < ply; i++) { z += _laminate.Plies[i].Thickness; }
        Ply p = _laminate.Plies[ply];
        InPlane strain = Stretch + Curvature * (z + outward * p.Thickness) - _growth[ply];
        return (p.ReducedStiffness() * strain).SeenFrom(p.Angle);
    }

    private static (InPlane Stretch, InPlane Curvature) Solve(Laminate laminate, InPlane force, InPlane moment)
    {
        Sym3 a = laminate.A.Inverse();
        InPlane curvature = laminate.Bending.Inverse() * (moment - laminate.B * (a * force));
        return (a * (force - laminate.B * curvature), curvature);
    }
}
