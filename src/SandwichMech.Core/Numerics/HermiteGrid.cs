namespace SandwichMech.Core.Numerics;

/// <summary>Smooth figures at one place of a grid.</summary>
/// <param name="Values">The figures.</param>
/// <param name="First">Their derivatives along the first axis.</param>
/// <param name="Second">Along the second.</param>
/// <param name="Beside">What changes so gently that a straight line between neighbours does.</param>
internal sealed record GridPoint(double[] Values, double[] First, double[] Second, double[] Beside);

/// <summary>Fills a grid of places from solutions at few of them: lines along the second axis by <see cref="HermiteLine"/>, and whole lines along the first by the same.</summary>
/// <remarks>
/// Slopes along the first axis are straight between the solved places of a line. What that leaves, some h²/8 of their curvature, is seen where a line
/// in the middle of a stretch is checked against the cubics between its neighbours, at all places of it.
/// </remarks>
internal static class HermiteGrid
{
    /// <summary>Fills.</summary>
    /// <param name="first">Places along the first axis, rising.</param>
    /// <param name="second">Places along the second.</param>
    /// <param name="solve">The figures at a place, by its numbers.</param>
    /// <param name="tolerance">Of the values.</param>
    /// <returns>Values and what is beside them of each place, the first axis slowest.</returns>
    internal static IReadOnlyList<(double[] Values, double[] Beside)> Fill(
        IReadOnlyList<double> first, IReadOnlyList<double> second, Func<int, int, GridPoint> solve, double tolerance)
    {
        int values = 0, beside = 0;
        LinePoint[] lines = HermiteLine.Fill(first, Line, tolerance);
        return [.. lines.SelectMany(l => Enumerable.Range(0, second.Count).Select(j => (l.Values[(j * values)..((j + 1) * values)], l.Beside[(j * beside)..((j + 1) * beside)])))];

        LinePoint Line(int i)
        {
            LinePoint[] points = HermiteLine.Fill(second, j =>
            {
                GridPoint p = solve(i, j);
                (values, beside) = (p.Values.Length, p.Beside.Length);
                return new(p.Values, p.Second, [.. p.First, .. p.Beside]);
            }, tolerance);
            return new([.. points.SelectMany(p => p.Values)], [.. points.SelectMany(p => p.Beside[..values])], [.. points.SelectMany(p => p.Beside[values..])]);
        }
    }
}
