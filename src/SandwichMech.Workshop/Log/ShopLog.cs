using System.Globalization;
using System.Text.Json;
using Microsoft.Data.Sqlite;
using SandwichMech.Core.Building;
using SandwichMech.Core.Identification;

namespace SandwichMech.Workshop.Log;

/// <summary>The shop's log: pieces and what was read off them, in one file, only ever added to.</summary>
/// <remarks>
/// What a method has returned is on the disk, whatever happens to the program afterwards. Several programs may use one log
/// at a time. A log that is not there yet reads as empty; the first entry makes it.
/// </remarks>
public sealed partial class ShopLog : IDisposable
{
    private const string Columns = "SELECT e.number, e.recorded_utc, e.at_utc, e.piece, e.kind, e.payload, e.as_typed, e.corrects, c.number, e.board, e.sum FROM entries e LEFT JOIN entries c ON c.corrects = e.number";
    private readonly TimeProvider _clock;
    private SqliteConnection? _connection;
    private DateTimeOffset _now;

    private ShopLog(string path, TimeProvider clock) => (File, _clock) = (path, clock);

    /// <summary>Full path of the log.</summary>
    public string File { get; }

    /// <summary>What is to be said about the place where it lies.</summary>
    public IReadOnlyList<string> Warnings => LogPlace.Warnings(File);

    /// <summary>Opens the log.</summary>
    /// <param name="path">A file; with nothing, the one that SANDWICHMECH_LOG names, or the one in the user's data folder.</param>
    /// <param name="clock">The clock; the system's if nothing is given.</param>
    /// <returns>The log, to be closed by its user.</returns>
    /// <exception cref="InputException">The file is no log, damaged, of a newer version, or on a network share.</exception>
    public static ShopLog Open(string? path, TimeProvider? clock = null)
    {
        var log = new ShopLog(LogPlace.Of(path), clock ?? TimeProvider.System);
        _ = log.Existing();
        return log;
    }

    /// <summary>Adds a piece, with its first readings where there are any: all of it or nothing.</summary>
    /// <param name="kind">What it is.</param>
    /// <param name="material">Name of the wood or core in the tables; of a sandwich, its core's.</param>
    /// <param name="name">The maker's own words, may be empty.</param>
    /// <param name="outerWood">Wood of a sandwich's outer skin.</param>
    /// <param name="innerWood">Wood of a sandwich's inner skin.</param>
    /// <param name="adhesive">Adhesive of a sandwich.</param>
    /// <param name="readings">First readings.</param>
    /// <param name="at">When they were read; now if nothing is given.</param>
    /// <returns>The piece with its number.</returns>
    public Piece AddPiece(
        PieceKind kind, string material, string name, string? outerWood = null, string? innerWood = null, string? adhesive = null,
        IReadOnlyList<TypedReading>? readings = null, DateTimeOffset? at = null)
    {
        var text = new PieceText(material, name, outerWood, innerWood, adhesive);
        return Writing(transaction =>
        {
            int number = (int)(long)Scalar(transaction, "SELECT coalesce(max(number), 0) + 1 FROM pieces");
            Insert(transaction, "INSERT INTO pieces (number, kind) VALUES ($number, $kind)", ("$number", number), ("$kind", Word(kind)));
            Append(transaction, number, EntryKind.Piece, LogJson.Payload(text), "", at, null);
            foreach (TypedReading first in readings ?? [])
            {
                Append(transaction, number, LogJson.KindOf(first.Reading), LogJson.Payload(first.Reading), first.AsTyped, at, null);
            }

            return Of(number, kind, text);
        });
    }

    /// <summary>All pieces but withdrawn ones, by number.</summary>
    /// <returns>The pieces.</returns>
    public IReadOnlyList<Piece> Pieces() => Reading(
        $"SELECT p.number, p.kind, f.payload, f.number FROM pieces p JOIN ({Columns} WHERE c.number IS NULL AND e.kind = 'piece') f ON f.piece = p.number ORDER BY p.number",
        row => Of(row.GetInt32(0), KindOf(row.GetString(1)), Payload<PieceText>(row.GetString(2), row.GetInt64(3))));

