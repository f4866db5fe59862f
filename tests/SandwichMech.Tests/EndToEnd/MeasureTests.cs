using System.Text.Json;
using SandwichMech.Tests.Log;
using SandwichMech.Workshop.Log;

namespace SandwichMech.Tests.EndToEnd;

/// <summary>`measure` from the command line, on an invented log.</summary>
[Trait("Check", "exact")]
public sealed class MeasureTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();
    private readonly string _log;

    public MeasureTests() => _log = DemoLog.In(_folder);

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Tones_and_bending_make_the_table_s_figures_narrower_and_are_kept()
    {
        JsonElement first = Json("measure", "1", "--tap", "30.1 Hz, 41.3 Hz, 77 Hz, 97.6 Hz");
        Assert.Equal(["1 × 1", "2 × 0", "0 × 2", "1 × 2"], first.GetProperty("readings").EnumerateArray().Where(r => r.GetProperty("unit").GetString() == "Hz").Select(r => r.GetProperty("nodal_lines").GetString()));
        // They could be other modes too, and intervals say what all ways say together: narrower than the table's, but not by half before the maker names the modes.
        Assert.NotEmpty(first.GetProperty("other_ways").EnumerateArray());
        AreNarrower(first, 0.8);
        Assert.Contains("± 1 Hz taken as limits", first.GetProperty("read_back").ToString(), StringComparison.Ordinal);
        JsonElement second = Json("measure", "1", "--bend", "along, span 400 mm, load 200 g, down 1.42 mm");
        // The tones of before count still.
        Assert.Equal(6, second.GetProperty("readings").GetArrayLength());
        Assert.True(Width(Found(second, "E_L")) < Width(Found(first, "E_L")));
        Assert.Equal(2, Entries("taps", "bending"));
        AreLimits();
        // A board that names the piece takes what was found.
        string board = _folder.File("board.toml");
        File.WriteAllText(board, File.ReadAllText(Commanded.Demo).Replace("wood = \"Sitka spruce\"", "wood = \"piece 1\"", StringComparison.Ordinal));
        Commanded estimate = Commanded.Run("estimate", board, "--log", _log);
        Assert.Equal(0, estimate.Code);
        Assert.Contains("by its readings", estimate.Out, StringComparison.Ordinal);
        JsonElement named = Json("measure", "1", "--tap", "30.1 Hz (1 x 1), 41.3 Hz (2 x 0), 77 Hz (0 x 2), 97.6 Hz (1 x 2)");
        Assert.Empty(named.GetProperty("other_ways").EnumerateArray());
        AreNarrower(named, 0.5);

        static void AreNarrower(JsonElement answer, double than)
        {
            foreach (JsonElement p in answer.GetProperty("properties").EnumerateArray()) { Assert.True(Width(p.GetProperty("found")) < than * Width(p.GetProperty("table")), p.ToString()); }
        }
    }

    [Theory]
    [InlineData("--tap", "0.18", "a unit is missing")]
    [InlineData("--tap", "0.18 Hz", "do you mean kHz?")]
    [InlineData("--tap", "-40 Hz", "-40 Hz")]
    [InlineData("--tap", "30.1 Hz, 30.1 Hz", "twice")]
    [InlineData("--tap", "30.1 Hz (1)", "nodal lines")]
    [InlineData("--tap", ";", "holds no tone")]
    [InlineData("--bend", "along, span 400 mm", "lacks load, down")]
    [InlineData("--bend", "span 400 mm, load 200 g, down 1.4 mm", "lacks along or across")]
    [InlineData("--bend", "along, span 400, load 200 g, down 1.4 mm", "a unit is missing")]
    [InlineData("--bend", "along, span 400 mm, load -200 g, down 1.4 mm", "load -200 g")]
    [InlineData("--bend", "along, span 400 mm, load 200 g, down 1.4 mm, lines 500 mm", "outside the supports")]
    [InlineData("--bend", "along, span 400 mm, load 20 g, down 1.4 mm, gauge 3 N", "holds more than the load")]
    [InlineData("--bend", "across, span 400 mm, load 200 g, down 1.4 mm", "200 mm wide")]
    [InlineData("--bend", "sideways, span 400 mm", "no part of a bending test")]
    [InlineData("--weight", "-88 g", "88 g")]
    public void What_cannot_be_meant_is_refused_in_one_line_and_nothing_is_written(string option, string text, string says)
    {
        long before = Entries();
        // An option's value may begin with a minus sign.
        Commanded run = Commanded.Run("measure", "1", $"{option}={text}", "--log", _log);
        Assert.Equal(2, run.Code);
        Assert.Equal("", run.Out);
        Assert.Single(run.Err.TrimEnd().Split('\n'));
        Assert.Contains(says, run.Err, StringComparison.Ordinal);
        Assert.Equal(before, Entries());
    }

    [Fact]
    public void Run_bare_it_asks_and_asks_again_where_an_answer_cannot_be_meant()
    {
        Commanded run = Commanded.WithAnswers("88\n88.6 g\n\n\n\n45 %\nalong, span 400 mm, load 200 g, down 1.42 mm\n\n30.1 Hz, 41.3 Hz\n", "measure", "1", "--log", _log);
        Assert.Equal(0, run.Code);
        Assert.Contains("a unit is missing", run.Err, StringComparison.Ordinal);
        Assert.Contains("your readings say", run.Out, StringComparison.Ordinal);
        Assert.Equal(2, Entries("taps", "bending"));
    }

    // '± a' is read as limits, and said; a spread that was typed goes before the usual one.
    [Fact]
    public void Spreads_of_tests_are_shown_back()
    {
        string back = Json("measure", "1", "--bend", "along, span 400 mm, load 200 g, down 1.42 mm ± 0.05 mm, gauge").GetProperty("read_back").ToString();
        Assert.Contains("0.029 mm", back, StringComparison.Ordinal);
        Assert.Contains("span ± 1 mm, load ± 0.1 g taken as limits", back, StringComparison.Ordinal);
        Assert.Contains("gauge holds up 0.071 N", back, StringComparison.Ordinal);
    }

    // Weighed and measured alone, the piece has the density that `piece show` says, and the fit, which knows nothing else of it, agrees to a tenth of a give or take.
    [Fact]
    public void Density_is_told_as_weighed_and_at_the_table_s_moisture()
    {
        JsonElement result = Json("measure", "1");
        double asRead = result.GetProperty("density_as_read_kg_m3").GetDouble(), moisture = result.GetProperty("moisture_percent").GetDouble(), at12 = Found(result, "rho").GetProperty("value_si").GetDouble();
        Checks.Near(0.0886 / (0.52 * 0.2 * 0.00201), asRead, 0.003);
        // Mass goes with 1 + M, volume with 1 - 0.115 (1 - M/30): Wood Handbook, tables 4-3 and 5-13, from memory, as Core/Materials/Moisture takes it.
        double Volume(double m) => 1 - 0.115 * (1 - m / 30);
        Checks.Near(asRead * (112 / (100 + moisture)) * Volume(moisture) / Volume(12), at12, 1e-6);
        Assert.Contains("Density as it was weighed", Commanded.Run("measure", "1", "--log", _log).Out, StringComparison.Ordinal);
    }

    [Fact]
    public void A_core_sheet_is_not_bent_and_a_sandwich_needs_its_skins()
    {
        Commanded core = Commanded.Run("measure", "2", "--tap", "80 Hz", "--log", _log);
        Assert.Equal(2, core.Code);
        Assert.Contains("strip of sandwich", core.Err, StringComparison.Ordinal);
        Commanded sandwich = Commanded.Run("measure", "3", "--tap", "80 Hz", "--log", _log);
        Assert.Equal(2, sandwich.Code);
        Assert.Contains("thickness is not known", sandwich.Err, StringComparison.Ordinal);
        Assert.Equal(2, Commanded.Run("measure", "9", "--log", _log).Code);
        Assert.Equal(2, Commanded.Run("measure", "1,000", "--log", _log).Code);
    }

    // The plate that shared/demo/taps.py is made of: its tones come from this tool's own model, so this shows that the path closes, not that the model is right.
    [Fact]
    public void The_demo_recording_gives_back_the_plate_that_it_is_of()
    {
        string recording = Repository.File("shared", "demo", "taps.wav");
        Assert.Equal(1, Json("listen", recording, "--piece", "1").GetProperty("kept_for_piece").GetInt32());
        JsonElement result = Json("measure", "1", "--bend", "along, span 400 mm, load 200 g, down 1.42 mm");
        Assert.DoesNotContain("left out", result.GetProperty("notes").ToString(), StringComparison.Ordinal);
        Assert.Equal(
            ["2 × 0", "2 × 1", "0 × 2", "1 × 2", "3 × 0", "3 × 1", "2 × 2", "0 × 3", "4 × 1", "2 × 3", "4 × 2", "3 × 3"],
            result.GetProperty("readings").EnumerateArray().Where(r => r.GetProperty("unit").GetString() == "Hz").Select(r => r.GetProperty("nodal_lines").GetString()));
        Assert.All(result.GetProperty("readings").EnumerateArray(), r => Assert.InRange(r.GetProperty("misfit").GetDouble(), -2, 2));
        foreach ((string symbol, double made) in new[] { ("rho", 431.7), ("E_L", 13.6e9), ("E_R", 0.90e9), ("G_LR", 0.88e9), ("eta_L", 0.0075), ("eta_R", 0.019), ("eta_G", 0.016) })
        {
            JsonElement found = Found(result, symbol);
            Assert.InRange(made, found.GetProperty("low90_si").GetDouble(), found.GetProperty("high90_si").GetDouble());
        }

        // A later sitting stands in the place of the recording: no tone is taken twice.
        JsonElement typed = Json("measure", "1", "--tap", "30.1 Hz, 41.3 Hz, 77 Hz, 97.6 Hz");
        Assert.Equal(4, typed.GetProperty("readings").EnumerateArray().Count(r => r.GetProperty("unit").GetString() == "Hz"));
    }

    [Fact]
    public void Tones_of_a_recording_are_kept_with_their_damping_and_those_of_another_plate_are_named()
    {
        string recording = Repository.File("shared", "demo", "taps.wav");
        // A piece of another size than the recording's.
        Run("piece", "add", "wood", "--material", "Sitka spruce", "--weight", "49.5 g", "--length", "410 mm", "--width", "120 mm", "--thickness", "2.4 mm");
        Assert.Equal(4, Json("listen", recording, "--piece", "4").GetProperty("kept_for_piece").GetInt32());
        using (ShopLog log = ShopLog.Open(_log))
        {
            Core.Identification.TapReading taps = log.Readings(4).Select(e => e.Reading).OfType<Core.Identification.TapReading>().Single();
            Assert.All(taps.Tones, t => Assert.InRange(t.Loss!.Value.Value, 0.005, 0.05));
        }

        Commanded measured = Commanded.Run("measure", "4", "--json", "--log", _log);
        Assert.Equal(0, measured.Code);
        Assert.Contains("left out", measured.Out, StringComparison.Ordinal);
        Assert.Equal(2, Commanded.Run("listen", recording, "--piece", "2", "--log", _log).Code);
        Assert.Equal(2, Commanded.Run("listen", recording, "--piece", "77", "--log", _log).Code);
        Assert.Equal(2, Commanded.Run("listen", recording, "--piece", "one", "--log", _log).Code);
        Assert.Equal(0, Entries("taps"));
    }

    // Two spans tell a core's shear from its skins' bending; one long strip of invented values.
    [Fact]
    public void A_sandwich_strip_at_two_spans_tells_the_core_s_shear()
    {
        Run("piece", "add", "sandwich", "--material", "aramid honeycomb 3.2-48", "--outer-wood", "piece 1", "--inner-wood", "piece 1", "--adhesive", "laminating epoxy 100:30");
        JsonElement result = Json(
            "measure", "4", "--weight", "46 g", "--length", "300 mm", "--width", "50 mm", "--thickness", "5.9 mm",
            "--bend", "along, span 280 mm, load 2 kg, down 0.62 mm ± 0.005 mm", "--bend", "along, span 90 mm, load 5 kg, down 0.11 mm ± 0.005 mm");
        JsonElement shear = result.GetProperty("properties").EnumerateArray().Single(p => p.GetProperty("symbol").GetString() == "G ribbon");
        Assert.True(Width(shear.GetProperty("found")) < 0.9 * Width(shear.GetProperty("table")), shear.ToString());
    }

    // What is taken as limits ± a has the standard deviation a/√3 (JCGM 100:2008, 4.3.7).
    private void AreLimits()
    {
        using ShopLog log = ShopLog.Open(_log);
        Core.Identification.Reading[] readings = [.. log.Readings(1).Select(e => e.Reading!)];
        Core.Identification.BendingReading bent = readings.OfType<Core.Identification.BendingReading>().Single();
        foreach ((Core.Uncertainty.Estimate value, double limit) in new[] { (bent.Span, 1e-3), (bent.Load, 0.1e-3), (bent.Deflection, 0.02e-3), (readings.OfType<Core.Identification.TapReading>().Single().Tones[0].Frequency, 1) })
        {
            Checks.Near(limit / Math.Sqrt(3), value.Value * value.Spread, 1e-3);
        }
    }

    private static double Width(JsonElement interval) => Math.Log(interval.GetProperty("high90_si").GetDouble() / interval.GetProperty("low90_si").GetDouble());

    private static JsonElement Found(JsonElement result, string symbol) =>
        result.GetProperty("properties").EnumerateArray().Single(p => p.GetProperty("symbol").GetString() == symbol).GetProperty("found");

    private void Run(params string[] words) => Assert.Equal(0, Commanded.Run([.. words, "--log", _log]).Code);

    private JsonElement Json(params string[] words)
    {
        Commanded run = Commanded.Run([.. words, "--json", "--log", _log]);
        Assert.True(run.Code == 0, run.Err);
        return JsonDocument.Parse(run.Out).RootElement;
    }

    private long Entries(params string[] kinds)
    {
        using ShopLog log = ShopLog.Open(_log);
        return kinds.Length == 0 ? log.Entries() : log.Readings(1).Count(e => kinds.Contains(e.Kind));
    }
}
