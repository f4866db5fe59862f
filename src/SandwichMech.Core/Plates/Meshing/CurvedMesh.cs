using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates.Meshing;

/// <summary>A triangulation whose marked sides are edges on curves.</summary>
internal sealed class CurvedMesh(Triangulation sides, List<CurveEdge> edges)
{
    private readonly List<CurveEdge> _edges = edges;

    /// <summary>The triangles, with vertices numbered from <see cref="Triangulation.Frame"/>.</summary>
    internal Triangulation Sides { get; } = sides;

    /// <summary>The edges by their marks; their vertices are numbered from 0.</summary>
    internal IReadOnlyList<CurveEdge> Edges => _edges;

    internal bool InBoard(int h) => Sides.Part(h) >= 0;

    /// <summary>Whether a vertex lies on no edge, so that it may be moved.</summary>
    internal bool IsFree(int vertex) => Sides.Star(vertex).All(h => Sides.Mark(h) < 0 && InBoard(h));

    /// <summary>Quality of a side's triangle.</summary>
    internal TriangleQuality Quality(int h)
    {
        int n = Triangulation.Next(h), b = Triangulation.Before(h);
        return Quality(Sides.Origin(h), Sides.Origin(n), Sides.Origin(b), Sides.Mark(h), Sides.Mark(n), Sides.Mark(b));
    }

    /// <summary>Quality of a triangle that there might be, by its corners and the marks of its sides.</summary>
    internal TriangleQuality Quality(int a, int b, int c, int ab, int bc, int ca) =>
        CurvedTriangle.Quality(Sides.Points[a], Sides.Points[b], Sides.Points[c], Bend(ab, a), Bend(bc, b), Bend(ca, c));

    /// <summary>Quality of a triangle with a straight-sided corner c anywhere.</summary>
    internal TriangleQuality Quality(int a, int b, Point c, int ab) =>
        CurvedTriangle.Quality(Sides.Points[a], Sides.Points[b], c, Bend(ab, a), [], []);

    /// <summary>Bend of a side, in its direction; none where it is straight.</summary>
    internal ReadOnlySpan<Point> BendOf(int h) => Bend(Sides.Mark(h), Sides.Origin(h));

    /// <summary>A point well inside a side's triangle.</summary>
    internal Point Middle(int h)
    {
        int n = Triangulation.Next(h), b = Triangulation.Before(h);
        return CurvedTriangle.Middle(
            Sides.Points[Sides.Origin(h)], Sides.Points[Sides.Origin(n)], Sides.Points[Sides.Origin(b)],
            BendOf(h), BendOf(n), BendOf(b));
    }

    /// <summary>Halves the edge on a marked side.</summary>
    /// <returns>The new vertex.</returns>
    internal int Halve(int h)
    {
        int mark = Sides.Mark(h);
        CurveEdge e = _edges[mark];
        int v = Sides.SplitSide(h, e.At(0.5));
        _edges[mark] = e.Part(0, 0.5, e.A, v - Triangulation.Frame);
        _edges.Add(e.Part(0.5, 1, v - Triangulation.Frame, e.B));
        Sides.SetMark(Sides.Between(v, e.B + Triangulation.Frame), _edges.Count - 1);
        return v;
    }

    private ReadOnlySpan<Point> Bend(int mark, int from) => mark < 0 ? [] : _edges[mark].Bend(from - Triangulation.Frame);
}
