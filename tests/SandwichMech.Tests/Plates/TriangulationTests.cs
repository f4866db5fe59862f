using System.Numerics;
using CsCheck;
using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates.Meshing;

namespace SandwichMech.Tests.Plates;

/// <summary>The triangulation against Delaunay's definition, in exact whole numbers.</summary>
[Trait("Check", "exact")]
public class TriangulationTests
{
    private const int Cells = 12;

    // On a small grid many points are collinear or lie on one circle.
    private static readonly Gen<Point[]> Clouds = Gen.OneOf(
        Gen.Select(Gen.Int[0, Cells], Gen.Int[0, Cells], (x, y) => new Point(x / (double)Cells, y / (double)Cells)).Array[3, 60],
        Gen.Select(Gen.Int[0, 1_000_000], Gen.Int[0, 1_000_000], (x, y) => new Point(x / 1e6, y / 1e6)).Array[3, 60]);

    [Fact]
    public void No_vertex_lies_in_a_triangles_circle() => Clouds.Sample(points =>
    {
        if (points.Distinct().Count() < 3) { return; }
        var mesh = new Triangulation(points);
        Assert.Equal(points.Distinct().Count() + Triangulation.Frame, mesh.Points.Count);
        (BigInteger X, BigInteger Y)[] grid = OnGrid(mesh, points);
        for (int h = 0; h < mesh.HalfEdges; h += 3)
        {
            int a = mesh.Origin(h), b = mesh.Target(h), c = mesh.Apex(h);
            Assert.True(Orientation(grid[a], grid[b], grid[c]) > 0);
            for (int p = Triangulation.Frame; p < grid.Length; p++) { Assert.True(InCircle(grid[a], grid[b], grid[c], grid[p]) <= 0); }
        }
    }, iter: 60);

    [Fact]
    public void Held_sides_are_there_and_stay() => Clouds.Sample(points =>
    {
        Point[] p = [.. points.Distinct()];
        if (p.Length < 4) { return; }
        var mesh = new Triangulation(p);
        var held = new List<(int, int)>();
        for (int i = 0; i + 1 < p.Length; i += 2)
        {
            int a = i + Triangulation.Frame, b = a + 1;
            if (HeldEdges.Hold(mesh, a, b, i)) { held.Add((a, b)); }
        }

        Assert.NotEmpty(held);
        mesh.LegaliseAll();
        mesh.Insert(new(0.501, 0.4997));
        Assert.All(held, e => Assert.True(mesh.Between(e.Item1, e.Item2) >= 0 || Parted(mesh, e)));
        for (int h = 0; h < mesh.HalfEdges; h++)
        {
            if (mesh.Twin(h) >= 0) { Assert.Equal((h, mesh.Origin(h), mesh.Mark(h)), (mesh.Twin(mesh.Twin(h)), mesh.Target(mesh.Twin(h)), mesh.Mark(mesh.Twin(h)))); }
        }
    }, iter: 100);

    // A side on which the added point lies is in two.
    private static bool Parted(Triangulation mesh, (int A, int B) e)
    {
        int added = mesh.Points.Count - 1;
        return mesh.Between(e.A, added) >= 0 && mesh.Between(added, e.B) >= 0;
    }

    // The rounding of GridPoints, done again.
    private static (BigInteger, BigInteger)[] OnGrid(Triangulation mesh, Point[] points)
    {
        Box box = points.Aggregate(Box.Empty, (b, p) => b.With(p));
        double scale = (1 << 26) / box.Size;
        return [.. mesh.Points.Select(p => scale * (p - box.Middle)).Select(p => (new BigInteger(Math.Round(p.X)), new BigInteger(Math.Round(p.Y))))];
    }

    private static BigInteger Orientation((BigInteger X, BigInteger Y) a, (BigInteger X, BigInteger Y) b, (BigInteger X, BigInteger Y) c) =>
        (b.X - a.X) * (c.Y - a.Y) - (b.Y - a.Y) * (c.X - a.X);

    private static BigInteger InCircle((BigInteger X, BigInteger Y) a, (BigInteger X, BigInteger Y) b, (BigInteger X, BigInteger Y) c, (BigInteger X, BigInteger Y) d)
    {
        BigInteger Lift((BigInteger X, BigInteger Y) p) => (p.X - d.X) * (p.X - d.X) + (p.Y - d.Y) * (p.Y - d.Y);
        return Lift(a) * Orientation(d, b, c) + Lift(b) * Orientation(d, c, a) + Lift(c) * Orientation(d, a, b);
    }
}
