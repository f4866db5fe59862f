using MathNet.Numerics.Integration;
using MathNet.Numerics.LinearAlgebra;
using SandwichMech.Core.Plates;

namespace SandwichMech.Tests.Plates;

/// <summary>Oracle: a rectangle of one section by Ritz's method with global polynomials, first-order theory, five motions or three.</summary>
/// <remarks>
/// Each of u, v, w, φx, φy is a double sum of Legendre polynomials in x and y, times (1 ± ξ) for every side at which it is
/// held. Strain energy ½∫ eᵀCe dA with the eight strains of the section, kinetic energy with its three inertias (Liew,
/// Wang, Xiang and Kitipornchai 1998, Vibration of Mindlin Plates, ch. 2, with Legendre polynomials in place of powers).
/// Nothing is shared with the solver but the record of the section's numbers.
/// Sides in the order y = 0, x = a, y = b, x = 0: F free; S w = 0 alone; H w, the rotation along the side and the in-plane
/// motion along it (the "hard" hinge: Navier's); C all.
/// </remarks>
internal static class RitzRectangle
{
    private enum Op { X, Y, One }

    // εx εy γxy κx κy κxy γxz γyz, each a sum of a motion (u 0, v 1, w 2, φx 3, φy 4) under an operator.
    private static readonly (int Motion, Op Op)[][] Strains =
    [
        [(0, Op.X)], [(1, Op.Y)], [(0, Op.Y), (1, Op.X)], [(3, Op.X)], [(4, Op.Y)], [(3, Op.Y), (4, Op.X)], [(2, Op.X), (3, Op.One)], [(2, Op.Y), (4, Op.One)],
    ];

    /// <summary>Frequencies of the flexible modes, Hz.</summary>
    /// <param name="section">The section; its in-plane motion is left out where B = 0.</param>
    /// <param name="a">Along x, m.</param>
    /// <param name="b">Along y, m.</param>
    /// <param name="sides">How the sides are held.</param>
    /// <param name="terms">Polynomials in each direction.</param>
    /// <param name="count">How many modes.</param>
    public static double[] Frequencies(PlateSection section, double a, double b, string sides, int terms, int count)
    {
        int[] motions = Math.Abs(section.B.M11) + Math.Abs(section.B.M22) + Math.Abs(section.B.M66) < 1e-10 * Math.Sqrt(section.A.M11 * section.D.M11)
            ? [2, 3, 4] : [0, 1, 2, 3, 4];
        double[,] c = Stiffness(section);
        Line[] alongX = [.. motions.Select(m => new Line(terms, a, Holds(sides[3], m, true), Holds(sides[1], m, true)))];
        Line[] alongY = [.. motions.Select(m => new Line(terms, b, Holds(sides[0], m, false), Holds(sides[2], m, false)))];
        int block = terms * terms, size = block * motions.Length;
        Matrix<double> k = Matrix<double>.Build.Dense(size, size), mass = Matrix<double>.Build.Dense(size, size);
        for (int p = 0; p < motions.Length; p++)
        {
            for (int q = 0; q < motions.Length; q++)
            {
                Matrix<double> kpq = Matrix<double>.Build.Dense(block, block);
                foreach (Op left in Enum.GetValues<Op>())
                {
                    foreach (Op right in Enum.GetValues<Op>())
                    {
                        double coefficient = 0;
                        for (int e = 0; e < 8; e++)
                        {
                            for (int f = 0; f < 8; f++)
                            {
                                coefficient += Strains[e].Contains((motions[p], left)) && Strains[f].Contains((motions[q], right)) ? c[e, f] : 0;
                            }
                        }

                        if (coefficient != 0)
                        {
                            kpq += coefficient * Integral(left, right);
                        }
                    }
                }

                k.SetSubMatrix(p * block, q * block, kpq);
                double inertia = Inertia(section, motions[p], motions[q]);
                if (inertia != 0)
                {
                    mass.SetSubMatrix(p * block, q * block, inertia * Integral(Op.One, Op.One));
                }

                Matrix<double> Integral(Op left, Op right) =>
                    Line.Product(alongX[p], left == Op.X, alongX[q], right == Op.X)
                        .KroneckerProduct(Line.Product(alongY[p], left == Op.Y, alongY[q], right == Op.Y));
            }
        }

        // σ of the order of the first ω² makes a free plate's K + σM definite; six more pairs for its rigid bodies.
        double sigma = 100 * section.D.M11 / (section.Mass * a * a * b * b);
        return [.. Lowest(k, mass, sigma, count + 6).Where(v => v > 1e-5 * sigma).Take(count).Select(v => Math.Sqrt(v) / (2 * Math.PI))];
    }

