using SandwichMech.Core.Building;
using SandwichMech.Core.Identification;

namespace SandwichMech.Workshop.Log;

/// <summary>One entry of the shop's log. It is never changed: a correction is a new entry that points at it.</summary>
/// <param name="Number">Its number, from 1, in the order of writing.</param>
/// <param name="Recorded">When it was written, UTC.</param>
/// <param name="At">When what it says was read off the piece, UTC; of a correction without a time of its own, the corrected entry's.</param>
/// <param name="Piece">Number of the piece; 0 where the entry is of a board.</param>
/// <param name="Kind">One of <see cref="EntryKind"/>, or the kind of its reading ("weight", "thickness").</param>
/// <param name="AsTyped">What the maker typed; of a withdrawal, why.</param>
/// <param name="Corrects">Number of the entry that this one replaces or withdraws.</param>
public sealed record LogEntry(long Number, DateTimeOffset Recorded, DateTimeOffset At, int Piece, string Kind, string AsTyped, long? Corrects)
{
    /// <summary>The reading, SI; nothing where the entry is no reading.</summary>
    public Reading? Reading { get; init; }
    /// <summary>What the piece is; nothing where the entry does not say that.</summary>
    public PieceText? Text { get; init; }
    /// <summary>Number of the board; nothing where the entry is of a piece.</summary>
    public int? Board { get; init; }
    /// <summary>What a build began with.</summary>
    public BuildStart? Start { get; init; }
    /// <summary>What was read at a stage of a build.</summary>
    public BuildReading? Built { get; init; }
    /// <summary>What was predicted of it.</summary>
    public GivenPrediction? Given { get; init; }
    /// <summary>A file that was attached to it.</summary>
    public AttachedFile? Attached { get; init; }
    /// <summary>Number of the later entry that replaces or withdraws this one; nothing while it is in force.</summary>
    public long? CorrectedBy { get; init; }
}

/// <summary>Kinds of entries that are no readings.</summary>
public static class EntryKind
{
    /// <summary>Says what a piece is.</summary>
    public const string Piece = "piece";
    /// <summary>Says what a build begins with.</summary>
    public const string Board = "board";
    /// <summary>Something read at a stage of a build.</summary>
    public const string Stage = "stage";
    /// <summary>A figure as it was predicted.</summary>
    public const string Prediction = "prediction";
    /// <summary>The maker's own words.</summary>
    public const string Note = "note";
    /// <summary>A field of the board file that was decided while the build went on, as typed: "inner.thickness 0.55 mm".</summary>
    public const string Decision = "decision";
    /// <summary>A file kept beside the log.</summary>
    public const string Attachment = "attachment";
    /// <summary>Takes back the entry that it points at.</summary>
    public const string Withdrawn = "withdrawn";
}

/// <summary>What is said of a piece and may be corrected later.</summary>
/// <param name="Material">Name of the wood or core in the tables; of a sandwich, its core's.</param>
/// <param name="Name">The maker's own words, may be empty.</param>
/// <param name="OuterWood">Wood of a sandwich's outer skin.</param>
/// <param name="InnerWood">Wood of a sandwich's inner skin.</param>
/// <param name="Adhesive">Adhesive of a sandwich.</param>
public sealed record PieceText(string Material, string Name, string? OuterWood = null, string? InnerWood = null, string? Adhesive = null);

/// <summary>A reading and the words that it was typed in.</summary>
/// <param name="Reading">SI.</param>
/// <param name="AsTyped">As typed.</param>
public sealed record TypedReading(Reading Reading, string AsTyped);

/// <summary>A file that is kept beside the log under the hash of what it holds.</summary>
/// <param name="Name">Its own name.</param>
/// <param name="Bytes">Its length.</param>
/// <param name="Sha256">Hash of its bytes, hexadecimal.</param>
public sealed record AttachedFile(string Name, long Bytes, string Sha256);

/// <summary>A board of the log.</summary>
/// <param name="Number">Its number.</param>
/// <param name="Start">What it began with.</param>
/// <param name="At">When.</param>
public sealed record LoggedBoard(int Number, BuildStart Start, DateTimeOffset At);

/// <summary>How much was read at a stage.</summary>
/// <param name="Stage">When.</param>
/// <param name="Readings">How many readings of it are in force.</param>
internal sealed record StageCount(BuildStage Stage, int Readings);

/// <summary>Something read at a stage, and the words that it was typed in.</summary>
/// <param name="Reading">SI.</param>
/// <param name="AsTyped">As typed.</param>
public sealed record TypedBuildReading(BuildReading Reading, string AsTyped);
