using System.Globalization;
using System.Text.Json;
using System.Xml.Linq;

namespace SandwichMech.Tests.EndToEnd;

/// <summary>The sheet for the bench: one well-formed file with every figure, or none at all.</summary>
[Trait("Check", "exact")]
public class BondSheetTests
{
    private static readonly string OnOutline = Repository.File("shared", "demo", "outline.toml");

    [Fact]
    public void A_sheet_is_well_formed_needs_no_other_file_and_holds_the_figures()
    {
        using var folder = new TemporaryFolder();
        string file = folder.File("bond.html");
        string[] words = ["bond", OnOutline, "--margin", "10 mm", "--cup", "12.4 g", "--temperature", "32 °C", "--vacuum", "60 kPa", "--sheet", file];
        Commanded run = Commanded.Run(words);
        Assert.Equal(0, run.Code);
        string html = File.ReadAllText(file);
        var page = XDocument.Parse(html);
        Assert.DoesNotContain(page.Descendants(), e => e.Name.LocalName is "script" or "link" or "img" or "iframe");
        Assert.DoesNotContain(page.Descendants().Attributes(), a => a.Name.LocalName is "src" or "href");
        Assert.DoesNotContain("url(", html, StringComparison.Ordinal);
        using JsonDocument json = JsonDocument.Parse(Commanded.Run([.. words.SkipLast(2), "--json"]).Out);
        JsonElement line = json.RootElement.GetProperty("one_bond_line");
        foreach (JsonElement step in line.GetProperty("scale").EnumerateArray())
        {
            Assert.Contains(Grams(step.GetProperty("scale_reads_kg")), page.Descendants().Where(e => (string?)e.Attribute("class") == "reads").Select(e => e.Value));
        }

        JsonElement kept = line.GetProperty("kept_kg");
        string text = page.Root!.Value;
        foreach (JsonElement mass in new[] { line.GetProperty("mixed_kg"), kept.GetProperty("value"), kept.GetProperty("low90"), kept.GetProperty("high90"), line.GetProperty("left_over_kg") })
        {
            Assert.Contains(Grams(mass).Replace(" g", "", StringComparison.Ordinal), text, StringComparison.Ordinal);
        }

        // 60 min at 22 °C are 30 at 32.
        Assert.Contains("30 min", text, StringComparison.Ordinal);
        Assert.Contains("60 kPa", text, StringComparison.Ordinal);
        foreach (string danger in new[] { "allergic", "fresh air", "heats itself", "Heat gun", "Vacuum", "half-cured", "safety data sheet", "local codes" })
        {
            Assert.Contains(danger, text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void The_cup_stands_on_the_scale_from_first_to_last()
    {
        using JsonDocument json = JsonDocument.Parse(Commanded.Run("bond", Commanded.Demo, "--cup", "12.4 g", "--json").Out);
        JsonElement line = json.RootElement.GetProperty("one_bond_line");
        double[] reads = [.. line.GetProperty("scale").EnumerateArray().Select(s => s.GetProperty("scale_reads_kg").GetDouble())];
        double resin = line.GetProperty("resin").GetProperty("mass_kg").GetDouble();
        Checks.Near(0.0124, reads[0], 1e-12);
        Checks.Near(0.0124 + resin, reads[1], 1e-12);
        Checks.Near(0.0124 + line.GetProperty("mixed_kg").GetDouble(), reads[2], 1e-12);
    }

    [Fact]
    public void A_name_is_escaped()
    {
        using var folder = new TemporaryFolder();
        string board = folder.File("board.toml"), sheet = folder.File("bond.html");
        File.WriteAllText(board, File.ReadAllText(Commanded.Demo).Replace("name = \"demo board, cedar over spruce\"", "name = '<b>&\"'", StringComparison.Ordinal));
        Assert.Equal(0, Commanded.Run("bond", board, "--sheet", sheet).Code);
        string html = File.ReadAllText(sheet);
        Assert.DoesNotContain("<b>&", html, StringComparison.Ordinal);
        Assert.Contains("<b>&\"", XDocument.Parse(html).Descendants().Single(e => e.Name.LocalName == "h1").Value, StringComparison.Ordinal);
    }

    // Common practice, no source: 0.14 to 0.16 g/in² mixed, 12 to 20 g kept.
    [Theory]
    [InlineData("0.15 g/in²", "50 %", "")]
    [InlineData("0.12 g/in²", "50 %", "less is mixed")]
    [InlineData("0.18 g/in²", "50 %", "more is mixed")]
    [InlineData("0.15 g/in²", "30 %", "less should stay")]
    [InlineData("0.15 g/in²", "60 %", "more should stay")]
    public void What_lies_outside_the_usual_is_said(string mixed, string kept, string said)
    {
        string text = Commanded.Run("bond", "--area", "241 in²", "--mixed", mixed, "--kept", kept).Out;
        if (said.Length > 0) { Assert.Contains(said, text, StringComparison.Ordinal); }
        else { Assert.DoesNotContain("Note:", text, StringComparison.Ordinal); }
    }

    [Theory]
    [InlineData("--margin", "0.7")]
    [InlineData("--margin", "-3 mm")]
    [InlineData("--temperature", "80 °C")]
    [InlineData("--temperature", "22")]
    [InlineData("--cup", "900 g")]
    [InlineData("--cup", "12.4")]
    [InlineData("--scale-step", "0 g")]
    [InlineData("--letin-coverage", "10 mm")]
    [InlineData("--vacuum", "3 bar")]
    public void Bad_input_is_one_line_and_nothing_is_written(string option, string value)
    {
        using var folder = new TemporaryFolder();
        Refused(folder, Commanded.Run("bond", Commanded.Demo, "--sheet", folder.File("bond.html"), option, value), option);
    }

    [Theory]
    [InlineData("bond.txt")]
    [InlineData("missing/bond.html")]
    public void A_sheet_that_has_no_place_is_refused(string name)
    {
        using var folder = new TemporaryFolder();
        Refused(folder, Commanded.Run("bond", Commanded.Demo, "--sheet", folder.File(name)), "--sheet");
    }

    [Fact]
    public void A_margin_needs_a_board_with_a_size()
    {
        using var folder = new TemporaryFolder();
        Refused(folder, Commanded.Run("bond", "--area", "241 in²", "--margin", "10 mm", "--sheet", folder.File("bond.html")), "--margin");
    }

    private static void Refused(TemporaryFolder folder, Commanded run, string names)
    {
        Assert.Equal((2, ""), (run.Code, run.Out));
        Assert.Single(run.Err.TrimEnd().Split('\n'));
        Assert.Contains(names, run.Err, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFileSystemEntries(folder.Path));
    }

    private static string Grams(JsonElement kilograms) => (kilograms.GetDouble() * 1000).ToString("F1", CultureInfo.InvariantCulture) + " g";
}
