using System.Buffers.Binary;
using System.Globalization;
using Microsoft.Data.Sqlite;

namespace SandwichMech.Workshop.Log;

/// <summary>The log's database file: made whole or not at all, and opened only where it is a log that this version can read.</summary>
internal static class LogFile
{
    private const int NotADatabase = 26, Corrupt = 11, Busy = 5, Locked = 6, ReadOnly = 8, InOut = 10, Full = 13, CannotOpen = 14, NoRights = 3, NoMemory = 7;

    // Parts of the code of a failure in reading or writing (SQLite, result codes, SQLITE_IOERR_WRITE and others).
    private const int WriteFailed = 3, SyncFailed = 4, TruncateFailed = 6, GrowFailed = 19;

    // All pages of a larger log are looked at by `log check` only: that takes longer than what the maker asked for.
    private const long SmallFile = 1 << 20;

    /// <summary>Opens the log for reading and writing, and brings one of an older version up to date.</summary>
    /// <exception cref="InputException">It is no log, damaged, or of a newer version; nothing has been written.</exception>
    internal static SqliteConnection Open(string path, TimeProvider clock) => Telling(path, () =>
    {
        long version;
        // Looked at first through a connection that cannot write.
        using (SqliteConnection look = Connect(path, SqliteOpenMode.ReadOnly))
        {
            version = Check(look, path);
        }

        if (version < LogSchema.Version)
        {
            LogUpgrade.Run(path, clock);
        }

        SqliteConnection log = Connect(path, SqliteOpenMode.ReadWrite);
        // FULL: in WAL mode an acknowledged commit is on the disk, not only with the operating system.
        Run(log, "PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON;");
        return log;
    });

    /// <summary>Makes a new log: beside its place and then put there, so that no half-made one is ever seen.</summary>
    internal static SqliteConnection Create(string path, TimeProvider clock)
    {
        string beside = $"{path}.{Guid.NewGuid():N}.new";
        try
        {
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            Telling(path, () =>
            {
                using SqliteConnection made = Connect(beside, SqliteOpenMode.ReadWriteCreate);
                LogSum.AddTo(made);
                Run(made, $"PRAGMA synchronous = FULL; BEGIN EXCLUSIVE; {LogSchema.Create} COMMIT; PRAGMA journal_mode = WAL;");
                return true;
            });
            if (!File.Exists(path))
            {
                File.Move(beside, path, overwrite: false);
            }
        }
        catch (IOException) when (File.Exists(path))
        {
            // Another program was first: its log is the shop's.
        }
        finally
        {
            File.Delete(beside);
        }

        return Open(path, clock);
    }

    /// <summary>Names of the triggers that keep a log append-only.</summary>
    internal static IReadOnlyList<string> Triggers { get; } =
    [
        "pieces_stay", "pieces_stay_there", "entries_stay", "entries_stay_there", "pieces_are_new", "entries_are_new", "boards_stay", "boards_stay_there", "boards_are_new",
        "entries_have_one_subject", "corrections_stay_with_their_subject", "entries_have_sums",
    ];

    /// <summary>What makes each table, index and guard of a log of this version: its name first, then the words.</summary>
    internal static IReadOnlyList<string> Makers()
    {
        using var fresh = new SqliteConnection("Data Source=:memory:;Pooling=False");
        fresh.Open();
        LogSum.AddTo(fresh);
        Run(fresh, LogSchema.Create);
        using SqliteCommand ask = fresh.CreateCommand();
        ask.CommandText = MakersOf;
        using SqliteDataReader row = ask.ExecuteReader();
        var makers = new List<string>();
        while (row.Read()) { makers.Add(row.GetString(0)); }
        return makers;
    }

    /// <summary>Asks for <see cref="Makers"/> of any log.</summary>
    internal const string MakersOf = "SELECT name || ' ' || tbl_name || ' ' || sql FROM sqlite_master WHERE sql IS NOT NULL ORDER BY name";

