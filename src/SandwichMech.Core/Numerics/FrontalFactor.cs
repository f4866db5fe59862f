using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace SandwichMech.Core.Numerics;

/// <summary>LDLᵀ of a finite-element matrix by fronts, with its inertia, and solutions for four right sides at a time.</summary>
internal sealed class FrontalFactor
{
    /// <summary>Right sides that are solved together: one vector register, so that each entry of the factor is read once for four.</summary>
    internal const int Together = 4;

    private readonly FrontalTree _tree;
    private readonly double[][] _panels;

    private FrontalFactor(FrontalTree tree, double[][] panels, int negative) => (_tree, _panels, NegativePivots) = (tree, panels, negative);

    /// <summary>Number of negative pivots: how many eigenvalues lie below the shift (Sylvester's law of inertia).</summary>
    internal int NegativePivots { get; }

    /// <summary>Factorises.</summary>
    /// <param name="tree">The order of elimination.</param>
    /// <param name="elements">Unknowns of each element as given to the tree.</param>
    /// <param name="matrix">Writes an element's matrix, lower triangle or whole, row by row in the order of its unknowns, held ones included.</param>
    /// <returns>The factor, or nothing where a pivot vanishes: the shift is an eigenvalue.</returns>
    internal static FrontalFactor? Of(FrontalTree tree, int[][] elements, Action<int, double[]> matrix)
    {
        int largest = tree.Fronts.Max(f => f.Unknowns.Length);
        double[] work = new double[2 * (largest + 4) * 36];
        double[] element = new double[elements.Max(e => e.Length * e.Length)];
        int[] local = new int[tree.Unknowns];
        double[][] panels = new double[tree.Fronts.Length][];
        double[]?[] updates = new double[tree.Fronts.Length][];
        var spare = new Stack<double[]>();
        int negative = 0;
        for (int f = 0; f < tree.Fronts.Length; f++)
        {
            FrontalTree.Front front = tree.Fronts[f];
            int n = front.Unknowns.Length, k = front.Eliminated;
            if (!spare.TryPop(out double[]? a))
            {
                a = new double[largest * largest];
            }

            Array.Clear(a, 0, n * n);
            if (front.Element >= 0)
            {
                for (int i = 0; i < n; i++) { local[front.Unknowns[i]] = i; }
                int[] dofs = elements[front.Element];
                matrix(front.Element, element);
                for (int i = 0; i < dofs.Length; i++)
                {
                    if (dofs[i] < 0) { continue; }
                    int li = local[dofs[i]];
                    for (int j = 0; j <= i; j++)
                    {
                        if (dofs[j] < 0) { continue; }
                        int lj = local[dofs[j]];
                        a[li >= lj ? li * n + lj : lj * n + li] += element[i * dofs.Length + j];
                    }
                }
            }
            else
            {
                Add(updates, front.Left, front.FromLeft, a, n, spare, tree);
                Add(updates, front.Right, front.FromRight, a, n, spare, tree);
            }

            int below = DenseFront.Eliminate(a, n, n, k, work);
            if (below < 0)
            {
                return null;
            }

            negative += below;
            double[] panel = new double[n * k];
            for (int i = 0; i < n; i++)
            {
                Array.Copy(a, i * n, panel, i * k, Math.Min(k, i < k ? i + 1 : k));
            }

            panels[f] = panel;
            updates[f] = a;
        }

        return new(tree, panels, negative);
    }

    private static void Add(double[]?[] updates, int child, int[] map, double[] a, int n, Stack<double[]> spare, FrontalTree tree)
    {
        double[] u = updates[child]!;
        int cn = tree.Fronts[child].Unknowns.Length, ck = tree.Fronts[child].Eliminated;
        for (int i = 0; i < map.Length; i++)
        {
            int li = map[i], row = (ck + i) * cn + ck;
            for (int j = 0; j <= i; j++)
            {
                int lj = map[j];
                a[li >= lj ? li * n + lj : lj * n + li] += u[row + j];
            }
        }

        spare.Push(u);
        updates[child] = null;
    }

    /// <summary>Solves in place for four right sides, interleaved: x[4·unknown + right side].</summary>
    internal void Solve(double[] x)
    {
        double[] gathered = new double[_tree.Fronts.Max(f => f.Unknowns.Length) * Together];
        for (int f = 0; f < _panels.Length; f++)
        {
            FrontalTree.Front front = _tree.Fronts[f];
            int k = front.Eliminated, n = front.Unknowns.Length;
            if (k == 0) { continue; }
            double[] l = _panels[f];
            ref double g = ref MemoryMarshal.GetArrayDataReference(gathered);
            for (int i = 0; i < k; i++) { Load(x, front.Unknowns[i]).StoreUnsafe(ref g, (nuint)(i * Together)); }
            for (int i = 0; i < n; i++)
            {
                int m = Math.Min(i, k), row = i * k;
                Vector256<double> s0 = default, s1 = default;
                int p = 0;
                for (; p + 1 < m; p += 2)
                {
                    s0 = Vector256.FusedMultiplyAdd(Vector256.Create(l[row + p]), Vector256.LoadUnsafe(ref g, (nuint)(p * Together)), s0);
                    s1 = Vector256.FusedMultiplyAdd(Vector256.Create(l[row + p + 1]), Vector256.LoadUnsafe(ref g, (nuint)((p + 1) * Together)), s1);
                }

                if (p < m) { s0 = Vector256.FusedMultiplyAdd(Vector256.Create(l[row + p]), Vector256.LoadUnsafe(ref g, (nuint)(p * Together)), s0); }
                Vector256<double> value = Load(x, front.Unknowns[i]) - s0 - s1;
                if (i < k) { value.StoreUnsafe(ref g, (nuint)(i * Together)); }
                Store(x, front.Unknowns[i], value);
            }
        }

        for (int f = _panels.Length - 1; f >= 0; f--)
        {
            FrontalTree.Front front = _tree.Fronts[f];
            int k = front.Eliminated, n = front.Unknowns.Length;
            double[] l = _panels[f];
            ref double g = ref MemoryMarshal.GetArrayDataReference(gathered);
            for (int i = 0; i < k; i++)
            {
                (Load(x, front.Unknowns[i]) / l[i * k + i]).StoreUnsafe(ref g, (nuint)(i * Together));
            }

            for (int i = n - 1; i >= 1; i--)
            {
                int m = Math.Min(i, k), row = i * k;
                Vector256<double> value = i < k ? Vector256.LoadUnsafe(ref g, (nuint)(i * Together)) : Load(x, front.Unknowns[i]);
                for (int p = 0; p < m; p++)
                {
                    (Vector256.LoadUnsafe(ref g, (nuint)(p * Together)) - Vector256.Create(l[row + p]) * value).StoreUnsafe(ref g, (nuint)(p * Together));
                }
            }

            for (int i = 0; i < k; i++) { Store(x, front.Unknowns[i], Vector256.LoadUnsafe(ref g, (nuint)(i * Together))); }
        }
    }

    private static Vector256<double> Load(double[] x, int i) => Vector256.LoadUnsafe(ref MemoryMarshal.GetArrayDataReference(x), (nuint)(i * Together));

    private static void Store(double[] x, int i, Vector256<double> v) => v.StoreUnsafe(ref MemoryMarshal.GetArrayDataReference(x), (nuint)(i * Together));
}
