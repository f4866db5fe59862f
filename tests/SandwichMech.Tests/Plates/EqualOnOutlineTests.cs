using SandwichMech.Core.Choosing;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Predictions;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Tests.Outlines;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Plates;

/// <summary>The solid top of equal first mode, or of equal stiffness at the bridge, on the board's own outline; and the skins that match one.</summary>
[Trait("Check", "independent")]
public class EqualOnOutlineTests
{
    // Both orders' errors stay below this on the meshes taken here.
    private const double Numerical = 3e-3;

    private static readonly IReadOnlyList<BoardPart> Parts = BoardPlate.Parts(SampleOutline.Board, [SampleOutline.Soundhole], []);

    private static Board On(EdgeHold edge, Board? of = null) => (of ?? SampleBoard.Unsymmetric) with
    {
        Shape = new BoardShape { Outline = SampleOutline.Board, Holes = [SampleOutline.Soundhole], Parts = Parts, Edge = edge },
    };

    // The thickness found is put to a plate of its own, on another mesh and at a higher order, by none of the code that found it.
    [Theory]
    [InlineData(EdgeHold.Free)]
    [InlineData(EdgeHold.Clamped)]
    public void A_solid_top_of_the_thickness_found_rings_at_the_boards_first_mode(EdgeHold edge)
    {
        Board board = On(edge);
        SolidOnOutline solid = EqualOnOutline.Solid(FirstMode(board))!;
        double own = FirstInAir(BoardPlate.Solve(board, 3, 1e-3, PlateSolver.BeyondForAir).Plate, edge);
        Checks.Near(own, solid.Figure, Numerical);
        Checks.Near(own, FirstInAir(SolidPlate(board, solid.Thickness.Value), edge), Numerical);
        Assert.Equal(0, solid.Mode);
        Checks.Near(448 * board.Shape!.Area * solid.Thickness.Value, solid.Mass.Value, 1e-9);
        Checks.Near(solid.Mass.Value - board.Mass(board.Laminate()), solid.Saved.Value, 1e-9);
    }

    [Theory]
    [InlineData(EdgeHold.Free)]
    [InlineData(EdgeHold.Hinged)]
    public void The_skins_found_ring_at_the_named_solids_first_mode(EdgeHold edge)
    {
        Board board = On(edge);
        MatchingSkins skins = EqualOnOutline.Skins(FirstMode(board))!;
        Board match = board with
        {
            Outer = board.Outer with { Thickness = new(skins.Outer, 0) },
            Inner = board.Inner with { Thickness = new(skins.Inner, 0) },
        };
        Checks.Near(FirstInAir(SolidPlate(board, 2.6e-3), edge), FirstInAir(BoardPlate.Solve(match, 3, 1e-3, PlateSolver.BeyondForAir).Plate, edge), Numerical);
        Checks.Near(0.76 / 0.61, skins.Outer / skins.Inner, 1e-12);
        Checks.Near(match.MassWithoutBars(match.Laminate()), skins.Mass, 1e-12);
    }

    // The board under a force on its bridge by another mesh, refined for it; the solid's thickness is held against a plate of its own in BoardDeflectionTests.
    [Theory]
    [InlineData(EdgeHold.Hinged)]
    [InlineData(EdgeHold.Rim)]
    public void Stiffness_at_the_bridge_is_that_of_the_board_under_its_strings_and_skins_reach_it(EdgeHold edge)
    {
        Board board = On(edge);
        OutlineCriterion criterion = OutlineCriterion.AtBridge(board, edge, SampleOutline.BridgePatch);
        BoardDeflection deflected = BoardDeflection.Solve(board, edge, SampleOutline.BridgePatch, new(400, 11e-3, null), 5e-3);
        SolidOnOutline solid = EqualOnOutline.Solid(criterion)!;
        Checks.Near(1 / deflected.PerForce.Value, solid.Figure, 5e-3);
        Checks.Near(solid.Figure, Math.Exp(criterion.OfSolid(solid.Thickness.Value).Log), 1e-6);

        MatchingSkins skins = EqualOnOutline.Skins(criterion)!;
        Board match = EqualStiffness.Scaled(board, skins.Outer / board.Outer.Thickness.Value);
        Checks.Near(criterion.OfSolid(2.6e-3).Log, criterion.Of(match).Log, 1e-6);
    }

