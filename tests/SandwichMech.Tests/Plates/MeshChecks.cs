using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;

namespace SandwichMech.Tests.Plates;

/// <summary>What every mesh must be, whatever its domain.</summary>
internal static class MeshChecks
{
    /// <summary>Area of each triangle and its evenness (least over most Jacobian determinant) at the quadrature points of an order.</summary>
    public static (double Area, double Ratio)[] Triangles(PlateMesh mesh, int order)
    {
        var nodal = new NodalMesh(mesh, order);
        TriangleBasis basis = nodal.Basis;
        int points = basis.Points.Length;
        var result = new (double, double)[mesh.Triangles.Count];
        for (int t = 0; t < result.Length; t++)
        {
            double area = 0, least = double.PositiveInfinity, most = double.NegativeInfinity;
            for (int q = 0; q < points; q++)
            {
                Point r = default, s = default;
                for (int i = 0; i < basis.Count; i++)
                {
                    r += basis.Dr[i * points + q] * nodal.Points[nodal.Nodes[t][i]];
                    s += basis.Ds[i * points + q] * nodal.Points[nodal.Nodes[t][i]];
                }

                double det = r.Cross(s);
                area += basis.Weights[q] * det;
                (least, most) = (Math.Min(least, det), Math.Max(most, det));
            }

            result[t] = (area, least / most);
        }

        return result;
    }

    public static double Area(PlateMesh mesh, int order) => Triangles(mesh, order).Sum(t => t.Area);

    public static double LeastRatio(PlateMesh mesh) => Triangles(mesh, 5).Min(t => t.Ratio);

    /// <summary>Length over height of the most stretched triangle, by its corners.</summary>
    public static double Aspect(PlateMesh mesh) => Corners(mesh).Max(c =>
    {
        double longest = Math.Max((c.B - c.A).Norm, Math.Max((c.C - c.B).Norm, (c.A - c.C).Norm));
        return longest * longest / (c.B - c.A).Cross(c.C - c.A);
    });

    /// <summary>Smallest angle of any triangle, by its corners, degrees.</summary>
    public static double LeastAngle(PlateMesh mesh) => Corners(mesh).Min(c =>
        Math.Min(Angle(c.A, c.B, c.C), Math.Min(Angle(c.B, c.C, c.A), Angle(c.C, c.A, c.B))));

    /// <summary>Exact area of a domain's board (Green's theorem).</summary>
    public static double Area(MeshDomain domain) => Math.Abs(domain.Outline.SignedArea) - domain.Holes.Sum(h => Math.Abs(h.SignedArea));

    /// <summary>
    /// Anticlockwise, unfolded, conforming: every side belongs to two triangles, or to one and lies on the outline or a hole;
    /// the boundary is as many closed rings as the domain has, which with the numbers of vertices, sides and triangles makes Euler's sum.
    /// </summary>
    public static void AreSound(PlateMesh mesh, MeshDomain domain)
    {
        var sides = new Dictionary<(int, int), int>();
        foreach (MeshTriangle t in mesh.Triangles)
        {
            foreach ((int a, int b) in ((int, int)[])[(t.A, t.B), (t.B, t.C), (t.C, t.A)])
            {
                // In one direction a side is there once.
                Assert.True(sides.TryAdd((a, b), 1), "two triangles on one side of an edge");
            }
        }

        var edges = mesh.Edges.ToDictionary(e => (Math.Min(e.A, e.B), Math.Max(e.A, e.B)));
        int boundary = 0;
        foreach ((int a, int b) in sides.Keys)
        {
            if (sides.ContainsKey((b, a))) { continue; }
            boundary++;
            Assert.True(edges.TryGetValue((Math.Min(a, b), Math.Max(a, b)), out CurvedEdge? edge), "a free side lies on no curve");
            Assert.True(edge.Curve <= domain.Holes.Count, "a free side lies on a border");
        }

        int inner = mesh.Edges.Count(e => sides.ContainsKey((e.A, e.B)) && sides.ContainsKey((e.B, e.A)));
        Assert.All(mesh.Edges, e => Assert.True(sides.ContainsKey((e.A, e.B)) || sides.ContainsKey((e.B, e.A)), "an edge without triangle"));
        Assert.Equal(mesh.Edges.Count - inner, boundary);
        int allSides = (sides.Count + boundary) / 2;
        Assert.Equal(1 - domain.Holes.Count, mesh.Vertices.Count - allSides + mesh.Triangles.Count);
        Assert.Equal(mesh.Vertices.Count, mesh.Triangles.SelectMany(t => new[] { t.A, t.B, t.C }).Distinct().Count());
        Assert.All(Triangles(mesh, 5), t => Assert.True(t.Ratio > 0, "a folded triangle"));
    }

    /// <summary>Edges begin and end at their vertices and run along their curves, within a tolerance, m.</summary>
    public static void EdgesLieOnCurves(PlateMesh mesh, MeshDomain domain, double tolerance)
    {
        foreach (CurvedEdge e in mesh.Edges)
        {
            Checks.Close(0, (e.At(0) - mesh.Vertices[e.A]).Norm, 1e-12);
            Checks.Close(0, (e.At(1) - mesh.Vertices[e.B]).Norm, 1e-12);
            foreach (double t in (double[])[0, 0.2, 0.5, 0.9, 1])
            {
                Checks.Close(0, domain.Curves[e.Curve].Nearest(e.At(t)).Distance, tolerance, domain.NameOf(e.Curve));
            }
        }
    }

    private static IEnumerable<(Point A, Point B, Point C)> Corners(PlateMesh mesh) =>
        mesh.Triangles.Select(t => (mesh.Vertices[t.A], mesh.Vertices[t.B], mesh.Vertices[t.C]));

    private static double Angle(Point at, Point from, Point to) => Math.Abs((from - at).AngleTo(to - at)) * 180 / Math.PI;
}
