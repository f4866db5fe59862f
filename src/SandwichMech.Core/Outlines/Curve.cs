using MathNet.Numerics.Integration;

namespace SandwichMech.Core.Outlines;

/// <summary>A chain of cubic segments, each starting where the one before ends; closed where the last ends at the first's start.</summary>
public sealed record Curve
{
    /// <summary>Turn of the tangent above which a joint counts as a corner, rad.</summary>
    public const double CornerTurn = 0.17;

    // What two points may be apart and still be one, in parts of the curve's size.
    private const double Join = 1e-6;

    private static readonly GaussLegendreRule Gauss = new(0, 1, 12);

    /// <summary>Makes a curve.</summary>
    /// <param name="segments">One or more; joints (and the closing one) within a millionth of the curve's size are accepted and made exact.</param>
    /// <exception cref="ArgumentException">There is no segment, a coordinate is not a number, or two segments do not meet.</exception>
    public Curve(IReadOnlyList<Bezier> segments)
    {
        if (segments.Count == 0) { throw new ArgumentException("A curve needs at least one segment.", nameof(segments)); }
        Bezier[] chain = [.. segments];
        Box box = chain.Aggregate(Box.Empty, (b, s) => b.With(s.Hull));
        double size = box.Size;
        if (!double.IsFinite(size)) { throw new ArgumentException("A curve has a coordinate that is not a number.", nameof(segments)); }
        for (int i = 1; i < chain.Length; i++)
        {
            if ((chain[i].P0 - chain[i - 1].P3).Norm > Join * size)
            {
                throw new ArgumentException($"A curve is broken between its segments {i} and {i + 1}: the end of one is not the start of the next.", nameof(segments));
            }

            chain[i] = chain[i] with { P0 = chain[i - 1].P3 };
        }

        IsClosed = (chain[^1].P3 - chain[0].P0).Norm <= Join * size;
        if (IsClosed) { chain[^1] = chain[^1] with { P3 = chain[0].P0 }; }
        Segments = chain;
        Size = size;
    }

    /// <summary>The segments.</summary>
    public IReadOnlyList<Bezier> Segments { get; }

    /// <summary>Whether the end is the start.</summary>
    public bool IsClosed { get; }

    /// <summary>Diagonal of the box of the control points, m: what tolerances are measured by.</summary>
    public double Size { get; }

    /// <summary>Point at t from 0 to the number of segments.</summary>
    public Point At(double t) => Segments[Index(t)].At(t - Index(t));

    /// <summary>Derivative at t, by the segment that begins there.</summary>
    public Point Derivative(double t) => Segments[Index(t)].Derivative(t - Index(t));

    /// <summary>Length of the stretch from t0 to t1, m; Gauss–Legendre with 12 points a segment.</summary>
    public double Length(double t0, double t1)
    {
        double sum = 0;
        for (int i = Index(t0); i < Segments.Count && i < t1; i++)
        {
            double a = Math.Max(t0 - i, 0), b = Math.Min(t1 - i, 1);
            for (int q = 0; q < Gauss.Order; q++)
            {
                sum += (b - a) * Gauss.Weights[q] * Segments[i].Derivative(a + (b - a) * Gauss.Abscissas[q]).Norm;
            }
        }

        return sum;
    }

    /// <summary>Whole length, m.</summary>
    public double TotalLength => Length(0, Segments.Count);

    /// <summary>Enclosed area, m², positive anticlockwise (Green's theorem, exact).</summary>
    public double SignedArea => Segments.Sum(s => s.SweptArea);

    /// <summary>The smallest box that holds the curve.</summary>
    public Box Bounds()
    {
        Box box = Box.Empty;
        foreach (Bezier s in Segments)
        {
            box = box.With(s.P0).With(s.P3);
            foreach (double t in s.TurningPoints(new(1, 0)).Concat(s.TurningPoints(new(0, 1)))) { box = box.With(s.At(t)); }
        }

        return box;
    }

    /// <summary>The same curve run through the other way.</summary>
    public Curve Reversed() => new([.. Segments.Reverse().Select(s => s.Reversed())]);

    /// <summary>A stretch of the curve as a curve of its own.</summary>
    /// <param name="t0">Its start, 0 to the number of segments.</param>
    /// <param name="t1">Its end, larger; on a closed curve it may lie up to a round beyond the curve's end.</param>
    public Curve Part(double t0, double t1)
    {
        int n = Segments.Count;
        var segments = new List<Bezier>();
        for (int i = (int)Math.Floor(t0); i < t1; i++)
        {
            double a = Math.Max(t0 - i, 0), b = Math.Min(t1 - i, 1);
            if (b - a > 1e-12) { segments.Add(Segments[i % n].Part(a, b)); }
        }

        return new(segments);
    }

    /// <summary>The same curve with every point moved by an affine map.</summary>
    /// <param name="map">Affine: a turn, a shift, a scale, a mirror; anything else would not carry the curve with its control points.</param>
    public Curve Mapped(Func<Point, Point> map) =>
        new([.. Segments.Select(s => new Bezier(map(s.P0), map(s.P1), map(s.P2), map(s.P3)))]);

    /// <summary>Joints where the tangent turns by more than <see cref="CornerTurn"/>, as values of t; the ends of an open curve too.</summary>
    public IReadOnlyList<double> Corners()
    {
        var corners = new List<double>();
        for (int i = 0; i < Segments.Count; i++)
        {
            if (i == 0 && !IsClosed)
            {
                corners.Add(0);
                continue;
            }

            Point before = Segments[(i + Segments.Count - 1) % Segments.Count].Direction(1), after = Segments[i].Direction(0);
            if (Math.Abs(before.AngleTo(after)) > CornerTurn)
            {
                corners.Add(i);
            }
        }

        if (!IsClosed)
        {
            corners.Add(Segments.Count);
        }

        return corners;
    }

    private int Index(double t) => Math.Clamp((int)Math.Floor(t), 0, Segments.Count - 1);
}
