using MathNet.Numerics.LinearAlgebra;

namespace SandwichMech.Core.Numerics;

/// <summary>The lowest eigenpairs of K x = λ M x by shift-inverted block Lanczos with full reorthogonalisation (Grimes, Lewis &amp; Simon 1994).</summary>
/// <remarks>
/// The basis Q is M-orthonormal, in blocks of eight. Blocks wait in a queue; processing block j forms (K − σM)⁻¹ M q_j, keeps its
/// products with the basis, the column T of the projected operator, and queues what is left. Rows of T that belong to waiting
/// blocks are the residuals. A vector of a block that vanishes stays in it as zero, which adds nothing but a value of 0 to T. An
/// eigenvalue that is repeated more often than the block is wide may hide; the caller counts (Sylvester) and, where one is
/// missing, a fresh random block joins the queue.
/// </remarks>
internal sealed class BlockLanczos
{
    private const int Block = Panel.Width;
    private const int MostFreshBlocks = 8;

    // A fresh block needs some steps before what it brings stands out among what was there.
    private const int BlocksToSettle = 4;

    // Vectors for each wanted one before which nothing has settled yet.
    private const double FirstLook = 2;

    // A vector of which orthogonalisation leaves less than this is dropped: far below what is asked of residuals, and what is kept is still orthogonal to
    // the basis to the root of rounding, which is all that Lanczos needs (Simon 1984).
    private const double Vanished = 1e-9;
    // Where less than this is left, it is made orthogonal to the basis once more.
    private const double Much = 1e-3;

    // A block is orthonormalised by its products, whose rounding hides what is shorter than this; so it grows by no more at a time.
    private const double MostGrowth = 1e5;
    private const int MostPasses = 5;

    private readonly List<double[]> _basis = [], _massed = [];
    // Columns of T, block by block: 8 × 8 parts under the number of their row.
    private readonly List<Dictionary<int, double[]>> _columns = [];
    private readonly Action<double[], double[]> _mass;

    private BlockLanczos(Action<double[], double[]> mass) => _mass = mass;

    /// <summary>What was found.</summary>
    /// <param name="Values">Lowest values, rising.</param>
    /// <param name="Vectors">Their vectors, M-orthonormal.</param>
    /// <param name="Solves">Solutions with a block of right sides each.</param>
    internal sealed record Pairs(double[] Values, double[][] Vectors, int Solves);

    /// <summary>The lowest pairs.</summary>
    /// <param name="n">Order of the matrices.</param>
    /// <param name="wanted">Pairs wanted; the shift lies below all of them.</param>
    /// <param name="shift">σ.</param>
    /// <param name="factor">Factor of K − σM.</param>
    /// <param name="mass">y = M x of a <see cref="Panel"/>.</param>
    /// <param name="tolerance">Relative residual of the inverted values; the error of the values is its square over a relative gap.</param>
    /// <param name="most">Longest basis.</param>
    /// <param name="isComplete">Whether the values found are all there are below the last.</param>
    /// <exception cref="InvalidOperationException">The basis is full before the pairs are settled and complete.</exception>
    internal static Pairs Lowest(
        int n, int wanted, double shift, FrontalFactor factor, Action<double[], double[]> mass, double tolerance, int most, Func<double[], bool>? isComplete = null)
    {
        var lanczos = new BlockLanczos(mass);
        var random = new Xorshift(0x9E3779B97F4A7C15);
        int room = Math.Min((most + Block - 1) / Block, n);
        int processed = 0, fresh = 0, nextLook = Math.Max((wanted + Block - 1) / Block + 1, (int)(FirstLook * wanted / Block));
        lanczos.Append(Fresh(n, random), []);
        while (true)
        {
            if (processed == room) { throw new InvalidOperationException("The eigenvalue iteration did not settle."); }
            lanczos.Process(factor, processed++);
            // Nothing was left: the basis holds all that can be reached.
            bool last = processed == lanczos._basis.Count;
            // The small eigenproblem is not free: it is looked at every other block.
            if (!last && (processed < nextLook || (processed - nextLook) % 2 != 0)) { continue; }
            (double[] theta, Matrix<double> s) = lanczos.Ritz(processed);
            bool settled = processed * Block >= wanted && lanczos.Settled(theta, s, processed, wanted, tolerance);
            if (!settled && !last) { continue; }
            if (!settled) { throw new InvalidOperationException("The eigenvalue iteration did not settle."); }

            double[] values = [.. theta.Take(wanted).Select(v => shift + 1 / v)];
            if (isComplete is null || isComplete(values))
            {
                double[][] found = Panel.Combine(lanczos._basis[..processed], s, (wanted + Block - 1) / Block);
                return new(values, [.. Enumerable.Range(0, wanted).Select(i => Panel.Vector(found, i))], processed);
            }

            lanczos.Append(Fresh(n, random), []);
            if (processed == lanczos._basis.Count || fresh++ == MostFreshBlocks)
            {
                throw new InvalidOperationException("Some modes were missed and could not be found.");
            }

            nextLook = processed + BlocksToSettle;
        }
    }

