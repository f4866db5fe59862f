namespace SandwichMech.Core.Plates;

/// <summary>How a stretch of edge is held.</summary>
/// <param name="Deflection">Spring against w, N/m per metre of edge; infinite where w = 0.</param>
/// <param name="Rotation">Spring against both rotations, N·m/rad per metre of edge; infinite where they are 0.</param>
/// <param name="InPlane">Spring against u and v, N/m per metre; infinite where they are 0.</param>
public readonly record struct EdgeSupport(double Deflection, double Rotation, double InPlane)
{
    /// <summary>Nothing is held.</summary>
    public static readonly EdgeSupport Free = new(0, 0, 0);
    /// <summary>w = 0 alone ("soft" hinge); the edge may slide and turn.</summary>
    public static readonly EdgeSupport Hinged = new(double.PositiveInfinity, 0, 0);
    /// <summary>Everything is held.</summary>
    public static readonly EdgeSupport Clamped = new(double.PositiveInfinity, double.PositiveInfinity, double.PositiveInfinity);

    /// <summary>Spring of one of the five motions u, v, w, φx, φy.</summary>
    internal double Of(int motion) => motion switch { 0 or 1 => InPlane, 2 => Deflection, _ => Rotation };
}

/// <summary>A plate to be solved: mesh, sections by region, and how each edge on the boundary is held.</summary>
/// <param name="Mesh">Triangles with their regions.</param>
/// <param name="Sections">Section of each region, about one common reference plane.</param>
/// <param name="Support">How an edge of the boundary is held.</param>
public sealed record PlateProblem(PlateMesh Mesh, IReadOnlyList<PlateSection> Sections, Func<CurvedEdge, EdgeSupport> Support)
{
    private const double Negligible = 1e-12;

    /// <summary>Whether in-plane motion belongs in the model: some section couples bending with stretching about the reference plane.</summary>
    public bool HasCoupling => Sections.Any(s =>
        Square(s.B) > Negligible * Math.Sqrt(Square(s.A) * Square(s.D)));

    private static double Square(Layups.Sym3 m) => m.M11 * m.M11 + m.M22 * m.M22 + m.M12 * m.M12 + m.M66 * m.M66 + m.M16 * m.M16 + m.M26 * m.M26;
}
