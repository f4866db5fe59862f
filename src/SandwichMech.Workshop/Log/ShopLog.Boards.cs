using System.Globalization;
using System.Security.Cryptography;
using Microsoft.Data.Sqlite;
using SandwichMech.Core.Building;

namespace SandwichMech.Workshop.Log;

/// <summary>Boards: what each build began with, what was read at its stages, and what was said of it.</summary>
public sealed partial class ShopLog
{
    /// <summary>Begins a build.</summary>
    /// <param name="start">What it begins with.</param>
    /// <param name="at">When; now if nothing is given.</param>
    /// <returns>The board with its number.</returns>
    public LoggedBoard StartBoard(BuildStart start, DateTimeOffset? at = null) => Writing(transaction =>
    {
        int number = (int)(long)Scalar(transaction, "SELECT coalesce(max(number), 0) + 1 FROM boards");
        Insert(transaction, "INSERT INTO boards (number) VALUES ($number)", ("$number", number));
        LogEntry entry = Append(transaction, 0, EntryKind.Board, LogJson.Payload(start), "", at, null, number);
        return new LoggedBoard(number, start, entry.At);
    });

    /// <summary>All boards but withdrawn ones, by number.</summary>
    public IReadOnlyList<LoggedBoard> Boards() => Reading(
        $"{Columns} WHERE e.kind = 'board' AND c.number IS NULL ORDER BY e.board", Begun);

    /// <summary>The newest boards but withdrawn ones, by number.</summary>
    /// <param name="most">How many at most.</param>
    public IReadOnlyList<LoggedBoard> NewestBoards(int most) =>
        [.. Reading($"{Columns} WHERE e.kind = 'board' AND c.number IS NULL ORDER BY e.board DESC LIMIT $most", Begun, null, ("$most", most)).Reverse()];

    /// <summary>How many boards there are but withdrawn ones.</summary>
    public int CountBoards() => Reading($"SELECT count(*) {InForceStarts}", row => row.GetInt32(0)) is [var count] ? count : 0;

    /// <summary>Readings in force of a board, counted by stage.</summary>
    /// <param name="number">Its number.</param>
    internal IReadOnlyList<StageCount> CountStages(int number) => Reading(
        "SELECT json_extract(e.payload, '$.stage'), count(*) FROM entries e LEFT JOIN entries c ON c.corrects = e.number WHERE e.board = $board AND e.kind = 'stage' AND c.number IS NULL GROUP BY 1",
        row => new StageCount(LogJson.StageOf(row.GetString(0)), row.GetInt32(1)), null, ("$board", number));

    /// <summary>One board.</summary>
    /// <param name="number">Its number.</param>
    /// <exception cref="InputException">There is none of that number; the nearest are named.</exception>
    public LoggedBoard Board(int number)
    {
        if (Reading($"{Columns} WHERE e.board = $board AND e.kind = 'board' AND c.number IS NULL", Entry, null, ("$board", number)) is [.., var found]) { return new(number, found.Start!, found.At); }
        int count = CountBoards();
        string near = string.Join(", ", Nearest(number).Select(b => string.Create(CultureInfo.InvariantCulture, $"{b.Number} ({b.Start.Name})")));
        throw new InputException("board", string.Create(CultureInfo.InvariantCulture, $"there is no board {number} in the log; {(count == 0 ? "it holds none yet: `sandwichmech log start BOARD.toml` begins one" : $"there {(count == 1 ? "is" : "are")} {near}{(count > NearBoards ? " and more" : "")}")}"));
    }

    /// <summary>All entries of a board, corrected and withdrawn ones too.</summary>
    /// <param name="number">Its number.</param>
    /// <returns>In the order of writing.</returns>
    public IReadOnlyList<LogEntry> BoardEntries(int number) => Reading($"{Columns} WHERE e.board = $board ORDER BY e.number", Entry, null, ("$board", number));

    /// <summary>Readings of a board that are in force, in the order in which they were read.</summary>
    /// <param name="number">Its number.</param>
    public IReadOnlyList<LogEntry> BuildReadings(int number) => InForceReadings(BoardEntries(number));

    /// <summary>Of a board's entries the readings that are in force, in the order in which they were read.</summary>
    internal static IReadOnlyList<LogEntry> InForceReadings(IEnumerable<LogEntry> entries) =>
        [.. entries.Where(e => e.Built is not null && e.CorrectedBy is null).OrderBy(e => e.Built!.Stage).ThenBy(e => e.At).ThenBy(e => e.Number)];

