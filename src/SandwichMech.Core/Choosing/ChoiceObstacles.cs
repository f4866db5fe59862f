namespace SandwichMech.Core.Choosing;

/// <summary>Finds what stands in the way where no board meets all targets.</summary>
/// <remarks>Where there are many boards, every so many-th of each kind is looked at, and then those around the best of them.</remarks>
internal sealed class ChoiceObstacles(ChoiceSearch search)
{
    private const int MostBoards = 3000, MostSolves = 6;

    // A candidate and, a target, the bound with which it would meet this one too; nothing where it misses another.
    private sealed record Looked(Candidate At, ChoiceValue[] Values, double Chance, double?[] Bounds);

    internal (IReadOnlyList<Obstacle> Obstacles, ChosenBoard? Nearest) Find()
    {
        List<Looked> all = LookAt(Coarse());
        if (all.Count == 0) { return ([], null); }
        var centres = Enumerable.Range(0, search.Wish.Targets.Count).Select(t => Best(all, t)).Append(all.MaxBy(l => l.Chance)).OfType<Looked>().Select(l => l.At).Distinct().ToList();
        all.AddRange(LookAt(centres.SelectMany(Around).Distinct()));
        var obstacles = new List<Obstacle>();
        for (int t = 0; t < search.Wish.Targets.Count; t++)
        {
            if (Solved(all, t) is { Bounds: var bounds } best && bounds[t] is { } bound)
            {
                obstacles.Add(new(t, search.Wish.Targets[t].Figured(bound), IsLeast(t, bound), search.Shown(best.At, best.Values, solved: true)));
            }
        }

        // Where the joint chance is nothing everywhere, each target's own chance still tells which board is nearest.
        Candidate likeliest = all.OrderByDescending(l => l.Chance).ThenByDescending(l => search.Wish.Targets.Zip(l.Values, Nearness).Sum()).First().At;
        return ([.. obstacles.OrderBy(o => Loosened(o.Target, search.Wish.Targets[o.Target].Scaled(o.Bound)))], search.Shown(likeliest, search.Solve(likeliest), solved: true));
    }

    // Near the border of what does, told figures may be off: solved ones decide, from the least loosened on.
    private Looked? Solved(List<Looked> all, int target)
    {
        int solves = 0;
        foreach (Looked told in all.Where(l => l.Bounds[target] is not null).OrderBy(l => Loosened(target, l.Bounds[target]!.Value)))
        {
            if (search.Values(told.At) is not var (values, _) || At(told.At, values).Bounds[target] is null) { continue; }
            Looked own = At(told.At, search.Solve(told.At));
            if (own.Bounds[target] is not null) { return own; }
            if (++solves == MostSolves) { break; }
        }

        return null;
    }

    private static double Nearness(ChoiceTarget target, ChoiceValue value) => -Math.Pow(target.Off(value.Value) / Math.Max(value.Spread, 1e-3), 2);

    private int Step => (int)Math.Ceiling(Math.Sqrt(Math.Max(1, (double)search.Space.Count / MostBoards)));

    private IEnumerable<Candidate> Coarse()
    {
        // A plate of each shape, so that others of the shape can be told from it.
        if (search.Wish.Targets.Any(t => t.NeedsPlate))
        {
            foreach (IGrouping<int, (ChoiceVariant V, int I)> shape in search.Wish.Variants.Select((v, i) => (V: v, I: i)).GroupBy(v => v.V.Shape))
            {
                (ChoiceVariant v, int i) = shape.First();
                var middle = new Candidate(i, v.Outer.Count / 2, v.Inner.Count / 2);
                if (search.Values(middle) is null) { search.Solve(middle); }
            }
        }

        for (int v = 0; v < search.Wish.Variants.Count; v++)
        {
            foreach (int o in Every(search.Wish.Variants[v].Outer.Count))
            {
                foreach (int i in Every(search.Wish.Variants[v].Inner.Count)) { yield return new(v, o, i); }
            }
        }

        IEnumerable<int> Every(int count) => Enumerable.Range(0, count).Where(n => n % Step == 0 || n == count - 1);
    }

    private IEnumerable<Candidate> Around(Candidate at)
    {
        ChoiceVariant v = search.Wish.Variants[at.Variant];
        for (int o = Math.Max(0, at.Outer - Step); o <= Math.Min(v.Outer.Count - 1, at.Outer + Step); o++)
        {
            for (int i = Math.Max(0, at.Inner - Step); i <= Math.Min(v.Inner.Count - 1, at.Inner + Step); i++) { yield return new(at.Variant, o, i); }
        }
    }

    private List<Looked> LookAt(IEnumerable<Candidate> candidates)
    {
        Candidate[] some = [.. candidates];
        var found = new Looked?[some.Length];
        int done = 0;
        Parallel.For(0, some.Length, i =>
        {
            if (search.Values(some[i]) is var (values, _)) { found[i] = At(some[i], values); }
            int now = Interlocked.Increment(ref done);
            if (now % 100 == 0) { search.Tell("what stands in the way", (double)now / some.Length); }
        });
        return [.. found.OfType<Looked>()];
    }

    private Looked At(Candidate at, ChoiceValue[] values) => new(at, values, search.Chance(values), [.. search.Wish.Targets.Select((_, t) => Bound(values, t))]);

    private Looked? Best(List<Looked> all, int target) => all.Where(l => l.Bounds[target] is not null).MinBy(l => Loosened(target, l.Bounds[target]!.Value));

    // How far a bound was moved, in the scale of the figure.
    private double Loosened(int target, double bound)
    {
        ChoiceTarget t = search.Wish.Targets[target];
        return t.Aim is { } aim ? Math.Abs(bound - t.Scaled(aim)) : Math.Max(t.Low - bound, Math.Max(0, bound - t.High));
    }

    private bool IsLeast(int target, double bound) => bound < search.Wish.Targets[target].Low || (search.Wish.Targets[target].Aim is { } aim && bound < search.Wish.Targets[target].Scaled(aim));

    // The bound of one target with which a board meets all; an aim gives way to where the board is.
    private double? Bound(ChoiceValue[] values, int target)
    {
        ChoiceTarget t = search.Wish.Targets[target];
        if (!search.Wish.Targets.Where((other, i) => i != target && other.Aim is not null && other.Off(values[i].Value) > 0).Any())
        {
            if (t.Aim is not null) { return Chance(t with { Aim = null, Least = null, Most = null }) >= search.Wish.Sure ? values[target].Value : null; }
            bool least = t.Least is not null && (t.Most is null || values[target].Value < (t.Low + t.High) / 2);
            double spread = Math.Max(values[target].Spread, 1e-9), near = values[target].Value, far = near + (least ? -8 : 8) * spread;
            if (Chance(Moved(far)) < search.Wish.Sure) { return null; }
            // The joint chance falls as the bound comes nearer.
            for (int i = 0; i < 40; i++)
            {
                double middle = (near + far) / 2;
                (near, far) = Chance(Moved(middle)) >= search.Wish.Sure ? (near, middle) : (middle, far);
            }

            return far;

            ChoiceTarget Moved(double bound) => least ? t with { Least = t.Figured(bound) } : t with { Most = t.Figured(bound) };
        }

        return null;

        double Chance(ChoiceTarget changed) => search.ChanceWith(target, changed, values);
    }
}
