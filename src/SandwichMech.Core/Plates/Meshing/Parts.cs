using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates.Meshing;

/// <summary>Which triangles belong to the board, and to which of the parts that its curves divide it into.</summary>
internal static class Parts
{
    /// <summary>Numbers the parts from 0; what lies outside the outline or in a hole gets −1.</summary>
    /// <returns>How many parts there are; nothing where the sides of the edges contradict each other.</returns>
    internal static int? Assign(Triangulation mesh, IReadOnlyList<CurveEdge> edges, CurveNetwork network)
    {
        const int Unknown = -2;
        for (int h = 0; h < mesh.HalfEdges; h += 3) { mesh.SetPart(h, Unknown); }
        int parts = 0;
        for (int first = 0; first < mesh.HalfEdges; first += 3)
        {
            if (mesh.Part(first) != Unknown) { continue; }
            (List<int> triangles, bool outside, bool inside) = Flood(mesh, edges, network, first, Unknown);
            if (outside && inside) { return null; }
            int part = outside ? -1 : parts++;
            foreach (int h in triangles) { mesh.SetPart(h, part); }
        }

        return parts;
    }

    private static (List<int> Triangles, bool Outside, bool Inside) Flood(
        Triangulation mesh, IReadOnlyList<CurveEdge> edges, CurveNetwork network, int first, int unknown)
    {
        var triangles = new List<int> { first };
        mesh.SetPart(first, unknown + 1);
        bool outside = false, inside = false;
        for (int i = 0; i < triangles.Count; i++)
        {
            for (int h = triangles[i]; h < triangles[i] + 3; h++)
            {
                outside |= mesh.Twin(h) < 0;
                if (mesh.Mark(h) < 0)
                {
                    int next = mesh.Twin(h);
                    if (next >= 0 && mesh.Part(next) == unknown)
                    {
                        next -= next % 3;
                        mesh.SetPart(next, unknown + 1);
                        triangles.Add(next);
                    }
                }
                else if (edges[mesh.Mark(h)] is { } e && network.Bounds(e.Curve))
                {
                    // The board lies to the left of the outline run anticlockwise and to the right of a hole.
                    bool along = mesh.Origin(h) == e.A + Triangulation.Frame;
                    bool board = along == (network.Curves[e.Curve].SignedArea > 0) == (e.Curve == 0);
                    inside |= board;
                    outside |= !board;
                }
            }
        }

        return (triangles, outside, inside);
    }

    /// <summary>The region of each part: asked at the middle of its roomiest triangle.</summary>
    internal static int[] Regions(CurvedMesh mesh, int parts, Func<Point, int> region)
    {
        var best = new (double Room, Point At)[parts];
        for (int h = 0; h < mesh.Sides.HalfEdges; h += 3)
        {
            int part = mesh.Sides.Part(h);
            if (part < 0) { continue; }
            TriangleQuality q = mesh.Quality(h);
            double room = q.Most * Math.Max(q.Shape, 1e-3);
            if (room > best[part].Room) { best[part] = (room, mesh.Middle(h)); }
        }

        return [.. best.Select(b => region(b.At))];
    }
}
