using System.Globalization;
using SandwichMech.Core.Acoustics;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Predictions;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Workshop.Boards;

namespace SandwichMech.Workshop.UseCases;

/// <summary>What is wanted to be known of a board's sound.</summary>
/// <param name="Count">Modes shown, 1 to 30.</param>
public sealed record SoundWish(int Count)
{
    /// <summary>How the edge is held; nothing: as the board file says, a rim where that is free.</summary>
    public EdgeHold? Edge { get; init; }
    /// <summary>Mean depth of a box, m; nothing without one.</summary>
    public double? Depth { get; init; }
    /// <summary>Of the plucked string, Hz.</summary>
    public double Note { get; init; } = 196;
    /// <summary>Whether sounds are to be heard.</summary>
    public bool Heard { get; init; }
    /// <summary>Boards drawn for the intervals.</summary>
    public int Boards { get; init; } = 200;
    /// <summary>Which boards are drawn.</summary>
    public int Seed { get; init; } = 1;
}

/// <summary>The result and the sounds, which are made when they are asked for.</summary>
/// <param name="Result">What is shown and written as JSON.</param>
/// <param name="Sounds">Tap and plucked note.</param>
public sealed record SoundAnswer(SoundResult Result, SoundsHeard Sounds);

/// <summary>What a board that is held does with the force of strings.</summary>
public static class SoundBoard
{
    // Fewer would not reach the limit of what volume velocity tells; those beyond the shown ones keep drawn boards whose modes lie lower from running out of them.
    private const int LeastModes = 8, ModesBeyond = 4;
    private const double Accuracy = 2e-3, BelowFirst = 0.5, WithinModes = 0.8;
    private const int StepsAnOctave = 36;
    private static readonly double[] Flanks = [-1, -0.5, 0, 0.5, 1];

