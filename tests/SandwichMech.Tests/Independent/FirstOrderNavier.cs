using MathNet.Numerics.LinearAlgebra;
using SandwichMech.Core.Layups;

namespace SandwichMech.Tests.Independent;

/// <summary>Oracle: Navier's solution of first-order theory with all five amplitudes U, V, W, X, Y kept and their inertia too.</summary>
/// <remarks>
/// Reddy (2004), Mechanics of Laminated Composite Plates and Shells, sec. 6.3: u = U cos αx sin βy, v = V sin αx cos βy,
/// w = W sin αx sin βy, φx = X cos αx sin βy, φy = Y sin αx cos βy, for layups without 16 and 26 terms. Written as
/// strain energy from a strain–amplitude matrix, K = Gᵀ·C·G, so that no stiffness coefficient is copied from a book.
/// </remarks>
internal static class FirstOrderNavier
{
    /// <summary>Deflection at the crest of q sin αx sin βy per unit q, m³/N.</summary>
    public static double Deflection(Laminate laminate, double a, double b, int m = 1, int n = 1) =>
        Stiffness(laminate, m * Math.PI / a, n * Math.PI / b).Solve(Vector<double>.Build.Dense([0, 0, 1, 0, 0]))[2];

    /// <summary>Deflection at the middle under a uniform load per unit load, m³/N: sum of the odd terms up to the given number.</summary>
    public static double UniformLoad(Laminate laminate, double a, double b, int terms)
    {
        double sum = 0;
        for (int m = 1; m <= terms; m += 2)
        {
            for (int n = 1; n <= terms; n += 2)
            {
                double load = 16 / (Math.PI * Math.PI * m * n);
                double sign = (m + n) / 2 % 2 == 1 ? 1 : -1;
                sum += sign * load * Deflection(laminate, a, b, m, n);
            }
        }

        return sum;
    }

    /// <summary>Lowest frequency with m and n half waves, Hz.</summary>
    public static double Frequency(Laminate laminate, double a, double b, int m, int n)
    {
        Matrix<double> k = Stiffness(laminate, m * Math.PI / a, n * Math.PI / b);
        Matrix<double> lower = Mass(laminate).Cholesky().Factor;
        Matrix<double> half = lower.Solve(k);
        Matrix<double> standard = lower.Solve(half.Transpose());
        double lowest = ((standard + standard.Transpose()) / 2).Evd(Symmetricity.Symmetric).EigenValues.Min(e => e.Real);
        return Math.Sqrt(lowest) / (2 * Math.PI);
    }

    private static Matrix<double> Stiffness(Laminate l, double p, double q)
    {
        // Rows: εx, εy, γxy, κx, κy, κxy, γxz, γyz; columns U, V, W, X, Y.
        Matrix<double> strain = Matrix<double>.Build.DenseOfArray(new double[,]
        {
            { -p, 0, 0, 0, 0 },
            { 0, -q, 0, 0, 0 },
            { q, p, 0, 0, 0 },
            { 0, 0, 0, -p, 0 },
            { 0, 0, 0, 0, -q },
            { 0, 0, 0, q, p },
            { 0, 0, p, 1, 0 },
            { 0, 0, q, 0, 1 },
        });
        Matrix<double> c = Matrix<double>.Build.Dense(8, 8);
        Put(c, l.A, 0, 0);
        Put(c, l.B, 0, 3);
        Put(c, l.B, 3, 0);
        Put(c, l.D, 3, 3);
        (c[6, 6], c[7, 7]) = (l.Shear.Sx, l.Shear.Sy);
        return strain.Transpose() * c * strain;
    }

    private static Matrix<double> Mass(Laminate l)
    {
        (double m0, double m1, double m2) = (l.ArealMass, l.FirstMoment, l.RotaryInertia);
        return Matrix<double>.Build.DenseOfArray(new double[,]
        {
            { m0, 0, 0, m1, 0 },
            { 0, m0, 0, 0, m1 },
            { 0, 0, m0, 0, 0 },
            { m1, 0, 0, m2, 0 },
            { 0, m1, 0, 0, m2 },
        });
    }

    // The 16 and 26 terms couple sines with cosines: Navier's shapes leave them out.
    private static void Put(Matrix<double> c, Sym3 s, int row, int column)
    {
        c[row, column] = s.M11;
        c[row, column + 1] = c[row + 1, column] = s.M12;
        c[row + 1, column + 1] = s.M22;
        c[row + 2, column + 2] = s.M66;
    }
}
