using System.Text.Json.Serialization;
using SandwichMech.Core.Acoustics;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Predictions;
using SandwichMech.Core.Taps;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Recordings;

namespace SandwichMech.Workshop.UseCases;

/// <summary>A layup as bending waves find it.</summary>
/// <param name="Layup">"board" or "solid top".</param>
/// <param name="RadiationAlong">√(12 D/m³), the radiation ratio of a solid plate's material.</param>
/// <param name="RadiationAcross">Across.</param>
/// <param name="CriticalAlong">Where waves along pass the speed of sound; nothing where shear keeps them slower.</param>
/// <param name="CriticalAcross">Across.</param>
public sealed record WaveRow(
    string Layup,
    [property: JsonPropertyName("radiation_ratio_along_m4_per_kg_s")] double RadiationAlong,
    [property: JsonPropertyName("radiation_ratio_across_m4_per_kg_s")] double RadiationAcross,
    [property: JsonPropertyName("critical_frequency_along_hz")] double? CriticalAlong,
    [property: JsonPropertyName("critical_frequency_across_hz")] double? CriticalAcross);

/// <summary>Part of a mode's loss factor.</summary>
public sealed record LossRow(string Kind, double LossFactor);

/// <summary>A mode as it sounds.</summary>
/// <param name="Number">From 1.</param>
/// <param name="Frequency">Hz, in air.</param>
/// <param name="Volume">What it moves at unit modal mass.</param>
/// <param name="LossFactor">One over Q.</param>
/// <param name="LossLow90">Low end of its 90 % interval.</param>
/// <param name="LossHigh90">High end.</param>
/// <param name="Losses">By kind.</param>
public sealed record SoundModeRow(
    int Number,
    [property: JsonPropertyName("frequency_hz")] double Frequency,
    [property: JsonPropertyName("volume_m2_per_sqrt_kg")] double Volume,
    double LossFactor,
    double LossLow90,
    double LossHigh90,
    IReadOnlyList<LossRow> Losses);

/// <summary>One board on the frame.</summary>
/// <param name="Name">"board" or "solid top".</param>
/// <param name="SteadyVolume">That a newton at the bridge pushes aside, m³/N.</param>
/// <param name="Modes">Lowest first.</param>
public sealed record SoundingRow(string Name, [property: JsonPropertyName("steady_volume_m3_per_n")] double SteadyVolume, IReadOnlyList<SoundModeRow> Modes);

/// <summary>How much louder the board is than the solid top over a band, for the same force.</summary>
public sealed record LevelRow([property: JsonPropertyName("low_hz")] double Low, [property: JsonPropertyName("high_hz")] double High, [property: JsonPropertyName("level_db")] double Level);

/// <summary>First mode and air of a box.</summary>
/// <param name="Volume">Of the box, m³: outline times depth.</param>
/// <param name="Helmholtz">Air and hole with a rigid top, Hz; 0 without a hole.</param>
/// <param name="HoleShut">The top on the box's air, hole shut, Hz.</param>
/// <param name="Lower">Both together, the lower, Hz.</param>
/// <param name="Upper">The upper, Hz.</param>
public sealed record BoxRow(
    [property: JsonPropertyName("volume_m3")] double Volume,
    [property: JsonPropertyName("helmholtz_hz")] double Helmholtz,
    [property: JsonPropertyName("hole_shut_hz")] double HoleShut,
    [property: JsonPropertyName("lower_hz")] double Lower,
    [property: JsonPropertyName("upper_hz")] double Upper);

/// <summary>What `sound` answers.</summary>
public sealed record SoundResult
{
    /// <summary>The board's name.</summary>
    public required string Board { get; init; }
    /// <summary>How the edge is held.</summary>
    public required string Edge { get; init; }
    /// <summary>What is in the figures and what is judgement.</summary>
    public required string Means { get; init; }
    /// <summary>What they say nothing about.</summary>
    public required string CannotTell { get; init; }
    /// <summary>Up to where volume velocity alone says how loud a board is, Hz.</summary>
    [JsonPropertyName("volume_velocity_limit_hz")] public required double Limit { get; init; }
    /// <summary>Thickness of the solid top, m; nothing where the board file gives none.</summary>
    [JsonPropertyName("solid_thickness_m")] public required double? SolidThickness { get; init; }
    /// <summary>Layups: the board, and the solid top where there is one.</summary>
    public required IReadOnlyList<WaveRow> Layups { get; init; }
    /// <summary>The same on the frame.</summary>
    public required IReadOnlyList<SoundingRow> Boards { get; init; }
    /// <summary>Levels above the solid top; empty without one.</summary>
    public required IReadOnlyList<LevelRow> Levels { get; init; }
    /// <summary>With a box, where its depth is given.</summary>
    public required BoxRow? Box { get; init; }
    /// <summary>What is unusual in the board file.</summary>
    public required IReadOnlyList<string> Warnings { get; init; }
    /// <summary>How typed spreads were read.</summary>
    public required IReadOnlyList<string> ReadBack { get; init; }
}

/// <summary>The result and the sounds.</summary>
/// <param name="Result">What is shown and written as JSON.</param>
/// <param name="Tap">WAV of a tap on the bridge.</param>
/// <param name="Note">WAV of a plucked note.</param>
public sealed record SoundAnswer(SoundResult Result, byte[] Tap, byte[] Note);

/// <summary>What a board that is held does with the force of strings.</summary>
public static class SoundBoard
{
    // Fewer would not reach the limit of what volume velocity tells.
    private const int LeastModes = 8;
    private const double Accuracy = 2e-3, From = 60, Seconds = 3;

    // A nylon string of an invented guitar at the pitch that is asked for; weight and pluck are judgement.
    private const double StringLength = 0.65, StringDensity = 9e-4, PluckedAt = 0.2, PluckedBy = 2e-3, StringLoss = 1e-3;

