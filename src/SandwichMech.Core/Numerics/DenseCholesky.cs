using Lanes = System.Numerics.Vector<double>;

namespace SandwichMech.Core.Numerics;

/// <summary>K = LLᵀ of a small dense matrix, and solutions for many right sides at once; its room is used again from call to call.</summary>
internal sealed class DenseCholesky
{
    private readonly int _n;
    private readonly double[] _l, _inverse;

    /// <summary>Makes the room.</summary>
    /// <param name="n">Order of the matrix.</param>
    internal DenseCholesky(int n) => (_n, _l, _inverse) = (n, new double[n * n], new double[n]);

    /// <summary>Factorises.</summary>
    /// <param name="k">Lower triangle row by row, packed; what lies beyond this order is not read.</param>
    /// <returns>Whether it is positive definite.</returns>
    internal bool Factor(double[] k)
    {
        for (int i = 0, at = 0; i < _n; i++)
        {
            for (int j = 0; j <= i; j++, at++)
            {
                double value = k[at] - DenseRows.Dot(_l.AsSpan(i * _n, j), _l.AsSpan(j * _n, j));
                if (j < i) { _l[i * _n + j] = value * _inverse[j]; }
                else if (value > 0) { _inverse[i] = 1 / (_l[i * _n + i] = Math.Sqrt(value)); }
                else { return false; }
            }
        }

        return true;
    }

    /// <summary>a ← L⁻¹ a.</summary>
    /// <param name="a">[row · width + right side].</param>
    /// <param name="width">Right sides.</param>
    internal void Forward(double[] a, int width)
    {
        for (int i = 0; i < _n; i++)
        {
            DenseRows.Subtract(a, i * width, width, _l.AsSpan(i * _n, i), a);
            double scale = _inverse[i];
            foreach (ref double v in a.AsSpan(i * width, width)) { v *= scale; }
        }
    }

    /// <summary>z ← L⁻ᵀ z of one.</summary>
    internal void Backward(Span<double> z)
    {
        for (int i = _n - 1; i >= 0; i--)
        {
            z[i] *= _inverse[i];
            DenseRows.Add(z[..i], -z[i], _l.AsSpan(i * _n, i));
        }
    }
}

/// <summary>Sums of rows, some lanes at a time.</summary>
internal static class DenseRows
{
    /// <summary>a·b.</summary>
    internal static double Dot(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        Lanes s0 = default, s1 = default;
        int i = 0, w = Lanes.Count;
        for (; i <= a.Length - 2 * w; i += 2 * w)
        {
            s0 += new Lanes(a[i..]) * new Lanes(b[i..]);
            s1 += new Lanes(a[(i + w)..]) * new Lanes(b[(i + w)..]);
        }

        double sum = System.Numerics.Vector.Sum(s0 + s1);
        for (; i < a.Length; i++) { sum += a[i] * b[i]; }
        return sum;
    }

    /// <summary>a += s b.</summary>
    internal static void Add(Span<double> a, double s, ReadOnlySpan<double> b)
    {
        int i = 0, w = Lanes.Count;
        var vs = new Lanes(s);
        for (; i <= a.Length - w; i += w) { (new Lanes(a[i..]) + vs * new Lanes(b[i..])).CopyTo(a[i..]); }
        for (; i < a.Length; i++) { a[i] += s * b[i]; }
    }

    /// <summary>a += s b + t c.</summary>
    internal static void Add(Span<double> a, double s, ReadOnlySpan<double> b, double t, ReadOnlySpan<double> c)
    {
        int i = 0, w = Lanes.Count;
        Lanes vs = new(s), vt = new(t);
        for (; i <= a.Length - w; i += w) { (new Lanes(a[i..]) + vs * new Lanes(b[i..]) + vt * new Lanes(c[i..])).CopyTo(a[i..]); }
        for (; i < a.Length; i++) { a[i] += s * b[i] + t * c[i]; }
    }

    /// <summary>A row less a sum of rows: four at a time, so that it is read and written a quarter as often.</summary>
    /// <param name="a">Holds the row.</param>
    /// <param name="at">Where it begins.</param>
    /// <param name="width">Its length.</param>
    /// <param name="factors">Of rows 0, 1, …</param>
    /// <param name="rows">The rows, one after the other.</param>
    internal static void Subtract(double[] a, int at, int width, ReadOnlySpan<double> factors, double[] rows)
    {
        int k = 0, w = Lanes.Count;
        for (; k + 3 < factors.Length; k += 4)
        {
            double f0 = factors[k], f1 = factors[k + 1], f2 = factors[k + 2], f3 = factors[k + 3];
            Lanes v0 = new(f0), v1 = new(f1), v2 = new(f2), v3 = new(f3);
            int from = k * width, j = 0;
            for (; j <= width - w; j += w)
            {
                Lanes sum = new Lanes(a, at + j) - v0 * new Lanes(rows, from + j) - v1 * new Lanes(rows, from + width + j);
                (sum - v2 * new Lanes(rows, from + 2 * width + j) - v3 * new Lanes(rows, from + 3 * width + j)).CopyTo(a, at + j);
            }

            for (; j < width; j++)
            {
                a[at + j] -= f0 * rows[from + j] + f1 * rows[from + width + j] + f2 * rows[from + 2 * width + j] + f3 * rows[from + 3 * width + j];
            }
        }

        for (; k < factors.Length; k++) { Add(a.AsSpan(at, width), -factors[k], rows.AsSpan(k * width, width)); }
    }
}
