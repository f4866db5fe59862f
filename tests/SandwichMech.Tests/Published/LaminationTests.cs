using SandwichMech.Core.Layups;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Published;

/// <summary>Classical lamination against worked examples, unsymmetric ones first.</summary>
[Trait("Check", "published")]
public class LaminationTests
{
    // A. T. Nettles, Basic Mechanics of Laminated Composite Plates, NASA RP-1351 (1994): graphite/epoxy, p. 82:
    // E1 = 20,010,000, E2 = 1,301,000, G12 = 1,001,000 lb/in², ν12 = 0.3, ν21 = 0.02 (printed rounded; exact 0.0195),
    // plies of 0.005 in. Reduced stiffnesses as printed, pp. 46 and 84: Q11 = 20,130,785, Q12 = 392,656, Q22 = 1,308,853.
    // Read in a transcription of the report's text. Units lb and in throughout.
    private const double Thickness = 0.005;

    private static Ply Printed(double degrees) => SamplePly.Reduced(Thickness, 20_130_785, 392_656, 1_308_853, 1_001_000, 1e6, 1e6, degrees);

    private static Ply FromModuli(double degrees) => SamplePly.Orthotropic(Thickness, 20_010_000, 1_301_000, 0.3, 1_001_000, 1e6, 1e6, degrees);

    [Fact]
    public void Reduced_stiffness_of_the_moduli_is_the_printed_one_within_the_rounding_of_nu21()
    {
        // ν21 rounded up to 0.02 raises Q by 0.015 %.
        Sym3 q = FromModuli(0).ReducedStiffness();
        Checks.Near(20_130_785, q.M11, 1.6e-4);
        Checks.Near(392_656, q.M12, 1.6e-4);
        Checks.Near(1_308_853, q.M22, 1.6e-4);
    }

    [Fact]
    public void A_ply_at_45_degrees_has_the_printed_stiffness()
    {
        Sym3 q = Printed(45).ReducedStiffness();
        Checks.Printed("6557237", q.M11, 1);
        Checks.Printed("6557237", q.M22, 1);
        Checks.Printed("4555238", q.M12, 1);
        Checks.Printed("4705483", q.M16, 1);
        Checks.Printed("4705483", q.M26, 1);
        Checks.Printed("5163582", q.M66, 1);
    }

    // Example 9, p. 84: three plies, 45° outermost, 0°, 90°.
    [Fact]
    public void An_unsymmetric_layup_of_three_plies_has_the_printed_A_and_B()
    {
        Laminate laminate = Laminate.From([Printed(90), Printed(0), Printed(45)]);
        Checks.Printed("139984", laminate.A.M11);
        Checks.Printed("23527", laminate.A.M16);
        Checks.Printed("35828", laminate.A.M66);
        Checks.Printed("131.2", laminate.B.M11);
        Checks.Printed("-339.4", laminate.B.M22, 1); // the report rounds its factors first
        Checks.Printed("117.6", laminate.B.M16);
        Checks.Printed("104", laminate.B.M12);
    }

    // Example 2, p. 46: two plies, 0° outermost, then 45°.
    [Fact]
    public void An_unsymmetric_layup_of_two_plies_has_the_printed_B()
    {
        Laminate laminate = Laminate.From([Printed(45), Printed(0)]);
        Checks.Printed("170", laminate.B.M11);
        Checks.Printed("-52", laminate.B.M12);
        Checks.Printed("-66", laminate.B.M22);
        Checks.Printed("-59", laminate.B.M16);
    }

    // K. Y. Lin, course AA432x (Composite Materials Overview for Engineers), as repeated in the tests of the public
    // repository PtFEM/ClassicalLaminateTheory.jl: [0/45/90/−45]s, E1 = 20, E2 = 1.5, G12 = 1.0 Msi, ν12 = 0.34, plies of
    // 0.0075 in. Pins down D and its twist terms.
    [Fact]
    public void A_quasi_isotropic_layup_has_the_printed_A_and_D()
    {
        Ply[] half = [.. new[] { 0.0, 45, 90, -45 }.Select(d => SamplePly.Orthotropic(0.0075, 20e6, 1.5e6, 0.34, 1e6, 1e6, 1e6, d))];
        Laminate laminate = Laminate.From([.. half, .. half.Reverse()]);
        Checks.Printed("525698", laminate.A.M11);
        Checks.Printed("155811", laminate.A.M12);
        Checks.Printed("525698", laminate.A.M22);
        Checks.Printed("184943", laminate.A.M66);
        Checks.Printed("250.495", laminate.D.M11);
        Checks.Printed("32.687", laminate.D.M12);
        Checks.Printed("93.036", laminate.D.M22);
        Checks.Printed("23.619", laminate.D.M16);
        Checks.Printed("23.619", laminate.D.M26);
        Checks.Printed("41.427", laminate.D.M66);
    }
}