    private void Process(FrontalFactor factor, int block)
    {
        double[] x = [.. _massed[block]];
        factor.Solve(x);
        var column = new Dictionary<int, double[]>();
        _columns.Add(column);
        Orthogonalise(x, column);
        Append(x, column);
    }

    // Classical Gram–Schmidt, twice (Giraud, Langou & Rozložník 2005): all products of a pass first, then all subtractions.
    private void Orthogonalise(double[] x, Dictionary<int, double[]> column)
    {
        for (int pass = 0; pass < 2; pass++)
        {
            double[][] h = [.. _massed.Select(m => Panel.Products(m, x))];
            for (int j = 0; j < h.Length; j++)
            {
                column[j] = column.TryGetValue(j, out double[]? before) ? [.. before.Zip(h[j], (a, b) => a + b)] : h[j];
                Panel.Add(x, _basis[j], [.. h[j].Select(v => -v)]);
            }
        }
    }

    // What is left of a block, orthonormalised, joins the basis and the queue.
    private void Append(double[] x, Dictionary<int, double[]> column)
    {
        double[] lengths = new double[Block];
        foreach (double[] h in column.Values)
        {
            for (int k = 0; k < h.Length; k++) { lengths[k % Block] += h[k] * h[k]; }
        }

        for (int c = 0; c < Block; c++) { lengths[c] = Math.Sqrt(lengths[c]); }

        bool isFresh = column.Count == 0;
        double[] m = new double[x.Length];
        if (isFresh && _basis.Count > 0)
        {
            _mass(x, m);
            double[] gram = Panel.Products(x, m);
            for (int c = 0; c < Block; c++) { lengths[c] = Math.Sqrt(gram[c * Block + c]); }
            Orthogonalise(x, []);
        }

        double[] r = Identity();
        Orthonormalise(x, m, lengths, r);
        // What little was left has grown, and with it what rounding left of the basis in it.
        if (Enumerable.Range(0, Block).Any(c => r[c * Block + c] < Much * lengths[c]))
        {
            Orthogonalise(x, []);
            Orthonormalise(x, m, lengths, r);
        }

        if (r.All(v => v == 0)) { return; }
        if (!isFresh) { column[_basis.Count] = r; }
        _basis.Add(x);
        _massed.Add(m);
    }

    private void Orthonormalise(double[] x, double[] m, double[] lengths, double[] r)
    {
        bool isDone = false;
        for (int pass = 1; !isDone; pass++)
        {
            _mass(x, m);
            double[] gram = Panel.Products(x, m);
            for (int c = 0; c < Block; c++)
            {
                // Of the whole vector, before anything was taken off it.
                lengths[c] = Math.Max(lengths[c], Math.Sqrt(Math.Max(0, gram[c * Block + c])) * r[c * Block + c]);
            }

            (double[] inverse, isDone) = Triangular(gram, lengths, r, isLast: pass == MostPasses);
            Panel.Multiply(x, inverse);
            Panel.Multiply(m, inverse);
        }
    }

    private static double[] Identity()
    {
        double[] one = new double[Block * Block];
        for (int i = 0; i < Block; i++) { one[i * Block + i] = 1; }
        return one;
    }

