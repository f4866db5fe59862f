using System.Text.Json;
using System.Xml.Linq;

namespace SandwichMech.Tests.EndToEnd;

/// <summary>`modes` and `estimate` on a board with an outline.</summary>
[Trait("Check", "exact")]
public class ModesTests
{
    private static string Board => Repository.File("shared", "demo", "outline.toml");

    [Fact]
    public void Modes_are_table_json_picture_and_vtk_of_the_same_board()
    {
        using var folder = new TemporaryFolder();
        string png = folder.File("modes.png"), vtu = folder.File("modes.vtu");
        Commanded run = Commanded.Run("modes", Board, "--count", "6", "--accuracy", "0.5 %", "--plot", png, "--vtu", vtu, "--json");
        Assert.Equal(0, run.Code);
        using JsonDocument json = JsonDocument.Parse(run.Out);
        JsonElement[] modes = [.. json.RootElement.GetProperty("modes").EnumerateArray()];
        Assert.Equal(6, modes.Length);
        double[] frequencies = [.. modes.Select(m => m.GetProperty("frequency_hz").GetProperty("value").GetDouble())];
        Assert.Equal(frequencies.Order(), frequencies);
        Assert.All(modes, m =>
        {
            double low = m.GetProperty("frequency_hz").GetProperty("low90").GetDouble(), high = m.GetProperty("frequency_hz").GetProperty("high90").GetDouble();
            Assert.InRange(m.GetProperty("frequency_hz").GetProperty("value").GetDouble(), low, high);
            Assert.InRange(m.GetProperty("energy").EnumerateObject().Sum(e => e.Value.GetDouble()), 1 - 1e-6, 1 + 1e-6);
        });
        Assert.True(new FileInfo(png).Length > 50_000);

        XElement piece = XDocument.Load(vtu).Root!.Element("UnstructuredGrid")!.Element("Piece")!;
        int points = (int)piece.Attribute("NumberOfPoints")!, cells = (int)piece.Attribute("NumberOfCells")!;
        Assert.Equal(3 * points, Numbers(piece.Element("Points")!.Element("DataArray")!).Length);
        Assert.Equal(3 * cells, Numbers(piece.Element("Cells")!.Elements("DataArray").First()).Length);
        Assert.Equal(6, piece.Element("PointData")!.Elements("DataArray").Count());
        Assert.All(piece.Element("PointData")!.Elements("DataArray"), d => Assert.Equal(1, Numbers(d).Max(Math.Abs), 1e-6));
    }

    // A free sandwich board falls by three to six per cent (the project's own computation with another program), higher modes by less.
    [Fact]
    public void Air_is_taken_along_unless_it_is_left_out()
    {
        Commanded run = Commanded.Run("modes", Board, "--count", "3", "--accuracy", "1 %", "--json");
        Commanded left = Commanded.Run("modes", Board, "--count", "3", "--accuracy", "1 %", "--no-air", "--json");
        using JsonDocument air = JsonDocument.Parse(run.Out), vacuo = JsonDocument.Parse(left.Out);
        Assert.Equal("free to flow round the edge", air.RootElement.GetProperty("air").GetString());
        Assert.Equal("none", vacuo.RootElement.GetProperty("air").GetString());
        for (int i = 0; i < 3; i++)
        {
            double without = Of(vacuo, i, "frequency_in_vacuo_hz").GetDouble();
            Checks.Near(without, Of(vacuo, i, "frequency_hz").GetProperty("value").GetDouble(), 1e-12);
            Checks.Near(without, Of(air, i, "frequency_in_vacuo_hz").GetDouble(), 1e-6);
            Checks.Within(0.03, 0.06, 1 - Of(air, i, "frequency_hz").GetProperty("value").GetDouble() / without);
        }

        Assert.Contains("no air", Commanded.Run("modes", Board, "--count", "3", "--accuracy", "1 %").Out, StringComparison.Ordinal);

        static JsonElement Of(JsonDocument json, int mode, string name) => json.RootElement.GetProperty("modes")[mode].GetProperty(name);
    }

