using CsCheck;
using MathNet.Numerics.LinearAlgebra;
using SandwichMech.Core.Numerics;

namespace SandwichMech.Tests.Plates;

/// <summary>The lowest eigenpairs of K x = λ M x against dense matrices.</summary>
public class BlockLanczosTests
{
    private const double Tolerance = 1e-6;

    // By Cholesky and a dense symmetric solver: M = LLᵀ, eigenvalues of L⁻¹KL⁻ᵀ.
    [Fact]
    [Trait("Check", "independent")]
    public void Lowest_values_are_those_of_a_dense_solver() =>
        Gen.Select(Gen.Int[0, int.MaxValue], Gen.Int[40, 100], Gen.Int[1, 16]).Sample((seed, n, wanted) =>
        {
            var random = new Random(seed);
            Matrix<double> k = SampleMatrix.Symmetric(random, n, definite: true), m = SampleMatrix.Symmetric(random, n, definite: true);
            Matrix<double> lower = m.Cholesky().Factor;
            Matrix<double> standard = lower.Solve(lower.Solve(k).Transpose());
            double[] expected = [.. ((standard + standard.Transpose()) / 2).Evd(Symmetricity.Symmetric).EigenValues.Select(v => v.Real).Order()];
            // The random mass has a condition of some 1e3, so the dense route itself holds about 1e-10 of the first value.
            Same(k, m, -expected[0], expected[..wanted], 1e-7);
        }, iter: 20);

    // K = L Q Λ Qᵀ Lᵀ with M = LLᵀ has the eigenvalues Λ that we choose.
    [Theory]
    [Trait("Check", "exact")]
    [InlineData(1, -0.5, new[] { 1.0, 2, 2, 3, 3, 5, 8, 8, 13 })] // doubles, as a square has
    [InlineData(2, -0.5, new[] { 0.0, 0, 0, 1, 1.2, 1.2, 4 })] // a free plate's three rigid bodies
    [InlineData(3, -0.5, new[] { 0.0, 0, 0, 0, 0, 0, 1, 3 })] // six, more than the four vectors of a block
    [InlineData(4, -0.5, new[] { 1.0, 1.000001, 1.000002, 1.000003, 1.000004, 2 })] // a cluster
    [InlineData(5, -0.5, new[] { 7.0, 7, 7, 7, 7, 7, 7, 7, 7, 9 })] // nine alike
    [InlineData(6, -100, new[] { 0.0, 0, 0, 0, 0, 0, 1, 3 })] // six, seen from far below, as of a long strip
    [InlineData(7, -100, new[] { 7.0, 7, 7, 7, 7, 7, 7, 7, 7, 9 })]
    public void Repeated_and_close_values_are_all_found(int seed, double shift, double[] lowest)
    {
        const int n = 80;
        var random = new Random(seed);
        double[] all = [.. lowest, .. Enumerable.Range(1, n - lowest.Length).Select(i => lowest[^1] * (1 + 0.7 * i))];
        Matrix<double> lower = SampleMatrix.Symmetric(random, n, definite: true).Cholesky().Factor;
        Matrix<double> q = SampleMatrix.Symmetric(random, n, definite: false).QR().Q;
        Matrix<double> half = lower * q;
        Same(half * Matrix<double>.Build.Diagonal(all) * half.Transpose(), lower * lower.Transpose(), shift, lowest, 1e-8);
    }

    // Fewer unknowns than the iteration likes, whole blocks or not, some or all values.
    [Fact]
    [Trait("Check", "independent")]
    public void The_smallest_problems_are_solved_too() =>
        Gen.Select(Gen.Int[0, int.MaxValue], Gen.Int[1, 20]).SelectMany((seed, n) => Gen.Int[1, n].Select(wanted => (seed, n, wanted))).Sample(x =>
        {
            Matrix<double> k = SampleMatrix.Symmetric(new Random(x.seed), x.n, definite: true);
            double[] expected = [.. k.Evd(Symmetricity.Symmetric).EigenValues.Select(v => v.Real).Order()];
            Same(k, Matrix<double>.Build.DenseIdentity(x.n), -1, expected[..x.wanted], 1e-8);
        });

    private static void Same(Matrix<double> k, Matrix<double> m, double shift, double[] expected, double relative)
    {
        int n = k.RowCount;
        FrontalFactor factor = SampleMatrix.Single(k - shift * m).Factor()!;
        BlockLanczos.Pairs pairs = BlockLanczos.Lowest(n, expected.Length, shift, factor,
            (x, y) => (m * Matrix<double>.Build.DenseOfRowMajor(n, Panel.Width, x)).ToRowMajorArray().CopyTo(y, 0), Tolerance, 4 * n,
            values => SampleMatrix.Single(k - (values[^1] + 1e-6 * (values[^1] - shift)) * m).Factor()!.NegativePivots == values.Length);
        for (int i = 0; i < expected.Length; i++)
        {
            Checks.Close(expected[i], pairs.Values[i], relative * (expected[i] - shift), $"value {i}");
            Vector<double> x = Vector<double>.Build.Dense(pairs.Vectors[i]);
            // Backward error: what the vector misses by, over what K and M do to any vector of its size.
            double residual = (k * x - pairs.Values[i] * (m * x)).L2Norm();
            Checks.Within(0, 1e-5, residual / ((k.L2Norm() + Math.Abs(pairs.Values[i]) * m.L2Norm()) * x.L2Norm()), $"residual {i}");
            for (int j = 0; j <= i; j++)
            {
                Checks.Close(i == j ? 1 : 0, Vector<double>.Build.Dense(pairs.Vectors[j]) * (m * x), 1e-10, $"xᵀMx {i},{j}");
            }
        }
    }
}
