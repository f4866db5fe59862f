using MathNet.Numerics.Integration;

namespace SandwichMech.Core.Outlines;

/// <summary>Area, centroid and second moments of what a closed curve encloses.</summary>
/// <param name="Area">m², positive.</param>
/// <param name="Centroid">Centre of area.</param>
/// <param name="Ixx">∫ (y − yc)² dA, m⁴.</param>
/// <param name="Iyy">∫ (x − xc)² dA, m⁴.</param>
/// <param name="Ixy">∫ (x − xc)(y − yc) dA, m⁴.</param>
public readonly record struct AreaMoments(double Area, Point Centroid, double Ixx, double Iyy, double Ixy)
{
    // The integrands are polynomials of degree 11 at most, which six points integrate exactly.
    private static readonly GaussLegendreRule Gauss = new(0, 1, 6);

    /// <summary>The moments of a closed curve, by Green's theorem; exact up to rounding.</summary>
    /// <param name="curve">Closed and free of crossings, in either direction.</param>
    /// <exception cref="ArgumentException">The curve is open.</exception>
    public static AreaMoments Of(Curve curve)
    {
        if (!curve.IsClosed) { throw new ArgumentException("Only a closed curve encloses an area.", nameof(curve)); }
        // About a point of the curve, so that a board far from the origin loses no digits.
        Point o = curve.Segments[0].P0;
        double a = 0, x1 = 0, y1 = 0, x2 = 0, y2 = 0, xy = 0;
        foreach (Bezier s in curve.Segments)
        {
            for (int q = 0; q < Gauss.Order; q++)
            {
                Point p = s.At(Gauss.Abscissas[q]) - o, d = Gauss.Weights[q] * s.Derivative(Gauss.Abscissas[q]);
                a += p.Cross(d) / 2;
                x1 += p.X * p.X * d.Y / 2;
                y1 -= p.Y * p.Y * d.X / 2;
                x2 += p.X * p.X * p.X * d.Y / 3;
                y2 -= p.Y * p.Y * p.Y * d.X / 3;
                xy += p.X * p.X * p.Y * d.Y / 2;
            }
        }

        Point c = new(x1 / a, y1 / a);
        double sign = Math.Sign(a);
        return new(Math.Abs(a), o + c, sign * (y2 - a * c.Y * c.Y), sign * (x2 - a * c.X * c.X), sign * (xy - a * c.X * c.Y));
    }
}
