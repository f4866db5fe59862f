using SandwichMech.Core.Layups;
using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Plates;

/// <summary>Short ways to write plates for the solver's checks, and the usual dimensionless frequencies.</summary>
internal static class SamplePlate
{
    /// <summary>One material: thickness, Poisson's ratio; E and density 1 unless given.</summary>
    public static PlateSection Isotropic(double thickness, double nu = 0.3, double e = 1, double density = 1) =>
        PlateSection.Of(Laminate.From([SamplePly.Isotropic(thickness, e, nu, density)]));

    /// <summary>One wood, grain along x.</summary>
    public static PlateSection Wood(double thickness, double el, double er, double nu, double glr, double glt, double grt, double density) =>
        PlateSection.Of(Laminate.From([SamplePly.Orthotropic(thickness, el, er, nu, glr, glt, grt, 0, density)]));

    /// <summary>A rectangle whose sides y = 0, x = a, y = b, x = 0 are held as the letters say: F free, S hinged, C clamped.</summary>
    public static PlateProblem Rectangle(PlateSection section, double a, double b, int along, int across, string sides = "FFFF") =>
        new(PlateMesh.Rectangle(a, b, along, across), [section], edge => Held(sides[edge.Curve]));

    /// <summary>A disc about the origin, its edge one curve.</summary>
    public static PlateProblem Disc(PlateSection section, double radius, int rings, char edge, bool curved = true) =>
        new(DiscMesh(radius, rings, curved), [section], _ => Held(edge));

    /// <summary>A disc of 6·rings² triangles: a vertex in the middle and 6i on ring i; on its edge arcs, or chords.</summary>
    public static PlateMesh DiscMesh(double radius, int rings, bool curved = true)
    {
        var vertices = new List<Point> { default };
        var triangles = new List<MeshTriangle>();
        for (int ring = 1; ring <= rings; ring++)
        {
            for (int i = 0; i < 6 * ring; i++)
            {
                vertices.Add(new Point(radius * ring / rings, 0).Turned(Math.PI * i / (3 * ring)));
            }

            for (int sector = 0; sector < 6; sector++)
            {
                for (int i = 0; i < ring; i++)
                {
                    int at = sector * ring + i, inside = sector * (ring - 1) + i;
                    triangles.Add(new(Vertex(ring - 1, inside), Vertex(ring, at), Vertex(ring, at + 1), 0));
                    if (i > 0)
                    {
                        triangles.Add(new(Vertex(ring - 1, inside - 1), Vertex(ring, at), Vertex(ring - 1, inside), 0));
                    }
                }
            }
        }

        var edges = new List<CurvedEdge>();
        for (int i = 0; i < 6 * rings; i++)
        {
            double angle = Math.PI * i / (3 * rings), step = Math.PI / (3 * rings);
            Point a = vertices[Vertex(rings, i)], b = vertices[Vertex(rings, i + 1)];
            edges.Add(new(Vertex(rings, i), Vertex(rings, i + 1), 0,
                curved ? t => new Point(radius, 0).Turned(angle + t * step) : t => (1 - t) * a + t * b));
        }

        return new(vertices, triangles, edges);

        static int Vertex(int ring, int i) => ring == 0 ? 0 : 1 + 3 * ring * (ring - 1) + i % (6 * ring);
    }

    /// <summary>The same mesh turned about the origin and then moved; its curves move with it.</summary>
    public static PlateMesh Moved(PlateMesh mesh, double angle, Point by) => new(
        [.. mesh.Vertices.Select(p => p.Turned(angle) + by)],
        mesh.Triangles,
        [.. mesh.Edges.Select(e => e with { At = t => e.At(t).Turned(angle) + by })]);

    /// <summary>A section whose grain is turned by an angle from x towards y: C' = TᵀCT, T strains in the grain's axes (Reddy 2004, eq. 2.3.15).</summary>
    public static PlateSection Turned(PlateSection section, double angle)
    {
        (double s, double c) = Math.SinCos(angle);
        var strain = new Mat3(c * c, s * s, c * s, s * s, c * c, -c * s, -2 * c * s, 2 * c * s, c * c - s * s);
        ShearStiffness v = section.S;
        return section with
        {
            A = Turn(section.A),
            B = Turn(section.B),
            D = Turn(section.D),
            S = new(
                c * c * v.Sx + s * s * v.Sy - 2 * c * s * v.Sxy,
                s * s * v.Sx + c * c * v.Sy + 2 * c * s * v.Sxy,
                c * s * (v.Sx - v.Sy) + (c * c - s * s) * v.Sxy),
        };

        Sym3 Turn(Sym3 m) => (strain.Transposed() * m.Full() * strain).Symmetric();
    }

    /// <summary>The same mesh with the triangles right of a line x = const in region 1.</summary>
    public static PlateMesh SplitAt(PlateMesh mesh, double x) => mesh with
    {
        Triangles = [.. mesh.Triangles.Select(t =>
            t with { Region = (mesh.Vertices[t.A].X + mesh.Vertices[t.B].X + mesh.Vertices[t.C].X) / 3 > x ? 1 : 0 })],
    };

    /// <summary>Frequencies of the flexible modes on this very mesh and order, Hz.</summary>
    public static double[] Frequencies(PlateProblem problem, int count, int order)
    {
        PlateModes.Result result = Solve(problem, count, order);
        return [.. result.Values[result.Rigid..].Select(v => Math.Sqrt(v) / (2 * Math.PI))];
    }

    /// <summary>Modes on this very mesh and order.</summary>
    public static PlateModes.Result Solve(PlateProblem problem, int count, int order) =>
        PlateModes.Solve(new PlateSystem(problem, order), problem, count);

    /// <summary>λ = ωa²√(m/D11).</summary>
    public static double[] Lambda(PlateProblem problem, double a, int count, int order)
    {
        PlateSection s = problem.Sections[0];
        return [.. Frequencies(problem, count, order).Select(f => 2 * Math.PI * f * a * a * Math.Sqrt(s.Mass / s.D.M11))];
    }

    private static EdgeSupport Held(char edge) => edge switch
    {
        'F' => EdgeSupport.Free,
        'S' => EdgeSupport.Hinged,
        'C' => EdgeSupport.Clamped,
        _ => throw new ArgumentOutOfRangeException(nameof(edge), edge, "F, S or C"),
    };
}
