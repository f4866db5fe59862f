using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace SandwichMech.Core.Numerics;

/// <summary>Partial LDLᵀ factorisation of a dense symmetric front: the step that a multifrontal solver repeats.</summary>
/// <remarks>
/// The front of order n is held row by row, lower triangle, leading dimension <c>stride</c>. The first k unknowns are eliminated:
/// A = [A11 ·; A21 A22] → L11, D, L21 in place, and the Schur complement A22 − L21 D L21ᵀ in the place of A22. Blocked by
/// columns so that nearly all the work is products of rows that lie contiguous in memory. No pivoting: for the
/// positive definite K − σM of a shift below the spectrum none is needed; for a Sturm count a vanishing pivot is
/// reported and the caller moves the shift.
/// </remarks>
internal static class DenseFront
{
    private const int Block = 32;

    /// <summary>Eliminates the first <paramref name="k"/> unknowns.</summary>
    /// <returns>The number of negative pivots, or −1 where a pivot vanishes.</returns>
    internal static int Eliminate(Span<double> a, int n, int stride, int k, Span<double> work)
    {
        int negative = 0;
        for (int j0 = 0; j0 < k; j0 += Block)
        {
            int nb = Math.Min(Block, k - j0);
            // Diagonal block and the rows below it, unblocked within the panel.
            for (int j = j0; j < j0 + nb; j++)
            {
                Span<double> rowJ = a.Slice(j * stride + j0, j - j0);
                double d = a[j * stride + j];
                for (int p = 0; p < rowJ.Length; p++)
                {
                    double l = rowJ[p];
                    d -= l * l * a[(j0 + p) * stride + j0 + p];
                }

                a[j * stride + j] = d;
                if (!(Math.Abs(d) > 0))
                {
                    return -1;
                }

                negative += d < 0 ? 1 : 0;
                // scaled row j: L_jp D_p
                Span<double> scaled = work[..(j - j0)];
                for (int p = 0; p < scaled.Length; p++)
                {
                    scaled[p] = rowJ[p] * a[(j0 + p) * stride + j0 + p];
                }

                double inverse = 1 / d;
                for (int i = j + 1; i < n; i++)
                {
                    Span<double> rowI = a.Slice(i * stride + j0, j - j0 + 1);
                    rowI[^1] = (rowI[^1] - Dot(rowI[..^1], scaled)) * inverse;
                }
            }

            Update(a, n, stride, j0, nb, work);
        }

        return negative;
    }

