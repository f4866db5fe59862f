using System.Globalization;
using Microsoft.Data.Sqlite;
using SandwichMech.Core.Building;
using SandwichMech.Core.Identification;
using SandwichMech.Tests.EndToEnd;
using SandwichMech.Workshop.Log;
using static SandwichMech.Tests.Log.SampleLog;

namespace SandwichMech.Tests.Log;

/// <summary>A log of version 1 becomes one of this version: nothing lost, a copy kept, all or nothing.</summary>
[Trait("Check", "exact")]
public class LogUpgradeTests
{
    /// <summary>The tables as version 1 made them, to the letter.</summary>
    private const string First = """
        CREATE TABLE pieces (
          number INTEGER PRIMARY KEY CHECK (number > 0),
          kind TEXT NOT NULL CHECK (kind IN ('wood', 'core', 'sandwich'))
        ) STRICT;
        CREATE TABLE entries (
          number INTEGER PRIMARY KEY CHECK (number > 0),
          recorded_utc TEXT NOT NULL CHECK (recorded_utc GLOB '????-??-??T??:??:??.???????Z'),
          at_utc TEXT NOT NULL CHECK (at_utc GLOB '????-??-??T??:??:??.???????Z'),
          piece INTEGER REFERENCES pieces (number),
          kind TEXT NOT NULL,
          payload TEXT NOT NULL CHECK (json_valid(payload)),
          as_typed TEXT NOT NULL,
          corrects INTEGER UNIQUE REFERENCES entries (number) CHECK (corrects < number)
        ) STRICT;
        CREATE INDEX entries_of_piece ON entries (piece);

        CREATE TRIGGER pieces_stay BEFORE UPDATE ON pieces BEGIN SELECT RAISE(ABORT, 'the log is append-only'); END;
        CREATE TRIGGER pieces_stay_there BEFORE DELETE ON pieces BEGIN SELECT RAISE(ABORT, 'the log is append-only'); END;
        CREATE TRIGGER entries_stay BEFORE UPDATE ON entries BEGIN SELECT RAISE(ABORT, 'the log is append-only'); END;
        CREATE TRIGGER entries_stay_there BEFORE DELETE ON entries BEGIN SELECT RAISE(ABORT, 'the log is append-only'); END;
        -- INSERT OR REPLACE deletes without a trigger on DELETE.
        CREATE TRIGGER pieces_are_new BEFORE INSERT ON pieces
        WHEN EXISTS (SELECT 1 FROM pieces WHERE number = NEW.number)
        BEGIN SELECT RAISE(ABORT, 'the log is append-only'); END;
        CREATE TRIGGER entries_are_new BEFORE INSERT ON entries
        WHEN EXISTS (SELECT 1 FROM entries WHERE number >= NEW.number OR corrects = NEW.corrects)
        BEGIN SELECT RAISE(ABORT, 'the log is append-only'); END;
        CREATE TRIGGER corrections_stay_with_their_piece BEFORE INSERT ON entries
        WHEN NEW.corrects IS NOT NULL AND NOT EXISTS (SELECT 1 FROM entries WHERE number = NEW.corrects AND piece IS NEW.piece)
        BEGIN SELECT RAISE(ABORT, 'a correction belongs to the piece of the entry that it corrects'); END;

        PRAGMA application_id = 1397574727;
        PRAGMA user_version = 1;
        """;

    [Fact]
    public void Nothing_is_lost_and_the_old_file_is_kept()
    {
        using var folder = new TemporaryFolder();
        string file = Old(folder), backup = file + ".version-1.2026-03-01.backup";
        using (ShopLog log = Open(folder))
        {
            Holds(log);
            Assert.Equal(3, log.AddReading(1, Weighed(1), "1 g").Number);
            Assert.Equal(1, log.StartBoard(Start()).Number);
        }

        Assert.Equal(1L, Scalar(backup, "PRAGMA user_version"));
        Assert.Equal(2L, Scalar(backup, "SELECT count(*) FROM entries"));
        Assert.Equal("212.4 g", Scalar(backup, "SELECT as_typed FROM entries WHERE number = 2"));
        Assert.Equal(3L, Scalar(file, "PRAGMA user_version"));
        // The same tables to the letter as a new log's.
        using (ShopLog fresh = ShopLog.Open(folder.File("fresh.sqlite")))
        {
            fresh.AddPiece(PieceKind.Wood, "balsa", "");
        }

        const string Tables = "SELECT group_concat(sql, char(10)) FROM (SELECT sql FROM sqlite_master ORDER BY name)";
        Assert.Equal(Scalar(folder.File("fresh.sqlite"), Tables), Scalar(file, Tables));
        // The copy is a whole log: it can be opened as one, which upgrades it in turn.
        using ShopLog copy = ShopLog.Open(backup, new StandingClock(Noon));
        Holds(copy);
    }