    // Subspace iteration (Bathe 1996, sec. 11.6) with (K + σM)⁻¹M on as many vectors again as are wanted.
    private static double[] Lowest(Matrix<double> k, Matrix<double> mass, double sigma, int wanted)
    {
        var random = new Random(1);
        int n = k.RowCount, width = Math.Min(n, 2 * wanted);
        var factor = (k + sigma * mass).Cholesky();
        Matrix<double> massed = Matrix<double>.Build.Dense(n, width, (_, _) => random.NextDouble() - 0.5);
        double[] values = new double[wanted];
        for (int i = 0; i < 300; i++)
        {
            Matrix<double> y = factor.Solve(massed), my = mass * y;
            Matrix<double> lower = (y.Transpose() * massed).Cholesky().Factor;
            Matrix<double> projected = lower.Solve(lower.Solve(y.Transpose() * my).Transpose());
            var evd = ((projected + projected.Transpose()) / 2).Evd(Symmetricity.Symmetric);
            double[] next = [.. evd.EigenValues.Select(v => 1 / v.Real - sigma).Order().Take(wanted)];
            if (next.Zip(values, (x, old) => Math.Abs(x - old) <= 1e-11 * (x + sigma)).All(same => same))
            {
                return next;
            }

            (values, massed) = (next, my * lower.Transpose().Solve(evd.EigenVectors));
        }

        throw new InvalidOperationException("The oracle did not settle.");
    }

    // Whether a side x = const (or y = const) holds a motion.
    private static bool Holds(char side, int motion, bool acrossX) => side switch
    {
        'F' => false,
        'S' => motion == 2,
        'H' => motion == 2 || motion == (acrossX ? 4 : 3) || motion == (acrossX ? 1 : 0),
        'C' => true,
        _ => throw new ArgumentOutOfRangeException(nameof(side), side, "F, S, H or C"),
    };

    private static double[,] Stiffness(in PlateSection s)
    {
        double[,] c = new double[8, 8];
        foreach ((Core.Layups.Sym3 m, int row, int column) in new[] { (s.A, 0, 0), (s.B, 0, 3), (s.B, 3, 0), (s.D, 3, 3) })
        {
            (c[row, column], c[row + 1, column + 1], c[row + 2, column + 2]) = (m.M11, m.M22, m.M66);
            c[row, column + 1] = c[row + 1, column] = m.M12;
            c[row, column + 2] = c[row + 2, column] = m.M16;
            c[row + 1, column + 2] = c[row + 2, column + 1] = m.M26;
        }

        (c[6, 6], c[7, 7], c[6, 7], c[7, 6]) = (s.S.Sx, s.S.Sy, s.S.Sxy, s.S.Sxy);
        return c;
    }

    private static double Inertia(in PlateSection s, int p, int q) =>
        p == q ? (p < 3 ? s.Mass : s.RotaryInertia) : Math.Abs(p - q) == 3 && Math.Min(p, q) < 2 ? s.FirstMoment : 0;

    // One motion along one direction: values and slopes at Gauss points.
    private sealed class Line
    {
        private readonly Matrix<double> _values, _slopes;
        private readonly Vector<double> _weights;

        internal Line(int terms, double length, bool heldAtStart, bool heldAtEnd)
        {
            var rule = new GaussLegendreRule(-1, 1, terms + 3);
            _weights = Vector<double>.Build.Dense(rule.Weights) * (length / 2);
            _values = Matrix<double>.Build.Dense(terms, rule.Order);
            _slopes = Matrix<double>.Build.Dense(terms, rule.Order);
            for (int p = 0; p < rule.Order; p++)
            {
                double x = rule.Abscissas[p];
                double factor = (heldAtStart ? 1 + x : 1) * (heldAtEnd ? 1 - x : 1);
                double factorSlope = (heldAtStart ? heldAtEnd ? -2 * x : 1 : 0) + (heldAtEnd && !heldAtStart ? -1 : 0);
                double before = 0, now = 1, beforeSlope = 0, slope = 0;
                for (int n = 0; n < terms; n++)
                {
                    double norm = Math.Sqrt(n + 0.5);
                    _values[n, p] = norm * factor * now;
                    _slopes[n, p] = norm * (factor * slope + factorSlope * now) * 2 / length;
                    (before, now, beforeSlope, slope) = (now, ((2 * n + 1) * x * now - n * before) / (n + 1),
                        slope, ((2 * n + 1) * (now + x * slope) - n * beforeSlope) / (n + 1));
                }
            }
        }

        internal static Matrix<double> Product(Line left, bool leftSlope, Line right, bool rightSlope) =>
            (leftSlope ? left._slopes : left._values) * Matrix<double>.Build.Diagonal(left._weights.AsArray())
                * (rightSlope ? right._slopes : right._values).Transpose();
    }
}
