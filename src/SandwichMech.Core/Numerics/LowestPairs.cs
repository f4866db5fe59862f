using Lanes = System.Numerics.Vector<double>;
using Vector = System.Numerics.Vector;

namespace SandwichMech.Core.Numerics;

/// <summary>The lowest pairs of K x = λ M x for small dense matrices, K positive definite, M positive semidefinite; its workspace is kept from call to call.</summary>
/// <remarks>
/// K = LLᵀ, and C = L⁻¹ M L⁻ᵀ has the inverse values: its largest are wanted and stand well apart from rounding. C is made tridiagonal by Householder's
/// reflections; values come by bisection on Sturm's count, vectors by inverse iteration and Rayleigh's quotient (Wilkinson &amp; Reinsch
/// 1971, Handbook for Automatic Computation II, II/2, II/5, II/18; Golub &amp; Van Loan 2013, 8.3–8.5). No value can be missed.
/// </remarks>
internal sealed class LowestPairs
{
    // Halvings of an interval: vectors and Rayleigh's quotient do the rest.
    private const int Halvings = 34, InverseSteps = 3;
    private readonly int _n;
    private readonly double[] _c, _b, _reflect, _d, _e, _p, _u, _u1, _u2, _multiplier;
    private readonly DenseCholesky _factor;
    private readonly bool[] _exchanged;

    /// <summary>Makes the workspace.</summary>
    /// <param name="n">Order of the matrices.</param>
    internal LowestPairs(int n)
    {
        _n = n;
        _factor = new(n);
        (_c, _b, _reflect) = (new double[n * n], new double[n * n], new double[n * n]);
        (_d, _e, _p) = (new double[n], new double[n + 1], new double[n]);
        (_u, _u1, _u2, _multiplier, _exchanged) = (new double[n], new double[n], new double[n], new double[n], new bool[n]);
    }

