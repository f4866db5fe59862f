using System.Globalization;
using System.Text.Json;

namespace SandwichMech.Tests.EndToEnd;

/// <summary>`compare`, `sweep` and `estimate` of a board with an outline: its own modes and its own bridge, no rectangle.</summary>
[Trait("Check", "exact")]
public sealed class CompareOnOutlineTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    private string Board(string held = "free", string criterion = "stiffness along", string without = "")
    {
        string file = _folder.File($"{held}-{criterion.Replace(' ', '-')}.toml"), text = File.ReadAllText(Repository.File("shared", "demo", "outline.toml"));
        text = text.Replace("held = \"free\"", $"held = \"{held}\"", StringComparison.Ordinal) + $"criterion = \"{criterion}\"\n";
        if (without.Length > 0) { text = string.Join("\n\n", text.Split("\n\n").Where(table => !table.StartsWith($"[{without}]", StringComparison.Ordinal))); }
        File.WriteAllText(file, text);
        return file;
    }

    // On a rim: the first mode is the one that `modes` shows, the bridge's stiffness and its solid those that `deflect` shows.
    [Fact]
    public void Compare_uses_the_modes_and_the_bridge_that_modes_and_deflect_show()
    {
        string file = Board("rim");
        Commanded text = Commanded.Run("compare", file);
        Assert.Equal(0, text.Code);
        Assert.DoesNotContain("rectangle", text.Out + text.Err, StringComparison.Ordinal);
        using JsonDocument compare = JsonDocument.Parse(Commanded.Run("compare", file, "--json").Out);
        using JsonDocument modes = JsonDocument.Parse(Commanded.Run("modes", file, "--count", "3", "--accuracy", "0.3 %", "--json").Out);
        using JsonDocument deflect = JsonDocument.Parse(Commanded.Run("deflect", file, "--json").Out);
        string first = modes.RootElement.GetProperty("modes")[0].GetProperty("frequency_hz").GetProperty("value").GetDouble().ToString("F1", CultureInfo.InvariantCulture);
        Assert.Contains(compare.RootElement.GetProperty("means").EnumerateArray(), m => m.GetString()!.StartsWith($"first mode: {first} Hz", StringComparison.Ordinal));
        JsonElement bridge = Solid(compare, "mid-span deflection");
        Assert.Equal("sinking of the bridge on the outline", bridge.GetProperty("by").GetString());
        Checks.Near(deflect.RootElement.GetProperty("solid").GetProperty("thickness_m").GetProperty("value").GetDouble(), Value(bridge), 1e-3);
        Assert.Equal("first mode on the outline, in air", Solid(compare, "first mode").GetProperty("by").GetString());
        Assert.Equal(5, compare.RootElement.GetProperty("named_solid").GetProperty("matching_skins").GetArrayLength());
    }

    [Theory]
    [InlineData("free", "", "its edge is free")]
    [InlineData("rim", "bridge_patch", "places no bridge")]
    public void Without_a_bridge_or_a_held_edge_it_is_a_strip_and_says_why(string held, string without, string why)
    {
        Commanded run = Commanded.Run("compare", Board(held, without: without), "--json");
        Assert.Equal(0, run.Code);
        using JsonDocument compare = JsonDocument.Parse(run.Out);
        Assert.Equal("strip along the grain", Solid(compare, "mid-span deflection").GetProperty("by").GetString());
        Assert.Contains(compare.RootElement.GetProperty("means").EnumerateArray(), m => m.GetString()!.Contains(why, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("first mode")]
    [InlineData("mid-span deflection")]
    public void Estimate_compare_and_sweep_find_the_same_solid(string criterion)
    {
        string file = Board("clamped", criterion);
        using JsonDocument estimate = JsonDocument.Parse(Commanded.Run("estimate", file, "--json").Out), compare = JsonDocument.Parse(Commanded.Run("compare", file, "--json").Out);
        using JsonDocument sweep = JsonDocument.Parse(Commanded.Run("sweep", file, "--vary", "outer 0.66 mm to 0.862 mm in 3 steps", "--json").Out);
        double wanted = Value(Solid(compare, criterion));
        Checks.Near(wanted, Value(estimate.RootElement.GetProperty("solid")), 1e-6);
        // 0.030 in is 0.762 mm, the middle of that sweep up to a hair.
        Checks.Near(wanted, sweep.RootElement.GetProperty("rows")[1].GetProperty("equal_solid_thickness_m").GetDouble(), 2e-3);
        Assert.Equal(Solid(compare, criterion).GetProperty("by").GetString(), sweep.RootElement.GetProperty("by").GetString());
    }

    [Fact]
    public void Sweep_shows_the_modes_that_modes_shows_with_intervals_and_the_named_solid()
    {
        string file = Board("rim"), csv = _folder.File("sweep.csv"), png = _folder.File("sweep.png");
        Commanded run = Commanded.Run("sweep", file, "--vary", "core 1.4 mm to 2.2 mm in 5 steps", "--json", "--csv", csv, "--plot", png);
        Assert.Equal(0, run.Code);
        using JsonDocument sweep = JsonDocument.Parse(run.Out);
        using JsonDocument modes = JsonDocument.Parse(Commanded.Run("modes", file, "--count", "5", "--accuracy", "0.3 %", "--json").Out);
        JsonElement row = sweep.RootElement.GetProperty("rows")[2];
        for (int i = 0; i < 5; i++)
        {
            JsonElement f = modes.RootElement.GetProperty("modes")[i].GetProperty("frequency_hz");
            Checks.Near(f.GetProperty("value").GetDouble(), row.GetProperty("modes_hz")[i].GetDouble(), 3e-3);
            Checks.Near(f.GetProperty("low90").GetDouble(), row.GetProperty("modes_low90_hz")[i].GetDouble(), 5e-3);
            Checks.Near(f.GetProperty("high90").GetDouble(), row.GetProperty("modes_high90_hz")[i].GetDouble(), 5e-3);
        }

        Assert.Equal(2.6e-3, sweep.RootElement.GetProperty("named_solid_thickness_m").GetDouble(), 1e-12);
        Assert.Contains("on the outline", sweep.RootElement.GetProperty("means").GetString(), StringComparison.Ordinal);
        string[] lines = File.ReadAllLines(csv);
        Assert.Equal(6, lines.Length);
        Assert.All(lines, l => Assert.Equal(lines[0].Count(c => c == ','), l.Count(c => c == ',')));
        Assert.Contains("mode_5_high90_hz", lines[0], StringComparison.Ordinal);
        Assert.True(File.Exists(png));
    }

    // Lines run along the thickness with more values, so the two sweeps take different ways; each board is the same.
    [Fact]
    public void Two_thicknesses_give_each_board_whichever_stands_first()
    {
        const string skins = "skins 0.5 mm to 0.9 mm in 2 steps", core = "core 1.5 mm to 2.5 mm in 3 steps";
        double[][] one = Swept(skins, core), other = Swept(core, skins);
        Assert.Equal(6, one.Length);
        for (int s = 0; s < 2; s++)
        {
            for (int c = 0; c < 3; c++)
            {
                double[] a = one[3 * s + c], b = other[2 * c + s];
                Assert.Equal(a[0], b[1], 1e-12);
                Assert.Equal(a[1], b[0], 1e-12);
                Checks.Near(a[2], b[2], 1e-3);
            }
        }

        Assert.True(one[0][2] < one[1][2] && one[1][2] < one[2][2] && one[0][2] < one[3][2]);

        double[][] Swept(params string[] vary)
        {
            using JsonDocument sweep = JsonDocument.Parse(Commanded.Run("sweep", Board(), "--vary", vary[0], "--vary", vary[1], "--json").Out);
            return [.. sweep.RootElement.GetProperty("rows").EnumerateArray().Select(r =>
                (double[])[r.GetProperty("values_m")[0].GetDouble(), r.GetProperty("values_m")[1].GetDouble(), r.GetProperty("modes_hz")[0].GetDouble()])];
        }
    }

    [Fact]
    public void A_board_that_no_solid_top_can_equal_is_one_line()
    {
        string file = _folder.File("board.toml");
        File.WriteAllText(file, File.ReadAllText(Commanded.Demo).Replace("height = \"1.8 mm\"", "height = \"50 mm\"", StringComparison.Ordinal)
            .Replace("thickness = \"0.030 in\"", "thickness = \"10 mm\"", StringComparison.Ordinal).Replace("thickness = \"0.024 in\"", "thickness = \"10 mm\"", StringComparison.Ordinal)
            .Replace("[solid]", "[solid] # ", StringComparison.Ordinal).Replace("wood = \"western redcedar\"\nthickness = \"2.6 mm\"", "wood = \"feather\"", StringComparison.Ordinal));
        string woods = _folder.File("woods.csv"), line = Commanded.Run("materials", "table", "woods").Out;
        string[] rows = line.Split('\n');
        string header = rows.First(r => r.StartsWith("name,", StringComparison.Ordinal)), balsa = rows.First(r => r.StartsWith("balsa,", StringComparison.Ordinal));
        string[] cells = balsa.Split(',');
        cells[0] = "feather";
        cells[Array.IndexOf(header.Split(','), "e_l_gpa")] = "0.1";
        File.WriteAllLines(woods, [header, string.Join(',', cells)]);
        foreach (string command in new[] { "estimate", "compare", "sweep" })
        {
            string[] vary = command == "sweep" ? ["--vary", "core 49 mm to 50 mm in 2 steps"] : [];
            Commanded run = Commanded.Run([command, file, "--materials", _folder.Path, .. vary]);
            Assert.Equal((2, ""), (run.Code, run.Out));
            Assert.Contains("no solid top of feather between 0.05 and 200 mm", Assert.Single(run.Err.TrimEnd('\n').Split('\n')), StringComparison.Ordinal);
        }
    }

    private static JsonElement Solid(JsonDocument compare, string criterion) =>
        compare.RootElement.GetProperty("solids").EnumerateArray().Single(s => s.GetProperty("criterion").GetString() == criterion);

    private static double Value(JsonElement solid) => solid.GetProperty("thickness_m").GetProperty("value").GetDouble();
}
