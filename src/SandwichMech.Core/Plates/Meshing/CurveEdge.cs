using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates.Meshing;

/// <summary>An edge of the mesh on a curve.</summary>
/// <remarks>
/// The point at t is the curve's at S0 + t (S1 − S0), plus a cubic that brings its ends to the vertices (C0, C1: what welding
/// moved, far below anything seen) and turns its end tangents where two borders would leave a point in one direction (D0, D1).
/// </remarks>
internal sealed class CurveEdge
{
    // Where the bend is looked at: the inner Gauss–Lobatto points of order 5, on −1 to 1.
    private static readonly double[] Stations =
    [
        -Math.Sqrt((7 + 2 * Math.Sqrt(7)) / 21), -Math.Sqrt((7 - 2 * Math.Sqrt(7)) / 21),
        Math.Sqrt((7 - 2 * Math.Sqrt(7)) / 21), Math.Sqrt((7 + 2 * Math.Sqrt(7)) / 21),
    ];

    // Departure from the chord, in parts of its length, below which an edge is straight.
    private const double Straight = 1e-7;

    private readonly CurveRuler _ruler;
    private Point[]? _bend, _bendBack;

    internal CurveEdge(CurveRuler ruler, int curve, double s0, double s1, int a, int b, Point at0, Point at1)
    {
        _ruler = ruler;
        (Curve, S0, S1, A, B) = (curve, s0, s1, a, b);
        (C0, C1) = (at0 - ruler.At(s0), at1 - ruler.At(s1));
    }

    private CurveEdge(CurveEdge whole, double s0, double s1, int a, int b)
    {
        _ruler = whole._ruler;
        (Curve, S0, S1, A, B) = (whole.Curve, s0, s1, a, b);
    }

    internal int Curve { get; }
    internal double S0 { get; }
    internal double S1 { get; }
    internal int A { get; }
    internal int B { get; }
    internal double Length => S1 - S0;
    private Point C0 { get; init; }
    private Point C1 { get; init; }
    private Point D0 { get; init; }
    private Point D1 { get; init; }

    internal Point At(double t) => _ruler.At(S0 + t * (S1 - S0)) + Correction(t);

    /// <summary>Derivative by t at an end, seen from inside the edge.</summary>
    internal Point Derivative(int end)
    {
        double inside = 1e-7 * (S1 - S0);
        return (S1 - S0) * _ruler.TangentAt(end == 0 ? S0 + inside : S1 - inside) + CorrectionSlope(end);
    }

    /// <summary>The same edge with its end tangents turned by angles, rad.</summary>
    internal CurveEdge Turned(double at0, double at1)
    {
        Point t0 = Derivative(0), t1 = Derivative(1);
        return new(this, S0, S1, A, B) { C0 = C0, C1 = C1, D0 = D0 + t0.Turned(at0) - t0, D1 = D1 + t1.Turned(at1) - t1 };
    }

    /// <summary>The part between two places, 0 to 1, with its vertices; it runs exactly along the whole.</summary>
    internal CurveEdge Part(double t0, double t1, int a, int b)
    {
        double h = t1 - t0;
        Point c0 = Correction(t0), c1 = Correction(t1);
        // A cubic minus the line through its ends is of the form that D0 and D1 span.
        return new(this, S0 + t0 * (S1 - S0), S0 + t1 * (S1 - S0), a, b)
        {
            C0 = c0,
            C1 = c1,
            D0 = h * CorrectionSlope(t0) - (c1 - c0),
            D1 = h * CorrectionSlope(t1) - (c1 - c0),
        };
    }

    /// <summary>The departure from the chord over λa λb, as a cubic in ξ = λb − λa: four coefficients, or none where the edge is straight.</summary>
    /// <param name="from">The vertex from which the side is gone along.</param>
    internal ReadOnlySpan<Point> Bend(int from)
    {
        _bend ??= BendOf();
        if (from == A) { return _bend; }
        return _bendBack ??= [.. _bend.Select((c, i) => i % 2 == 0 ? c : new Point(0, 0) - c)];
    }

    /// <summary>Largest distance between edge and chord, m, at the stations.</summary>
    internal double Sagitta()
    {
        Point a = At(0), chord = At(1) - a;
        return Stations.Max(x => Math.Abs(chord.Cross(At((1 + x) / 2) - a))) / chord.Norm;
    }

    private Point Correction(double t)
    {
        double s = 1 - t;
        return s * C0 + t * C1 + t * s * s * D0 - t * t * s * D1;
    }

    private Point CorrectionSlope(double t) => C1 - C0 + (1 - t) * (1 - 3 * t) * D0 - t * (2 - 3 * t) * D1;

    private Point[] BendOf()
    {
        Point a = At(0), b = At(1);
        var f = new Point[4];
        double most = 0;
        for (int i = 0; i < 4; i++)
        {
            double t = (1 + Stations[i]) / 2;
            Point off = At(t) - ((1 - t) * a + t * b);
            most = Math.Max(most, off.Norm);
            f[i] = 1 / (t * (1 - t)) * off;
        }

        if (most <= Straight * (b - a).Norm) { return []; }
        // Newton's divided differences, then multiplied out.
        for (int k = 1; k < 4; k++)
        {
            for (int i = 3; i >= k; i--) { f[i] = 1 / (Stations[i] - Stations[i - k]) * (f[i] - f[i - 1]); }
        }

        for (int k = 2; k >= 0; k--)
        {
            for (int i = k; i < 3; i++) { f[i] -= Stations[k] * f[i + 1]; }
        }

        return f;
    }
}
