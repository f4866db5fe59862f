using MathNet.Numerics.Statistics;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Numerics;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Plates.Reduced;

namespace SandwichMech.Core.Predictions;

/// <summary>Intervals of one mode's frequency among sampled boards, modes in the order of their frequencies, Hz.</summary>
/// <param name="Low50">A quarter lies below.</param>
/// <param name="High50">A quarter lies above.</param>
/// <param name="Low90">One in twenty lies below.</param>
/// <param name="High90">One in twenty lies above.</param>
public sealed record SampledMode(double Low50, double High50, double Low90, double High90);

/// <summary>The modes of boards drawn by chance.</summary>
/// <param name="Modes">Their intervals, lowest mode first.</param>
/// <param name="Boards">Boards that they are of.</param>
/// <param name="Left">Boards that were drawn and left out, since the reduced model does not answer for them.</param>
public sealed record SampledModes(IReadOnlyList<SampledMode> Modes, int Boards, int Left);

/// <summary>Draws boards from the spreads of all their inputs and solves each through a reduced model (JCGM 101:2008, chapter 7).</summary>
/// <remarks>
/// Boards are drawn within three standard deviations of each input, which the model's range holds; what lies beyond is drawn again. Of 90 % intervals that moves the ends
/// by some thousandths of their width.
/// </remarks>
public static class ModeSampling
{
    private const double Reach = 3;
    // Ends of ranges go by so much, so that a board that is a little changed asks for the same model.
    private const double RangeStep = 0.15;
    // With bars the theory itself is off by more.
    private const double Accuracy = 1e-3, AccuracyWithBars = 3e-3;
    private const double MostShare = 0.98;
    private const int ModesStep = 10, MostTries = 1000;

    /// <summary>What a model has to hold for a board to be sampled: the usual range, and beyond where the board's inputs go.</summary>
    /// <param name="board">The board; its shape is given.</param>
    /// <returns>The range.</returns>
    public static BoardRange RangeOf(Board board)
    {
        BoardRange range = BoardRange.Usual(board);
        InputShift<Board>[] shifts = [.. BoardInputs.Shifts(board).Where(s => s.Spread > 0)];
        (Board Up, Board Down)[] moved = [.. shifts.Select(s => (s.Shift(board, Reach * s.Spread), s.Shift(board, -Reach * s.Spread)))];
        foreach ((RangedInput input, InputRange usual) in RangedInput.All(board).Zip(range.Inputs))
        {
            double value = input.Of(board), square = 0;
            foreach ((Board more, Board less) in moved) { square += Math.Pow(Math.Max(Math.Abs(Math.Log(input.Of(more) / value)), Math.Abs(Math.Log(input.Of(less) / value))), 2); }
            double up = value * Math.Exp(Math.Sqrt(square)), down = value * Math.Exp(-Math.Sqrt(square));
            if (usual.Holds(up) && usual.Holds(down)) { continue; }
            // A share stays one.
            double high = input.Name is "adhesive kept" or "film share" ? Math.Max(Math.Min(up, MostShare), usual.High) : Stepped(Math.Max(up, usual.High), Math.Ceiling);
            range = range.With(usual.Input, Stepped(Math.Min(down, usual.Low), Math.Floor), high);
        }

        return range;

        static double Stepped(double value, Func<double, double> round) => Math.Exp(RangeStep * round(Math.Log(value) / RangeStep));
    }

    /// <summary>What a model for sampling is to give.</summary>
    /// <param name="board">The board.</param>
    /// <param name="modes">Modes wanted.</param>
    /// <returns>The options.</returns>
    public static ReducedOptions OptionsFor(Board board, int modes) => new()
    {
        Modes = Math.Max(new ReducedOptions().Modes, (modes + ModesStep - 1) / ModesStep * ModesStep),
        Accuracy = BoardPlate.ShapeOf(board).Regions.Any(r => r.Change is GluedBar) ? AccuracyWithBars : Accuracy,
    };

    /// <summary>Samples.</summary>
    /// <param name="model">A model of the board's shape for <see cref="RangeOf"/>.</param>
    /// <param name="board">The board at the medians.</param>
    /// <param name="boards">Boards to draw.</param>
    /// <param name="seed">The same seed draws the same boards.</param>
    /// <param name="airDensity">kg/m³; 0 in vacuo.</param>
    /// <param name="progress">Told the share done, 0 to 1, from any thread.</param>
    /// <returns>The modes.</returns>
    public static SampledModes Of(ReducedPlate model, Board board, int boards, int seed, double airDensity, Action<double>? progress = null)
    {
        InputShift<Board>[] shifts = [.. BoardInputs.Shifts(board).Where(s => s.Spread > 0)];
        var found = new IReadOnlyList<double>?[boards];
        int done = 0, part = Math.Max(1, boards / 50);
        Parallel.For(0, boards, i =>
        {
            ReducedModes modes = model.Solve(Drawn(model.Content.Range, board, shifts, seed, i), airDensity);
            found[i] = modes.WhyNot is null ? modes.Frequencies : null;
            int now = Interlocked.Increment(ref done);
            if (now % part == 0) { progress?.Invoke((double)now / boards); }
        });
        IReadOnlyList<double>[] all = [.. found.OfType<IReadOnlyList<double>>()];
        int count = all.Length == 0 ? 0 : all[0].Count;
        return new([.. Enumerable.Range(0, count).Select(m =>
        {
            double[] sorted = [.. all.Select(f => f[m]).Order()];
            return new SampledMode(Quantile(0.25), Quantile(0.75), Quantile(0.05), Quantile(0.95));

            double Quantile(double share) => SortedArrayStatistics.Quantile(sorted, share);
        })], all.Length, boards - all.Length);
    }

    private static Board Drawn(BoardRange range, Board board, InputShift<Board>[] shifts, int seed, int number)
    {
        var chance = new NormalNumbers(seed, number);
        Board drawn = board;
        for (int i = 0; i < MostTries; i++)
        {
            drawn = board;
            foreach (InputShift<Board> shift in shifts) { drawn = shift.Shift(drawn, shift.Spread * chance.Next()); }
            if (range.Outside(drawn) is null) { break; }
        }

        return drawn;
    }
}
