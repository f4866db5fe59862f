using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates.Meshing;

/// <summary>Cuts edges whose chords would not lie as their curves do.</summary>
/// <remarks>
/// The triangulation is made of chords. It has the order of the curves if no two chords cross or are the same, and no vertex
/// lies between an edge and its chord. Halving an edge quarters its bulge, so that this ends, except where curves themselves meet.
/// </remarks>
internal static class ChordClearing
{
    private const int Stations = 8;

    // Curves that need more edges than so many times the first number run together where they must not.
    private const int MostGrowth = 4;

    /// <summary>Halves edges, adding vertices, until all is clear or nothing more can be gained.</summary>
    internal static void Clear(List<Point> vertices, List<CurveEdge> edges, double least)
    {
        var boxes = edges.ConvertAll(e => Reach(e, vertices));
        int most = MostGrowth * edges.Count + 100;
        for (int i = 0; i < edges.Count; i++)
        {
            for (int j = 0; j < edges.Count; j++)
            {
                if (i == j || !boxes[i].Lens.Near(boxes[j].Chord, 0) || !Conflict(vertices, edges[i], edges[j])) { continue; }
                int k = edges[i].Sagitta() >= edges[j].Sagitta() ? i : j;
                if (edges[k].Length < least || edges.Count >= most) { continue; }
                Cut(vertices, edges, k);
                boxes[k] = Reach(edges[k], vertices);
                boxes.Add(Reach(edges[^1], vertices));
                // The halves are looked at anew, against all; those before i again when their turn comes as j.
                (i, j) = (Math.Min(i, k) - 1, edges.Count);
            }
        }
    }

    /// <summary>Cuts one edge: the first part takes its place, the second comes last.</summary>
    internal static void Cut(List<Point> vertices, List<CurveEdge> edges, int k, double t = 0.5)
    {
        CurveEdge e = edges[k];
        vertices.Add(e.At(t));
        edges[k] = e.Part(0, t, e.A, vertices.Count - 1);
        edges.Add(e.Part(t, 1, vertices.Count - 1, e.B));
    }

    private static (Box Lens, Box Chord) Reach(CurveEdge e, List<Point> vertices)
    {
        Box chord = Box.Empty.With(vertices[e.A]).With(vertices[e.B]);
        return (Enumerable.Range(1, Stations - 1).Aggregate(chord, (b, i) => b.With(e.At((double)i / Stations))), chord);
    }

    private static bool Conflict(List<Point> vertices, CurveEdge e, CurveEdge f)
    {
        bool sharesA = f.A == e.A || f.A == e.B, sharesB = f.B == e.A || f.B == e.B;
        if (sharesA && sharesB) { return true; }
        Point a = vertices[e.A], b = vertices[e.B], c = vertices[f.A], d = vertices[f.B];
        if (!sharesA && !sharesB && (b - a).Cross(c - a) * (b - a).Cross(d - a) < 0 && (d - c).Cross(a - c) * (d - c).Cross(b - c) < 0) { return true; }
        return (!sharesA && InLens(e, a, b, c)) || (!sharesB && InLens(e, a, b, d));
    }

    // Whether the closed polygon of the edge's stations winds round the point.
    private static bool InLens(CurveEdge e, Point a, Point b, Point p)
    {
        int winding = 0;
        Point from = a;
        for (int i = 1; i <= Stations + 1; i++)
        {
            Point to = i < Stations ? e.At((double)i / Stations) : i == Stations ? b : a;
            if (from.Y <= p.Y != to.Y <= p.Y)
            {
                bool left = (to - from).Cross(p - from) > 0;
                if (to.Y > from.Y && left) { winding++; }
                if (to.Y < from.Y && !left) { winding--; }
            }

            from = to;
        }

        return winding != 0;
    }
}
