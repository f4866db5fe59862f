using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Lanes = System.Runtime.Intrinsics.Vector512<float>;

namespace SandwichMech.Core.Numerics;

/// <summary>A small symmetric matrix in single precision, and what is done with it to sixteen vectors at a time.</summary>
/// <remarks>
/// Upper triangle row by row, each row from the last multiple of sixteen before its diagonal on, so that rows begin and end with whole registers. The order is
/// a multiple of sixteen. Sixteen vectors lie side by side: [row · 16 + vector]. Where a relative error of some 1e-6 is allowed, this is twice as quick as double precision.
/// </remarks>
internal static class SingleMatrix
{
    internal const int Width = 16;
    private const int Rows = 4;

    /// <summary>The next multiple of sixteen.</summary>
    internal static int Order(int n) => (n + Width - 1) / Width * Width;

    /// <summary>Numbers of a matrix of an order.</summary>
    internal static int Length(int order) => order * (order + Width) / 2;

    /// <summary>Where (row, row's first column) stands.</summary>
    internal static int Row(int order, int row)
    {
        int b = row / Width;
        return Width * b * order - Width * Width * b * (b - 1) / 2 + row % Width * (order - Width * b);
    }

    /// <summary>First column of a row that is kept.</summary>
    internal static int Column(int row) => row / Width * Width;

    /// <summary>sum = Σ coefficient · matrix, four at a time: the sum is read and written a quarter as often.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal static void Sum(double[] coefficients, IReadOnlyList<float[]> matrices, float[] sum)
    {
        Array.Clear(sum);
        ref float s = ref MemoryMarshal.GetArrayDataReference(sum);
        int k = 0;
        for (; k + 3 < matrices.Count; k += 4)
        {
            ref float a = ref MemoryMarshal.GetArrayDataReference(matrices[k]);
            ref float b = ref MemoryMarshal.GetArrayDataReference(matrices[k + 1]);
            ref float c = ref MemoryMarshal.GetArrayDataReference(matrices[k + 2]);
            ref float d = ref MemoryMarshal.GetArrayDataReference(matrices[k + 3]);
            Lanes fa = Lane(coefficients[k]), fb = Lane(coefficients[k + 1]), fc = Lane(coefficients[k + 2]), fd = Lane(coefficients[k + 3]);
            for (nuint i = 0; i < (nuint)sum.Length; i += Width)
            {
                Lanes value = Vector512.LoadUnsafe(ref s, i) + fa * Vector512.LoadUnsafe(ref a, i) + fb * Vector512.LoadUnsafe(ref b, i);
                (value + fc * Vector512.LoadUnsafe(ref c, i) + fd * Vector512.LoadUnsafe(ref d, i)).StoreUnsafe(ref s, i);
            }
        }

        for (; k < matrices.Count; k++) { Add(sum, coefficients[k], matrices[k]); }
    }

    /// <summary>sum += coefficient · matrix.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal static void Add(float[] sum, double coefficient, float[] matrix)
    {
        ref float s = ref MemoryMarshal.GetArrayDataReference(sum);
        ref float a = ref MemoryMarshal.GetArrayDataReference(matrix);
        Lanes f = Lane(coefficient);
        for (nuint i = 0; i < (nuint)sum.Length; i += Width) { (Vector512.LoadUnsafe(ref s, i) + f * Vector512.LoadUnsafe(ref a, i)).StoreUnsafe(ref s, i); }
    }

    /// <summary>a ← U of a = UᵀU, by blocks of sixteen rows.</summary>
    /// <returns>Whether the matrix is positive definite.</returns>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal static bool Factor(float[] a, int order)
    {
        for (int from = 0; from < order; from += Width)
        {
            int length = order - from, at = Row(order, from);
            for (int p = 0; p < Width; p++)
            {
                Span<float> row = a.AsSpan(at + p * length, length);
                for (int q = 0; q < p; q++)
                {
                    float f = -a[at + q * length + p];
                    Add(row, f, a.AsSpan(at + q * length, length));
                }

                float pivot = row[p];
                if (!(pivot > 0)) { return false; }
                Scale(row, 1 / MathF.Sqrt(pivot));
            }

            for (int i = from + Width; i < order; i += Rows) { Update(a, order, at, length, i - from, i); }
        }

        return true;
    }

