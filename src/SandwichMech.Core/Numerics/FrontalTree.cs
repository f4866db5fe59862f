namespace SandwichMech.Core.Numerics;

/// <summary>The order of elimination of a finite-element matrix: nested dissection by halving the elements in space.</summary>
/// <remarks>
/// The elements are halved again and again across x, y or a diagonal, whichever leaves the fewest unknowns between the halves (recursive coordinate
/// bisection); an unknown is eliminated at
/// the lowest node of that tree below which all its elements lie. Leaves eliminate the element's own interior, the
/// root the longest separator: the multifrontal method (Duff &amp; Reid 1983) with George's nested dissection (1973), for
/// a mesh with at most a few thousand elements.
/// </remarks>
internal sealed class FrontalTree
{
    /// <summary>
    /// One front: its children, its element (a leaf) or −1, its unknowns in the order of their elimination, how many of them go here, and where
    /// the children's remaining unknowns stand among its own, rising.
    /// </summary>
    internal sealed record Front(int Left, int Right, int Element, int[] Unknowns, int Eliminated, int[] FromLeft, int[] FromRight);

    private FrontalTree(Front[] fronts, int unknowns) => (Fronts, Unknowns) = (fronts, unknowns);

    /// <summary>Fronts, children before parents.</summary>
    internal Front[] Fronts { get; }
    /// <summary>Number of unknowns.</summary>
    internal int Unknowns { get; }
    /// <summary>Entries of the factor, for reports.</summary>
    internal long Entries => Fronts.Sum(f => (long)f.Eliminated * f.Unknowns.Length);

    /// <summary>Orders the elimination.</summary>
    /// <param name="elements">Unknowns of each element; a negative one is held and left out.</param>
    /// <param name="centres">Centre of each element.</param>
    /// <param name="unknowns">Number of unknowns.</param>
    internal static FrontalTree Of(int[][] elements, (double X, double Y)[] centres, int unknowns)
    {
        var halving = new Halving(elements, centres, unknowns);
        (int[] order, List<Span> spans) = (halving.Order, halving.Spans);
        int root = spans.Count - 1;

        int[] first = new int[unknowns], last = new int[unknowns];
        Array.Fill(first, int.MaxValue);
        for (int i = 0; i < order.Length; i++)
        {
            foreach (int dof in elements[order[i]])
            {
                if (dof < 0) { continue; }
                first[dof] = Math.Min(first[dof], i);
                last[dof] = i;
            }
        }

        // The step at which each unknown goes: by the number of its front.
        int[] home = new int[unknowns], own = new int[spans.Count + 1];
        for (int dof = 0; dof < unknowns; dof++)
        {
            int node = root;
            while (spans[node].Left >= 0)
            {
                Span at = spans[node];
                if (last[dof] < spans[at.Left].To) { node = at.Left; }
                else if (first[dof] >= spans[at.Right].From) { node = at.Right; }
                else { break; }
            }

            home[dof] = node;
            own[node + 1]++;
        }

        int[] start = [.. own];
        for (int node = 0; node < spans.Count; node++) { start[node + 1] += start[node]; }
        int[] next = [.. start], step = new int[unknowns], unknownAt = new int[unknowns];
        for (int dof = 0; dof < unknowns; dof++)
        {
            step[dof] = next[home[dof]]++;
            unknownAt[step[dof]] = dof;
        }

        var fronts = new Front[spans.Count];
        int[][] steps = new int[spans.Count][];
        int[] local = new int[unknowns];
        for (int node = 0; node < spans.Count; node++)
        {
            Span at = spans[node];
            bool isLeaf = at.Left < 0;
            int[] here = isLeaf
                ? Leaf(elements[order[at.From]], step)
                : Union(steps[at.Left], fronts[at.Left].Eliminated, steps[at.Right], fronts[at.Right].Eliminated);
            int[] names = new int[here.Length];
            for (int i = 0; i < here.Length; i++)
            {
                names[i] = unknownAt[here[i]];
                local[here[i]] = i;
            }

            steps[node] = here;
            fronts[node] = new(at.Left, at.Right, isLeaf ? order[at.From] : -1, names, own[node + 1],
                isLeaf ? [] : Map(steps[at.Left], fronts[at.Left].Eliminated, local), isLeaf ? [] : Map(steps[at.Right], fronts[at.Right].Eliminated, local));
        }

        return new(fronts, unknowns);
    }

