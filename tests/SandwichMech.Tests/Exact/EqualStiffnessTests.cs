using SandwichMech.Core.Choosing;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Materials;
using SandwichMech.Core.Plates;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Exact;

/// <summary>The solid as stiff as a board, and the board as stiff as a solid.</summary>
[Trait("Check", "exact")]
public class EqualStiffnessTests
{
    public static TheoryData<StiffnessCriterion> EveryCriterion => [.. Enum.GetValues<StiffnessCriterion>()];

    private static Board Board => SampleBoard.Unsymmetric;
    private static Wood Wood => SampleBoard.Spruce;
    private static EquivalentRectangle Rectangle => EquivalentRectangle.Of(Board.Size)!.Value;

    // A solid plate has D = Q t³/12, so t = (12 D/Q)^⅓ with Q11 = E_L/μ, Q22 = E_R/μ, μ = 1 − ν_LR² E_R/E_L.
    [Theory]
    [InlineData(StiffnessCriterion.Along)]
    [InlineData(StiffnessCriterion.Across)]
    [InlineData(StiffnessCriterion.GeometricMean)]
    public void The_root_found_is_the_closed_form(StiffnessCriterion criterion)
    {
        Laminate board = Board.Laminate();
        double mu = 1 - Wood.NuLR * Wood.NuLR * Wood.ErOverEl.Value;
        double q11 = Wood.EL.Value / mu, q22 = Wood.ER / mu;
        double ratio = criterion switch
        {
            StiffnessCriterion.Along => board.Bending.M11 / q11,
            StiffnessCriterion.Across => board.Bending.M22 / q22,
            _ => Math.Sqrt(board.Bending.M11 * board.Bending.M22 / (q11 * q22)),
        };
        double thickness = Math.Cbrt(12 * ratio);
        SolidEquivalent solid = EqualStiffness.Solid(criterion, board, Wood, Board.Size.Area, null);
        Checks.Near(thickness, solid.Thickness, 1e-8);
        Checks.Near(thickness * 448 * 0.140, solid.Mass, 1e-8);
        Checks.Near(solid.Mass - board.ArealMass * 0.140, solid.Saved, 1e-8);
        Checks.Near(solid.Saved / solid.Mass, solid.SavedShare, 1e-12);
    }

    // What each criterion measures, on the sample board: D11, D22, √(D11·D22) of the reduced stiffness; load per deflection of a
    // strip over the rectangle's length, L³/48D + L/4S; the first mode.
    [Fact]
    public void Each_criterion_measures_what_it_says()
    {
        Laminate board = Board.Laminate();
        double l = Rectangle.Length, d11 = board.Bending.M11, d22 = board.Bending.M22;
        Checks.Near(d11, Measure(StiffnessCriterion.Along), 0);
        Checks.Near(d22, Measure(StiffnessCriterion.Across), 0);
        Checks.Near(d11 * d22, Math.Pow(Measure(StiffnessCriterion.GeometricMean), 2), 1e-12);
        Checks.Near(1 / (Math.Pow(l, 3) / (48 * d11) + l / (4 * board.Shear.Sx)), Measure(StiffnessCriterion.MidSpanDeflection), 1e-12);
        Checks.Near(HingedRectangle.Frequency(board, l, Rectangle.Width, 1, 1), Measure(StiffnessCriterion.FirstMode), 0);

        double Measure(StiffnessCriterion criterion) => StiffnessMeasure.Of(criterion, board, Rectangle);
    }

    [Theory]
    [MemberData(nameof(EveryCriterion))]
    public void A_solid_top_equals_itself_and_saves_nothing(StiffnessCriterion criterion)
    {
        SolidEquivalent same = EqualStiffness.Solid(criterion, Core.Layups.Board.SolidPlate(Wood, 2.37e-3), Wood, 0.14, Rectangle);
        Checks.Near(2.37e-3, same.Thickness, 1e-8);
        Checks.Close(0, same.SavedShare, 1e-8);
    }

