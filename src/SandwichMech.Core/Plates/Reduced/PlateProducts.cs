using SandwichMech.Core.Numerics;

namespace SandwichMech.Core.Plates.Reduced;

/// <summary>Products of a plate's full matrices with many vectors at once.</summary>
internal static class PlateProducts
{
    /// <summary>(K − σM) x for each x.</summary>
    internal static double[][] Stiffness(PlateSystem system, double shift, IReadOnlyList<double[]> x)
    {
        int columns = x.Count;
        double[] sum = new double[system.Unknowns * columns];
        int largest = system.Elements.Max(e => e.Length);
        double[] k = new double[largest * largest], local = new double[largest * columns], image = new double[largest * columns];
        for (int e = 0; e < system.Elements.Length; e++)
        {
            int[] dofs = system.Elements[e];
            int size = dofs.Length;
            system.Matrix(e, shift, k);
            Array.Clear(image, 0, size * columns);
            for (int i = 0; i < size; i++)
            {
                for (int c = 0; c < columns; c++) { local[i * columns + c] = dofs[i] < 0 ? 0 : x[c][dofs[i]]; }
            }

            for (int i = 0; i < size; i++)
            {
                for (int j = 0; j <= i; j++)
                {
                    double value = k[i * size + j];
                    if (value == 0) { continue; }
                    DenseRows.Add(image.AsSpan(i * columns, columns), value, local.AsSpan(j * columns, columns));
                    if (j < i) { DenseRows.Add(image.AsSpan(j * columns, columns), value, local.AsSpan(i * columns, columns)); }
                }
            }

            for (int i = 0; i < size; i++)
            {
                if (dofs[i] >= 0) { DenseRows.Add(sum.AsSpan(dofs[i] * columns, columns), 1, image.AsSpan(i * columns, columns)); }
            }
        }

        return [.. Enumerable.Range(0, columns).Select(c =>
        {
            double[] y = new double[system.Unknowns];
            for (int i = 0; i < y.Length; i++) { y[i] = sum[i * columns + c]; }
            return y;
        })];
    }

    /// <summary>M x.</summary>
    internal static double[] Mass(PlateSystem system, double[] x)
    {
        double[] y = new double[x.Length];
        system.Mass(x, y);
        return y;
    }
}
