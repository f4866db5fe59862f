using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Lanes = System.Runtime.Intrinsics.Vector512<double>;

namespace SandwichMech.Core.Numerics;

/// <summary>aᵀb of two tall matrices whose rows are whole registers.</summary>
internal static class DenseProduct
{
    private const int Width = 8, Rows = 4;

    /// <summary>The next multiple of eight.</summary>
    internal static int Padded(int n) => (n + Width - 1) & -Width;

    /// <summary>sum += aᵀb, four rows by two registers at a time in registers.</summary>
    /// <param name="a">[point · columns + column].</param>
    /// <param name="columnsOfA">A multiple of four.</param>
    /// <param name="b">[point · columns + column].</param>
    /// <param name="columnsOfB">A multiple of eight.</param>
    /// <param name="points">Rows of both.</param>
    /// <param name="sum">[column of a · columns of b + column of b].</param>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal static void AddTransposed(ReadOnlySpan<double> a, int columnsOfA, ReadOnlySpan<double> b, int columnsOfB, int points, Span<double> sum)
    {
        if (columnsOfA % Rows != 0 || columnsOfB % Width != 0) { throw new ArgumentException("Rows must be whole registers."); }
        // Slices are checked once, so that what follows stays within.
        ref double left = ref MemoryMarshal.GetReference(a[..(points * columnsOfA)]);
        ref double right = ref MemoryMarshal.GetReference(b[..(points * columnsOfB)]);
        ref double to = ref MemoryMarshal.GetReference(sum[..(columnsOfA * columnsOfB)]);
        for (int row = 0; row < columnsOfA; row += Rows)
        {
            ref double target = ref Unsafe.Add(ref to, row * columnsOfB);
            int c = 0;
            for (; c + 2 * Width <= columnsOfB; c += 2 * Width)
            {
                Lanes s00 = default, s01 = default, s10 = default, s11 = default, s20 = default, s21 = default, s30 = default, s31 = default;
                ref double f = ref Unsafe.Add(ref left, row);
                ref double x = ref Unsafe.Add(ref right, c);
                for (int p = 0; p < points; p++)
                {
                    Lanes x0 = Vector512.LoadUnsafe(ref x), x1 = Vector512.LoadUnsafe(ref x, Width);
                    var by = Vector512.Create(f);
                    s00 = Vector512.FusedMultiplyAdd(by, x0, s00);
                    s01 = Vector512.FusedMultiplyAdd(by, x1, s01);
                    by = Vector512.Create(Unsafe.Add(ref f, 1));
                    s10 = Vector512.FusedMultiplyAdd(by, x0, s10);
                    s11 = Vector512.FusedMultiplyAdd(by, x1, s11);
                    by = Vector512.Create(Unsafe.Add(ref f, 2));
                    s20 = Vector512.FusedMultiplyAdd(by, x0, s20);
                    s21 = Vector512.FusedMultiplyAdd(by, x1, s21);
                    by = Vector512.Create(Unsafe.Add(ref f, 3));
                    s30 = Vector512.FusedMultiplyAdd(by, x0, s30);
                    s31 = Vector512.FusedMultiplyAdd(by, x1, s31);
                    f = ref Unsafe.Add(ref f, columnsOfA);
                    x = ref Unsafe.Add(ref x, columnsOfB);
                }

                Add(ref target, c, s00);
                Add(ref target, c + Width, s01);
                Add(ref target, columnsOfB + c, s10);
                Add(ref target, columnsOfB + c + Width, s11);
                Add(ref target, 2 * columnsOfB + c, s20);
                Add(ref target, 2 * columnsOfB + c + Width, s21);
                Add(ref target, 3 * columnsOfB + c, s30);
                Add(ref target, 3 * columnsOfB + c + Width, s31);
            }

            if (c < columnsOfB)
            {
                Lanes s0 = default, s1 = default, s2 = default, s3 = default;
                ref double f = ref Unsafe.Add(ref left, row);
                ref double x = ref Unsafe.Add(ref right, c);
                for (int p = 0; p < points; p++)
                {
                    var x0 = Vector512.LoadUnsafe(ref x);
                    s0 = Vector512.FusedMultiplyAdd(Vector512.Create(f), x0, s0);
                    s1 = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref f, 1)), x0, s1);
                    s2 = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref f, 2)), x0, s2);
                    s3 = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref f, 3)), x0, s3);
                    f = ref Unsafe.Add(ref f, columnsOfA);
                    x = ref Unsafe.Add(ref x, columnsOfB);
                }

                Add(ref target, c, s0);
                Add(ref target, columnsOfB + c, s1);
                Add(ref target, 2 * columnsOfB + c, s2);
                Add(ref target, 3 * columnsOfB + c, s3);
            }
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Add(ref double target, int at, Lanes value) => (Vector512.LoadUnsafe(ref target, (nuint)at) + value).StoreUnsafe(ref target, (nuint)at);
}
