using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates.Meshing;

/// <summary>A stretch of a curve between two nodes, or a whole closed curve from a node to itself.</summary>
/// <param name="Curve">Number of the curve.</param>
/// <param name="S0">Where it begins along the curve, m.</param>
/// <param name="S1">Where it ends, larger than S0; beyond the curve's length where it runs over its start.</param>
/// <param name="From">Node at S0.</param>
/// <param name="To">Node at S1.</param>
internal readonly record struct Arc(int Curve, double S0, double S1, int From, int To)
{
    internal double Length => S1 - S0;
}

/// <summary>The curves of a domain cut at their corners, crossings and touches; what runs together is there once.</summary>
internal sealed class CurveNetwork
{
    // Jump of curvature, times the mesh size, from which a joint becomes a node: an edge across it would miss the curve. A kink counts
    // so many times its angle, rad.
    private const double CurvatureJump = 0.35, Kink = 20;

    // How close curves must come to touch, in parts of the mesh size; physically nothing.
    private const double Weld = 1.5e-3;

    // Nodes closer than this many welds are one node, arcs closer than this with the same ends one arc: wider than the weld, so that what
    // touches here does not come apart there.
    private const double One = 3;

    // Curves that part at a common node are still within a weld of each other for so many welds, unless the angle is very small.
    private const double Departure = 20;

    private readonly Func<Point, double> _size;
    private readonly List<SortedList<double, int>> _marks = [];
    private readonly List<int> _owners = [];
    private readonly double _weld;

    internal CurveNetwork(MeshDomain domain, Func<Point, double> size)
    {
        _size = size;
        Domain = domain;
        Curves = domain.Curves;
        Rulers = [.. Curves.Select(c => new CurveRuler(c))];
        double least = Rulers.Min(r => Enumerable.Range(0, 16).Min(i => size(r.At(i / 16.0 * r.Total))));
        _weld = Math.Max(Weld * least, 1e-7 * domain.Outline.Size);
        foreach (CurveRuler ruler in Rulers)
        {
            _marks.Add([]);
            foreach (double t in ruler.Curve.Corners()) { Mark(_marks.Count - 1, ruler.LengthAt(t), ruler.Curve.At(t)); }
        }

        foreach (Point p in domain.Breaks)
        {
            double t = domain.Outline.Nearest(p).T;
            Mark(0, Rulers[0].LengthAt(t), domain.Outline.At(t));
        }

        Meetings = [.. Meet()];
        foreach ((int i, int j, Meeting m) in Meetings) { Mark(i, j, m); }
        MarkJumps();
        CarryShared();
        Arcs = ArcsOf();
    }

    internal MeshDomain Domain { get; }
    internal IReadOnlyList<Curve> Curves { get; }
    internal IReadOnlyList<CurveRuler> Rulers { get; }
    internal List<Point> Nodes { get; } = [];

    /// <summary>Where curves meet each other, or a border itself.</summary>
    internal IReadOnlyList<(int First, int Second, Meeting Meeting)> Meetings { get; }

    /// <summary>What the mesh's edges divide: arcs in the board, none twice.</summary>
    internal IReadOnlyList<Arc> Arcs { get; }

    /// <summary>Whether a curve bounds the board: the outline or a hole.</summary>
    internal bool Bounds(int curve) => curve <= Domain.Holes.Count;

    /// <summary>Places that two curves share, as lengths along each.</summary>
    internal IEnumerable<(double First, double Second)> Common(int first, int second) =>
        from a in _marks[first] from b in _marks[second] where a.Value == b.Value select (a.Key, b.Key);

    private IEnumerable<(int, int, Meeting)> Meet()
    {
        for (int i = 0; i < Curves.Count; i++)
        {
            double shared = Departure * _weld;
            foreach (Meeting m in Bounds(i) ? [] : Crossings.Within(Curves[i], _weld, shared)) { yield return (i, i, m); }
            for (int j = i + 1; j < Curves.Count; j++)
            {
                foreach (Meeting m in Crossings.Between(Curves[i], Curves[j], _weld, shared)) { yield return (i, j, m); }
            }
        }
    }

    private void Mark(int i, int j, Meeting m)
    {
        Carry(i, j);
        Carry(j, i);
        if (!m.IsShared || !RunTogether(i, j, m))
        {
            Mark(i, Rulers[i].LengthAt(m.A), m.At);
            Mark(j, Rulers[j].LengthAt(m.B), m.At);
            return;
        }

        double s0 = Along(i, m.StartA), s1 = Along(i, m.EndA);
        foreach ((double a, double b) in ((double, double)[])[(m.StartA, m.StartB), (m.EndA, m.EndB)])
        {
            double s = Along(i, a);
            if (Common(i, j).Any(c => Apart(i, c.First, s) < Math.Min(Departure * _weld, (s1 - s0) / 4))) { continue; }
            Mark(i, s, Rulers[i].At(s));
            Mark(j, Along(j, b), Rulers[i].At(s));
        }
    }

    // Whether a stretch within the weld is more than the touch of two curves that bend apart, with a gap that grows from its middle on.
    private bool RunTogether(int i, int j, Meeting m)
    {
        double s0 = Along(i, m.StartA), s1 = Along(i, m.EndA);
        double Gap(double share) => Curves[j].Nearest(Rulers[i].At(s0 + share * (s1 - s0))).Distance;
        return s1 - s0 > _size(m.At) / 4 || Gap(0.25) + Gap(0.5) + Gap(0.75) < 0.01 * _weld;
    }