    // The demo board is alike on both sides of its centre line. A mode's mass is least where it moves most.
    [Fact]
    public void Modal_masses_centre_of_mass_and_mobility_come_from_the_same_model()
    {
        using var folder = new TemporaryFolder();
        string file = folder.File("board.toml");
        File.WriteAllText(file, File.ReadAllText(Board).Replace("held = \"free\"", "held = \"rim\"", StringComparison.Ordinal));
        Commanded text = Commanded.Run("modes", file, "--count", "8", "--accuracy", "1 %");
        using JsonDocument json = JsonDocument.Parse(Commanded.Run("modes", file, "--count", "8", "--accuracy", "1 %", "--loss", "2 %", "--json").Out);
        JsonElement r = json.RootElement;
        Assert.Equal(0, r.GetProperty("centre_of_mass_y_m").GetDouble(), 1e-6);
        Assert.InRange(r.GetProperty("centre_of_mass_x_m").GetDouble(), 0.20, 0.25);
        double board = r.GetProperty("mass_kg").GetDouble();
        Assert.All(r.GetProperty("modes").EnumerateArray(), m =>
        {
            double most = m.GetProperty("modal_mass_at_antinode_kg").GetDouble();
            Assert.InRange(most, 0.01 * board, board);
            JsonElement atBridge = m.GetProperty("modal_mass_at_bridge_kg");
            Assert.True(atBridge.ValueKind == JsonValueKind.Null || atBridge.GetDouble() > most);
        });
        JsonElement mobility = r.GetProperty("mobility_at_bridge");
        Assert.Equal(0.02, mobility.GetProperty("loss_factor").GetDouble(), 1e-12);
        JsonElement first = r.GetProperty("modes")[0];
        double f = first.GetProperty("frequency_hz").GetProperty("value").GetDouble();
        double peak = mobility.GetProperty("curve").EnumerateArray().First(p => Math.Abs(p.GetProperty("frequency_hz").GetDouble() - f) < 1e-9).GetProperty("magnitude_s_per_kg").GetDouble();
        // At its resonance a mode alone gives Q/(ω m).
        Checks.Near(1 / (0.02 * 2 * Math.PI * f * first.GetProperty("modal_mass_at_bridge_kg").GetDouble()), peak, 0.02);
        foreach (string said in new[] { "Centre of mass", "Modal mass at the bridge: mode 1", "Mobility at the bridge", "common practice, no source" })
        {
            Assert.Contains(said, text.Out, StringComparison.Ordinal);
        }

        Assert.Contains(first.GetProperty("frequency_hz").GetProperty("mostly_from").EnumerateArray(), s => s.GetProperty("input").GetString() == "rim's hold");
    }

    [Fact]
    public void Mass_and_area_by_region_add_up_and_estimate_agrees()
    {
        using JsonDocument modes = JsonDocument.Parse(Commanded.Run("modes", Board, "--count", "3", "--accuracy", "1 %", "--json").Out);
        using JsonDocument estimate = JsonDocument.Parse(Commanded.Run("estimate", Board, "--json").Out);
        JsonElement[] regions = [.. modes.RootElement.GetProperty("regions").EnumerateArray()];
        Assert.Equal(["sandwich", "edge band", "hole ring", "bridge patch"], regions.Select(r => r.GetProperty("region").GetString()));
        double mass = modes.RootElement.GetProperty("mass_kg").GetDouble();
        Assert.Equal(mass, regions.Sum(r => r.GetProperty("mass_kg").GetDouble()), 1e-12);
        // Two meshes of the same curves: their quadrature differs far below a milligram.
        Assert.Equal(mass, estimate.RootElement.GetProperty("mass_kg").GetProperty("value").GetDouble(), 1e-7);
        Assert.Equal(estimate.RootElement.GetProperty("area_m2").GetDouble(), regions.Sum(r => r.GetProperty("area_m2").GetDouble()), 1e-7);
        // A ring of 15 mm around a hole of 85 mm, and a patch of 32 by 190 mm.
        Assert.Equal(Math.PI * (57.5 * 57.5 - 42.5 * 42.5) * 1e-6, regions[2].GetProperty("area_m2").GetDouble(), 1e-8);
        Assert.Equal(32 * 190e-6, regions[3].GetProperty("area_m2").GetDouble(), 1e-9);
    }

