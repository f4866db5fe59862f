using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates.Meshing;

namespace SandwichMech.Core.Plates;

/// <summary>Meshes of triangles for elements of order 4 to 5, fitted to a board's outline, holes and region borders.</summary>
/// <remarks>
/// The curves are cut where they meet and where they have corners, and divided into edges whose length follows the wanted
/// size, the turn of the curve and the gap to the next curve; a constrained Delaunay triangulation of the chords is filled with
/// inner vertices, smoothed, and mended where the map of a curved triangle would be uneven. A band along an edge is one triangle
/// wide, up to five times longer than wide. The same input gives the same mesh.
/// </remarks>
public static class PlateMesher
{
    /// <summary>Least over largest Jacobian determinant in a triangle below which there is no mesh. The mesher aims at 0.22, and falls
    /// short of that only where curves come very close at a very small angle.</summary>
    public const double LeastRatio = 0.01;

    // Shape (1 for an equilateral triangle) of what is still a triangle.
    private const double LeastShape = 1e-6;

    // Rounds of cutting edges that the triangulation cannot hold.
    private const int Attempts = 20;

    // Edges shorter than this part of the size are not cut to make room.
    private const double Shortest = 1e-3;

    // More triangles than this are a slip of the unit or of the size.
    private const double MostTriangles = 100_000;

    /// <summary>Meshes a domain with triangles of one size.</summary>
    /// <param name="domain">Outline, holes, borders.</param>
    /// <param name="size">Wanted length of the sides, m; curves and narrow bands make them shorter.</param>
    /// <returns>The mesh; no triangle is folded.</returns>
    /// <exception cref="DomainException">The domain cannot be meshed; the message says why.</exception>
    public static PlateMesh Mesh(MeshDomain domain, double size) => Mesh(domain, _ => size);

    /// <summary>Meshes a domain with triangles of a size that changes from place to place.</summary>
    /// <param name="domain">Outline, holes, borders.</param>
    /// <param name="size">Wanted length of the sides at a point of the board, m; it should change gently, by less than half the distance.</param>
    /// <returns>The mesh; no triangle is folded.</returns>
    /// <exception cref="DomainException">The domain cannot be meshed; the message says why.</exception>
    public static PlateMesh Mesh(MeshDomain domain, Func<Point, double> size)
    {
        Refuse(DomainCheck.OfEach(domain));
        RefuseSize(domain, size);
        var network = new CurveNetwork(domain, size);
        Refuse(DomainCheck.OfAll(network));
        (List<Point> vertices, List<CurveEdge> edges) = EdgeDivision.Of(network, size);
        double least = Shortest * network.Rulers[0].Total / Math.Max(edges.Count, 1);
        ChordClearing.Clear(vertices, edges, least);
        CuspEasing.Ease(edges, network.Bounds);
        (CurvedMesh mesh, int parts) = Triangulated(network, vertices, edges, least);
        InteriorPoints.Add(mesh, new SizeField(mesh.Edges, size));
        MeshImprovement.Improve(mesh);
        MeshRepair.Repair(mesh, size);
        RefuseFolds(mesh);
        return Built(mesh, Parts.Regions(mesh, parts, domain.Region));
    }

    /// <summary>What is wrong with a domain, as far as can be seen without meshing it.</summary>
    /// <param name="domain">Outline, holes, borders.</param>
    /// <param name="size">Wanted length of the sides, m: what is much smaller counts as nothing.</param>
    /// <returns>Nothing where all is well.</returns>
    public static IReadOnlyList<DomainProblem> Problems(MeshDomain domain, double size)
    {
        List<DomainProblem> own = DomainCheck.OfEach(domain);
        return own.Count > 0 ? own : DomainCheck.OfAll(new CurveNetwork(domain, _ => size));
    }

    private static void Refuse(List<DomainProblem> problems)
    {
        if (problems.Count > 0) { throw new DomainException(problems); }
    }

