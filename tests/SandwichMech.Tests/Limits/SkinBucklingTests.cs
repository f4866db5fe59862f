using SandwichMech.Core.Layups;
using SandwichMech.Core.Limits;
using SandwichMech.Core.Plates;
using SandwichMech.Tests.Plates;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Limits;

/// <summary>Wrinkling, dimpling, crimping and the print of cells.</summary>
public class SkinBucklingTests
{
    // Zenkert (1995), An Introduction to Sandwich Construction, chapter 6: E_f 70 GPa, E_c 100, G_c 40 MPa; his inputs, the results recomputed.
    [Fact]
    [Trait("Check", "published")]
    public void A_thick_foam_sandwich_wrinkles_at_the_recomputed_stress()
    {
        Checks.Printed("327.1e6", SkinBuckling.Wrinkling(70e9, 100e6, 40e6));
        Checks.Printed("595.3e6", SkinBuckling.Wrinkling(70e9, 100e6, 40e6) * SkinBuckling.PerfectFactor / SkinBuckling.DesignFactor);
    }

    // The same formula and eq. 6.32 at a soundboard's sizes, recomputed by hand: not published. Core of 8 and 1.5 ksi (aramid honeycomb 1/8-1.8).
    [Fact]
    [Trait("Check", "independent")]
    public void A_soundboards_skin_has_the_recomputed_stresses()
    {
        Checks.Printed("92.2e6", SkinBuckling.Wrinkling(11e9, 8 * 6.894757e6, 1.5 * 6.894757e6));
        Checks.Printed("61.2e6", SkinBuckling.Dimpling(0.078 * 11e9, 0.0149, 0.6e-3, 3.2e-3));
    }

    // Least load over the half wave of a strip on springs up to the core's middle: σ t = E_f I k² + (2 E_c/t_c)/k².
    [Fact]
    [Trait("Check", "independent")]
    public void Skins_on_a_thin_core_wrinkle_at_the_least_load_over_all_waves()
    {
        const double ef = 11e9, ec = 55.2e6, t = 0.7e-3, core = 1.8e-3;
        double least = Enumerable.Range(0, 20_000).Select(i => 50 * Math.Exp(i * 5e-4)).Min(k => ef * t * t * t / 12 * k * k + 2 * ec / core / (k * k)) / t;
        Checks.Near(least, SkinBuckling.ThinCoreWrinkling(ef, ec, t, core), 1e-6);
        // The design value of thick cores is the careful one for it.
        Assert.True(SkinBuckling.Wrinkling(ef, ec, 26.2e6) < least);
    }

    [Fact]
    [Trait("Check", "exact")]
    public void A_skin_is_as_stiff_in_a_direction_as_its_turned_compliance()
    {
        Ply ply = SamplePly.Orthotropic(0.7e-3, 11.9e9, 0.93e9, 0.372, 0.76e9, 26e6, 10e6, 20);
        Checks.Near(11.9e9, SkinBuckling.Modulus(ply, ply.Angle), 1e-12);
        Checks.Near(0.93e9, SkinBuckling.Modulus(ply, ply.Angle + Math.PI / 2), 1e-9);
        // 1/S̄11 by inverting the turned stiffness.
        Checks.Near(1 / (ply with { Angle = ply.Angle - 0.7 }).ReducedStiffness().Inverse().M11, SkinBuckling.Modulus(ply, 0.7), 1e-9);
        Checks.Near(26e6, SkinBuckling.TransverseShear(ply, ply.Angle), 1e-12);
        Checks.Near(10e6, SkinBuckling.TransverseShear(ply, ply.Angle - Math.PI / 2), 1e-9);
    }

    // Of one isotropic skin exact in first-order theory: p a⁴/64 D + p a²/4 S.
    [Fact]
    [Trait("Check", "exact")]
    public void An_isotropic_skin_sinks_into_a_cell_as_a_clamped_disc()
    {
        Ply ply = SamplePly.Isotropic(0.6e-3, 3e9, 0.3);
        Laminate laminate = Laminate.From([ply]);
        const double a = 1.6e-3;
        double expected = 1e5 * (Math.Pow(a, 4) / (64 * laminate.Bending.M11) + a * a / (4 * laminate.Shear.Sx));
        Checks.Near(expected, PrintThrough.Deflection(ply, 2 * a, 1e5), 1e-9);
    }

    // A wooden skin by the plate solver on the same disc: the closed sum of bending and shear is an estimate, within a tenth.
    [Theory]
    [Trait("Check", "independent")]
    [InlineData(0.4e-3)]
    [InlineData(0.7e-3)]
    [InlineData(1.0e-3)]
    public void A_wooden_skin_sinks_as_the_plate_solver_has_it(double thickness)
    {
        const double a = 1.6e-3;
        Ply ply = SamplePly.Orthotropic(thickness, 11.9e9, 0.93e9, 0.372, 0.76e9, 0.73e9, 0.036e9);
        var problem = new PlateProblem(SamplePlate.DiscMesh(a, 3), [PlateSection.Of(Laminate.From([ply]))], _ => EdgeSupport.Clamped);
        double solved = SampleStatics.UnderPressure(problem, 6, default, Math.PI * a * a);
        Checks.Near(solved, PrintThrough.Deflection(ply, 2 * a, 1), 0.1);
    }
}
