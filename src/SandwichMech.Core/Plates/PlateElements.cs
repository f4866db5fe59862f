using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace SandwichMech.Core.Plates;

/// <summary>The integrals of one triangle, from which all its matrices are sums with the section's coefficients.</summary>
/// <remarks>
/// With the operators ∂x, ∂y and 1 on the shape functions, G[o, q] = ∫ (oN)(qN)ᵀ dA for the nine pairs. Stiffness and
/// mass are linear in the section's coefficients times these. So a change of thickness or wood needs no new integral, and
/// the derivative of a frequency is an exact sum.
/// </remarks>
internal static class PlateElements
{
    private const int Lanes = 4;

    /// <summary>All nine integrals of one triangle, a symmetric matrix of 3n rows, operator by operator.</summary>
    /// <exception cref="InvalidOperationException">The triangle is folded over.</exception>
    internal static double[] Integrals(NodalMesh mesh, int triangle)
    {
        if (mesh.IsStraight(triangle)) { return mesh.Basis.Straight.Integrals(mesh.Corner(triangle, 0), mesh.Corner(triangle, 1), mesh.Corner(triangle, 2)); }
        double[] values = new double[Padded(3 * mesh.Basis.Count) * mesh.Basis.Stride];
        double[] weights = mesh.Operators(triangle, values);
        return Integrals(mesh, values, weights);
    }

    /// <summary>The same integrals weighted with each of the six quadratic shape functions, for sections that change over the triangle.</summary>
    internal static double[][] WeightedIntegrals(NodalMesh mesh, int triangle)
    {
        int q = mesh.Basis.Points.Length;
        double[] values = new double[Padded(3 * mesh.Basis.Count) * mesh.Basis.Stride];
        double[] weights = mesh.Operators(triangle, values);
        double[][] six = new double[PlateProblem.PlacesOfTriangle][];
        double[][] shapes = [.. mesh.Basis.Points.Select(p => TriangleBasis.Of(2).At(p.R, p.S).N)];
        for (int k = 0; k < six.Length; k++)
        {
            six[k] = Integrals(mesh, values, [.. Enumerable.Range(0, q).Select(p => weights[p] * shapes[p][k])]);
        }

        return six;
    }

    private static int Padded(int n) => (n + Lanes - 1) & -Lanes;

    // Sums over the points of products of rows, in tiles of 4 × 4 rows; rows are padded with zeros to whole vector registers.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static double[] Integrals(NodalMesh mesh, double[] values, double[] weights)
    {
        int q = mesh.Basis.Points.Length, stride = mesh.Basis.Stride, m = 3 * mesh.Basis.Count;
        double[] weighted = new double[values.Length];
        for (int i = 0; i < m; i++)
        {
            for (int p = 0; p < q; p++) { weighted[i * stride + p] = values[i * stride + p] * weights[p]; }
        }

        double[] g = GC.AllocateUninitializedArray<double>(m * m);
        Span<double> tile = stackalloc double[Lanes * Lanes];
        for (int i = 0; i < m; i += Lanes)
        {
            for (int j = 0; j <= i; j += Lanes)
            {
                Tile(ref weighted[i * stride], ref values[j * stride], stride, tile);
                int rows = Math.Min(Lanes, m - i), columns = Math.Min(Lanes, m - j);
                for (int r = 0; r < rows; r++)
                {
                    for (int c = 0; c < columns; c++)
                    {
                        g[(i + r) * m + j + c] = g[(j + c) * m + i + r] = tile[r * Lanes + c];
                    }
                }
            }
        }

        return g;
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Tile(ref double a, ref double b, int stride, Span<double> tile)
    {
        Vector256<double> s00 = default, s01 = default, s02 = default, s03 = default, s10 = default, s11 = default, s12 = default, s13 = default;
        Vector256<double> s20 = default, s21 = default, s22 = default, s23 = default, s30 = default, s31 = default, s32 = default, s33 = default;
        for (int p = 0; p < stride; p += Lanes)
        {
            var b0 = Vector256.LoadUnsafe(ref b, (nuint)p);
            var b1 = Vector256.LoadUnsafe(ref b, (nuint)(stride + p));
            var b2 = Vector256.LoadUnsafe(ref b, (nuint)(2 * stride + p));
            var b3 = Vector256.LoadUnsafe(ref b, (nuint)(3 * stride + p));
            var x = Vector256.LoadUnsafe(ref a, (nuint)p);
            (s00, s01, s02, s03) = (Fma(x, b0, s00), Fma(x, b1, s01), Fma(x, b2, s02), Fma(x, b3, s03));
            x = Vector256.LoadUnsafe(ref a, (nuint)(stride + p));
            (s10, s11, s12, s13) = (Fma(x, b0, s10), Fma(x, b1, s11), Fma(x, b2, s12), Fma(x, b3, s13));
            x = Vector256.LoadUnsafe(ref a, (nuint)(2 * stride + p));
            (s20, s21, s22, s23) = (Fma(x, b0, s20), Fma(x, b1, s21), Fma(x, b2, s22), Fma(x, b3, s23));
            x = Vector256.LoadUnsafe(ref a, (nuint)(3 * stride + p));
            (s30, s31, s32, s33) = (Fma(x, b0, s30), Fma(x, b1, s31), Fma(x, b2, s32), Fma(x, b3, s33));
        }

        (tile[0], tile[1], tile[2], tile[3]) = (Vector256.Sum(s00), Vector256.Sum(s01), Vector256.Sum(s02), Vector256.Sum(s03));
        (tile[4], tile[5], tile[6], tile[7]) = (Vector256.Sum(s10), Vector256.Sum(s11), Vector256.Sum(s12), Vector256.Sum(s13));
        (tile[8], tile[9], tile[10], tile[11]) = (Vector256.Sum(s20), Vector256.Sum(s21), Vector256.Sum(s22), Vector256.Sum(s23));
        (tile[12], tile[13], tile[14], tile[15]) = (Vector256.Sum(s30), Vector256.Sum(s31), Vector256.Sum(s32), Vector256.Sum(s33));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Fma(Vector256<double> a, Vector256<double> b, Vector256<double> c) => Vector256.FusedMultiplyAdd(a, b, c);

    /// <summary>Adds K − σM of one triangle, node by node, to the lower triangle of k.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal static void AddStiffness(double[] g, int n, int[] motions, SectionCoefficients section, double shift, double[] k)
    {
        int m = 3 * n, d = motions.Length, size = d * n;
        const int one = PlateStrains.Op1 * 3 + PlateStrains.Op1;
        for (int a = 0; a < d; a++)
        {
            for (int b = 0; b < d; b++)
            {
                double[] pair = section.Stiffness[motions[a] * PlateStrains.Motions + motions[b]];
                double inertia = shift * section.Inertia[motions[a], motions[b]];
                for (int o = 0; o < 9; o++)
                {
                    double c = o == one ? pair[o] - inertia : pair[o];
                    if (c == 0)
                    {
                        continue;
                    }

                    int gRow = o / 3 * n * m + o % 3 * n;
                    for (int i = 0; i < n; i++)
                    {
                        int row = (i * d + a) * size + b, source = gRow + i * m, end = b <= a ? i : i - 1;
                        for (int j = 0; j <= end; j++)
                        {
                            k[row + j * d] += c * g[source + j];
                        }
                    }
                }
            }
        }
    }
}
