using SandwichMech.Core.Layups;

namespace SandwichMech.Core.Plates;

/// <summary>One mode of a rectangle.</summary>
/// <param name="HalfWavesAlong">m, along x.</param>
/// <param name="HalfWavesAcross">n, along y.</param>
/// <param name="Frequency">Hz.</param>
public sealed record RectangleMode(int HalfWavesAlong, int HalfWavesAcross, double Frequency);

/// <summary>Natural frequencies of a hinged rectangle with transverse shear, rotary inertia and bending–stretching coupling: Navier's solution.</summary>
/// <remarks>
/// u = U cos αx sin βy, v = V sin αx cos βy, w = W sin αx sin βy, φx = X cos αx sin βy, φy = Y sin αx cos βy with α = mπ/a,
/// β = nπ/b satisfies first-order theory exactly for orthotropic layups (Reddy 2004, sec. 6.3; edges free to slide along
/// their normal, held along themselves). U and V follow X and Y statically (their own inertia acts far above these
/// frequencies); the rotary inertia follows the same mapping. Terms 16 and 26 of a turned grain, and S45, are left out: the
/// caller says so. In vacuo.
/// </remarks>
public static class HingedRectangle
{
    /// <summary>Frequency of one mode.</summary>
    /// <param name="laminate">The layup, grain along or across.</param>
    /// <param name="a">Length along x, m, positive.</param>
    /// <param name="b">Width along y, m, positive.</param>
    /// <param name="m">Half waves along x, 1 or more.</param>
    /// <param name="n">Half waves along y, 1 or more.</param>
    /// <returns>Hz.</returns>
    public static double Frequency(Laminate laminate, double a, double b, int m, int n)
    {
        double p = m * Math.PI / a, q = n * Math.PI / b, pp = p * p, qq = q * q, pq = p * q;
        (Sym3 am, Sym3 bm, Sym3 dm, ShearStiffness s) = (laminate.A, laminate.B, laminate.D, laminate.Shear);

        // In-plane amplitudes per unit X and Y: [U; V] = −Kuu⁻¹ Kuφ [X; Y].
        double kuu = am.M11 * pp + am.M66 * qq, kuv = (am.M12 + am.M66) * pq, kvv = am.M66 * pp + am.M22 * qq;
        double kux = bm.M11 * pp + bm.M66 * qq, kuy = (bm.M12 + bm.M66) * pq, kvy = bm.M66 * pp + bm.M22 * qq;
        double det = kuu * kvv - kuv * kuv;
        double ux = -(kvv * kux - kuv * kuy) / det, vx = -(kuu * kuy - kuv * kux) / det;
        double uy = -(kvv * kuy - kuv * kvy) / det, vy = -(kuu * kvy - kuv * kuy) / det;

        double kxx = dm.M11 * pp + dm.M66 * qq + s.Sx + kux * ux + kuy * vx;
        double kxy = (dm.M12 + dm.M66) * pq + kux * uy + kuy * vy;
        double kyy = dm.M66 * pp + dm.M22 * qq + s.Sy + kuy * uy + kvy * vy;
        var k = new Sym3(s.Sx * pp + s.Sy * qq, s.Sx * p, kxx, s.Sy * q, kxy, kyy);

        (double m0, double m1, double m2) = (laminate.ArealMass, laminate.FirstMoment, laminate.RotaryInertia);
        double mxx = m2 + 2 * m1 * ux + m0 * (ux * ux + vx * vx);
        double myy = m2 + 2 * m1 * vy + m0 * (uy * uy + vy * vy);
        double mxy = m1 * (uy + vx) + m0 * (ux * uy + vx * vy);

        return 1 / (2 * Math.PI * Math.Sqrt(LargestPeriodSquared(k.Inverse(), m0, mxx, mxy, myy)));
    }

    /// <summary>The lowest modes in order of frequency.</summary>
    /// <param name="laminate">The layup.</param>
    /// <param name="a">Length along x, m.</param>
    /// <param name="b">Width along y, m.</param>
    /// <param name="count">How many, 1 to 12.</param>
    /// <returns>Modes, lowest first.</returns>
    public static IReadOnlyList<RectangleMode> Lowest(Laminate laminate, double a, double b, int count)
    {
        // Each further half wave raises the frequency, so the n lowest lie among m, n ≤ count.
        var modes = new List<RectangleMode>();
        for (int m = 1; m <= count; m++)
        {
            for (int n = 1; n * m <= count; n++)
            {
                modes.Add(new(m, n, Frequency(laminate, a, b, m, n)));
            }
        }

        modes.Sort((a, b) => a.Frequency.CompareTo(b.Frequency));
        return modes.GetRange(0, count);
    }

    // Largest eigenvalue of K⁻¹M. It leads the next one, a thickness-shear motion, by orders of magnitude, so the power
    // iteration with a Rayleigh quotient settles within a few steps.
    private static double LargestPeriodSquared(Sym3 flexibility, double m0, double mxx, double mxy, double myy)
    {
        Mat3 f = flexibility.Full();
        double w = 1, x = 0, y = 0, value = 0;
        for (int i = 0; i < 200; i++)
        {
            double gw = m0 * w, gx = mxx * x + mxy * y, gy = mxy * x + myy * y;
            double nw = f.A11 * gw + f.A12 * gx + f.A13 * gy;
            double nx = f.A21 * gw + f.A22 * gx + f.A23 * gy;
            double ny = f.A31 * gw + f.A32 * gx + f.A33 * gy;
            double energy = nw * gw + nx * gx + ny * gy;
            double moved = nw * nw * m0 + nx * (mxx * nx + mxy * ny) + ny * (mxy * nx + myy * ny);
            double next = moved / energy;
            (w, x, y) = (1, nx / nw, ny / nw);
            if (Math.Abs(next - value) <= 1e-15 * next)
            {
                return next;
            }

            value = next;
        }

        return value;
    }
}
