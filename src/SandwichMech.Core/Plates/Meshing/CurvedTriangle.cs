using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates.Meshing;

/// <summary>How good a triangle with curved sides is.</summary>
/// <param name="Least">Smallest determinant of the map from the unit triangle, m².</param>
/// <param name="Most">Largest.</param>
/// <param name="Shape">Smallest ratio of 4 √3 area to the sum of squared sides, taken locally: 1 for an equilateral triangle, negative
/// where the triangle is folded.</param>
internal readonly record struct TriangleQuality(double Least, double Most, double Shape)
{
    /// <summary>Least over most determinant: 1 for straight sides, zero or less where folded.</summary>
    internal double Ratio => Most > 0 ? Least / Most : -1;
}

/// <summary>The map of a triangle with curved sides: x(λ) = Σ λ v + Σ over sides λa λb ψ(λb − λa), the isoparametric map of order 5.</summary>
internal static class CurvedTriangle
{
    // λ0, λ1, λ2: corners, quarters of the sides, and inside.
    private static readonly (double, double, double)[] Places =
    [
        (1, 0, 0), (0, 1, 0), (0, 0, 1),
        (0.75, 0.25, 0), (0.5, 0.5, 0), (0.25, 0.75, 0), (0, 0.75, 0.25), (0, 0.5, 0.5), (0, 0.25, 0.75), (0.25, 0, 0.75), (0.5, 0, 0.5), (0.75, 0, 0.25),
        (1 / 3.0, 1 / 3.0, 1 / 3.0), (0.6, 0.2, 0.2), (0.2, 0.6, 0.2), (0.2, 0.2, 0.6),
    ];

    /// <summary>Quality of a triangle, anticlockwise.</summary>
    /// <param name="a">First corner.</param>
    /// <param name="b">Second corner.</param>
    /// <param name="c">Third corner.</param>
    /// <param name="ab">Bend of the side a–b in that direction, or none.</param>
    /// <param name="bc">Bend of b–c.</param>
    /// <param name="ca">Bend of c–a.</param>
    internal static TriangleQuality Quality(Point a, Point b, Point c, ReadOnlySpan<Point> ab, ReadOnlySpan<Point> bc, ReadOnlySpan<Point> ca)
    {
        Point e1 = b - a, e2 = c - a;
        if (ab.IsEmpty && bc.IsEmpty && ca.IsEmpty) { return At(e1, e2, new(double.PositiveInfinity, double.NegativeInfinity, double.PositiveInfinity)); }
        var q = new TriangleQuality(double.PositiveInfinity, double.NegativeInfinity, double.PositiveInfinity);
        foreach ((double l0, double l1, double l2) in Places)
        {
            Point r = e1, s = e2;
            if (!ab.IsEmpty)
            {
                // ∂r: λ0 falls, λ1 rises; ∂s: λ0 falls, λ2 rises.
                (Point psi, Point slope) = Bend(ab, l1 - l0);
                r += (l0 - l1) * psi + 2 * l0 * l1 * slope;
                s += l0 * l1 * slope - l1 * psi;
            }

            if (!bc.IsEmpty)
            {
                (Point psi, Point slope) = Bend(bc, l2 - l1);
                r += l2 * psi - l1 * l2 * slope;
                s += l1 * psi + l1 * l2 * slope;
            }

            if (!ca.IsEmpty)
            {
                (Point psi, Point slope) = Bend(ca, l0 - l2);
                r -= l2 * psi + l0 * l2 * slope;
                s += (l0 - l2) * psi - 2 * l0 * l2 * slope;
            }

            q = At(r, s, q);
        }

        return q;
    }

    /// <summary>The point at λ = (1, 1, 1)/3.</summary>
    internal static Point Middle(Point a, Point b, Point c, ReadOnlySpan<Point> ab, ReadOnlySpan<Point> bc, ReadOnlySpan<Point> ca)
    {
        Point p = a + b + c;
        Point bend = default;
        if (!ab.IsEmpty) { bend += ab[0]; }
        if (!bc.IsEmpty) { bend += bc[0]; }
        if (!ca.IsEmpty) { bend += ca[0]; }
        return 1 / 3.0 * p + 1 / 9.0 * bend;
    }

    private static TriangleQuality At(Point r, Point s, TriangleQuality q)
    {
        double det = r.Cross(s);
        Point third = s - r;
        double shape = 2 * Math.Sqrt(3) * det / (r.Dot(r) + s.Dot(s) + third.Dot(third));
        return new(Math.Min(q.Least, det), Math.Max(q.Most, det), Math.Min(q.Shape, shape));
    }

    private static (Point Value, Point Slope) Bend(ReadOnlySpan<Point> c, double x) =>
        (c[0] + x * (c[1] + x * (c[2] + x * c[3])), c[1] + x * (2 * c[2] + 3 * x * c[3]));
}
