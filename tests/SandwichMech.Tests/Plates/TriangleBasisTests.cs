using System.Numerics;
using MathNet.Numerics.LinearAlgebra;
using SandwichMech.Core.Plates;

namespace SandwichMech.Tests.Plates;

/// <summary>Shape functions and quadrature of one triangle against monomials.</summary>
[Trait("Check", "exact")]
public class TriangleBasisTests
{
    private static readonly (double R, double S)[] Anywhere = [(0.2, 0.3), (0, 0), (0, 1), (1, 0), (0.11, 0.83), (0.5, 0.5), (1.0 / 3, 1.0 / 3)];

    public static TheoryData<int> Orders => [1, 2, 3, 4, 5, 6, 7, 8];

    [Theory]
    [MemberData(nameof(Orders))]
    public void Each_function_is_one_at_its_own_node_and_zero_at_the_others(int order)
    {
        TriangleBasis basis = TriangleBasis.Of(order);
        Assert.Equal((order + 1) * (order + 2) / 2, basis.Count);
        for (int node = 0; node < basis.Count; node++)
        {
            double[] n = basis.At(basis.Nodes[node].R, basis.Nodes[node].S).N;
            for (int i = 0; i < n.Length; i++)
            {
                Checks.Close(i == node ? 1 : 0, n[i], 1e-12);
            }
        }
    }

    [Theory]
    [MemberData(nameof(Orders))]
    public void Functions_add_up_to_one_and_their_slopes_to_zero(int order)
    {
        foreach ((double r, double s) in Anywhere)
        {
            (double[] n, double[] dr, double[] ds) = TriangleBasis.Of(order).At(r, s);
            Checks.Close(1, n.Sum(), 1e-12);
            Checks.Close(0, dr.Sum(), 1e-11);
            Checks.Close(0, ds.Sum(), 1e-11);
        }
    }

    // r^a s^b with a + b ≤ p lies in the space: interpolated at the nodes it comes back everywhere, slopes and all.
    [Theory]
    [MemberData(nameof(Orders))]
    public void Monomials_up_to_the_order_are_met_with_their_slopes(int order)
    {
        TriangleBasis basis = TriangleBasis.Of(order);
        foreach ((int a, int b) in Powers(order))
        {
            double[] atNodes = [.. basis.Nodes.Select(x => Power(x.R, a) * Power(x.S, b))];
            foreach ((double r, double s) in Anywhere)
            {
                (double[] n, double[] dr, double[] ds) = basis.At(r, s);
                Checks.Close(Power(r, a) * Power(s, b), Sum(n), 1e-12, $"r^{a} s^{b}");
                Checks.Close(a * Power(r, a - 1) * Power(s, b), Sum(dr), 1e-11, $"d/dr r^{a} s^{b}");
                Checks.Close(b * Power(r, a) * Power(s, b - 1), Sum(ds), 1e-11, $"d/ds r^{a} s^{b}");
            }

            double Sum(double[] shape) => shape.Zip(atNodes, (x, y) => x * y).Sum();
        }
    }

    // The order is exactly p: the next power does not come back.
    [Theory]
    [MemberData(nameof(Orders))]
    public void The_next_monomial_is_not_met(int order)
    {
        TriangleBasis basis = TriangleBasis.Of(order);
        double worst = Anywhere.Max(x => Math.Abs(
            basis.At(x.R, x.S).N.Zip(basis.Nodes, (n, y) => n * Power(y.R, order + 1)).Sum() - Power(x.R, order + 1)));
        Checks.Within(1e-6, 1, worst);
    }

    // ∫ r^a s^b over the triangle = a! b!/(a + b + 2)!, in whole numbers; to degree 2p + 2: a mass matrix on a curved triangle.
    [Theory]
    [MemberData(nameof(Orders))]
    public void Quadrature_is_exact_to_twice_the_order_and_two(int order)
    {
        TriangleBasis basis = TriangleBasis.Of(order);
        Assert.All(basis.Weights, w => Assert.True(w > 0));
        Assert.All(basis.Points, x => Assert.True(x.R > 0 && x.S > 0 && x.R + x.S < 1));
        foreach ((int a, int b) in Powers(2 * order + 2))
        {
            double exact = (double)Factorial(a) * (double)Factorial(b) / (double)Factorial(a + b + 2);
            double sum = basis.Points.Zip(basis.Weights, (x, w) => w * Power(x.R, a) * Power(x.S, b)).Sum();
            Checks.Near(exact, sum, 1e-12, $"r^{a} s^{b}");
        }
    }

