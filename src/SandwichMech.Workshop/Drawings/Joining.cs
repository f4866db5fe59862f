using SandwichMech.Core.Outlines;

namespace SandwichMech.Workshop.Drawings;

/// <summary>A piece that does not close.</summary>
/// <param name="Curve">The chain.</param>
/// <param name="Group">Its layer or group.</param>
internal sealed record OpenPiece(Curve Curve, string Group)
{
    internal Point From => Curve.Segments[0].P0;

    internal Point To => Curve.Segments[^1].P3;

    internal double Gap => (To - From).Norm;
}

/// <summary>Chains loose strokes of one group into closed curves and drops what is drawn twice.</summary>
internal sealed class Joining
{
    /// <summary>What two ends may be apart and still be joined, in parts of the size of all: 0.1 mm on a board of half a metre.</summary>
    internal const double Gap = 2e-4;

    // Turns that differ by less are alike, rad.
    private const double SameTurn = 1e-3;

    // Of the shorter piece, how much may be missing at its end.
    private const double ShortReach = 0.3;

    private const int Samples = 9;
    private readonly Sketch _sketch;
    private readonly double _tolerance;
    private double _largestGap;
    private int _joined, _doubled;

    private Joining(Sketch sketch)
    {
        _sketch = sketch;
        _tolerance = Gap * sketch.Strokes.Aggregate(Box.Empty, (b, s) => b.With(s.Curve.Bounds())).Size;
    }

    internal List<Stroke> Closed { get; } = [];

    internal List<OpenPiece> Open { get; } = [];

    internal static Joining Of(Sketch sketch)
    {
        var joining = new Joining(sketch);
        foreach (IGrouping<string, Stroke> group in sketch.Strokes.GroupBy(s => s.Group)) { joining.Join(group.Key, joining.Once([.. group])); }
        joining.Say();
        return joining;
    }

    private void Say()
    {
        if (_doubled > 0) { _sketch.Note($"{_doubled} {(_doubled == 1 ? "piece is" : "pieces are")} drawn twice: taken once"); }
        if (_joined > 0) { _sketch.Note($"{_joined} loose pieces joined into closed curves"); }
    }

    /// <summary>The largest gap that was closed, in the drawing's unit; zero where all met.</summary>
    internal double LargestGap => _largestGap;

    private List<Stroke> Once(Stroke[] strokes)
    {
        var kept = new List<(Stroke Stroke, Box Box, int Place)>();
        foreach ((Stroke stroke, Box box, int place) in strokes.Select((s, i) => (s, s.Curve.Bounds(), i)).OrderBy(s => s.Item2.MinX))
        {
            bool again = false;
            for (int i = kept.Count - 1; i >= 0 && !again && kept[i].Box.MinX >= box.MinX - _tolerance; i--)
            {
                // Closed curves of two names may each be asked for.
                bool named = stroke.Curve.IsClosed && stroke.Id is { } id && kept[i].Stroke.Id is { } other && id != other;
                again = !named && AreOne(kept[i].Stroke.Curve, kept[i].Box, stroke.Curve, box, _tolerance);
            }

            if (again) { _doubled++; }
            else { kept.Add((stroke, box, place)); }
        }

        return [.. kept.OrderBy(k => k.Place).Select(k => k.Stroke)];
    }

    /// <summary>Whether two curves run together all along, in either direction.</summary>
    internal static bool AreOne(Curve a, Box boxA, Curve b, Box boxB, double tolerance)
    {
        // Very short pieces are their own neighbours within the tolerance: what is small is told apart more finely.
        double near = Math.Min(tolerance, 0.01 * Math.Min(a.Size, b.Size));
        if (Math.Abs(boxA.MinX - boxB.MinX) > near || Math.Abs(boxA.MaxX - boxB.MaxX) > near || Math.Abs(boxA.MinY - boxB.MinY) > near || Math.Abs(boxA.MaxY - boxB.MaxY) > near) { return false; }
        return Math.Abs(a.TotalLength - b.TotalLength) <= 2 * near
            && Enumerable.Range(0, Samples).All(i => b.Nearest(a.At(a.Segments.Count * (double)i / (Samples - 1))).Distance <= near)
            && Enumerable.Range(0, Samples).All(i => a.Nearest(b.At(b.Segments.Count * (double)i / (Samples - 1))).Distance <= near);
    }