    // What was marked on one of two curves after they were compared; from curve to curve until nothing is new.
    private void CarryShared()
    {
        var shared = Meetings.Select(m => (m.First, m.Second)).Distinct().ToList();
        for (int before = -1; before != _marks.Sum(m => m.Count);)
        {
            before = _marks.Sum(m => m.Count);
            foreach ((int i, int j) in shared)
            {
                Carry(i, j);
                Carry(j, i);
            }
        }
    }

    // Marks the nodes of one curve wherever another passes them, on each of its branches where it passes twice.
    private void Carry(int from, int to)
    {
        foreach (int node in _marks[from].Values.ToArray())
        {
            for (int k = 0; k < Curves[to].Segments.Count; k++)
            {
                Bezier segment = Curves[to].Segments[k];
                if (segment.Hull.Distance(Nodes[node]) > 2 * _weld) { continue; }
                NearestPoint n = segment.Nearest(Nodes[node]);
                if (n.Distance <= 2 * _weld) { Mark(to, Rulers[to].LengthAt(k + n.T), Nodes[node]); }
            }
        }
    }

    private double Along(int curve, double t)
    {
        double n = Curves[curve].Segments.Count;
        return t <= n ? Rulers[curve].LengthAt(t) : Rulers[curve].Total + Rulers[curve].LengthAt(t - n);
    }

    /// <summary>The way between two places along a curve, the shorter one where it is closed, m.</summary>
    internal double Apart(int curve, double s, double t)
    {
        double apart = Math.Abs(s - t);
        if (!Curves[curve].IsClosed) { return apart; }
        apart %= Rulers[curve].Total;
        return Math.Min(apart, Rulers[curve].Total - apart);
    }

    private void Mark(int curve, double s, Point at)
    {
        CurveRuler ruler = Rulers[curve];
        if (ruler.Curve.IsClosed && s >= ruler.Total - _weld) { s = Math.Max(0, s - ruler.Total); }
        int node = Nodes.FindIndex(p => (p - at).Norm <= One * _weld);
        if (node < 0)
        {
            node = Nodes.Count;
            Nodes.Add(at);
            _owners.Add(curve);
        }
        else if (curve < _owners[node])
        {
            // The outline and the holes keep their places; a border gives way.
            Nodes[node] = ruler.At(s);
            _owners[node] = curve;
        }

        bool known = _marks[curve].Any(m => m.Value == node && Apart(curve, m.Key, s) <= 10 * _weld);
        if (!known) { _marks[curve].TryAdd(s, node); }
    }

    // An edge that runs over a jump of curvature is no polynomial; the largest jumps first, none next to another node.
    private void MarkJumps()
    {
        for (int c = 0; c < Curves.Count; c++)
        {
            IReadOnlyList<Bezier> segments = Curves[c].Segments;
            var jumps = new List<(double Jump, int Joint)>();
            for (int i = Curves[c].IsClosed ? 0 : 1; i < segments.Count; i++)
            {
                Bezier before = segments[(i + segments.Count - 1) % segments.Count], after = segments[i];
                double jump = Math.Abs(before.Curvature(1) - after.Curvature(0)) * _size(after.P0) + Kink * Math.Abs(before.Direction(1).AngleTo(after.Direction(0)));
                if (jump > CurvatureJump) { jumps.Add((jump, i)); }
            }

            foreach ((_, int joint) in jumps.OrderByDescending(j => j.Jump))
            {
                double s = Rulers[c].LengthAt(joint), room = 0.4 * _size(segments[joint].P0);
                if (_marks[c].All(m => Apart(c, m.Key, s) > room)) { Mark(c, s, segments[joint].P0); }
            }
        }
    }

    private List<Arc> ArcsOf()
    {
        var arcs = new List<Arc>();
        for (int c = 0; c < Curves.Count; c++)
        {
            if (_marks[c].Count == 0) { Mark(c, 0, Curves[c].At(0)); }
            IList<double> s = _marks[c].Keys;
            IList<int> node = _marks[c].Values;
            int count = Curves[c].IsClosed ? s.Count : s.Count - 1;
            for (int i = 0; i < count; i++)
            {
                int k = (i + 1) % s.Count;
                var arc = new Arc(c, s[i], k > i ? s[k] : s[k] + Rulers[c].Total, node[i], node[k]);
                bool speck = arc.From == arc.To && arc.Length <= 10 * _weld;
                if (!speck && !arcs.Exists(a => Same(a, arc)) && (Bounds(c) || InBoard(arc))) { arcs.Add(arc); }
            }
        }

        return arcs;
    }

    // Whether two arcs with the same ends run together.
    private bool Same(Arc known, Arc arc)
    {
        bool ends = (known.From == arc.From && known.To == arc.To) || (known.From == arc.To && known.To == arc.From);
        if (!ends) { return false; }
        CurveRuler ruler = Rulers[known.Curve];
        double n = Curves[known.Curve].Segments.Count, t0 = ruler.ParameterAt(known.S0), t1 = ruler.ParameterAt(known.S1);
        if (known.Length <= _weld) { return arc.Length <= One * _weld; }
        if (known.Length > ruler.Total - _weld) { t1 = Curves[known.Curve].IsClosed ? t0 + n : n; }
        Curve part = Curves[known.Curve].Part(t0, t1 > t0 ? t1 : t1 + n);
        return Enumerable.Range(1, 7).All(i => part.Nearest(Rulers[arc.Curve].At(arc.S0 + i / 8.0 * arc.Length)).Distance <= One * _weld);
    }

    private bool InBoard(Arc arc)
    {
        Point middle = Rulers[arc.Curve].At(arc.S0 + 0.5 * arc.Length);
        return Domain.Outline.Contains(middle) && !Domain.Holes.Any(h => h.Contains(middle));
    }
}