    /// <summary>One piece.</summary>
    /// <param name="number">Its number.</param>
    /// <returns>The piece.</returns>
    /// <exception cref="InputException">There is none of that number, or it was withdrawn.</exception>
    public Piece Piece(int number)
    {
        IReadOnlyList<Piece> all = Pieces();
        return all.FirstOrDefault(p => p.Number == number) ?? throw new InputException("piece", NoPiece(number, all));
    }

    /// <summary>Adds a reading of a piece.</summary>
    /// <param name="piece">The piece's number.</param>
    /// <param name="reading">The reading.</param>
    /// <param name="asTyped">What the maker typed.</param>
    /// <param name="at">When it was read; with nothing, now, or when the corrected one was.</param>
    /// <param name="corrects">Number of the entry that it replaces, of the same piece and kind and in force.</param>
    /// <returns>The entry.</returns>
    /// <exception cref="InputException">There is no such piece, or no such entry to correct.</exception>
    public LogEntry AddReading(int piece, Reading reading, string asTyped, DateTimeOffset? at = null, long? corrects = null)
    {
        _ = Piece(piece);
        string kind = LogJson.KindOf(reading);
        return Writing(transaction =>
        {
            LogEntry? wrong = corrects is { } number ? InForce(transaction, piece, number, kind) : null;
            return Append(transaction, piece, kind, LogJson.Payload(reading), asTyped, at ?? wrong?.At, corrects) with { Reading = reading };
        });
    }

    /// <summary>Adds readings of a piece: all of them or none.</summary>
    /// <param name="piece">The piece's number.</param>
    /// <param name="readings">The readings.</param>
    /// <param name="at">When they were read; now if nothing is given.</param>
    /// <returns>The entries.</returns>
    /// <exception cref="InputException">There is no such piece.</exception>
    public IReadOnlyList<LogEntry> AddReadings(int piece, IReadOnlyList<TypedReading> readings, DateTimeOffset? at = null)
    {
        _ = Piece(piece);
        return Writing<IReadOnlyList<LogEntry>>(transaction =>
            [.. readings.Select(r => Append(transaction, piece, LogJson.KindOf(r.Reading), LogJson.Payload(r.Reading), r.AsTyped, at, null) with { Reading = r.Reading })]);
    }

    /// <summary>Says anew what a piece is.</summary>
    /// <param name="piece">The piece with its number and kind, which stay, and all else as it should be.</param>
    /// <param name="why">Why, may be empty.</param>
    /// <returns>The entry, which corrects the last one that said it.</returns>
    /// <exception cref="InputException">There is no such piece.</exception>
    public LogEntry Describe(Piece piece, string why = "")
    {
        _ = Piece(piece.Number);
        var text = new PieceText(piece.Material, piece.Name, piece.OuterWood, piece.InnerWood, piece.Adhesive);
        return Writing(transaction =>
        {
            LogEntry wrong = History(piece.Number, transaction).Last(e => e.Text is not null);
            return Append(transaction, piece.Number, EntryKind.Piece, LogJson.Payload(text), why, wrong.At, wrong.Number) with { Text = text };
        });
    }

    /// <summary>Takes an entry back; the entry that says what the piece is takes the piece with it.</summary>
    /// <param name="piece">The piece's number.</param>
    /// <param name="entry">The entry's number.</param>
    /// <param name="why">Why, may be empty.</param>
    /// <returns>The entry that withdraws it.</returns>
    /// <exception cref="InputException">There is no such entry in force.</exception>
    public LogEntry Withdraw(int piece, long entry, string why = "")
    {
        _ = Piece(piece);
        return Writing(transaction =>
        {
            InForce(transaction, piece, entry, null);
            return Append(transaction, piece, EntryKind.Withdrawn, "{}", why, null, entry);
        });
    }

    /// <summary>The readings of a piece that are in force: corrected ones replaced, withdrawn ones left out.</summary>
    /// <param name="piece">The piece's number.</param>
    /// <returns>Entries with a <see cref="LogEntry.Reading"/>, in the order of writing.</returns>
    /// <exception cref="InputException">There is no such piece.</exception>
    public IReadOnlyList<LogEntry> Readings(int piece)
    {
        _ = Piece(piece);
        return [.. History(piece).Where(e => e.Reading is not null && e.CorrectedBy is null)];
    }

