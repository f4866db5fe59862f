namespace SandwichMech.Core.Numerics;

/// <summary>The order of elimination of a finite-element matrix: nested dissection by halving the elements in space.</summary>
/// <remarks>
/// The elements are halved along their longer extent again and again (recursive coordinate bisection); an unknown is eliminated at
/// the lowest node of that tree below which all its elements lie. Leaves eliminate the element's own interior, the
/// root the longest separator: the multifrontal method (Duff &amp; Reid 1983) with George's nested dissection (1973), for
/// a mesh with at most a few thousand elements.
/// </remarks>
internal sealed class FrontalTree
{
    /// <summary>One front: its children, its element (a leaf) or −1, its unknowns, those eliminated here first.</summary>
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
        int[] order = [.. Enumerable.Range(0, elements.Length)];
        var spans = new List<(int From, int To, int Left, int Right)>();
        int root = Halve(order, centres, 0, order.Length, spans);

        int[] first = new int[unknowns], last = new int[unknowns];
        Array.Fill(first, int.MaxValue);
        Array.Fill(last, -1);
        for (int i = 0; i < order.Length; i++)
        {
            foreach (int dof in elements[order[i]])
            {
                if (dof >= 0)
                {
                    first[dof] = Math.Min(first[dof], i);
                    last[dof] = i;
                }
            }
        }

        var eliminatedAt = new List<int>[spans.Count];
        for (int dof = 0; dof < unknowns; dof++)
        {
            int node = root;
            while (spans[node].Left >= 0)
            {
                (int from, int to, int left, int right) = spans[node];
                if (last[dof] < spans[left].To) { node = left; }
                else if (first[dof] >= spans[right].From) { node = right; }
                else { break; }
            }

            (eliminatedAt[node] ??= []).Add(dof);
        }

        var fronts = new Front[spans.Count];
        int[] local = new int[unknowns];
        for (int node = 0; node < spans.Count; node++)
        {
            (int from, _, int left, int right) = spans[node];
            List<int> own = eliminatedAt[node] ?? [];
            IEnumerable<int> all = left < 0
                ? elements[order[from]].Where(d => d >= 0)
                : fronts[left].Unknowns.Skip(fronts[left].Eliminated).Concat(fronts[right].Unknowns.Skip(fronts[right].Eliminated));
            int[] list = new int[own.Count];
            own.CopyTo(list);
            var mark = new HashSet<int>(own);
            int[] unknownsHere = [.. list, .. all.Where(mark.Add)];
            for (int i = 0; i < unknownsHere.Length; i++) { local[unknownsHere[i]] = i; }
            fronts[node] = new(left, right, left < 0 ? order[from] : -1, unknownsHere, own.Count,
                left < 0 ? [] : Map(fronts[left], local), left < 0 ? [] : Map(fronts[right], local));
        }

        return new(fronts, unknowns);

        static int[] Map(Front child, int[] local) => [.. child.Unknowns.Skip(child.Eliminated).Select(d => local[d])];
    }

    private static int Halve(int[] order, (double X, double Y)[] centres, int from, int to, List<(int, int, int, int)> spans)
    {
        if (to - from == 1)
        {
            spans.Add((from, to, -1, -1));
            return spans.Count - 1;
        }

        double minX = double.MaxValue, maxX = double.MinValue, minY = double.MaxValue, maxY = double.MinValue;
        for (int i = from; i < to; i++)
        {
            (double x, double y) = centres[order[i]];
            (minX, maxX, minY, maxY) = (Math.Min(minX, x), Math.Max(maxX, x), Math.Min(minY, y), Math.Max(maxY, y));
        }

        bool alongX = maxX - minX >= maxY - minY;
        Array.Sort(order, from, to - from, Comparer<int>.Create((a, b) =>
        {
            int by = alongX ? centres[a].X.CompareTo(centres[b].X) : centres[a].Y.CompareTo(centres[b].Y);
            return by != 0 ? by : a.CompareTo(b);
        }));
        int middle = (from + to) / 2;
        int left = Halve(order, centres, from, middle, spans), right = Halve(order, centres, middle, to, spans);
        spans.Add((from, to, left, right));
        return spans.Count - 1;
    }
}