    // Four rows −= what sixteen pivot rows bring; their columns begin at the multiple of sixteen before the first of them.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Update(float[] a, int order, int pivots, int length, int column, int row)
    {
        ref float origin = ref MemoryMarshal.GetArrayDataReference(a);
        ref float by = ref Unsafe.Add(ref origin, pivots + column);
        int stride = order - Column(row), skip = column - row % Width;
        ref float t0 = ref Unsafe.Add(ref origin, Row(order, row));
        ref float t1 = ref Unsafe.Add(ref t0, stride);
        ref float t2 = ref Unsafe.Add(ref t1, stride);
        ref float t3 = ref Unsafe.Add(ref t2, stride);
        int c = 0;
        for (; c + 2 * Width <= stride; c += 2 * Width)
        {
            ref float source = ref Unsafe.Add(ref origin, pivots + skip + c);
            ref float f = ref by;
            Lanes s00 = default, s01 = default, s10 = default, s11 = default, s20 = default, s21 = default, s30 = default, s31 = default;
            for (int q = 0; q < Width; q++)
            {
                Lanes x0 = Vector512.LoadUnsafe(ref source), x1 = Vector512.LoadUnsafe(ref source, Width);
                var m = Vector512.Create(f);
                s00 = Vector512.FusedMultiplyAdd(m, x0, s00);
                s01 = Vector512.FusedMultiplyAdd(m, x1, s01);
                m = Vector512.Create(Unsafe.Add(ref f, 1));
                s10 = Vector512.FusedMultiplyAdd(m, x0, s10);
                s11 = Vector512.FusedMultiplyAdd(m, x1, s11);
                m = Vector512.Create(Unsafe.Add(ref f, 2));
                s20 = Vector512.FusedMultiplyAdd(m, x0, s20);
                s21 = Vector512.FusedMultiplyAdd(m, x1, s21);
                m = Vector512.Create(Unsafe.Add(ref f, 3));
                s30 = Vector512.FusedMultiplyAdd(m, x0, s30);
                s31 = Vector512.FusedMultiplyAdd(m, x1, s31);
                source = ref Unsafe.Add(ref source, length);
                f = ref Unsafe.Add(ref f, length);
            }

            Subtract(ref t0, c, s00);
            Subtract(ref t0, c + Width, s01);
            Subtract(ref t1, c, s10);
            Subtract(ref t1, c + Width, s11);
            Subtract(ref t2, c, s20);
            Subtract(ref t2, c + Width, s21);
            Subtract(ref t3, c, s30);
            Subtract(ref t3, c + Width, s31);
        }

        if (c < stride)
        {
            ref float source = ref Unsafe.Add(ref origin, pivots + skip + c);
            ref float f = ref by;
            Lanes s0 = default, s1 = default, s2 = default, s3 = default;
            for (int q = 0; q < Width; q++)
            {
                var x = Vector512.LoadUnsafe(ref source);
                s0 = Vector512.FusedMultiplyAdd(Vector512.Create(f), x, s0);
                s1 = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref f, 1)), x, s1);
                s2 = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref f, 2)), x, s2);
                s3 = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref f, 3)), x, s3);
                source = ref Unsafe.Add(ref source, length);
                f = ref Unsafe.Add(ref f, length);
            }

            Subtract(ref t0, c, s0);
            Subtract(ref t1, c, s1);
            Subtract(ref t2, c, s2);
            Subtract(ref t3, c, s3);
        }
    }

    /// <summary>x ← (UᵀU)⁻¹ x.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal static void Solve(float[] u, int order, float[] x)
    {
        ref float xs = ref MemoryMarshal.GetArrayDataReference(x);
        ref float us = ref MemoryMarshal.GetArrayDataReference(u);
        for (int k = 0; k < order; k += Rows)
        {
            int stride = order - Column(k), at = Row(order, k) - Column(k);
            Lanes y0 = default, y1 = default, y2 = default, y3 = default;
            for (int r = 0; r < Rows; r++)
            {
                ref float column = ref Unsafe.Add(ref us, at + k + r);
                Lanes y = Vector512.LoadUnsafe(ref xs, (nuint)((k + r) * Width));
                if (r > 0) { y -= Vector512.Create(column) * y0; }
                if (r > 1) { y -= Vector512.Create(Unsafe.Add(ref column, stride)) * y1; }
                if (r > 2) { y -= Vector512.Create(Unsafe.Add(ref column, 2 * stride)) * y2; }
                y *= Vector512.Create(1 / Unsafe.Add(ref column, r * stride));
                y.StoreUnsafe(ref xs, (nuint)((k + r) * Width));
                if (r == 0) { y0 = y; }
                else if (r == 1) { y1 = y; }
                else if (r == 2) { y2 = y; }
                else { y3 = y; }
            }

            ref float f = ref Unsafe.Add(ref us, at + k + Rows);
            for (int j = k + Rows; j < order; j++)
            {
                nuint to = (nuint)(j * Width);
                Lanes value = Vector512.LoadUnsafe(ref xs, to) - Vector512.Create(f) * y0 - Vector512.Create(Unsafe.Add(ref f, stride)) * y1;
                (value - Vector512.Create(Unsafe.Add(ref f, 2 * stride)) * y2 - Vector512.Create(Unsafe.Add(ref f, 3 * stride)) * y3).StoreUnsafe(ref xs, to);
                f = ref Unsafe.Add(ref f, 1);
            }
        }

        for (int k = order - Rows; k >= 0; k -= Rows)
        {
            int stride = order - Column(k), at = Row(order, k) - Column(k);
            Lanes s0 = default, s1 = default, s2 = default, s3 = default;
            ref float f = ref Unsafe.Add(ref us, at + k + Rows);
            for (int j = k + Rows; j < order; j++)
            {
                Lanes value = Vector512.LoadUnsafe(ref xs, (nuint)(j * Width));
                s0 = Vector512.FusedMultiplyAdd(Vector512.Create(f), value, s0);
                s1 = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref f, stride)), value, s1);
                s2 = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref f, 2 * stride)), value, s2);
                s3 = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref f, 3 * stride)), value, s3);
                f = ref Unsafe.Add(ref f, 1);
            }

            for (int r = Rows - 1; r >= 0; r--)
            {
                ref float row = ref Unsafe.Add(ref us, at + r * stride + k);
                Lanes y = Vector512.LoadUnsafe(ref xs, (nuint)((k + r) * Width)) - (r == 0 ? s0 : r == 1 ? s1 : r == 2 ? s2 : s3);
                for (int q = r + 1; q < Rows; q++) { y -= Vector512.Create(Unsafe.Add(ref row, q)) * Vector512.LoadUnsafe(ref xs, (nuint)((k + q) * Width)); }
                (y * Vector512.Create(1 / Unsafe.Add(ref row, r))).StoreUnsafe(ref xs, (nuint)((k + r) * Width));
            }
        }
    }

    /// <summary>All of the matrix: [row · order + column].</summary>
    internal static void Expand(float[] a, int order, float[] full)
    {
        for (int i = 0; i < order; i++)
        {
            int from = Column(i), at = Row(order, i);
            a.AsSpan(at + i - from, order - i).CopyTo(full.AsSpan(i * order + i));
            for (int j = i + 1; j < order; j++) { full[j * order + i] = a[at + j - from]; }
        }
    }

    /// <summary>y = A x.</summary>
    /// <param name="full">A, all of it.</param>
    /// <param name="order">Its order.</param>
    /// <param name="x">Sixteen vectors.</param>
    /// <param name="y">Room for sixteen more.</param>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal static void Multiply(float[] full, int order, float[] x, float[] y)
    {
        ref float xs = ref MemoryMarshal.GetArrayDataReference(x);
        ref float ys = ref MemoryMarshal.GetArrayDataReference(y);
        for (int i = 0; i < order; i += Rows)
        {
            ref float a = ref Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(full), i * order);
            Lanes s0 = default, s1 = default, s2 = default, s3 = default, t0 = default, t1 = default, t2 = default, t3 = default;
            for (int j = 0; j < order; j += 2)
            {
                Lanes v = Vector512.LoadUnsafe(ref xs, (nuint)(j * Width)), w = Vector512.LoadUnsafe(ref xs, (nuint)((j + 1) * Width));
                s0 = Vector512.FusedMultiplyAdd(Vector512.Create(a), v, s0);
                t0 = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref a, 1)), w, t0);
                s1 = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref a, order)), v, s1);
                t1 = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref a, order + 1)), w, t1);
                s2 = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref a, 2 * order)), v, s2);
                t2 = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref a, 2 * order + 1)), w, t2);
                s3 = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref a, 3 * order)), v, s3);
                t3 = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref a, 3 * order + 1)), w, t3);
                a = ref Unsafe.Add(ref a, 2);
            }

            nuint to = (nuint)(i * Width);
            (s0 + t0).StoreUnsafe(ref ys, to);
            (s1 + t1).StoreUnsafe(ref ys, to + Width);
            (s2 + t2).StoreUnsafe(ref ys, to + 2 * Width);
            (s3 + t3).StoreUnsafe(ref ys, to + 3 * Width);
        }
    }

    /// <summary>aᵀ b of sixteen vectors each.</summary>
    /// <param name="a">The one.</param>
    /// <param name="b">The other.</param>
    /// <param name="products">[vector of a · 16 + vector of b].</param>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal static void Products(float[] a, float[] b, Span<float> products)
    {
        ref float bs = ref MemoryMarshal.GetArrayDataReference(b);
        ref float to = ref MemoryMarshal.GetReference(products);
        for (int c = 0; c < Width; c += 8)
        {
            ref float f = ref Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(a), c);
            Lanes s0 = default, s1 = default, s2 = default, s3 = default, s4 = default, s5 = default, s6 = default, s7 = default;
            for (nuint i = 0; i < (nuint)b.Length; i += Width)
            {
                var v = Vector512.LoadUnsafe(ref bs, i);
                s0 = Vector512.FusedMultiplyAdd(Vector512.Create(f), v, s0);
                s1 = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref f, 1)), v, s1);
                s2 = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref f, 2)), v, s2);
                s3 = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref f, 3)), v, s3);
                s4 = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref f, 4)), v, s4);
                s5 = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref f, 5)), v, s5);
                s6 = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref f, 6)), v, s6);
                s7 = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref f, 7)), v, s7);
                f = ref Unsafe.Add(ref f, Width);
            }

            nuint at = (nuint)(c * Width);
            s0.StoreUnsafe(ref to, at);
            s1.StoreUnsafe(ref to, at + Width);
            s2.StoreUnsafe(ref to, at + 2 * Width);
            s3.StoreUnsafe(ref to, at + 3 * Width);
            s4.StoreUnsafe(ref to, at + 4 * Width);
            s5.StoreUnsafe(ref to, at + 5 * Width);
            s6.StoreUnsafe(ref to, at + 6 * Width);
            s7.StoreUnsafe(ref to, at + 7 * Width);
        }
    }

    /// <summary>sum += x S.</summary>
    /// <param name="x">Sixteen vectors.</param>
    /// <param name="s">[vector of x · 16 + vector of the sum].</param>
    /// <param name="sum">Sixteen vectors.</param>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal static void AddCombined(float[] x, ReadOnlySpan<float> s, float[] sum)
    {
        ref float f = ref MemoryMarshal.GetArrayDataReference(x);
        ref float to = ref MemoryMarshal.GetArrayDataReference(sum);
        ref float by = ref MemoryMarshal.GetReference(s);
        for (nuint i = 0; i < (nuint)x.Length; i += Width)
        {
            Lanes even = Vector512.LoadUnsafe(ref to, i), odd = default;
            for (int c = 0; c < Width; c += 2)
            {
                even = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref f, c)), Vector512.LoadUnsafe(ref by, (nuint)(c * Width)), even);
                odd = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref f, c + 1)), Vector512.LoadUnsafe(ref by, (nuint)((c + 1) * Width)), odd);
            }

            (even + odd).StoreUnsafe(ref to, i);
            f = ref Unsafe.Add(ref f, Width);
        }
    }

    private static Lanes Lane(double value) => Vector512.Create((float)value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Subtract(ref float from, int at, Lanes what) => (Vector512.LoadUnsafe(ref from, (nuint)at) - what).StoreUnsafe(ref from, (nuint)at);

    private static void Add(Span<float> a, float f, ReadOnlySpan<float> b)
    {
        ref float to = ref MemoryMarshal.GetReference(a);
        ref float of = ref MemoryMarshal.GetReference(b);
        var m = Vector512.Create(f);
        for (nuint i = 0; i < (nuint)a.Length; i += Width) { Vector512.FusedMultiplyAdd(m, Vector512.LoadUnsafe(ref of, i), Vector512.LoadUnsafe(ref to, i)).StoreUnsafe(ref to, i); }
    }

    private static void Scale(Span<float> a, float f)
    {
        ref float to = ref MemoryMarshal.GetReference(a);
        var m = Vector512.Create(f);
        for (nuint i = 0; i < (nuint)a.Length; i += Width) { (m * Vector512.LoadUnsafe(ref to, i)).StoreUnsafe(ref to, i); }
    }
}
