namespace SandwichMech.Core.Numerics;

/// <summary>Smooth figures at one place of a line.</summary>
/// <param name="Values">The figures.</param>
/// <param name="Slopes">Their derivatives along the line.</param>
/// <param name="Beside">What changes so gently that a straight line between neighbours does.</param>
internal sealed record LinePoint(double[] Values, double[] Slopes, double[] Beside);

/// <summary>Fills a line of places from solutions at few of them: cubic Hermite interpolation, checked at the middle of every stretch.</summary>
/// <remarks>
/// The place in the middle of a stretch is solved; where the cubic through both ends meets its values and slopes within the tolerance, the two halves
/// are filled by the cubics through their ends, else each is halved again. A cubic's error falls with the fourth power of the stretch, so the halves'
/// is some sixteenth of what was checked. Slopes are checked too: a kink, as where two modes change places, may leave the middle as it is, but never both.
/// </remarks>
internal static class HermiteLine
{
    /// <summary>Fills.</summary>
    /// <param name="x">The places, rising.</param>
    /// <param name="solve">The figures at a place, by its number.</param>
    /// <param name="tolerance">Of the values.</param>
    /// <returns>One point a place.</returns>
    internal static LinePoint[] Fill(IReadOnlyList<double> x, Func<int, LinePoint> solve, double tolerance)
    {
        var points = new LinePoint[x.Count];
        points[0] = solve(0);
        if (x.Count > 1)
        {
            points[^1] = solve(x.Count - 1);
            Between(0, x.Count - 1);
        }

        return points;

        void Between(int from, int to)
        {
            if (to - from < 2) { return; }
            int middle = (from + to) / 2;
            LinePoint guess = At(x[from], points[from], x[to], points[to], x[middle]), found = points[middle] = solve(middle);
            double room = (x[to] - x[from]) / 8;
            bool meets = Enumerable.Range(0, found.Values.Length).All(i =>
                Math.Abs(guess.Values[i] - found.Values[i]) <= tolerance && room * Math.Abs(guess.Slopes[i] - found.Slopes[i]) <= tolerance);
            foreach ((int a, int b) in ((int, int)[])[(from, middle), (middle, to)])
            {
                if (!meets) { Between(a, b); }
                else
                {
                    for (int k = a + 1; k < b; k++) { points[k] = At(x[a], points[a], x[b], points[b], x[k]); }
                }
            }
        }
    }

    /// <summary>The cubic through two points with their slopes.</summary>
    private static LinePoint At(double x0, LinePoint p0, double x1, LinePoint p1, double x)
    {
        double h = x1 - x0, t = (x - x0) / h, s = 1 - t;
        int n = p0.Values.Length;
        double[] values = new double[n], slopes = new double[n];
        for (int i = 0; i < n; i++)
        {
            (double y0, double y1, double d0, double d1) = (p0.Values[i], p1.Values[i], h * p0.Slopes[i], h * p1.Slopes[i]);
            values[i] = s * s * (1 + 2 * t) * y0 + t * t * (1 + 2 * s) * y1 + t * s * (s * d0 - t * d1);
            slopes[i] = (6 * t * s * (y1 - y0) + s * (s - 2 * t) * d0 + t * (t - 2 * s) * d1) / h;
        }

        return new(values, slopes, [.. p0.Beside.Zip(p1.Beside, (a, b) => s * a + t * b)]);
    }
}
