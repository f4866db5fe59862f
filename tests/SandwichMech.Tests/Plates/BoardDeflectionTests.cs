using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Predictions;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Tests.Outlines;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Plates;

/// <summary>A board under its strings.</summary>
[Trait("Check", "exact")]
public class BoardDeflectionTests
{
    private const double Coarse = 0.02;
    private static readonly StringLoad Tied = new(400, 11e-3, null);

    private static readonly Board Board = SampleBoard.Unsymmetric with
    {
        Shape = new BoardShape { Outline = SampleOutline.Board, Holes = [SampleOutline.Soundhole], Parts = BoardPlate.Parts(SampleOutline.Board, [SampleOutline.Soundhole], []) },
    };

    [Fact]
    public void Twice_the_tension_moves_it_twice_as_far()
    {
        // Clamped: on hinges a moment so near the lower end lets all of the board sink, as it does a beam (a < 0.42 L).
        BoardDeflection one = Solve(Board, EdgeHold.Clamped, Tied), two = Solve(Board, EdgeHold.Clamped, Tied with { Tension = 800 });
        Checks.Near(2 * one.Tilt.Value, two.Tilt.Value, 1e-9);
        Checks.Near(2 * one.Sinks.Deflection.Value, two.Sinks.Deflection.Value, 1e-9);
        Checks.Near(one.PerForce.Value, two.PerForce.Value, 1e-9);
        Assert.True(one.Tilt.Value > 0 && one.Sinks.Deflection.Value < 0 && one.Rises.Deflection.Value > 0);
        Assert.True(one.Sinks.At.X > 0.13 && one.Rises.At.X < 0.13, $"Towards the nut it sinks, behind the bridge it rises: {one.Sinks}, {one.Rises}");
        Checks.Near(one.Deflection.Min(), one.Sinks.Deflection.Value, 1e-9);
        Checks.Near(one.Deflection.Max(), one.Rises.Deflection.Value, 1e-9);
    }

    // A right angle: all of the tension presses, and as much pulls as if it were tied.
    [Fact]
    public void A_tailpieces_strings_press_and_hardly_pull()
    {
        var shallow = new StringLoad(400, 11e-3, 0.2);
        Checks.Near(400 * Math.Sin(0.2), shallow.Down, 1e-12);
        Checks.Near(400 * (1 - Math.Cos(0.2)), shallow.Pull, 1e-12);
        Checks.Near(400, (shallow with { BreakAngle = Math.PI / 2 }).Pull, 1e-12);
        Assert.Equal((400, 0), (Tied.Pull, Tied.Down));
        BoardDeflection d = Solve(Board, EdgeHold.Clamped, new(400, 0, 0.2));
        // Its foot sinks by force over stiffness, but for what the small pull adds at the outer face.
        Assert.True(d.Sinks.Deflection.Value < -0.9 * shallow.Down * d.PerForce.Value);
        Assert.True(Math.Abs(d.Tilt.Value) < Math.Abs(Solve(Board, EdgeHold.Clamped, Tied).Tilt.Value));
    }

    [Fact]
    public void A_rim_moves_less_than_a_hinge_and_more_than_a_clamp_and_its_interval_reaches_towards_both()
    {
        double hinged = Solve(Board, EdgeHold.Hinged, Tied).PerForce.Value, clamped = Solve(Board, EdgeHold.Clamped, Tied).PerForce.Value;
        Prediction rim = Solve(Board, EdgeHold.Rim, Tied).PerForce;
        Checks.Within(clamped, hinged, rim.Value);
        Assert.Contains(rim.MostlyFrom, s => s.Input == "rim's hold");
        // The spring alone covers the way from one to the other roughly; the other inputs come on top.
        Assert.True(rim.Low90 < rim.Value - 0.5 * (rim.Value - clamped) && rim.High90 > rim.Value + 0.5 * (hinged - rim.Value));
    }

