namespace SandwichMech.Core.Outlines;

/// <summary>The place on a curve that is nearest to something.</summary>
/// <param name="T">Where on the curve, 0 to its number of segments.</param>
/// <param name="At">The point there.</param>
/// <param name="Distance">m.</param>
public readonly record struct NearestPoint(double T, Point At, double Distance);

/// <summary>Distance from a point to a curve.</summary>
/// <remarks>
/// Half the derivative of the squared distance to a cubic is a polynomial of degree five. Its Bernstein coefficients change sign
/// at least as often as it has roots (variation diminishing; Farin 2002), so halving until they change once or never finds every
/// stationary distance, also where several crowd into a sharp bend.
/// </remarks>
public static class Nearness
{
    private const int Degree = 5;
    private const int Steps = 60;

    // Halvings after which a crowd of roots is one as far as a double sees.
    private const int MostHalvings = 48;

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
        Better(s, p, 1, ref best);
        Span<double> slope = stackalloc double[Degree + 1];
        Slopes(s, p, slope);
        Search(s, p, slope, 0, 1, 0, ref best);
        return best;
    }

    private static NearestPoint Of(Bezier s, Point p, double t) => new(t, s.At(t), (s.At(t) - p).Norm);

    private static void Better(Bezier s, Point p, double t, ref NearestPoint best)
    {
        NearestPoint n = Of(s, p, t);
        if (n.Distance < best.Distance) { best = n; }
    }

    // Product of (s − p), degree 3, and s', degree 2: c_k = Σ C(3,i) C(2,j) / C(5,k) D_i · E_j over i + j = k.
    private static void Slopes(Bezier s, Point p, Span<double> c)
    {
        Point d0 = s.P0 - p, d1 = s.P1 - p, d2 = s.P2 - p, d3 = s.P3 - p;
        Point e0 = s.P1 - s.P0, e1 = s.P2 - s.P1, e2 = s.P3 - s.P2;
        c[0] = d0.Dot(e0);
        c[1] = (2 * d0.Dot(e1) + 3 * d1.Dot(e0)) / 5;
        c[2] = (d0.Dot(e2) + 6 * d1.Dot(e1) + 3 * d2.Dot(e0)) / 10;
        c[3] = (3 * d1.Dot(e2) + 6 * d2.Dot(e1) + d3.Dot(e0)) / 10;
        c[4] = (3 * d2.Dot(e2) + 2 * d3.Dot(e1)) / 5;
        c[5] = d3.Dot(e2);
    }

    private static void Search(Bezier s, Point p, ReadOnlySpan<double> c, double t0, double t1, int halvings, ref NearestPoint best)
    {
        (int changes, bool falls) = Changes(c);
        // One root that the slope passes downwards is a greatest distance.
        if (changes == 0 || (changes == 1 && falls)) { return; }
        if (changes == 1 && c[0] != 0 && c[Degree] != 0)
        {
            Better(s, p, Stationary(s, p, t0, t1), ref best);
            return;
        }

        double middle = (t0 + t1) / 2;
        Better(s, p, middle, ref best);
        if (halvings == MostHalvings) { return; }
        Span<double> left = stackalloc double[Degree + 1], right = stackalloc double[Degree + 1];
        c.CopyTo(right);
        for (int i = 0; i <= Degree; i++)
        {
            left[i] = right[0];
            for (int k = 0; k < Degree - i; k++) { right[k] = (right[k] + right[k + 1]) / 2; }
        }

        Search(s, p, left, t0, middle, halvings + 1, ref best);
        Search(s, p, right, middle, t1, halvings + 1, ref best);
    }

    // How often the sign changes, zeros left out, and whether the last change is from plus to minus.
    private static (int Changes, bool Falls) Changes(ReadOnlySpan<double> c)
    {
        int changes = 0, sign = 0;
        foreach (double value in c)
        {
            int next = Math.Sign(value);
            if (next == 0 || next == sign) { continue; }
            if (sign != 0) { changes++; }
            sign = next;
        }

        return (changes, sign < 0);
    }

    // Half the derivative of the squared distance.
    private static double Slope(Bezier s, Point p, double t) => (s.At(t) - p).Dot(s.Derivative(t));

    // Newton between two ends between which the slope rises through its only root; bisects where Newton would leave them.
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
