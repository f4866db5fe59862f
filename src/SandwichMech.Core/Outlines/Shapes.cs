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

    /// <summary>An arc of an ellipse.</summary>
    /// <param name="centre">Centre.</param>
    /// <param name="first">From the centre to the end of the first axis, where the parameter is 0, m.</param>
    /// <param name="second">From the centre to the end of the second axis, where it is a right angle, m; not along the first.</param>
    /// <param name="from">Parameter of the start, rad; on a circle, the angle from the first axis.</param>
    /// <param name="sweep">Parameter swept, rad, positive from the first axis to the second, not zero.</param>
    public static Curve EllipseArc(Point centre, Point first, Point second, double from, double sweep)
    {
        int n = Math.Max(1, (int)Math.Ceiling(Math.Abs(sweep) / (2 * Math.PI) * SegmentsOfTurn - 1e-9));
        return UnitArc(from, sweep, n).Mapped(p => centre + p.X * first + p.Y * second);
    }

    /// <summary>An arc of a circle between two points.</summary>
    /// <param name="from">Its start.</param>
    /// <param name="to">Its end.</param>
    /// <param name="bulge">Tangent of a quarter of the angle swept, positive anticlockwise; 0 is a straight line.</param>
    public static Curve Bulged(Point from, Point to, double bulge)
    {
        if (Math.Abs(bulge) < 1e-9) { return new([Bezier.Line(from, to)]); }
        // Half the chord is r sin 2φ and the centre lies r cos 2φ to its left, with tan φ the bulge.
        Point half = 0.5 * (to - from), centre = from + half + (1 - bulge * bulge) / (2 * bulge) * half.Left(), radius = from - centre;
        Curve arc = EllipseArc(centre, radius, radius.Left(), 0, 4 * Math.Atan(bulge));
        Bezier[] segments = [.. arc.Segments];
        segments[0] = segments[0] with { P0 = from };
        segments[^1] = segments[^1] with { P3 = to };
        return new(segments);
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
