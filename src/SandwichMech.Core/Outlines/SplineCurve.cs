namespace SandwichMech.Core.Outlines;

/// <summary>A B-spline of any degree, with weights or without, as a chain of cubics.</summary>
/// <remarks>
/// Evaluated by de Boor's algorithm on (w x, w y, w), the derivative from the last two points of its triangle (Piegl &amp; Tiller 1997).
/// Each span between two knots is taken as the cubic with the span's ends and end derivatives, which is the span itself where
/// the degree is three or less and all weights are one; else the span is halved until the cubic agrees with it.
/// </remarks>
public sealed class SplineCurve
{
    private const int MostDegree = 25, MostHalvings = 24, Stations = 8;
    private readonly int _degree;
    private readonly double[] _knots;
    private readonly double[] _x, _y, _w;

    /// <summary>Makes a spline.</summary>
    /// <param name="degree">1 to 25.</param>
    /// <param name="points">Control points, more than the degree.</param>
    /// <param name="knots">As many as points, plus the degree, plus one; none smaller than the one before.</param>
    /// <param name="weights">One a point, positive; none for all one.</param>
    /// <exception cref="ArgumentException">These do not make a spline; the message says why.</exception>
    public SplineCurve(int degree, IReadOnlyList<Point> points, IReadOnlyList<double> knots, IReadOnlyList<double>? weights = null)
    {
        if (degree is < 1 or > MostDegree) { throw new ArgumentException($"a spline of degree {degree} is not read: 1 to {MostDegree} are"); }
        if (points.Count <= degree) { throw new ArgumentException($"a spline of degree {degree} needs {degree + 1} control points or more; there are {points.Count}"); }
        if (knots.Count != points.Count + degree + 1) { throw new ArgumentException($"a spline of degree {degree} with {points.Count} control points needs {points.Count + degree + 1} knots; there are {knots.Count}"); }
        if (weights is not null && weights.Count != points.Count) { throw new ArgumentException($"a spline with {points.Count} control points needs as many weights; there are {weights.Count}"); }
        for (int i = 1; i < knots.Count; i++)
        {
            if (!(knots[i] >= knots[i - 1])) { throw new ArgumentException($"a spline's knots fall from {knots[i - 1]:R} to {knots[i]:R}: they have to rise"); }
        }

        if (weights is not null && weights.Any(w => !(w > 0))) { throw new ArgumentException("a spline has a weight that is not greater than 0"); }
        (_degree, _knots) = (degree, [.. knots]);
        _w = weights is null ? [.. Enumerable.Repeat(1.0, points.Count)] : [.. weights];
        _x = [.. points.Select((p, i) => p.X * _w[i])];
        _y = [.. points.Select((p, i) => p.Y * _w[i])];
        if (!(End > Start)) { throw new ArgumentException("a spline's knots leave it no length: its inner knots have to rise"); }
        IsCubic = degree <= 3 && _w.All(w => w == _w[0]);
    }

    /// <summary>Where the parameter starts.</summary>
    public double Start => _knots[_degree];

    /// <summary>Where it ends.</summary>
    public double End => _knots[^(_degree + 1)];

    /// <summary>Whether cubics are the spline itself and no approximation.</summary>
    public bool IsCubic { get; }

    /// <summary>Point at a parameter from <see cref="Start"/> to <see cref="End"/>.</summary>
    public Point At(double u) => Evaluate(u, Span(u)).At;

    /// <summary>The spline as cubics.</summary>
    /// <param name="tolerance">Largest distance from the spline, m, where it is no chain of cubics itself.</param>
    /// <exception cref="ArgumentException">The spline jumps at a knot of full multiplicity.</exception>
    public Curve Cubics(double tolerance)
    {
        var segments = new List<Bezier>();
        for (int k = _degree; k < _x.Length; k++)
        {
            if (_knots[k + 1] > _knots[k]) { Add(segments, k, _knots[k], _knots[k + 1], tolerance, 0); }
        }

        return new(segments);
    }

    private void Add(List<Bezier> segments, int span, double u0, double u1, double tolerance, int halvings)
    {
        (Point a, Point da) = Evaluate(u0, span);
        (Point b, Point db) = Evaluate(u1, span);
        double third = (u1 - u0) / 3;
        var cubic = new Bezier(a, a + third * da, b - third * db, b);
        if (IsCubic || halvings >= MostHalvings || (halvings > 0 && Agrees(cubic, span, u0, u1, tolerance)))
        {
            segments.Add(cubic);
            return;
        }

        double middle = (u0 + u1) / 2;
        Add(segments, span, u0, middle, tolerance, halvings + 1);
        Add(segments, span, middle, u1, tolerance, halvings + 1);
    }

    private bool Agrees(Bezier cubic, int span, double u0, double u1, double tolerance)
    {
        for (int i = 1; i < Stations; i++)
        {
            double t = (double)i / Stations;
            // A quarter is left for what lies between the stations.
            if (!((Evaluate(u0 + t * (u1 - u0), span).At - cubic.At(t)).Norm <= 0.75 * tolerance)) { return false; }
        }

        return true;
    }

    private int Span(double u)
    {
        int k = _degree;
        while (k < _x.Length - 1 && u >= _knots[k + 1]) { k++; }
        return k;
    }

    // De Boor in the span from knot k to the next; u may lie on either end.
    private (Point At, Point Derivative) Evaluate(double u, int k)
    {
        int p = _degree;
        Span<double> x = stackalloc double[p + 1], y = stackalloc double[p + 1], w = stackalloc double[p + 1];
        for (int j = 0; j <= p; j++) { (x[j], y[j], w[j]) = (_x[j + k - p], _y[j + k - p], _w[j + k - p]); }
        double dx = 0, dy = 0, dw = 0;
        for (int r = 1; r <= p; r++)
        {
            if (r == p)
            {
                double rate = p / (_knots[k + 1] - _knots[k]);
                (dx, dy, dw) = (rate * (x[p] - x[p - 1]), rate * (y[p] - y[p - 1]), rate * (w[p] - w[p - 1]));
            }

            for (int j = p; j >= r; j--)
            {
                double low = _knots[j + k - p], share = (u - low) / (_knots[j + 1 + k - r] - low);
                x[j] = (1 - share) * x[j - 1] + share * x[j];
                y[j] = (1 - share) * y[j - 1] + share * y[j];
                w[j] = (1 - share) * w[j - 1] + share * w[j];
            }
        }

        var at = new Point(x[p] / w[p], y[p] / w[p]);
        return (at, 1 / w[p] * (new Point(dx, dy) - dw * at));
    }
}
