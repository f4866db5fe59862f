using SandwichMech.Core.Plates;

namespace SandwichMech.Tests.Plates;

/// <summary>A free spruce plate against the formulae by which moduli are read from taps, with the bias these are known to have.</summary>
/// <remarks>
/// M. E. McIntyre and J. Woodhouse (1988), Acta Metall. 36, 1397: D1 = 0.0789 ρf²a⁴/h², D3 = 0.0789 ρf²b⁴/h² (bending along,
/// across), D4 = 0.274 ρf²a²b²/h² (twist), D1 = E_x/12μ, D4 = G/3 (from memory, high confidence; 0.0789 = 4π²/22.3733²,
/// 0.274 = 4π²/144, recomputed). Wood: Sitka spruce, Wood Handbook FPL-GTR-282 (2021), Tables 5-1 to 5-3b, quarter sawn. Thin:
/// h = b/1000.
/// </remarks>
public class FreeWoodPlateTests
{
    private const double El = 11.91e9, Er = 0.078 * El, G = 0.064 * El, NuLR = 0.372, Density = 448;

    // The twist is taken there as w = xy, which is too stiff: 4.6 % on 520 × 200 mm, 4.9 % on 500 × 400 mm, 5.4 % on a square
    // of one material (recomputed; the wood's constants were not given with it, so a tenth of a per cent).
    [Theory]
    [Trait("Check", "published")]
    [InlineData(0.520, 0.200, 4.6)]
    [InlineData(0.500, 0.400, 4.9)]
    public void The_twist_formula_is_too_high_by_what_is_known(double a, double b, double percent)
    {
        double h = b / 1000, formula = h / (a * b) * Math.Sqrt(G / 3 / (0.274 * Density));
        double ours = SamplePlate.Frequencies(Spruce(a, b, NuLR, 5, 4), 1, 6)[0];
        Checks.Close(percent, (formula / ours - 1) * 100, 0.1);
    }

    [Fact]
    [Trait("Check", "published")]
    public void On_a_square_of_one_material_the_twist_formula_is_too_high_by_more()
    {
        // λ = √(288(1 − ν)) = 14.199 against 13.468.
        double ours = SamplePlate.Lambda(SamplePlate.Rectangle(SamplePlate.Isotropic(3e-4), 1, 1, 4, 4), 1, 1, 6)[0];
        Checks.Close(5.4, (Math.Sqrt(288 * 0.7) / ours - 1) * 100, 0.05);
    }

    // Without Poisson's ratio the bending modes are beams exactly; the formulae's 22.3733 is Euler's.
    [Theory]
    [Trait("Check", "exact")]
    [InlineData(0.520, 0.200)]
    [InlineData(0.500, 0.400)]
    public void Without_Poissons_ratio_both_bending_modes_are_beams(double a, double b)
    {
        double[] ours = SamplePlate.Frequencies(Spruce(a, b, 0, 5, 5), 8, 6);
        foreach (double beam in new[] { Beam(a, El, b), Beam(b, Er, b) })
        {
            // Shear is left of it: π-something (h/L)² E/G, a few in a million.
            Assert.True(ours.Min(f => Math.Abs(f / beam - 1)) < 1e-5, $"{beam} Hz");
        }
    }

    // With it, the bending mode along a narrow plate still follows E, not E/μ: the formula's D1 reads μ too low. A wide
    // plate's mode across is held half way between.
    [Fact]
    [Trait("Check", "exact")]
    public void A_narrow_plate_bends_as_a_beam_of_its_modulus()
    {
        const double mu = 1 - NuLR * NuLR * Er / El;
        double ours = SamplePlate.Frequencies(Spruce(0.520, 0.104, NuLR, 6, 2), 1, 6)[0];
        Checks.Near(Beam(0.520, El, 0.104), ours, 5e-4);
        Checks.Near(0.0055, Beam(0.520, El / mu, 0.104) / ours - 1, 0.15);

        double[] wide = SamplePlate.Frequencies(Spruce(0.520, 0.200, NuLR, 5, 4), 4, 6);
        Checks.Within(Beam(0.200, Er, 0.200), Beam(0.200, Er / mu, 0.200), wide[3]);
    }

    // A narrow strip twists as Saint-Venant's bar, f = (h/ab)√(G/ρ): 10.3 % below w = xy, which shows that the formula's
    // bias depends on the shape (4.6 % at 520 × 200).
    [Fact]
    [Trait("Check", "exact")]
    public void A_narrow_strip_twists_as_Saint_Venants_bar()
    {
        const double a = 0.6, b = 0.02, h = b / 1000;
        double[] ours = SamplePlate.Frequencies(Spruce(a, b, NuLR, 10, 1), 6, 6);
        double bar = h / (a * b) * Math.Sqrt(G / Density);
        // The ends do not warp freely: 0.2 % stiffer at b/a = 1/30.
        Checks.Within(bar, bar * 1.003, ours.MinBy(f => Math.Abs(f - bar)));
    }

    private static double Beam(double length, double modulus, double b) =>
        b / 1000 / (length * length) * Math.Sqrt(modulus / (12 * Density)) * 22.373285 / (2 * Math.PI);

    private static PlateProblem Spruce(double a, double b, double nu, int along, int across) =>
        SamplePlate.Rectangle(SamplePlate.Wood(b / 1000, El, Er, nu, G, G, G, Density), a, b, along, across);
}
