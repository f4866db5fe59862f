using System.Text.Json;
using SandwichMech.Tests.Log;
using SandwichMech.Workshop.Log;

namespace SandwichMech.Tests.EndToEnd;

/// <summary>Pieces and the log as their user meets them, each time in a log of the test's own.</summary>
[Trait("Check", "exact")]
public sealed class PieceTests : IDisposable
{
    private const string Top = "piece add wood --material \"Sitka spruce\" --name \"left half\" --weight \"212.4 g ± 0.1 g\" --length \"520 mm\" --width \"200 mm\" --thickness \"4.61 mm, 4.58 mm, 4.60 mm\" --moisture \"7.5 %\" --humidity \"45 %\" --temperature \"21 degC\"";
    private readonly TemporaryFolder _folder = new();

    private string LogFile => _folder.File("log.sqlite");

    [Fact]
    public void A_piece_is_added_with_its_readings_and_shown()
    {
        Commanded added = Run(Top);
        Assert.Equal((0, ""), (added.Code, added.Err));
        Assert.StartsWith("Piece 1: wood, Sitka spruce, “left half”: added", added.Out, StringComparison.Ordinal);
        Assert.Contains("± 0.1 g read as limits: standard deviation 0.058 g", added.Out, StringComparison.Ordinal);
        Assert.Contains("--thickness: no spread typed; ± 0.02 mm taken as limits, standard deviation 0.012 mm", added.Out, StringComparison.Ordinal);
        Assert.Contains("--length, --width: no spread typed; ± 0.5 mm taken as limits, standard deviation 0.29 mm", added.Out, StringComparison.Ordinal);
        string shown = Run("piece show 1").Out;
        foreach (string part in new[] { "212.4 g ± 0.1 g", "4.61 mm, 4.58 mm, 4.60 mm", "7.5 %, humidity 45 %, temperature 21 degC", "3 places, 4.58 to 4.61, sd 0.015 mm" })
        {
            Assert.Contains(part, shown, StringComparison.Ordinal);
        }

        // 212.4 g on 520 × 200 × 4.5967 mm: 444 kg/m³.
        Assert.Matches(@"density +444 +kg/m³", shown);
        Assert.Contains("as weighed; `measure` has it at 12 % moisture", shown, StringComparison.Ordinal);
        using JsonDocument json = JsonDocument.Parse(Run("piece show 1 --json").Out);
        JsonElement figures = json.RootElement.GetProperty("figures");
        Checks.Near(0.2124 / (0.52 * 0.2 * 0.01379 / 3), figures.GetProperty("density_kg_m3").GetProperty("value").GetDouble(), 1e-12);
        JsonElement moisture = json.RootElement.GetProperty("entries").EnumerateArray().Last().GetProperty("reading");
        Assert.Equal((7.5, 45.0, 21.0), (moisture.GetProperty("content_percent").GetDouble(), moisture.GetProperty("humidity_percent").GetDouble(), moisture.GetProperty("temperature_c").GetDouble()));
    }

    [Theory]
    [InlineData("± 0.3 g", 0.3)]
    [InlineData("± 0.3 g sd", 0.0)]
    [InlineData("± 0.6 g k=2", 0.0)]
    public void A_spread_means_limits_unless_a_standard_deviation_is_typed(string spread, double limits)
    {
        double sd = limits > 0 ? limits / Math.Sqrt(3) : 0.3;
        Assert.Equal(0, Run($"piece add wood --material balsa --weight \"100 g {spread}\"").Code);
        using ShopLog log = ShopLog.Open(LogFile);
        var mass = Assert.IsType<Core.Identification.Weighing>(log.Readings(1)[0].Reading).Mass;
        Checks.Near(Math.Sqrt(Math.Log(1 + sd * sd / 1e4)), mass.Spread, 1e-9);
    }

