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
    // Turn between two samples, rad, beyond which there are more of them.
    private const double FineTurn = 0.25;
    private const int MostHalvings = 12;
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
    private readonly List<int> _none = [];
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

        /// <summary>Length that is wanted, m.</summary>
        internal required double Wanted { get; init; }

        /// <summary>Length that an edge here may have, m.</summary>
        internal double Size { get; set; }

        /// <summary>What the gaps leave of it, m.</summary>
        internal double Held { get; set; }
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
        List<(double S, Point Tangent)> places = [Place(0)];
        for (int i = 1; i <= n; i++) { Refine(places, Place((double)i / n), 0); }
        for (int i = 0; i < places.Count; i++)
        {
            (double s, Point tangent) = places[i];
            Point at = ruler.At(s);
            double local = size(at), curvature = ruler.CurvatureAt(s);
            _cell = Math.Max(_cell, Sight * local);
            _samples.Add(new()
            {
                Arc = index,
                Curve = arc.Curve,
                S = s,
                At = at,
                Tangent = tangent,
                Curvature = curvature,
                HasNext = i < places.Count - 1,
                Wanted = local,
                Size = Math.Min(local, MostTurn / Math.Max(Math.Abs(curvature), 1e-9)),
            });
        }

        (double, Point) Place(double share) => At(arc.S0 + share * arc.Length);

        (double, Point) At(double s) => (s, ruler.TangentAt(Math.Clamp(s, arc.S0 + 1e-7 * arc.Length, arc.S1 - 1e-7 * arc.Length)));

        // Where the curve turns much, more places, so that no bend hides between two.
        void Refine(List<(double S, Point Tangent)> list, (double S, Point Tangent) next, int halvings)
        {
            var middle = At((list[^1].S + next.S) / 2);
            double turn = Math.Abs(list[^1].Tangent.AngleTo(middle.Item2)) + Math.Abs(middle.Item2.AngleTo(next.Tangent));
            if (turn > FineTurn && halvings < MostHalvings)
            {
                Refine(list, middle, halvings + 1);
                Refine(list, next, halvings + 1);
                return;
            }

            list.Add(next);
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
            double size = s.Size;
            (int x, int y) = Cell(s.At);
            for (int i = x - 1; i <= x + 1; i++)
            {
                for (int j = y - 1; j <= y + 1; j++)
                {
                    foreach (int k in _grid.GetValueOrDefault((i, j), _none)) { size = Math.Min(size, Allowed(s, k, size)); }
                }
            }

            s.Held = size;
        }

        foreach (Sample s in _samples) { s.Size = s.Held; }
    }

    // What another place leaves of the length of an edge.
    private double Allowed(Sample s, int k, double size)
    {
        Sample o = _samples[k];
        (double gap, double place) = o.HasNext ? Nearest(s.At, o, _samples[k + 1]) : ((s.At - o.At).Norm, o.S);
        // Bent to the left, a curve bulges to the right.
        bool towards = s.Tangent.Cross(o.At - s.At) * s.Curvature < 0;
        double flat = Math.Sqrt(2 * (towards ? Towards : Away) * gap / Math.Max(Math.Abs(s.Curvature), 1e-9));
        if (gap >= Sight * s.Size || Math.Min(Aspect * gap, flat) >= size || !Faces(s, o) || !Faces(o, s)) { return size; }
        (bool apart, double corner) = Apart(s, o, place, gap);
        double least = Least * s.Size;
        // In a corner the first edges may end where the curves are still close, unless they bulge that much.
        if (corner < size) { return flat < corner / 2 ? Math.Max(flat, least) : size; }
        return apart ? Math.Min(Math.Max(Aspect * gap, Floor * s.Size), Math.Max(flat, least)) : size;
    }

    // What lies beyond the edge of the board is not across the board.
    private bool Faces(Sample s, Sample o)
    {
        if (!_network.Bounds(s.Curve)) { return true; }
        double side = s.Tangent.Cross(o.At - s.At);
        return _boardIsLeft[s.Curve] ? side > 0 : side < 0;
    }

    // Whether the way along the curves to the place on o's is long against the gap, and how far the nearest common point of the two is.
    private (bool Apart, double Corner) Apart(Sample s, Sample o, double place, double gap)
    {
        if (s.Curve == o.Curve) { return (_network.Apart(s.Curve, s.S, place) > Detour * gap, double.PositiveInfinity); }
        double way = double.PositiveInfinity, corner = double.PositiveInfinity;
        foreach ((double first, double second) in _common[s.Curve, o.Curve])
        {
            double a = _network.Apart(s.Curve, s.S, first), b = _network.Apart(o.Curve, place, second);
            if (Math.Max(a, b) < Math.Min(s.Size, o.Size)) { corner = Math.Min(corner, a); }
            way = Math.Min(way, a + b);
        }

        return (way > Detour * gap, corner);
    }

    // No edge much longer than one near by.
    private void Grade()
    {
        foreach (Sample o in _samples.Where(s => s.Size < 0.85 * s.Wanted).OrderBy(s => s.Size).ToList())
        {
            foreach (Sample s in _samples)
            {
                if (s.Size > o.Size) { s.Size = Math.Min(s.Size, o.Size + Growth * (s.At - o.At).Norm); }
            }
        }
    }

    private (int, int) Cell(Point p) => ((int)Math.Floor(p.X / _cell), (int)Math.Floor(p.Y / _cell));

    private static (double Distance, double Place) Nearest(Point p, Sample a, Sample b)
    {
        Point d = b.At - a.At;
        double along = Math.Clamp((p - a.At).Dot(d) / Math.Max(d.Dot(d), 1e-300), 0, 1);
        return ((p - a.At - along * d).Norm, a.S + along * (b.S - a.S));
    }
}