    [Theory]
    [MemberData(nameof(EveryCriterion))]
    public void The_solid_found_has_the_boards_measure(StiffnessCriterion criterion)
    {
        Laminate board = Board.Laminate();
        SolidEquivalent solid = EqualStiffness.Solid(criterion, board, Wood, 0.14, Rectangle);
        Checks.Near(
            StiffnessMeasure.Of(criterion, board, Rectangle),
            StiffnessMeasure.Of(criterion, Core.Layups.Board.SolidPlate(Wood, solid.Thickness), Rectangle), 1e-8);
    }

    [Theory]
    [MemberData(nameof(EveryCriterion))]
    public void The_skins_found_give_the_board_the_solids_measure(StiffnessCriterion criterion)
    {
        MatchingSkins skins = EqualStiffness.Skins(criterion, Board)!;
        Board match = Board with
        {
            Outer = Board.Outer with { Thickness = new(skins.Outer, 0) },
            Inner = Board.Inner with { Thickness = new(skins.Inner, 0) },
        };
        Laminate solid = Core.Layups.Board.SolidPlate(Wood, 2.6e-3);
        Checks.Near(StiffnessMeasure.Of(criterion, solid, Rectangle), StiffnessMeasure.Of(criterion, match.Laminate(), Rectangle), 1e-8);
        Checks.Near(0.76 / 0.61, skins.Outer / skins.Inner, 1e-12, "both skins are scaled alike");
        Checks.Near(match.Laminate().ArealMass * 0.140, skins.Mass, 1e-12);
        Checks.Near(2.6e-3 * 448 * 0.140 - skins.Mass, skins.Saved, 1e-12);
    }

    [Theory]
    [MemberData(nameof(EveryCriterion))]
    public void There_and_back_again_the_solid_is_the_same(StiffnessCriterion criterion)
    {
        MatchingSkins skins = EqualStiffness.Skins(criterion, Board)!;
        Board match = Board with
        {
            Outer = Board.Outer with { Thickness = new(skins.Outer, 0) },
            Inner = Board.Inner with { Thickness = new(skins.Inner, 0) },
        };
        Checks.Near(2.6e-3, EqualStiffness.Solid(criterion, match.Laminate(), Wood, 0.14, Rectangle).Thickness, 1e-8);
    }

    [Theory]
    [InlineData(0.1e-3)]
    [InlineData(0.15)]
    public void A_solid_that_no_skins_can_match_gives_nothing_instead_of_a_guess(double thickness) =>
        Assert.Null(EqualStiffness.Skins(StiffnessCriterion.Along, Board with { Solid = new(Wood, new(thickness, 0)) }));

    [Fact]
    public void A_solid_without_thickness_cannot_be_matched() =>
        Assert.Throws<ArgumentException>(() => EqualStiffness.Skins(StiffnessCriterion.Along, Board with { Solid = new(Wood, null) }));

    [Theory]
    [MemberData(nameof(EveryCriterion))]
    public void A_criterion_that_needs_the_boards_size_says_so(StiffnessCriterion criterion)
    {
        bool refused = Record.Exception(() => StiffnessMeasure.Of(criterion, Board.Laminate(), null)) is ArgumentException;
        Assert.Equal(StiffnessMeasure.NeedsRectangle(criterion), refused);
    }

    // Equal tuning is not equal stiffness: the lighter board reaches the same first mode with less of it.
    [Fact]
    public void Equal_tuning_is_reached_by_a_thinner_solid_than_equal_deflection()
    {
        Laminate board = Board.Laminate();
        double tuning = EqualStiffness.Solid(StiffnessCriterion.FirstMode, board, Wood, 0.14, Rectangle).Thickness;
        double deflection = EqualStiffness.Solid(StiffnessCriterion.MidSpanDeflection, board, Wood, 0.14, Rectangle).Thickness;
        Assert.True(board.ArealMass < deflection * 448);
        Assert.True(tuning > deflection, $"tuning {tuning}, deflection {deflection}");
    }
}