    [Fact]
    public void A_reading_is_corrected_and_withdrawn_and_all_of_it_stays_to_be_seen()
    {
        Run(Top);
        Commanded corrected = Run("piece correct 1 2 --weight \"221.4 g\"");
        Assert.Equal(0, corrected.Code);
        Assert.Contains("in place of entry 2", corrected.Out, StringComparison.Ordinal);
        Assert.Equal(0, Run("piece correct 1 5 --withdraw --why \"other piece\"").Code);
        Assert.Equal(0, Run("piece correct 1 1 --name \"right half\" --material \"Engelmann spruce\"").Code);
        Assert.Equal(0, Run("piece read 1 --thickness \"4.50 mm; 4,52 mm\"").Code);
        string[] lines = Run("piece show 1").Out.Split('\n');
        Assert.Contains("Engelmann spruce, “right half”", lines[0], StringComparison.Ordinal);
        Assert.Contains(lines, l => l.Contains("212.4 g", StringComparison.Ordinal) && l.EndsWith("corrected by entry 7", StringComparison.Ordinal));
        Assert.Contains(lines, l => l.Contains("4.61 mm, 4.58 mm", StringComparison.Ordinal) && l.EndsWith("withdrawn by entry 8", StringComparison.Ordinal));
        Assert.Contains(lines, l => l.Contains("other piece", StringComparison.Ordinal) && l.EndsWith("takes back entry 5", StringComparison.Ordinal));
        Assert.Contains(lines, l => l.StartsWith("mean thickness", StringComparison.Ordinal) && l.Contains("2 places, 4.50 to 4.52", StringComparison.Ordinal));
        Assert.Contains("Engelmann spruce", Run("piece list").Out, StringComparison.Ordinal);
        Assert.Equal(0, Run("piece correct 1 9 --withdraw").Code);
        Assert.Contains("No pieces yet", Run("piece list").Out, StringComparison.Ordinal);
    }

