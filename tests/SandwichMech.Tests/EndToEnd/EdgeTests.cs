using System.Text.Json;

namespace SandwichMech.Tests.EndToEnd;

/// <summary>Edges held by stretches, boards that nothing holds, and cores too soft for the theory, as their maker meets them.</summary>
[Trait("Check", "exact")]
public sealed class EdgeTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    private string Board(string more, string held = "free")
    {
        string file = _folder.File("board.toml");
        File.WriteAllText(file, File.ReadAllText(Repository.File("shared", "demo", "outline.toml")).Replace("held = \"free\"", $"held = \"{held}\"", StringComparison.Ordinal) + "\n" + more);
        return file;
    }

    [Fact]
    public void A_neck_block_holds_a_board_that_is_free_elsewhere()
    {
        string file = Board("[edge_upper_end]\nacross = \"80 mm\"\nheld = \"clamped\"\n");
        using JsonDocument modes = JsonDocument.Parse(Commanded.Run("modes", file, "--count", "3", "--accuracy", "1 %", "--json").Out);
        Assert.Equal("free, clamped at the upper end", modes.RootElement.GetProperty("edge").GetString());
        Assert.Equal(0, modes.RootElement.GetProperty("rigid_modes").GetInt32());
        // It swings on its block well below what it does on foam.
        using JsonDocument foam = JsonDocument.Parse(Commanded.Run("modes", Board(""), "--count", "3", "--accuracy", "1 %", "--json").Out);
        Assert.True(First(modes) < 0.6 * First(foam) && First(modes) > 1);

        Commanded deflect = Commanded.Run("deflect", Board("[edge_upper_end]\nacross = \"80 mm\"\nheld = \"clamped\"\n"));
        Assert.Equal(0, deflect.Code);
        Assert.Contains("edge free, clamped at the upper end", deflect.Out, StringComparison.Ordinal);

        static double First(JsonDocument r) => r.RootElement.GetProperty("modes")[0].GetProperty("frequency_hz").GetProperty("value").GetDouble();
    }

    [Fact]
    public void Stretches_reach_every_command()
    {
        string file = Board("[edge_sides]\nfrom = \"180 mm\"\nto = \"300 mm\"\nheld = \"clamped\"\n\n[edge_lower_end]\nacross = \"60 mm\"\nheld = \"clamped\"\n", "hinged");
        foreach (string[] line in new[] { new[] { "estimate", file }, ["compare", file], ["modes", file, "--count", "2", "--accuracy", "1 %"], ["deflect", file] })
        {
            Commanded run = Commanded.Run(line);
            Assert.Equal(0, run.Code);
            Assert.Contains("hinged, clamped at the sides, clamped at the lower end", string.Join(' ', run.Out.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
        }
    }

    [Fact]
    public void A_board_that_nothing_holds_bears_no_load_and_that_is_one_line()
    {
        Commanded run = Commanded.Run("deflect", Board("[edge_upper_end]\nacross = \"80 mm\"\nheld = \"free\"\n"));
        Assert.Equal((2, ""), (run.Code, run.Out));
        Assert.Contains("bears no load", Assert.Single(run.Err.TrimEnd('\n').Split('\n')), StringComparison.Ordinal);
    }

    [Fact]
    public void A_core_too_soft_for_the_theory_is_said()
    {
        string[] rows = Commanded.Run("materials", "table", "cores").Out.Split('\n');
        string header = rows.First(r => r.StartsWith("name,", StringComparison.Ordinal));
        string[] names = header.Split(','), cells = rows.First(r => r.StartsWith("aramid honeycomb 3.2-29,", StringComparison.Ordinal)).Split(',');
        (cells[0], cells[1]) = ("jelly", "");
        cells[Array.IndexOf(names, "shear_ribbon_mpa")] = "0.5";
        cells[Array.IndexOf(names, "shear_across_mpa")] = "0.5";
        File.WriteAllLines(_folder.File("cores.csv"), [header, string.Join(',', cells)]);
        string file = Board("");
        File.WriteAllText(file, File.ReadAllText(file).Replace("aramid honeycomb 3.2-29", "jelly", StringComparison.Ordinal));
        Commanded run = Commanded.Run("modes", file, "--materials", _folder.Path, "--count", "8", "--accuracy", "1 %");
        Assert.Equal((0, ""), (run.Code, run.Err));
        Assert.Contains("skins begin to bend on their own", string.Join(' ', run.Out.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
        Assert.DoesNotContain("soft in shear", Commanded.Run("modes", Board(""), "--count", "3", "--accuracy", "1 %").Out, StringComparison.Ordinal);
    }
}
