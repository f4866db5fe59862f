using System.Text.Json;
using SandwichMech.Figures;
using SandwichMech.Tests.Pictures;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Tables;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.Tests.EndToEnd;

/// <summary>`deflect` on a board with an outline.</summary>
[Trait("Check", "exact")]
public class DeflectTests
{
    private static string Board => Repository.File("shared", "demo", "outline.toml");

    [Fact]
    public void Table_and_json_say_the_same_and_what_was_taken()
    {
        Commanded text = Commanded.Run("deflect", Board), json = Commanded.Run("deflect", Board, "--json");
        Assert.Equal((0, 0), (text.Code, json.Code));
        using JsonDocument document = JsonDocument.Parse(json.Out);
        JsonElement r = document.RootElement;
        Assert.Equal("rim", r.GetProperty("edge").GetString());
        Assert.Equal(400, r.GetProperty("strings").GetProperty("tension_n").GetDouble());
        // The bridge patch of the board file: 32 × 190 mm at 150 mm.
        Assert.Equal(0.150, r.GetProperty("bridge").GetProperty("at_m").GetDouble(), 1e-9);
        Assert.Equal(0.032, r.GetProperty("bridge").GetProperty("along_m").GetDouble(), 1e-9);
        double turn = Value(r, "bridge_rotation_rad") * 180 / Math.PI;
        Assert.Contains(turn.ToString("0.0", System.Globalization.CultureInfo.InvariantCulture), text.Out, StringComparison.Ordinal);
        Assert.Equal(1, Value(r, "deflection_per_force_m_per_n") * Value(r, "stiffness_at_bridge_n_per_m"), 1e-9);
        foreach (string said in new[] { "common practice, no source", "free board cannot bear strings", "eye protection", "Wood Handbook", "no bridge, braces or dome" })
        {
            Assert.Contains(said, string.Join(' ', text.Out.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
        }

        JsonElement[] line = [.. r.GetProperty("centre_line").EnumerateArray()];
        Assert.Equal(0, line[0].GetProperty("deflection_m").GetDouble(), 1e-9);
        Assert.DoesNotContain(line, p => Math.Abs(p.GetProperty("x_m").GetDouble() - 0.335) < 0.042);
    }

    [Fact]
    public void Tensions_of_single_strings_add_up_and_the_edge_is_as_told()
    {
        double one = Rotation("--tension", "300 N", "--edge", "clamped"), three = Rotation("--tension", "100 N", "--tension", "120 N", "--tension", "80 N", "--edge", "clamped");
        Assert.Equal(one, three, 1e-12);
        double hinged = Rotation("--tension", "300 N", "--edge", "hinged"), higher = Rotation("--tension", "300 N", "--edge", "clamped", "--height", "15 mm");
        Assert.True(hinged > one && higher > one);

        static double Rotation(params string[] options)
        {
            using JsonDocument document = JsonDocument.Parse(Commanded.Run([.. new[] { "deflect", Board, "--json" }, .. options]).Out);
            return Value(document.RootElement, "bridge_rotation_rad");
        }
    }

    [Fact]
    public void The_board_files_own_edge_is_taken_where_it_holds()
    {
        using var folder = new TemporaryFolder();
        string file = folder.File("board.toml");
        File.WriteAllText(file, File.ReadAllText(Board).Replace("held = \"free\"", "held = \"clamped\"", StringComparison.Ordinal));
        Commanded run = Commanded.Run("deflect", file);
        Assert.StartsWith("demo board on its outline: edge clamped", run.Out, StringComparison.Ordinal);
        Assert.DoesNotContain("cannot bear strings", run.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_a_bridge_patch_the_place_has_to_be_said()
    {
        using var folder = new TemporaryFolder();
        string file = folder.File("board.toml"), text = File.ReadAllText(Board);
        int from = text.IndexOf("[bridge_patch]", StringComparison.Ordinal), to = text.IndexOf("[edge]", StringComparison.Ordinal);
        File.WriteAllText(file, text[..from] + text[to..]);
        Commanded run = Commanded.Run("deflect", file);
        Assert.Equal(2, run.Code);
        Assert.Contains("--at", run.Err, StringComparison.Ordinal);
        Commanded said = Commanded.Run("deflect", file, "--at", "150 mm");
        Assert.Equal(0, said.Code);
        Assert.Contains("28 mm along by 190 mm across (common practice", said.Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("deflect DEMO", "outline")]
    [InlineData("deflect SHAPE --tension 400", "N")]
    [InlineData("deflect SHAPE --tension \"-3 N\"", "possible")]
    [InlineData("deflect SHAPE --height \"3 m\"", "possible")]
    [InlineData("deflect SHAPE --tailpiece \"90 °\"", "possible")]
    [InlineData("deflect SHAPE --edge free", "hinged")]
    [InlineData("deflect SHAPE --at \"5 mm\"", "beyond the outline")]
    [InlineData("deflect SHAPE --at \"300 mm\"", "soundhole")]
    [InlineData("deflect SHAPE --at \"335 mm\" --along \"100 mm\"", "soundhole")]
    [InlineData("deflect SHAPE --plot x.gif", ".png")]
    public void Wrong_input_is_one_clear_line(string line, string says)
    {
        Commanded run = Commanded.Run(Commanded.Words(line.Replace("DEMO", Commanded.Demo, StringComparison.Ordinal).Replace("SHAPE", Board, StringComparison.Ordinal)));
        Assert.Equal(2, run.Code);
        Assert.Single(run.Err.TrimEnd('\n').Split('\n'));
        Assert.Contains(says, run.Err, StringComparison.Ordinal);
        Assert.Empty(run.Out);
    }

    [Theory]
    [InlineData(UnitSystem.Metric, null)]
    [InlineData(UnitSystem.Inch, 0.2)]
    public void The_pictures_words_lie_in_it_and_apart(UnitSystem units, double? breakAngle)
    {
        BoardFile file = BoardFiles.Read(Board, MaterialTables.BuiltIn());
        Picture picture = BoardPictures.Deflect(DeflectBoard.Run(file, new() { BreakAngle = breakAngle, Accuracy = 0.02 }), units);
        IReadOnlyList<SvgWord> words = SvgWords.Of(picture);
        Assert.All(words, w => Assert.All(w.Corners(), c =>
            Assert.True(c.X >= 5 && c.X <= picture.Width - 5 && c.Y >= 5 && c.Y <= picture.Height - 5, $"'{w.Text}' reaches ({c.X:0}, {c.Y:0})")));
        Assert.Empty(words.SelectMany((a, i) => words.Skip(i + 1).Where(a.Overlaps).Select(b => $"'{a.Text}' and '{b.Text}'")));
        Assert.Contains(words, w => w.Text == "bridge");
    }

    private static double Value(JsonElement r, string name) => r.GetProperty(name).GetProperty("value").GetDouble();
}
