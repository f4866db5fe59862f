namespace SandwichMech.Core.Outlines;

/// <summary>Curves at a constant distance from a closed one.</summary>
public static class Offset
{
    // Stations in which a segment's tightness is looked at for a change of sign.
    private const int Stations = 16;
    private const int Halvings = 50;
    private const int MostHalvings = 12;

    /// <summary>The points inside a closed curve at a given distance from it: the inner border of an edge band.</summary>
    /// <param name="curve">Closed and free of crossings, in either direction.</param>
    /// <param name="distance">m; negative for a curve outside.</param>
    /// <param name="tolerance">How far the result may be from the true one, m.</param>
    /// <returns>Closed curves, anticlockwise: one as a rule, more where the band closes a waist, none where it fills everything.
    /// Corners that point away from the offset are rounded, corners that point towards it stay corners.</returns>
    /// <remarks>
    /// P + d N for every segment, fitted by cubics with the true end points and derivatives B'(1 − κ d) (Tiller &amp; Hanson 1984
    /// name the problem), halved until they are within the tolerance. Stretches that are tighter than the distance (κ d ≥ 1) are
    /// bridged. What crosses itself is then cut, and parts nearer to the curve than the distance fall away.
    /// </remarks>
    /// <exception cref="ArgumentException">The curve is open, or a number is out of range.</exception>
    public static IReadOnlyList<Curve> Inward(Curve curve, double distance, double tolerance = 1e-6)
    {
        if (!curve.IsClosed) { throw new ArgumentException("Only a closed curve has an inside to be offset to.", nameof(curve)); }
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(tolerance);
        if (!double.IsFinite(distance)) { throw new ArgumentException("The distance is not a number.", nameof(distance)); }
        Curve source = curve.SignedArea < 0 ? curve.Reversed() : curve;
        if (distance == 0) { return [source]; }
        double fit = Math.Min(tolerance, OffsetLoops.MostFit * Math.Abs(distance));
        List<Bezier> pieces = Pieces(source, distance, fit);
        return pieces.Count == 0 ? [] : OffsetLoops.Of(source, Bridged(pieces, distance, source.Size), distance, fit);
    }

    private static List<Bezier> Pieces(Curve source, double d, double fit)
    {
        var pieces = new List<Bezier>();
        foreach (Bezier s in source.Segments)
        {
            double t0 = 0;
            foreach (double t1 in Tight(s, d).Append(1))
            {
                if (t1 > t0 && Room(s, (t0 + t1) / 2, d) > 0) { Fit(s, t0, t1, d, fit, 0, pieces); }
                t0 = t1;
            }
        }

        return pieces;
    }

    // Where 1 − κ d changes sign.
    private static List<double> Tight(Bezier s, double d)
    {
        var roots = new List<double>();
        for (int i = 0; i < Stations; i++)
        {
            double t0 = (double)i / Stations, t1 = (i + 1.0) / Stations;
            bool open = Room(s, t0, d) > 0;
            if (open == Room(s, t1, d) > 0) { continue; }
            for (int k = 0; k < Halvings; k++)
            {
                double t = (t0 + t1) / 2;
                if (Room(s, t, d) > 0 == open) { t0 = t; }
                else { t1 = t; }
            }

            roots.Add((t0 + t1) / 2);
        }

        return roots;
    }

    private static double Room(Bezier s, double t, double d) => 1 - s.Curvature(t) * d;

    private static void Fit(Bezier s, double t0, double t1, double d, double fit, int halvings, List<Bezier> pieces)
    {
        double third = (t1 - t0) / 3;
        Point a = Moved(s, t0, d), b = Moved(s, t1, d);
        Bezier trial = new(a, a + third * Room(s, t0, d) * s.Derivative(t0), b - third * Room(s, t1, d) * s.Derivative(t1), b);
        if (halvings == MostHalvings || Off(0.25) + Off(0.5) + Off(0.75) <= fit)
        {
            pieces.Add(trial);
            return;
        }

        double middle = (t0 + t1) / 2;
        Fit(s, t0, middle, d, fit, halvings + 1, pieces);
        Fit(s, middle, t1, d, fit, halvings + 1, pieces);

        // Across the curve: what a point is out along it does no harm.
        double Off(double share)
        {
            double t = t0 + share * (t1 - t0);
            Point along = s.Direction(t);
            return Math.Abs((trial.At(share) - Moved(s, t, d)).Cross(along)) / along.Norm;
        }
    }

    private static Point Moved(Bezier s, double t, double d)
    {
        Point along = s.Direction(t);
        return s.At(t) + d / along.Norm * along.Left();
    }

    // Closes the gaps between the pieces: an arc round a corner that opens, a line where the pieces have run past each other.
    private static Curve Bridged(List<Bezier> pieces, double d, double size)
    {
        var chain = new List<Bezier>();
        for (int i = 0; i < pieces.Count; i++)
        {
            chain.Add(pieces[i]);
            Point end = pieces[i].P3, start = pieces[(i + 1) % pieces.Count].P0;
            if ((start - end).Norm <= 1e-7 * size) { continue; }
            Point before = pieces[i].Direction(1), after = pieces[(i + 1) % pieces.Count].Direction(0);
            double turn = before.AngleTo(after);
            Point corner = end - d / before.Norm * before.Left();
            bool opens = turn * d < 0 && Math.Abs((start - corner).Norm - Math.Abs(d)) <= 1e-6 * size;
            if (opens) { chain.AddRange(Arc(corner, Math.Abs(d), end, turn, start)); }
            else { chain.Add(Bezier.Line(end, start)); }
        }

        return new(chain);
    }

    private static Bezier[] Arc(Point centre, double radius, Point from, double turn, Point to)
    {
        Point r = from - centre;
        Bezier[] arc = [.. Shapes.Arc(centre, radius, Math.Atan2(r.Y, r.X), turn).Segments];
        arc[0] = arc[0] with { P0 = from };
        arc[^1] = arc[^1] with { P3 = to };
        return arc;
    }
}