    // Against another mesh, refined until it is ten times as good: what the criterion owns up to is what it is off by, or more, and not beyond all measure.
    [Theory]
    [InlineData(EdgeHold.Hinged)]
    [InlineData(EdgeHold.Clamped)]
    public void Stiffness_at_the_bridge_is_off_by_no_more_than_it_says(EdgeHold edge)
    {
        Board board = On(edge);
        OutlineCriterion criterion = OutlineCriterion.AtBridge(board, edge, SampleOutline.BridgePatch, withError: true);
        BoardDeflection fine = BoardDeflection.Solve(board, edge, SampleOutline.BridgePatch, new(400, 11e-3, null), 1e-4);
        double off = Math.Abs(Math.Exp(criterion.Own.Log) * fine.PerForce.Value - 1);
        Checks.Within(off - fine.RelativeNumericalError, 0.01, criterion.Error!.Value, $"error stated, {off:G3} off");
        Assert.Null(OutlineCriterion.AtBridge(board, edge, SampleOutline.BridgePatch).Error);
    }

    // Each input's derivative through both first modes, against finding the solid again for the changed board.
    [Theory]
    [InlineData(EdgeHold.Free, "outer skin thickness")]
    [InlineData(EdgeHold.Free, "core shear moduli")]
    [InlineData(EdgeHold.Clamped, "solid top E_L")]
    [InlineData(EdgeHold.Clamped, "adhesive kept")]
    public void An_intervals_source_moves_the_solid_as_finding_it_again_does(EdgeHold edge, string input)
    {
        const double step = 0.01;
        Board board = On(edge);
        UncertainInput<Board> source = BoardInputs.Of(board).First(i => i.Name == input);
        OutlineFrame frame = OutlineFrame.For(board, 3, 0.02);
        Prediction h = EqualOnOutline.Solid(OutlineCriterion.FirstMode(frame, board, frame.Own))!.Thickness;
        double Again(double shift) => source.At(shift) is var b ? Math.Log(EqualOnOutline.Solid(OutlineCriterion.FirstMode(frame, b, frame.Of(b)))!.Thickness.Value) : 0;
        double slope = (Again(step) - Again(-step)) / (2 * step), sd = Math.Log(h.High90 / h.Low90) / (2 * Propagation.Z90);
        double share = h.MostlyFrom.FirstOrDefault(s => s.Input == input)?.Share ?? 0;
        Assert.True(share > 0, "The input is none of the sources.");
        Checks.Close(Math.Abs(slope) * source.Spread, Math.Sqrt(share) * sd, 0.02 * sd, input);
    }

    // What is carried in common, as a pickup, lowers both: the solid rings like the board with it, and nothing of it is counted as saved or lost.
    [Fact]
    public void Mass_that_both_carry_lowers_both_and_is_not_saved()
    {
        const double added = 0.3;
        Curve patch = Shapes.Rectangle(new(0.05, -0.1, 0.25, 0.1));
        BoardRegion region = new("added mass", [patch], patch.Contains, new AddedMass(new(added, 0)));
        Board plain = On(EdgeHold.Clamped);
        Board board = plain with { Shape = plain.Shape! with { Regions = [region], Parts = BoardPlate.Parts(SampleOutline.Board, [SampleOutline.Soundhole], [region]) } };
        SolidOnOutline solid = EqualOnOutline.Solid(FirstMode(board))!;
        Checks.Near(plain.MassWithoutBars(plain.Laminate()), board.MassWithoutBars(board.Laminate()), 1e-4);
        Checks.Near(0.04 * added, board.Mass(board.Laminate()) - plain.Mass(plain.Laminate()), 1e-3);
        Checks.Near(solid.Mass.Value - plain.Mass(plain.Laminate()), solid.Saved.Value, 1e-3);

        PlateMesh mesh = PlateMesher.Mesh(new MeshDomain(SampleOutline.Board, [SampleOutline.Soundhole], [patch], p => patch.Contains(p) ? 1 : 0), 0.034);
        var bare = PlateSection.Of(Board.SolidPlate(board.Solid.Wood, solid.Thickness.Value));
        var problem = new PlateProblem(mesh, [bare, bare with { Mass = bare.Mass + added }], e => e.Curve == 0 ? EdgeSupport.Clamped : EdgeSupport.Free);
        double own = FirstInAir(BoardPlate.Solve(board, 3, 1e-3, PlateSolver.BeyondForAir).Plate, EdgeHold.Clamped);
        Checks.Near(own, FirstInAir(PlateSolver.Once(problem, 3, 6, PlateSolver.BeyondForAir), EdgeHold.Clamped), Numerical);
    }

