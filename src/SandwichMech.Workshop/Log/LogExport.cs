using System.Globalization;
using System.Text.Json;
using SandwichMech.Core.Building;
using SandwichMech.Core.Identification;

namespace SandwichMech.Workshop.Log;

/// <summary>A piece in an export.</summary>
/// <param name="Number">Its number.</param>
/// <param name="Kind">"wood", "core" or "sandwich".</param>
public sealed record ExportedPiece(int Number, string Kind);

/// <summary>An entry in an export.</summary>
/// <param name="Number">Its number.</param>
/// <param name="RecordedUtc">When it was written, as 2026-03-01T09:30:00.0000000Z.</param>
/// <param name="AtUtc">When what it says was read.</param>
/// <param name="Piece">The piece's number; nothing where it is of a board.</param>
/// <param name="Kind">"piece", "board", "stage", "prediction", "note", "attachment", "withdrawn", or the kind of its reading.</param>
/// <param name="AsTyped">What was typed.</param>
/// <param name="Corrects">Number of the entry that it replaces or withdraws.</param>
/// <param name="Text">What the piece is, where the entry says it.</param>
/// <param name="Reading">The reading, where it is one.</param>
/// <param name="Board">The board's number, where it is of a board.</param>
/// <param name="Start">What a build began with.</param>
/// <param name="Built">What was read at a stage of it.</param>
/// <param name="Given">What was predicted of it.</param>
/// <param name="Attached">A file attached to it; its bytes stay beside the log.</param>
public sealed record ExportedEntry(
    long Number, string RecordedUtc, string AtUtc, int? Piece, string Kind, string AsTyped, long? Corrects, PieceText? Text, Reading? Reading,
    int? Board = null, BuildStart? Start = null, BuildReading? Built = null, GivenPrediction? Given = null, AttachedFile? Attached = null);

/// <summary>All of a log as plain JSON.</summary>
/// <param name="Format">Always "sandwichmech log".</param>
/// <param name="Version">Version of the log's tables.</param>
/// <param name="Pieces">All pieces, withdrawn ones too.</param>
/// <param name="Entries">All entries, in the order of writing.</param>
/// <param name="Boards">Numbers of all boards, withdrawn ones too; nothing in an export of version 1.</param>
public sealed record LogExport(string Format, int Version, IReadOnlyList<ExportedPiece> Pieces, IReadOnlyList<ExportedEntry> Entries, IReadOnlyList<int>? Boards = null)
{
    private const string Ours = "sandwichmech log";

    /// <summary>All of a log.</summary>
    /// <param name="log">The log.</param>
    /// <returns>Indented JSON, the same for the same contents byte for byte.</returns>
    public static string Write(ShopLog log) => LogJson.Document(new LogExport(
        Ours,
        LogSchema.Version,
        [.. log.AllPieces().Select(p => new ExportedPiece(p.Number, p.Kind))],
        [.. log.All().Select(e => new ExportedEntry(e.Number, ShopLog.Time(e.Recorded), ShopLog.Time(e.At), e.Board is null ? e.Piece : null, e.Kind, e.AsTyped, e.Corrects, e.Text, e.Reading,
            e.Board, e.Start, e.Built, e.Given, e.Attached))],
        log.AllBoards())) + "\n";

    /// <summary>Puts an export into an empty log; all of it or nothing.</summary>
    /// <param name="json">The export.</param>
    /// <param name="where">The export's file, for messages.</param>
    /// <param name="log">A log without entries.</param>
    /// <returns>What was put there.</returns>
    /// <exception cref="InputException">It is no export, damaged or of a newer version, or the log is not empty.</exception>
    public static LogExport Restore(string json, string where, ShopLog log)
    {
        LogExport export = Read(json, where);
        log.Restore(
            export.Pieces.Select(p => (p.Number, p.Kind)),
            export.Boards ?? [],
            export.Entries.Select(e => new LogEntry(e.Number, Time(e.RecordedUtc), Time(e.AtUtc), e.Piece ?? 0, e.Kind, e.AsTyped, e.Corrects)
            {
                Text = e.Text,
                Reading = e.Reading,
                Board = e.Board,
                Start = e.Start,
                Built = e.Built,
                Given = e.Given,
                Attached = e.Attached,
            }));
        return export;
    }

