using MathNet.Numerics.LinearAlgebra;
using SandwichMech.Core.Plates;

namespace SandwichMech.Tests.Plates;

/// <summary>How fast the error falls, against theory, and how small it has become: slope and ceiling.</summary>
/// <remarks>
/// For smooth modes the relative error of ω² falls as h^2p (Strang and Fix 1973, sec. 6.3), h the size of the triangles, p
/// the order, once h is small enough for the thickness. Cells go in even numbers: the diagonals alternate.
/// </remarks>
[Trait("Check", "convergence")]
public class PlateConvergenceTests
{
    // Exact: a hinged square of h/a = 0.2 without twisting stiffness (then the two hinges are one): Navier's first mode.
    [Theory]
    [InlineData(1, 6, 12, 1.9, 2.2, 0.14)]
    [InlineData(2, 6, 12, 3.8, 4.1, 3.6e-4)]
    [InlineData(3, 6, 12, 5.85, 6.1, 4.1e-7)]
    [InlineData(4, 4, 8, 7.75, 8.1, 9e-9)]
    [InlineData(5, 4, 6, 9.75, 10.2, 2e-10)]
    public void On_a_square_the_error_falls_as_theory_says(int order, int coarse, int fine, double from, double to, double ceiling)
    {
        PlateSection section = SamplePlate.Isotropic(0.2);
        section = section with { D = section.D with { M66 = 0 } };
        double exact = Navier(section), before = Error(coarse), after = Error(fine);
        Checks.Within(from, to, Math.Log(before / after) / Math.Log((double)fine / coarse), "slope");
        Checks.Within(0, ceiling, after, "error");

        double Error(int cells) =>
            Math.Pow(SamplePlate.Frequencies(SamplePlate.Rectangle(section, 1, 1, cells, cells, "SSSS"), 1, order)[0] / exact, 2) - 1;
    }

    // A clamped disc of h/a = 0.2, triangles curved along its edge; the reference is order 8 on 96 triangles, two rings apart
    // from the finest here by five digits. Orders above 4 lose a little to how the curve is blended into its triangles.
    [Theory]
    [InlineData(2, 4, 8, 3.7, 4.2, 4.2e-4)]
    [InlineData(3, 3, 6, 5.4, 6.2, 9e-7)]
    [InlineData(4, 2, 4, 6.9, 8.2, 4e-8)]
    [InlineData(5, 2, 3, 9.0, 10.5, 3e-9)]
    public void On_a_disc_with_curved_triangles_the_error_falls_as_theory_says(int order, int coarse, int fine, double from, double to, double ceiling)
    {
        double before = DiscError(order, coarse, true), after = DiscError(order, fine, true);
        Checks.Within(from, to, Math.Log(before / after) / Math.Log((double)fine / coarse), "slope");
        Checks.Within(0, ceiling, after, "error");
    }

    // With straight sides the disc is a polygon whatever the order: h², and at order 4 a hundred thousand times worse.
    [Fact]
    public void With_straight_sides_the_outlines_own_error_stays()
    {
        double before = DiscError(4, 2, false), after = DiscError(4, 4, false);
        Checks.Within(1.9, 2.3, Math.Log(before / after) / Math.Log(2), "slope");
        Checks.Within(0.015, 0.03, after, "error");
        Checks.Within(1e5, 1e7, after / DiscError(4, 4, true), "over the curved one");
    }

    // Polynomials of order p are among those of order p + 1 on the same straight triangles: by Rayleigh and Ritz no
    // frequency may rise. Thin and thick, every edge, pairs included.
    [Theory]
    [InlineData("FFFF", 0.1)]
    [InlineData("SSSS", 0.1)]
    [InlineData("CCCC", 0.01)]
    [InlineData("CSFF", 0.001)]
    public void Frequencies_fall_with_the_order(string sides, double thickness)
    {
        PlateProblem problem = SamplePlate.Rectangle(SamplePlate.Isotropic(thickness), 1, 0.8, 3, 2, sides);
        double[] last = [.. Enumerable.Repeat(double.PositiveInfinity, 8)];
        for (int order = 2; order <= 8; order++)
        {
            double[] now = SamplePlate.Frequencies(problem, 8, order);
            Assert.All(now.Zip(last), x => Assert.True(x.First <= x.Second * (1 + 1e-9), $"order {order}: {x}"));
            last = now;
        }
    }

    private static double DiscError(int order, int rings, bool curved)
    {
        PlateSection section = SamplePlate.Isotropic(0.2);
        double reference = Reference.Value;
        return Math.Pow(SamplePlate.Frequencies(SamplePlate.Disc(section, 1, rings, 'C', curved), 1, order)[0] / reference, 2) - 1;
    }

    private static readonly Lazy<double> Reference = new(() => SamplePlate.Frequencies(SamplePlate.Disc(SamplePlate.Isotropic(0.2), 1, 4, 'C'), 1, 8)[0]);

    private static double Navier(PlateSection s)
    {
        const double p = Math.PI;
        Matrix<double> k = Matrix<double>.Build.DenseOfArray(new[,]
        {
            { (s.S.Sx + s.S.Sy) * p * p, s.S.Sx * p, s.S.Sy * p },
            { s.S.Sx * p, s.D.M11 * p * p + s.S.Sx, s.D.M12 * p * p },
            { s.S.Sy * p, s.D.M12 * p * p, s.D.M22 * p * p + s.S.Sy },
        });
        Matrix<double> scale = Matrix<double>.Build.Diagonal([1 / Math.Sqrt(s.Mass), 1 / Math.Sqrt(s.RotaryInertia), 1 / Math.Sqrt(s.RotaryInertia)]);
        return Math.Sqrt((scale * k * scale).Evd(Symmetricity.Symmetric).EigenValues.Min(v => v.Real)) / (2 * Math.PI);
    }
}