    [Fact]
    public void A_copy_is_never_written_over()
    {
        using var folder = new TemporaryFolder();
        string file = Old(folder), taken = file + ".version-1.2026-03-01.backup";
        File.WriteAllText(taken, "mine");
        using ShopLog log = Open(folder);
        Holds(log);
        Assert.Equal("mine", File.ReadAllText(taken));
        Assert.Equal(1L, Scalar(file + ".version-1.2026-03-01.2.backup", "PRAGMA user_version"));
    }

    [Fact]
    public void What_cannot_be_copied_is_not_changed()
    {
        using var folder = new TemporaryFolder();
        string file = Old(folder);
        // No name is left for a copy.
        for (int n = 1; n <= 1000; n++)
        {
            File.WriteAllText(string.Create(CultureInfo.InvariantCulture, $"{file}.version-1.2026-03-01{(n > 1 ? $".{n}" : "")}.backup"), "");
        }

        byte[] before = File.ReadAllBytes(file);
        Assert.Throws<IOException>(() => Open(folder));
        Assert.Equal(before, File.ReadAllBytes(file));
        Assert.Equal(1001, Directory.GetFiles(folder.Path).Count(f => !f.EndsWith("-wal", StringComparison.Ordinal) && !f.EndsWith("-shm", StringComparison.Ordinal)));
    }

    [Fact]
    public async Task Many_programs_may_open_an_old_log_at_once()
    {
        using var folder = new TemporaryFolder();
        string file = Old(folder);
        using var together = new Barrier(4);
        await Task.WhenAll(Enumerable.Range(0, 4).Select(i => Task.Factory.StartNew(() =>
        {
            together.SignalAndWait();
            using ShopLog log = Open(folder);
            log.AddNote(log.StartBoard(Start()).Number, $"by {i}");
        }, CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default)));
        using ShopLog after = Open(folder);
        Holds(after);
        Assert.Equal(4, after.Boards().Count);
        Assert.Single(Directory.GetFiles(folder.Path, "*.backup"));
        Assert.Equal("ok", Scalar(file, "PRAGMA integrity_check"));
    }

    private static void Holds(ShopLog log)
    {
        Piece piece = log.Pieces().Single();
        Assert.Equal(("Sitka spruce", "left half"), (piece.Material, piece.Name));
        LogEntry entry = log.Readings(1)[0];
        Assert.Equal((2, "212.4 g", Noon), (entry.Number, entry.AsTyped, entry.At));
        Assert.Equal(0.2124, ((Weighing)entry.Reading!).Mass.Value);
    }

    private static string Old(TemporaryFolder folder)
    {
        string file = folder.File("log.sqlite");
        Scalar(file, $"""
            {First}
            PRAGMA journal_mode = WAL;
            INSERT INTO pieces VALUES (1, 'wood');
            INSERT INTO entries VALUES
              (1, '2026-03-01T12:00:00.0000000Z', '2026-03-01T12:00:00.0000000Z', 1, 'piece', '{LogJson.Payload(new PieceText("Sitka spruce", "left half"))}', '', NULL),
              (2, '2026-03-01T12:00:00.0000000Z', '2026-03-01T12:00:00.0000000Z', 1, 'weight', '{LogJson.Payload<Reading>(Weighed(212.4))}', '212.4 g', NULL);
            """);
        return file;
    }

    private static BuildStart Start() => new("invented", "board.toml", "name = \"invented\"", new string('0', 64), 0.01, []);

    private static object? Scalar(string file, string sql)
    {
        using var connection = new SqliteConnection($"Data Source={file};Pooling=False");
        connection.Open();
        using SqliteCommand command = connection.CreateCommand();
        command.CommandText = sql;
        return command.ExecuteScalar();
    }
}
