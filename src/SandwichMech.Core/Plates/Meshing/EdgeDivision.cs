using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates.Meshing;

/// <summary>The arcs of a network cut into edges.</summary>
internal sealed class EdgeDivision
{
    // An arc a little longer than a whole number of edges takes that number.
    private const double Slack = 0.2;
    // Next to a lone short edge the following ones may be so much longer, and grow so fast with the way.
    private const double Step = 1.5, Growth = 1;
    // Arcs that leave a node at a smaller angle than the first begin with edges of one length, below the second with lengths at most so
    // different, rad.
    private const double Sharp = 0.3, Narrow = 0.8, AtMost = 2;
    // A first edge longer than the other's by more than this is shortened.
    private const double Unequal = 1.05;

    private readonly CurveNetwork _network;
    private readonly List<EdgeSizes.Sample>[] _samples;

    private EdgeDivision(CurveNetwork network, Func<Point, double> size)
    {
        _network = network;
        _samples = new List<EdgeSizes.Sample>[network.Arcs.Count];
        foreach (IGrouping<int, EdgeSizes.Sample> arc in new EdgeSizes(network, size).Samples.GroupBy(s => s.Arc)) { _samples[arc.Key] = [.. arc]; }
        for (int i = 0; i < _samples.Length; i++) { GradeFromNeighbours(i); }
    }

    /// <summary>Vertices (the nodes first) and edges.</summary>
    internal static (List<Point> Vertices, List<CurveEdge> Edges) Of(CurveNetwork network, Func<Point, double> size)
    {
        var division = new EdgeDivision(network, size);
        List<double>[] cuts = [.. network.Arcs.Select((a, i) => division.Divided(i, a.S0, a.S1))];
        division.Balance(cuts);
        List<Point> vertices = [.. network.Nodes];
        var edges = new List<CurveEdge>();
        for (int i = 0; i < cuts.Length; i++) { Make(network, network.Arcs[i], cuts[i], vertices, edges); }
        return (vertices, edges);
    }

    // A short arc of the same curve next to this one holds its first edges back.
    private void GradeFromNeighbours(int index)
    {
        Arc arc = _network.Arcs[index];
        foreach (Arc o in _network.Arcs)
        {
            if (o == arc || o.Curve != arc.Curve || o.Length >= arc.Length) { continue; }
            foreach (EdgeSizes.Sample s in _samples[index])
            {
                double way = double.PositiveInfinity;
                if (o.To == arc.From) { way = s.S - arc.S0; }
                if (o.From == arc.To) { way = Math.Min(way, arc.S1 - s.S); }
                s.Size = Math.Min(s.Size, Step * o.Length + Growth * way);
            }
        }
    }

    // Places from s0 to s1 on an arc, both included, that use up the allowed length and turn evenly.
    private List<double> Divided(int index, double s0, double s1)
    {
        List<EdgeSizes.Sample> samples = _samples[index];
        List<(double S, double Used)> used = [(s0, 0)];
        double turn = 0;
        for (int i = 1; i < samples.Count; i++)
        {
            double a = Math.Max(s0, samples[i - 1].S), b = Math.Min(s1, samples[i].S), whole = samples[i].S - samples[i - 1].S;
            if (b <= a) { continue; }
            double bend = Math.Abs(samples[i - 1].Tangent.AngleTo(samples[i].Tangent)) * (b - a) / whole;
            turn += bend;
            used.Add((b, used[^1].Used + Math.Max((b - a) * 2 / (samples[i - 1].Size + samples[i].Size), bend / EdgeSizes.MostTurn)));
        }

        double total = used[^1].Used;
        int n = Math.Max(1, Math.Max((int)Math.Ceiling(total - Slack), (int)Math.Ceiling(turn / EdgeSizes.MostTurn - 0.1)));
        Arc arc = _network.Arcs[index];
        if (arc.From == arc.To && s0 == arc.S0 && s1 == arc.S1) { n = Math.Max(n, 3); }
        List<double> places = [s0];
        int k = 1;
        for (int i = 1; i < n; i++)
        {
            double wanted = total * i / n;
            while (used[k].Used < wanted) { k++; }
            places.Add(used[k - 1].S + (wanted - used[k - 1].Used) / (used[k].Used - used[k - 1].Used) * (used[k].S - used[k - 1].S));
        }

        places.Add(s1);
        return places;
    }

