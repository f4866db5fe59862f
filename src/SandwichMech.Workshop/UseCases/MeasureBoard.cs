using System.Text.Json.Serialization;
using SandwichMech.Core.Identification;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Pieces;

namespace SandwichMech.Workshop.UseCases;

/// <summary>A mode of a board before and after its readings.</summary>
/// <param name="Number">From 1, by frequency.</param>
/// <param name="NodalLines">Along × across, where the shape has a plain count.</param>
/// <param name="Untapped">Frequency by file, tables, pieces and weight alone, Hz, with its 90 % interval.</param>
/// <param name="Found">By the taps too.</param>
/// <param name="Heard">The tone that was taken for it, Hz.</param>
public sealed record MeasuredMode(int Number, string? NodalLines, GiveOrTake Untapped, GiveOrTake Found, [property: JsonPropertyName("heard_hz")] double? Heard);

/// <summary>What `measure` answers of a board.</summary>
public sealed record MeasureBoardResult
{
    /// <summary>The board's name.</summary>
    public required string Board { get; init; }
    /// <summary>How the edge was held.</summary>
    public required string Edge { get; init; }
    /// <summary>How spreads were read, and what was taken without being typed.</summary>
    public required IReadOnlyList<string> ReadBack { get; init; }
    /// <summary>Its properties, before and after.</summary>
    public required IReadOnlyList<PropertyRow> Properties { get; init; }
    /// <summary>Its readings.</summary>
    public required IReadOnlyList<ReadingRow> Readings { get; init; }
    /// <summary>Other ways of taking tones for modes, likeliest first.</summary>
    public required IReadOnlyList<OtherWayRow> OtherWays { get; init; }
    /// <summary>How often the readings of such a board fit no better than these, 0 to 1.</summary>
    public required double Chance { get; init; }
    /// <summary>What to read next, most telling first.</summary>
    public required IReadOnlyList<NextRow> Next { get; init; }
    /// <summary>Its modes in air; none without tones.</summary>
    public required IReadOnlyList<MeasuredMode> Modes { get; init; }
    /// <summary>What was assumed, what is unusual.</summary>
    public required IReadOnlyList<string> Notes { get; init; }
}

/// <summary>Measures an assembled board on its own outline, lying free or in its frame: what its weight and taps say of it.</summary>
public static class MeasureBoard
{
    // A board's lowest mode lies lower than a blank's; above, a framed board radiates, which the modes do not hold.
    private const double Low = 20, High = 400;

    /// <summary>Measures.</summary>
    /// <param name="file">The board as read.</param>
    /// <param name="held">How the edge was held while it was tapped; as the file says, if nothing is given.</param>
    /// <param name="words">Its weight.</param>
    /// <param name="tests">Its tap tones.</param>
    /// <param name="recording">A WAV of taps, in the place of typed tones.</param>
    /// <returns>What the readings say.</returns>
    /// <exception cref="InputException">The board has no outline, there is no reading, or one cannot be meant.</exception>
    /// <exception cref="ComputationException">No board fits the readings.</exception>
    public static MeasureBoardResult Run(BoardFile file, EdgeHold? held, ReadingWords words, TestWords tests, string? recording = null)
    {
        BoardShape shape = OutlineSolving.ShapeOf(file, "taps of a board", "a rectangular blank is a piece: `piece add sandwich`");
        if (words != new ReadingWords { Weight = words.Weight } || tests.Bends.Count > 0)
        {
            throw new InputException("measure", "of a board its weight and its tap tones are taken (--weight, --tap): its sizes and thicknesses are the board file's");
        }

        if (words.Weight is null && tests.Taps is null && recording is null)
        {
            throw new InputException("measure", $"nothing was read off the board: --tap \"{TypedTests.TapForm}\" or --weight \"212.4 g\"");
        }

        if (recording is not null && tests.Taps is not null) { throw new InputException("measure", "tones come from --tap or from --recording, not from both: leave one out"); }
        ReadReadings weighed = TypedReadings.Read(PieceKind.Sandwich, words);
        (Reading[] taps, IReadOnlyList<string> heard) = recording is not null ? Heard(recording) : tests.Taps is { } typed ? Typed(TypedTests.Taps(typed)) : ([], []);
        // Lying on foam nothing holds the edge, on none of its stretches.
        Board board = held is { } hold ? file.Board with { Shape = shape with { Edge = hold, Stretches = hold == EdgeHold.Free ? [] : shape.Stretches } } : file.Board;
        var evidence = PieceEvidence.OfBoard(board, [.. weighed.Readings.Select(r => r.Reading), .. taps]);
        Identified found = OutlineSolving.Try(file, "modes", () => Identify.Run(evidence.Before, evidence.Observed, evidence.Candidates));
        return new()
        {
            Board = board.Name,
            Edge = OutlineSolving.EdgeWords(board.Shape!),
            ReadBack = [.. weighed.ReadBack, .. heard],
            Properties = [.. found.Properties.Select(FoundRows.Of)],
            Readings = [.. found.Readings.Select(FoundRows.Of)],
            OtherWays = [.. found.OtherWays.Select(FoundRows.Of)],
            Chance = found.Chance,
            Next = [.. found.Next.Select(FoundRows.Of)],
            Modes = [.. found.Modes.Select((m, i) => new MeasuredMode(
                i + 1, FoundRows.Lines(m.Mode.Lines), GiveOrTake.Of(m.Untapped), GiveOrTake.Of(new Estimate(m.Mode.Frequency, m.Spread)),
                found.Readings.FirstOrDefault(r => r.Mode == i)?.Observation.Value))],
            Notes =
            [
                .. file.Warnings.Select(w => w.ToString()), .. weighed.Warnings, .. FoundRows.Doubts(found, "board"),
                "stiffness is as a tap finds it, the woods of the table too; these readings are shown and not kept: of a board in the log, `log add BOARD STAGE \"tones ...\"` keeps them",
            ],
        };
    }

    private static (Reading[], IReadOnlyList<string>) Typed(TypedTest test) => ([test.Reading.Reading], test.ReadBack);

    private static (Reading[], IReadOnlyList<string>) Heard(string recording)
    {
        ListenAnswer answer = ListenRecording.Run(recording, Low, High);
        IReadOnlyList<Tone> tones = answer.Report.Tones();
        return tones.Count > 0
            ? ([new TapReading(tones)], [FormattableString.Invariant($"{answer.Result.Recording}: {tones.Count} tones of {answer.Result.Taps.Count} taps, {Low:0} to {answer.Result.High:0} Hz"), .. answer.Result.Findings])
            : throw new InputException(answer.Result.Recording, "no partial was heard in half of the taps: tap one place, in the same way each time");
    }
}