    /// <summary>Adds what was read at stages of a build: all of it or nothing.</summary>
    /// <param name="number">The board's number.</param>
    /// <param name="readings">The readings.</param>
    /// <param name="at">When; now if nothing is given.</param>
    /// <returns>The entries.</returns>
    /// <exception cref="InputException">There is no such board, or one was read there already.</exception>
    public IReadOnlyList<LogEntry> AddBuild(int number, IReadOnlyList<TypedBuildReading> readings, DateTimeOffset? at = null)
    {
        _ = Board(number);
        return Writing<IReadOnlyList<LogEntry>>(transaction =>
        {
            var known = Entries(number, transaction).Where(e => e.Built is not null && e.CorrectedBy is null).ToList();
            var added = new List<LogEntry>();
            foreach (TypedBuildReading r in readings)
            {
                if (known.Concat(added).FirstOrDefault(e => e.Built!.Stage == r.Reading.Stage && e.Built.Quantity == r.Reading.Quantity) is { } twice)
                {
                    throw new InputException(string.Create(CultureInfo.InvariantCulture, $"board {number}"), string.Create(CultureInfo.InvariantCulture,
                        $"'{r.AsTyped}' was read at this stage already (entry {twice.Number}, '{twice.AsTyped}'), and nothing was written: `sandwichmech log correct {number} {twice.Number} \"{r.AsTyped}\"` puts it right"));
                }

                added.Add(Append(transaction, 0, EntryKind.Stage, LogJson.Payload(r.Reading), r.AsTyped, at, null, number) with { Built = r.Reading });
            }

            return added;
        });
    }

    /// <summary>Puts a reading right: the old entry stays and is marked.</summary>
    /// <param name="number">The board's number.</param>
    /// <param name="entry">The entry that was wrong.</param>
    /// <param name="reading">What it should have been, of the same stage and quantity.</param>
    /// <returns>The new entry.</returns>
    public LogEntry CorrectBuild(int number, long entry, TypedBuildReading reading) => Writing(transaction =>
    {
        LogEntry wrong = InForce([.. Entries(number, transaction)], string.Create(CultureInfo.InvariantCulture, $"board {number}"), entry, EntryKind.Stage);
        return wrong.Built is { } b && b.Stage == reading.Reading.Stage && b.Quantity == reading.Reading.Quantity
            ? Append(transaction, 0, EntryKind.Stage, LogJson.Payload(reading.Reading), reading.AsTyped, wrong.At, entry, number) with { Built = reading.Reading }
            : throw new InputException(string.Create(CultureInfo.InvariantCulture, $"board {number}"), $"'{reading.AsTyped}' says something else than entry {entry} ('{wrong.AsTyped}'): withdraw that one, and add this");
    });

    /// <summary>Takes an entry of a board back; the entry that began it takes the board with it.</summary>
    /// <param name="number">The board's number.</param>
    /// <param name="entry">The entry.</param>
    /// <param name="why">Why, may be empty.</param>
    /// <returns>The entry that withdraws it.</returns>
    public LogEntry WithdrawOfBoard(int number, long entry, string why = "")
    {
        _ = Board(number);
        return Writing(transaction =>
        {
            InForce([.. Entries(number, transaction)], string.Create(CultureInfo.InvariantCulture, $"board {number}"), entry, null);
            return Append(transaction, 0, EntryKind.Withdrawn, "{}", why, null, entry, number);
        });
    }

    /// <summary>Keeps figures as they were predicted.</summary>
    /// <param name="number">The board's number.</param>
    /// <param name="given">The figures.</param>
    public void AddPredictions(int number, IReadOnlyList<GivenPrediction> given) => Writing(transaction =>
    {
        foreach (GivenPrediction g in given) { Append(transaction, 0, EntryKind.Prediction, LogJson.Payload(g), "", null, null, number); }
        return true;
    });

    /// <summary>Keeps the maker's own words.</summary>
    /// <param name="number">The board's number.</param>
    /// <param name="text">The words.</param>
    /// <returns>The entry.</returns>
    public LogEntry AddNote(int number, string text)
    {
        _ = Board(number);
        return Writing(transaction => Append(transaction, 0, EntryKind.Note, "{}", text, null, null, number));
    }

