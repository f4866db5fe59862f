using System.Numerics;

namespace SandwichMech.Core.Plates;

/// <summary>The integrals of one triangle, from which all its matrices are sums with the section's coefficients.</summary>
/// <remarks>
/// With the operators ∂x, ∂y and 1 on the shape functions, G[o, q] = ∫ (oN)(qN)ᵀ dA for the nine pairs. Stiffness and
/// mass are linear in the section's coefficients times these. So a change of thickness or wood needs no new integral, and
/// the derivative of a frequency is an exact sum.
/// </remarks>
internal static class PlateElements
{
    /// <summary>All nine integrals of one triangle, a symmetric matrix of 3n rows, operator by operator.</summary>
    /// <exception cref="InvalidOperationException">The triangle is folded over.</exception>
    internal static double[] Integrals(NodalMesh mesh, int triangle)
    {
        double[] values = new double[3 * mesh.Basis.Count * mesh.Basis.Points.Length];
        double[] weights = mesh.Operators(triangle, values);
        return Integrals(mesh, values, weights);
    }

    /// <summary>The same integrals weighted with each of the six quadratic shape functions, for sections that change over the triangle.</summary>
    internal static double[][] WeightedIntegrals(NodalMesh mesh, int triangle)
    {
        int q = mesh.Basis.Points.Length;
        double[] values = new double[3 * mesh.Basis.Count * q];
        double[] weights = mesh.Operators(triangle, values);
        double[][] six = new double[PlateProblem.PlacesOfTriangle][];
        double[][] shapes = [.. mesh.Basis.Points.Select(p => TriangleBasis.Of(2).At(p.R, p.S).N)];
        for (int k = 0; k < six.Length; k++)
        {
            six[k] = Integrals(mesh, values, [.. Enumerable.Range(0, q).Select(p => weights[p] * shapes[p][k])]);
        }

        return six;
    }

    private static double[] Integrals(NodalMesh mesh, double[] values, double[] weights)
    {
        int q = mesh.Basis.Points.Length, m = 3 * mesh.Basis.Count;
        double[] weighted = new double[values.Length];
        for (int i = 0; i < m; i++)
        {
            for (int p = 0; p < q; p++)
            {
                weighted[i * q + p] = values[i * q + p] * weights[p];
            }
        }

        double[] g = new double[m * m];
        for (int i = 0; i < m; i++)
        {
            for (int j = 0; j <= i; j++)
            {
                g[i * m + j] = g[j * m + i] = Dot(weighted.AsSpan(i * q, q), values.AsSpan(j * q, q));
            }
        }

        return g;
    }

    /// <summary>Adds K − σM of one triangle, node by node, to the lower triangle of k.</summary>
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

    private static double Dot(ReadOnlySpan<double> x, ReadOnlySpan<double> y)
    {
        Vector<double> sum = default;
        int p = 0;
        for (; p <= x.Length - Vector<double>.Count; p += Vector<double>.Count)
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