    [Fact]
    public void The_reading_that_was_read_last_counts_not_the_one_written_down_last()
    {
        Run(Top);
        Assert.Equal(0, Run("piece read 1 --weight \"215.0 g\" --at \"2026-03-01 14:30\"").Code);
        Assert.Matches("weight +212.4 +g", Run("piece show 1").Out);
        Assert.Contains("2026-03-01 14:30", Run("piece show 1").Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("piece add wood --material \"Sitke spruce\"", "did you mean 'Sitka spruce'")]
    [InlineData("piece add wood --material \"\"", "nothing is written here")]
    [InlineData("piece add stone --material granite", "stone")]
    [InlineData("piece add wood", "--material")]
    [InlineData("piece add core --material \"Sitka spruce\"", "no core")]
    [InlineData("piece add wood --material balsa --weight 212.4", "212.4 g")]
    [InlineData("piece add wood --material balsa --weight \"-3 g\"", "more than 0")]
    [InlineData("piece add wood --material balsa --weight \"0 g\"", "more than 0")]
    [InlineData("piece add wood --material balsa --weight \"50 kg\"", "too large")]
    [InlineData("piece add wood --material balsa --weight \"5 mm\"", "mass")]
    [InlineData("piece add wood --material balsa --weight \"1 g ± 3 g\"", "down to nothing")]
    [InlineData("piece add wood --material balsa --weight NaN", "NaN")]
    [InlineData("piece add wood --material balsa --thickness \"0.1 m\"", "too large")]
    [InlineData("piece add wood --material balsa --thickness \"2.61, 2.58, 2.60 mm\"", "2.61 mm")]
    [InlineData("piece add wood --material balsa --thickness \"2.61 mm, , 2.58 mm\"", "nothing is written here")]
    [InlineData("piece add wood --material balsa --thickness \"2.61 mm ± 0.01 mm, 2.58 mm ± 0.02 mm\"", "one ±")]
    [InlineData("piece add wood --material balsa --thickness-map \"2.02 1.98 2.00; 2.05 2.01 mm\"", "row 2 has 2 numbers and row 1 has 3")]
    [InlineData("piece add wood --material balsa --thickness-map \"2.02 1.98; 2.05 2.01\"", "a unit is missing")]
    [InlineData("piece add wood --material balsa --thickness-map \"2.02 1.98 2.00 mm\"", "holds one row")]
    [InlineData("piece add wood --material balsa --thickness-map \"2.02; 1.98 mm\"", "one place in each row")]
    [InlineData("piece add wood --material balsa --thickness-map \"1.9 1.9; 1.9 1.9 in\"", "did you mean 1.9 mm?")]
    [InlineData("piece add wood --material balsa --thickness-map \"2.02 1.98; 20.5 2.01 mm\"", "row 2, place 1 reads 20.5 mm")]
    [InlineData("piece add wood --material balsa --thickness-map \"2.02 1.98; 2.05 NaN mm\"", "more than one unit")]
    [InlineData("piece add wood --material balsa --thickness-map \"2.02 mm 1.98 mm; 2.05 in 2.01 mm\"", "more than one unit")]
    [InlineData("piece add wood --material balsa --thickness-map \"2.02 1.98; ; 2.05 2.01 mm\"", "row 2 is empty")]
    [InlineData("piece add wood --material balsa --thickness-map \"2.0 1.9; 2.0 -1.9 mm\"", "more than 0")]
    [InlineData("piece add wood --material balsa --thickness-map \"2.0 1.9; 2.0 1.9 kg\"", "is a mass")]
    [InlineData("piece add wood --material balsa --thickness-map \"2.0 1.9; 2.0 1.9 mm ± 3 mm\"", "down to nothing")]
    [InlineData("piece add wood --material balsa --thickness-map nowhere.csv", "there is no such file")]
    [InlineData("piece add wood --material balsa --thickness \"2 mm\" --thickness-map \"2.0 1.9; 2.0 1.9 mm\"", "give one of them")]
    [InlineData("piece add wood --material balsa --length \"5200 mm\"", "too large")]
    [InlineData("piece add wood --material balsa --length 520", "520 mm")]
    [InlineData("piece add wood --material balsa --moisture \"75 %\"", "too large")]
    [InlineData("piece add wood --material balsa --humidity 45", "45 %")]
    [InlineData("piece add wood --material balsa --temperature 21", "21 °C")]
    [InlineData("piece add wood --material balsa --weight \"212 g\" --length \"520 mm\" --width \"200 mm\" --thickness \"0.26 mm\"", "kg/m³, which no wood has")]
    [InlineData("piece add wood --material balsa --outer-wood balsa", "only a sandwich has it")]
    [InlineData("piece add sandwich --material \"aramid honeycomb 3.2-48\" --outer-wood balsa --inner-wood balsa", "--adhesive")]
    [InlineData("piece add sandwich --material \"aramid honeycomb 3.2-48\" --outer-wood \"piece 7\" --inner-wood balsa --adhesive \"laminating epoxy 100:30\"", "there is no piece 7")]
    [InlineData("piece add wood --material balsa --weight \"3 g\" --at tomorrow", "no date")]
    [InlineData("piece add wood --material balsa --weight \"3 g\" --at 2999-01-01", "still to come")]
    [InlineData("piece show 3", "it holds none yet")]
    [InlineData("piece show one", "in digits")]
    [InlineData("piece show 1,000", "in digits")]
    [InlineData("piece shwo 1", "did you mean 'show'")]
    [InlineData("piece read 1 --weight \"3 g\"", "it holds none yet")]
    [InlineData("log export shop.json", "nothing to export")]
    [InlineData("log restore no-such.json", "no such file")]
    public void Wrong_input_is_one_clear_line_and_nothing_is_written(string line, string says)
    {
        Commanded run = Run(line);
        Assert.Equal(2, run.Code);
        Assert.Empty(run.Out);
        Assert.Single(run.Err.TrimEnd('\n').Split('\n'));
        Assert.Contains(says, run.Err, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFileSystemEntries(_folder.Path));
    }

    [Theory]
    [InlineData("piece show 9", "there are 1, 2, 3")]
    [InlineData("piece read 1", "no reading is given")]
    [InlineData("piece read 1 --weight \"8 kg\"", "no wood has")]
    [InlineData("piece correct 1 99 --weight \"88 g\"", "it has no entry 99")]
    [InlineData("piece correct 1 2 --length \"520 mm\"", "cannot replace it")]
    [InlineData("piece correct 1 2", "give the one reading")]
    [InlineData("piece correct 1 2 --weight \"88 g\" --length \"520 mm\"", "give the one reading")]
    [InlineData("piece correct 1 2 --weight \"88 g\" --withdraw", "one thing at a time")]
    [InlineData("piece correct 1 2 --name x", "stands in entry 1")]
    [InlineData("piece correct 1 2 --why x", "one thing at a time")]
    [InlineData("piece correct 2 1 --withdraw", "it has no entry 1")]
    [InlineData("log restore shop.json", "not empty")]
    [InlineData("log export log.sqlite", "choose another name")]
    public void In_a_log_with_pieces_wrong_input_changes_nothing(string line, string says)
    {
        DemoLog.In(_folder);
        string before = Run("log export").Out;
        Commanded run = Run(line.Replace("shop.json", _folder.File("shop.json"), StringComparison.Ordinal).Replace("log.sqlite", LogFile, StringComparison.Ordinal));
        Assert.Equal(2, run.Code);
        Assert.Empty(run.Out);
        Assert.Single(run.Err.TrimEnd('\n').Split('\n'));
        Assert.Contains(says, run.Err, StringComparison.Ordinal);
        Assert.Equal(before, Run("log export").Out);
    }

    [Fact]
    public void Reading_alone_never_makes_a_log()
    {
        Assert.Contains("No pieces yet", Run("piece list").Out, StringComparison.Ordinal);
        Assert.Contains("Not begun yet", Run("log where").Out, StringComparison.Ordinal);
        Assert.Contains("\"is_there\": false", Run("log where --json").Out, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFileSystemEntries(_folder.Path));
    }

    [Fact]
    public void An_export_is_restored_to_the_same_bytes()
    {
        string log = DemoLog.In(_folder), json = _folder.File("copy.json"), restored = _folder.File("restored.sqlite");
        Assert.Equal(0, Run($"log export {json}").Code);
        Assert.Equal(0, Commanded.Run("log", "restore", json, "--log", restored).Code);
        Assert.Equal(File.ReadAllText(json), Commanded.Run("log", "export", "--log", restored).Out);
        string where = Run("log where").Out;
        Assert.StartsWith(log, where, StringComparison.Ordinal);
        Assert.Contains($"3 pieces, 1 board, {DemoLog.Entries} entries", where, StringComparison.Ordinal);
        // An export is replaced by a later one.
        Run("piece read 1 --weight \"88.1 g\"");
        Assert.Equal(0, Run($"log export {json}").Code);
        Assert.Equal(File.ReadAllText(json), Run("log export").Out);
        Assert.Equal(4, Directory.GetFiles(_folder.Path).Length);
    }

    [Fact]
    public void An_export_with_a_byte_changed_within_a_letter_is_refused()
    {
        Run("piece add wood --material balsa --name Fichtenhälfte");
        string json = _folder.File("copy.json");
        Run($"log export {json}");
        byte[] bytes = File.ReadAllBytes(json);
        int letter = Array.IndexOf(bytes, (byte)0xC3);
        Assert.True(letter > 0);
        bytes[letter] = 0xFF;
        File.WriteAllBytes(json, bytes);
        Commanded run = Commanded.Run("log", "restore", json, "--log", _folder.File("restored.sqlite"));
        Assert.Equal(2, run.Code);
        Assert.Contains("damaged", run.Err, StringComparison.Ordinal);
        Assert.False(File.Exists(_folder.File("restored.sqlite")));
    }

    public void Dispose() => _folder.Dispose();

    private Commanded Run(string line) => Commanded.Run([.. Commanded.Words(line), "--log", LogFile]);
}
