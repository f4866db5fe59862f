using System.Globalization;
using Microsoft.Data.Sqlite;

namespace SandwichMech.Workshop.Log;

/// <summary>Brings a log of an older version up to this one: a copy of the file first, then all steps or none.</summary>
internal static class LogUpgrade
{
    private const int CopiesOfADay = 1000;

    /// <summary>Does it; where another program was first, nothing.</summary>
    internal static void Run(string path, TimeProvider clock)
    {
        using SqliteConnection log = LogFile.Connect(path, SqliteOpenMode.ReadWrite);
        LogFile.Run(log, "PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON;");
        LogSum.AddTo(log);
        // From here on no other program writes: the copy holds all there is, and the version that is read stays.
        using SqliteTransaction transaction = log.BeginTransaction(deferred: false);
        int version = (int)LogFile.Number(log, "PRAGMA user_version");
        if (version >= LogSchema.Version)
        {
            return;
        }

        Copy(path, version, clock);
        foreach (string step in LogSchema.Steps.Skip(version - 1))
        {
            LogFile.Run(log, step);
        }

        transaction.Commit();
    }

    /// <summary>The file as it is, beside it under a name of its own; nothing is ever written over.</summary>
    private static void Copy(string path, int version, TimeProvider clock)
    {
        string part = $"{path}.{Guid.NewGuid():N}.part";
        try
        {
            using (SqliteConnection reader = LogFile.Connect(path, SqliteOpenMode.ReadOnly))
            {
                using SqliteCommand copy = reader.CreateCommand();
                copy.CommandText = "VACUUM INTO $to";
                copy.Parameters.AddWithValue("$to", part);
                copy.ExecuteNonQuery();
                using SqliteConnection copied = LogFile.Connect(part, SqliteOpenMode.ReadOnly);
                const string Count = "SELECT (SELECT count(*) FROM entries) + (SELECT count(*) FROM pieces)";
                if (LogFile.Number(reader, Count) != LogFile.Number(copied, Count))
                {
                    throw new IOException($"the copy of the log {path} that is made before it is brought up to date is not whole; nothing was changed");
                }
            }

            using (var file = new FileStream(part, FileMode.Open, FileAccess.ReadWrite))
            {
                file.Flush(flushToDisk: true);
            }

            string day = clock.GetUtcNow().ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
            for (int n = 1; n <= CopiesOfADay; n++)
            {
                string to = string.Create(CultureInfo.InvariantCulture, $"{path}.version-{version}.{day}{(n > 1 ? $".{n}" : "")}.backup");
                if (!File.Exists(to))
                {
                    File.Move(part, to, overwrite: false);
                    return;
                }
            }

            throw new IOException($"there are a thousand copies of the log {path} of this day already; nothing was changed");
        }
        finally
        {
            File.Delete(part);
        }
    }
}