    /// <summary>Solves.</summary>
    /// <param name="k">K, lower triangle row by row, packed; what lies beyond this order is not read.</param>
    /// <param name="m">M, the same.</param>
    /// <param name="values">Room for the wanted number of values, rising.</param>
    /// <param name="vectors">Room for their vectors, one after the other, xᵀMx = 1.</param>
    /// <returns>Whether K is positive definite and all values are finite; otherwise nothing is to be used.</returns>
    internal bool Solve(double[] k, double[] m, Span<double> values, double[] vectors)
    {
        int n = _n, wanted = values.Length;
        if (!_factor.Factor(k)) { return false; }
        Expand(m, _b);
        _factor.Forward(_b, n);
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++) { _c[i * n + j] = _b[j * n + i]; }
        }

        _factor.Forward(_c, n);
        Tridiagonalise();
        Bisect(values);
        for (int i = 0; i < wanted; i++) { values[i] = OfTridiagonal(values[i], i, vectors); }
        for (int i = 0; i < wanted; i++)
        {
            Span<double> z = vectors.AsSpan(i * n, n);
            Reflect(z);
            _factor.Backward(z);
            double scale = 1 / Math.Sqrt(values[i]);
            for (int j = 0; j < n; j++) { z[j] *= scale; }
            values[i] = 1 / values[i];
            if (!(values[i] > 0) || !double.IsFinite(values[i])) { return false; }
        }

        return true;
    }

    private void Expand(double[] packed, double[] full)
    {
        for (int i = 0, at = 0; i < _n; i++)
        {
            for (int j = 0; j <= i; j++, at++) { full[i * _n + j] = full[j * _n + i] = packed[at]; }
        }
    }

    // Row k of _reflect holds the vector v of H = I − v vᵀ (scaled so) that clears row k beyond its neighbour.
    private void Tridiagonalise()
    {
        int n = _n;
        Array.Clear(_e);
        for (int k = 0; k < n; k++)
        {
            _d[k] = _c[k * n + k];
            if (k == n - 1) { break; }
            int m = n - k - 1;
            Span<double> v = _reflect.AsSpan(k * n + k + 1, m);
            _c.AsSpan(k * n + k + 1, m).CopyTo(v);
            double norm = Math.Sqrt(DenseRows.Dot(v, v));
            if (m == 1 || norm == 0)
            {
                _e[k + 1] = v[0];
                v.Clear();
                continue;
            }

            double alpha = v[0] > 0 ? -norm : norm;
            v[0] -= alpha;
            _e[k + 1] = alpha;
            double size = Math.Sqrt(2 / DenseRows.Dot(v, v));
            for (int i = 0; i < m; i++) { v[i] *= size; }
            Span<double> p = _p.AsSpan(0, m);
            for (int i = 0; i < m; i++) { p[i] = DenseRows.Dot(_c.AsSpan((k + 1 + i) * n + k + 1, m), v); }
            DenseRows.Add(p, -DenseRows.Dot(p, v) / 2, v);
            for (int i = 0; i < m; i++) { DenseRows.Add(_c.AsSpan((k + 1 + i) * n + k + 1, m), -v[i], p, -p[i], v); }
        }
    }

    private void Reflect(Span<double> z)
    {
        for (int k = _n - 3; k >= 0; k--)
        {
            Span<double> v = _reflect.AsSpan(k * _n + k + 1, _n - k - 1), tail = z[(k + 1)..];
            DenseRows.Add(tail, -DenseRows.Dot(v, tail), v);
        }
    }

    // The largest values of the tridiagonal matrix, falling: some lanes at a time.
    private void Bisect(Span<double> values)
    {
        int n = _n;
        double low = double.MaxValue, high = double.MinValue;
        for (int i = 0; i < n; i++)
        {
            double around = Math.Abs(_e[i]) + Math.Abs(_e[i + 1]);
            (low, high) = (Math.Min(low, _d[i] - around), Math.Max(high, _d[i] + around));
        }

        double tiny = 1e-300 + 1e-30 * Math.Max(Math.Abs(low), Math.Abs(high));
        int lanes = Lanes.Count;
        Span<double> first = stackalloc double[lanes];
        for (int from = 0; from < values.Length; from += lanes)
        {
            // Above x lie more values than the number of the wanted one: it lies above x too.
            for (int r = 0; r < lanes; r++) { first[r] = Math.Min(from + r, values.Length - 1); }
            var rank = new Lanes(first);
            var below = new Lanes(low);
            var above = new Lanes(high);
            for (int step = 0; step < Halvings; step++)
            {
                Lanes x = (below + above) * new Lanes(0.5);
                Lanes q = new Lanes(_d[0]) - x, count = Lanes.Zero;
                for (int i = 0; ;)
                {
                    count += Vector.ConditionalSelect(Vector.GreaterThan(q, Lanes.Zero), Lanes.One, Lanes.Zero);
                    if (++i == n) { break; }
                    q = Vector.ConditionalSelect(Vector.LessThan(Vector.Abs(q), new Lanes(tiny)), new Lanes(tiny), q);
                    q = new Lanes(_d[i]) - x - new Lanes(_e[i] * _e[i]) / q;
                }

                var isAbove = Vector.GreaterThan(count, rank);
                below = Vector.ConditionalSelect(isAbove, x, below);
                above = Vector.ConditionalSelect(isAbove, above, x);
            }

            Lanes middle = (below + above) * new Lanes(0.5);
            for (int r = 0; r < lanes && from + r < values.Length; r++) { values[from + r] = middle[r]; }
        }
    }

    // Inverse iteration, kept apart from the vectors before; gives Rayleigh's quotient.
    private double OfTridiagonal(double theta, int number, double[] vectors)
    {
        int n = _n;
        Span<double> z = vectors.AsSpan(number * n, n);
        FactorTridiagonal(theta);
        // Any start will do that is not orthogonal to what is looked for; another for each number.
        for (int i = 0; i < n; i++) { z[i] = 1 + ((i + 1) * (number + 3) * 7919 % 101) / 101.0; }
        for (int step = 0; step < InverseSteps; step++)
        {
            SolveTridiagonal(z);
            for (int before = 0; before < number; before++)
            {
                ReadOnlySpan<double> other = vectors.AsSpan(before * n, n);
                DenseRows.Add(z, -DenseRows.Dot(other, z), other);
            }

            double scale = 1 / Math.Sqrt(DenseRows.Dot(z, z));
            for (int i = 0; i < n; i++) { z[i] *= scale; }
        }

        double sum = 0;
        for (int i = 0; i < n; i++) { sum += z[i] * (_d[i] * z[i] + (i + 1 < n ? 2 * _e[i + 1] * z[i + 1] : 0)); }
        return sum;
    }

    // P(T − θ) = L U with row exchanges: U has three diagonals (u, u1, u2), L one multiplier a row.
    private void FactorTridiagonal(double theta)
    {
        int n = _n;
        double u = _d[0] - theta, u1 = n > 1 ? _e[1] : 0;
        for (int i = 0; i < n - 1; i++)
        {
            double below = _e[i + 1], diagonal = _d[i + 1] - theta, next = i + 2 < n ? _e[i + 2] : 0;
            _exchanged[i] = Math.Abs(below) > Math.Abs(u);
            if (_exchanged[i])
            {
                double factor = _multiplier[i] = u / below;
                (_u[i], _u1[i], _u2[i]) = (below, diagonal, next);
                (u, u1) = (u1 - factor * diagonal, -factor * next);
            }
            else
            {
                double factor = _multiplier[i] = u == 0 ? 0 : below / u;
                (_u[i], _u1[i], _u2[i]) = (u, u1, 0);
                (u, u1) = (diagonal - factor * u1, next);
            }
        }

        (_u[n - 1], _u1[n - 1], _u2[n - 1]) = (u, 0, 0);
        double tiny = 1e-16 * Math.Max(Math.Abs(theta), double.Epsilon);
        for (int i = 0; i < n; i++)
        {
            if (Math.Abs(_u[i]) < tiny) { _u[i] = tiny; }
        }
    }

    private void SolveTridiagonal(Span<double> z)
    {
        int n = _n;
        for (int i = 0; i < n - 1; i++)
        {
            if (_exchanged[i]) { (z[i], z[i + 1]) = (z[i + 1], z[i] - _multiplier[i] * z[i + 1]); }
            else { z[i + 1] -= _multiplier[i] * z[i]; }
        }

        for (int i = n - 1; i >= 0; i--)
        {
            double value = z[i];
            if (i + 1 < n) { value -= _u1[i] * z[i + 1]; }
            if (i + 2 < n) { value -= _u2[i] * z[i + 2]; }
            z[i] = value / _u[i];
        }
    }
}
