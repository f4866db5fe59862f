using System.Globalization;
using CsvHelper;
using SandwichMech.Tests.EndToEnd;

namespace SandwichMech.Tests.Log;

/// <summary>The log's tables for spreadsheets, read back by a reader that is not ours.</summary>
[Trait("Check", "exact")]
public class LogCsvTests
{
    private static string Board => Repository.File("shared", "demo", "outline.toml");

    [Fact]
    public void All_that_was_written_stands_in_the_tables_and_nothing_in_them_is_a_formula()
    {
        using var folder = new TemporaryFolder();
        string log = folder.File("log.sqlite"), tables = folder.File("tables");
        foreach (string[] words in new string[][]
        {
            ["start", Board, "--margin", "10 mm", "--target", "along at least solid"],
            ["add", "1", "skins", "outer 42.4 g", "outer 0.75 mm, 0.77 mm"],
            ["add", "1", "bond1", "board 96.2 g", "humidity 45 %", "temperature 20 °C", "tones 14.7 Hz, 21.2 Hz"],
            ["decide", "1", "inner.thickness 0.55 mm"],
            ["note", "1", "=1+1, \"soft\" at the lower end"],
            ["correct", "1", "9", "outer 42.6 g"],
        })
        {
            Commanded run = Commanded.Run(["--log", log, "log", .. words]);
            Assert.True(run.Code == 0, run.Err);
        }

        Assert.Equal(0, Commanded.Run("--log", log, "log", "export", "--csv", tables).Code);
        IReadOnlyList<IDictionary<string, object>> readings = Rows("readings.csv");
        Assert.Equal(9, readings.Count);
        Assert.Equal("0.0424", readings[0]["mass_kg"]);
        Assert.Equal("", readings[0]["length_m"]);
        Assert.NotEqual("", readings[0]["corrected_by"]);
        Assert.Equal([0.75, 0.77], readings.Where(r => (string)r["quantity"] == "outer skin's thickness").Select(r => Math.Round(1e3 * double.Parse((string)r["length_m"], CultureInfo.InvariantCulture), 12)));
        Assert.Equal(["14.7", "21.2"], readings.Select(r => (string)r["frequency_hz"]).Where(f => f.Length > 0));
        Assert.Equal(293.15, double.Parse((string)readings.Single(r => (string)r["quantity"] == "temperature")["temperature_k"], CultureInfo.InvariantCulture), 1e-9);
        Assert.Equal(["0.45"], readings.Select(r => (string)r["share"]).Where(f => f.Length > 0));
        IReadOnlyList<IDictionary<string, object>> notes = Rows("notes.csv");
        Assert.Equal(["decision", "note"], notes.Select(n => (string)n["kind"]));
        Assert.Equal("'=1+1, \"soft\" at the lower end", notes[1]["text"]);
        Assert.All(Rows("predictions.csv"), p => Assert.True(double.Parse((string)p["low_90_si"], CultureInfo.InvariantCulture) < double.Parse((string)p["high_90_si"], CultureInfo.InvariantCulture)));
        Assert.Equal("along at least solid", Rows("boards.csv").Single()["targets"]);

        IReadOnlyList<IDictionary<string, object>> Rows(string name)
        {
            using var reader = new CsvReader(File.OpenText(Path.Combine(tables, name)), CultureInfo.InvariantCulture);
            return [.. reader.GetRecords<dynamic>().Select(r => (IDictionary<string, object>)r)];
        }
    }
}
