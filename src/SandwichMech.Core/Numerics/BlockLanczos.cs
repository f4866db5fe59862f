using MathNet.Numerics.LinearAlgebra;
using Lanes = System.Numerics.Vector<double>;
using Vector = System.Numerics.Vector;

namespace SandwichMech.Core.Numerics;

/// <summary>The lowest eigenpairs of K x = λ M x by shift-inverted block Lanczos with full reorthogonalisation (Grimes, Lewis &amp; Simon 1994).</summary>
/// <remarks>
/// The basis Q is M-orthonormal. Blocks wait in a queue; processing block j forms (K − σM)⁻¹ M q_j, keeps its products with the
/// basis, the column T of the projected operator, and queues what is left. Rows of T that belong to waiting blocks are
/// the residuals. An eigenvalue that is repeated more often than the block is wide may hide; the caller counts
/// (Sylvester) and, where one is missing, a fresh random block joins the queue.
/// </remarks>
internal static class BlockLanczos
{
    private const int Block = FrontalFactor.Together;
    private const int MostFreshBlocks = 8;

    // A fresh block needs some steps before what it brings stands out among what was there.
    private const int BlocksToSettle = 4;

    /// <summary>What was found.</summary>
    /// <param name="Values">Lowest values, rising.</param>
    /// <param name="Vectors">Their vectors, M-orthonormal.</param>
    /// <param name="Solves">Solutions with four right sides each.</param>
    internal sealed record Pairs(double[] Values, double[][] Vectors, int Solves);

    /// <summary>The lowest pairs.</summary>
    /// <param name="n">Order of the matrices.</param>
    /// <param name="wanted">Pairs wanted; the shift lies below all of them.</param>
    /// <param name="shift">σ.</param>
    /// <param name="factor">Factor of K − σM.</param>
    /// <param name="mass">y = M x.</param>
    /// <param name="tolerance">Relative residual of the inverted values; the error of the values is its square over a relative gap.</param>
    /// <param name="most">Longest basis.</param>
    /// <param name="isComplete">Whether the values found are all there are below the last.</param>
    /// <exception cref="InvalidOperationException">The basis is full before the pairs are settled and complete.</exception>
    internal static Pairs Lowest(
        int n, int wanted, double shift, FrontalFactor factor, Action<double[], double[]> mass, double tolerance, int most, Func<double[], bool>? isComplete = null)
    {
        var basis = new List<double[]>();
        var massed = new List<double[]>();
        var random = new Xorshift(0x9E3779B97F4A7C15);
        int room = Math.Min(most, n);
        double[,] t = new double[room, room];
        Append(Fresh(n, random), 0, basis, massed, mass, room, (_, _, _) => { });
        double[] x = new double[n * Block];
        int processed = 0, solves = 0, fresh = 0, nextLook = wanted + Block;
        while (true)
        {
            int width = Math.Min(Block, basis.Count - processed);
            double[][] next = Solve(factor, massed, processed, width, x);
            solves++;
            int from = processed;
            Project(next, basis, massed, (j, r, h) => t[j, from + r] += h);
            Project(next, basis, massed, (j, r, h) => t[j, from + r] += h);
            processed += width;
            Append(next, basis.Count, basis, massed, mass, room, (row, r, h) => t[row, from + r] += h);

            bool last = processed == basis.Count;
            // The small eigenproblem is not free: it is looked at every other block.
            if (!last && (processed < nextLook || processed / Block % 2 != 0))
            {
                continue;
            }

            (double[] theta, Matrix<double> s) = Ritz(t, processed);
            bool settled = processed >= wanted && Settled(t, theta, s, processed, basis.Count, wanted, tolerance);
            if (settled || last)
            {
                if (processed < wanted || (!settled && basis.Count < n))
                {
                    throw new InvalidOperationException("The eigenvalue iteration did not settle.");
                }

                double[] values = [.. theta.Take(wanted).Select(v => shift + 1 / v)];
                if (isComplete is null || isComplete(values))
                {
                    return new(values, [.. Enumerable.Range(0, wanted).Select(i => Combine(basis, s, i, processed, n))], solves);
                }

                if (last || fresh++ == MostFreshBlocks)
                {
                    throw new InvalidOperationException("Some modes were missed and could not be found.");
                }

                nextLook = processed + BlocksToSettle * Block;
                Append(Fresh(n, random), 0, basis, massed, mass, room, (_, _, _) => { });
            }
        }
    }

    private static double[][] Solve(FrontalFactor factor, List<double[]> massed, int from, int width, double[] x)
    {
        int n = massed[0].Length;
        Array.Clear(x);
        for (int r = 0; r < width; r++)
        {
            double[] m = massed[from + r];
            for (int i = 0; i < n; i++)
            {
                x[i * Block + r] = m[i];
            }
        }

        factor.Solve(x);
        double[][] next = new double[width][];
        for (int r = 0; r < width; r++)
        {
            double[] v = next[r] = new double[n];
            for (int i = 0; i < n; i++)
            {
                v[i] = x[i * Block + r];
            }
        }

        return next;
    }