    /// <summary>Does something with the database, with what goes wrong said in the maker's words.</summary>
    internal static T Telling<T>(string path, Func<T> work)
    {
        try
        {
            return work();
        }
        catch (SqliteException e) when (e.SqliteErrorCode == NotADatabase)
        {
            throw NoLog(path);
        }
        catch (SqliteException e) when (e.SqliteErrorCode == Corrupt)
        {
            throw Damaged(path);
        }
        catch (SqliteException e) when (e.SqliteErrorCode is Busy or Locked)
        {
            throw new IOException($"the log {path} is in use by another program that does not let go; close it and try again", e);
        }
        catch (SqliteException e) when (e.SqliteErrorCode is ReadOnly or CannotOpen or NoRights)
        {
            throw new IOException($"the log {path} cannot be opened for writing; look at the rights of the file and of its folder", e);
        }
        catch (SqliteException e) when (e.SqliteErrorCode == Full || (e.SqliteErrorCode == InOut && e.SqliteExtendedErrorCode >> 8 is WriteFailed or TruncateFailed or SyncFailed or GrowFailed))
        {
            throw new IOException($"the log {path} could not be written, and nothing of it was kept: the disk is full, or a file may not grow further; make room and try again", e);
        }
        catch (SqliteException e) when (e.SqliteErrorCode is InOut or NoMemory)
        {
            throw new IOException($"the log {path} cannot be read or written now: {e.Message}", e);
        }
        catch (SqliteException)
        {
            // What we ask fits a log that is whole: where the database cannot follow, it is not.
            throw Damaged(path);
        }
    }

    internal static void Run(SqliteConnection log, string sql)
    {
        using SqliteCommand command = log.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }

    internal static InputException Damaged(string path, string? what = null) => new(
        path, $"this log is damaged{(what is null ? "" : $" ({what})")} and nothing was written to it: keep a copy, then `sandwichmech log restore` your last export into a new file");

    private static InputException NoLog(string path) => new(path, "this is no log of sandwichmech, and nothing was written to it: name another file with --log");

    private static long Check(SqliteConnection log, string path)
    {
        if (new FileInfo(path).Length == 0)
        {
            throw new InputException(path, "this file is empty, so it is no log: delete it to begin a new one there, or name another with --log");
        }

        if (Number(log, "PRAGMA application_id") != LogSchema.ApplicationId)
        {
            throw NoLog(path);
        }

        long version = Number(log, "PRAGMA user_version");
        if (version > LogSchema.Version)
        {
            throw new InputException(path, string.Create(CultureInfo.InvariantCulture, $"this log is of version {version}, made by a newer sandwichmech; this one knows {LogSchema.Version}: use the newer one"));
        }

        if (version < 1 || IsCut(path) || (new FileInfo(path).Length <= SmallFile && Text(log, "PRAGMA quick_check(1)") is not "ok"))
        {
            throw Damaged(path);
        }

        // The end of the table and of its index: where the next entry goes.
        _ = Text(log, "SELECT kind FROM entries WHERE number = (SELECT max(number) FROM entries) AND (corrects IS NULL OR corrects < number)");
        return version;
    }

    /// <summary>Whether the file is shorter than its own head says; with entries not yet taken over from beside it, that may be so.</summary>
    private static bool IsCut(string path)
    {
        const int Head = 32, PageSizeAt = 16, PagesAt = 28;
        if (new FileInfo(path + "-wal") is { Exists: true, Length: > 0 })
        {
            return false;
        }

        using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
        var head = new byte[Head];
        if (file.ReadAtLeast(head, Head, throwOnEndOfStream: false) < Head)
        {
            return true;
        }

        // SQLite file format, section 1.3: page size at 16 (1 means 65536), pages at 28, both big-endian.
        int size = BinaryPrimitives.ReadUInt16BigEndian(head.AsSpan(PageSizeAt));
        long bytes = (size == 1 ? 65536L : size) * BinaryPrimitives.ReadUInt32BigEndian(head.AsSpan(PagesAt));
        // Another program may just have taken entries over: then the file is longer, never shorter.
        return file.Length < bytes;
    }

    private static string? Text(SqliteConnection log, string sql)
    {
        using SqliteCommand command = log.CreateCommand();
        command.CommandText = sql;
        return command.ExecuteScalar() as string;
    }

    internal static long Number(SqliteConnection log, string sql)
    {
        using SqliteCommand command = log.CreateCommand();
        command.CommandText = sql;
        return (long)command.ExecuteScalar()!;
    }

    internal static SqliteConnection Connect(string path, SqliteOpenMode mode)
    {
        // No pool: when the log is closed, the file is free.
        var connection = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = path, Mode = mode, Pooling = false, DefaultTimeout = 10 }.ConnectionString);
        connection.Open();
        return connection;
    }
}
