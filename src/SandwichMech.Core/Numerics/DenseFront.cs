using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace SandwichMech.Core.Numerics;

/// <summary>Partial LDLᵀ factorisation of a dense symmetric front: the step that a multifrontal solver repeats.</summary>
/// <remarks>
/// The front of order n is held row by row, upper triangle. The first k unknowns are eliminated:
/// A = [A11 A12; · A22] → U = D Lᵀ in the first k rows, and the Schur complement A22 − A21 A11⁻¹ A12 in the place of A22. Right-looking
/// by blocks of rows: every step adds multiples of whole rows, which lie contiguous in memory, to four rows at a time that stay in
/// registers. Below the diagonal anything may be written. No pivoting: for the positive definite K − σM of a shift
/// below the spectrum none is needed; for a Sturm count a vanishing pivot is reported and the caller moves the shift.
/// </remarks>
internal static class DenseFront
{
    private const int Block = 16, Rows = 4, Lanes = 4;

    /// <summary>Shortest distance of rows in memory for an order: whole vector registers.</summary>
    internal static int Stride(int n) => (n + Lanes - 1) & ~(Lanes - 1);

    /// <summary>Eliminates the first <paramref name="k"/> unknowns.</summary>
    /// <param name="a">The front; what lies between n and the stride is not looked at.</param>
    /// <param name="n">Its order.</param>
    /// <param name="stride">Distance of its rows, a multiple of four.</param>
    /// <param name="k">Unknowns to eliminate.</param>
    /// <returns>The number of negative pivots, or −1 where a pivot vanishes.</returns>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal static int Eliminate(Span<double> a, int n, int stride, int k)
    {
        int negative = 0;
        Span<double> multiples = stackalloc double[Block * Rows];
        Span<double> inverse = stackalloc double[Block];
        for (int from = 0; from < k; from += Block)
        {
            int count = Math.Min(Block, k - from);
            for (int p = 0; p < count; p++)
            {
                int row = from + p;
                for (int q = 0; q < p; q++) { multiples[q * Rows] = a[(from + q) * stride + row] * inverse[q]; }
                SubtractFromOne(a, stride, from, p, row, multiples, row);
                double pivot = a[row * stride + row];
                if (!(Math.Abs(pivot) > 0)) { return -1; }
                negative += pivot < 0 ? 1 : 0;
                inverse[p] = 1 / pivot;
            }

            for (int i = from + count; i < n; i += Rows)
            {
                int rows = Math.Min(Rows, n - i);
                for (int q = 0; q < count; q++)
                {
                    for (int r = 0; r < rows; r++) { multiples[q * Rows + r] = a[(from + q) * stride + i + r] * inverse[q]; }
                }

                if (rows == Rows)
                {
                    SubtractFromFour(a, stride, from, count, i, multiples);
                }
                else
                {
                    for (int r = 0; r < rows; r++) { SubtractFromOne(a, stride, from, count, i + r, multiples[r..], i); }
                }
            }
        }

        return negative;
    }

    // Row −= Σ multiple · pivot row, from a column on.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void SubtractFromOne(Span<double> a, int stride, int pivots, int count, int row, ReadOnlySpan<double> multiples, int column)
    {
        if (count == 0) { return; }
        ref double origin = ref MemoryMarshal.GetReference(a);
        ref double m = ref MemoryMarshal.GetReference(multiples);
        ref double target = ref Unsafe.Add(ref origin, row * stride);
        for (int c = column & -Lanes; c < stride; c += Lanes)
        {
            ref double source = ref Unsafe.Add(ref origin, pivots * stride + c);
            Vector256<double> sum = default;
            for (int q = 0; q < count; q++)
            {
                sum = Vector256.FusedMultiplyAdd(Vector256.Create(Unsafe.Add(ref m, q * Rows)), Vector256.LoadUnsafe(ref source), sum);
                source = ref Unsafe.Add(ref source, stride);
            }

            (Vector256.LoadUnsafe(ref target, (nuint)c) - sum).StoreUnsafe(ref target, (nuint)c);
        }
    }

    // Where registers have 512 bits: four rows, sixteen columns at a time. Returns the column that it came to.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static int SubtractWide(ref double pivots, ref double target, int stride, int count, ref double multiples, int from)
    {
        const int wide = 8;
        ref double t1 = ref Unsafe.Add(ref target, stride), t2 = ref Unsafe.Add(ref t1, stride), t3 = ref Unsafe.Add(ref t2, stride);
        int c = from;
        for (; c + 2 * wide <= stride; c += 2 * wide)
        {
            ref double source = ref Unsafe.Add(ref pivots, c), by = ref multiples;
            Vector512<double> s00 = default, s01 = default, s10 = default, s11 = default, s20 = default, s21 = default, s30 = default, s31 = default;
            for (int q = 0; q < count; q++)
            {
                Vector512<double> x0 = Vector512.LoadUnsafe(ref source), x1 = Vector512.LoadUnsafe(ref source, wide);
                var f = Vector512.Create(by);
                s00 = Vector512.FusedMultiplyAdd(f, x0, s00);
                s01 = Vector512.FusedMultiplyAdd(f, x1, s01);
                f = Vector512.Create(Unsafe.Add(ref by, 1));
                s10 = Vector512.FusedMultiplyAdd(f, x0, s10);
                s11 = Vector512.FusedMultiplyAdd(f, x1, s11);
                f = Vector512.Create(Unsafe.Add(ref by, 2));
                s20 = Vector512.FusedMultiplyAdd(f, x0, s20);
                s21 = Vector512.FusedMultiplyAdd(f, x1, s21);
                f = Vector512.Create(Unsafe.Add(ref by, 3));
                s30 = Vector512.FusedMultiplyAdd(f, x0, s30);
                s31 = Vector512.FusedMultiplyAdd(f, x1, s31);
                source = ref Unsafe.Add(ref source, stride);
                by = ref Unsafe.Add(ref by, Rows);
            }

            Subtract(ref target, c, s00, s01);
            Subtract(ref t1, c, s10, s11);
            Subtract(ref t2, c, s20, s21);
            Subtract(ref t3, c, s30, s31);
        }

        return c;

        static void Subtract(ref double row, int c, Vector512<double> s0, Vector512<double> s1)
        {
            (Vector512.LoadUnsafe(ref row, (nuint)c) - s0).StoreUnsafe(ref row, (nuint)c);
            (Vector512.LoadUnsafe(ref row, (nuint)(c + wide)) - s1).StoreUnsafe(ref row, (nuint)(c + wide));
        }
    }

