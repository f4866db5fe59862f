using MathNet.Numerics.LinearAlgebra;
using SandwichMech.Core.Identification;

namespace SandwichMech.Tests.Identification;

/// <summary>The fit against NIST's certified nonlinear regressions (Statistical Reference Datasets, StRD): parameters, their standard deviations, sum of squares, from both starts.</summary>
[Trait("Check", "published")]
public class LogFitTests
{
    private static readonly (double X, double Y)[] Misra1a =
    [
        (77.6, 10.07), (114.9, 14.73), (141.1, 17.94), (190.8, 23.93), (239.9, 29.61), (289.0, 35.18), (332.8, 40.02),
        (378.4, 44.82), (434.8, 50.76), (477.3, 55.05), (536.8, 61.01), (593.1, 66.40), (689.1, 75.47), (760.0, 81.78),
    ];

    private static readonly (double X, double Y)[] Thurber =
    [
        (-3.067, 80.574), (-2.981, 84.248), (-2.921, 87.264), (-2.912, 87.195), (-2.84, 89.076), (-2.797, 89.608), (-2.702, 89.868), (-2.699, 90.101), (-2.633, 92.405),
        (-2.481, 95.854), (-2.363, 100.696), (-2.322, 101.06), (-1.501, 401.672), (-1.46, 390.724), (-1.274, 567.534), (-1.212, 635.316), (-1.1, 733.054), (-1.046, 759.087),
        (-0.915, 894.206), (-0.714, 990.785), (-0.566, 1090.109), (-0.545, 1080.914), (-0.4, 1122.643), (-0.309, 1178.351), (-0.109, 1260.531), (-0.103, 1273.514), (0.01, 1288.339),
        (0.119, 1327.543), (0.377, 1353.863), (0.79, 1414.509), (0.963, 1425.208), (1.006, 1421.384), (1.115, 1442.962), (1.572, 1464.35), (1.841, 1468.705), (2.047, 1447.894), (2.2, 1457.628),
    ];

    [Theory]
    [InlineData(500, 1e-4)]
    [InlineData(250, 5e-4)]
    public void Misra1a_comes_out_as_certified(double b1, double b2) => Compare(
        Misra1a, [b1, b2], (x, b) => (b[0] * (1 - Math.Exp(-b[1] * x)), [1 - Math.Exp(-b[1] * x), b[0] * x * Math.Exp(-b[1] * x)]),
        [2.3894212918E+02, 5.5015643181E-04], [2.7070075241E+00, 7.2668688436E-06], 1.2455138894E-01);

    [Theory]
    [InlineData(new double[] { 1000, 1000, 400, 40, 0.7, 0.3, 0.03 })]
    [InlineData(new double[] { 1300, 1500, 500, 75, 1, 0.4, 0.05 })]
    public void Thurber_comes_out_as_certified(double[] start) => Compare(
        Thurber, start,
        (x, b) =>
        {
            double top = b[0] + x * (b[1] + x * (b[2] + x * b[3])), bottom = 1 + x * (b[4] + x * (b[5] + x * b[6])), y = top / bottom;
            return (y, [1 / bottom, x / bottom, x * x / bottom, x * x * x / bottom, -y * x / bottom, -y * x * x / bottom, -y * x * x * x / bottom]);
        },
        [1.2881396800E+03, 1.4910792535E+03, 5.8323836877E+02, 7.5416644291E+01, 9.6629502864E-01, 3.9797285797E-01, 4.9727297349E-02],
        [4.6647963344, 3.9571156086E+01, 2.8698696102E+01, 5.5675370270, 3.1333340687E-02, 1.4984928198E-02, 6.5842344623E-03], 5.6427082397E+03);

    // A normal spread beforehand is one more reading of the parameter itself.
    [Fact]
    public void What_is_known_before_counts_like_a_reading()
    {
        static ModelValues Twice(double[] p) => new([2 * p[0]], new[,] { { 2.0 } });
        FitResult fit = LogFit.Fit([1], Matrix<double>.Build.Dense(1, 1, 4), [6], [1], Twice);
        // Weights 4 at 1 and 4 at 3.
        Checks.Near(2, fit.Parameters[0], 1e-12);
        Checks.Near(1 / 8.0, fit.Covariance[0, 0], 1e-12);
        FitResult none = LogFit.Fit([1], Matrix<double>.Build.Dense(1, 1, 4), [], [], _ => new([], new double[0, 1]));
        Checks.Near(1, none.Parameters[0], 1e-12);
        Checks.Near(0.25, none.Covariance[0, 0], 1e-12);
    }

    private static void Compare((double X, double Y)[] data, double[] start, Func<double, double[], (double Y, double[] Slopes)> at, double[] certified, double[] deviations, double squares)
    {
        ModelValues Model(double[] b)
        {
            (double Y, double[] Slopes)[] all = [.. data.Select(d => at(d.X, b))];
            double[,] slopes = new double[data.Length, b.Length];
            for (int i = 0; i < data.Length; i++)
            {
                for (int j = 0; j < b.Length; j++) { slopes[i, j] = all[i].Slopes[j]; }
            }

            return new([.. all.Select(a => a.Y)], slopes);
        }

        FitResult fit = LogFit.Fit(
            start, Matrix<double>.Build.Dense(start.Length, start.Length), [.. data.Select(d => d.Y)], [.. data.Select(_ => 1.0)], Model, tolerance: 1e-9);
        Assert.True(fit.Settled);
        Checks.Near(squares, fit.SumOfSquares, 1e-9, "sum of squares");
        double residual = Math.Sqrt(squares / (data.Length - start.Length));
        for (int j = 0; j < start.Length; j++)
        {
            Checks.Near(certified[j], fit.Parameters[j], 1e-6, $"b{j + 1}");
            Checks.Near(deviations[j], residual * Math.Sqrt(fit.Covariance[j, j]), 1e-5, $"sd of b{j + 1}");
        }
    }
}