    /// <summary>Solves.</summary>
    /// <param name="file">The board as read.</param>
    /// <param name="wish">What is wanted.</param>
    /// <returns>Figures and sounds.</returns>
    /// <exception cref="InputException">The board has no outline or no bridge, or cannot be meshed.</exception>
    public static SoundAnswer Run(BoardFile file, SoundWish wish)
    {
        BoardShape drawn = OutlineSolving.ShapeOf(file, "sounds", "`sandwichmech estimate` gives stiffness and mass without it");
        BoardShape shape = drawn with { Edge = wish.Edge ?? (drawn.Edge == EdgeHold.Free ? EdgeHold.Rim : drawn.Edge) };
        Board board = file.Board.ForModes() with { Shape = shape };
        PlateAction bridge = OutlineSolving.Bridge(shape) is { } foot
            ? new(PlatePush.Deflect, foot.Border[0])
            : throw new InputException(file.Path, $"sounds need the place where the strings push: add [{BoardFields.BridgePatchAlong.Table.Name}] with along, across and at, or a bridge");
        OutlineFrame frame = OutlineSolving.Try(file, "modes", () => OutlineFrame.For(board, Math.Max(wish.Count, LeastModes) + ModesBeyond, Accuracy));
        double? thickness = board.Solid.Thickness?.Value ?? OutlineSolving.Try(file, "solid top", () => EqualOnOutline.Solid(OutlineCriterion.FirstMode(frame, board, frame.Own))?.Thickness.Value);
        SoundScatter scatter = OutlineSolving.Try(file, "modes", () => SoundScatter.Of(board, thickness, frame, bridge, wish.Boards, wish.Seed));
        SoundingPair median = scatter.Median;
        double limit = Radiation.MonopoleLimit(median.Board.Area);
        double reach = WithinModes * Math.Min(median.Board.Modes[^1].Frequency, median.Solid?.Modes[^1].Frequency ?? double.MaxValue), high = Math.Min(2 * limit, reach);
        // From well below both first modes, so that hardly any drawn pair has one of them outside.
        double low = BelowFirst * Math.Min(median.Board.Modes[0].Frequency, median.Solid?.Modes[0].Frequency ?? double.MaxValue);
        double[] even = Even(low, reach), grid = WithResonances(even, median);
        var sounds = new SoundsHeard(scatter, wish.Note);
        return new(new()
        {
            Board = board.Name,
            Edge = OutlineSolving.EdgeWords(shape),
            Means = FormattableString.Invariant($"Modes in air in a baffle, with the losses of wood by the tables; of core ({PlyLoss.OfCore.Shear.Value}), adhesive film ({PlyLoss.OfFilm.Shear.Value}) and edge ({ModalLoss.HeldEdge.Value}) by judgement, a factor of two either way; of sound from the outer face. ")
                + $"Levels are for one force at the bridge and compare the air that is pushed, which tells loudness below some {limit:F0} Hz only",
            Intervals = string.Create(CultureInfo.InvariantCulture, $"Intervals are of {wish.Boards} boards and solid tops drawn from all spreads (seed {wish.Seed}), to first order: frequencies by exact derivatives, shapes held; {SoundCase.TheorySpread * 100:0.#} % for the theory itself (judgement). ")
                + "What board and solid top share (edge, let-in wood, bars, sound) is drawn together" + (shape.IsHeld(EdgeHold.Rim, shape.Edge) ? $"; {OutlineSolving.RimMeans}" : ""),
            CannotTell = "They tell where a board answers, how long, and how much air it moves beside another in the same frame. They do not tell tone: strings' attack, upper partials, the box beyond its first two tones, the room and the ear are not in them, "
                + "and neither is how these boards were really built. The sounds let modes be heard; they are no recordings",
            Limit = limit,
            SolidThickness = thickness,
            SolidFrom = board.Solid.Thickness is not null ? "as the board file says" : thickness is null ? "no solid top has the board's first mode" : "has the board's first mode, at the medians",
            Layups = [.. SoundWaves.Rows(board, thickness)],
            Boards = [Row("board", p => p.Board), .. thickness is null ? [] : (SoundingRow[])[Row("solid top", p => p.Solid!)]],
            Levels = thickness is null ? [] : [Level(low, limit), .. high > limit ? [Level(limit, high)] : (LevelRow[])[]],
            LevelCurve = thickness is null ? [] : [.. scatter.Bands(p => RelativeLevel.At(p.Board.Volume, p.Solid!.Volume, grid)).Zip(grid, (b, f) => new LevelBand(f, b.Value, b.Low50, b.High50, b.Low90, b.High90))],
            Scatter = thickness is null ? null : Scatter(scatter, low, limit),
            Box = wish.Depth is { } d ? Box(shape, board.Laminate().Thickness, d, scatter) : null,
            Heard = wish.Heard ? sounds.Rows : [],
            DrawnBoards = wish.Boards,
            Seed = wish.Seed,
            Warnings = [.. file.Warnings.Select(w => w.ToString())],
            ReadBack = file.ReadBack,
        }, sounds);

        LevelRow Level(double from, double to) => new(from, to, scatter.OfEitherSign(p => Mean(p, from, to)));
        SoundingRow Row(string name, Func<SoundingPair, BoardAcoustics> of) => new(
            name,
            scatter.Positive(p => Math.Abs(of(p).Volume.Steady)),
            scatter.Positive(p => Typical(of(p).Mobility, even)),
            scatter.Positive(p => Typical(of(p).Volume, [.. even.Where(f => f <= limit)])),
            [.. Enumerable.Range(0, wish.Count).Select(i => Mode(i, scatter, of))],
            [.. scatter.Bands(p => [.. grid.Select(f => of(p).Mobility.At(f).Magnitude)]).Zip(grid, (b, f) => new MobilityBand(f, b.Value, b.Low50, b.High50, b.Low90, b.High90))]);
    }

    private static double Mean(SoundingPair p, double from, double to) => RelativeLevel.Of(p.Board.Volume, p.Solid!.Volume, from, to).Mean;

