using MathNet.Numerics.LinearAlgebra;
using SandwichMech.Core.Layups;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Independent;

/// <summary>Transverse shear with turned plies, S45 included, against exact elasticity of a strip bent to a cylinder.</summary>
/// <remarks>
/// N. J. Pagano (1970), Influence of shear coupling in cylindrical bending of anisotropic laminates, J. Composite Materials
/// 4, 330. Nothing varies across; a load sin px; plies turned, so u, v and w all move. State space as for the plate, with
/// the turned ply's coupling of 1 and 6, 4 and 5. Material: Rohwer's carbon/epoxy, GPa.
/// </remarks>
[Trait("Check", "independent")]
public class TurnedPlyTests
{
    private const double E1 = 138, E2 = 9.3, Nu12 = 0.3, Nu23 = 0.4, G12 = 4.6, G23 = 2.3;

    // Deflection over that of the rigid-in-shear strip: exact, with S as the layup has it, and with S45 left out.
    [Theory]
    [InlineData(new[] { 45.0, -45, -45, 45 }, 10, 1.1923, 1.2017, 1.1759)]
    [InlineData(new[] { 45.0, -45, -45, 45 }, 20, 1.0490, 1.0513, 1.0445)]
    [InlineData(new[] { 45.0, -45, -45, 45 }, 50, 1.0079, 1.0083, 1.0071)]
    [InlineData(new[] { 0.0, 45, -45, 90, 90, -45, 45, 0 }, 10, 1.3194, 1.3142, 1.3124)]
    [InlineData(new[] { 45.0, -45 }, 10, 1.0550, 1.0587, 1.0587)]
    [InlineData(new[] { 30.0, 0 }, 10, 1.1443, 1.1528, 1.1596)]
    [InlineData(new[] { 30.0, 0 }, 50, 1.0058, 1.0061, 1.0064)]
    public void Shear_deflection_is_met_within_a_tenth_of_itself_and_better_with_the_coupling(
        double[] degrees, double spanOverThickness, double exact, double ours, double withoutCoupling)
    {
        Laminate laminate = Laminate.From([.. degrees.Select(d => SamplePly.Orthotropic(0.25, E1, E2, Nu12, G12, G12, G23, d))]);
        double p = Math.PI / (spanOverThickness * laminate.Thickness);
        double rigid = FirstOrder(laminate with { Shear = new(1e6, 1e6, 0) }, p);
        double exactRatio = Exact(degrees, 0.25, p) / rigid, ratio = FirstOrder(laminate, p) / rigid;
        double uncoupled = FirstOrder(laminate with { Shear = laminate.Shear with { Sxy = 0 } }, p) / rigid;

        Checks.Close(exact, exactRatio, 6e-5, "exact");
        Checks.Close(ours, ratio, 6e-5, "first-order");
        Checks.Close(withoutCoupling, uncoupled, 6e-5, "without S45");
        Checks.Within(0, 0.10, Math.Abs(ratio - exactRatio) / (exactRatio - 1), "error over the shear deflection itself");
        Assert.True(Math.Abs(ratio - exactRatio) <= Math.Abs(uncoupled - exactRatio) + 1e-9, "the coupling helps or does not matter");
    }

    private static double FirstOrder(Laminate l, double p)
    {
        // Strains εx, γxy, κx, κxy, γxz, γyz from U, V, W, X, Y.
        Matrix<double> strain = Matrix<double>.Build.DenseOfArray(new double[,]
        {
            { -p, 0, 0, 0, 0 }, { 0, -p, 0, 0, 0 }, { 0, 0, 0, -p, 0 }, { 0, 0, 0, 0, -p }, { 0, 0, p, 1, 0 }, { 0, 0, 0, 0, 1 },
        });
        Matrix<double> c = Matrix<double>.Build.Dense(6, 6);
        Put(l.A, 0, 0);
        Put(l.B, 0, 2);
        Put(l.B, 2, 0);
        Put(l.D, 2, 2);
        (c[4, 4], c[5, 5], c[4, 5], c[5, 4]) = (l.Shear.Sx, l.Shear.Sy, l.Shear.Sxy, l.Shear.Sxy);
        return (strain.Transpose() * c * strain).Solve(Vector<double>.Build.Dense([0, 0, 1, 0, 0]))[2];

        void Put(Sym3 s, int row, int column)
        {
            (c[row, column], c[row, column + 1], c[row + 1, column], c[row + 1, column + 1]) = (s.M11, s.M16, s.M16, s.M66);
        }
    }

    private static double Exact(double[] degrees, double thickness, double p)
    {
        double left = degrees.Length * thickness / 2;
        Matrix<double> whole = Matrix<double>.Build.DenseIdentity(6), half = whole;
        foreach (double angle in degrees)
        {
            Matrix<double> state = State(angle * Math.PI / 180, p);
            whole = LayeredElasticity.Exponential(state * thickness) * whole;
            half = left > 0 ? LayeredElasticity.Exponential(state * Math.Min(left, thickness)) * half : half;
            left -= thickness;
        }

        Vector<double> bottom = whole.SubMatrix(3, 3, 0, 3).Solve(Vector<double>.Build.Dense([0, 0, 1]));
        return half.SubMatrix(2, 1, 0, 3).Multiply(bottom)[0];
    }

    private static Matrix<double> State(double angle, double p)
    {
        Matrix<double> s = Matrix<double>.Build.Dense(6, 6);
        (s[0, 0], s[1, 1], s[2, 2]) = (1 / E1, 1 / E2, 1 / E2);
        s[0, 1] = s[1, 0] = s[0, 2] = s[2, 0] = -Nu12 / E1;
        s[1, 2] = s[2, 1] = -Nu23 / E2;
        (s[3, 3], s[4, 4], s[5, 5]) = (1 / G23, 1 / G12, 1 / G12);
        double m = Math.Cos(angle), n = Math.Sin(angle);
        Matrix<double> turn = Matrix<double>.Build.DenseOfArray(new double[,]
        {
            { m * m, n * n, 0, 0, 0, 2 * m * n }, { n * n, m * m, 0, 0, 0, -2 * m * n }, { 0, 0, 1, 0, 0, 0 },
            { 0, 0, 0, m, -n, 0 }, { 0, 0, 0, n, m, 0 }, { -m * n, m * n, 0, 0, 0, m * m - n * n },
        });
        Matrix<double> c = (turn.Transpose() * s * turn).Inverse();
        Matrix<double> shear = Matrix<double>.Build.DenseOfArray(new[,] { { c[4, 4], c[3, 4] }, { c[3, 4], c[3, 3] } }).Inverse();
        double r13 = c[0, 2] / c[2, 2], r36 = c[2, 5] / c[2, 2];
        double q11 = c[0, 0] - c[0, 2] * r13, q16 = c[0, 5] - c[0, 2] * r36, q66 = c[5, 5] - c[2, 5] * r36;
        return Matrix<double>.Build.DenseOfArray(new double[,]
        {
            { 0, 0, -p, shear[0, 0], shear[0, 1], 0 },
            { 0, 0, 0, shear[1, 0], shear[1, 1], 0 },
            { r13 * p, r36 * p, 0, 0, 0, 1 / c[2, 2] },
            { q11 * p * p, q16 * p * p, 0, 0, 0, -p * r13 },
            { q16 * p * p, q66 * p * p, 0, 0, 0, -p * r36 },
            { 0, 0, 0, p, 0, 0 },
        });
    }
}
