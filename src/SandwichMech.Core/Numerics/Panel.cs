using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using MathNet.Numerics.LinearAlgebra;

namespace SandwichMech.Core.Numerics;

/// <summary>Four long vectors side by side, interleaved as the factor solves them: entry [4 · i + c] of vector c.</summary>
internal static class Panel
{
    internal const int Width = FrontalFactor.Together;

    /// <summary>Aᵀ B of two panels, row by row, 4 × 4.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal static double[] Products(double[] a, double[] b)
    {
        ref double x = ref MemoryMarshal.GetArrayDataReference(a);
        ref double y = ref MemoryMarshal.GetArrayDataReference(b);
        Vector256<double> s0 = default, s1 = default, s2 = default, s3 = default;
        for (int i = 0; i < a.Length; i += Width)
        {
            var row = Vector256.LoadUnsafe(ref y, (nuint)i);
            s0 = Vector256.FusedMultiplyAdd(Vector256.Create(Unsafe.Add(ref x, i)), row, s0);
            s1 = Vector256.FusedMultiplyAdd(Vector256.Create(Unsafe.Add(ref x, i + 1)), row, s1);
            s2 = Vector256.FusedMultiplyAdd(Vector256.Create(Unsafe.Add(ref x, i + 2)), row, s2);
            s3 = Vector256.FusedMultiplyAdd(Vector256.Create(Unsafe.Add(ref x, i + 3)), row, s3);
        }

        double[] products = new double[Width * Width];
        s0.CopyTo(products, 0);
        s1.CopyTo(products, Width);
        s2.CopyTo(products, 2 * Width);
        s3.CopyTo(products, 3 * Width);
        return products;
    }

    /// <summary>B += A C, C of 4 × 4, row by row.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal static void Add(double[] b, double[] a, ReadOnlySpan<double> c)
    {
        ref double x = ref MemoryMarshal.GetArrayDataReference(a);
        ref double y = ref MemoryMarshal.GetArrayDataReference(b);
        Vector256<double> c0 = Vector256.Create(c), c1 = Vector256.Create(c[Width..]), c2 = Vector256.Create(c[(2 * Width)..]), c3 = Vector256.Create(c[(3 * Width)..]);
        for (int i = 0; i < a.Length; i += Width)
        {
            var s = Vector256.FusedMultiplyAdd(Vector256.Create(Unsafe.Add(ref x, i)), c0, Vector256.LoadUnsafe(ref y, (nuint)i));
            Vector256<double> t = Vector256.Create(Unsafe.Add(ref x, i + 1)) * c1;
            s = Vector256.FusedMultiplyAdd(Vector256.Create(Unsafe.Add(ref x, i + 2)), c2, s);
            t = Vector256.FusedMultiplyAdd(Vector256.Create(Unsafe.Add(ref x, i + 3)), c3, t);
            (s + t).StoreUnsafe(ref y, (nuint)i);
        }
    }

    /// <summary>A = A C in place, C of 4 × 4, row by row.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal static void Multiply(double[] a, ReadOnlySpan<double> c)
    {
        ref double x = ref MemoryMarshal.GetArrayDataReference(a);
        Vector256<double> c0 = Vector256.Create(c), c1 = Vector256.Create(c[Width..]), c2 = Vector256.Create(c[(2 * Width)..]), c3 = Vector256.Create(c[(3 * Width)..]);
        for (int i = 0; i < a.Length; i += Width)
        {
            Vector256<double> s = Vector256.Create(Unsafe.Add(ref x, i)) * c0, t = Vector256.Create(Unsafe.Add(ref x, i + 1)) * c1;
            s = Vector256.FusedMultiplyAdd(Vector256.Create(Unsafe.Add(ref x, i + 2)), c2, s);
            t = Vector256.FusedMultiplyAdd(Vector256.Create(Unsafe.Add(ref x, i + 3)), c3, t);
            (s + t).StoreUnsafe(ref x, (nuint)i);
        }
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

    /// <summary>Panels as one wide one, [panels · 4 · i + 4 · panel + c].</summary>
    internal static void SideBySide(double[][] panels, double[] wide)
    {
        int count = panels.Length, rows = panels[0].Length / Width;
        for (int i = 0; i < rows; i++)
        {
            for (int j = 0; j < count; j++) { Vector256.Create(panels[j], Width * i).CopyTo(wide, Width * (count * i + j)); }
        }
    }

    /// <summary>A wide panel as narrow ones.</summary>
    internal static void Apart(double[] wide, double[][] panels)
    {
        int count = panels.Length, rows = panels[0].Length / Width;
        for (int i = 0; i < rows; i++)
        {
            for (int j = 0; j < count; j++) { Vector256.Create(wide, Width * (count * i + j)).CopyTo(panels[j], Width * i); }
        }
    }
}
