using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates.Meshing;

/// <summary>The arcs of a network cut into edges.</summary>
internal static class EdgeDivision
{
    // An arc a little longer than a whole number of edges takes that number.
    private const double Slack = 0.2;
    // Next to a lone short edge the following ones may be so much longer, and grow so fast with the way.
    private const double Step = 1.5, Growth = 1;

    /// <summary>Vertices (the nodes first) and edges.</summary>
    internal static (List<Point> Vertices, List<CurveEdge> Edges) Of(CurveNetwork network, Func<Point, double> size)
    {
        List<EdgeSizes.Sample>[] samples = new List<EdgeSizes.Sample>[network.Arcs.Count];
        foreach (IGrouping<int, EdgeSizes.Sample> arc in new EdgeSizes(network, size).Samples.GroupBy(s => s.Arc)) { samples[arc.Key] = [.. arc]; }
        for (int i = 0; i < samples.Length; i++) { GradeFromNeighbours(network, i, samples[i]); }

        List<Point> vertices = [.. network.Nodes];
        var edges = new List<CurveEdge>();
        for (int i = 0; i < samples.Length; i++) { Divide(network, network.Arcs[i], samples[i], vertices, edges); }
        return (vertices, edges);
    }

    // A short arc of the same curve next to this one holds its first edges back.
    private static void GradeFromNeighbours(CurveNetwork network, int index, List<EdgeSizes.Sample> samples)
    {
        Arc arc = network.Arcs[index];
        foreach (Arc o in network.Arcs)
        {
            if (o == arc || o.Curve != arc.Curve || o.Length >= arc.Length) { continue; }
            foreach (EdgeSizes.Sample s in samples)
            {
                double way = double.PositiveInfinity;
                if (o.To == arc.From) { way = s.S - arc.S0; }
                if (o.From == arc.To) { way = Math.Min(way, arc.S1 - s.S); }
                s.Size = Math.Min(s.Size, Step * o.Length + Growth * way);
            }
        }
    }

    private static void Divide(CurveNetwork network, Arc arc, List<EdgeSizes.Sample> samples, List<Point> vertices, List<CurveEdge> edges)
    {
        // Edges used up on the way.
        double[] used = new double[samples.Count];
        double turn = 0;
        for (int i = 1; i < samples.Count; i++)
        {
            double bend = Math.Abs(samples[i - 1].Tangent.AngleTo(samples[i].Tangent));
            turn += bend;
            used[i] = used[i - 1] + Math.Max((samples[i].S - samples[i - 1].S) * 2 / (samples[i - 1].Size + samples[i].Size), bend / EdgeSizes.MostTurn);
        }

        int n = Math.Max(1, (int)Math.Ceiling(used[^1] - Slack));
        n = Math.Max(n, (int)Math.Ceiling(turn / EdgeSizes.MostTurn - 0.1));
        if (arc.From == arc.To) { n = Math.Max(n, 3); }
        CurveRuler ruler = network.Rulers[arc.Curve];
        int from = arc.From, k = 1;
        double s0 = arc.S0;
        for (int i = 1; i <= n; i++)
        {
            double wanted = used[^1] * i / n, s1 = arc.S1;
            int to = arc.To;
            if (i < n)
            {
                while (used[k] < wanted) { k++; }
                s1 = samples[k - 1].S + (wanted - used[k - 1]) / (used[k] - used[k - 1]) * (samples[k].S - samples[k - 1].S);
                to = vertices.Count;
                vertices.Add(ruler.At(s1));
            }

            edges.Add(new(ruler, arc.Curve, s0, s1, from, to, vertices[from], vertices[to]));
            (from, s0) = (to, s1);
        }
    }
}
