using CsCheck;
using MathNet.Numerics.LinearAlgebra;
using SandwichMech.Core.Numerics;

namespace SandwichMech.Tests.Plates;

/// <summary>The factorisation by fronts against dense matrices of a library.</summary>
[Trait("Check", "independent")]
public class FrontalFactorTests
{
    [Fact]
    public void Solutions_are_those_of_a_dense_solver() =>
        Gen.Select(Gen.Int[0, int.MaxValue], Gen.Int[1, 90], Gen.Int[1, 20]).Sample((seed, unknowns, elements) =>
        {
            SampleMatrix.Pieces pieces = SampleMatrix.Random(seed, unknowns, elements, definite: true);
            FrontalFactor factor = pieces.Factor()!;
            Assert.Equal(0, factor.NegativePivots);
            // 0.1 on every diagonal bounds the condition: about 1e4, so 1e-9 leaves room and an error of logic does not.
            Assert.True(Error(pieces.Whole(), factor, seed) < 1e-9);
        });

    // Sylvester's law of inertia. Random signs without pivoting: fixed seeds, since a vanishing pivot may come by chance.
    [Theory]
    [InlineData(1, 7, 1)]
    [InlineData(2, 40, 5)]
    [InlineData(3, 64, 9)]
    [InlineData(4, 90, 16)]
    [InlineData(5, 130, 3)]
    public void Negative_pivots_count_the_negative_eigenvalues_at_any_shift(int seed, int unknowns, int elements)
    {
        SampleMatrix.Pieces pieces = SampleMatrix.Random(seed, unknowns, elements, definite: false);
        Matrix<double> whole = pieces.Whole();
        double[] values = [.. whole.Evd(Symmetricity.Symmetric).EigenValues.Select(v => v.Real).Order()];
        for (int below = 0; below <= unknowns; below += Math.Max(1, unknowns / 7))
        {
            double shift = below == 0 ? values[0] - 1 : below == unknowns ? values[^1] + 1 : (values[below - 1] + values[below]) / 2;
            FrontalFactor factor = pieces.Factor(shift)!;
            Assert.Equal(values.Count(v => v < shift), factor.NegativePivots);
            Matrix<double> shifted = whole - shift * Matrix<double>.Build.DenseIdentity(unknowns);
            Assert.True(Error(shifted, factor, seed) < 1e-8 * shifted.ConditionNumber());
        }
    }

    [Fact]
    public void A_vanishing_pivot_is_said()
    {
        Assert.Null(SampleMatrix.Single(Matrix<double>.Build.DenseOfArray(new[,] { { 1.0, 2 }, { 2, 4 } })).Factor());
        Assert.Null(SampleMatrix.Single(Matrix<double>.Build.DenseDiagonal(3, 2)).Factor(2));
    }

    [Fact]
    public void Every_unknown_is_eliminated_once_and_after_all_that_hold_it() =>
        Gen.Select(Gen.Int[0, int.MaxValue], Gen.Int[1, 90], Gen.Int[1, 20]).Sample((seed, unknowns, elements) =>
        {
            SampleMatrix.Pieces pieces = SampleMatrix.Random(seed, unknowns, elements, definite: true);
            FrontalTree tree = pieces.Tree();
            int[] eliminatedAt = new int[unknowns];
            Array.Fill(eliminatedAt, -1);
            for (int f = 0; f < tree.Fronts.Length; f++)
            {
                FrontalTree.Front front = tree.Fronts[f];
                Assert.True(front.Left < f && front.Right < f);
                Assert.All(front.Unknowns, dof => Assert.Equal(-1, eliminatedAt[dof]));
                foreach (int dof in front.Unknowns.Take(front.Eliminated))
                {
                    eliminatedAt[dof] = f;
                }
            }

            Assert.DoesNotContain(-1, eliminatedAt);
            Assert.Equal(Enumerable.Range(0, pieces.Elements.Length), tree.Fronts.Where(f => f.Element >= 0).Select(f => f.Element).Order());
        });

