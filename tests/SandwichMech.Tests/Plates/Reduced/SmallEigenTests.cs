using MathNet.Numerics.LinearAlgebra;
using SandwichMech.Core.Numerics;
using SandwichMech.Core.Plates.Reduced;

namespace SandwichMech.Tests.Plates.Reduced;

/// <summary>The small dense problems against MathNet's decompositions.</summary>
[Trait("Check", "independent")]
public class SmallEigenTests
{
    [Theory]
    [InlineData(1, 1)]
    [InlineData(2, 2)]
    [InlineData(5, 3)]
    [InlineData(37, 12)]
    [InlineData(90, 24)]
    public void The_lowest_pairs_are_those_of_a_full_decomposition(int n, int wanted)
    {
        (Matrix<double> k, Matrix<double> m) = Pair(n, 7);
        double[] values = new double[wanted], vectors = new double[wanted * n];
        Assert.True(new LowestPairs(n).Solve(Packed(k), Packed(m), values, vectors));
        Compare(k, m, values, vectors);
    }

    // Twice the same matrix side by side: every value comes twice.
    [Fact]
    public void Repeated_values_come_as_often_as_they_are()
    {
        (Matrix<double> k, Matrix<double> m) = Pair(20, 11);
        Matrix<double> none = Matrix<double>.Build.Dense(20, 20);
        double[] values = new double[16], vectors = new double[16 * 40];
        k = Matrix<double>.Build.DenseOfMatrixArray(new[,] { { k, none }, { none, k } });
        m = Matrix<double>.Build.DenseOfMatrixArray(new[,] { { m, none }, { none, m } });
        Assert.True(new LowestPairs(40).Solve(Packed(k), Packed(m), values, vectors));
        Compare(k, m, values, vectors);
    }

    [Fact]
    public void A_stiffness_that_is_not_positive_is_refused()
    {
        (Matrix<double> k, Matrix<double> m) = Pair(6, 3);
        k[4, 4] = -1;
        Assert.False(new LowestPairs(6).Solve(Packed(k), Packed(m), new double[2], new double[12]));
    }

    // Rigid motions first, without stiffness; in the first vectors alone the modes are some per cent off, iteration brings the rest. Single precision.
    [Theory]
    [InlineData(0, 30)]
    [InlineData(3, 30)]
    [InlineData(6, 160)]
    public void Rigid_motions_are_taken_out_exactly_and_what_the_leading_vectors_lack_is_found(int rigid, int flexible)
    {
        const int modes = 6;
        int all = rigid + flexible;
        (Matrix<double> k, Matrix<double> m) = Nested(rigid, flexible);
        float[] inertia = ReducedSolver.Laid(m.ToRowMajorArray(), rigid, rigid, flexible), stiffness = ReducedSolver.Laid(k.ToRowMajorArray(), 0, rigid, flexible);
        var solver = new ReducedSolver(rigid, flexible, modes);
        Assert.True(solver.Solve(([2], [0.5]), [stiffness], [inertia], 0, []));
        double[] expected = [.. Values(2 * k, 0.5 * m).Skip(rigid).Take(modes)];
        for (int i = 0; i < modes; i++)
        {
            Checks.Near(expected[i], solver.Values[i], 2e-5, $"value {i}");
            Vector<double> x = Vector<double>.Build.Dense([.. solver.RigidParts(i), .. solver.Vectors[(i * flexible)..((i + 1) * flexible)]]);
            Checks.Near(1, x * (0.5 * m * x), 2e-5, "modal mass");
            for (int r = 0; r < rigid; r++) { Checks.Close(0, (m * x)[r], 2e-6, "against a rigid motion"); }
        }

        Assert.Equal(all, m.RowCount);
    }

