using MathNet.Numerics.LinearAlgebra;
using SandwichMech.Core.Numerics;

namespace SandwichMech.Tests.Plates;

/// <summary>Random matrices in pieces, as a finite-element mesh gives them, and the same matrices whole.</summary>
internal static class SampleMatrix
{
    /// <summary>Overlapping elements in a row over the unknowns, some of their places held, and where they lie.</summary>
    internal sealed record Pieces(int Unknowns, int[][] Elements, (double X, double Y)[] Centres, double[][] Matrices)
    {
        /// <summary>The assembled matrix.</summary>
        internal Matrix<double> Whole()
        {
            Matrix<double> whole = Matrix<double>.Build.Dense(Unknowns, Unknowns);
            for (int e = 0; e < Elements.Length; e++)
            {
                int[] dofs = Elements[e];
                for (int i = 0; i < dofs.Length; i++)
                {
                    for (int j = 0; j < dofs.Length; j++)
                    {
                        if (dofs[i] >= 0 && dofs[j] >= 0)
                        {
                            whole[dofs[i], dofs[j]] += Matrices[e][Math.Max(i, j) * dofs.Length + Math.Min(i, j)];
                        }
                    }
                }
            }

            return whole;
        }

        internal FrontalTree Tree() => FrontalTree.Of(Elements, Centres, Unknowns);

        /// <summary>The factor of the matrix less a multiple of one: each unknown's share of the shift comes with its first element.</summary>
        internal FrontalFactor? Factor(double shift = 0)
        {
            int[] first = new int[Unknowns];
            Array.Fill(first, -1);
            for (int e = 0; e < Elements.Length; e++)
            {
                foreach (int dof in Elements[e].Where(dof => dof >= 0 && first[dof] < 0))
                {
                    first[dof] = e;
                }
            }

            return FrontalFactor.Of(Tree(), Elements, (e, k) =>
            {
                Matrices[e].CopyTo(k, 0);
                for (int i = 0; i < Elements[e].Length; i++)
                {
                    int dof = Elements[e][i];
                    k[i * Elements[e].Length + i] -= dof >= 0 && first[dof] == e ? shift : 0;
                }
            });
        }
    }

    /// <summary>
    /// Every element shares unknowns with others at random places; a tenth of the places is held. The upper triangles and
    /// the held rows are NaN: whoever reads them will be seen.
    /// </summary>
    internal static Pieces Random(int seed, int unknowns, int elements, bool definite)
    {
        var random = new Random(seed);
        var dofs = new int[elements][];
        for (int e = 0; e < elements; e++)
        {
            // Its own stretch, so that every unknown is met, and strangers.
            var mine = new SortedSet<int>(Enumerable.Range(0, unknowns).Where(d => d * elements / unknowns == e));
            for (int extra = 0; extra < 6; extra++)
            {
                mine.Add(random.Next(unknowns));
            }

            int[] order = [.. mine];
            random.Shuffle(order);
            dofs[e] = [.. order.SelectMany(d => random.Next(10) == 0 ? new[] { -1, d } : [d])];
        }

        double[][] matrices = [.. dofs.Select(d => Element(random, d, definite))];
        return new(unknowns, dofs, [.. dofs.Select(_ => (random.NextDouble(), random.NextDouble()))], matrices);
    }

    /// <summary>One dense matrix as one element.</summary>
    internal static Pieces Single(Matrix<double> a) =>
        new(a.RowCount, [[.. Enumerable.Range(0, a.RowCount)]], [(0, 0)], [a.ToRowMajorArray()]);

    /// <summary>Symmetric, entries evenly spread in ±1; positive definite on request.</summary>
    internal static Matrix<double> Symmetric(Random random, int n, bool definite)
    {
        Matrix<double> a = Matrix<double>.Build.Dense(n, n, (_, _) => 2 * random.NextDouble() - 1);
        return definite ? a * a.Transpose() + 0.1 * Matrix<double>.Build.DenseIdentity(n) : (a + a.Transpose()) / 2;
    }

    private static double[] Element(Random random, int[] dofs, bool definite)
    {
        int n = dofs.Length;
        Matrix<double> a = Symmetric(random, n, definite);
        return [.. Enumerable.Range(0, n * n).Select(at =>
            dofs[at / n] < 0 || dofs[at % n] < 0 || at % n > at / n ? double.NaN : a[at / n, at % n])];
    }
}
