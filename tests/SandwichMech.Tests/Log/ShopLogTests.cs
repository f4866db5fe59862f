using Microsoft.Data.Sqlite;
using SandwichMech.Core.Identification;
using SandwichMech.Tests.EndToEnd;
using SandwichMech.Workshop;
using SandwichMech.Workshop.Log;
using static SandwichMech.Tests.Log.SampleLog;

namespace SandwichMech.Tests.Log;

/// <summary>What goes into the log comes out of it, corrections stand beside what they correct, and nothing is ever changed.</summary>
[Trait("Check", "exact")]
public class ShopLogTests
{
    [Fact]
    public void Pieces_and_readings_are_there_when_the_log_is_opened_again()
    {
        using var folder = new TemporaryFolder();
        Reading[] readings =
        [
            Weighed(212.4),
            new SizeReading(true, new(0.2, 0.001)),
            new ThicknessReading([0.00261, 0.00258, 0.0026], 1.15e-5),
            new BendingReading(false, new(0.4, 0.001), 0.1, new(0.5, 0.0001), new(0.0012, 0.01), 0.4),
            new TapReading([new(new(123.4, 0.002), 0, 2, new(0.01, 0.1)), new(new(200, 0.002))]),
            new MoistureReading(null, 45, 21),
        ];
        using (ShopLog log = Open(folder))
        {
            Piece core = log.AddPiece(PieceKind.Core, "balsa", "");
            Assert.Equal(new Piece(1, PieceKind.Core, "balsa", ""), core);
            log.AddPiece(PieceKind.Sandwich, "balsa", "strip „A“", "piece 1", "Sitka spruce", "epoxy");
            foreach (Reading reading in readings)
            {
                log.AddReading(2, reading, "as typed");
            }
        }

        using ShopLog again = Open(folder);
        Assert.Equal(new Piece(2, PieceKind.Sandwich, "balsa", "strip „A“") { OuterWood = "piece 1", InnerWood = "Sitka spruce", Adhesive = "epoxy" }, again.Piece(2));
        Assert.Equal([1, 2], again.Pieces().Select(p => p.Number));
        IReadOnlyList<LogEntry> read = again.Readings(2);
        Assert.Equal(readings.Select(LogJson.KindOf), read.Select(e => e.Kind));
        // Lists compare by reference, so the records are compared through what they say.
        Assert.Equal(readings.Select(LogJson.Payload), read.Select(e => LogJson.Payload(e.Reading!)));
        Assert.Equal([0.00261, 0.00258, 0.0026], Assert.IsType<ThicknessReading>(read[2].Reading).Thicknesses);
        Assert.Equal(2, Assert.IsType<TapReading>(read[4].Reading).Tones[0].Across);
        Assert.All(read, e => Assert.Equal(("as typed", Noon, Noon), (e.AsTyped, e.At, e.Recorded)));
        Assert.Empty(again.Readings(1));
    }

    [Fact]
    public void Every_kind_of_reading_has_a_word_and_units_in_its_names()
    {
        Type[] kinds = [.. typeof(Reading).Assembly.GetTypes().Where(t => t.BaseType == typeof(Reading))];
        Assert.NotEmpty(kinds);
        foreach (Type kind in kinds.Append(typeof(Tone)))
        {
            string schema = Workshop.UseCases.ResultJson.Schema(kind);
            foreach (System.Reflection.PropertyInfo number in kind.GetProperties().Where(p => p.PropertyType.ToString().Contains("Double", StringComparison.Ordinal) || p.PropertyType == typeof(Core.Uncertainty.Estimate)))
            {
                string name = System.Text.Json.JsonNamingPolicy.SnakeCaseLower.ConvertName(number.Name);
                // A loss factor has no unit.
                Assert.True(schema.Contains($"\"{name}_", StringComparison.Ordinal) || (number.Name == "Loss" && schema.Contains("\"loss\"", StringComparison.Ordinal)), $"{kind.Name}.{number.Name}");
            }
        }

        Assert.All(kinds, k => Assert.NotEqual("", LogJson.KindOf((Reading)System.Runtime.CompilerServices.RuntimeHelpers.GetUninitializedObject(k))));
    }