    // All orders that whole registers and parts of them make, against MathNet's.
    [Theory]
    [InlineData(16)]
    [InlineData(32)]
    [InlineData(80)]
    public void A_matrix_in_single_precision_is_factorised_solved_and_multiplied_as_by_a_library(int order)
    {
        (Matrix<double> k, _) = Pair(order, 13);
        k /= k[order - 1, order - 1];
        float[] a = ReducedSolver.Laid(k.ToRowMajorArray(), 0, 0, order), full = new float[order * order], y = new float[16 * order];
        SingleMatrix.Expand(a, order, full);
        Xorshift random = DesignSample.Random(2);
        Matrix<double> x = Matrix<double>.Build.Dense(order, 16, (_, _) => random.Next() - 0.5);
        float[] sixteen = [.. x.ToRowMajorArray().Select(v => (float)v)];
        SingleMatrix.Multiply(full, order, sixteen, y);
        AssertAlike(k * x, y);
        Assert.True(SingleMatrix.Factor(a, order));
        SingleMatrix.Solve(a, order, y);
        AssertAlike(x, y, 3e-7 * k.ConditionNumber());
        float[] products = new float[256], sum = new float[16 * order];
        SingleMatrix.Products(sixteen, sixteen, products);
        AssertAlike(x.TransposeThisAndMultiply(x), products);
        SingleMatrix.AddCombined(sixteen, products, sum);
        AssertAlike(x * x.TransposeThisAndMultiply(x), sum);
        k[order - 2, order - 2] = -1;
        Assert.False(SingleMatrix.Factor(ReducedSolver.Laid(k.ToRowMajorArray(), 0, 0, order), order));

        static void AssertAlike(Matrix<double> expected, float[] actual, double tolerance = 2e-6) =>
            Checks.Within(0, tolerance * expected.FrobeniusNorm(), (expected - Matrix<double>.Build.DenseOfRowMajor(expected.RowCount, expected.ColumnCount, actual.Select(v => (double)v))).FrobeniusNorm(), "difference");
    }

    private static void Compare(Matrix<double> k, Matrix<double> m, double[] values, double[] vectors)
    {
        int n = k.RowCount;
        double[] expected = Values(k, m);
        for (int i = 0; i < values.Length; i++)
        {
            Checks.Near(expected[i], values[i], 1e-10, $"value {i}");
            Vector<double> x = Vector<double>.Build.Dense(vectors[(i * n)..((i + 1) * n)]);
            Checks.Close(0, (k * x - values[i] * (m * x)).L2Norm() / (k * x).L2Norm(), 1e-9, $"residual {i}");
            for (int j = 0; j <= i; j++)
            {
                Checks.Close(i == j ? 1 : 0, x * (m * Vector<double>.Build.Dense(vectors[(j * n)..((j + 1) * n)])), 1e-9, $"product {i}, {j}");
            }
        }
    }

    private static double[] Values(Matrix<double> k, Matrix<double> m)
    {
        Matrix<double> inverse = m.Cholesky().Factor.Inverse();
        return [.. (inverse * k * inverse.Transpose()).Evd(Symmetricity.Symmetric).EigenValues.Select(v => v.Real).Order()];
    }

    private static (Matrix<double> K, Matrix<double> M) Pair(int n, ulong seed)
    {
        Xorshift random = DesignSample.Random(seed);
        Matrix<double> Positive(double spread) => Random(n, random) is var a ? (a * a.Transpose()) + Matrix<double>.Build.DenseDiagonal(n, n, i => 0.1 + spread * i * i) : a;
        return (Positive(1), Positive(0));
    }

    // Like a reduced plate: stiff vectors at the end that lean a little on the first ones.
    private static (Matrix<double> K, Matrix<double> M) Nested(int rigid, int flexible)
    {
        int n = rigid + flexible;
        Xorshift random = DesignSample.Random(5);
        Matrix<double> a = Random(n, random), b = Random(n, random);
        Matrix<double> k = Matrix<double>.Build.DenseDiagonal(n, n, i => 1 + Math.Pow(i, 2)) + 0.3 * (a + a.Transpose());
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++) { k[i, j] = i < rigid || j < rigid ? 0 : k[i, j]; }
        }

        return (k, Matrix<double>.Build.DenseIdentity(n) + 0.02 * (b + b.Transpose()));
    }

    private static Matrix<double> Random(int n, Xorshift random) => Matrix<double>.Build.Dense(n, n, (_, _) => random.Next() - 0.5);

    private static double[] Packed(Matrix<double> m)
    {
        var packed = new List<double>();
        for (int i = 0; i < m.RowCount; i++)
        {
            for (int j = 0; j <= i; j++) { packed.Add(m[i, j]); }
        }

        return [.. packed];
    }
}
