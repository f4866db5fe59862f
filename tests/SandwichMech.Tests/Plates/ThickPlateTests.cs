using MathNet.Numerics.LinearAlgebra;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Plates;

/// <summary>Plates in which shear and rotary inertia count: tables for Mindlin's plate, exact cases, and an independent solution.</summary>
/// <remarks>
/// Tables of hinged thick plates mean the "hard" hinge, which also stops rotation along the edge (Navier's). The solver's
/// hinge is w = 0 alone. So those tables are met here by the oracle (which then judges the solver), or where both hinges are one.
/// </remarks>
public class ThickPlateTests
{
    // D. J. Dawe and O. L. Roufaeil (1980), J. Sound Vib. 69, 345; K. M. Liew, Y. Xiang and S. Kitipornchai (1993), Computers
    // & Structures 49, 1: ν = 0.3, κ = 5/6, ωa²√(m/D)/π². CCCC printed, from memory (high confidence), and recomputed to the
    // same digits; FFFF and the thin CCCC recomputed only (Ritz, 11 × 11), which leaves them up to 10⁻⁴ high.
    [Theory]
    [Trait("Check", "published")]
    [InlineData("CCCC", 0.1, 2e-5, new[] { 3.2954, 6.2858, 6.2858, 8.8098, 10.3788, 10.4778 })]
    [InlineData("CCCC", 0.2, 2e-5, new[] { 2.6875, 4.6907, 4.6907, 6.2985, 7.1767, 7.2759 })]
    [InlineData("CCCC", 0.01, 3e-5, new[] { 3.6417, 7.4207, 7.4207, 10.9319, 13.2863 })]
    [InlineData("FFFF", 0.1, 1e-4, new[] { 1.2888, 1.9194, 2.3633, 3.2345, 3.2345, 5.6083 })]
    [InlineData("FFFF", 0.2, 2e-5, new[] { 1.1856, 1.7630, 2.1474, 2.7938, 2.7938, 4.5701 })]
    public void A_thick_square_has_the_tabulated_frequencies(string sides, double thickness, double relative, double[] table)
    {
        double[] ours = SamplePlate.Lambda(SamplePlate.Rectangle(SamplePlate.Isotropic(thickness), 1, 1, 5, 5, sides), 1, table.Length, 6);
        for (int i = 0; i < table.Length; i++)
        {
            Checks.Near(table[i], ours[i] / (Math.PI * Math.PI), relative + 5e-5 / table[i], $"mode {i + 1}");
        }
    }

    // The same papers, κ = 0.8601: ωa√(ρ/G) printed 1.594, 3.046, 3.046, 4.285, 5.035, 5.078 (Rayleigh–Ritz, upper bounds);
    // recomputed 1.5910, 3.0389, 3.0389, 4.2625, 5.0247, 5.0723.
    [Fact]
    [Trait("Check", "published")]
    public void A_clamped_square_with_its_papers_shear_factor_has_the_printed_frequencies()
    {
        PlateSection section = SamplePlate.Isotropic(0.1, 0.3, 2.6);
        section = section with { S = new(section.S.Sx * 0.8601 * 1.2, section.S.Sy * 0.8601 * 1.2, 0) };
        double[] ours = SamplePlate.Frequencies(SamplePlate.Rectangle(section, 1, 1, 4, 4, "CCCC"), 6, 6);
        double[] recomputed = [1.5910, 3.0389, 3.0389, 4.2625, 5.0247, 5.0723], printed = [1.594, 3.046, 3.046, 4.285, 5.035, 5.078];
        for (int i = 0; i < recomputed.Length; i++)
        {
            Checks.Near(recomputed[i], 2 * Math.PI * ours[i], 5e-5, $"mode {i + 1}");
            Checks.Within(0.994 * printed[i], printed[i], 2 * Math.PI * ours[i], $"printed {i + 1}");
        }
    }

    // First the oracle against tables of the hard hinge: FV52 (NAFEMS R0015 test 21, 10 × 10 × 1 m, κ = π²/12) and Liew's
    // SSSS. Then the solver against the oracle with w = 0 alone. The two hinges are up to 4 % apart here.
    [Theory]
    [Trait("Check", "independent")]
    [InlineData(0.1, 0.8224670334, new[] { 1.9310, 4.6048, 4.6048, 7.0638 })] // 45.897, 109.44, 109.44, 167.89 Hz
    [InlineData(0.1, 0.8333333333, new[] { 1.9317, 4.6084, 4.6084, 7.0716 })]
    [InlineData(0.2, 0.8333333333, new[] { 1.7679, 3.8656, 3.8656, 5.5879 })]
    public void A_hinge_of_w_alone_is_met_where_the_tables_hinge_is_another(double thickness, double kappa, double[] hard)
    {
        PlateSection section = SamplePlate.Isotropic(thickness);
        section = section with { S = new(section.S.Sx * kappa * 1.2, section.S.Sy * kappa * 1.2, 0) };
        double scale = 2 / Math.PI * Math.Sqrt(section.Mass / section.D.M11);
        double[] oracle = RitzRectangle.Frequencies(section, 1, 1, "HHHH", 9, 4);
        double[] soft = RitzRectangle.Frequencies(section, 1, 1, "SSSS", 11, 4);
        double[] ours = SamplePlate.Frequencies(SamplePlate.Rectangle(section, 1, 1, 4, 4, "SSSS"), 4, 6);
        for (int i = 0; i < hard.Length; i++)
        {
            Checks.Near(hard[i], oracle[i] * scale, 1e-4, $"oracle {i + 1}");
            Checks.Near(soft[i], ours[i], 1e-4, $"mode {i + 1}");
            Checks.Within(0.935, 0.99, ours[i] / oracle[i], $"soft over hard {i + 1}");
        }
    }