    // At a sharp corner both arcs begin with equally long edges, so that the corner is one triangle from tip to tip. Were one
    // longer, a straight side from the tip of the shorter would run along it, and it would bulge across that side.
    private void Balance(List<double>[] cuts)
    {
        double[,] first = new double[cuts.Length, 2];
        for (int i = 0; i < cuts.Length; i++) { (first[i, 0], first[i, 1]) = (cuts[i][1] - cuts[i][0], cuts[i][^1] - cuts[i][^2]); }
        double[,] wanted = (double[,])first.Clone();
        foreach (((int i, int end), (int j, int other), double corner) in SharpPairs())
        {
            double most = Math.Min(wanted[i, end], wanted[j, other]) * (corner < Sharp ? 1 : AtMost);
            wanted[i, end] = Math.Min(wanted[i, end], most);
            wanted[j, other] = Math.Min(wanted[j, other], most);
        }

        for (int i = 0; i < cuts.Length; i++)
        {
            bool start = wanted[i, 0] * Unequal < first[i, 0], stop = wanted[i, 1] * Unequal < first[i, 1];
            double s0 = cuts[i][0] + (start ? wanted[i, 0] : 0), s1 = cuts[i][^1] - (stop ? wanted[i, 1] : 0);
            if ((!start && !stop) || s1 <= s0) { continue; }
            List<double> inner = Divided(i, s0, s1);
            if (start) { inner.Insert(0, cuts[i][0]); }
            if (stop) { inner.Add(cuts[i][^1]); }
            cuts[i] = inner;
        }
    }

    // Pairs of arc ends that leave a node next to each other at a small angle; nodes in order.
    private List<((int Arc, int End), (int Arc, int End), double Corner)> SharpPairs()
    {
        var pairs = new List<((int, int), (int, int), double)>();
        var ends = _network.Arcs.SelectMany((a, i) => new[] { (Node: a.From, Arc: i, End: 0), (Node: a.To, Arc: i, End: 1) })
            .Select(e => (e.Node, e.Arc, e.End, Angle: Direction(e.Arc, e.End)));
        foreach (var node in ends.GroupBy(e => e.Node).OrderBy(g => g.Key))
        {
            var round = node.OrderBy(e => e.Angle).ToList();
            for (int i = 0; i < round.Count; i++)
            {
                var (right, left) = (round[i], round[(i + 1) % round.Count]);
                double corner = left.Angle - right.Angle + (i == round.Count - 1 ? 2 * Math.PI : 0);
                if (corner < Narrow && (right.Arc != left.Arc || right.End != left.End)) { pairs.Add(((right.Arc, right.End), (left.Arc, left.End), corner)); }
            }
        }

        return pairs;
    }

    private double Direction(int arc, int end)
    {
        Point t = end == 0 ? _samples[arc][0].Tangent : new Point(0, 0) - _samples[arc][^1].Tangent;
        return Math.Atan2(t.Y, t.X);
    }

    private static void Make(CurveNetwork network, Arc arc, List<double> places, List<Point> vertices, List<CurveEdge> edges)
    {
        CurveRuler ruler = network.Rulers[arc.Curve];
        int from = arc.From;
        for (int i = 1; i < places.Count; i++)
        {
            int to = arc.To;
            if (i < places.Count - 1)
            {
                to = vertices.Count;
                vertices.Add(ruler.At(places[i]));
            }

            edges.Add(new(ruler, arc.Curve, places[i - 1], places[i], from, to, vertices[from], vertices[to]));
            from = to;
        }
    }
}