    // The same for four rows, eight columns at a time: each pivot row is loaded once for four.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void SubtractFromFour(Span<double> a, int stride, int pivots, int count, int row, ReadOnlySpan<double> multiples)
    {
        ref double origin = ref MemoryMarshal.GetReference(a);
        ref double m = ref MemoryMarshal.GetReference(multiples);
        ref double t0 = ref Unsafe.Add(ref origin, row * stride);
        ref double t1 = ref Unsafe.Add(ref t0, stride);
        ref double t2 = ref Unsafe.Add(ref t1, stride);
        ref double t3 = ref Unsafe.Add(ref t2, stride);
        int c = row & -Lanes;
        if (Vector512.IsHardwareAccelerated) { c = SubtractWide(ref Unsafe.Add(ref origin, pivots * stride), ref t0, stride, count, ref m, c); }
        for (; c + 2 * Lanes <= stride; c += 2 * Lanes)
        {
            ref double source = ref Unsafe.Add(ref origin, pivots * stride + c);
            ref double by = ref m;
            Vector256<double> s00 = default, s01 = default, s10 = default, s11 = default, s20 = default, s21 = default, s30 = default, s31 = default;
            for (int q = 0; q < count; q++)
            {
                Vector256<double> x0 = Vector256.LoadUnsafe(ref source), x1 = Vector256.LoadUnsafe(ref source, Lanes);
                var f = Vector256.Create(by);
                s00 = Vector256.FusedMultiplyAdd(f, x0, s00);
                s01 = Vector256.FusedMultiplyAdd(f, x1, s01);
                f = Vector256.Create(Unsafe.Add(ref by, 1));
                s10 = Vector256.FusedMultiplyAdd(f, x0, s10);
                s11 = Vector256.FusedMultiplyAdd(f, x1, s11);
                f = Vector256.Create(Unsafe.Add(ref by, 2));
                s20 = Vector256.FusedMultiplyAdd(f, x0, s20);
                s21 = Vector256.FusedMultiplyAdd(f, x1, s21);
                f = Vector256.Create(Unsafe.Add(ref by, 3));
                s30 = Vector256.FusedMultiplyAdd(f, x0, s30);
                s31 = Vector256.FusedMultiplyAdd(f, x1, s31);
                source = ref Unsafe.Add(ref source, stride);
                by = ref Unsafe.Add(ref by, Rows);
            }

            Subtract(ref t0, c, s00, s01);
            Subtract(ref t1, c, s10, s11);
            Subtract(ref t2, c, s20, s21);
            Subtract(ref t3, c, s30, s31);
        }

        if (c < stride)
        {
            ref double source = ref Unsafe.Add(ref origin, pivots * stride + c);
            Vector256<double> s0 = default, s1 = default, s2 = default, s3 = default;
            for (int q = 0; q < count; q++)
            {
                var x = Vector256.LoadUnsafe(ref source);
                s0 = Vector256.FusedMultiplyAdd(Vector256.Create(Unsafe.Add(ref m, q * Rows)), x, s0);
                s1 = Vector256.FusedMultiplyAdd(Vector256.Create(Unsafe.Add(ref m, q * Rows + 1)), x, s1);
                s2 = Vector256.FusedMultiplyAdd(Vector256.Create(Unsafe.Add(ref m, q * Rows + 2)), x, s2);
                s3 = Vector256.FusedMultiplyAdd(Vector256.Create(Unsafe.Add(ref m, q * Rows + 3)), x, s3);
                source = ref Unsafe.Add(ref source, stride);
            }

            (Vector256.LoadUnsafe(ref t0, (nuint)c) - s0).StoreUnsafe(ref t0, (nuint)c);
            (Vector256.LoadUnsafe(ref t1, (nuint)c) - s1).StoreUnsafe(ref t1, (nuint)c);
            (Vector256.LoadUnsafe(ref t2, (nuint)c) - s2).StoreUnsafe(ref t2, (nuint)c);
            (Vector256.LoadUnsafe(ref t3, (nuint)c) - s3).StoreUnsafe(ref t3, (nuint)c);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Subtract(ref double row, int c, Vector256<double> s0, Vector256<double> s1)
    {
        (Vector256.LoadUnsafe(ref row, (nuint)c) - s0).StoreUnsafe(ref row, (nuint)c);
        (Vector256.LoadUnsafe(ref row, (nuint)(c + Lanes)) - s1).StoreUnsafe(ref row, (nuint)(c + Lanes));
    }
}
