namespace SandwichMech.Core.Outlines;

/// <summary>Curves from a few numbers.</summary>
public static class Shapes
{
    // Segments of a full turn: with eight the radius is right to 4.2e-6 of itself, with twelve to 3.7e-7.
    private const int SegmentsOfTurn = 12;

    /// <summary>A circle, anticlockwise from its point at +x.</summary>
    /// <param name="centre">Centre.</param>
    /// <param name="radius">m, positive.</param>
    public static Curve Circle(Point centre, double radius) => Ellipse(centre, radius, radius, 0);

    /// <summary>An ellipse, anticlockwise.</summary>
    /// <param name="centre">Centre.</param>
    /// <param name="a">Half the first axis, m, positive.</param>
    /// <param name="b">Half the second axis, m, positive.</param>
    /// <param name="angle">From x to the first axis, rad.</param>
    /// <exception cref="ArgumentOutOfRangeException">A half axis is not positive.</exception>
    public static Curve Ellipse(Point centre, double a, double b, double angle)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(a);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(b);
        return UnitArc(0, 2 * Math.PI, SegmentsOfTurn).Mapped(p => centre + new Point(a * p.X, b * p.Y).Turned(angle));
    }

    /// <summary>An arc of a circle.</summary>
    /// <param name="centre">Centre.</param>
    /// <param name="radius">m, positive.</param>
    /// <param name="from">Angle of the start from x, rad.</param>
    /// <param name="sweep">Angle swept, rad, positive anticlockwise, not zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The radius is not positive.</exception>
    public static Curve Arc(Point centre, double radius, double from, double sweep)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(radius);
        int n = Math.Max(1, (int)Math.Ceiling(Math.Abs(sweep) / (2 * Math.PI) * SegmentsOfTurn - 1e-9));
        return UnitArc(from, sweep, n).Mapped(p => centre + radius * p);
    }

    /// <summary>Straight lines from point to point.</summary>
    /// <param name="points">Two or more (three or more where closed); neighbours that coincide are taken once.</param>
    /// <param name="closed">Whether a last line leads back to the first point.</param>
    /// <exception cref="ArgumentException">Too few different points.</exception>
    public static Curve Polygon(IReadOnlyList<Point> points, bool closed = true)
    {
        List<Point> p = Distinct(points, closed);
        int n = closed ? p.Count : p.Count - 1;
        return new([.. Enumerable.Range(0, n).Select(i => Bezier.Line(p[i], p[(i + 1) % p.Count]))]);
    }

    /// <summary>A rectangle with its sides along x and y, anticlockwise.</summary>
    /// <param name="box">The rectangle.</param>
    public static Curve Rectangle(Box box) =>
        Polygon([new(box.MinX, box.MinY), new(box.MaxX, box.MinY), new(box.MaxX, box.MaxY), new(box.MinX, box.MaxY)]);

    /// <summary>A smooth curve through points: a cubic spline with continuous curvature.</summary>
    /// <remarks>The spline's parameter runs with the square root of the chord between points (Lee 1989), which keeps it from
    /// overshooting where points are unevenly spaced; the ends of an open curve have no curvature.</remarks>
    /// <param name="points">Two or more (three or more where closed); neighbours that coincide are taken once.</param>
    /// <param name="closed">Whether the curve leads back to the first point, smoothly.</param>
    /// <exception cref="ArgumentException">Too few different points.</exception>
    public static Curve Smooth(IReadOnlyList<Point> points, bool closed = true) => Spline.Through(Distinct(points, closed), closed);

    private static List<Point> Distinct(IReadOnlyList<Point> points, bool closed)
    {
        double join = 1e-9 * points.Aggregate(Box.Empty, (b, p) => b.With(p)).Size;
        var kept = new List<Point>();
        foreach (Point p in points)
        {
            if (kept.Count == 0 || (p - kept[^1]).Norm > join) { kept.Add(p); }
        }

        if (closed && kept.Count > 1 && (kept[^1] - kept[0]).Norm <= join) { kept.RemoveAt(kept.Count - 1); }
        int least = closed ? 3 : 2;
        return kept.Count >= least ? kept
            : throw new ArgumentException($"{(closed ? "A closed" : "An open")} curve needs at least {least} different points; there are {kept.Count}.", nameof(points));
    }

    // Handles of 4/3 tan(θ/4): the middle of each segment lies on the circle (Goldapp 1991).
    private static Curve UnitArc(double from, double sweep, int n)
    {
        double step = sweep / n, handle = 4.0 / 3 * Math.Tan(step / 4);
        var segments = new Bezier[n];
        for (int i = 0; i < n; i++)
        {
            Point a = new Point(1, 0).Turned(from + i * step), b = new Point(1, 0).Turned(from + (i + 1) * step);
            segments[i] = new(a, a + handle * a.Left(), b - handle * b.Left(), b);
        }

        return new(segments);
    }
}
