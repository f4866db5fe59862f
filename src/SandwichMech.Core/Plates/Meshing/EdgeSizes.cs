using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates.Meshing;

/// <summary>How long the edges on the curves may be, at closely spaced places along every arc.</summary>
/// <remarks>
/// Three things bound an edge besides the wanted size: its turn; the gap to a neighbouring curve, since a triangle in a narrow
/// band may be five times longer than wide and an edge must not bulge across the band; and shorter edges near by.
/// </remarks>
internal sealed class EdgeSizes
{
    /// <summary>Turn of one edge, rad, that the curved triangles are to follow.</summary>
    internal const double MostTurn = 0.78;

    // Samples in one mesh size.
    private const double Fine = 8;
    // Length over gap of a triangle in a band.
    private const double Aspect = 5;
    // Curvature · length² / 2 over the gap: how far a curve leaves its tangent within one edge. On the side that it bulges to, a straight
    // side from the end of the edge to the curve beyond would graze it at 1; on the other side only the chord comes nearer.
    private const double Towards = 0.64, Away = 2;
    // Gaps beyond this part of the mesh size bound nothing.
    private const double Sight = 0.4;
    // However narrow the band, edges are not shorter than this part of the mesh size for its width's sake, nor than that for its bend's.
    private const double Floor = 0.12, Least = 0.01;
    // A gap counts where the way round along the curves is so many times longer: else it is the mouth of a corner.
    private const double Detour = 5;
    // Growth of the edge length with distance.
    private const double Growth = 0.7;

    private readonly CurveNetwork _network;
    private readonly List<Sample> _samples = [];
    private readonly Dictionary<(int, int), List<int>> _grid = [];
    private readonly (double First, double Second)[,][] _common;
    private readonly bool[] _boardIsLeft;
    private double _cell;

    /// <summary>A place on an arc.</summary>
    internal sealed class Sample
    {
        internal required int Arc { get; init; }
        internal required int Curve { get; init; }
        internal required double S { get; init; }
        internal required Point At { get; init; }
        internal required Point Tangent { get; init; }

        /// <summary>1/m, positive where the curve bends to the left.</summary>
        internal required double Curvature { get; init; }

        /// <summary>Whether another sample follows on the same arc.</summary>
        internal required bool HasNext { get; init; }

        /// <summary>Length that an edge here may have, m.</summary>
        internal double Size { get; set; }
    }

    internal EdgeSizes(CurveNetwork network, Func<Point, double> size)
    {
        _network = network;
        int n = network.Curves.Count;
        _common = new (double, double)[n, n][];
        for (int i = 0; i < n * n; i++) { _common[i / n, i % n] = [.. network.Common(i / n, i % n)]; }
        _boardIsLeft = [.. network.Curves.Select((c, i) => c.SignedArea > 0 == (i == 0))];
        for (int i = 0; i < network.Arcs.Count; i++) { Take(i, size); }
        Gaps();
        Grade();
    }

    /// <summary>The samples, arc after arc, each from its start to its end.</summary>
    internal IReadOnlyList<Sample> Samples => _samples;

    private void Take(int index, Func<Point, double> size)
    {
        Arc arc = _network.Arcs[index];
        CurveRuler ruler = _network.Rulers[arc.Curve];
        double h = Enumerable.Range(0, 9).Min(i => size(ruler.At(arc.S0 + i / 8.0 * arc.Length)));
        int n = Math.Max(6, (int)Math.Ceiling(Fine * arc.Length / h));
        for (int i = 0; i <= n; i++)
        {
            double s = arc.S0 + (double)i / n * arc.Length, inside = 1e-7 * arc.Length;
            Point at = ruler.At(s);
            double local = size(at), curvature = ruler.CurvatureAt(s);
            _cell = Math.Max(_cell, Sight * local);
            _samples.Add(new()
            {
                Arc = index,
                Curve = arc.Curve,
                S = s,
                At = at,
                Tangent = ruler.TangentAt(Math.Clamp(s, arc.S0 + inside, arc.S1 - inside)),
                Curvature = curvature,
                HasNext = i < n,
                Size = Math.Min(local, MostTurn / Math.Max(Math.Abs(curvature), 1e-9)),
            });
        }
    }

