using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;

namespace SandwichMech.Tests.Plates.Air;

/// <summary>Meshes and deflections for the checks of the air, and its added volumes on them.</summary>
internal static class AirSamples
{
    public const int Order = 4;

    public static readonly Func<Point, double> Heave = _ => 1, RockX = p => p.X, RockY = p => p.Y;

    /// <summary>V for deflections given as functions.</summary>
    public static double[,] Volumes(PlateMesh mesh, bool baffled, Func<Point, double>[] shapes, AirDetail? detail = null)
    {
        var nodes = new NodalMesh(mesh, Order);
        var points = new AirPoints(nodes, e => PlateElements.Integrals(nodes, e), detail ?? AirDetail.Usual);
        return AirVolume.Of(points, [.. shapes.Select(w => nodes.Points.Select(w).ToArray())], baffled);
    }

    /// <summary>V for one deflection.</summary>
    public static double Volume(PlateMesh mesh, bool baffled, Func<Point, double> shape, AirDetail? detail = null) =>
        Volumes(mesh, baffled, [shape], detail)[0, 0];

    /// <summary>The mesh under a linear map, its curves with it.</summary>
    public static PlateMesh Mapped(PlateMesh mesh, Func<Point, Point> map) => new(
        [.. mesh.Vertices.Select(map)],
        mesh.Triangles,
        [.. mesh.Edges.Select(e => e with { At = t => map(e.At(t)) })]);

    public static PlateMesh Ellipse(double a, double b, int rings) =>
        Mapped(SamplePlate.DiscMesh(1, rings), p => new(a * p.X, b * p.Y));

    /// <summary>A disc with a hole in the middle.</summary>
    public static PlateMesh Annulus(double inner, double outer, int along, int around)
    {
        var vertices = new List<Point>();
        for (int j = 0; j <= along; j++)
        {
            for (int i = 0; i < around; i++) { vertices.Add(On(inner + (outer - inner) * j / along, i)); }
        }

        var triangles = new List<MeshTriangle>();
        for (int j = 0; j < along; j++)
        {
            for (int i = 0; i < around; i++)
            {
                triangles.Add(new(At(j, i), At(j + 1, i), At(j + 1, i + 1), 0));
                triangles.Add(new(At(j, i), At(j + 1, i + 1), At(j, i + 1), 0));
            }
        }

        var edges = new List<CurvedEdge>();
        for (int i = 0; i < around; i++)
        {
            int start = i;
            edges.Add(new(At(along, i), At(along, i + 1), 0, t => On(outer, start + t)));
            edges.Add(new(At(0, i + 1), At(0, i), 1, t => On(inner, start + 1 - t)));
        }

        return new(vertices, triangles, edges);

        int At(int j, int i) => j * around + i % around;

        Point On(double radius, double step) => new Point(radius, 0).Turned(2 * Math.PI * step / around);
    }

    /// <summary>A square of side 1 about the origin, of which a square in the middle is left out; sides in cells.</summary>
    public static PlateMesh SquareWithSquareHole(int side, int hole)
    {
        PlateMesh full = Mapped(PlateMesh.Rectangle(1, 1, side, side), p => p - new Point(0.5, 0.5));
        double half = 0.5 * hole / side;
        MeshTriangle[] kept = [.. full.Triangles.Where(t => !IsInHole(t))];
        int[] used = [.. kept.SelectMany(t => new[] { t.A, t.B, t.C }).Distinct().Order()];
        Dictionary<int, int> number = used.Select((old, at) => (old, at)).ToDictionary(p => p.old, p => p.at);
        return new(
            [.. used.Select(v => full.Vertices[v])],
            [.. kept.Select(t => new MeshTriangle(number[t.A], number[t.B], number[t.C], 0))],
            [.. full.Edges.Select(e => e with { A = number[e.A], B = number[e.B] })]);

        bool IsInHole(MeshTriangle t)
        {
            Point centre = 1.0 / 3 * (full.Vertices[t.A] + full.Vertices[t.B] + full.Vertices[t.C]);
            return Math.Abs(centre.X) < half && Math.Abs(centre.Y) < half;
        }
    }
}