    private static double Typical(ModalTransfer transfer, double[] grid) => Math.Exp(grid.Average(f => Math.Log(transfer.At(f).Magnitude)));

    // Even steps of the logarithm: what means are taken over.
    private static double[] Even(double low, double high)
    {
        int steps = (int)Math.Ceiling(StepsAnOctave * Math.Log2(high / low)) + 1;
        return [.. Enumerable.Range(0, steps).Select(i => low * Math.Pow(high / low, i / (steps - 1.0)))];
    }

    // Every resonance with its flanks, so that a curve shows it even where it is narrower than a step.
    private static double[] WithResonances(double[] even, SoundingPair median) =>
        [.. even.Concat(median.Board.Modes.Concat(median.Solid?.Modes ?? []).SelectMany(m => Flanks.Select(w => m.Frequency * (1 + w * m.Loss.Total.Value))).Where(f => f > even[0] && f < even[^1])).Distinct().Order()];

    private static SoundModeRow Mode(int i, SoundScatter scatter, Func<SoundingPair, BoardAcoustics> of) => new(
        i + 1,
        scatter.Positive(p => of(p).Modes[i].Frequency),
        scatter.Positive(p => Math.Abs(of(p).Modes[i].Volume)),
        scatter.Positive(p => of(p).Modes[i].Loss.Total.Value),
        [.. of(scatter.Median).Modes[i].Loss.Parts.Select(p => new LossRow(Name(p.Kind), p.Value.Value))]);

    private static ScatterRow Scatter(SoundScatter scatter, double low, double limit)
    {
        double Louder(SoundingPair p) => Mean(p, low, limit);
        double Higher(SoundingPair p) => p.Board.Modes[0].Frequency / p.Solid!.Modes[0].Frequency - 1;
        double level = Louder(scatter.Median), levelScatter = scatter.StandardDeviation(Louder), tone = Higher(scatter.Median), toneScatter = scatter.StandardDeviation(Higher);
        return new(level, levelScatter, tone, toneScatter,
            $"Level: {Beside(level, levelScatter)}. First tone: {Beside(tone, toneScatter)}");

        static string Beside(double difference, double scatter)
        {
            double ratio = Math.Abs(difference) / scatter;
            string times = string.Create(CultureInfo.InvariantCulture, $"the difference is {ratio:0.0} times its standard deviation among boards and solid tops built alike");
            return times + (ratio > Propagation.Z90 ? ", larger than the maker's own scatter" : ratio > 1 ? ", hardly larger than the maker's own scatter: two boards and two solid tops may well come out the other way round" : ", within the maker's own scatter: another pair may as well come out the other way round");
        }
    }

    private static BoxRow Box(BoardShape shape, double thickness, double depth, SoundScatter scatter)
    {
        double volume = Math.Abs(shape.Outline.SignedArea) * depth, hole = shape.Holes.Sum(h => Math.Abs(h.SignedArea));
        BoxCoupling Coupled(SoundingPair p) =>
            new BoxAir(volume, hole, thickness, p.Case.EndCorrection).With(p.Board.Modes[0].Frequency, p.Board.Modes[0].Volume);
        Prediction Of(Func<BoxCoupling, double> figure) => hole > 0 || figure(Coupled(scatter.Median)) > 0 ? scatter.Positive(p => figure(Coupled(p))) : new(0, 0, 0, 0, 0, []);
        return new(volume, Of(c => c.Helmholtz), Of(c => c.HoleShut), Of(c => c.Lower), Of(c => c.Upper));
    }

    private static string Name(LossKind kind) => kind switch
    {
        LossKind.WoodAlong => "wood along",
        LossKind.WoodAcross => "wood across",
        LossKind.WoodShear => "wood in shear",
        LossKind.Core => "core",
        LossKind.Film => "adhesive film",
        LossKind.Radiation => "sound",
        _ => "edge",
    };
}
