using SandwichMech.Core.Layups;

namespace SandwichMech.Core.Plates;

/// <summary>A bar glued on a face of the board (a brace, a bridge), per area of its foot: it follows the face but turns on its own.</summary>
/// <remarks>
/// In the bar the displacement along x is u + gφx + ζψx, likewise across; g is the height of the glued face above the
/// reference plane, ζ the distance from it (positive outward), ψ the bar's own rotation. The board's normals turn with φ,
/// which a soft core lets run ahead of the slope; a tall narrow bar keeps its own, shears and twists. Taken as one more
/// layer with the board's φ the same bar comes out some per cent too stiff. With ψ free across the foot the torsion of a
/// rectangular bar is that of Reissner's plate with free sides: within 3 % of Saint-Venant's even for twice as tall as wide.
/// </remarks>
/// <param name="Glue">g, m.</param>
/// <param name="A0">∫ Q dζ, N/m.</param>
/// <param name="A1">∫ Q ζ dζ, N.</param>
/// <param name="A2">∫ Q ζ² dζ, N·m.</param>
/// <param name="S">Transverse shear stiffness, N/m.</param>
/// <param name="M0">∫ ρ dζ, kg/m².</param>
/// <param name="M1">∫ ρ ζ dζ, kg/m.</param>
/// <param name="M2">∫ ρ ζ² dζ, kg.</param>
public sealed record BarSection(double Glue, Sym3 A0, Sym3 A1, Sym3 A2, ShearStiffness S, double M0, double M1, double M2)
{
    /// <summary>A bar of one ply whose height may change across the foot: its moments are those of the mean over the width.</summary>
    /// <remarks>Exact for stretching and bending along the bar; its shear stiffness is that of a rectangle of the mean height.</remarks>
    /// <param name="ply">Wood and grain angle; its thickness is not used.</param>
    /// <param name="glue">Height of the glued face above the reference plane, m.</param>
    /// <param name="outward">Whether it stands on the outer face.</param>
    /// <param name="height">Mean height, m.</param>
    /// <param name="square">Mean of the height's square, m².</param>
    /// <param name="cube">Mean of the height's cube, m³.</param>
    /// <returns>The section.</returns>
    public static BarSection Of(Ply ply, double glue, bool outward, double height, double square, double cube)
    {
        Sym3 q = ply.ReducedStiffness();
        double side = outward ? 1 : -1;
        return new(
            glue, q * height, q * (side * square / 2), q * (cube / 3),
            Laminate.From([ply with { Thickness = height }]).Shear,
            ply.Density * height, side * ply.Density * square / 2, ply.Density * cube / 3);
    }
}