    private static LogExport Read(string json, string where)
    {
        int? version = Head(json, where);
        if (version > LogSchema.Version)
        {
            throw new InputException(where, string.Create(CultureInfo.InvariantCulture, $"this export is of version {version}, made by a newer sandwichmech; this one knows {LogSchema.Version}: use the newer one"));
        }

        LogExport export;
        try
        {
            export = LogJson.Read<LogExport>(json);
        }
        catch (Exception e) when (e is JsonException or NotSupportedException)
        {
            throw Damaged(where, e is JsonException { Path: { } path } ? $"at {path}" : "");
        }

        var pieces = new HashSet<int>();
        foreach (ExportedPiece piece in export.Pieces)
        {
            if (piece.Number <= 0 || !pieces.Add(piece.Number) || piece.Kind is not ("wood" or "core" or "sandwich"))
            {
                throw Damaged(where, string.Create(CultureInfo.InvariantCulture, $"piece {piece.Number}"));
            }
        }

        var boards = new HashSet<int>();
        foreach (int board in export.Boards ?? [])
        {
            if (board <= 0 || !boards.Add(board)) { throw Damaged(where, string.Create(CultureInfo.InvariantCulture, $"board {board}")); }
        }

        var before = new Dictionary<long, ExportedEntry>();
        var corrected = new HashSet<long>();
        long last = 0;
        foreach (ExportedEntry entry in export.Entries)
        {
            bool fits = entry.Number > last && (entry.Board is { } b ? entry.Piece is null && boards.Contains(b) : entry.Piece is { } p && pieces.Contains(p)) && IsTime(entry.RecordedUtc) && IsTime(entry.AtUtc) && LogJson.IsWhole(entry.AsTyped)
                && (entry.Corrects is not { } wrong || (before.TryGetValue(wrong, out ExportedEntry? e) && e.Piece == entry.Piece && e.Board == entry.Board && corrected.Add(wrong)))
                && FitsKind(entry);
            if (!fits)
            {
                throw Damaged(where, string.Create(CultureInfo.InvariantCulture, $"entry {entry.Number}"));
            }

            last = entry.Number;
            before.Add(last, entry);
        }

        return export;
    }

    // What it holds is what its kind says, and nothing else.
    private static bool FitsKind(ExportedEntry e)
    {
        object?[] held = [e.Text, e.Reading, e.Start, e.Built, e.Given, e.Attached];
        string? kind = e.Text is not null ? EntryKind.Piece : e.Reading is { } r ? LogJson.KindOf(r) : e.Start is not null ? EntryKind.Board : e.Built is not null ? EntryKind.Stage
            : e.Given is not null ? EntryKind.Prediction : e.Attached is not null ? EntryKind.Attachment : null;
        return held.Count(h => h is not null) <= 1 && (kind is null ? e.Kind is EntryKind.Withdrawn || (e.Kind is EntryKind.Note or EntryKind.Decision && e.Board is not null) : e.Kind == kind)
            && (kind is null || (e.Board is null) == (e.Text is not null || e.Reading is not null));
    }

    /// <summary>The version, once the document is seen to be an export at all.</summary>
    private static int? Head(string json, string where)
    {
        try
        {
            using JsonDocument document = JsonDocument.Parse(json);
            return document.RootElement is { ValueKind: JsonValueKind.Object } root
                && root.TryGetProperty("format", out JsonElement format) && format.ValueKind == JsonValueKind.String && format.GetString() == Ours
                && root.TryGetProperty("version", out JsonElement version) && version.TryGetInt32(out int number)
                ? number
                : throw new InputException(where, "this is no export of a log: give a file that `sandwichmech log export` has written");
        }
        catch (JsonException)
        {
            throw new InputException(where, "this is no export of a log, or is damaged or cut short: give a whole file that `sandwichmech log export` has written");
        }
        catch (InvalidOperationException)
        {
            throw Damaged(where, "its head");
        }
    }

    private static InputException Damaged(string where, string place) =>
        new(where, $"this export is damaged{(place.Length > 0 ? $" ({place})" : "")}, and nothing was restored: give another export");

    private static bool IsTime(string text) => DateTimeOffset.TryParseExact(text, LogSchema.TimeFormat, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out _);

    private static DateTimeOffset Time(string text) =>
        DateTimeOffset.ParseExact(text, LogSchema.TimeFormat, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal);
}
