namespace SandwichMech.Core.Outlines;

/// <summary>A stretch in which two curves are within the tolerance of each other, or the point where they cross.</summary>
/// <param name="A">Where they are nearest, on the first curve.</param>
/// <param name="B">The same on the second.</param>
/// <param name="Gap">Distance there, m, with the side: positive where the second lies to the left of the axis.</param>
/// <param name="Tangential">Whether they run alike.</param>
/// <param name="StartA">Start on the first curve.</param>
/// <param name="EndA">End on the first curve.</param>
/// <param name="StartB">On the second, what belongs to the start.</param>
/// <param name="EndB">On the second, what belongs to the end.</param>
internal sealed record Contact(double A, double B, double Gap, bool Tangential, double StartA, double EndA, double StartB, double EndB)
{
    private const int Halvings = 50;

    internal Contact(double a, double b, double gap) : this(a, b, gap, false, a, a, b, b) { }

    /// <summary>This stretch and one that goes on from it.</summary>
    internal Contact With(Contact c)
    {
        (double endA, double endB) = c.EndA > EndA ? (c.EndA, c.EndB) : (EndA, EndB);
        (double startA, double startB) = c.StartA < StartA ? (c.StartA, c.StartB) : (StartA, StartB);
        Contact nearer = Math.Abs(c.Gap) < Math.Abs(Gap) ? c : this;
        return nearer with { Tangential = Tangential || c.Tangential, StartA = startA, EndA = endA, StartB = startB, EndB = endB };
    }

    /// <summary>This stretch, which ends where a closed curve does, and one that goes on from the curve's start.</summary>
    internal Contact Before(Contact first, int segments) =>
        With(first with { A = first.A + segments, StartA = first.StartA + segments, EndA = first.EndA + segments });

    /// <summary>As it is told: a common stretch from a length on, else the nearest point.</summary>
    internal Meeting Reported(Curve a, Curve b, double shared)
    {
        double best = Tangential && Gap != 0 ? Touch(a, b) : A;
        Point at = At(a, best);
        double other = best == A ? B : b.Nearest(at).T;
        best = Round(best, a.Segments.Count);
        if (b.IsClosed) { other = Round(other, b.Segments.Count); }
        return Tangential && Way(a) >= shared
            ? new(best, other, at, true, StartA, EndA, StartB, EndB)
            : new(best, other, at, Tangential, best, best, other, other);
    }

    private double Way(Curve a)
    {
        double n = a.Segments.Count;
        return EndA <= n ? a.Length(StartA, EndA) : a.Length(StartA, n) + a.Length(0, EndA - n);
    }

    // Two curves that touch are nearest where their directions agree: halve between the ends of the contact.
    private double Touch(Curve a, Curve b)
    {
        double t0 = StartA, t1 = EndA, side0 = Side(t0), side1 = Side(t1);
        if (side0 * side1 >= 0) { return A; }
        for (int i = 0; i < Halvings; i++)
        {
            double t = (t0 + t1) / 2;
            if (Side(t) * side0 > 0) { t0 = t; }
            else { t1 = t; }
        }

        return (t0 + t1) / 2;

        double Side(double t)
        {
            double place = Round(t, a.Segments.Count);
            Point d = a.Derivative(place), e = b.Derivative(b.Nearest(a.At(place)).T);
            return Math.Sign(d.Dot(e)) * d.Cross(e);
        }
    }

    private static Point At(Curve a, double t) => a.At(Round(t, a.Segments.Count));

    private static double Round(double t, double n) => t > n ? t - n : t;
}
