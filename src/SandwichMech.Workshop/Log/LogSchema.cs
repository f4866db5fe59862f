namespace SandwichMech.Workshop.Log;

/// <summary>The log's tables. What is to come adds tables and columns and raises <see cref="Version"/>; nothing is ever taken away.</summary>
/// <remarks>
/// An entry says one thing about one subject. Subjects have tables of their own (pieces, boards) that hold what can never change; all
/// else about them are entries. A further subject gets a table and a column in entries that points to it, and leaves the others empty.
/// Payloads are JSON, since each kind of entry has fields of its own; the program reads and checks every one that it writes.
/// </remarks>
internal static class LogSchema
{
    /// <summary>"SMLG": tells the log from other programs' databases.</summary>
    internal const int ApplicationId = 0x534D4C47;

    /// <summary>Version of these tables.</summary>
    internal const int Version = 3;

    /// <summary>How times are written: UTC, to the tick, so that they sort as text.</summary>
    internal const string TimeFormat = "yyyy-MM-dd'T'HH:mm:ss.fffffff'Z'";

    private const string Version1 = """
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
        """;

    /// <summary>Adds boards, and lets an entry be of one.</summary>
    private const string ToVersion2 = """
        CREATE TABLE boards (
          number INTEGER PRIMARY KEY CHECK (number > 0)
        ) STRICT;
        ALTER TABLE entries ADD COLUMN board INTEGER REFERENCES boards (number);
        CREATE INDEX entries_of_board ON entries (board);
        CREATE TRIGGER boards_stay BEFORE UPDATE ON boards BEGIN SELECT RAISE(ABORT, 'the log is append-only'); END;
        CREATE TRIGGER boards_stay_there BEFORE DELETE ON boards BEGIN SELECT RAISE(ABORT, 'the log is append-only'); END;
        CREATE TRIGGER boards_are_new BEFORE INSERT ON boards
        WHEN EXISTS (SELECT 1 FROM boards WHERE number = NEW.number)
        BEGIN SELECT RAISE(ABORT, 'the log is append-only'); END;
        CREATE TRIGGER entries_have_one_subject BEFORE INSERT ON entries
        WHEN (NEW.piece IS NULL) = (NEW.board IS NULL)
        BEGIN SELECT RAISE(ABORT, 'an entry is of a piece or of a board'); END;
        DROP TRIGGER corrections_stay_with_their_piece;
        CREATE TRIGGER corrections_stay_with_their_subject BEFORE INSERT ON entries
        WHEN NEW.corrects IS NOT NULL AND NOT EXISTS (SELECT 1 FROM entries WHERE number = NEW.corrects AND piece IS NEW.piece AND board IS NEW.board)
        BEGIN SELECT RAISE(ABORT, 'a correction belongs to the piece or board of the entry that it corrects'); END;
        PRAGMA user_version = 2;
        """;

    /// <summary>Adds the sum of what an entry says, and indexes of what is asked for over all boards.</summary>
    private static readonly string ToVersion3 = $"""
        ALTER TABLE entries ADD COLUMN sum TEXT;
        DROP TRIGGER entries_stay;
        UPDATE entries SET sum = {LogSum.Function}(number, recorded_utc, at_utc, piece, board, kind, payload, as_typed, corrects);
        CREATE TRIGGER entries_stay BEFORE UPDATE ON entries BEGIN SELECT RAISE(ABORT, 'the log is append-only'); END;
        CREATE TRIGGER entries_have_sums BEFORE INSERT ON entries
        WHEN NEW.sum IS NULL
        BEGIN SELECT RAISE(ABORT, 'an entry has a sum'); END;
        CREATE INDEX starts_of_boards ON entries (board) WHERE kind = 'board';
        CREATE INDEX mixed_of_boards ON entries (board) WHERE kind = 'stage' AND payload LIKE '%"adhesive_mixed"%';
        PRAGMA user_version = 3;
        """;

    /// <summary>What brings a log of each version to the next, the first one first.</summary>
    internal static readonly IReadOnlyList<string> Steps = [ToVersion2, ToVersion3];

    /// <summary>All tables of a new log.</summary>
    internal static readonly string Create = $"{Version1} PRAGMA application_id = {ApplicationId}; {ToVersion2} {ToVersion3}";
}