    // Eigenpairs of the projected operator over the processed columns, largest first: nearest the shift.
    private static (double[] Theta, Matrix<double> S) Ritz(double[,] t, int processed)
    {
        var evd = Matrix<double>.Build.Dense(processed, processed, (i, j) => t[Math.Min(i, j), Math.Max(i, j)]).Evd(Symmetricity.Symmetric);
        int[] order = [.. Enumerable.Range(0, processed).OrderByDescending(i => evd.EigenValues[i].Real)];
        var s = Matrix<double>.Build.Dense(processed, processed, (i, j) => evd.EigenVectors[i, order[j]]);
        return ([.. order.Select(i => evd.EigenValues[i].Real)], s);
    }

    private static bool Settled(double[,] t, double[] theta, Matrix<double> s, int processed, int all, int wanted, double tolerance)
    {
        for (int i = 0; i < wanted; i++)
        {
            double residual = 0;
            for (int row = processed; row < all; row++)
            {
                double sum = 0;
                for (int c = 0; c < processed; c++)
                {
                    sum += t[row, c] * s[c, i];
                }

                residual += sum * sum;
            }

            if (!(Math.Sqrt(residual) <= tolerance * Math.Abs(theta[i])))
            {
                return false;
            }
        }

        return true;
    }

    private static double[] Combine(List<double[]> basis, Matrix<double> s, int column, int processed, int n)
    {
        double[] v = new double[n];
        for (int j = 0; j < processed; j++)
        {
            Add(v, s[j, column], basis[j]);
        }

        return v;
    }

    private static double[][] Fresh(int n, Xorshift random) =>
        [.. Enumerable.Range(0, Block).Select(_ => Enumerable.Range(0, n).Select(_ => random.Next() - 0.5).ToArray())];

    // What is left of a block, orthonormalised, joins the basis and the queue; a vector that vanishes, or has no room, does not.
    private static void Append(
        double[][] block, int against, List<double[]> basis, List<double[]> massed, Action<double[], double[]> mass, int room, Action<int, int, double> report)
    {
        for (int r = 0; r < block.Length && basis.Count < room; r++)
        {
            double[] v = block[r], mv = new double[v.Length];
            mass(v, mv);
            double before = Math.Sqrt(Math.Max(0, Dot(v, mv)));
            for (int pass = 0; pass < 2; pass++)
            {
                Project([v], basis, massed, (j, _, h) => report(j, r, h), against);
            }

            mass(v, mv);
            double norm = Math.Sqrt(Math.Max(0, Dot(v, mv)));
            if (norm <= 1e-13 * before || norm == 0)
            {
                continue;
            }

            report(basis.Count, r, norm);
            Scale(v, 1 / norm);
            Scale(mv, 1 / norm);
            basis.Add(v);
            massed.Add(mv);
        }
    }

    // Classical Gram–Schmidt for a whole block: each basis vector is read once for all columns.
    private static void Project(double[][] block, List<double[]> basis, List<double[]> massed, Action<int, int, double> report, int against = 0)
    {
        int width = block.Length;
        double[] h = new double[basis.Count * width];
        for (int j = against; j < basis.Count; j++)
        {
            Dots(massed[j], block, h.AsSpan(j * width, width));
            for (int r = 0; r < width; r++)
            {
                report(j, r, h[j * width + r]);
            }
        }

        for (int j = against; j < basis.Count; j++)
        {
            for (int r = 0; r < width; r++)
            {
                Add(block[r], -h[j * width + r], basis[j]);
            }
        }
    }

    private static void Dots(double[] m, double[][] block, Span<double> h)
    {
        if (block.Length != Block)
        {
            for (int r = 0; r < block.Length; r++)
            {
                h[r] = Dot(m, block[r]);
            }

            return;
        }

        (double[] b0, double[] b1, double[] b2, double[] b3) = (block[0], block[1], block[2], block[3]);
        Lanes s0 = default, s1 = default, s2 = default, s3 = default;
        int i = 0, w = Lanes.Count;
        for (; i <= m.Length - w; i += w)
        {
            var x = new Lanes(m, i);
            s0 += x * new Lanes(b0, i);
            s1 += x * new Lanes(b1, i);
            s2 += x * new Lanes(b2, i);
            s3 += x * new Lanes(b3, i);
        }

        (h[0], h[1], h[2], h[3]) = (Vector.Sum(s0), Vector.Sum(s1), Vector.Sum(s2), Vector.Sum(s3));
        for (; i < m.Length; i++)
        {
            h[0] += m[i] * b0[i];
            h[1] += m[i] * b1[i];
            h[2] += m[i] * b2[i];
            h[3] += m[i] * b3[i];
        }
    }

    private static double Dot(double[] a, double[] b)
    {
        Lanes s0 = default, s1 = default;
        int i = 0, w = Lanes.Count;
        for (; i <= a.Length - 2 * w; i += 2 * w)
        {
            s0 += new Lanes(a, i) * new Lanes(b, i);
            s1 += new Lanes(a, i + w) * new Lanes(b, i + w);
        }

        double sum = Vector.Sum(s0 + s1);
        for (; i < a.Length; i++)
        {
            sum += a[i] * b[i];
        }

        return sum;
    }

    private static void Add(double[] a, double s, double[] b)
    {
        var vs = new Lanes(s);
        int i = 0, w = Lanes.Count;
        for (; i <= a.Length - w; i += w)
        {
            (new Lanes(a, i) + vs * new Lanes(b, i)).CopyTo(a, i);
        }

        for (; i < a.Length; i++)
        {
            a[i] += s * b[i];
        }
    }

    private static void Scale(double[] a, double s)
    {
        for (int i = 0; i < a.Length; i++)
        {
            a[i] *= s;
        }
    }
}
