using MathNet.Numerics.Integration;

namespace SandwichMech.Core.Outlines;

/// <summary>A curve measured along its length: points by the way gone from its start.</summary>
/// <remarks>
/// Each segment is cut into eight; the length of a piece comes from Gauss–Legendre with five points, and between the cuts t is a
/// monotone cubic of the length (Fritsch &amp; Carlson 1980). A point so found lies exactly on the curve; its place along the
/// curve is good to some 1e-5 of a segment, and smooth.
/// </remarks>
public sealed class CurveRuler
{
    private const int Pieces = 8;
    private static readonly GaussLegendreRule Gauss = new(0, 1, 5);
    private readonly double[] _s;
    private readonly double[] _slopes;

    /// <summary>Measures a curve.</summary>
    /// <param name="curve">Open or closed.</param>
    public CurveRuler(Curve curve)
    {
        Curve = curve;
        int n = curve.Segments.Count * Pieces;
        _s = new double[n + 1];
        for (int i = 0; i < n; i++)
        {
            _s[i + 1] = _s[i] + PieceLength(i, 1);
        }

        // dt/ds at both ends of each piece, t counted in pieces.
        _slopes = new double[2 * n];
        for (int i = 0; i < n; i++)
        {
            double most = 3 / (_s[i + 1] - _s[i]);
            for (int end = 0; end < 2; end++)
            {
                double speed = Segment(i).Derivative((i % Pieces + end) / (double)Pieces).Norm / Pieces;
                _slopes[2 * i + end] = speed * most > 1 ? 1 / speed : most;
            }
        }
    }

    /// <summary>The curve.</summary>
    public Curve Curve { get; }

    /// <summary>Its length, m.</summary>
    public double Total => _s[^1];

    /// <summary>The way from the start to t, m.</summary>
    /// <param name="t">0 to the number of segments.</param>
    public double LengthAt(double t)
    {
        double k = Math.Clamp(t * Pieces, 0, _s.Length - 1);
        int i = Math.Min((int)k, _s.Length - 2);
        return _s[i] + PieceLength(i, k - i);
    }

    /// <summary>t after a way from the start.</summary>
    /// <param name="length">m; on a closed curve any value, counted round and round; on an open one held to its ends.</param>
    public double ParameterAt(double length)
    {
        double s = length;
        if (s < 0 || s > Total)
        {
            s = Curve.IsClosed ? s - Math.Floor(s / Total) * Total : Math.Clamp(s, 0, Total);
        }

        int i = Array.BinarySearch(_s, s);
        if (i < 0) { i = ~i - 1; }
        i = Math.Clamp(i, 0, _s.Length - 2);
        double h = _s[i + 1] - _s[i];
        if (h <= 0) { return (double)i / Pieces; }
        double x = (s - _s[i]) / h, y = 1 - x;
        double local = x * y * y * h * _slopes[2 * i] + x * x * (3 - 2 * x) - x * x * y * h * _slopes[2 * i + 1];
        return (i + Math.Clamp(local, 0, 1)) / Pieces;
    }

    /// <summary>The point after a way from the start, m; closed curves count round and round.</summary>
    public Point At(double length) => Curve.At(ParameterAt(length));

    /// <summary>Unit tangent after a way from the start, m.</summary>
    public Point TangentAt(double length)
    {
        double t = ParameterAt(length);
        int i = Math.Min((int)t, Curve.Segments.Count - 1);
        Point d = Curve.Segments[i].Direction(t - i);
        double norm = d.Norm;
        return norm > 0 ? 1 / norm * d : new(1, 0);
    }

    /// <summary>Curvature after a way from the start, 1/m, positive where the curve bends to the left.</summary>
    public double CurvatureAt(double length)
    {
        double t = ParameterAt(length);
        int i = Math.Min((int)t, Curve.Segments.Count - 1);
        return Curve.Segments[i].Curvature(t - i);
    }

    private Bezier Segment(int piece) => Curve.Segments[piece / Pieces];

    private double PieceLength(int piece, double share)
    {
        double sum = 0;
        for (int q = 0; q < Gauss.Order; q++)
        {
            sum += Gauss.Weights[q] * Segment(piece).Derivative((piece % Pieces + share * Gauss.Abscissas[q]) / Pieces).Norm;
        }

        return share / Pieces * sum;
    }
}
