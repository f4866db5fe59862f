using System.Globalization;
using CsCheck;
using SandwichMech.Core.Identification;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Tests.EndToEnd;
using SandwichMech.Workshop;
using SandwichMech.Workshop.Log;
using static SandwichMech.Tests.Log.SampleLog;

namespace SandwichMech.Tests.Log;

/// <summary>Export and restore lose nothing.</summary>
[Trait("Check", "exact")]
public class LogExportTests
{
    private static readonly Gen<double> Number = Gen.Double.Where(double.IsFinite);
    private static readonly Gen<Estimate> Spread = Gen.Select(Number, Number, (v, s) => new Estimate(v, s));
    // Any characters, so control characters, quotes and all planes; half a character cannot be typed.
    private static readonly Gen<string> Text = Gen.String[Gen.Char, 0, 12].Where(LogJson.IsWhole);

    private static readonly Gen<Reading> AnyReading = Gen.OneOf<Reading>(
        Spread.Select(m => (Reading)new Weighing(m)),
        Gen.Select(Gen.Bool, Spread, (a, s) => (Reading)new SizeReading(a, s)),
        Gen.Select(Number.List[1, 5], Number, (t, i) => (Reading)new ThicknessReading(t, i)),
        Gen.Select(Number.List[2, 5], Number, (t, i) => (Reading)new ThicknessMapReading([t, [.. t.Select(x => -x)]], i)),
        Gen.Select(Gen.Bool, Spread, Number, Spread, Spread, Number, (a, s, l, w, d, p) => (Reading)new BendingReading(a, s, l, w, d, p)),
        Gen.Select(Spread, Gen.Int[0, 5], Spread, Gen.Bool, (f, n, q, known) => new Tone(f, known ? n : null, known ? 0 : null, known ? q : null)).List[0, 4].Select(t => (Reading)new TapReading(t)),
        Gen.Select(Number, Gen.Int[0, 7], (v, which) => (Reading)new MoistureReading((which & 1) > 0 ? v : null, (which & 2) > 0 ? v : null, (which & 4) > 0 ? v : null)));

    private static readonly Gen<DateTimeOffset> Time = Gen.Long[0, DateTime.MaxValue.Ticks].Select(t => new DateTimeOffset(t, TimeSpan.Zero));

    [Fact]
    public void Export_of_restore_of_export_is_the_same_bytes() =>
        Gen.Select(Gen.Select(Text, Text, Text.Null(), AnyReading, Text, Time).List[1, 6], Gen.Int[0, 1000]).Sample((pieces, choice) =>
        {
            using var folder = new TemporaryFolder();
            using ShopLog log = Open(folder), restored = ShopLog.Open(folder.File("restored.sqlite"));
            foreach ((string material, string name, string? wood, Reading reading, string typed, DateTimeOffset at) in pieces)
            {
                Piece piece = log.AddPiece((PieceKind)(choice % 3), material, name, wood, null, wood, [new(reading, typed)], at);
                long entry = log.Readings(piece.Number)[0].Number;
                _ = ((choice + piece.Number) % 3) switch
                {
                    0 => log.AddReading(piece.Number, reading, typed, null, entry),
                    1 => log.Withdraw(piece.Number, entry, typed),
                    _ => log.AddReading(piece.Number, reading, typed, at),
                };
            }

            string json = LogExport.Write(log);
            LogExport.Restore(json, "export", restored);
            Assert.Equal(json, LogExport.Write(restored));
            // The same through the API: what the text says is what the log holds.
            Assert.Equal(log.Pieces(), restored.Pieces());
            foreach (Piece piece in log.Pieces())
            {
                Assert.Equal(log.History(piece.Number).Select(Said), restored.History(piece.Number).Select(Said));
            }

            for (int i = 0; i < pieces.Count; i++)
            {
                LogEntry first = log.History(i + 1)[1];
                Assert.Equal((pieces[i].Item5, pieces[i].Item6), (first.AsTyped, first.At));
                Assert.Equal(LogJson.Payload(pieces[i].Item4), LogJson.Payload(first.Reading!));
            }
        }, iter: 40, threads: 1);

    [Fact]
    public void A_number_comes_back_to_the_last_bit() => Gen.Long.Select(BitConverter.Int64BitsToDouble).Where(double.IsFinite).Sample(value =>
        Assert.Equal(BitConverter.DoubleToInt64Bits(value), BitConverter.DoubleToInt64Bits(((Weighing)LogJson.Read<Reading>(LogJson.Payload<Reading>(new Weighing(new(value, 0.1))))).Mass.Value)));

    [Fact]
    public void Only_an_empty_log_is_restored_into()
    {
        using var folder = new TemporaryFolder();
        using ShopLog log = Open(folder);
        log.AddPiece(PieceKind.Wood, "Sitka spruce", "");
        string json = LogExport.Write(log);
        Assert.Contains("not empty", Assert.Throws<InputException>(() => LogExport.Restore(json, "export", log)).Message, StringComparison.Ordinal);
        Assert.Equal(json, LogExport.Write(log));
    }

    [Theory]
    [InlineData("{", "no export")]
    [InlineData("[1, 2]", "no export")]
    [InlineData("{\"format\": 1}", "no export")]
    [InlineData("CUT", "cut short")]
    [InlineData("\"version\": 3|\"version\": 99", "newer")]
    [InlineData("\"number\": 2|\"number\": 1", "damaged (entry 1)")]
    [InlineData("\"corrects\": 2|\"corrects\": 77", "damaged (entry 3)")]
    [InlineData("\"corrects\": 2|\"corrects\": 3", "damaged (entry 3)")]
    [InlineData("\"value\": 0.2124|\"value\": \"much\"", "damaged (at $.entries[1].reading")]
    [InlineData("\"value\": 0.2124,|", "damaged (at $.entries[1].reading")]
    [InlineData("\"mass_kg\"|\"mass_g\"", "damaged (at $.entries[1].reading")]
    [InlineData("\"kind\": \"wood\"|\"kind\": \"stone\"", "damaged (piece 1)")]
    [InlineData("T12:00:00|T12:77:00", "damaged (entry 1)")]
    [InlineData("\"kind\": \"weight\",\n      \"as|\"kind\": \"size\",\n      \"as", "damaged (entry 2)")]
    public void A_damaged_export_is_refused_and_nothing_is_written(string change, string says)
    {
        using var folder = new TemporaryFolder();
        using ShopLog log = Open(folder);
        log.AddPiece(PieceKind.Wood, "Sitka spruce", "", readings: [new(new Weighing(new(0.2124, 0.1)), "212.4 g")]);
        log.AddReading(1, new Weighing(new(0.2125, 0.1)), "212.5 g", corrects: 2);
        string json = LogExport.Write(log);
        string[] parts = change.Split('|');
        string wrong = change == "CUT" ? json[..(json.Length / 2)] : parts.Length == 1 ? change : json.Replace(parts[0], parts[1], StringComparison.Ordinal);
        Assert.NotEqual(json, wrong);
        using ShopLog empty = ShopLog.Open(folder.File("restored.sqlite"));
        string message = Assert.Throws<InputException>(() => LogExport.Restore(wrong, "export.json", empty)).Message;
        Assert.Contains(says, message, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', message);
        Assert.False(File.Exists(empty.File));
    }

    private static string Said(LogEntry e) => string.Create(CultureInfo.InvariantCulture, $"{e with { Reading = null }} {(e.Reading is { } r ? LogJson.Payload(r) : "")}");
}
