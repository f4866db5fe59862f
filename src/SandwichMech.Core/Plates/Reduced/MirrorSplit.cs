using MathNet.Numerics.LinearAlgebra;
using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates.Reduced;

/// <summary>Motions of a plate that is alike on both sides of its centre line, parted into those that the mirror leaves and those that it turns round.</summary>
/// <remarks>
/// Such motions do not touch each other in stiffness, mass or air, so a reduced model is two of half the size: a quarter of the work. Which is which is told from
/// moments with polynomials that are themselves even or odd about the line: an even motion has no odd moment at all, however coarse the polynomials are. Whether the board
/// is alike on both sides is told from its motions too, so that grain, woods, bars and holes are all counted.
/// </remarks>
internal sealed class MirrorSplit
{
    // Degrees of the polynomials along and across: enough to tell the modes wanted from each other.
    private const int AlongDegree = 7, AcrossDegree = 9, InPlaneDegree = 3;
    // Least of a motion that the polynomials tell from the others.
    private const double Independence = 1e-6;
    // Share of a motion below which the mesh has put it here.
    private const double Stray = 1e-3;
    // Motions: u, v, w.
    private const int Across = 1, Deflection = 2;

    private readonly double[][] _even, _odd;
    private readonly double _clear;

    /// <summary>Prepares.</summary>
    /// <param name="system">The plate.</param>
    /// <param name="clear">
    /// Share of a motion's square that may be of the other kind: that of the mesh, which is not alike on both sides, or of a board that is not quite. About so much ω² changes,
    /// relative, where it is left out.
    /// </param>
    internal MirrorSplit(PlateSystem system, double clear)
    {
        _clear = clear;
        Point[] points = system.Mesh.Points;
        double left = points.Min(p => p.X), right = points.Max(p => p.X), low = points.Min(p => p.Y), high = points.Max(p => p.Y);
        var even = new List<double[]>();
        var odd = new List<double[]>();
        foreach (int motion in system.Motions.Where(m => m <= Deflection))
        {
            bool isDeflection = motion == Deflection;
            for (int a = 0; a <= (isDeflection ? AlongDegree : InPlaneDegree); a++)
            {
                for (int b = 0; b <= (isDeflection ? AcrossDegree : InPlaneDegree); b++)
                {
                    // The mirror turns v round.
                    bool isEven = (b % 2 == 0) != (motion == Across);
                    (isEven ? even : odd).Add(Moments(system, motion, a, b));
                }
            }
        }

        (_even, _odd) = ([.. even], [.. odd]);

        double[] Moments(PlateSystem of, int motion, int a, int b)
        {
            double[] values = new double[of.Unknowns];
            int d = of.Motions.Length, at = Array.IndexOf(of.Motions, motion);
            for (int i = 0; i < points.Length; i++)
            {
                if (of.Numbers[i * d + at] is not (>= 0 and int dof)) { continue; }
                double xi = 2 * (points[i].X - left) / (right - left) - 1, eta = (2 * points[i].Y - low - high) / (high - low);
                values[dof] = Legendre(a, xi) * Legendre(b, eta);
            }

            return PlateProducts.Mass(of, values);
        }
    }

    /// <summary>Parts motions.</summary>
    /// <param name="vectors">Motions that together are alike on both sides: all modes up to one, or all rigid motions; orthonormal by the mass.</param>
    /// <param name="isKnown">The plate is known to be alike on both sides.</param>
    /// <returns>Even and odd parts of each, nothing where a motion has none; or nothing at all where the plate is not alike on both sides.</returns>
    internal (double[]?[] Even, double[]?[] Odd)? Of(IReadOnlyList<double[]> vectors, bool isKnown = false)
    {
        int n = vectors.Count;
        if (n == 0) { return ([], []); }
        Matrix<double> even = Gram(_even, vectors), odd = Gram(_odd, vectors), both = even + odd;
        Matrix<double> scale = Matrix<double>.Build.DenseDiagonal(n, n, i => both[i, i] > 0 ? 1 / Math.Sqrt(both[i, i]) : 0);
        var whole = (scale * both * scale).Evd(Symmetricity.Symmetric);
        if (!isKnown && !(whole.EigenValues[0].Real > Independence)) { return null; }
        Matrix<double> root = scale * whole.EigenVectors * Matrix<double>.Build.DenseDiagonal(n, n, i => 1 / Math.Sqrt(whole.EigenValues[i].Real));
        var parts = (root.Transpose() * odd * root).Evd(Symmetricity.Symmetric);
        double[] oddness = [.. parts.EigenValues.Select(v => v.Real)];
        if (!isKnown && oddness.Any(o => o > _clear && o < 1 - _clear)) { return null; }
        Matrix<double> turned = root * parts.EigenVectors, back = turned.Transpose() * both;
        return (Part(o => o < 0.5), Part(o => o > 0.5));

        double[]?[] Part(Func<double, bool> belongs)
        {
            Matrix<double> only = Matrix<double>.Build.DenseDiagonal(n, n, i => belongs(oddness[i]) ? 1 : 0), projection = turned * only * back;
            return [.. Enumerable.Range(0, n).Select(i => projection.Column(i) is var c && c.DotProduct(c) > Stray ? Combined(vectors, c) : null)];
        }
    }

    private static double[] Combined(IReadOnlyList<double[]> vectors, Vector<double> with)
    {
        double[] sum = new double[vectors[0].Length];
        for (int i = 0; i < with.Count; i++) { Numerics.DenseRows.Add(sum, with[i], vectors[i]); }
        return sum;
    }

    private static Matrix<double> Gram(double[][] moments, IReadOnlyList<double[]> vectors)
    {
        var c = Matrix<double>.Build.Dense(moments.Length, vectors.Count, (k, i) => Numerics.DenseRows.Dot(moments[k], vectors[i]));
        return c.TransposeThisAndMultiply(c);
    }

    private static double Legendre(int degree, double x)
    {
        double before = 1, now = x;
        if (degree == 0) { return 1; }
        for (int k = 2; k <= degree; k++) { (before, now) = (now, ((2 * k - 1) * x * now - (k - 1) * before) / k); }
        return now;
    }
}