    private void Join(string group, List<Stroke> strokes)
    {
        var loose = new List<Stroke>();
        foreach (Stroke s in strokes)
        {
            if (s.Curve.IsClosed) { Closed.Add(s); }
            else { loose.Add(s); }
        }

        var ends = new EndIndex(loose, _tolerance);
        while (ends.Any() is { } first)
        {
            List<Link> chain = [new(loose[first], loose[first].Curve)];
            bool closed = Extend(chain, ends, loose, group);
            if (!closed)
            {
                // From its other end.
                chain = [.. chain.AsEnumerable().Reverse().Select(l => new Link(l.Stroke, l.Curve.Reversed()))];
                closed = Extend(chain, ends, loose, group);
            }

            if (!closed && chain.Count > 0) { Open.Add(new(Chained(chain, close: false), group)); }
        }
    }

    // A stroke of a chain, in the chain's direction.
    private sealed record Link(Stroke Stroke, Curve Curve)
    {
        internal Point From => Curve.Segments[0].P0;

        internal Point To => Curve.Segments[^1].P3;
    }

    // Adds stroke after stroke until the chain closes: on its start, or on an earlier joint, when what came before is left open.
    private bool Extend(List<Link> chain, EndIndex ends, List<Stroke> loose, string group)
    {
        while (true)
        {
            Point tip = chain[^1].To, way = chain[^1].Curve.Segments[^1].Direction(1);
            // Where several ways go on, the straightest: onto the chain itself, or to another stroke.
            int start = -1, taken = -1;
            double closing = double.PositiveInfinity, going = double.PositiveInfinity;
            for (int k = 0; k < chain.Count; k++)
            {
                if ((chain[k].From - tip).Norm > Reach(chain[^1].Curve, chain[k].Curve)) { continue; }
                double turn = Math.Abs(way.AngleTo(chain[k].Curve.Segments[0].Direction(0)));
                if (turn < closing) { (closing, start) = (turn, k); }
            }

            Curve? next = null;
            foreach (int i in ends.Near(tip))
            {
                Curve curve = loose[i].Curve;
                double gap = Math.Min((curve.Segments[0].P0 - tip).Norm, (curve.Segments[^1].P3 - tip).Norm);
                if (gap > Reach(chain[^1].Curve, curve)) { continue; }
                Curve onward = (curve.Segments[0].P0 - tip).Norm <= (curve.Segments[^1].P3 - tip).Norm ? curve : curve.Reversed();
                double turn = Math.Abs(way.AngleTo(onward.Segments[0].Direction(0)));
                if (turn < going) { (going, next, taken) = (turn, onward, i); }
            }

            if (start >= 0 && closing <= going + SameTurn)
            {
                if (start > 0) { Open.Add(new(Chained(chain[..start], close: false), group)); }
                List<Link> loop = chain[start..];
                string? id = loop.Select(l => l.Stroke.Id).Distinct().Count() == 1 ? loop[0].Stroke.Id : null;
                if (loop.Count > 1) { _joined += loop.Count; }
                Closed.Add(new(Chained(loop, close: true), id, group));
                return true;
            }

            if (next is null) { return false; }
            ends.Take(taken);
            chain.Add(new(loose[taken], next));
        }
    }

    // Among very short pieces, the next end but one may lie within the tolerance.
    private double Reach(Curve a, Curve b) => Math.Min(_tolerance, ShortReach * Math.Min(a.Size, b.Size));

    private Curve Chained(List<Link> chain, bool close)
    {
        List<Bezier> segments = [.. chain.SelectMany(l => l.Curve.Segments)];
        for (int i = 0; i < (close ? segments.Count : segments.Count - 1); i++)
        {
            int next = (i + 1) % segments.Count;
            Bezier a = segments[i], b = segments[next];
            Point gap = b.P0 - a.P3;
            if (gap.Norm == 0) { continue; }
            _largestGap = Math.Max(_largestGap, gap.Norm);
            // Both ends move half of the way, with their handles.
            segments[i] = a with { P2 = a.P2 + 0.5 * gap, P3 = a.P3 + 0.5 * gap };
            b = segments[next];
            segments[next] = b with { P0 = segments[i].P3, P1 = b.P1 - 0.5 * gap };
        }

        return new(segments);
    }
}