    [Fact]
    public void A_rims_hold_is_one_of_the_sources()
    {
        // A rim holds board and solid alike, so little of it is left; what is left is said.
        SolidOnOutline solid = EqualOnOutline.Solid(FirstMode(On(EdgeHold.Rim)))!;
        VarianceShare rim = solid.Thickness.MostlyFrom.First(s => s.Input == "rim's hold");
        Checks.Within(1e-6, 0.2, rim.Share);
    }

    // Skins turned to 45° twist little and bend easily: the board's first mode is then one that the solid has further up.
    [Fact]
    public void Modes_that_change_places_are_compared_by_shape()
    {
        Board board = On(EdgeHold.Free) is var b ? b with
        {
            Outer = b.Outer with { GrainAngle = Math.PI / 4 },
            Inner = b.Inner with { GrainAngle = -Math.PI / 4 },
        } : null!;
        OutlineFrame frame = OutlineFrame.For(board, 3, 0.02);
        SolidOnOutline solid = EqualOnOutline.Solid(OutlineCriterion.FirstMode(frame, board, frame.Own))!;
        FirstModes found = frame.OfSolid(board, solid.Thickness.Value);
        Assert.NotEqual(0, solid.Mode);
        Checks.Near(frame.Own.Modes[0].Frequency, found.Modes[solid.Mode!.Value].Frequency, 1e-5);
        // The same kind of energy leads in both, and not in the solid's own first.
        Assert.True(Twist(frame.Own.Modes[0]) == Twist(found.Modes[solid.Mode.Value]) && Twist(found.Modes[0]) != Twist(frame.Own.Modes[0]));

        static bool Twist(PlateMode m) => m.Energy.Twist > 0.5;
    }

    [Fact]
    public void No_solid_in_reach_is_said_by_nothing()
    {
        Board board = On(EdgeHold.Clamped, SampleBoard.Unsymmetric with { Solid = new(SampleBoard.Spruce with { EL = new(1e4, 0) }, null) });
        Assert.Null(EqualOnOutline.Solid(OutlineCriterion.AtBridge(board, EdgeHold.Clamped, SampleOutline.BridgePatch)));
    }

    [Fact]
    public void A_free_board_bears_no_load() =>
        Assert.Throws<UnsupportedPlateException>(() => OutlineCriterion.AtBridge(On(EdgeHold.Free), EdgeHold.Free, SampleOutline.BridgePatch));

    private static OutlineCriterion FirstMode(Board board)
    {
        OutlineFrame frame = OutlineFrame.For(board, 3, 2e-3);
        return OutlineCriterion.FirstMode(frame, board, frame.Own);
    }

    private static double FirstInAir(PlateSolution plate, EdgeHold edge) => plate.InAir(edge != EdgeHold.Free, AmbientAir.Density, 3).Modes[0].Frequency;

    private static PlateSolution SolidPlate(Board board, double thickness)
    {
        PlateMesh mesh = PlateMesher.Mesh(new MeshDomain(SampleOutline.Board, [SampleOutline.Soundhole], [], _ => 0), 0.034);
        EdgeSupport support = board.Shape!.Edge switch { EdgeHold.Clamped => EdgeSupport.Clamped, EdgeHold.Hinged => EdgeSupport.Hinged, _ => EdgeSupport.Free };
        var problem = new PlateProblem(mesh, [PlateSection.Of(Board.SolidPlate(board.Solid.Wood, thickness))], e => e.Curve == 0 ? support : EdgeSupport.Free);
        return PlateSolver.Once(problem, 3, 6, PlateSolver.BeyondForAir);
    }
}
