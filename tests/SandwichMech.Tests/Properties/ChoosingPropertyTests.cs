using CsCheck;
using SandwichMech.Core.Choosing;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;

namespace SandwichMech.Tests.Properties;

/// <summary>Equal stiffness for every board and every criterion.</summary>
[Trait("Check", "exact")]
public class ChoosingPropertyTests
{
    private static readonly Gen<StiffnessCriterion> AnyCriterion = Gen.Int[0, 4].Select(i => Enum.GetValues<StiffnessCriterion>()[i]);

    [Fact]
    public void The_solid_has_the_boards_measure_and_the_saving_adds_up() => Gen.Select(AnyLayup.Boards, AnyCriterion).Sample((board, criterion) =>
    {
        Laminate laminate = board.Laminate();
        EquivalentRectangle r = EquivalentRectangle.Of(board.Size)!.Value;
        SolidEquivalent solid = EqualStiffness.Solid(criterion, laminate, board.Solid.Wood, board.Size.Area, r);
        Checks.Near(
            StiffnessMeasure.Of(criterion, laminate, r), StiffnessMeasure.Of(criterion, Board.SolidPlate(board.Solid.Wood, solid.Thickness), r), 1e-8);
        Checks.Near(solid.Mass, laminate.ArealMass * board.Size.Area + solid.Saved, 1e-12);
    });

    // Deflection and stiffness: a thicker skin always asks for a thicker solid. Not so the first mode, where mass counts.
    [Fact]
    public void A_thicker_outer_skin_asks_for_a_thicker_solid() => Gen.Select(AnyLayup.Boards, AnyCriterion, Gen.Double[0.01, 0.5]).Sample((board, criterion, more) =>
    {
        if (criterion == StiffnessCriterion.FirstMode)
        {
            return;
        }

        Board thicker = board with { Outer = board.Outer with { Thickness = board.Outer.Thickness.Times(1 + more) } };
        Assert.True(Solid(thicker) > Solid(board));

        double Solid(Board b) =>
            EqualStiffness.Solid(criterion, b.Laminate(), b.Solid.Wood, b.Size.Area, EquivalentRectangle.Of(b.Size)).Thickness;
    });

    [Fact]
    public void The_skins_that_match_a_solid_do() => Gen.Select(AnyLayup.Boards, AnyCriterion, Gen.Double[2e-3, 3.2e-3]).Sample((board, criterion, thickness) =>
    {
        board = board with { Solid = board.Solid with { Thickness = new(thickness, 0) } };
        EquivalentRectangle r = EquivalentRectangle.Of(board.Size)!.Value;
        if (EqualStiffness.Skins(criterion, board) is not { } skins)
        {
            return; // the core and the glue alone are stiffer, or no skin is enough
        }

        Board match = board with
        {
            Outer = board.Outer with { Thickness = new(skins.Outer, 0) },
            Inner = board.Inner with { Thickness = new(skins.Inner, 0) },
        };
        Checks.Near(
            StiffnessMeasure.Of(criterion, Board.SolidPlate(board.Solid.Wood, thickness), r), StiffnessMeasure.Of(criterion, match.Laminate(), r), 1e-8);
    });
}