    // gram = RᵀR: r becomes R r, and R⁻¹ is returned; a column that vanishes is zero in both. Done where the block was orthonormal before, nearly.
    private static (double[] Inverse, bool IsDone) Triangular(double[] gram, double[] lengths, double[] r, bool isLast)
    {
        bool isDone = true;
        double[] upper = new double[Block * Block], inverse = new double[Block * Block];
        for (int j = 0; j < Block; j++)
        {
            for (int i = 0; i < j; i++)
            {
                double sum = gram[i * Block + j];
                for (int k = 0; k < i; k++) { sum -= upper[k * Block + i] * upper[k * Block + j]; }
                upper[i * Block + j] = upper[i * Block + i] > 0 ? sum / upper[i * Block + i] : 0;
            }

            double whole = gram[j * Block + j], left = whole;
            for (int k = 0; k < j; k++) { left -= upper[k * Block + j] * upper[k * Block + j]; }
            double length = whole > 0 ? Math.Sqrt(Math.Max(left, whole / (MostGrowth * MostGrowth))) : 0;
            // r holds what the passes so far made of its length.
            bool isThere = length > 0 && length * r[j * Block + j] > Vanished * lengths[j] && !(isLast && left < 0.5 * whole);
            upper[j * Block + j] = isThere ? length : 0;
            if (!isThere) { continue; }
            isDone &= isLast || (Math.Abs(left - 1) < 1e-3 && Math.Abs(whole - 1) < 1e-3);
            // Column j of the inverse.
            double diagonal = inverse[j * Block + j] = 1 / upper[j * Block + j];
            for (int i = j - 1; i >= 0; i--)
            {
                if (upper[i * Block + i] == 0) { continue; }
                double sum = upper[i * Block + j] * diagonal;
                for (int k = i + 1; k < j; k++) { sum += upper[i * Block + k] * inverse[k * Block + j]; }
                inverse[i * Block + j] = -sum / upper[i * Block + i];
            }
        }

        double[] before = [.. r];
        for (int i = 0; i < Block; i++)
        {
            for (int j = 0; j < Block; j++)
            {
                double sum = 0;
                for (int k = i; k < Block; k++) { sum += upper[i * Block + k] * before[k * Block + j]; }
                r[i * Block + j] = sum;
            }
        }

        return (inverse, isDone);
    }

    // Eigenpairs of the projected operator over the processed columns, largest first: nearest the shift.
    private (double[] Theta, Matrix<double> S) Ritz(int processed)
    {
        var t = Matrix<double>.Build.Dense(processed * Block, processed * Block);
        for (int j = 0; j < processed; j++)
        {
            for (int i = 0; i <= j; i++)
            {
                double[] part = _columns[j][i];
                for (int k = 0; k < part.Length; k++)
                {
                    int row = i * Block + k / Block, column = j * Block + k % Block;
                    if (row <= column) { t[row, column] = t[column, row] = part[k]; }
                }
            }
        }

        var evd = t.Evd(Symmetricity.Symmetric);
        int size = t.RowCount;
        int[] order = [.. Enumerable.Range(0, size).OrderByDescending(i => evd.EigenValues[i].Real)];
        var s = Matrix<double>.Build.Dense(size, size, (i, j) => evd.EigenVectors[i, order[j]]);
        return ([.. order.Select(i => evd.EigenValues[i].Real)], s);
    }

    // A residual is what the columns put into the rows of blocks that wait.
    private bool Settled(double[] theta, Matrix<double> s, int processed, int wanted, double tolerance)
    {
        double[] squares = new double[wanted], sums = new double[Block];
        for (int block = processed; block < _basis.Count; block++)
        {
            for (int i = 0; i < wanted; i++)
            {
                Array.Clear(sums);
                for (int j = 0; j < processed; j++)
                {
                    if (!_columns[j].TryGetValue(block, out double[]? part)) { continue; }
                    for (int k = 0; k < part.Length; k++) { sums[k / Block] += part[k] * s[j * Block + k % Block, i]; }
                }

                squares[i] += sums.Sum(v => v * v);
            }
        }

        return Enumerable.Range(0, wanted).All(i => theta[i] > 0 && Math.Sqrt(squares[i]) <= tolerance * theta[i]);
    }

    private static double[] Fresh(int n, Xorshift random)
    {
        double[] x = new double[n * Block];
        for (int i = 0; i < x.Length; i++) { x[i] = random.Next() - 0.5; }
        return x;
    }
}