    // Each input's derivative, through thickness, modulus, height of the outer face and all, against solving the changed board.
    [Theory]
    [InlineData("outer skin thickness")]
    [InlineData("core height")]
    [InlineData("inner skin E_L")]
    [InlineData("core shear moduli")]
    public void An_intervals_source_moves_the_answer_as_solving_again_does(string input)
    {
        const double step = 0.01;
        UncertainInput<Board> source = BoardInputs.Of(Board).First(i => i.Name == input);
        // The rim's spring is the rim's own and stays: so the edge is clamped here.
        BoardDeflection clamped = Solve(Board, EdgeHold.Clamped, Tied), up = Solve(source.At(step), EdgeHold.Clamped, Tied), down = Solve(source.At(-step), EdgeHold.Clamped, Tied);
        foreach (Func<BoardDeflection, Prediction> figure in new Func<BoardDeflection, Prediction>[] { x => x.Tilt, x => x.PerForce, x => x.PerMoment, x => x.Sinks.Deflection })
        {
            double again = Math.Log(figure(up).Value / figure(down).Value) / (2 * step);
            Prediction p = figure(clamped);
            double sd = Math.Log(p.High90 / p.Low90) / (2 * Propagation.Z90);
            double share = p.MostlyFrom.FirstOrDefault(s => s.Input == input)?.Share ?? 0;
            Checks.Close(Math.Abs(again) * source.Spread, Math.Sqrt(share) * Math.Abs(sd), 0.02 * Math.Abs(sd), input);
        }
    }

    // The solid top found is put in the board's place and pressed; and its thickness follows an input as finding it again says.
    [Theory]
    [InlineData(EdgeHold.Clamped, "outer skin thickness")]
    [InlineData(EdgeHold.Hinged, "solid top E_L")]
    public void A_solid_top_of_equal_stiffness_gives_way_as_much(EdgeHold edge, string input)
    {
        const double step = 0.01;
        BoardDeflection own = Solve(Board, edge, Tied);
        SolidOnOutline solid = Find(Board);
        PlateProblem frame = BoardPlate.Problem(Board, 0.04, edge, SampleOutline.BridgePatch).Problem;
        var plate = PlateStatics.Of(frame with { Sections = [.. frame.Sections.Select(_ => PlateSection.Of(Board.SolidPlate(Board.Solid.Wood, solid.Thickness.Value)))] }, 4);
        PlateResponse down = plate.Respond([new(PlatePush.Deflect, SampleOutline.BridgePatch)])[0];
        Checks.Near(own.PerForce.Value, PlateStatics.Movement(down, down), 2e-3);
        Checks.Near(solid.Mass.Value - Board.Mass(Board.Laminate()), solid.Saved.Value, 1e-9);

        UncertainInput<Board> source = BoardInputs.Of(Board).First(i => i.Name == input);
        double again = Math.Log(Find(source.At(step)).Thickness.Value / Find(source.At(-step)).Thickness.Value) / (2 * step);
        double sd = Math.Log(solid.Thickness.High90 / solid.Thickness.Low90) / (2 * Propagation.Z90);
        Checks.Close(Math.Abs(again) * source.Spread, Math.Sqrt(solid.Thickness.MostlyFrom.First(s => s.Input == input).Share) * sd, 0.02 * sd, input);

        SolidOnOutline Find(Board board) => EqualOnOutline.Solid(OutlineCriterion.AtBridge(board, edge, SampleOutline.BridgePatch))!;
    }

    [Fact]
    public void A_free_board_is_refused() => Assert.Throws<UnsupportedPlateException>(() => Solve(Board, EdgeHold.Free, Tied));

    // Finer wanted: the answer moves by no more than the error that the coarse one owns up to.
    [Fact]
    public void The_estimated_error_holds()
    {
        BoardDeflection coarse = BoardDeflection.Solve(Board, EdgeHold.Hinged, SampleOutline.BridgePatch, Tied, 5e-3);
        BoardDeflection fine = BoardDeflection.Solve(Board, EdgeHold.Hinged, SampleOutline.BridgePatch, Tied, 5e-5);
        Assert.True(fine.Unknowns > coarse.Unknowns && fine.RelativeNumericalError < 5e-5, $"{fine.RelativeNumericalError}");
        Checks.Near(fine.PerForce.Value, coarse.PerForce.Value, coarse.RelativeNumericalError + fine.RelativeNumericalError);
        Checks.Near(fine.PerMoment.Value, coarse.PerMoment.Value, coarse.RelativeNumericalError + fine.RelativeNumericalError);
    }

    private static readonly System.Collections.Concurrent.ConcurrentDictionary<(Board, EdgeHold, StringLoad), BoardDeflection> Solved = new();

    private static BoardDeflection Solve(Board board, EdgeHold edge, StringLoad strings) => Solved.GetOrAdd((board, edge, strings), _ =>
        BoardDeflection.Solve(board, edge, SampleOutline.BridgePatch, strings, Coarse));
}
