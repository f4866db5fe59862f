using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Plates.Reduced;
using SandwichMech.Core.Predictions;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Tests.Outlines;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Plates.Reduced;

/// <summary>Intervals of modes from sampled boards.</summary>
[Trait("Check", "independent")]
public class ModeSamplingTests
{
    private static readonly Board Sample = SampleBoard.Unsymmetric with
    {
        Shape = new BoardShape { Outline = SampleOutline.Board, Holes = [], Parts = BoardPlate.Parts(SampleOutline.Board, [], []) },
    };

    // Inputs of a few per cent: there the exact derivatives' first order is all there is, and chance alone parts the two.
    [Fact]
    public void Where_spreads_are_small_sampling_and_exact_derivatives_agree()
    {
        const int boards = 4000, modes = 3;
        Board board = Narrow(Sample);
        // A range of its own, for the usual one takes long to build.
        var model = ReducedPlate.Build(board, BoardRange.About(board, 1.3), new ReducedOptions { Modes = modes, Accuracy = 5e-3 });
        SampledModes drawn = ModeSampling.Of(model, board, boards, 1, 0);
        Assert.Equal((boards, 0), (drawn.Boards, drawn.Left));
        BoardSolution solution = BoardPlate.Solve(board, modes, 3e-3);
        IReadOnlyList<Prediction> linear = BoardModes.Frequencies(board, solution);
        IReadOnlyList<double> medians = model.Solve(board).Frequencies;
        for (int m = 0; m < modes; m++)
        {
            double spread = Math.Log(linear[m].High90 / linear[m].Low90) / (2 * Propagation.Z90);
            // A quantile's standard error: √(p(1 − p)/n)/φ(z) standard deviations, 2.1 for the outer ones and 1.4 for the inner by √(1/n); four of these. Both beside the
            // frequency at the medians, so that what the model is off by is in both.
            double outer = 4 * 2.1 * spread / Math.Sqrt(boards), inner = 4 * 1.4 * spread / Math.Sqrt(boards), own = linear[m].Value / medians[m];
            Checks.Close(0, Math.Log(own * drawn.Modes[m].Low90 / linear[m].Low90), outer, $"mode {m + 1}, low end");
            Checks.Close(0, Math.Log(own * drawn.Modes[m].High90 / linear[m].High90), outer, $"mode {m + 1}, high end");
            Checks.Close(0, Math.Log(own * drawn.Modes[m].Low50 / linear[m].Low50), inner);
            Checks.Close(0, Math.Log(own * drawn.Modes[m].High50 / linear[m].High50), inner);
        }

        // The same seed draws the same boards, on whatever threads; another one others.
        SampledModes again = ModeSampling.Of(model, board, 300, 7, 0), same = ModeSampling.Of(model, board, 300, 7, 0), other = ModeSampling.Of(model, board, 300, 8, 0);
        Assert.Equal(again.Modes, same.Modes);
        Assert.NotEqual(again.Modes, other.Modes);
        // In air all are lower.
        Assert.All(ModeSampling.Of(model, board, 300, 7, AmbientAir.Density).Modes.Zip(again.Modes), x => Assert.True(x.First.High90 < x.Second.High90));
    }

    // Each input may go three standard deviations either way, and a little change of the board does not ask for another range.
    [Fact]
    public void The_range_holds_what_can_be_drawn_and_stays_for_like_boards()
    {
        BoardRange range = ModeSampling.RangeOf(Sample);
        foreach (InputShift<Board> shift in BoardInputs.Shifts(Sample))
        {
            Assert.Null(range.Outside(shift.Shift(Sample, 2.999 * shift.Spread)));
            Assert.Null(range.Outside(shift.Shift(Sample, -2.999 * shift.Spread)));
        }

        Board changed = Sample with { Inner = Sample.Inner with { Thickness = Sample.Inner.Thickness with { Value = 0.98 * Sample.Inner.Thickness.Value } } };
        Assert.Equal(range.Inputs, ModeSampling.RangeOf(changed).Inputs);
    }

    private static Board Narrow(Board board) => board with
    {
        Outer = board.Outer with { Wood = Of(board.Outer.Wood) },
        Inner = board.Inner with { Wood = Of(board.Inner.Wood) },
        Core = board.Core with { Material = board.Core.Material with { Density = Of(board.Core.Material.Density), ShearRibbon = Of(board.Core.Material.ShearRibbon), ShearAcross = Of(board.Core.Material.ShearAcross) } },
        Adhesive = board.Adhesive with
        {
            Density = Of(board.Adhesive.Density),
            Mixed = Of(board.Adhesive.Mixed),
            KeptShare = Of(board.Adhesive.KeptShare),
            FilmShare = Of(board.Adhesive.FilmShare),
            FilmModulus = Of(board.Adhesive.FilmModulus),
        },
    };

    private static Core.Materials.Wood Of(Core.Materials.Wood w) => w with
    {
        Density = Of(w.Density),
        EL = Of(w.EL),
        ErOverEl = Of(w.ErOverEl),
        GlrOverEl = Of(w.GlrOverEl),
        GltOverEl = Of(w.GltOverEl),
        GrtOverEl = Of(w.GrtOverEl),
    };

    private static Estimate Of(Estimate e) => e with { Spread = 0.04 };
}
