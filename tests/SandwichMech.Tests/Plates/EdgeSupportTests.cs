using MathNet.Numerics.RootFinding;
using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Plates;

/// <summary>The hinge that does not let an edge twist, and the rim between hinged and clamped.</summary>
public class EdgeSupportTests
{
    // Mindlin's hinged square with κ = 5/6, ωa²√(m/D)/π², h/a = 0.1 and 0.2: D. J. Dawe and O. L. Roufaeil (1980), J. Sound Vib. 69, 345; K. M. Liew, Y. Xiang and
    // S. Kitipornchai (1993), Computers & Structures 49, 1. Printed values from memory (high confidence), recomputed to the same digits.
    [Theory]
    [Trait("Check", "published")]
    [InlineData(0.1, new[] { 1.9317, 4.6084, 4.6084, 7.0716, 8.6162, 8.6162 })]
    [InlineData(0.2, new[] { 1.7679, 3.8656, 3.8656, 5.5879, 6.6006, 6.6006 })]
    public void A_hard_hinge_has_the_tables_frequencies(double thickness, double[] table)
    {
        PlateSection section = SamplePlate.Isotropic(thickness);
        double[] ours = SamplePlate.Lambda(SampleStatics.Rectangle(section, 1, 1, 4, 4, EdgeSupport.HardHinged(section, 1)), 1, table.Length, 6);
        for (int i = 0; i < table.Length; i++) { Checks.Near(table[i], ours[i] / (Math.PI * Math.PI), 2e-5 + 5e-5 / table[i], $"mode {i + 1}"); }
    }

    // On a curved edge: Kirchhoff's hinged disc, whose edge cannot twist, λ² = 4.9351, 13.8982, 25.6133 (Bessel roots, ν = 0.3). Thin, the soft
    // hinge comes near it only by its boundary layer; the hard one has none to resolve.
    [Fact]
    [Trait("Check", "exact")]
    public void A_hard_hinge_holds_on_a_curve()
    {
        PlateSection section = SamplePlate.Isotropic(0.002);
        var problem = new PlateProblem(SamplePlate.DiscMesh(1, 3), [section], _ => EdgeSupport.HardHinged(section, 1));
        double[] ours = SamplePlate.Lambda(problem, 1, 4, 6);
        Checks.Near(4.9351, ours[0], 1e-4);
        Checks.Near(13.8982, ours[1], 1e-4);
        Checks.Near(25.6133, ours[3], 1e-4);
    }

    // Tenfold or a tenth of the spring changes nothing that is seen.
    [Fact]
    [Trait("Check", "exact")]
    public void A_hard_hinges_spring_is_stiff_enough_and_not_too_stiff()
    {
        PlateSection section = PlateSection.Of(SampleBoard.Unsymmetric.Laminate()).FreeInItsPlane();
        EdgeSupport hard = EdgeSupport.HardHinged(section, 0.4);
        double[] Frequencies(double factor) => SamplePlate.Frequencies(
            SampleStatics.Rectangle(section, 0.48, 0.36, 5, 4, hard with { Along = factor * hard.Along }), 6, 5);
        double[] one = Frequencies(1), tenth = Frequencies(0.1), ten = Frequencies(10);
        for (int i = 0; i < 6; i++)
        {
            Checks.Near(one[i], tenth[i], 1e-5);
            Checks.Near(one[i], ten[i], 1e-5);
        }
    }

    // A strip between springs k: with β = λ/2, tan-and-tanh equation κ = kL/D = −2λ cos β/(sin β + cos β tanh β); by it a spring of 7 D/L
    // stands near the half of the way from π² to 22.3733. The solver's strip, thin and without Poisson's ratio, has that frequency.
    [Fact]
    [Trait("Check", "exact")]
    public void A_rims_spring_stands_half_way_on_a_strip()
    {
        double Spring(double lambda) => -2 * lambda * Math.Cos(lambda / 2) / (Math.Sin(lambda / 2) + Math.Cos(lambda / 2) * Math.Tanh(lambda / 2));
        double halfWay = Math.Sqrt((Math.PI * Math.PI + 22.373285) / 2);
        Checks.Close(EdgeSupport.RimTurning, Spring(halfWay), 0.5);
        double lambda = Brent.FindRoot(l => Spring(l) - EdgeSupport.RimTurning, 3.2, 4.7, 1e-10);
        PlateSection section = SamplePlate.Isotropic(0.002, 0);
        var problem = new PlateProblem(PlateMesh.Rectangle(1, 0.1, 8, 1), [section],
            e => e.Curve is 1 or 3 ? EdgeSupport.Rim(section, 1) : EdgeSupport.Free);
        Checks.Near(lambda * lambda, SamplePlate.Lambda(problem, 1, 1, 6)[0], 1e-4);
    }

    [Fact]
    [Trait("Check", "exact")]
    public void A_board_on_a_rim_lies_between_hinged_and_clamped()
    {
        PlateSection section = PlateSection.Of(SampleBoard.Unsymmetric.Laminate());
        PlateMesh mesh = PlateMesher.Mesh(new MeshDomain(OutlineFamily.Of(0.489), [], [], _ => 0), 0.06);
        double First(EdgeSupport edge) => SamplePlate.Frequencies(new(mesh, [section], _ => edge), 1, 4)[0];
        double hinged = First(EdgeSupport.HingedInPlane), rim = First(EdgeSupport.Rim(section, Math.Sqrt(0.13))), clamped = First(EdgeSupport.Clamped);
        Checks.Within(0.25, 0.75, (rim - hinged) / (clamped - hinged));
    }
}