    [Theory]
    [MemberData(nameof(Orders))]
    public void Tabulated_functions_are_those_at_the_quadrature_points(int order)
    {
        TriangleBasis basis = TriangleBasis.Of(order);
        for (int q = 0; q < basis.Points.Length; q++)
        {
            (double[] n, double[] dr, double[] ds) = basis.At(basis.Points[q].R, basis.Points[q].S);
            for (int i = 0; i < basis.Count; i++)
            {
                Assert.Equal(n[i], basis.N[i * basis.Points.Length + q]);
                Assert.Equal(dr[i], basis.Dr[i * basis.Points.Length + q]);
                Assert.Equal(ds[i], basis.Ds[i * basis.Points.Length + q]);
            }
        }
    }

    // Neighbours walk a common edge in opposite directions: the edge's places must read the same either way, and lie on all
    // three edges of the triangle where the order of nodes says.
    [Theory]
    [MemberData(nameof(Orders))]
    public void Edge_nodes_are_the_same_from_either_end_and_on_every_edge(int order)
    {
        TriangleBasis basis = TriangleBasis.Of(order);
        double[] t = basis.EdgeParameters;
        (double R, double S)[] corner = [(0, 0), (1, 0), (0, 1), (0, 0)];
        Assert.Equal(order - 1, t.Length);
        for (int i = 0; i < t.Length; i++)
        {
            Checks.Close(1, t[i] + t[^(i + 1)], 1e-15);
            for (int edge = 0; edge < 3; edge++)
            {
                (double r, double s) = basis.Nodes[3 + edge * t.Length + i];
                Checks.Close((1 - t[i]) * corner[edge].R + t[i] * corner[edge + 1].R, r, 1e-15);
                Checks.Close((1 - t[i]) * corner[edge].S + t[i] * corner[edge + 1].S, s, 1e-15);
            }
        }
    }

    // Gauss–Lobatto, p = 2 to 5 (Abramowitz and Stegun 1972, table 25.6): 0; ±√(1/5); 0, ±√(3/7); ±√(1/3 ∓ 2√7/21).
    [Fact]
    public void Edge_nodes_are_Lobattos()
    {
        double inner = Math.Sqrt(1 / 3.0 - 2 * Math.Sqrt(7) / 21), outer = Math.Sqrt(1 / 3.0 + 2 * Math.Sqrt(7) / 21);
        Same(2, 0);
        Same(3, -Math.Sqrt(0.2), Math.Sqrt(0.2));
        Same(4, -Math.Sqrt(3 / 7.0), 0, Math.Sqrt(3 / 7.0));
        Same(5, -outer, -inner, inner, outer);

        static void Same(int order, params double[] expected) =>
            Assert.All(expected.Zip(TriangleBasis.Of(order).EdgeParameters), x => Checks.Close((1 + x.First) / 2, x.Second, 1e-15));
    }

    // Condition in the sense that matters to interpolation: the largest sum of |N| over the triangle. Blyth and Pozrikidis
    // (2006) give a slow growth for this set; evenly spaced nodes pass 20 at order 8, these stay below 7.
    [Theory]
    [MemberData(nameof(Orders))]
    public void Nodes_are_well_placed(int order)
    {
        TriangleBasis basis = TriangleBasis.Of(order);
        double lebesgue = 0;
        for (int i = 0; i <= 40; i++)
        {
            for (int j = 0; i + j <= 40; j++)
            {
                lebesgue = Math.Max(lebesgue, basis.At(i / 40.0, j / 40.0).N.Sum(Math.Abs));
            }
        }

        Checks.Within(1, order <= 5 ? 3.5 : 7, lebesgue);

        // The functions' own mass matrix: from a small condition follow small errors of all that is built on it.
        Matrix<double> n = Matrix<double>.Build.DenseOfRowMajor(basis.Count, basis.Points.Length, basis.N);
        Matrix<double> mass = n * Matrix<double>.Build.Diagonal(basis.Weights) * n.Transpose();
        Checks.Within(1, 1000, mass.ConditionNumber());
    }

    private static IEnumerable<(int A, int B)> Powers(int degree) =>
        from a in Enumerable.Range(0, degree + 1) from b in Enumerable.Range(0, degree + 1 - a) select (a, b);

    private static double Power(double x, int n) => n < 0 ? 0 : n == 0 ? 1 : Math.Pow(x, n);

    private static BigInteger Factorial(int n) => n < 2 ? BigInteger.One : n * Factorial(n - 1);
}
