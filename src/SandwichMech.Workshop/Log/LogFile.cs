using System.Globalization;
using Microsoft.Data.Sqlite;

namespace SandwichMech.Workshop.Log;

/// <summary>The log's database file: made whole or not at all, and opened only where it is a log that this version can read.</summary>
internal static class LogFile
{
    private const long QuicklyRead = 20_000_000;
    private const int NotADatabase = 26, Corrupt = 11, Busy = 5, Locked = 6, ReadOnly = 8, CannotOpen = 14;

    /// <summary>Opens the log for reading and writing.</summary>
    /// <exception cref="InputException">It is no log, damaged, or of a newer version; nothing has been written.</exception>
    internal static SqliteConnection Open(string path) => Telling(path, () =>
    {
        // Looked at first through a connection that cannot write.
        bool old;
        using (SqliteConnection look = Connect(path, SqliteOpenMode.ReadOnly))
        {
            old = Check(look, path) == LogSchema.First;
        }

        if (old) { Upgrade(path); }
        SqliteConnection log = Connect(path, SqliteOpenMode.ReadWrite);
        // FULL: in WAL mode an acknowledged commit is on the disk, not only with the operating system.
        Run(log, "PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON;");
        return log;
    });

    /// <summary>Makes a new log: beside its place and then put there, so that no half-made one is ever seen.</summary>
    internal static SqliteConnection Create(string path)
    {
        string beside = $"{path}.{Guid.NewGuid():N}.new";
        try
        {
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            Telling(path, () =>
            {
                using SqliteConnection made = Connect(beside, SqliteOpenMode.ReadWriteCreate);
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

        return Open(path);
    }

    // A copy first; then all tables at once, unless another program was first.
    private static void Upgrade(string path)
    {
        using SqliteConnection log = Connect(path, SqliteOpenMode.ReadWrite);
        string backup = $"{path}.version-{LogSchema.First}";
        if (!File.Exists(backup))
        {
            string beside = $"{backup}.{Guid.NewGuid():N}.new";
            using SqliteCommand copy = log.CreateCommand();
            copy.CommandText = "VACUUM INTO $file";
            copy.Parameters.AddWithValue("$file", beside);
            copy.ExecuteNonQuery();
            File.Move(beside, backup, overwrite: false);
        }

        Run(log, "PRAGMA synchronous = FULL");
        using SqliteTransaction transaction = log.BeginTransaction(deferred: false);
        if (Number(log, "PRAGMA user_version") == LogSchema.First) { Run(log, LogSchema.ToVersion2); }
        transaction.Commit();
    }

    /// <summary>Names of the triggers that keep a log append-only.</summary>
    internal static IReadOnlyList<string> Triggers { get; } =
    [
        "pieces_stay", "pieces_stay_there", "entries_stay", "entries_stay_there", "pieces_are_new", "entries_are_new", "boards_stay", "boards_stay_there", "boards_are_new",
        "entries_have_one_subject", "corrections_stay_with_their_subject",
    ];

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
        catch (SqliteException e) when (e.SqliteErrorCode is ReadOnly or CannotOpen)
        {
            throw new IOException($"the log {path} cannot be opened for writing; look at the rights of the file and of its folder", e);
        }
        catch (SqliteException e)
        {
            throw new IOException($"the log {path}: {e.Message}", e);
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

    // Its version.
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

        using SqliteCommand command = log.CreateCommand();
        command.CommandText = "PRAGMA quick_check(1)";
        // A large log is read through by `log check` alone: page by page it would cost more than the work itself.
        bool whole = new FileInfo(path).Length > QuicklyRead || command.ExecuteScalar() as string is "ok";
        return version is LogSchema.First or LogSchema.Version && whole ? version : throw Damaged(path);
    }

    private static long Number(SqliteConnection log, string sql)
    {
        using SqliteCommand command = log.CreateCommand();
        command.CommandText = sql;
        return (long)command.ExecuteScalar()!;
    }

    private static SqliteConnection Connect(string path, SqliteOpenMode mode)
    {
        // No pool: when the log is closed, the file is free.
        var connection = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = path, Mode = mode, Pooling = false, DefaultTimeout = 10 }.ConnectionString);
        connection.Open();
        return connection;
    }
}
