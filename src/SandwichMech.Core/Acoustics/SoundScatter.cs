using MathNet.Numerics.Statistics;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Numerics;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Predictions;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Acoustics;

/// <summary>A board and a solid top in the same frame at one set of values.</summary>
/// <param name="Case">The values.</param>
/// <param name="Board">The board.</param>
/// <param name="Solid">The solid top; nothing without one.</param>
public sealed record SoundingPair(SoundCase Case, BoardAcoustics Board, BoardAcoustics? Solid);

/// <summary>Half and nine tenths of drawn boards at one frequency.</summary>
/// <param name="Value">At the medians of all inputs.</param>
/// <param name="Low50">A quarter lies below.</param>
/// <param name="High50">A quarter lies above.</param>
/// <param name="Low90">One in twenty lies below.</param>
/// <param name="High90">One in twenty lies above.</param>
public sealed record SoundBand(double Value, double Low50, double High50, double Low90, double High90);

/// <summary>Boards and solid tops drawn from the spreads of all inputs, what they share drawn together.</summary>
/// <remarks>
/// Intervals are quantiles of the drawn pairs (JCGM 101:2008, chapter 7), each within three standard deviations of each input; no further plate is solved: <see cref="ChangedAcoustics"/> says to what order. What a
/// figure's spread mostly comes from is by one input at a time (<see cref="Propagation"/>).
/// </remarks>
public sealed class SoundScatter
{
    private const double Reach = 3;

    private readonly Propagation<SoundingPair> _single;

    private SoundScatter(IReadOnlyList<SoundingPair> drawn, Propagation<SoundingPair> single) => (Drawn, _single) = (drawn, single);

    /// <summary>At the medians of all inputs.</summary>
    public SoundingPair Median => _single.Nominal;

    /// <summary>The drawn pairs.</summary>
    public IReadOnlyList<SoundingPair> Drawn { get; }

    /// <summary>Draws.</summary>
    /// <param name="board">The board that the frame was made for; its edge is held.</param>
    /// <param name="solid">Thickness of the solid top, m; nothing without one.</param>
    /// <param name="frame">Its frame.</param>
    /// <param name="bridge">Where the bridge pushes.</param>
    /// <param name="boards">How many.</param>
    /// <param name="seed">The same seed draws the same boards.</param>
    /// <returns>The pairs.</returns>
    public static SoundScatter Of(Board board, double? solid, OutlineFrame frame, PlateAction bridge, int boards, int seed)
    {
        BoardAcoustics own = BoardAcoustics.Of(board, frame, bridge);
        BoardAcoustics? top = solid is { } h ? BoardAcoustics.OfSolid(board, h, frame, bridge) : null;
        bool named = solid is { } made && board.Solid.Thickness?.Value == made;
        IReadOnlyList<PlateSection> before = frame.Sections(board), beforeTop = solid is { } t ? SolidInPlace.Sections(board, frame.Places, t) : [];
        var median = new SoundCase(board);
        InputShift<SoundCase>[] inputs = [.. SoundCase.Inputs(board, named).Where(i => i.Spread > 0)];
        var drawn = new SoundingPair[boards];
        Parallel.For(0, boards, i =>
        {
            var chance = new NormalNumbers(seed, i);
            drawn[i] = At(inputs.Aggregate(median, (c, input) => input.Shift(c, input.Spread * Within(chance))));
        });
        return new(drawn, Propagation.Through(median, inputs.Select(i => new UncertainInput<SoundCase>(i.Name, i.Spread, x => i.Shift(median, x))), At));

        SoundingPair At(SoundCase c) => new(
            c,
            own.Changed(before, frame.Sections(c.Board), c.Rim, c.Theory, c.Loss),
            top?.Changed(beforeTop, SolidInPlace.Sections(c.Board, frame.Places, named ? c.Board.Solid.Thickness!.Value.Value : solid!.Value), c.Rim, c.SolidTheory, c.SolidLoss));
    }

    /// <summary>A figure that is positive by its nature.</summary>
    /// <param name="figure">Picks it.</param>
    /// <returns>Its value at the medians, intervals of the drawn pairs and where they mostly come from.</returns>
    public Prediction Positive(Func<SoundingPair, double> figure) => With(_single.Positive(figure), figure);

    /// <summary>A figure that may have either sign.</summary>
    /// <param name="figure">Picks it.</param>
    /// <returns>The same.</returns>
    public Prediction OfEitherSign(Func<SoundingPair, double> figure) => With(_single.OfEitherSign(figure), figure);

    /// <summary>Standard deviation of a figure among the drawn pairs.</summary>
    /// <param name="figure">Picks it.</param>
    /// <returns>In the figure's unit.</returns>
    public double StandardDeviation(Func<SoundingPair, double> figure) => Drawn.Select(figure).StandardDeviation();

    /// <summary>Many figures at once: a curve's points.</summary>
    /// <param name="figures">As many of each pair.</param>
    /// <returns>A band for each.</returns>
    public IReadOnlyList<SoundBand> Bands(Func<SoundingPair, double[]> figures)
    {
        double[] value = figures(Median);
        double[][] all = [.. Drawn.AsParallel().AsOrdered().Select(figures)];
        return [.. value.Select((v, i) =>
        {
            double[] sorted = [.. all.Select(a => a[i]).Order()];
            return new SoundBand(v, At(sorted, 0.25), At(sorted, 0.75), At(sorted, 0.05), At(sorted, 0.95));
        })];
    }

    private Prediction With(Prediction single, Func<SoundingPair, double> figure)
    {
        double[] sorted = [.. Drawn.Select(figure).Order()];
        return single with { Low50 = At(sorted, 0.25), High50 = At(sorted, 0.75), Low90 = At(sorted, 0.05), High90 = At(sorted, 0.95) };
    }

    private static double At(double[] sorted, double share) => SortedArrayStatistics.Quantile(sorted, share);

    private static double Within(NormalNumbers chance)
    {
        double z = chance.Next();
        while (Math.Abs(z) > Reach) { z = chance.Next(); }
        return z;
    }
}
