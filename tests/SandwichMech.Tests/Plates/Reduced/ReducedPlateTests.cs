using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Plates.Reduced;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Tables;

namespace SandwichMech.Tests.Plates.Reduced;

/// <summary>Reduced models of the demo board with hole, edge band, ring and bridge patch, free and clamped: built once for all checks.</summary>
public sealed class ReducedSamples
{
    public const double Factor = 1.2, Accuracy = 2e-3;
    public const int Modes = 6;

    private readonly Lazy<ReducedSample> _free = new(() => ReducedSample.Of(EdgeHold.Free)), _clamped = new(() => ReducedSample.Of(EdgeHold.Clamped));

    public ReducedSample this[EdgeHold edge] => edge == EdgeHold.Free ? _free.Value : _clamped.Value;
}

/// <summary>A model, what it was built for, and how often the builder told of a full solve.</summary>
public sealed record ReducedSample(Board Board, BoardRange Range, ReducedPlate Model, int Told)
{
    public static ReducedSample Of(EdgeHold edge)
    {
        Board board = BoardFiles.Read(Repository.File("shared", "demo", "outline.toml"), MaterialTables.BuiltIn()).Board;
        board = board with { Shape = board.Shape! with { Edge = edge } };
        BoardRange range = BoardRange.About(board, ReducedSamples.Factor);
        PlateAction bridge = new(PlatePush.Deflect, Patch(board).Border[0]);
        var options = new ReducedOptions { Modes = ReducedSamples.Modes, Accuracy = ReducedSamples.Accuracy, Designs = 12, Tests = 3, Actions = [bridge] };
        int told = 0;
        return new(board, range, ReducedPlate.Build(board, range, options, _ => told++), told);
    }

    public static BoardRegion Patch(Board board) => board.Shape!.Regions.Single(r => r.Name.Contains("bridge", StringComparison.Ordinal));
}

/// <summary>Reduced models against full ones of designs that they were not built from.</summary>
[Trait("Check", "independent")]
public class ReducedPlateTests(ReducedSamples samples) : IClassFixture<ReducedSamples>
{
    private const double Air = 1.2;

    // The full model chooses its own mesh for each design, its own edge band and order: the mesh's part is in the comparison.
    [Theory]
    [InlineData(EdgeHold.Free)]
    [InlineData(EdgeHold.Clamped)]
    public void Frequencies_in_vacuo_and_in_air_are_those_of_the_full_model_within_the_error_stated(EdgeHold edge)
    {
        ReducedSample sample = samples[edge];
        int covered = 0, all = 0;
        foreach (double[] position in DesignSample.Inside(sample.Range.Inputs.Count, 3, DesignSample.Random(91)))
        {
            Board board = sample.Range.At(sample.Board, position);
            PlateSolution full = BoardPlate.Solve(board, ReducedSamples.Modes, 2e-3, PlateSolver.BeyondForAir).Plate;
            IReadOnlyList<AirMode> inAir = full.InAir(edge != EdgeHold.Free, Air, ReducedSamples.Modes).Modes;
            ReducedModes vacuum = sample.Model.Solve(board), air = sample.Model.Solve(board, Air);
            Assert.Equal(vacuum.Errors.Max() <= ReducedPlate.MostStated * ReducedSamples.Accuracy, vacuum.WhyNot is null);
            PlateAction bridge = new(PlatePush.Deflect, ReducedSample.Patch(board).Border[0]);
            for (int i = 0; i < ReducedSamples.Modes; i++)
            {
                double error = vacuum.Frequencies[i] / full.Modes[i].Frequency - 1;
                Checks.Within(-full.Modes[i].Error - 1e-3, ReducedPlate.MostStated * ReducedSamples.Accuracy, error, $"{edge}, mode {i + 1}");
                Checks.Within(-full.Modes[i].Error - 1e-3, ReducedPlate.MostStated * ReducedSamples.Accuracy, air.Frequencies[i] / inAir[i].Frequency - 1, $"{edge}, mode {i + 1} in air");
                // A mode's sign is anyone's; where it rests at the bridge, little is much.
                double most = Enumerable.Range(0, ReducedSamples.Modes).Max(j => Math.Abs(full.At(bridge)[j]));
                Checks.Close(Math.Abs(full.At(bridge)[i]), Math.Abs(vacuum.Movements[0][i]), 0.05 * most, $"{edge}, mode {i + 1} at the bridge");
                all += 2;
                covered += Math.Abs(error) <= vacuum.Errors[i] + full.Modes[i].Error ? 1 : 0;
                covered += Math.Abs(air.Frequencies[i] / inAir[i].Frequency - 1) <= air.Errors[i] + full.Modes[i].Error ? 1 : 0;
            }
        }

        Assert.True(covered >= 0.9 * all, $"{covered} of {all} errors are within what is stated.");
    }