    /// <summary>All entries of a piece, corrected and withdrawn ones too.</summary>
    /// <param name="piece">The piece's number.</param>
    /// <returns>Entries in the order of writing; none where there is no such piece.</returns>
    public IReadOnlyList<LogEntry> History(int piece) => History(piece, null);

    /// <summary>Number of entries in the log.</summary>
    /// <returns>Entries of all pieces, corrected and withdrawn ones too.</returns>
    public long Entries() => Reading("SELECT count(*) FROM entries", row => row.GetInt64(0)) is [var count] ? count : 0;

    /// <summary>Closes the file.</summary>
    public void Dispose() => _connection?.Dispose();

    /// <summary>Every entry in turn, without holding them all.</summary>
    /// <param name="one">What is done with it.</param>
    /// <param name="unreadable">What is done with the message of one that cannot be read.</param>
    internal void Each(Action<LogEntry> one, Action<string> unreadable) => Reading($"{Columns} ORDER BY e.number", row =>
    {
        try
        {
            one(Told(Entry, row));
        }
        catch (InputException e)
        {
            unreadable(e.Problems[0].ToString());
        }

        return true;
    }, keep: false);

    internal IReadOnlyList<LogEntry> All() => Reading($"{Columns} ORDER BY e.number", Entry);

    internal IReadOnlyList<(int Number, string Kind)> AllPieces() =>
        Reading("SELECT number, kind FROM pieces ORDER BY number", row => (row.GetInt32(0), row.GetString(1)));

    /// <summary>Puts pieces, boards and entries into an empty log as they are; all of it or nothing.</summary>
    /// <param name="pieces">Numbers and kinds of all pieces.</param>
    /// <param name="boards">Numbers of all boards.</param>
    /// <param name="entries">All entries, in the order of writing.</param>
    /// <exception cref="InputException">The log is not empty.</exception>
    public void Restore(IEnumerable<(int Number, string Kind)> pieces, IEnumerable<int> boards, IEnumerable<LogEntry> entries) => Writing(transaction =>
    {
        if ((long)Scalar(transaction, "SELECT (SELECT count(*) FROM entries) + (SELECT count(*) FROM pieces) + (SELECT count(*) FROM boards)") > 0)
        {
            throw new InputException(File, "this log is not empty, and a log is never written over: restore into a new one, as --log restored.sqlite");
        }

        foreach ((int number, string kind) in pieces)
        {
            Insert(transaction, "INSERT INTO pieces (number, kind) VALUES ($number, $kind)", ("$number", number), ("$kind", kind));
        }

        foreach (int number in boards)
        {
            Insert(transaction, "INSERT INTO boards (number) VALUES ($number)", ("$number", number));
        }

        foreach (LogEntry entry in entries)
        {
            Insert(transaction, entry, PayloadOf(entry));
        }

        return true;
    });

