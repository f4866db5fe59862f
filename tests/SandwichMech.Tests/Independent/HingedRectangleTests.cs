using CsCheck;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Materials;
using SandwichMech.Core.Plates;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Independent;

/// <summary>The hinged board against the full first-order solution, against exact elasticity, and against two shortcuts.</summary>
[Trait("Check", "independent")]
public class HingedRectangleTests
{
    private static Board Board => SampleBoard.Unsymmetric;
    private static EquivalentRectangle Rectangle => EquivalentRectangle.Of(Board.Size)!.Value;

    // In-plane inertia is left out there and kept in the oracle. What it changes grows with the frequency squared: two in a
    // million at 1.3 kHz, where these boards end below 6 kHz.
    [Fact]
    public void Every_boards_modes_are_those_of_the_full_first_order_solution() =>
        Gen.Select(AnyLayup.Boards, Gen.Int[1, 5], Gen.Int[1, 5], Gen.Double[0.2, 0.6], Gen.Double[0.2, 0.5]).Sample((board, m, n, a, b) =>
        {
            Laminate laminate = board.Laminate();
            Checks.Near(FirstOrderNavier.Frequency(laminate, a, b, m, n), HingedRectangle.Frequency(laminate, a, b, m, n), 5e-5);
        });

    // The same sample board in exact elasticity, each ply with all nine of its constants; core E_x = E_y = 1 kPa. Modes up
    // to 570 Hz agree within 0.05 %, up to 1.3 kHz within 0.13 %.
    [Theory]
    [InlineData(1, 1, "61.50", 0.00005)]
    [InlineData(1, 2, "124.43", 0.0001)]
    [InlineData(2, 1, "188.65", 0.0001)]
    [InlineData(1, 3, "233.75", 0.0002)]
    [InlineData(2, 2, "240.59", 0.0001)]
    [InlineData(3, 1, "393.59", 0.0002)]
    [InlineData(1, 5, "570.25", 0.0005)]
    [InlineData(5, 5, "1317.24", 0.0013)]
    public void A_boards_modes_are_those_of_exact_elasticity(int m, int n, string hertz, double within)
    {
        double ours = HingedRectangle.Frequency(Board.Laminate(), Rectangle.Length, Rectangle.Width, m, n);
        ElasticLayer[] layers =
        [
            Layer(Board.Inner.Wood, Board.Inner.Thickness.Value), Film, HoneycombLayer, Film, Layer(Board.Outer.Wood, Board.Outer.Thickness.Value),
        ];
        Checks.Printed(hertz, ours);
        Checks.Near(Exact(layers, m, n, ours), ours, within);
    }

    // A solid top: its rolling shear (G_RT = 0.003 E_L) matters even there, and is met.
    [Theory]
    [InlineData(1, 1)]
    [InlineData(2, 1)]
    [InlineData(1, 3)]
    [InlineData(2, 2)]
    public void A_solid_tops_modes_are_those_of_exact_elasticity(int m, int n)
    {
        double ours = HingedRectangle.Frequency(Board.SolidPlate(SampleBoard.Spruce, 2.6e-3), Rectangle.Length, Rectangle.Width, m, n);
        Checks.Near(Exact([Layer(SampleBoard.Spruce, 2.6e-3)], m, n, ours), ours, 0.0001);
    }

    // Unsymmetric: B left out (D about the middle) is 1.3 to 2.5 % too high; D − BA⁻¹B in its place is within 0.12 %, below.
    [Theory]
    [InlineData(1, 1, "1.8", "-0.11")]
    [InlineData(1, 2, "1.3", "-0.12")]
    [InlineData(2, 1, "2.5", "-0.01")]
    [InlineData(1, 3, "1.3", "-0.05")]
    [InlineData(2, 2, "1.7", "-0.11")]
    public void Leaving_B_out_is_too_stiff_and_the_reduced_stiffness_is_not(int m, int n, string withoutB, string reduced)
    {
        Laminate board = Board.Laminate();
        Laminate dropped = board with { B = default, FirstMoment = 0 };
        Laminate condensed = dropped with { D = board.Bending };
        double full = Frequency(board);
        Checks.Printed(withoutB, (Frequency(dropped) / full - 1) * 100, 0.6);
        Checks.Printed(reduced, (Frequency(condensed) / full - 1) * 100, 0.6);

        double Frequency(Laminate l) => HingedRectangle.Frequency(l, Rectangle.Length, Rectangle.Width, m, n);
    }

    [Fact]
    public void For_every_board_coupling_lowers_each_mode_and_the_reduced_stiffness_holds_it_within_half_a_per_cent() =>
        Gen.Select(AnyLayup.Boards, Gen.Int[1, 4], Gen.Int[1, 4]).Sample((board, m, n) =>
        {
            Laminate coupled = board.Laminate(), dropped = coupled with { B = default, FirstMoment = 0 };
            double full = HingedRectangle.Frequency(coupled, 0.43, 0.33, m, n);
            Checks.Within(full * (1 - 1e-9), 2 * full, HingedRectangle.Frequency(dropped, 0.43, 0.33, m, n));
            Checks.Near(full, HingedRectangle.Frequency(dropped with { D = coupled.Bending }, 0.43, 0.33, m, n), 0.005);
        });

    private static double Exact(ElasticLayer[] layers, int m, int n, double guess) =>
        LayeredElasticity.Frequency(layers, m * Math.PI / Rectangle.Length, n * Math.PI / Rectangle.Width, guess);

    private static ElasticLayer HoneycombLayer =>
        new(1.8e-3, 1e3, 1e3, 55.2e6, 0, 0, 0, 0.5e3, 26.2e6, 10.3e6, 28.8);

    private static ElasticLayer Film
    {
        get
        {
            Adhesive a = Board.Adhesive;
            double e = a.FilmModulus.Value, g = e / (2 * (1 + a.FilmNu));
            return new(a.FilmThickness, e, e, e, a.FilmNu, a.FilmNu, a.FilmNu, g, g, g, a.Density.Value + a.Fillets / a.FilmThickness);
        }
    }

    private static ElasticLayer Layer(Wood w, double thickness) => new(
        thickness, w.EL.Value, w.ER, w.EL.Value * w.EtOverEl.Value, w.NuLR, w.NuLT!.Value, w.NuRT!.Value, w.Glr, w.Glt, w.Grt, w.Density.Value);
}
