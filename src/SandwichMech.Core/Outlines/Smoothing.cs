namespace SandwichMech.Core.Outlines;

/// <summary>A smooth curve through the points of a polygon.</summary>
public static class Smoothing
{
    /// <summary>Turn from which a point stays a corner, rad.</summary>
    public const double CornerTurn = Math.PI / 4;

    /// <summary>Whether a curve is made of straight lines alone.</summary>
    /// <param name="curve">Open or closed.</param>
    public static bool IsPolygon(Curve curve) => curve.Segments.All(IsStraight);

    /// <summary>The polygon's points joined by a smooth curve (<see cref="Shapes.Smooth"/>), broken where it turns by more than <see cref="CornerTurn"/>.</summary>
    /// <param name="polygon">Closed, of straight lines.</param>
    public static Curve Of(Curve polygon)
    {
        Point[] p = [.. polygon.Segments.Select(s => s.P0)];
        int n = p.Length;
        int[] corners = [.. Enumerable.Range(0, n).Where(i => Math.Abs((p[i] - p[(i + n - 1) % n]).AngleTo(p[(i + 1) % n] - p[i])) > CornerTurn)];
        if (corners.Length == 0) { return Shapes.Smooth(p); }
        var segments = new List<Bezier>();
        for (int k = 0; k < corners.Length; k++)
        {
            int from = corners[k], steps = (corners[(k + 1) % corners.Length] - from + n - 1) % n + 1;
            segments.AddRange(Shapes.Smooth([.. Enumerable.Range(0, steps + 1).Select(i => p[(from + i) % n])], closed: false).Segments);
        }

        return new(segments);
    }

    private static bool IsStraight(Bezier s)
    {
        Point chord = s.P3 - s.P0;
        double length = chord.Norm;
        return Math.Abs(chord.Cross(s.P1 - s.P0)) <= 1e-9 * length * length && Math.Abs(chord.Cross(s.P2 - s.P0)) <= 1e-9 * length * length
            && chord.Dot(s.P1 - s.P0) >= 0 && chord.Dot(s.P3 - s.P2) >= 0;
    }
}
