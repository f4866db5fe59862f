namespace SandwichMech.Core.Outlines;

/// <summary>Whether a closed curve goes round a point.</summary>
public static class Containment
{
    // Bisections that bring a stretch of t below a double's resolution.
    private const int Halvings = 52;

    /// <summary>Whether a point lies inside a closed curve: the curve winds round it at least once, either way.</summary>
    /// <param name="curve">Closed.</param>
    /// <param name="p">The point; on the curve itself the answer may be either.</param>
    /// <remarks>
    /// Counts the crossings of the ray from p along +x, with sign. A height belongs to the half-open side y &gt; p.Y, and
    /// neighbouring stretches share their end values, so that a ray through a joint or a turning point counts once or not at all.
    /// </remarks>
    /// <exception cref="ArgumentException">The curve is open.</exception>
    public static bool Contains(this Curve curve, Point p)
    {
        if (!curve.IsClosed) { throw new ArgumentException("Only a closed curve has an inside.", nameof(curve)); }
        int winding = 0;
        foreach (Bezier s in curve.Segments)
        {
            Box hull = s.Hull;
            if (p.Y < hull.MinY || p.Y > hull.MaxY || p.X > hull.MaxX) { continue; }
            winding += p.X < hull.MinX ? Side(s.P3.Y, p) - Side(s.P0.Y, p) : CrossingsOf(s, p);
        }

        return winding != 0;
    }

    private static int Side(double y, Point p) => y > p.Y ? 1 : 0;

    private static int CrossingsOf(Bezier s, Point p)
    {
        int winding = 0;
        double t0 = 0, y0 = s.P0.Y;
        foreach (double t1 in s.TurningPoints(new(0, 1)).Append(1))
        {
            double y1 = t1 == 1 ? s.P3.Y : s.At(t1).Y;
            int step = Side(y1, p) - Side(y0, p);
            if (step != 0 && CrossesRightOf(s, t0, t1, step, p)) { winding += step; }
            (t0, y0) = (t1, y1);
        }

        return winding;
    }

    // y is monotone from t0 to t1 and passes p.Y: bisect until the place is known.
    private static bool CrossesRightOf(Bezier s, double t0, double t1, int step, Point p)
    {
        for (int i = 0; i < Halvings; i++)
        {
            double t = (t0 + t1) / 2;
            if (Side(s.At(t).Y, p) == (step > 0 ? 1 : 0)) { t1 = t; }
            else { t0 = t; }
        }

        return s.At((t0 + t1) / 2).X > p.X;
    }
}