    /// <summary>The plucked note unless another is wanted, Hz.</summary>
    public const double UsualNote = 196;

    /// <summary>Solves.</summary>
    /// <param name="file">The board as read.</param>
    /// <param name="count">Modes shown, 1 to 30.</param>
    /// <param name="edge">How the edge is held; nothing: as the board file says, a rim where that is free.</param>
    /// <param name="depth">Mean depth of a box, m; nothing without one.</param>
    /// <param name="note">Of the plucked string, Hz.</param>
    /// <returns>Figures and sounds.</returns>
    /// <exception cref="InputException">The board has no outline or no bridge, or cannot be meshed.</exception>
    public static SoundAnswer Run(BoardFile file, int count, EdgeHold? edge = null, double? depth = null, double note = UsualNote)
    {
        BoardShape drawn = OutlineSolving.ShapeOf(file, "sounds", "`sandwichmech estimate` gives stiffness and mass without it");
        BoardShape shape = drawn with { Edge = edge ?? (drawn.Edge == EdgeHold.Free ? EdgeHold.Rim : drawn.Edge) };
        Board board = file.Board.ForModes() with { Shape = shape };
        PlateAction bridge = OutlineSolving.Bridge(shape) is { } foot
            ? new(PlatePush.Deflect, foot.Border[0])
            : throw new InputException(file.Path, $"sounds need the place where the strings push: add [{BoardFields.BridgePatchAlong.Table.Name}] with along, across and at, or a bridge");
        OutlineFrame frame = OutlineSolving.Try(file, "modes", () => OutlineFrame.For(board, Math.Max(count, LeastModes), Accuracy));
        BoardAcoustics own = BoardAcoustics.Of(board, frame, bridge);
        double? thickness = board.Solid.Thickness?.Value;
        BoardAcoustics? solid = thickness is { } h ? BoardAcoustics.OfSolid(board, h, frame, bridge) : null;
        double limit = Radiation.MonopoleLimit(own.Area);
        SoundResult result = new()
        {
            Board = board.Name,
            Edge = OutlineSolving.EdgeWords(shape),
            Means = FormattableString.Invariant($"Modes in air in a baffle, with the losses of wood by the tables; of core ({PlyLoss.OfCore.Shear.Value}), adhesive film ({PlyLoss.OfFilm.Shear.Value}) and edge ({ModalLoss.HeldEdge.Value}) by judgement, a factor of two either way; of sound from the outer face. ")
                + $"Levels are for one force at the bridge and compare the air that is pushed, which tells loudness below some {limit:F0} Hz only",
            CannotTell = "They tell where a board answers, how long, and how much air it moves beside another in the same frame. They do not tell tone: strings' attack, upper partials, the box beyond its first two tones, the room and the ear are not in them, "
                + "and neither is how these boards were really built. The sounds let modes be heard; they are no recordings",
            Limit = limit,
            SolidThickness = thickness,
            Layups = [Wave("board", board.Laminate()), .. thickness is { } t ? [Wave("solid top", Board.SolidPlate(board.Solid.Wood, t))] : (WaveRow[])[]],
            Boards = [Row("board", own), .. solid is null ? [] : (SoundingRow[])[Row("solid top", solid)]],
            Levels = solid is null ? [] : [Level(From, limit), .. Beyond(solid) is var high && high > limit ? [Level(limit, high)] : (LevelRow[])[]],
            Box = depth is { } d ? Box(shape, board.Laminate().Thickness, d, own.Modes[0]) : null,
            Warnings = [.. file.Warnings.Select(w => w.ToString())],
            ReadBack = file.ReadBack,
        };
        double highest = own.Modes[^1].Frequency;
        return new(result, Wav(BoardSound.Tap(0.02, 1.5e-3, Seconds, start: 0.3)),
            Wav(new PluckedString(note, StringLength, StringDensity, PluckedAt, PluckedBy, StringLoss).On(own.Mobility, Seconds, highest)));

        // Not beyond the modes that both have.
        double Beyond(BoardAcoustics other) => Math.Min(2 * limit, 0.9 * Math.Min(own.Modes[^1].Frequency, other.Modes[^1].Frequency));
        LevelRow Level(double low, double high) => new(low, high, RelativeLevel.Of(own.Volume, solid!.Volume, low, high).Mean);
        SoundingRow Row(string name, BoardAcoustics a) => new(name, Math.Abs(a.Volume.Steady), [.. a.Modes.Take(count).Select((m, i) => Mode(i + 1, m))]);
        byte[] Wav(double[] force) => WavContent.Of(new Recording(BoardSound.UsualRate, BoardSound.Pressure(own.Volume, force)));
    }

    private static WaveRow Wave(string name, Laminate l) => new(
        name, RadiationRatio.Along(l), RadiationRatio.Across(l), BendingWave.Along(l).Critical(), BendingWave.Across(l).Critical());

    private static SoundModeRow Mode(int number, SoundingMode m)
    {
        var loss = GiveOrTake.Of(m.Loss.Total);
        return new(number, m.Frequency, Math.Abs(m.Volume), loss.Value, loss.Low90, loss.High90, [.. m.Loss.Parts.Select(p => new LossRow(Name(p.Kind), p.Value.Value))]);
    }

    private static BoxRow Box(BoardShape shape, double thickness, double depth, SoundingMode first)
    {
        var box = new BoxAir(Math.Abs(shape.Outline.SignedArea) * depth, shape.Holes.Sum(h => Math.Abs(h.SignedArea)), thickness);
        BoxCoupling pair = box.With(first.Frequency, first.Volume);
        return new(box.Volume, pair.Helmholtz, pair.HoleShut, pair.Lower, pair.Upper);
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