    [Theory]
    [InlineData(EdgeHold.Free, 6)]
    [InlineData(EdgeHold.Clamped, 0)]
    public void At_most_sixty_full_solves_are_made_and_told(EdgeHold edge, int rigid)
    {
        ReducedSample sample = samples[edge];
        ReducedContent c = sample.Model.Content;
        Assert.InRange(c.Report.Solves, 8, 60);
        Assert.InRange(sample.Told, 1, c.Report.Solves);
        Assert.Equal(rigid, c.Parts.Sum(p => p.Rigid));
        // The board is alike on both sides.
        Assert.Equal(2, c.Parts.Count);
        Assert.InRange(c.Report.WorstError, 1e-7, ReducedPlate.MostStated * ReducedSamples.Accuracy);
        // Few of the coefficients go their own ways.
        Assert.InRange(c.Stiffness.Count, 8, 45);
        Assert.All(c.Parts, p => Assert.Equal(c.Stiffness.Count, p.StiffnessMatrices.Count));
    }

    [Fact]
    public void A_board_outside_is_said_to_be_and_asked_of_the_full_model()
    {
        ReducedSample sample = samples[EdgeHold.Clamped];
        Board board = sample.Board;
        AssertOutside(board with { Core = board.Core with { Height = board.Core.Height.Times(1.4) } }, "core height");
        AssertOutside(board with { Outer = board.Outer with { GrainAngle = 0.1 } }, "differs");
        AssertOutside(board with { Core = board.Core with { RibbonAngle = Math.PI / 2 } }, "differs");
        AssertOutside(board with { Shape = board.Shape! with { Edge = EdgeHold.Free } }, "shape");
        AssertOutside(board with { Shape = board.Shape! with { DomeAlong = 0.1 } }, "shape");
        AssertOutside(board with { Shape = board.Shape! with { Regions = [] } }, "shape");
        AssertOutside(board with { Shape = null }, "shape");
        Assert.Null(sample.Model.Solve(board with { Name = "another name", Size = new(1, 1, 1) }).WhyNot);

        void AssertOutside(Board other, string why)
        {
            ReducedModes modes = sample.Model.Solve(other);
            Assert.Contains(why, modes.WhyNot!, StringComparison.Ordinal);
            Assert.Empty(modes.Frequencies);
            var full = new ReducedModes([100], [0], [], null);
            Assert.Same(full, sample.Model.Solve(other, _ => full));
        }
    }

    // Twice all moduli and twice all densities leave every frequency; the model's sums must know it exactly.
    [Fact]
    public void Frequencies_scale_as_theory_has_it()
    {
        ReducedContent c = samples[EdgeHold.Free].Model.Content;
        var solver = new PartSolver(c.Parts, c.Modes);
        (double[] Stiffness, double[] Inertia) at = new CoefficientTerms(c.Stations, c.Stiffness, c.Inertia)
            .Of(BoardPlate.Sections(samples[EdgeHold.Free].Board, c.Stations), 0);
        using PartModes before = solver.Solve(at, 0)!, after = solver.Solve(([.. at.Stiffness.Select(v => 3 * v)], [.. at.Inertia.Select(v => 2 * v)]), 0)!;
        // Sums in single precision.
        foreach ((double first, double second) in before.Values.Zip(after.Values)) { Checks.Near(1.5 * first, second, 1e-5); }
    }

    [Fact]
    public void Many_threads_may_ask_at_once()
    {
        ReducedSample sample = samples[EdgeHold.Free];
        Board[] boards = [.. DesignSample.Inside(sample.Range.Inputs.Count, 40, DesignSample.Random(3)).Select(p => sample.Range.At(sample.Board, p))];
        double[] one = [.. boards.Select(b => sample.Model.Solve(b, Air).Frequencies[^1])];
        double[] many = [.. boards.AsParallel().AsOrdered().WithDegreeOfParallelism(4).Select(b => sample.Model.Solve(b, Air).Frequencies[^1])];
        Assert.Equal(one, many);
    }
}
