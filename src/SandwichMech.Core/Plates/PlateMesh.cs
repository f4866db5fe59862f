using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates;

/// <summary>A triangle by its corners, anticlockwise, and the region that it lies in.</summary>
/// <param name="A">First corner.</param>
/// <param name="B">Second corner.</param>
/// <param name="C">Third corner.</param>
/// <param name="Region">Number of its region.</param>
public readonly record struct MeshTriangle(int A, int B, int C, int Region);

/// <summary>An edge of the mesh that lies on a curve.</summary>
/// <param name="A">Corner where the stretch begins.</param>
/// <param name="B">Corner where it ends.</param>
/// <param name="Curve">Number of the curve.</param>
/// <param name="At">Point of the stretch at 0 (A) to 1 (B).</param>
public sealed record CurvedEdge(int A, int B, int Curve, Func<double, Point> At);

/// <summary>Triangles, and which of their edges lie on curves; every edge of the boundary is among these.</summary>
/// <param name="Vertices">Corners, m.</param>
/// <param name="Triangles">Triangles, anticlockwise.</param>
/// <param name="Edges">Edges on the boundary and on borders of regions.</param>
public sealed record PlateMesh(IReadOnlyList<Point> Vertices, IReadOnlyList<MeshTriangle> Triangles, IReadOnlyList<CurvedEdge> Edges)
{
    /// <summary>A rectangle with one corner at the origin, in equal cells.</summary>
    /// <param name="length">Along x, m.</param>
    /// <param name="width">Along y, m.</param>
    /// <param name="along">Cells along x.</param>
    /// <param name="across">Cells along y.</param>
    /// <returns>The mesh; its four sides are curves 0 (y = 0), 1 (x = length), 2 (y = width), 3 (x = 0).</returns>
    public static PlateMesh Rectangle(double length, double width, int along, int across) =>
        Rectangle([.. Enumerable.Range(0, along + 1).Select(i => length * i / along)], [.. Enumerable.Range(0, across + 1).Select(j => width * j / across)]);

    /// <summary>A rectangle whose cells lie between given lines, halved by diagonals that change direction from cell to cell.</summary>
    /// <param name="xs">Lines of constant x, rising, m.</param>
    /// <param name="ys">Lines of constant y, rising, m.</param>
    /// <returns>The mesh; its four sides are curves 0 (lowest y), 1 (highest x), 2 (highest y), 3 (lowest x).</returns>
    public static PlateMesh Rectangle(IReadOnlyList<double> xs, IReadOnlyList<double> ys)
    {
        int along = xs.Count - 1, across = ys.Count - 1;
        Point[] vertices = [.. ys.SelectMany(y => xs.Select(x => new Point(x, y)))];
        var triangles = new List<MeshTriangle>();
        for (int j = 0; j < across; j++)
        {
            for (int i = 0; i < along; i++)
            {
                int a = At(i, j), b = At(i + 1, j), c = At(i + 1, j + 1), d = At(i, j + 1);
                triangles.AddRange((i + j) % 2 == 0 ? [new(a, b, c, 0), new(a, c, d, 0)] : [new(a, b, d, 0), new(b, c, d, 0)]);
            }
        }

        var edges = new List<CurvedEdge>();
        for (int i = 0; i < along; i++)
        {
            edges.Add(Side(At(i, 0), At(i + 1, 0), 0));
            edges.Add(Side(At(i + 1, across), At(i, across), 2));
        }

        for (int j = 0; j < across; j++)
        {
            edges.Add(Side(At(along, j), At(along, j + 1), 1));
            edges.Add(Side(At(0, j + 1), At(0, j), 3));
        }

        return new(vertices, triangles, edges);

        int At(int i, int j) => j * (along + 1) + i;

        CurvedEdge Side(int a, int b, int curve) => new(a, b, curve, t => (1 - t) * vertices[a] + t * vertices[b]);
    }
}
