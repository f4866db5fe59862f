namespace SandwichMech.Core.Outlines;

/// <summary>A cubic Bézier segment; a straight line is one with its inner points at the thirds.</summary>
/// <param name="P0">Start.</param>
/// <param name="P1">First control point.</param>
/// <param name="P2">Second control point.</param>
/// <param name="P3">End.</param>
public readonly record struct Bezier(Point P0, Point P1, Point P2, Point P3)
{
    /// <summary>The straight segment from a to b, run through at constant speed.</summary>
    public static Bezier Line(Point a, Point b) => new(a, a + 1.0 / 3 * (b - a), b + 1.0 / 3 * (a - b), b);

    /// <summary>Point at t from 0 to 1.</summary>
    public Point At(double t)
    {
        double s = 1 - t;
        return s * s * s * P0 + 3 * s * s * t * P1 + 3 * s * t * t * P2 + t * t * t * P3;
    }

    /// <summary>Derivative at t.</summary>
    public Point Derivative(double t)
    {
        double s = 1 - t;
        return 3 * s * s * (P1 - P0) + 6 * s * t * (P2 - P1) + 3 * t * t * (P3 - P2);
    }

    /// <summary>Second derivative at t.</summary>
    public Point SecondDerivative(double t) => 6 * (1 - t) * (P2 - P1 - (P1 - P0)) + 6 * t * (P3 - P2 - (P2 - P1));

    /// <summary>Direction of travel at t, also where a control point lies on an end and the derivative vanishes there; not of unit length.</summary>
    public Point Direction(double t)
    {
        Point d = Derivative(t);
        double reach = Hull.Size;
        if (d.Norm > 1e-9 * reach) { return d; }
        d = SecondDerivative(t);
        if (d.Norm > 1e-9 * reach) { return t < 0.5 ? d : new Point(0, 0) - d; }
        return P3 - P0;
    }

    /// <summary>Curvature at t, 1/m, positive where the segment bends to the left; zero where it stands still.</summary>
    public double Curvature(double t)
    {
        Point d = Derivative(t);
        double speed = d.Norm;
        return speed > 1e-9 * Hull.Size ? d.Cross(SecondDerivative(t)) / (speed * speed * speed) : 0;
    }

    /// <summary>The stretch from t0 to t1 as a segment of its own (de Casteljau).</summary>
    public Bezier Part(double t0, double t1)
    {
        double third = (t1 - t0) / 3;
        Point a = At(t0), b = At(t1);
        return new(a, a + third * Derivative(t0), b - third * Derivative(t1), b);
    }

    /// <summary>The same segment run through the other way.</summary>
    public Bezier Reversed() => new(P3, P2, P1, P0);

    /// <summary>The box of the control points; the segment lies in it.</summary>
    public Box Hull => Box.Empty.With(P0).With(P1).With(P2).With(P3);

    /// <summary>Where y (or x) turns back, as values of t strictly between 0 and 1, in rising order.</summary>
    /// <param name="along">The direction whose coordinate is meant: (1, 0) for x.</param>
    public IEnumerable<double> TurningPoints(Point along)
    {
        double a = along.Dot(P1 - P0), b = along.Dot(P2 - P1), c = along.Dot(P3 - P2);
        // a s² + 2 b s t + c t² = 0 with s = 1 − t.
        double p = a - 2 * b + c, q = b - a, disc = q * q - p * a;
        if (disc < 0) { return []; }
        double w = -(q + Math.CopySign(Math.Sqrt(disc), q));
        double[] roots = [p == 0 ? -1 : w / p, w == 0 ? -1 : a / w];
        return roots.Where(t => t > 0 && t < 1).Distinct().Order();
    }

    /// <summary>∫ ½(x dy − y dx), its part of the enclosed area, exact for a cubic.</summary>
    public double SweptArea =>
        (3 * (P0.Cross(P1) * 2 + P0.Cross(P2) + P1.Cross(P2) + P1.Cross(P3) + P2.Cross(P3) * 2) + P0.Cross(P3)) / 20;
}
