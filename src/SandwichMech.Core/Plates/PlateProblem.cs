namespace SandwichMech.Core.Plates;

/// <summary>How a stretch of edge is held.</summary>
/// <param name="Deflection">Spring against w, N/m per metre of edge; infinite where w = 0.</param>
/// <param name="Rotation">Spring against both rotations, N·m/rad per metre of edge; infinite where they are 0.</param>
/// <param name="InPlane">Spring against u and v, N/m per metre; infinite where they are 0.</param>
public readonly record struct EdgeSupport(double Deflection, double Rotation, double InPlane)
{
    // Springs in parts of D/L: stiff enough to hold (an edge gives way by some 1e-6), soft enough for the arithmetic.
    private const double Stiff = 1e6;

    /// <summary>
    /// How stiff a rim is against turning, in parts of D/L. Common practice says that a rim lies between hinged and clamped, no source says where:
    /// 7 D/L puts the first frequency of a strip that two such edges hold half-way (6.8 by the beam's own equation). To be fitted from taps on the rim.
    /// </summary>
    public const double RimTurning = 7;

    /// <summary>Spring against turning in the direction of the edge (φ along it, twisting the edge), N·m/rad per metre of edge.</summary>
    public double Along { get; init; }

    /// <summary>Nothing is held.</summary>
    public static readonly EdgeSupport Free = new(0, 0, 0);
    /// <summary>w = 0 alone ("soft" hinge); the edge may slide and turn.</summary>
    public static readonly EdgeSupport Hinged = new(double.PositiveInfinity, 0, 0);
    /// <summary>Everything is held.</summary>
    public static readonly EdgeSupport Clamped = new(double.PositiveInfinity, double.PositiveInfinity, double.PositiveInfinity);

    /// <summary>w = 0 and the edge cannot move in its plane, as rim and block hold it; it may turn.</summary>
    public static readonly EdgeSupport HingedInPlane = Hinged.HeldInPlane();

    /// <summary>The same edge that cannot move in its plane either.</summary>
    /// <returns>The support.</returns>
    public EdgeSupport HeldInPlane() => this with { InPlane = double.PositiveInfinity };

    /// <summary>w = 0 and no turning in the direction of the edge, by a spring of a million times D/L ("hard" hinge); it may turn about the edge.</summary>
    /// <param name="section">Section at the edge.</param>
    /// <param name="size">L: length of the plate, m.</param>
    /// <returns>The support.</returns>
    public static EdgeSupport HardHinged(in PlateSection section, double size) => Hinged with { Along = Stiff * Bending(section) / size };

    /// <summary>Between hinged and clamped, held in its plane: a spring of <see cref="RimTurning"/> D/L against turning, D = √(D11 D22).</summary>
    /// <param name="section">Section of the board.</param>
    /// <param name="size">L: square root of the board's area, m.</param>
    /// <returns>The support.</returns>
    public static EdgeSupport Rim(in PlateSection section, double size) => HingedInPlane with { Rotation = RimTurning * Bending(section) / size };

    internal static double Bending(in PlateSection s) => Math.Sqrt(s.D.M11 * s.D.M22);

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
