namespace SandwichMech.Core.Outlines;

/// <summary>The cubic spline of <see cref="Shapes.Smooth"/>.</summary>
internal static class Spline
{
    internal static Curve Through(List<Point> p, bool closed)
    {
        int n = p.Count, spans = closed ? n : n - 1;
        double[] h = [.. Enumerable.Range(0, spans).Select(i => Math.Sqrt((p[(i + 1) % n] - p[i]).Norm))];
        // Continuity of the second derivative, in the derivatives m: m[i−1]/h[i−1] + 2 (1/h[i−1] + 1/h[i]) m[i] + m[i+1]/h[i] = right.
        double[] below = new double[n], diagonal = new double[n], above = new double[n];
        var right = new Point[n];
        for (int i = 0; i < n; i++)
        {
            bool first = !closed && i == 0, last = !closed && i == n - 1;
            if (!first)
            {
                int k = (i + spans - 1) % spans;
                below[i] = 1 / h[k];
                diagonal[i] += 2 / h[k];
                right[i] += 3 / (h[k] * h[k]) * (p[i] - p[(i + n - 1) % n]);
            }

            if (!last)
            {
                above[i] = 1 / h[i];
                diagonal[i] += 2 / h[i];
                right[i] += 3 / (h[i] * h[i]) * (p[(i + 1) % n] - p[i]);
            }
        }

        Point[] m = closed ? Cyclic(below, diagonal, above, right) : Tridiagonal(below, diagonal, above, right);
        return new([.. Enumerable.Range(0, spans).Select(i =>
        {
            int j = (i + 1) % n;
            return new Bezier(p[i], p[i] + h[i] / 3 * m[i], p[j] - h[i] / 3 * m[j], p[j]);
        })]);
    }

    private static Point[] Tridiagonal(double[] below, double[] diagonal, double[] above, Point[] right)
    {
        int n = right.Length;
        double[] d = [.. diagonal];
        Point[] x = [.. right];
        for (int i = 1; i < n; i++)
        {
            double f = below[i] / d[i - 1];
            d[i] -= f * above[i - 1];
            x[i] -= f * x[i - 1];
        }

        x[n - 1] = 1 / d[n - 1] * x[n - 1];
        for (int i = n - 2; i >= 0; i--) { x[i] = 1 / d[i] * (x[i] - above[i] * x[i + 1]); }
        return x;
    }

    // The two corner entries as a rank-one change (Sherman & Morrison 1950).
    private static Point[] Cyclic(double[] below, double[] diagonal, double[] above, Point[] right)
    {
        int n = right.Length;
        double corner = below[0], other = above[n - 1], gamma = -diagonal[0];
        double[] d = [.. diagonal];
        d[0] -= gamma;
        d[n - 1] -= other * corner / gamma;
        var u = new Point[n];
        u[0] = new(gamma, 0);
        u[n - 1] = new(other, 0);
        Point[] x = Tridiagonal(below, d, above, right), z = Tridiagonal(below, d, above, u);
        double scale = 1 + z[0].X + corner / gamma * z[n - 1].X;
        Point f = 1 / scale * (x[0] + corner / gamma * x[n - 1]);
        for (int i = 0; i < n; i++) { x[i] -= z[i].X * f; }
        return x;
    }
}