    private sealed record Span(int From, int To, int Left, int Right);

    private static int[] Leaf(int[] dofs, int[] step)
    {
        int[] here = new int[dofs.Length];
        int count = 0;
        foreach (int dof in dofs)
        {
            if (dof >= 0) { here[count++] = step[dof]; }
        }

        Array.Resize(ref here, count);
        Array.Sort(here);
        return here;
    }

    // Both rise.
    private static int[] Union(int[] a, int fromA, int[] b, int fromB)
    {
        int[] all = new int[a.Length - fromA + b.Length - fromB];
        int i = fromA, j = fromB, count = 0;
        while (i < a.Length || j < b.Length)
        {
            int next = i == a.Length || (j < b.Length && b[j] < a[i]) ? b[j] : a[i];
            if (i < a.Length && a[i] == next) { i++; }
            if (j < b.Length && b[j] == next) { j++; }
            all[count++] = next;
        }

        Array.Resize(ref all, count);
        return all;
    }

    private static int[] Map(int[] child, int from, int[] local)
    {
        int[] map = new int[child.Length - from];
        for (int i = 0; i < map.Length; i++) { map[i] = local[child[from + i]]; }
        return map;
    }

    private sealed class Halving
    {
        // Fewer elements than this are halved along their longer extent.
        private const int Few = 6;

        private readonly int[][] _elements;
        // Along x, y and the diagonals.
        private readonly double[][] _along;
        private readonly int[] _seen;
        private int _stamp;

        internal Halving(int[][] elements, (double X, double Y)[] centres, int unknowns)
        {
            _elements = elements;
            _along = [[.. centres.Select(c => c.X)], [.. centres.Select(c => c.Y)], [.. centres.Select(c => c.X + c.Y)], [.. centres.Select(c => c.X - c.Y)]];
            _seen = new int[unknowns];
            Order = [.. Enumerable.Range(0, elements.Length)];
            Halve(0, Order.Length);
        }

        internal int[] Order { get; }
        internal List<Span> Spans { get; } = [];

        private int Halve(int from, int to)
        {
            if (to - from == 1)
            {
                Spans.Add(new(from, to, -1, -1));
                return Spans.Count - 1;
            }

            int middle = (from + to) / 2;
            int[][] sorted = [.. (to - from < Few ? [Longer(from, to)] : _along).Select(along => Sorted(along, from, to))];
            int[] best = sorted.Length == 1 ? sorted[0] : sorted.MinBy(o => Between(o, middle - from))!;
            best.CopyTo(Order, from);
            int left = Halve(from, middle), right = Halve(middle, to);
            Spans.Add(new(from, to, left, right));
            return Spans.Count - 1;
        }

        private double[] Longer(int from, int to)
        {
            double minX = double.MaxValue, maxX = double.MinValue, minY = double.MaxValue, maxY = double.MinValue;
            for (int i = from; i < to; i++)
            {
                (double x, double y) = (_along[0][Order[i]], _along[1][Order[i]]);
                (minX, maxX, minY, maxY) = (Math.Min(minX, x), Math.Max(maxX, x), Math.Min(minY, y), Math.Max(maxY, y));
            }

            return _along[maxX - minX >= maxY - minY ? 0 : 1];
        }

        // Equal places by number, so that the order is the same everywhere.
        private int[] Sorted(double[] along, int from, int to)
        {
            int[] part = Order[from..to];
            Array.Sort(part);
            double[] keys = [.. part.Select(e => along[e])];
            int[] places = [.. Enumerable.Range(0, part.Length)];
            Array.Sort(places, (a, b) => keys[a].CompareTo(keys[b]) is var by && by != 0 ? by : a.CompareTo(b));
            return [.. places.Select(i => part[i])];
        }

        // Unknowns that both halves hold.
        private int Between(int[] part, int middle)
        {
            int left = ++_stamp, both = ++_stamp, count = 0;
            for (int i = 0; i < part.Length; i++)
            {
                foreach (int dof in _elements[part[i]])
                {
                    if (dof < 0) { continue; }
                    if (i < middle) { _seen[dof] = left; }
                    else if (_seen[dof] == left)
                    {
                        _seen[dof] = both;
                        count++;
                    }
                }
            }

            return count;
        }
    }
}
