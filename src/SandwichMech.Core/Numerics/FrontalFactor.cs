using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace SandwichMech.Core.Numerics;

/// <summary>LDLᵀ of a finite-element matrix by fronts, with its inertia, and solutions for several right sides at a time.</summary>
internal sealed class FrontalFactor
{
    /// <summary>Right sides are solved in groups of this size: one vector register, so that each entry of the factor is read once for all.</summary>
    internal const int Together = 8;

    // Pivots that are taken together in a solution: what they act on is then loaded and stored once for four.
    private const int Group = 4;

    private readonly FrontalTree _tree;
    // Of each front: rows of Lᵀ without the diagonal, k × n, and the pivots' inverses.
    private readonly double[][] _rows;
    private readonly double[][] _inverses;

    private FrontalFactor(FrontalTree tree, double[][] rows, double[][] inverses, int negative) =>
        (_tree, _rows, _inverses, NegativePivots) = (tree, rows, inverses, negative);

    /// <summary>Number of negative pivots: how many eigenvalues lie below the shift (Sylvester's law of inertia).</summary>
    internal int NegativePivots { get; }

    /// <summary>Factorises.</summary>
    /// <param name="tree">The order of elimination.</param>
    /// <param name="elements">Unknowns of each element as given to the tree.</param>
    /// <param name="matrix">Writes an element's matrix, lower triangle or whole, row by row in the order of its unknowns, held ones included.</param>
    /// <param name="keep">Whether it is to be solved with; otherwise only the pivots are counted.</param>
    /// <returns>The factor, or nothing where a pivot vanishes: the shift is an eigenvalue.</returns>
    internal static FrontalFactor? Of(FrontalTree tree, int[][] elements, Action<int, double[]> matrix, bool keep = true)
    {
        double[] element = new double[elements.Max(e => e.Length * e.Length)];
        int[] local = new int[tree.Unknowns];
        double[][] rows = new double[tree.Fronts.Length][], inverses = new double[tree.Fronts.Length][];
        double[]?[] updates = new double[tree.Fronts.Length][];
        var spare = new Spare();
        int negative = 0;
        for (int f = 0; f < tree.Fronts.Length; f++)
        {
            FrontalTree.Front front = tree.Fronts[f];
            int n = front.Unknowns.Length, stride = DenseFront.Stride(n);
            double[] a = updates[f] = spare.Take(n * stride);
            if (front.Element >= 0)
            {
                for (int i = 0; i < n; i++) { local[front.Unknowns[i]] = i; }
                matrix(front.Element, element);
                Add(elements[front.Element], element, local, a, stride);
            }
            else
            {
                Add(updates, front.Left, front.FromLeft, a, stride, spare, tree);
                Add(updates, front.Right, front.FromRight, a, stride, spare, tree);
            }

            int below = DenseFront.Eliminate(a.AsSpan(0, n * stride), n, stride, front.Eliminated);
            if (below < 0) { return null; }
            negative += below;
            if (keep) { (rows[f], inverses[f]) = Kept(a, n, stride, front.Eliminated); }
        }

        return new(tree, rows, inverses, negative);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static (double[] Rows, double[] Inverses) Kept(double[] a, int n, int stride, int k)
    {
        // Below the diagonal nothing is ever read.
        double[] rows = GC.AllocateUninitializedArray<double>(k * n), inverses = new double[k];
        for (int p = 0; p < k; p++)
        {
            double inverse = inverses[p] = 1 / a[p * stride + p];
            ReadOnlySpan<double> from = a.AsSpan(p * stride + p + 1, n - p - 1);
            Span<double> to = rows.AsSpan(p * n + p + 1, n - p - 1);
            for (int i = 0; i < to.Length; i++) { to[i] = from[i] * inverse; }
        }

        return (rows, inverses);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Add(int[] dofs, double[] element, int[] local, double[] a, int stride)
    {
        for (int i = 0; i < dofs.Length; i++)
        {
            if (dofs[i] < 0) { continue; }
            int li = local[dofs[i]], row = i * dofs.Length;
            for (int j = 0; j <= i; j++)
            {
                if (dofs[j] < 0) { continue; }
                int lj = local[dofs[j]];
                a[li <= lj ? li * stride + lj : lj * stride + li] += element[row + j];
            }
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Add(double[]?[] updates, int child, int[] map, double[] a, int stride, Spare spare, FrontalTree tree)
    {
        double[] u = updates[child]!;
        int from = tree.Fronts[child].Eliminated, childStride = DenseFront.Stride(tree.Fronts[child].Unknowns.Length);
        for (int i = 0; i < map.Length; i++)
        {
            ReadOnlySpan<double> source = u.AsSpan((from + i) * childStride + from, map.Length);
            Span<double> target = a.AsSpan(map[i] * stride, stride);
            for (int j = i; j < source.Length; j++) { target[map[j]] += source[j]; }
        }

        spare.Give(u);
        updates[child] = null;
    }

    /// <summary>Solutions for right sides, each on its own.</summary>
    /// <param name="right">Right sides.</param>
    /// <returns>One solution each.</returns>
    internal double[][] Solve(IReadOnlyList<double[]> right)
    {
        if (right.Count == 0) { return []; }
        double[][] panels = Panel.Of(right);
        foreach (double[] panel in panels) { Solve(panel); }
        return [.. Enumerable.Range(0, right.Count).Select(i => Panel.Vector(panels, i))];
    }

    /// <summary>Solves in place for several right sides, interleaved: x[width · unknown + right side].</summary>
    /// <param name="x">Right sides, then solutions.</param>
    /// <param name="width">How many, a multiple of eight.</param>
    internal void Solve(double[] x, int width = Together)
    {
        double[] gathered = new double[_tree.Fronts.Max(f => f.Unknowns.Length) * width];
        for (int f = 0; f < _rows.Length; f++)
        {
            FrontalTree.Front front = _tree.Fronts[f];
            if (front.Eliminated == 0) { continue; }
            Gather(x, front.Unknowns, front.Unknowns.Length, gathered, width);
            for (int v = 0; v < width; v += Together) { Forward(_rows[f], front.Unknowns.Length, front.Eliminated, gathered, width, v); }
            Scatter(x, front.Unknowns, front.Unknowns.Length, gathered, width);
        }

        for (int f = _rows.Length - 1; f >= 0; f--)
        {
            FrontalTree.Front front = _tree.Fronts[f];
            if (front.Eliminated == 0) { continue; }
            Gather(x, front.Unknowns, front.Unknowns.Length, gathered, width);
            for (int v = 0; v < width; v += Together) { Backward(_rows[f], _inverses[f], front.Unknowns.Length, front.Eliminated, gathered, width, v); }
            Scatter(x, front.Unknowns, front.Eliminated, gathered, width);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Gather(double[] x, int[] unknowns, int count, double[] gathered, int width)
    {
        for (int i = 0; i < count; i++) { x.AsSpan(unknowns[i] * width, width).CopyTo(gathered.AsSpan(i * width)); }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Scatter(double[] x, int[] unknowns, int count, double[] gathered, int width)
    {
        for (int i = 0; i < count; i++) { gathered.AsSpan(i * width, width).CopyTo(x.AsSpan(unknowns[i] * width)); }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Forward(double[] rows, int n, int k, double[] gathered, int width, int v)
    {
        ref double l = ref MemoryMarshal.GetArrayDataReference(rows);
        ref double g = ref Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(gathered), v);
        int p = 0;
        for (; p + Group <= k; p += Group)
        {
            ref double l0 = ref Unsafe.Add(ref l, p * n), l1 = ref Unsafe.Add(ref l0, n), l2 = ref Unsafe.Add(ref l1, n), l3 = ref Unsafe.Add(ref l2, n);
            Vector512<double> x0 = At(ref g, p, width);
            Vector512<double> x1 = At(ref g, p + 1, width) - Times(ref l0, p + 1, x0);
            Vector512<double> x2 = At(ref g, p + 2, width) - Times(ref l0, p + 2, x0) - Times(ref l1, p + 2, x1);
            Vector512<double> x3 = At(ref g, p + 3, width) - Times(ref l0, p + 3, x0) - Times(ref l1, p + 3, x1) - Times(ref l2, p + 3, x2);
            Put(ref g, p + 1, width, x1);
            Put(ref g, p + 2, width, x2);
            Put(ref g, p + 3, width, x3);
            for (int i = p + Group; i < n; i++)
            {
                Vector512<double> s = Times(ref l0, i, x0), t = Times(ref l1, i, x1);
                s = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref l2, i)), x2, s);
                t = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref l3, i)), x3, t);
                Put(ref g, i, width, At(ref g, i, width) - (s + t));
            }
        }

        for (; p < k; p++)
        {
            ref double l0 = ref Unsafe.Add(ref l, p * n);
            Vector512<double> x0 = At(ref g, p, width);
            for (int i = p + 1; i < n; i++) { Put(ref g, i, width, At(ref g, i, width) - Times(ref l0, i, x0)); }
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Backward(double[] rows, double[] inverses, int n, int k, double[] gathered, int width, int v)
    {
        ref double l = ref MemoryMarshal.GetArrayDataReference(rows);
        ref double g = ref Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(gathered), v);
        for (int i = 0; i < k; i++) { Put(ref g, i, width, At(ref g, i, width) * inverses[i]); }
        int p = k;
        for (; p % Group != 0; p--)
        {
            ref double l0 = ref Unsafe.Add(ref l, (p - 1) * n);
            Vector512<double> s = default;
            for (int i = p; i < n; i++) { s += Times(ref l0, i, At(ref g, i, width)); }
            Put(ref g, p - 1, width, At(ref g, p - 1, width) - s);
        }

        for (p -= Group; p >= 0; p -= Group)
        {
            ref double l0 = ref Unsafe.Add(ref l, p * n), l1 = ref Unsafe.Add(ref l0, n), l2 = ref Unsafe.Add(ref l1, n), l3 = ref Unsafe.Add(ref l2, n);
            Vector512<double> s0 = default, s1 = default, s2 = default, s3 = default;
            for (int i = p + Group; i < n; i++)
            {
                Vector512<double> gi = At(ref g, i, width);
                s0 = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref l0, i)), gi, s0);
                s1 = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref l1, i)), gi, s1);
                s2 = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref l2, i)), gi, s2);
                s3 = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref l3, i)), gi, s3);
            }

            Vector512<double> x3 = At(ref g, p + 3, width) - s3;
            Vector512<double> x2 = At(ref g, p + 2, width) - s2 - Times(ref l2, p + 3, x3);
            Vector512<double> x1 = At(ref g, p + 1, width) - s1 - Times(ref l1, p + 2, x2) - Times(ref l1, p + 3, x3);
            Vector512<double> x0 = At(ref g, p, width) - s0 - Times(ref l0, p + 1, x1) - Times(ref l0, p + 2, x2) - Times(ref l0, p + 3, x3);
            Put(ref g, p, width, x0);
            Put(ref g, p + 1, width, x1);
            Put(ref g, p + 2, width, x2);
            Put(ref g, p + 3, width, x3);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> At(ref double g, int i, int width) => Vector512.LoadUnsafe(ref g, (nuint)(i * width));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Put(ref double g, int i, int width, Vector512<double> value) => value.StoreUnsafe(ref g, (nuint)(i * width));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> Times(ref double l, int i, Vector512<double> x) => Vector512.Create(Unsafe.Add(ref l, i)) * x;

    // Cleared memory that fronts leave for later ones.
    private sealed class Spare
    {
        private readonly List<double[]> _free = [];

        internal double[] Take(int size)
        {
            // The smallest that is large enough; fronts of one level are alike.
            int best = -1;
            for (int i = 0; i < _free.Count; i++)
            {
                if (_free[i].Length >= size && (best < 0 || _free[i].Length < _free[best].Length)) { best = i; }
            }

            if (best < 0) { return new double[size]; }
            double[] taken = _free[best];
            _free.RemoveAt(best);
            Array.Clear(taken, 0, size);
            return taken;
        }

        internal void Give(double[] used) => _free.Add(used);
    }
}