    internal static string Word(PieceKind kind) => kind switch
    {
        PieceKind.Wood => "wood",
        PieceKind.Core => "core",
        PieceKind.Sandwich => "sandwich",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "no such kind of piece"),
    };

    internal static string NoPiece(int number, IReadOnlyList<Piece> all) => string.Create(CultureInfo.InvariantCulture, $"there is no piece {number} in the log; ")
        + (all.Count == 0 ? "it holds none yet: `sandwichmech piece add` begins one"
            : $"there {(all.Count == 1 ? "is" : "are")} {string.Join(", ", all.Take(12).Select(p => p.Number.ToString(CultureInfo.InvariantCulture)))}{(all.Count > 12 ? " and more" : "")} (`sandwichmech piece list`)");

    private IReadOnlyList<LogEntry> History(int piece, SqliteTransaction? transaction) =>
        Reading($"{Columns} WHERE e.piece = $piece ORDER BY e.number", Entry, transaction, ("$piece", piece));

    private LogEntry InForce(SqliteTransaction transaction, int piece, long number, string? kind) =>
        InForce([.. History(piece, transaction)], string.Create(CultureInfo.InvariantCulture, $"piece {piece}"), number, kind);

    private static LogEntry InForce(LogEntry[] entries, string at, long number, string? kind)
    {
        LogEntry? entry = entries.FirstOrDefault(e => e.Number == number && e.Kind != EntryKind.Withdrawn);
        if (entry is null)
        {
            string known = string.Join(", ", entries.Where(e => e.CorrectedBy is null && e.Kind != EntryKind.Withdrawn).Select(e => string.Create(CultureInfo.InvariantCulture, $"{e.Number} ({e.Kind})")));
            throw new InputException(at, string.Create(CultureInfo.InvariantCulture, $"it has no entry {number}; there are {known}"));
        }

        if (entry.CorrectedBy is { } later)
        {
            bool withdrawn = entries.Any(e => e.Number == later && e.Kind == EntryKind.Withdrawn);
            throw new InputException(at, string.Create(CultureInfo.InvariantCulture, $"entry {number} was already {(withdrawn ? $"withdrawn by entry {later}: add the reading anew" : $"corrected by entry {later}: correct that one")}"));
        }

        return kind is null || entry.Kind == kind ? entry : throw new InputException(
            at, string.Create(CultureInfo.InvariantCulture, $"entry {number} is of the kind {entry.Kind}, and a reading of {kind} cannot replace it: withdraw it, and add the other"));
    }

    private LogEntry Append(SqliteTransaction transaction, int piece, string kind, string payload, string asTyped, DateTimeOffset? at, long? corrects, int? board = null)
    {
        var entry = new LogEntry((long)Scalar(transaction, "SELECT coalesce(max(number), 0) + 1 FROM entries"), _now, at?.ToUniversalTime() ?? _now, piece, kind, asTyped, corrects) { Board = board };
        Insert(transaction, entry, payload);
        return entry;
    }

    private static void Insert(SqliteTransaction transaction, LogEntry entry, string payload)
    {
        if (!LogJson.IsWhole(entry.AsTyped) || !LogJson.IsWhole(payload))
        {
            throw new InputException("log", "the text holds half a character that cannot be kept: type it again");
        }

        (string recorded, string at) = (Time(entry.Recorded), Time(entry.At));
        Insert(transaction,
            "INSERT INTO entries (number, recorded_utc, at_utc, piece, board, kind, payload, as_typed, corrects, sum) VALUES ($number, $recorded, $at, $piece, $board, $kind, $payload, $typed, $corrects, $sum)",
            ("$number", entry.Number), ("$recorded", recorded), ("$at", at), ("$piece", entry.Board is null ? entry.Piece : DBNull.Value), ("$board", (object?)entry.Board ?? DBNull.Value), ("$kind", entry.Kind),
            ("$payload", payload), ("$typed", entry.AsTyped), ("$corrects", (object?)entry.Corrects ?? DBNull.Value),
            ("$sum", LogSum.Of(entry.Number, recorded, at, entry.Board is null ? entry.Piece : null, entry.Board, entry.Kind, payload, entry.AsTyped, entry.Corrects)));
    }

    internal static string Time(DateTimeOffset time) => time.UtcDateTime.ToString(LogSchema.TimeFormat, CultureInfo.InvariantCulture);

    private LogEntry Entry(SqliteDataReader row)
    {
        long number = row.GetInt64(0);
        string kind = row.GetString(4), payload = row.GetString(5);
        if (row.GetString(10) != LogSum.Of(number, row.GetString(1), row.GetString(2), Optional(row, 3), Optional(row, 9), kind, payload, row.GetString(6), Optional(row, 7)))
        {
            throw LogFile.Damaged(File, string.Create(CultureInfo.InvariantCulture, $"entry {number} is not as it was written"));
        }

        return new LogEntry(number, Time(row.GetString(1), number), Time(row.GetString(2), number), row.IsDBNull(3) ? 0 : row.GetInt32(3), kind, row.GetString(6), Optional(row, 7))
        {
            CorrectedBy = Optional(row, 8),
            Board = (int?)Optional(row, 9),
            Text = kind == EntryKind.Piece ? Payload<PieceText>(payload, number) : null,
            Reading = row.IsDBNull(3) || kind is EntryKind.Piece or EntryKind.Withdrawn ? null : Payload<Reading>(payload, number),
            Start = kind == EntryKind.Board ? Payload<BuildStart>(payload, number) : null,
            Built = kind == EntryKind.Stage ? Payload<BuildReading>(payload, number) : null,
            Given = kind == EntryKind.Prediction ? Payload<GivenPrediction>(payload, number) : null,
            Attached = kind == EntryKind.Attachment ? Payload<AttachedFile>(payload, number) : null,
        };
    }

    private static long? Optional(SqliteDataReader row, int column) => row.IsDBNull(column) ? null : row.GetInt64(column);

    private DateTimeOffset Time(string text, long entry) =>
        DateTimeOffset.TryParseExact(text, LogSchema.TimeFormat, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal, out DateTimeOffset time)
            ? time
            : throw Unreadable(entry);

    private T Payload<T>(string json, long entry)
    {
        try
        {
            return LogJson.Read<T>(json);
        }
        catch (Exception e) when (e is JsonException or NotSupportedException)
        {
            throw Unreadable(entry);
        }
    }

    private InputException Unreadable(long entry) => LogFile.Damaged(File, string.Create(CultureInfo.InvariantCulture, $"entry {entry} cannot be read"));

    private static Piece Of(int number, PieceKind kind, PieceText text) =>
        new(number, kind, text.Material, text.Name) { OuterWood = text.OuterWood, InnerWood = text.InnerWood, Adhesive = text.Adhesive };

    private static PieceKind KindOf(string word) => Enum.GetValues<PieceKind>().First(k => Word(k) == word);

    private SqliteConnection? Existing() => _connection ??= System.IO.File.Exists(File) ? LogFile.Open(File, _clock) : null;

    private T Writing<T>(Func<SqliteTransaction, T> work)
    {
        _connection = Existing() ?? LogFile.Create(File, _clock);
        return LogFile.Telling(File, () =>
        {
            // Immediate: numbers are given out while no other program can write.
            using SqliteTransaction transaction = _connection.BeginTransaction(deferred: false);
            // What is written together has one time.
            _now = _clock.GetUtcNow().ToUniversalTime();
            T result = work(transaction);
            transaction.Commit();
            return result;
        });
    }

    private IReadOnlyList<T> Reading<T>(string sql, Func<SqliteDataReader, T> one, SqliteTransaction? transaction = null, params (string, object)[] values) => Reading(sql, one, keep: true, transaction, values);

    private IReadOnlyList<T> Reading<T>(string sql, Func<SqliteDataReader, T> one, bool keep, SqliteTransaction? transaction = null, params (string, object)[] values) => Existing() is not { } connection
        ? []
        : LogFile.Telling<IReadOnlyList<T>>(File, () =>
        {
            using SqliteCommand command = connection.CreateCommand();
            (command.CommandText, command.Transaction) = (sql, transaction);
            Bind(command, values);
            using SqliteDataReader row = command.ExecuteReader();
            var rows = new List<T>();
            while (row.Read())
            {
                T read = Told(one, row);
                if (keep) { rows.Add(read); }
            }

            return rows;
        });

    // A row whose columns do not hold what they should is a damaged log's, whatever trips over it.
    private T Told<T>(Func<SqliteDataReader, T> one, SqliteDataReader row)
    {
        try
        {
            return one(row);
        }
        catch (Exception e) when (e is InvalidOperationException or InvalidCastException or OverflowException or FormatException or ArgumentException or JsonException)
        {
            throw LogFile.Damaged(File);
        }
    }

    private static object Scalar(SqliteTransaction transaction, string sql)
    {
        using SqliteCommand command = transaction.Connection!.CreateCommand();
        (command.CommandText, command.Transaction) = (sql, transaction);
        return command.ExecuteScalar()!;
    }

    private static void Insert(SqliteTransaction transaction, string sql, params (string, object)[] values)
    {
        using SqliteCommand command = transaction.Connection!.CreateCommand();
        (command.CommandText, command.Transaction) = (sql, transaction);
        Bind(command, values);
        command.ExecuteNonQuery();
    }

    private static void Bind(SqliteCommand command, (string, object)[] values)
    {
        foreach ((string name, object value) in values)
        {
            command.Parameters.AddWithValue(name, value);
        }
    }
}