    /// <summary>Keeps what was decided: all of it or nothing.</summary>
    /// <param name="number">The board's number.</param>
    /// <param name="fields">Each as "inner.thickness 0.55 mm".</param>
    /// <returns>The entries.</returns>
    public IReadOnlyList<LogEntry> AddDecisions(int number, IReadOnlyList<string> fields) =>
        Writing<IReadOnlyList<LogEntry>>(transaction => [.. fields.Select(f => Append(transaction, 0, EntryKind.Decision, "{}", f, null, null, number))]);

    /// <summary>Keeps a file, as a recording, beside the log under the hash of what it holds.</summary>
    /// <param name="number">The board's number.</param>
    /// <param name="path">The file.</param>
    /// <returns>The entry.</returns>
    /// <exception cref="InputException">There is no such board or file.</exception>
    public LogEntry Attach(int number, string path)
    {
        _ = Board(number);
        byte[] bytes = GivenFile.Bytes(path, "file", LargestAttachment);
        if (bytes.Length > LargestAttachment) { throw new InputException(path, "is larger than 200 MB: keep it elsewhere, and note where"); }
        string hash = Convert.ToHexStringLower(SHA256.HashData(bytes)), kept = AttachmentPath(hash);
        if (!System.IO.File.Exists(kept))
        {
            Directory.CreateDirectory(Path.GetDirectoryName(kept)!);
            WholeFile.Write(kept, bytes, "file");
        }

        var attached = new AttachedFile(Path.GetFileName(path), bytes.Length, hash);
        return Writing(transaction => Append(transaction, 0, EntryKind.Attachment, LogJson.Payload(attached), "", null, null, number) with { Attached = attached });
    }

    /// <summary>Folder of the files that are attached to boards.</summary>
    internal string FilesFolder => $"{File}.files";

    /// <summary>Where a kept file lies.</summary>
    internal string AttachmentPath(string hash) => Path.Combine(FilesFolder, hash);

    /// <summary>Entries that attached a file, withdrawn ones too.</summary>
    internal IReadOnlyList<LogEntry> Attachments() => Reading($"{Columns} WHERE e.kind = 'attachment' ORDER BY e.number", Entry);

    /// <summary>Numbers of all boards, withdrawn ones too.</summary>
    internal IReadOnlyList<int> AllBoards() => Reading("SELECT number FROM boards ORDER BY number", row => row.GetInt32(0));

    /// <summary>Boards in force of which adhesive was weighed, the newest first.</summary>
    /// <param name="most">How many at most.</param>
    /// <param name="but">A board that is left out.</param>
    internal IReadOnlyList<int> BoardsWithMixed(int most, int? but) => Reading(
        $"""
        SELECT DISTINCT m.board FROM entries m WHERE m.kind = 'stage' AND m.payload LIKE '%"adhesive_mixed"%' AND m.board <> $but
        AND EXISTS (SELECT 1 {InForceStarts} AND e.board = m.board) ORDER BY m.board DESC LIMIT $most
        """, row => row.GetInt32(0), null, ("$but", but ?? 0), ("$most", most));

    /// <summary>First column of each row of a question to the database itself.</summary>
    internal IReadOnlyList<string> Ask(string sql) => Reading(sql, row => row.GetValue(0)?.ToString() ?? "");

    private const int LargestAttachment = 200_000_000, NearBoards = 5;
    private const string InForceStarts = "FROM entries e LEFT JOIN entries c ON c.corrects = e.number WHERE e.kind = 'board' AND c.number IS NULL";

    private LoggedBoard Begun(SqliteDataReader row) => Entry(row) is var e ? new(e.Board!.Value, e.Start!, e.At) : null!;

    private IReadOnlyList<LoggedBoard> Nearest(int number) => Reading(
        $"{Columns} WHERE e.number IN (SELECT e.number {InForceStarts} ORDER BY abs(e.board - $board) LIMIT {NearBoards}) ORDER BY e.board", Begun, null, ("$board", number));

    private IReadOnlyList<LogEntry> Entries(int board, SqliteTransaction transaction) => Reading($"{Columns} WHERE e.board = $board ORDER BY e.number", Entry, transaction, ("$board", board));

    private static string PayloadOf(LogEntry e) => e.Reading is { } reading ? LogJson.Payload(reading)
        : e.Text is { } text ? LogJson.Payload(text)
        : e.Start is { } start ? LogJson.Payload(start)
        : e.Built is { } built ? LogJson.Payload(built)
        : e.Given is { } given ? LogJson.Payload(given)
        : e.Attached is { } attached ? LogJson.Payload(attached)
        : "{}";
}