    // A22 −= L21 (D L21ᵀ) over the panel's columns, in tiles of 4 × 4 rows.
    private static void Update(Span<double> a, int n, int stride, int j0, int nb, Span<double> work)
    {
        int from = j0 + nb, rows = n - from;
        if (rows == 0)
        {
            return;
        }

        // W = L21 D, contiguous, nb columns padded to a multiple of 4 with zeros.
        int wide = (nb + 3) & ~3;
        Span<double> w = work[..(rows * wide)];
        Span<double> l = work.Slice(rows * wide, rows * wide);
        for (int i = 0; i < rows; i++)
        {
            Span<double> source = a.Slice((from + i) * stride + j0, nb);
            for (int p = 0; p < nb; p++)
            {
                l[i * wide + p] = source[p];
                w[i * wide + p] = source[p] * a[(j0 + p) * stride + j0 + p];
            }

            for (int p = nb; p < wide; p++)
            {
                l[i * wide + p] = 0;
                w[i * wide + p] = 0;
            }
        }

        ref double lr = ref MemoryMarshal.GetReference(l);
        ref double wr = ref MemoryMarshal.GetReference(w);
        for (int i = 0; i < rows; i += 4)
        {
            int ni = Math.Min(4, rows - i);
            for (int j = 0; j <= i; j += 4)
            {
                int nj = Math.Min(4, rows - j);
                if (ni == 4 && nj == 4)
                {
                    Tile(ref Unsafe.Add(ref lr, i * wide), ref Unsafe.Add(ref wr, j * wide), wide, a, (from + i) * stride + from + j, stride);
                }
                else
                {
                    for (int ii = 0; ii < ni; ii++)
                    {
                        for (int jj = 0; jj < nj; jj++)
                        {
                            a[(from + i + ii) * stride + from + j + jj] -= Dot(l.Slice((i + ii) * wide, wide), w.Slice((j + jj) * wide, wide));
                        }
                    }
                }
            }
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Tile(ref double l, ref double w, int wide, Span<double> a, int at, int stride)
    {
        Vector256<double> c00 = default, c01 = default, c02 = default, c03 = default;
        Vector256<double> c10 = default, c11 = default, c12 = default, c13 = default;
        Vector256<double> c20 = default, c21 = default, c22 = default, c23 = default;
        Vector256<double> c30 = default, c31 = default, c32 = default, c33 = default;
        for (int p = 0; p < wide; p += 4)
        {
            var w0 = Vector256.LoadUnsafe(ref w, (nuint)p);
            var w1 = Vector256.LoadUnsafe(ref w, (nuint)(wide + p));
            var w2 = Vector256.LoadUnsafe(ref w, (nuint)(2 * wide + p));
            var w3 = Vector256.LoadUnsafe(ref w, (nuint)(3 * wide + p));
            var x = Vector256.LoadUnsafe(ref l, (nuint)p);
            c00 = Vector256.FusedMultiplyAdd(x, w0, c00); c01 = Vector256.FusedMultiplyAdd(x, w1, c01);
            c02 = Vector256.FusedMultiplyAdd(x, w2, c02); c03 = Vector256.FusedMultiplyAdd(x, w3, c03);
            x = Vector256.LoadUnsafe(ref l, (nuint)(wide + p));
            c10 = Vector256.FusedMultiplyAdd(x, w0, c10); c11 = Vector256.FusedMultiplyAdd(x, w1, c11);
            c12 = Vector256.FusedMultiplyAdd(x, w2, c12); c13 = Vector256.FusedMultiplyAdd(x, w3, c13);
            x = Vector256.LoadUnsafe(ref l, (nuint)(2 * wide + p));
            c20 = Vector256.FusedMultiplyAdd(x, w0, c20); c21 = Vector256.FusedMultiplyAdd(x, w1, c21);
            c22 = Vector256.FusedMultiplyAdd(x, w2, c22); c23 = Vector256.FusedMultiplyAdd(x, w3, c23);
            x = Vector256.LoadUnsafe(ref l, (nuint)(3 * wide + p));
            c30 = Vector256.FusedMultiplyAdd(x, w0, c30); c31 = Vector256.FusedMultiplyAdd(x, w1, c31);
            c32 = Vector256.FusedMultiplyAdd(x, w2, c32); c33 = Vector256.FusedMultiplyAdd(x, w3, c33);
        }

        Span<double> r = a.Slice(at, 4);
        r[0] -= Vector256.Sum(c00); r[1] -= Vector256.Sum(c01); r[2] -= Vector256.Sum(c02); r[3] -= Vector256.Sum(c03);
        r = a.Slice(at + stride, 4);
        r[0] -= Vector256.Sum(c10); r[1] -= Vector256.Sum(c11); r[2] -= Vector256.Sum(c12); r[3] -= Vector256.Sum(c13);
        r = a.Slice(at + 2 * stride, 4);
        r[0] -= Vector256.Sum(c20); r[1] -= Vector256.Sum(c21); r[2] -= Vector256.Sum(c22); r[3] -= Vector256.Sum(c23);
        r = a.Slice(at + 3 * stride, 4);
        r[0] -= Vector256.Sum(c30); r[1] -= Vector256.Sum(c31); r[2] -= Vector256.Sum(c32); r[3] -= Vector256.Sum(c33);
    }

    private static double Dot(ReadOnlySpan<double> x, ReadOnlySpan<double> y)
    {
        Vector<double> sum = default;
        int p = 0, width = Vector<double>.Count;
        for (; p <= x.Length - width; p += width)
        {
            sum += new Vector<double>(x[p..]) * new Vector<double>(y[p..]);
        }

        double total = Vector.Sum(sum);
        for (; p < x.Length; p++)
        {
            total += x[p] * y[p];
        }

        return total;
    }
}