    // Any grain direction, 16 and 26 terms and coupled shear included. Both methods only come down towards the truth; how far
    // apart they are is what is left to either: 10⁻⁵ where all sides are alike, 10⁻³ where a clamped side meets another
    // at a corner (a singularity, stronger with so soft a shear across).
    [Theory]
    [Trait("Check", "independent")]
    [InlineData("FFFF", 20.0, 11, 2e-5)]
    [InlineData("CCCC", 40.0, 11, 6e-5)]
    [InlineData("CCSF", 75.0, 12, 5e-4)]
    [InlineData("CFCF", 30.0, 11, 1e-3)]
    [InlineData("SCFS", -50.0, 12, 2e-3)]
    public void A_turned_thick_wood_plate_is_met_by_another_method(string sides, double degrees, int terms, double relative)
    {
        PlateSection section = PlateSection.Of(Laminate.From([SamplePly.Orthotropic(0.02, 11.9e9, 0.93e9, 0.37, 0.76e9, 0.73e9, 0.05e9, degrees, 450)]));
        double[] oracle = RitzRectangle.Frequencies(section, 0.4, 0.3, sides, terms, 6);
        double[] ours = SamplePlate.Frequencies(SamplePlate.Rectangle(section, 0.4, 0.3, 5, 4, sides), 6, 6);
        for (int i = 0; i < oracle.Length; i++)
        {
            Checks.Near(oracle[i], ours[i], relative, $"mode {i + 1}");
        }
    }

    // Two sides hinged, two free, no Poisson coupling: the plate is a row of beams, and w = sin αx, φx ~ cos αx, φy = 0 meets
    // every edge condition, soft or hard. Timoshenko's beam, from its two-by-two eigenvalue problem.
    [Fact]
    [Trait("Check", "exact")]
    public void A_row_of_hinged_beams_has_Timoshenkos_frequencies()
    {
        PlateSection section = SamplePlate.Isotropic(0.1, 0);
        double[] ours = SamplePlate.Frequencies(SamplePlate.Rectangle(section, 1, 0.2, 6, 1, "FSFS"), 8, 7);
        for (int m = 1; m <= 3; m++)
        {
            double exact = Beam(section, m * Math.PI);
            Assert.True(ours.Min(f => Math.Abs(f / exact - 1)) < 1e-8, $"{m} half waves: {exact}");
        }
    }

    // No twisting stiffness: the twisting moment that tells the two hinges apart is zero, so Navier's solution with
    // both curvatures coupled, shear of two directions and rotary inertia is exact for w = 0 alone.
    [Fact]
    [Trait("Check", "exact")]
    public void Without_twisting_stiffness_the_hinged_plate_is_Naviers()
    {
        PlateSection section = SamplePlate.Isotropic(0.1, 0.3);
        section = section with { D = new(2.3 * section.D.M11, 0.5 * section.D.M11, section.D.M11, 0, 0, 0), S = new(section.S.Sx, 0.6 * section.S.Sx, 0) };
        double[] exact = [.. (from m in Enumerable.Range(1, 6) from n in Enumerable.Range(1, 6) select Navier(section, m * Math.PI, n * Math.PI / 0.8)).Order().Take(8)];
        double[] ours = SamplePlate.Frequencies(SamplePlate.Rectangle(section, 1, 0.8, 5, 4, "SSSS"), 8, 7);
        for (int i = 0; i < exact.Length; i++)
        {
            Checks.Near(exact[i], ours[i], 2e-7, $"mode {i + 1}");
        }
    }

    private static double Beam(PlateSection s, double p) => Lowest(
        Matrix<double>.Build.DenseOfArray(new[,] { { s.S.Sx * p * p, s.S.Sx * p }, { s.S.Sx * p, s.D.M11 * p * p + s.S.Sx } }), [s.Mass, s.RotaryInertia]);

    private static double Navier(PlateSection s, double p, double q) => Lowest(
        Matrix<double>.Build.DenseOfArray(new[,]
        {
            { s.S.Sx * p * p + s.S.Sy * q * q, s.S.Sx * p, s.S.Sy * q },
            { s.S.Sx * p, s.D.M11 * p * p + s.D.M66 * q * q + s.S.Sx, (s.D.M12 + s.D.M66) * p * q },
            { s.S.Sy * q, (s.D.M12 + s.D.M66) * p * q, s.D.M22 * q * q + s.D.M66 * p * p + s.S.Sy },
        }), [s.Mass, s.RotaryInertia, s.RotaryInertia]);

    private static double Lowest(Matrix<double> k, double[] mass)
    {
        Matrix<double> scale = Matrix<double>.Build.Diagonal([.. mass.Select(m => 1 / Math.Sqrt(m))]);
        return Math.Sqrt((scale * k * scale).Evd(Symmetricity.Symmetric).EigenValues.Min(v => v.Real)) / (2 * Math.PI);
    }
}
