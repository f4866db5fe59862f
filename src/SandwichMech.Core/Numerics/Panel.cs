using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using MathNet.Numerics.LinearAlgebra;

namespace SandwichMech.Core.Numerics;

/// <summary>Eight long vectors side by side, interleaved as the factor solves them: entry [8 · i + c] of vector c.</summary>
/// <remarks>Registers of 512 bits; where a machine has none, each is two of 256.</remarks>
internal static class Panel
{
    internal const int Width = FrontalFactor.Together;

    /// <summary>Aᵀ B of two panels, row by row, 8 × 8.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal static double[] Products(double[] a, double[] b)
    {
        ref double x = ref MemoryMarshal.GetArrayDataReference(a);
        ref double y = ref MemoryMarshal.GetArrayDataReference(b);
        Vector512<double> s0 = default, s1 = default, s2 = default, s3 = default, s4 = default, s5 = default, s6 = default, s7 = default;
        for (int i = 0; i < a.Length; i += Width)
        {
            var row = Vector512.LoadUnsafe(ref y, (nuint)i);
            ref double by = ref Unsafe.Add(ref x, i);
            s0 = Vector512.FusedMultiplyAdd(Vector512.Create(by), row, s0);
            s1 = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref by, 1)), row, s1);
            s2 = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref by, 2)), row, s2);
            s3 = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref by, 3)), row, s3);
            s4 = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref by, 4)), row, s4);
            s5 = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref by, 5)), row, s5);
            s6 = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref by, 6)), row, s6);
            s7 = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref by, 7)), row, s7);
        }

        double[] products = new double[Width * Width];
        Vector512<double>[] sums = [s0, s1, s2, s3, s4, s5, s6, s7];
        for (int r = 0; r < Width; r++) { sums[r].CopyTo(products, r * Width); }
        return products;
    }

    /// <summary>B += A C, C of 8 × 8, row by row.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal static void Add(double[] b, double[] a, ReadOnlySpan<double> c)
    {
        ref double x = ref MemoryMarshal.GetArrayDataReference(a);
        ref double y = ref MemoryMarshal.GetArrayDataReference(b);
        Vector512<double> c0 = Row(c, 0), c1 = Row(c, 1), c2 = Row(c, 2), c3 = Row(c, 3), c4 = Row(c, 4), c5 = Row(c, 5), c6 = Row(c, 6), c7 = Row(c, 7);
        for (int i = 0; i < a.Length; i += Width)
        {
            (Vector512.LoadUnsafe(ref y, (nuint)i) + Product(ref Unsafe.Add(ref x, i), c0, c1, c2, c3, c4, c5, c6, c7)).StoreUnsafe(ref y, (nuint)i);
        }
    }

    /// <summary>A = A C in place, C of 8 × 8, row by row.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal static void Multiply(double[] a, ReadOnlySpan<double> c)
    {
        ref double x = ref MemoryMarshal.GetArrayDataReference(a);
        Vector512<double> c0 = Row(c, 0), c1 = Row(c, 1), c2 = Row(c, 2), c3 = Row(c, 3), c4 = Row(c, 4), c5 = Row(c, 5), c6 = Row(c, 6), c7 = Row(c, 7);
        for (int i = 0; i < a.Length; i += Width)
        {
            Product(ref Unsafe.Add(ref x, i), c0, c1, c2, c3, c4, c5, c6, c7).StoreUnsafe(ref x, (nuint)i);
        }
    }

    private static Vector512<double> Row(ReadOnlySpan<double> c, int row) => Vector512.Create(c[(row * Width)..]);

    // One row of a panel times a matrix.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> Product(
        ref double by, Vector512<double> c0, Vector512<double> c1, Vector512<double> c2, Vector512<double> c3,
        Vector512<double> c4, Vector512<double> c5, Vector512<double> c6, Vector512<double> c7)
    {
        Vector512<double> s = Vector512.Create(by) * c0, t = Vector512.Create(Unsafe.Add(ref by, 1)) * c1;
        s = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref by, 2)), c2, s);
        t = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref by, 3)), c3, t);
        s = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref by, 4)), c4, s);
        t = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref by, 5)), c5, t);
        s = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref by, 6)), c6, s);
        t = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref by, 7)), c7, t);
        return s + t;
    }

    /// <summary>Aᵀ B of many panels each.</summary>
    internal static Matrix<double> Products(IReadOnlyList<double[]> a, IReadOnlyList<double[]> b)
    {
        var all = Matrix<double>.Build.Dense(Width * a.Count, Width * b.Count);
        for (int i = 0; i < a.Count; i++)
        {
            for (int j = 0; j < b.Count; j++)
            {
                double[] part = Products(a[i], b[j]);
                for (int k = 0; k < part.Length; k++) { all[Width * i + k / Width, Width * j + k % Width] = part[k]; }
            }
        }

        return all;
    }

    /// <summary>A C of many panels, C with as many rows as they have vectors.</summary>
    internal static double[][] Combine(IReadOnlyList<double[]> a, Matrix<double> c, int panels)
    {
        double[][] result = [.. Enumerable.Range(0, panels).Select(_ => new double[a[0].Length])];
        Combine(a, c, result);
        return result;
    }

    /// <summary>The same into panels that are there.</summary>
    internal static void Combine(IReadOnlyList<double[]> a, Matrix<double> c, double[][] result)
    {
        double[] part = new double[Width * Width];
        for (int j = 0; j < result.Length; j++)
        {
            Array.Clear(result[j]);
            for (int i = 0; i < a.Count; i++)
            {
                for (int k = 0; k < part.Length; k++)
                {
                    int row = Width * i + k / Width, column = Width * j + k % Width;
                    part[k] = row < c.RowCount && column < c.ColumnCount ? c[row, column] : 0;
                }

                Add(result[j], a[i], part);
            }
        }
    }

    /// <summary>One vector of many panels, on its own.</summary>
    internal static double[] Vector(IReadOnlyList<double[]> panels, int number)
    {
        double[] panel = panels[number / Width], v = new double[panel.Length / Width];
        for (int i = 0; i < v.Length; i++) { v[i] = panel[Width * i + number % Width]; }
        return v;
    }

    /// <summary>Vectors as panels, the last one filled up with zeros.</summary>
    internal static double[][] Of(IReadOnlyList<double[]> vectors)
    {
        double[][] panels = new double[(vectors.Count + Width - 1) / Width][];
        for (int j = 0; j < panels.Length; j++)
        {
            panels[j] = new double[Width * vectors[0].Length];
            for (int c = 0; c < Width && Width * j + c < vectors.Count; c++)
            {
                double[] v = vectors[Width * j + c];
                for (int i = 0; i < v.Length; i++) { panels[j][Width * i + c] = v[i]; }
            }
        }

        return panels;
    }

    /// <summary>Panels as one wide one, [panels · 8 · i + 8 · panel + c].</summary>
    internal static void SideBySide(double[][] panels, double[] wide)
    {
        int count = panels.Length, rows = panels[0].Length / Width;
        for (int i = 0; i < rows; i++)
        {
            for (int j = 0; j < count; j++) { Vector512.Create(panels[j], Width * i).CopyTo(wide, Width * (count * i + j)); }
        }
    }

    /// <summary>A wide panel as narrow ones.</summary>
    internal static void Apart(double[] wide, double[][] panels)
    {
        int count = panels.Length, rows = panels[0].Length / Width;
        for (int i = 0; i < rows; i++)
        {
            for (int j = 0; j < count; j++) { Vector512.Create(wide, Width * (count * i + j)).CopyTo(panels[j], Width * i); }
        }
    }
}
