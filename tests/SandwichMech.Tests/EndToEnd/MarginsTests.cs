using System.Text.Json;

namespace SandwichMech.Tests.EndToEnd;

/// <summary>`margins` with and without an outline.</summary>
[Trait("Check", "exact")]
public class MarginsTests
{
    private static string Board => Repository.File("shared", "demo", "outline.toml");

    [Fact]
    public void Twice_the_tension_is_half_the_margin_and_what_is_not_known_is_said()
    {
        using JsonDocument one = Json(Board, "--tension", "300 N"), two = Json(Board, "--tension", "600 N");
        foreach (string name in new[] { "skin wrinkling along", "core shear", "skin tension along the grain", "shear crimping of the board" })
        {
            Checks.Near(Margin(one, name) / 2, Margin(two, name), 1e-6, name);
        }

        Assert.Equal(Margin(one, "core crushing under vacuum"), Margin(two, "core crushing under vacuum"), 1e-12);
        // Cedar and spruce both have their strengths in the table: 220 psi bounds the outer skin across the grain, 370 psi the inner.
        double splits = Row(one, "skin tension across the grain").GetProperty("resistance").GetProperty("value").GetDouble();
        Assert.True(splits is 1.52e6 or 2.55e6, $"{splits}");
        Assert.Empty(one.RootElement.GetProperty("not_known").EnumerateArray());
        Commanded text = Commanded.Run("margins", Board);
        Assert.Equal(0, text.Code);
        foreach (string said in new[] { "so not judged: none", "judgement", "Zenkert", "knock-down", "eye protection", "common practice, no source", "plain sandwich" })
        {
            Assert.Contains(said, string.Join(' ', text.Out.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
        }
    }

    // The skins' bending strain by hand from the board's own moment is not at hand; but what the bridge pulls has to pass the strip before it:
    // the largest compression lies before the bridge, the largest tension on the outer face behind it.
    [Fact]
    public void The_outer_skin_is_pressed_before_the_bridge_and_pulled_behind_it()
    {
        using JsonDocument r = Json(Board);
        double bridge = 0.150;
        Assert.True(Row(r, "skin wrinkling along").GetProperty("x_m").GetDouble() > bridge);
        JsonElement pulled = Row(r, "skin tension along the grain");
        Assert.True(pulled.GetProperty("x_m").GetDouble() < bridge);
        Assert.Contains("outer skin, outward face", pulled.GetProperty("governing").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Without_an_outline_the_press_and_the_air_are_judged()
    {
        using JsonDocument r = Json(Commanded.Demo, "--clamps", "0.2 MPa", "--vacuum", "80 kPa");
        Checks.Near(0.724e6 / 80e3, Margin(r, "core crushing under vacuum"), 1e-9);
        Checks.Near(0.724e6 / 0.2e6, Margin(r, "core crushing under clamps or bridge"), 1e-9);
        Assert.Equal(JsonValueKind.Null, Row(r, "core shear").GetProperty("load").ValueKind);
        Assert.Equal(2, r.RootElement.GetProperty("humidity").GetArrayLength());
        Assert.Contains("without an outline", Commanded.Run("margins", Commanded.Demo).Out, StringComparison.Ordinal);
    }

    [Fact]
    public void The_picture_names_each_margin_the_nearest_on_top()
    {
        using var folder = new TemporaryFolder();
        Commanded run = Commanded.Run("margins", Board, "--accuracy", "1 %", "--plot", folder.File("margins.svg"));
        Assert.Equal(0, run.Code);
        using JsonDocument r = Json(Board, "--accuracy", "1 %");
        string svg = File.ReadAllText(folder.File("margins.svg"));
        JsonElement[] known = [.. r.RootElement.GetProperty("margins").EnumerateArray().Where(m => m.GetProperty("margin").ValueKind != JsonValueKind.Null)];
        int[] places = [.. known.OrderByDescending(m => m.GetProperty("chance_exceeded").GetDouble()).ThenBy(m => m.GetProperty("margin").GetProperty("value").GetDouble())
            .Select(m => svg.IndexOf($">{m.GetProperty("case").GetString()}<", StringComparison.Ordinal))];
        Assert.True(places.Length > 8 && places[0] > 0);
        Assert.Equal(places.Order(), places);
    }

    [Theory]
    [InlineData("margins SHAPE --tension 400", "N")]
    [InlineData("margins SHAPE --edge free", "hinged")]
    [InlineData("margins SHAPE --vacuum \"2 bar\"", "possible")]
    [InlineData("margins SHAPE --outer-humidity \"130 %\"", "possible")]
    [InlineData("margins SHAPE --at \"300 mm\"", "soundhole")]
    [InlineData("margins SHAPE --accuracy \"20 %\"", "possible")]
    [InlineData("margins SHAPE --plot /no/such/folder/margins.png", "there is no folder")]
    public void Wrong_input_is_one_clear_line(string line, string says)
    {
        Commanded run = Commanded.Run(Commanded.Words(line.Replace("SHAPE", Board, StringComparison.Ordinal)));
        Assert.Equal(2, run.Code);
        Assert.Single(run.Err.TrimEnd('\n').Split('\n'));
        Assert.Contains(says, run.Err, StringComparison.Ordinal);
        Assert.Empty(run.Out);
    }

    private static JsonDocument Json(params string[] words) => JsonDocument.Parse(Commanded.Run(["margins", .. words, "--json"]).Out);

    private static JsonElement Row(JsonDocument r, string name) => r.RootElement.GetProperty("margins").EnumerateArray().Single(m => m.GetProperty("case").GetString() == name);

    private static double Margin(JsonDocument r, string name) => Row(r, name).GetProperty("margin").GetProperty("value").GetDouble();
}
