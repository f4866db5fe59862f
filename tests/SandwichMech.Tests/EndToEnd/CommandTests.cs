using System.Text.Json;

namespace SandwichMech.Tests.EndToEnd;

/// <summary>The commands as their user meets them: what they print, where they write, how they end.</summary>
[Trait("Check", "exact")]
public class CommandTests
{
    [Fact]
    public void Estimate_says_stiffness_mass_modes_and_the_equal_solid_first()
    {
        Commanded run = Commanded.Run("estimate", Commanded.Demo);
        Assert.Equal(0, run.Code);
        Assert.Empty(run.Err);
        foreach (string part in new[] { "Bending stiffness along", "Mass on", "The solid top that it equals", "Modes, approximate", "hinged rectangle" })
        {
            Assert.Contains(part, run.Out, StringComparison.Ordinal);
        }

        Assert.DoesNotContain("NaN", run.Out, StringComparison.Ordinal);
        Assert.DoesNotContain('\e', run.Out);
    }

    [Fact]
    public void Inch_and_metric_show_the_same_board()
    {
        using JsonDocument json = JsonDocument.Parse(Commanded.Run("estimate", Commanded.Demo, "--json").Out);
        double squareMetres = json.RootElement.GetProperty("area_m2").GetDouble();
        string metric = Commanded.Run("estimate", Commanded.Demo).Out, inch = Commanded.Run("estimate", Commanded.Demo, "--units", "inch").Out;
        Assert.Contains($"{squareMetres * 1e4:F0} cm²", metric, StringComparison.Ordinal);
        Assert.Contains($"{squareMetres / 0.0254 / 0.0254:F1} in²", inch, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("estimate", ".png")]
    [InlineData("estimate", ".svg")]
    [InlineData("compare", ".png")]
    [InlineData("compare", ".svg")]
    public void A_picture_is_written_where_it_is_wanted(string command, string ending)
    {
        using var folder = new TemporaryFolder();
        string file = folder.File("picture" + ending);
        Commanded run = Commanded.Run(command, Commanded.Demo, "--plot", file);
        Assert.Equal(0, run.Code);
        Assert.True(new FileInfo(file).Length > 5000, "The picture is all but empty.");
        Assert.Contains(file, run.Err, StringComparison.Ordinal);
        Assert.Single(Directory.GetFiles(folder.Path));
    }

    [Fact]
    public void A_sweep_is_table_csv_and_plot_of_the_same_boards()
    {
        using var folder = new TemporaryFolder();
        string csv = folder.File("sweep.csv"), png = folder.File("sweep.png");
        Commanded run = Commanded.Run("sweep", Commanded.Demo, "--vary", "skins 0.4 mm to 1.0 mm by 0.1 mm", "--vary", "core 1.5 mm to 3 mm in 4 steps", "--csv", csv, "--plot", png, "--json");
        Assert.Equal(0, run.Code);
        using JsonDocument json = JsonDocument.Parse(run.Out);
        JsonElement rows = json.RootElement.GetProperty("rows");
        string[] lines = File.ReadAllLines(csv);
        Assert.Equal(7 * 4, rows.GetArrayLength());
        Assert.Equal(7 * 4 + 1, lines.Length);
        int at = Array.IndexOf(lines[0].Split(','), "bending_stiffness_along_n_m");
        double[] fromCsv = [.. lines.Skip(1).Select(l => double.Parse(l.Split(',')[at], System.Globalization.CultureInfo.InvariantCulture))];
        double[] fromJson = [.. rows.EnumerateArray().Select(r => r.GetProperty("bending_stiffness_along_n_m").GetDouble())];
        Assert.Equal(fromJson.Length, fromCsv.Length);
        Assert.All(fromJson.Zip(fromCsv), pair => Assert.Equal(pair.First, pair.Second, 1e-8 * pair.First));
        Assert.True(File.Exists(png));
    }

    [Theory]
    [InlineData("core 0.06 in to 0.12 in in 4 steps", 4)]
    [InlineData("outer 0.4 mm to 1 mm by 0.05 mm", 13)]
    [InlineData("outer 0.4 mm to 1 mm by 0.25 mm", 3)]
    [InlineData("skins 16 thou to 30 thou", 13)]
    public void What_is_varied_is_read_as_it_is_said(string vary, int boards)
    {
        using JsonDocument json = JsonDocument.Parse(Commanded.Run("sweep", Commanded.Demo, "--vary", vary, "--json").Out);
        Assert.Equal(boards, json.RootElement.GetProperty("rows").GetArrayLength());
    }

    [Fact]
    public void A_bond_on_a_typed_area_mixes_area_times_coverage()
    {
        // Common practice, no source: 241 in² at 0.14 to 0.16 g/in² is 33.7 to 38.6 g mixed.
        foreach ((string coverage, string grams) in new[] { ("0.14 g/in²", "33.7 g"), ("0.16 g/in²", "38.6 g") })
        {
            Commanded run = Commanded.Run("bond", "--area", "241 in²", "--mixed", coverage);
            Assert.Equal(0, run.Code);
            Assert.Contains($"Mixed {grams}", run.Out, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void A_bond_shows_its_cautions_before_the_scale()
    {
        string text = Commanded.Run("bond", Commanded.Demo).Out;
        Assert.True(text.IndexOf("safety data sheet", StringComparison.Ordinal) is > 0 and int at && at < text.IndexOf("at the scale", StringComparison.Ordinal));
        foreach (string danger in new[] { "allergic", "fresh air", "heats itself", "Heat gun", "Vacuum" })
        {
            Assert.Contains(danger, text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Materials_show_gives_the_source_of_every_value()
    {
        Commanded run = Commanded.Run("materials", "show", "Sitka spruce");
        Assert.Equal(0, run.Code);
        Assert.Contains("Source: FPL-GTR-282", run.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void Own_tables_override_and_extend()
    {
        using var folder = new TemporaryFolder();
        string[] lines = Commanded.Run("materials", "table", "woods").Out.Split('\n');
        int header = Array.FindIndex(lines, l => l.StartsWith("name,", StringComparison.Ordinal));
        string sitka = lines.Single(l => l.StartsWith("Sitka spruce,", StringComparison.Ordinal));
        File.WriteAllLines(folder.File("woods.csv"), [lines[header], sitka.Replace(",448,", ",400,", StringComparison.Ordinal), sitka.Replace("Sitka spruce", "billet from the attic", StringComparison.Ordinal)]);
        using JsonDocument json = JsonDocument.Parse(Commanded.Run("materials", "--materials", folder.Path, "--json").Out);
        JsonElement woods = json.RootElement.GetProperty("woods");
        double Density(string name) => woods.EnumerateArray().Single(w => w.GetProperty("name").GetString() == name).GetProperty("density_kg_m3").GetProperty("value").GetDouble();
        Assert.Equal(400, Density("Sitka spruce"));
        Assert.Equal(448, Density("billet from the attic"));
    }

    [Fact]
    public void New_writes_a_board_that_estimate_reads_and_never_over_another()
    {
        using var folder = new TemporaryFolder();
        string file = folder.File("board.toml");
        Commanded asked = Commanded.WithAnswers("the first\n\n\n\n\n0.7\n0.7 mm\n", "new", file);
        Assert.Equal(0, asked.Code);
        Assert.True(asked.Err.Split('?').Length - 1 <= 10 + 1, "It asks more than ten things.");
        Assert.Contains("0.7 mm", asked.Err, StringComparison.Ordinal);
        Commanded estimate = Commanded.Run("estimate", file);
        Assert.Equal(0, estimate.Code);
        Assert.StartsWith("the first", estimate.Out, StringComparison.Ordinal);
        string before = File.ReadAllText(file);
        Commanded again = Commanded.Run("new", file, "--offered");
        Assert.Equal(2, again.Code);
        Assert.Equal(before, File.ReadAllText(file));
    }

    [Theory]
    [InlineData("estimat x.toml", "did you mean 'estimate'")]
    [InlineData("estimate no-such.toml", "no such file")]
    [InlineData("estimate", "BOARD")]
    [InlineData("", "--help")]
    [InlineData("bond --json", "--area")]
    [InlineData("bond --area 241", "unit")]
    [InlineData("bond --area \"0.7 g\"", "mass")]
    [InlineData("bond --area \"1,500 cm²\"", "1500")]
    [InlineData("bond --area NaN", "NaN")]
    [InlineData("bond --area \"241 in²\" --bead \"0.2 g/in\"", "--bead-line")]
    [InlineData("bond --area \"241 in²\" --adhesive epoxi", "adhesive")]
    [InlineData("materials show \"Stika spruce\"", "did you mean")]
    [InlineData("materials --materials nowhere", "no such folder")]
    [InlineData("sweep DEMO", "--vary")]
    [InlineData("sweep DEMO --vary \"outer 0.4 to 1 mm\"", "unit")]
    [InlineData("sweep DEMO --vary \"neck 0.4 mm to 1 mm\"", "outer, inner, skins, core")]
    [InlineData("sweep DEMO --vary \"outer 1 mm to 0.4 mm\"", "larger")]
    [InlineData("sweep DEMO --vary \"outer 0.4 mm to 1 mm by 0.0001 mm\"", "401")]
    [InlineData("sweep DEMO --vary \"outer 0.4 mm to 1 mm\" --vary \"skins 0.4 mm to 1 mm\"", "twice")]
    [InlineData("estimate DEMO --units miles", "miles")]
    [InlineData("estimate DEMO --plot picture.bmp", ".png")]
    [InlineData("estimate DEMO --colour", "--no-color")]
    public void Wrong_input_is_one_clear_line_and_exit_code_2(string line, string says)
    {
        Commanded run = Commanded.Run(Commanded.Words(line.Replace("DEMO", Commanded.Demo, StringComparison.Ordinal)));
        Assert.Equal(2, run.Code);
        Assert.Empty(run.Out);
        Assert.Single(run.Err.TrimEnd('\n').Split('\n'));
        Assert.Contains(says, run.Err, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", run.Err, StringComparison.Ordinal);
    }

    [Fact]
    public void What_cannot_be_written_is_said_with_exit_code_1()
    {
        Commanded run = Commanded.Run("sweep", Commanded.Demo, "--vary", "core 1.5 mm to 3 mm", "--csv", "/no/such/folder/rows.csv");
        Assert.Equal(1, run.Code);
        Assert.Empty(run.Out);
        Assert.Single(run.Err.TrimEnd('\n').Split('\n'));
        // A picture's place is looked at before anything is worked out.
        Commanded picture = Commanded.Run("estimate", Commanded.Demo, "--plot", "/no/such/folder/picture.svg");
        Assert.Equal(2, picture.Code);
        Assert.Empty(picture.Out);
        Assert.Single(picture.Err.TrimEnd('\n').Split('\n'));
    }

    [Theory]
    [InlineData("bash", "complete")]
    [InlineData("zsh", "compdef")]
    [InlineData("fish", "complete -c sandwichmech")]
    [InlineData("pwsh", "Register-ArgumentCompleter")]
    public void Completion_prints_a_script(string shell, string has) =>
        Assert.Contains(has, Commanded.Run("completion", shell).Out, StringComparison.Ordinal);

    [Fact]
    public void Completion_offers_commands_and_options()
    {
        Assert.Contains("estimate", Commanded.Run("[suggest:4]", "esti").Out, StringComparison.Ordinal);
        Assert.Contains("--vary", Commanded.Run("[suggest:13]", "sweep x --var").Out, StringComparison.Ordinal);
    }
}
