using SandwichMech.Core.Acoustics;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Predictions;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Tables;

namespace SandwichMech.Tests.Acoustics;

/// <summary>Boards drawn for the sound's intervals, against plates that are solved.</summary>
public class SoundScatterTests
{
    private const double Thickness = 2.6e-3;

    private static readonly Lazy<Drawing> Clamped = new(() => Drawn("clamped")), OnRim = new(() => Drawn("rim"));

    // Four drawn boards solved anew, their rims too: first tone, its volume and the steady volume by held shapes beside them. What is left out is small against what is drawn; most of it is a rim that is
    // drawn two standard deviations away, from nearly hinged to nearly clamped.
    [Theory]
    [Trait("Check", "independent")]
    [InlineData(false, 0.02, 0.02)]
    [InlineData(true, 0.05, 0.08)]
    public void Drawn_boards_sound_as_they_do_when_they_are_solved(bool rim, double tones, double volumes)
    {
        (Board median, OutlineFrame frame, PlateAction bridge, SoundScatter scatter) = (rim ? OnRim : Clamped).Value;
        double first = scatter.StandardDeviation(p => Math.Log(p.Board.Modes[0].Frequency)), steady = scatter.StandardDeviation(p => Math.Log(p.Board.Volume.Steady));
        foreach (SoundingPair pair in scatter.Drawn.Take(4))
        {
            Board board = pair.Case.Board;
            var solved = BoardAcoustics.Of(frame.Of(board, median, Math.Exp(pair.Case.Rim)).Plate, [.. frame.Places.Select(p => LocalLayup.Of(board, p.Regions, p.At))], bridge);
            double theory = Math.Exp(pair.Case.Theory);
            double tone = Math.Log(pair.Board.Modes[0].Frequency / theory / solved.Modes[0].Frequency), still = Math.Log(pair.Board.Volume.Steady * theory * theory / solved.Volume.Steady);
            Checks.Within(-tones, tones, tone, "first tone");
            Checks.Within(-volumes, volumes, Math.Log(Math.Abs(pair.Board.Modes[0].Volume / solved.Modes[0].Volume)), "its volume");
            Checks.Within(-0.4 * first, 0.4 * first, tone, "first tone beside its spread");
            Checks.Within(-0.4 * steady, 0.4 * steady, still, "steady volume beside its spread");
        }
    }

    // What is uncertain alone can be said in closed form: the first tone's own intervals by exact derivatives (GUM), beside the drawn quantiles.
    [Fact]
    [Trait("Check", "independent")]
    public void The_first_tone_scatters_as_its_exact_derivatives_say()
    {
        (Board board, OutlineFrame frame, _, SoundScatter scatter) = Clamped.Value;
        var exact = frame.Frequencies(board, frame.Own)[0];
        double byDerivatives = Math.Log(exact.High90 / exact.Low90) / (2 * 1.6449), theory = SoundCase.TheorySpread;
        Checks.Near(Math.Sqrt(byDerivatives * byDerivatives + theory * theory), scatter.StandardDeviation(p => Math.Log(p.Board.Modes[0].Frequency)), 0.15);
        Checks.Near(exact.Value, scatter.Median.Board.Modes[0].Frequency, 1e-12);
    }

    [Fact]
    [Trait("Check", "exact")]
    public void Losses_scatter_by_their_judgement_and_what_is_shared_cancels()
    {
        SoundScatter scatter = Clamped.Value.Scatter;
        // Kinds are independent: the spread of the sum as ModalLoss has it, within what 200 draws and the curvature of e^x leave.
        var loss = scatter.Positive(p => p.Board.Modes[1].Loss.Total.Value);
        double spread = scatter.Median.Board.Modes[1].Loss.Total.Spread;
        Checks.Near(spread, scatter.StandardDeviation(p => Math.Log(p.Board.Modes[1].Loss.Total.Value)), 0.2);
        Assert.True(loss.Low90 < loss.Low50 && loss.Low50 < loss.High50 && loss.High50 < loss.High90);
        // The edge takes the same of both in each pair.
        Assert.All(scatter.Drawn, p => Checks.Near(p.Board.Modes[0].Loss.Of(LossKind.Edge), p.Solid!.Modes[0].Loss.Of(LossKind.Edge), 1e-12));
        Assert.Contains(scatter.Drawn, p => Math.Abs(p.Board.Modes[0].Loss.Of(LossKind.WoodAlong) / scatter.Median.Board.Modes[0].Loss.Of(LossKind.WoodAlong)
            - p.Solid!.Modes[0].Loss.Of(LossKind.WoodAlong) / scatter.Median.Solid!.Modes[0].Loss.Of(LossKind.WoodAlong)) > 0.1);
    }

    [Fact]
    [Trait("Check", "exact")]
    public void A_seed_draws_the_same_boards()
    {
        (Board board, OutlineFrame frame, PlateAction bridge, SoundScatter scatter) = Clamped.Value;
        double[] Tones(SoundScatter s) => [.. s.Drawn.Take(20).SelectMany(p => new[] { p.Board.Modes[0].Frequency, p.Solid!.Modes[2].Loss.Total.Value })];
        Assert.Equal(Tones(scatter), Tones(SoundScatter.Of(board, Thickness, frame, bridge, 20, 1)));
        Assert.NotEqual(Tones(scatter), Tones(SoundScatter.Of(board, Thickness, frame, bridge, 20, 2)));
    }

    private static Drawing Drawn(string edge)
    {
        string path = Repository.File("shared", "demo", "outline.toml");
        Board board = BoardFiles.Parse(path, File.ReadAllText(path).Replace("held = \"free\"", $"held = \"{edge}\"", StringComparison.Ordinal), MaterialTables.BuiltIn()).Board;
        var frame = OutlineFrame.For(board, 10, 2e-3);
        var bridge = new PlateAction(PlatePush.Deflect, board.Shape!.Regions.First(r => r.Change is LetInWood && r.Name.Contains("bridge", StringComparison.Ordinal)).Border[0]);
        return new(board, frame, bridge, SoundScatter.Of(board, Thickness, frame, bridge, 200, 1));
    }

    private sealed record Drawing(Board Board, OutlineFrame Frame, PlateAction Bridge, SoundScatter Scatter);
}
