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

/// <summary>A plate to be solved: mesh, sections, and how each edge on the boundary is held.</summary>
/// <param name="Mesh">Triangles with their regions.</param>
/// <param name="Sections">All sections, about one common reference plane.</param>
/// <param name="Support">How an edge of the boundary is held.</param>
public sealed record PlateProblem(PlateMesh Mesh, IReadOnlyList<PlateSection> Sections, Func<CurvedEdge, EdgeSupport> Support)
{
    /// <summary>Places at which a section that changes over a triangle is given: its corners and the middles of its sides.</summary>
    public const int PlacesOfTriangle = 6;

    private const double Negligible = 1e-12;

    /// <summary>
    /// Numbers of the sections of each triangle: one, or six that stand at corners and middles of sides and between which every
    /// coefficient is a quadratic. Where nothing is given, a triangle has the section of its region's number.
    /// </summary>
    public IReadOnlyList<int[]>? Places { get; init; }

    /// <summary>Curvature of a domed board.</summary>
    public Dome Dome { get; init; }

    /// <summary>Whether some triangle carries a bar on the inner face.</summary>
    internal bool HasInnerBars => Sections.Any(s => s.Inner is not null);

    /// <summary>Whether some triangle carries a bar on the outer face.</summary>
    internal bool HasOuterBars => Sections.Any(s => s.Outer is not null);

    /// <summary>Whether in-plane motion belongs in the model: a dome, a bar, or a section that couples bending with stretching about the reference plane.</summary>
    public bool HasCoupling => !Dome.IsFlat || HasInnerBars || HasOuterBars || Sections.Any(s =>
        Square(s.B) > Negligible * Math.Sqrt(Square(s.A) * Square(s.D)));

    /// <summary>Sections of a triangle: one, or six.</summary>
    internal int[] PlacesOf(int triangle) => Places?[triangle] ?? [Mesh.Triangles[triangle].Region];

    private static double Square(Layups.Sym3 m) => m.M11 * m.M11 + m.M22 * m.M22 + m.M12 * m.M12 + m.M66 * m.M66 + m.M16 * m.M16 + m.M26 * m.M26;
}
