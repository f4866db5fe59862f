namespace SandwichMech.Core.Outlines;

/// <summary>From a raw offset that crosses itself to the loops that keep their distance.</summary>
internal static class OffsetLoops
{
    // A loop shorter than this part of the distance is the knot of a joint that turns a little; nothing that is wanted is so small.
    private const double Knot = 0.3;

    /// <summary>How roughly the raw offset may be fitted, in parts of the distance, so that a larger loop still shows by its distance.</summary>
    internal const double MostFit = 5e-4;

    /// <summary>The parts of a closed raw offset that are no nearer to the source than the distance, chained up.</summary>
    internal static IReadOnlyList<Curve> Of(Curve source, Curve raw, double distance, double fit)
    {
        (Curve chain, IReadOnlyList<Meeting> meetings) = Untied(raw, Math.Abs(distance));
        var cuts = new List<(double T, int Node)>();
        for (int i = 0; i < meetings.Count; i++)
        {
            cuts.Add((meetings[i].A, i));
            cuts.Add((meetings[i].B, i));
        }

        if (cuts.Count == 0) { return Keeps(source, chain, 0, chain.Segments.Count, distance, fit) ? Proper([chain], distance, source) : []; }
        cuts.Sort();
        var parts = new List<(int From, int To, Curve Part)>();
        for (int i = 0; i < cuts.Count; i++)
        {
            (double t0, int from) = cuts[i];
            (double t1, int to) = cuts[(i + 1) % cuts.Count];
            if (i == cuts.Count - 1) { t1 += chain.Segments.Count; }
            if (t1 - t0 > 1e-12 && Keeps(source, chain, t0, t1, distance, fit)) { parts.Add((from, to, chain.Part(t0, t1))); }
        }

        return Proper(Chained(parts), distance, source);
    }

    // Leaves out small loops: those that do not interleave at one go, then what is left.
    private static (Curve Chain, IReadOnlyList<Meeting> Meetings) Untied(Curve raw, double distance)
    {
        Curve chain = raw;
        while (true)
        {
            IReadOnlyList<Meeting> meetings = Crossings.Within(chain);
            double n = chain.Segments.Count, end = double.NegativeInfinity;
            var kept = new List<(double From, double To, Point At)>();
            foreach ((double from, double to, Point at) in Knots(chain, meetings, Knot * distance))
            {
                if (from <= end || (kept.Count > 0 && to > n + kept[0].From)) { continue; }
                kept.Add((from, to, at));
                end = to;
            }

            if (kept.Count == 0) { return (chain, meetings); }
            var segments = new List<Bezier>();
            for (int i = 0; i < kept.Count; i++)
            {
                (double from, Point start) = (kept[i].To, kept[i].At);
                (double to, Point stop) = i + 1 < kept.Count ? (kept[i + 1].From, kept[i + 1].At) : (kept[0].From + n, kept[0].At);
                if (from > n) { (from, to) = (from - n, to - n); }
                if (to <= from) { continue; }
                Bezier[] part = [.. chain.Part(from, to).Segments];
                part[0] = part[0] with { P0 = start };
                part[^1] = part[^1] with { P3 = stop };
                segments.AddRange(part);
            }

            if (segments.Count == 0) { return (chain, meetings); }
            chain = new(segments);
        }
    }

    // Short loops, the larger first where one begins as another; one that runs over the curve's start comes last, its end beyond the curve's.
    private static IEnumerable<(double From, double To, Point At)> Knots(Curve chain, IReadOnlyList<Meeting> meetings, double small)
    {
        if (meetings.Count == 0) { return []; }
        double n = chain.Segments.Count, total = chain.TotalLength;
        var loops = meetings.Select(m => (Meeting: m, Length: chain.Length(m.A, m.B))).ToList();
        return loops.Where(l => l.Length < small).OrderBy(l => l.Meeting.A).ThenByDescending(l => l.Meeting.B)
            .Select(l => (l.Meeting.A, l.Meeting.B, l.Meeting.At))
            .Concat(loops.Where(l => total - l.Length < small).OrderBy(l => l.Meeting.B).Select(l => (l.Meeting.B, l.Meeting.A + n, l.Meeting.At)));
    }

    private static bool Keeps(Curve source, Curve chain, double t0, double t1, double distance, double fit)
    {
        double n = chain.Segments.Count;
        foreach (double share in (double[])[0.5, 0.25, 0.75])
        {
            double t = t0 + share * (t1 - t0);
            Point p = chain.At(t >= n ? t - n : t);
            if (source.Nearest(p).Distance < Math.Abs(distance) - 2 * fit || source.Contains(p) != distance > 0) { return false; }
        }

        return true;
    }

    private static List<Curve> Chained(List<(int From, int To, Curve Part)> parts)
    {
        var loops = new List<Curve>();
        while (parts.Count > 0)
        {
            var loop = new List<Bezier>();
            int first = parts[0].From, at = first;
            do
            {
                int k = parts.FindIndex(p => p.From == at);
                if (k < 0) { break; }
                Bezier[] next = [.. parts[k].Part.Segments];
                if (loop.Count > 0) { next[0] = next[0] with { P0 = loop[^1].P3 }; }
                loop.AddRange(next);
                at = parts[k].To;
                parts.RemoveAt(k);
            }
            while (at != first);

            if (at == first && loop.Count > 0)
            {
                loop[^1] = loop[^1] with { P3 = loop[0].P0 };
                loops.Add(new(loop));
            }
        }

        return loops;
    }

    // Anticlockwise loops with an area that can be seen; inwards that is what the distance leaves of the source.
    private static List<Curve> Proper(List<Curve> loops, double distance, Curve source) =>
        [.. loops.Where(l => l.SignedArea > 1e-9 * source.Size * source.Size && (distance < 0 || l.SignedArea < source.SignedArea))];
}
