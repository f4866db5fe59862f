using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;
using SandwichMech.Tests.Independent;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Plates;

/// <summary>Layups that couple bending with stretching: five motions against other solutions and against two shortcuts.</summary>
public class UnsymmetricPlateTests
{
    private const double Length = 0.48, Width = 0.365;
    private static readonly Laminate Layup = SampleBoard.Unsymmetric.Laminate();
    private static PlateSection Section => PlateSection.Of(Layup);

    // The oracle first: with the hinge that holds what Navier's shapes hold (w, and rotation and stretching along the side) it
    // is Navier's solution with all five amplitudes.
    [Fact]
    [Trait("Check", "exact")]
    public void The_oracle_is_Naviers_where_the_hinge_is_his()
    {
        double[] exact = [.. (from m in Enumerable.Range(1, 3) from n in Enumerable.Range(1, 3) select FirstOrderNavier.Frequency(Layup, Length, Width, m, n)).Order().Take(4)];
        double[] oracle = RitzRectangle.Frequencies(Section, Length, Width, "HHHH", 10, 4);
        Assert.All(exact.Zip(oracle), x => Checks.Near(x.First, x.Second, 1e-6));
    }

    // Then the solver, whose hinge is w = 0 alone. On a small board, a quarter of a real one: there the strip along the edges
    // (√(D/S), some millimetres) is wide enough for the oracle's polynomials.
    [Theory]
    [Trait("Check", "independent")]
    [InlineData("FFFF", 2e-4)]
    [InlineData("SSSS", 5e-4)]
    [InlineData("CCCC", 2e-5)]
    public void Five_motions_are_met_by_another_method(string sides, double relative)
    {
        double[] oracle = RitzRectangle.Frequencies(Section, Length / 4, Width / 4, sides, 10, 5);
        double[] ours = SamplePlate.Frequencies(SamplePlate.Rectangle(Section, Length / 4, Width / 4, 4, 3, sides), 5, 6);
        // Both come down towards the truth; the solver is the nearer.
        Assert.All(oracle.Zip(ours), x => Checks.Within(x.First * (1 - relative), x.First * (1 + 1e-5), x.Second));
    }

    // A row of hinged strips whose plane slides freely, no Poisson coupling: u = U cos αx and so on, exact in all motions.
    [Fact]
    [Trait("Check", "exact")]
    public void A_row_of_unsymmetric_hinged_beams_is_met()
    {
        Ply stiff = SamplePly.Orthotropic(0.01, 12e9, 1e9, 0, 0.7e9, 0.7e9, 0.1e9, 0, 450), soft = SamplePly.Orthotropic(0.02, 2e9, 1e9, 0, 0.7e9, 0.2e9, 0.1e9, 0, 300);
        Laminate laminate = Laminate.From([soft, stiff]);
        double[] ours = SamplePlate.Frequencies(SamplePlate.Rectangle(PlateSection.Of(laminate), 0.5, 0.1, 5, 1, "FSFS"), 8, 7);
        for (int m = 1; m <= 2; m++)
        {
            // n = 0 half waves across: Navier's solution with β → 0.
            double exact = FirstOrderNavier.Frequency(laminate, 0.5, 1e6, m, 1);
            Assert.True(ours.Min(f => Math.Abs(f / exact - 1)) < 1e-7, $"{m} half waves: {exact} Hz");
        }
    }

    // D − BA⁻¹B with the plane left out: exact inside one section, not at an edge, and where A⁻¹B differs along and across
    // the plane's forces cannot all vanish. Within 0.13 % in the first eight modes, free, hinged or clamped.
    [Theory]
    [Trait("Check", "independent")]
    [InlineData("FFFF", 1.3e-3)]
    [InlineData("SSSS", 1.0e-3)]
    [InlineData("CCCC", 1.2e-3)]
    public void The_reduced_stiffness_stands_for_five_motions(string sides, double relative)
    {
        double[] full = Frequencies(Section, sides), reduced = Frequencies(Section.FreeInItsPlane(), sides);
        Assert.All(full.Zip(reduced), x => Checks.Near(x.First, x.Second, relative));
    }

    // The classic error: B dropped, D about the middle. Too stiff in every mode, by 0.4 to 3 % here.
    [Theory]
    [Trait("Check", "independent")]
    [InlineData("FFFF")]
    [InlineData("SSSS")]
    [InlineData("CCCC")]
    public void Leaving_B_out_is_too_stiff(string sides)
    {
        double[] full = Frequencies(Section, sides), dropped = Frequencies(Section with { B = default, FirstMoment = 0 }, sides);
        double[] excess = [.. full.Zip(dropped, (x, y) => y / x - 1)];
        Assert.All(excess, e => Checks.Within(0.003, 0.04, e));
        Checks.Within(0.02, 0.04, excess.Max(), "the worst");
    }

    // A hinge that also holds the plane is stiffer than one that lets it slide; by how much belongs in front of the user.
    [Fact]
    [Trait("Check", "independent")]
    public void Holding_the_plane_of_a_hinged_board_raises_its_first_mode()
    {
        PlateMesh mesh = PlateMesh.Rectangle(Length, Width, 4, 3);
        double sliding = SamplePlate.Frequencies(new(mesh, [Section], _ => EdgeSupport.Hinged), 1, 5)[0];
        double held = SamplePlate.Frequencies(new(mesh, [Section], _ => EdgeSupport.Hinged with { InPlane = double.PositiveInfinity }), 1, 5)[0];
        Checks.Within(1.01, 1.06, held / sliding);
    }

    private static double[] Frequencies(PlateSection section, string sides) =>
        SamplePlate.Frequencies(SamplePlate.Rectangle(section, Length, Width, 4, 3, sides), 8, 5);
}
