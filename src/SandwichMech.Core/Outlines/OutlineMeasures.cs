namespace SandwichMech.Core.Outlines;

/// <summary>A width of an outline, and where it is.</summary>
/// <param name="At">Along the board from its lower end, m.</param>
/// <param name="Width">Across, from the outermost point on one side to that on the other, m.</param>
public sealed record WidthAt(double At, double Width);

/// <summary>What a maker measures on an outline with a straightedge.</summary>
/// <param name="Length">Along the grain, m.</param>
/// <param name="Width">Largest distance across between any two points, m.</param>
/// <param name="LowerBout">Widest place, or that below the waist.</param>
/// <param name="Waist">Narrowest place between two wider ones; nothing where the outline has none.</param>
/// <param name="UpperBout">Widest place above the waist; nothing without one.</param>
public sealed record OutlineMeasures(double Length, double Width, WidthAt LowerBout, WidthAt? Waist, WidthAt? UpperBout)
{
    private const int Stations = 400, Steps = 60;

    // A dip shallower than this part of the width is no waist.
    private const double LeastWaist = 0.005;

    /// <summary>Measures an outline.</summary>
    /// <param name="outline">Closed, x along the grain.</param>
    public static OutlineMeasures Of(Curve outline)
    {
        Box box = outline.Bounds();
        double length = box.MaxX - box.MinX, width = box.MaxY - box.MinY;
        // Stations between the ends, so that a straight end counts with its own width.
        double[] w = [.. Enumerable.Range(0, Stations).Select(i => WidthAcross(outline, Place(i)))];
        double[] before = [.. w], behind = [.. w];
        for (int i = 1; i < Stations; i++) { before[i] = Math.Max(before[i - 1], w[i]); }
        for (int i = Stations - 2; i >= 0; i--) { behind[i] = Math.Max(behind[i + 1], w[i]); }
        int waist = Enumerable.Range(0, Stations).MaxBy(i => Math.Min(before[i], behind[i]) - w[i]);
        if (Math.Min(before[waist], behind[waist]) - w[waist] < LeastWaist * width)
        {
            return new(length, width, Extreme(Widest(0, Stations), 1), null, null);
        }

        return new(length, width, Extreme(Widest(0, waist), 1), Extreme(waist, -1), Extreme(Widest(waist, Stations), 1));

        double Place(int i) => box.MinX + (i + 0.5) / Stations * length;

        int Widest(int from, int to) => Enumerable.Range(from, to - from).MaxBy(i => w[i]);

        // Between the neighbours of a station width has one extreme: narrow it down by thirds.
        WidthAt Extreme(int i, double sign)
        {
            double low = Math.Max(Place(i - 1), box.MinX), high = Math.Min(Place(i + 1), box.MaxX);
            for (int step = 0; step < Steps; step++)
            {
                double a = low + (high - low) / 3, b = high - (high - low) / 3;
                if (sign * WidthAcross(outline, a) < sign * WidthAcross(outline, b)) { low = a; }
                else { high = b; }
            }

            double at = (low + high) / 2, found = WidthAcross(outline, at);
            return sign * found >= sign * w[i] ? new(at - box.MinX, found) : new(Place(i) - box.MinX, w[i]);
        }
    }

    /// <summary>Distance across between the outermost points at a station, m.</summary>
    /// <param name="outline">Closed.</param>
    /// <param name="x">The station, m.</param>
    public static double WidthAcross(Curve outline, double x)
    {
        double low = double.PositiveInfinity, high = double.NegativeInfinity;
        foreach (Bezier s in outline.Segments)
        {
            Box hull = s.Hull;
            if (x < hull.MinX || x > hull.MaxX) { continue; }
            double t0 = 0;
            foreach (double t1 in s.TurningPoints(new(1, 0)).Append(1))
            {
                double x0 = s.At(t0).X, x1 = s.At(t1).X;
                if (x >= Math.Min(x0, x1) && x <= Math.Max(x0, x1))
                {
                    double y = s.At(Passing(s, x, t0, t1, x1 >= x0)).Y;
                    low = Math.Min(low, y);
                    high = Math.Max(high, y);
                }

                t0 = t1;
            }
        }

        return high >= low ? high - low : 0;
    }

    // x is monotone from t0 to t1.
    private static double Passing(Bezier s, double x, double t0, double t1, bool rises)
    {
        for (int i = 0; i < Steps && t1 - t0 > 1e-15; i++)
        {
            double t = (t0 + t1) / 2;
            if (s.At(t).X > x == rises) { t1 = t; }
            else { t0 = t; }
        }

        return (t0 + t1) / 2;
    }
}