    // One front: blocks of 16 pivots, four rows and eight columns at a time; sizes on both sides of each. What lies below the diagonal
    // and beyond the last column may hold anything.
    [Theory]
    [InlineData(1, 1)]
    [InlineData(3, 0)]
    [InlineData(7, 3)]
    [InlineData(15, 15)]
    [InlineData(16, 16)]
    [InlineData(21, 16)]
    [InlineData(41, 32)]
    [InlineData(70, 33)]
    [InlineData(99, 64)]
    [InlineData(101, 67)]
    [InlineData(130, 97)]
    public void One_front_leaves_its_factor_and_its_Schur_complement(int n, int k)
    {
        Matrix<double> a = SampleMatrix.Symmetric(new Random(n), n, definite: false) + 4 * Matrix<double>.Build.Diagonal(n, n, i => i % 3 == 0 ? -1 : 1) * Math.Sqrt(n);
        int stride = DenseFront.Stride(n);
        double[] front = new double[n * stride];
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < stride; j++)
            {
                front[i * stride + j] = j >= i && j < n ? a[i, j] : double.NaN;
            }
        }

        int negative = DenseFront.Eliminate(front, n, stride, k);

        Matrix<double> upper = Matrix<double>.Build.Dense(k, n, (i, j) => i <= j ? front[i * stride + j] : 0);
        Matrix<double> inverse = Matrix<double>.Build.Diagonal(k, k, i => 1 / front[i * stride + i]);
        Matrix<double> rest = Matrix<double>.Build.Dense(n, n, (i, j) => i < k || j < k ? 0 : front[Math.Min(i, j) * stride + Math.Max(i, j)]);
        Matrix<double> back = k == 0 ? rest : upper.Transpose() * inverse * upper + rest;
        Assert.True((back - a).InfinityNorm() <= 1e-12 * a.InfinityNorm());
        Assert.Equal(k == 0 ? 0 : a.SubMatrix(0, k, 0, k).Evd(Symmetricity.Symmetric).EigenValues.Count(v => v.Real < 0), negative);
    }

    [Fact]
    public void Twice_as_many_right_sides_are_solved_as_one_half_and_the_other()
    {
        const int one = FrontalFactor.Together, both = 2 * one;
        SampleMatrix.Pieces pieces = SampleMatrix.Random(11, 75, 9, definite: true);
        FrontalFactor factor = pieces.Factor()!;
        var random = new Random(1);
        double[] wide = [.. Enumerable.Range(0, 75 * both).Select(_ => random.NextDouble() - 0.5)];
        double[][] halves = [Half(0), Half(one)];
        factor.Solve(wide, both);
        foreach (double[] x in halves) { factor.Solve(x); }
        Assert.All(Enumerable.Range(0, 75 * both), i => Assert.Equal(halves[i % both / one][i / both * one + i % one], wide[i]));

        double[] Half(int from) => [.. Enumerable.Range(0, 75).SelectMany(i => wide[(both * i + from)..(both * i + from + one)])];
    }

    // Largest relative error of the right sides.
    private static double Error(Matrix<double> whole, FrontalFactor factor, int seed)
    {
        var random = new Random(seed);
        int n = whole.RowCount;
        Matrix<double> right = Matrix<double>.Build.Dense(n, FrontalFactor.Together, (_, _) => random.NextDouble() - 0.5);
        double[] x = new double[n * FrontalFactor.Together];
        for (int i = 0; i < x.Length; i++)
        {
            x[i] = right[i / FrontalFactor.Together, i % FrontalFactor.Together];
        }

        factor.Solve(x);
        Matrix<double> expected = whole.Solve(right);
        Matrix<double> ours = Matrix<double>.Build.Dense(n, FrontalFactor.Together, (i, r) => x[i * FrontalFactor.Together + r]);
        return Enumerable.Range(0, FrontalFactor.Together).Max(r => (ours - expected).Column(r).L2Norm() / expected.Column(r).L2Norm());
    }
}