    [Fact]
    public void A_correction_replaces_and_a_withdrawal_leaves_out_and_both_stay_in_the_history()
    {
        using var folder = new TemporaryFolder();
        var clock = new StandingClock(Noon);
        using ShopLog log = Open(folder, clock);
        log.AddPiece(PieceKind.Wood, "Sitka spruce", "top", readings: [new(Weighed(212.4), "212.4 g"), new(Weighed(99), "99 g")]);
        clock.Now = Noon.AddDays(1);
        LogEntry right = log.AddReading(1, Weighed(221.4), "221.4 g", corrects: 2);
        log.Withdraw(1, 3, "other piece");
        Assert.Equal([right.Number], log.Readings(1).Select(e => e.Number));
        Assert.Equal((Noon, Noon.AddDays(1)), (right.At, right.Recorded));
        Assert.Equal([1L, 2, 3, 4, 5], log.History(1).Select(e => e.Number));
        Assert.Equal([null, 4L, 5, null, null], log.History(1).Select(e => e.CorrectedBy));
        LogEntry better = log.AddReading(1, Weighed(221.5), "221.5 g", Noon.AddHours(1), 4);
        Assert.Equal([better.Number], log.Readings(1).Select(e => e.Number));
        Assert.Equal(Noon.AddHours(1), log.Readings(1)[0].At);

        log.Describe(log.Piece(1) with { Name = "other top" });
        Assert.Equal("other top", log.Piece(1).Name);
        log.Withdraw(1, log.History(1).Last(e => e.Text is not null).Number);
        Assert.Empty(log.Pieces());
        Assert.Equal(2, log.AddPiece(PieceKind.Wood, "Sitka spruce", "").Number);
    }

    [Fact]
    public void What_cannot_be_corrected_is_refused_with_what_can()
    {
        using var folder = new TemporaryFolder();
        using ShopLog log = Open(folder);
        log.AddPiece(PieceKind.Wood, "Sitka spruce", "", readings: [new(Weighed(212.4), ""), new(new SizeReading(true, new(0.2, 0.001)), ""), new(Weighed(1), "")]);
        log.AddPiece(PieceKind.Wood, "Sitka spruce", "", readings: [new(Weighed(1), "")]);
        log.AddReading(1, Weighed(221.4), "", corrects: 2);
        log.Withdraw(1, 4);
        long entries = log.Entries();
        Refused("corrected by entry 7", () => log.AddReading(1, Weighed(1), "", corrects: 2));
        Refused("withdrawn by entry 8", () => log.Withdraw(1, 4));
        Refused("of the kind size", () => log.AddReading(1, Weighed(1), "", corrects: 3));
        Refused("it has no entry 6; there are 1 (piece), 3 (size), 7 (weight)", () => log.AddReading(1, Weighed(1), "", corrects: 6));
        Refused("it has no entry 8", () => log.Withdraw(1, 8));
        Refused("there is no piece 9 in the log; there are 1, 2", () => log.AddReading(9, Weighed(1), ""));
        Refused("half a character", () => log.AddReading(1, Weighed(1), "\ud800"));
        Assert.Throws<ArgumentException>(() => log.AddReading(1, Weighed(double.NaN), ""));
        Assert.Equal(entries, log.Entries());
    }

