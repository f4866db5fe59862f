using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates;

/// <summary>The integrals of triangles with straight sides: the map from the unit triangle is linear, so they are sums of six integrals on it.</summary>
internal sealed class StraightTriangle
{
    private readonly int _n;
    // Over the unit triangle, n × n: ∂r∂r, ∂r∂s, ∂s∂s, ∂r·1, ∂s·1, 1·1.
    private readonly double[] _rr, _rs, _ss, _r1, _s1, _one;

    internal StraightTriangle(TriangleBasis basis)
    {
        _n = basis.Count;
        _rr = Products(basis, basis.Dr, basis.Dr);
        _rs = Products(basis, basis.Dr, basis.Ds);
        _ss = Products(basis, basis.Ds, basis.Ds);
        _r1 = Products(basis, basis.Dr, basis.N);
        _s1 = Products(basis, basis.Ds, basis.N);
        _one = Products(basis, basis.N, basis.N);
    }

    /// <summary>The nine integrals of <see cref="PlateElements"/>.</summary>
    /// <exception cref="InvalidOperationException">The triangle is folded over.</exception>
    internal double[] Integrals(Point a, Point b, Point c)
    {
        Point alongR = b - a, alongS = c - a;
        double det = alongR.Cross(alongS);
        if (!(det > 0)) { throw new InvalidOperationException("A triangle of the mesh is folded over."); }
        // ∂x = xr ∂r + xs ∂s, ∂y = yr ∂r + ys ∂s.
        double xr = alongS.Y / det, xs = -alongR.Y / det, yr = -alongS.X / det, ys = alongR.X / det;
        int n = _n, m = 3 * n;
        double[] g = GC.AllocateUninitializedArray<double>(m * m);
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                int ij = i * n + j;
                double rr = det * _rr[ij], rs = det * _rs[ij], sr = det * _rs[j * n + i], ss = det * _ss[ij], r1 = det * _r1[ij], s1 = det * _s1[ij];
                g[i * m + j] = xr * xr * rr + xr * xs * (rs + sr) + xs * xs * ss;
                g[(n + i) * m + n + j] = yr * yr * rr + yr * ys * (rs + sr) + ys * ys * ss;
                g[(2 * n + i) * m + 2 * n + j] = det * _one[ij];
                g[i * m + n + j] = g[(n + j) * m + i] = xr * yr * rr + xr * ys * rs + xs * yr * sr + xs * ys * ss;
                g[i * m + 2 * n + j] = g[(2 * n + j) * m + i] = xr * r1 + xs * s1;
                g[(n + i) * m + 2 * n + j] = g[(2 * n + j) * m + n + i] = yr * r1 + ys * s1;
            }
        }

        return g;
    }

    private static double[] Products(TriangleBasis basis, double[] a, double[] b)
    {
        int n = basis.Count, q = basis.Points.Length;
        double[] products = new double[n * n];
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                for (int p = 0; p < q; p++) { products[i * n + j] += basis.Weights[p] * a[i * q + p] * b[j * q + p]; }
            }
        }

        return products;
    }
}