    // Said before any plate is solved: a model takes minutes.
    [Theory]
    [InlineData("free", "--samples 5", "--samples: '5' is no number of boards")]
    [InlineData("free", "--samples abc", "--samples: 'abc' is no number of boards")]
    [InlineData("free", "--samples 200 --seed x", "--seed: 'x' is no seed")]
    [InlineData("rim", "--samples 200", "--samples: a rim's hold")]
    public void Boards_that_cannot_be_sampled_are_refused_in_one_line(string held, string options, string why)
    {
        using var folder = new TemporaryFolder();
        string file = folder.File("board.toml");
        File.WriteAllText(file, File.ReadAllText(Board).Replace("held = \"free\"", $"held = \"{held}\"", StringComparison.Ordinal));
        Commanded run = Commanded.Run(["modes", file, .. Commanded.Words(options)]);
        Assert.Equal((2, ""), (run.Code, run.Out));
        Assert.StartsWith(why, Assert.Single(run.Err.TrimEnd('\n').Split('\n')), StringComparison.Ordinal);
    }

    [Fact]
    public void A_held_edge_raises_the_first_mode_in_the_order_of_its_holding()
    {
        double First(string held)
        {
            using var folder = new TemporaryFolder();
            string file = folder.File("board.toml");
            File.WriteAllText(file, File.ReadAllText(Board).Replace("held = \"free\"", $"held = \"{held}\"", StringComparison.Ordinal));
            using JsonDocument json = JsonDocument.Parse(Commanded.Run("modes", file, "--count", "2", "--accuracy", "1 %", "--json").Out);
            return json.RootElement.GetProperty("modes")[0].GetProperty("frequency_hz").GetProperty("value").GetDouble();
        }

        double free = First("free"), hinged = First("hinged"), clamped = First("clamped");
        Assert.True(free < hinged && hinged < clamped, $"{free:F1} < {hinged:F1} < {clamped:F1}");
    }

    [Theory]
    [InlineData("held = \"free\"", "held = \"glued\"", "edge.held", "free, hinged, clamped")]
    [InlineData("waist = \"9.4 in\"", "waist = \"15 in\"", "outline.waist", "wider")]
    [InlineData("waist = \"9.4 in\"", "", "outline.waist", "needs it too")]
    [InlineData("diameter = \"85 mm\"", "", "hole.at", "diameter")]
    [InlineData("at = \"335 mm\"", "at = \"460 mm\"", "hole.at", "reaches the outline")]
    [InlineData("width = \"15 mm\"", "width = \"99 mm\"", "hole_ring.width", "reaches the outline")]
    [InlineData("across = \"190 mm\"", "across = \"400 mm\"", "bridge_patch.across", "beyond the outline")]
    [InlineData("at = \"150 mm\"", "at = \"290 mm\"", "bridge_patch.at", "reaches the hole")]
    [InlineData("width = \"10 mm\"", "width = \"13 cm\"", "edge_band.width", "narrower")]
    public void A_shape_that_cannot_be_is_named_with_its_field(string good, string bad, string field, string says)
    {
        using var folder = new TemporaryFolder();
        string file = folder.File("board.toml");
        File.WriteAllText(file, File.ReadAllText(Board).Replace(good, bad, StringComparison.Ordinal));
        Commanded run = Commanded.Run("modes", file);
        Assert.Equal(2, run.Code);
        Assert.Contains(field, run.Err, StringComparison.Ordinal);
        Assert.Contains(says, run.Err, StringComparison.Ordinal);
        Assert.Empty(run.Out);
    }

    [Theory]
    [InlineData("modes DEMO", "outline")]
    [InlineData("modes SHAPE --count 0", "1 to 60")]
    [InlineData("modes SHAPE --count x", "1 to 60")]
    [InlineData("modes SHAPE --accuracy 0.1", "%")]
    [InlineData("modes SHAPE --accuracy \"90 %\"", "possible")]
    [InlineData("modes SHAPE --loss \"50 %\"", "possible")]
    [InlineData("modes SHAPE --plot x.gif", ".png")]
    [InlineData("modes SHAPE --plot /no/such/folder/modes.png", "there is no folder /no/such/folder")]
    [InlineData("modes SHAPE --vtu /no/such/folder/modes.vtu", "there is no folder /no/such/folder")]
    public void Wrong_input_is_one_clear_line(string line, string says)
    {
        Commanded run = Commanded.Run(Commanded.Words(line.Replace("DEMO", Commanded.Demo, StringComparison.Ordinal).Replace("SHAPE", Board, StringComparison.Ordinal)));
        Assert.Equal(2, run.Code);
        Assert.Single(run.Err.TrimEnd('\n').Split('\n'));
        Assert.Contains(says, run.Err, StringComparison.Ordinal);
    }

    private static double[] Numbers(XElement data) =>
        [.. data.Value.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries).Select(s => double.Parse(s, System.Globalization.CultureInfo.InvariantCulture))];
}