    private void Gaps()
    {
        for (int i = 0; i < _samples.Count; i++)
        {
            (int, int) cell = Cell(_samples[i].At);
            if (!_grid.TryGetValue(cell, out List<int>? list)) { _grid[cell] = list = []; }
            list.Add(i);
        }

        foreach (Sample s in _samples)
        {
            (double curvature, double usual) = (s.Curvature, s.Size);
            (double left, double right) = Gaps(s);
            foreach ((double gap, double bend) in ((double, double)[])[(left, curvature), (right, -curvature)])
            {
                if (gap >= Sight * usual) { continue; }
                // Bent to the left, a curve bulges to the right.
                double share = bend < 0 ? Towards : Away;
                double unbent = Math.Max(Math.Sqrt(2 * share * gap / Math.Max(Math.Abs(bend), 1e-9)), Least * usual);
                s.Size = Math.Min(s.Size, Math.Min(Math.Max(Aspect * gap, Floor * usual), unbent));
            }
        }
    }

    // Distance to the nearest other curve, or other part of the same, across the board, on either side.
    private (double Left, double Right) Gaps(Sample s)
    {
        double left = double.PositiveInfinity, right = double.PositiveInfinity;
        (int x, int y) = Cell(s.At);
        for (int i = x - 1; i <= x + 1; i++)
        {
            for (int j = y - 1; j <= y + 1; j++)
            {
                if (!_grid.TryGetValue((i, j), out List<int>? list)) { continue; }
                foreach (int k in list)
                {
                    Sample o = _samples[k];
                    (double d, double place) = o.HasNext ? Nearest(s.At, o, _samples[k + 1]) : ((s.At - o.At).Norm, o.S);
                    bool toLeft = s.Tangent.Cross(o.At - s.At) > 0;
                    if (d >= Math.Min(toLeft ? left : right, Sight * s.Size) || !Faces(s, o) || !Faces(o, s) || !IsApart(s, o, place, d)) { continue; }
                    if (toLeft) { left = d; }
                    else { right = d; }
                }
            }
        }

        return (left, right);
    }

    // What lies beyond the edge of the board is not across the board.
    private bool Faces(Sample s, Sample o)
    {
        if (!_network.Bounds(s.Curve)) { return true; }
        double side = s.Tangent.Cross(o.At - s.At);
        return _boardIsLeft[s.Curve] ? side > 0 : side < 0;
    }

    // Whether the way along the curves to the place on o's is long against the distance.
    private bool IsApart(Sample s, Sample o, double place, double distance)
    {
        if (s.Curve == o.Curve) { return _network.Apart(s.Curve, s.S, place) > Detour * distance; }
        double way = double.PositiveInfinity;
        foreach ((double first, double second) in _common[s.Curve, o.Curve])
        {
            double a = _network.Apart(s.Curve, s.S, first), b = _network.Apart(o.Curve, place, second);
            // The first edge from a common point may end where the curves are still close.
            if (Math.Max(a, b) < Math.Min(s.Size, o.Size)) { return false; }
            way = Math.Min(way, a + b);
        }

        return way > Detour * distance;
    }

    // No edge much longer than one near by.
    private void Grade()
    {
        foreach (Sample o in _samples.Where(s => s.Size < 0.85 * Usual(s)).OrderBy(s => s.Size).ToList())
        {
            foreach (Sample s in _samples)
            {
                if (s.Size > o.Size) { s.Size = Math.Min(s.Size, o.Size + Growth * (s.At - o.At).Norm); }
            }
        }
    }

    private double Usual(Sample s) => _cell / Sight;

    private (int, int) Cell(Point p) => ((int)Math.Floor(p.X / _cell), (int)Math.Floor(p.Y / _cell));

    private static (double Distance, double Place) Nearest(Point p, Sample a, Sample b)
    {
        Point d = b.At - a.At;
        double along = Math.Clamp((p - a.At).Dot(d) / Math.Max(d.Dot(d), 1e-300), 0, 1);
        return ((p - a.At - along * d).Norm, a.S + along * (b.S - a.S));
    }
}