    [Theory]
    [InlineData("UPDATE entries SET as_typed = 'x'", "append-only")]
    [InlineData("DELETE FROM entries WHERE number = 3", "append-only")]
    [InlineData("UPDATE pieces SET kind = 'core'", "append-only")]
    [InlineData("DELETE FROM pieces", "append-only")]
    [InlineData("INSERT OR REPLACE INTO pieces VALUES (1, 'core')", "append-only")]
    [InlineData("INSERT OR REPLACE INTO entries SELECT 2, recorded_utc, at_utc, piece, kind, payload, 'x', NULL, NULL, sum FROM entries WHERE number = 2", "append-only")]
    [InlineData("INSERT OR REPLACE INTO entries SELECT 9, recorded_utc, at_utc, piece, kind, payload, 'x', 2, NULL, sum FROM entries WHERE number = 2", "append-only")]
    [InlineData("INSERT INTO entries SELECT 9, recorded_utc, at_utc, 2, kind, payload, 'x', 1, NULL, sum FROM entries WHERE number = 2", "belongs to the piece")]
    [InlineData("INSERT INTO entries SELECT 9, recorded_utc, at_utc, 7, kind, payload, 'x', NULL, NULL, sum FROM entries WHERE number = 2", "FOREIGN KEY")]
    [InlineData("INSERT INTO entries SELECT 9, recorded_utc, at_utc, piece, kind, '{', 'x', NULL, NULL, sum FROM entries WHERE number = 2", "CHECK")]
    [InlineData("INSERT INTO entries SELECT 9, 'today', at_utc, piece, kind, payload, 'x', NULL, NULL, sum FROM entries WHERE number = 2", "CHECK")]
    [InlineData("INSERT INTO entries SELECT 9, recorded_utc, at_utc, piece, kind, payload, 'x', NULL, NULL, NULL FROM entries WHERE number = 2", "has a sum")]
    [InlineData("INSERT INTO entries SELECT 'nine', recorded_utc, at_utc, piece, kind, payload, 'x', NULL, NULL, sum FROM entries WHERE number = 2", "mismatch")]
    public void The_file_itself_refuses_what_is_not_an_addition(string sql, string says)
    {
        using var folder = new TemporaryFolder();
        using ShopLog log = Open(folder);
        log.AddPiece(PieceKind.Wood, "Sitka spruce", "", readings: [new(Weighed(212.4), "212.4 g")]);
        log.AddPiece(PieceKind.Wood, "Sitka spruce", "");
        log.AddReading(1, Weighed(3), "", corrects: 2);
        string before = LogExport.Write(log);
        using var other = new SqliteConnection($"Data Source={log.File};Pooling=False");
        other.Open();
        using SqliteCommand command = other.CreateCommand();
        command.CommandText = sql;
        SqliteException refused = Assert.Throws<SqliteException>(() => { command.ExecuteNonQuery(); });
        Assert.Contains(says, refused.Message, StringComparison.Ordinal);
        Assert.Equal(before, LogExport.Write(log));
    }

    [Fact]
    public void A_log_that_is_only_read_is_not_made()
    {
        using var folder = new TemporaryFolder();
        using ShopLog log = ShopLog.Open(folder.File("deep/log.sqlite"));
        Assert.Empty(log.Pieces());
        Refused("it holds none yet", () => log.Piece(1));
        Assert.Empty(Directory.GetFileSystemEntries(folder.Path));
        log.AddPiece(PieceKind.Wood, "Sitka spruce", "");
        Assert.True(File.Exists(log.File));
    }

    [Fact]
    public void Two_programs_may_write_into_one_log()
    {
        using var folder = new TemporaryFolder();
        using ShopLog one = Open(folder), two = Open(folder);
        Assert.Equal(1, one.AddPiece(PieceKind.Wood, "Sitka spruce", "").Number);
        Assert.Equal(2, two.AddPiece(PieceKind.Core, "balsa", "").Number);
        Assert.Equal(3, one.AddReading(2, Weighed(3), "").Number);
        Assert.Single(two.Readings(2));
    }

    private static void Refused(string says, Action work) => Assert.Contains(says, Assert.Throws<InputException>(work).Message, StringComparison.Ordinal);
}
