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
    internal const int OpX = 0, OpY = 1, Op1 = 2;
    internal const int Strains = 8;

    /// <summary>
    /// Which motion under which operator makes each strain: εx = u,x; εy = v,y; γxy = u,y + v,x; κx = φx,x; κy = φy,y;
    /// κxy = φx,y + φy,x; γxz = w,x + φx; γyz = w,y + φy.
    /// </summary>
    internal static readonly (int Motion, int Op)[][] Strain =
    [
        [(0, OpX)], [(1, OpY)], [(0, OpY), (1, OpX)],
        [(3, OpX)], [(4, OpY)], [(3, OpY), (4, OpX)],
        [(2, OpX), (3, Op1)], [(2, OpY), (4, Op1)],
    ];

    /// <summary>All nine integrals of one triangle, a symmetric matrix of 3n rows, operator by operator.</summary>
    /// <exception cref="InvalidOperationException">The triangle is folded over.</exception>
    internal static double[] Integrals(NodalMesh mesh, int triangle)
    {
        int q = mesh.Basis.Points.Length, m = 3 * mesh.Basis.Count;
        double[] values = new double[m * q];
        double[] weights = mesh.Operators(triangle, values);
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

    /// <summary>Writes K − σM of one triangle, node by node; the lower triangle is filled.</summary>
    internal static void Stiffness(double[] g, int n, int[] motions, in PlateSection section, double shift, double[] k)
    {
        int m = 3 * n, d = motions.Length, size = d * n;
        Array.Clear(k, 0, size * size);
        Span<double> pair = stackalloc double[9];
        for (int a = 0; a < d; a++)
        {
            for (int b = 0; b < d; b++)
            {
                Coefficients(section, shift, motions[a], motions[b], pair);
                for (int o = 0; o < 9; o++)
                {
                    double c = pair[o];
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

    // Coefficient of (o N)(q N)ᵀ between two motions: the section's stiffness wherever their strains meet, less σ times inertia.
    private static void Coefficients(in PlateSection section, double shift, int a, int b, Span<double> pair)
    {
        pair.Clear();
        for (int e = 0; e < Strains; e++)
        {
            foreach ((int motion, int op) in Strain[e])
            {
                if (motion != a)
                {
                    continue;
                }

                for (int f = 0; f < Strains; f++)
                {
                    foreach ((int other, int otherOp) in Strain[f])
                    {
                        if (other == b)
                        {
                            pair[op * 3 + otherOp] += section[e, f];
                        }
                    }
                }
            }
        }

        pair[Op1 * 3 + Op1] -= shift * section.Inertia(a, b);
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