    private static void RefuseSize(MeshDomain domain, Func<Point, double> size)
    {
        // Wanted triangles, counted along the outline: enough to see a slip.
        double area = domain.Outline.SignedArea;
        foreach (Bezier s in domain.Outline.Segments)
        {
            double h = size(s.P0);
            if (!(h > 0) || !double.IsFinite(h) || Math.Abs(area) / (h * h) > MostTriangles)
            {
                Refuse([new(DomainFault.Size, 0, s.P0, FormattableString.Invariant(
                    $"The mesh size {h:G3} m at {DomainCheck.Place(s.P0)} does not fit a board of {Math.Abs(area):G3} m². Give a positive size, about a tenth of the board's length."))]);
            }
        }
    }

    // The triangulation of the chords; edges that it cannot hold are cut, and it is made again.
    private static (CurvedMesh Mesh, int Parts) Triangulated(CurveNetwork network, List<Point> vertices, List<CurveEdge> edges, double least)
    {
        var stuck = new List<int>();
        for (int attempt = 0; attempt < Attempts; attempt++)
        {
            var sides = new Triangulation(vertices);
            stuck.Clear();
            // A vertex on another one was not taken: two curves that met there were not cut there.
            int twice = Enumerable.Range(0, vertices.Count).FirstOrDefault(i => sides.Points.Count <= i + Triangulation.Frame || sides.Points[i + Triangulation.Frame] != vertices[i], -1);
            if (twice >= 0)
            {
                stuck.Add(edges.FindIndex(e => e.A == twice || e.B == twice));
                break;
            }

            for (int i = 0; i < edges.Count; i++)
            {
                if (!HeldEdges.Hold(sides, edges[i].A + Triangulation.Frame, edges[i].B + Triangulation.Frame, i)) { stuck.Add(i); }
            }

            if (stuck.Count == 0)
            {
                sides.LegaliseAll();
                if (Parts.Assign(sides, edges, network) is { } parts) { return (new CurvedMesh(sides, edges), parts); }
                break;
            }

            if (stuck.TrueForAll(i => edges[i].Length < least)) { break; }
            foreach (int i in stuck) { ChordClearing.Cut(vertices, edges, i); }
        }

        CurveEdge at = edges[stuck.Count > 0 && stuck[0] >= 0 ? stuck[0] : 0];
        throw Tight(at.Curve, vertices[at.A], network.Domain);
    }

    private static DomainException Tight(int curve, Point at, MeshDomain domain) => new([new(DomainFault.TooTight, curve, at,
        $"No sound triangle fits at {DomainCheck.Place(at)}: {domain.NameOf(curve)} comes to a point or very close to another curve there. Round it off or move them apart.")]);

    private static void RefuseFolds(CurvedMesh mesh)
    {
        for (int h = 0; h < mesh.Sides.HalfEdges; h += 3)
        {
            if (mesh.InBoard(h) && mesh.Quality(h) is var q && !(q.Ratio > LeastRatio && q.Shape > LeastShape))
            {
                Point at = mesh.Sides.Points[mesh.Sides.Origin(h)];
                throw new DomainException([new(DomainFault.TooTight, 0, at,
                    $"No sound triangle fits at {DomainCheck.Place(at)}: the curves come to a point or very close together there. Round them off or move them apart.")]);
            }
        }
    }

    private static PlateMesh Built(CurvedMesh mesh, int[] regions)
    {
        Triangulation s = mesh.Sides;
        int[] number = new int[s.Points.Count];
        var vertices = new List<Point>();
        var triangles = new List<MeshTriangle>();
        bool[] used = new bool[mesh.Edges.Count];
        for (int h = 0; h < s.HalfEdges; h += 3)
        {
            if (!mesh.InBoard(h)) { continue; }
            triangles.Add(new(Number(s.Origin(h)), Number(s.Target(h)), Number(s.Apex(h)), regions[s.Part(h)]));
            for (int k = h; k < h + 3; k++)
            {
                if (s.Mark(k) >= 0) { used[s.Mark(k)] = true; }
            }
        }

        List<CurvedEdge> edges = [.. mesh.Edges.Where((_, i) => used[i])
            .Select(e => new CurvedEdge(Number(e.A + Triangulation.Frame), Number(e.B + Triangulation.Frame), e.Curve, e.At))];
        return new(vertices, triangles, edges);

        int Number(int vertex)
        {
            if (number[vertex] == 0)
            {
                vertices.Add(s.Points[vertex]);
                number[vertex] = vertices.Count;
            }

            return number[vertex] - 1;
        }
    }
}
