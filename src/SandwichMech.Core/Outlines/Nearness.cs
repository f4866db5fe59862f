namespace SandwichMech.Core.Outlines;

/// <summary>The place on a curve that is nearest to something.</summary>
/// <param name="T">Where on the curve, 0 to its number of segments.</param>
/// <param name="At">The point there.</param>
/// <param name="Distance">m.</param>
public readonly record struct NearestPoint(double T, Point At, double Distance);

/// <summary>Distance from a point to a curve.</summary>
public static class Nearness
{
    // A cubic has at most five stationary distances; sixteen stretches keep them apart.
    private const int Stretches = 16;
    private const int Steps = 40;

    /// <summary>The nearest point of a curve.</summary>
    /// <param name="curve">Open or closed.</param>
    /// <param name="p">The point.</param>
    public static NearestPoint Nearest(this Curve curve, Point p)
    {
        var best = new NearestPoint(0, curve.Segments[0].P0, (curve.Segments[0].P0 - p).Norm);
        foreach ((double bound, int i) in curve.Segments.Select((s, i) => (s.Hull.Distance(p), i)).OrderBy(b => b.Item1))
        {
            if (bound >= best.Distance) { break; }
            NearestPoint n = curve.Segments[i].Nearest(p);
            if (n.Distance < best.Distance) { best = n with { T = i + n.T }; }
        }

        return best;
    }

    /// <summary>The nearest point of a segment.</summary>
    /// <param name="s">The segment.</param>
    /// <param name="p">The point.</param>
    public static NearestPoint Nearest(this Bezier s, Point p)
    {
        NearestPoint best = Of(s, p, 0);
        NearestPoint end = Of(s, p, 1);
        if (end.Distance < best.Distance) { best = end; }
        double slope0 = Slope(s, p, 0);
        for (int i = 1; i <= Stretches; i++)
        {
            double slope1 = Slope(s, p, (double)i / Stretches);
            if (slope0 <= 0 && slope1 >= 0)
            {
                NearestPoint n = Of(s, p, Stationary(s, p, (i - 1.0) / Stretches, (double)i / Stretches));
                if (n.Distance < best.Distance) { best = n; }
            }

            slope0 = slope1;
        }

        return best;
    }

    private static NearestPoint Of(Bezier s, Point p, double t) => new(t, s.At(t), (s.At(t) - p).Norm);

    // Half the derivative of the squared distance.
    private static double Slope(Bezier s, Point p, double t) => (s.At(t) - p).Dot(s.Derivative(t));

    // Newton between two ends of opposite slope; bisects where Newton would leave them.
    private static double Stationary(Bezier s, Point p, double t0, double t1)
    {
        double t = (t0 + t1) / 2;
        for (int step = 0; step < Steps && t1 - t0 > 1e-15; step++)
        {
            double slope = Slope(s, p, t);
            if (slope == 0) { break; }
            if (slope < 0) { t0 = t; }
            else { t1 = t; }
            Point d = s.Derivative(t);
            double curve = d.Dot(d) + (s.At(t) - p).Dot(s.SecondDerivative(t));
            double next = curve > 0 ? t - slope / curve : double.NaN;
            if (Math.Abs(next - t) < 1e-15) { break; }
            t = next > t0 && next < t1 ? next : (t0 + t1) / 2;
        }

        return t;
    }
}
