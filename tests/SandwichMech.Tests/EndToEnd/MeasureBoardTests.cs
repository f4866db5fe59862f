using System.Text.Json;
using SandwichMech.Tests.Log;
using SandwichMech.Tests.Taps;

namespace SandwichMech.Tests.EndToEnd;

/// <summary>`measure` of a whole board from the command line.</summary>
[Trait("Check", "exact")]
public sealed class MeasureBoardTests
{
    private static readonly string Board = Repository.File("shared", "demo", "outline.toml");

    [Fact]
    public void Taps_of_a_board_are_named_and_narrow_what_its_file_says()
    {
        JsonElement r = Json("measure", Board, "--weight", "124.3 g", "--tap", "36.8 Hz, 53.1 Hz, 73.4 Hz, 101.5 Hz, 112.4 Hz", "--edge", "free");
        Assert.Equal("free", r.GetProperty("edge").GetString());
        Assert.Equal([36.8, 53.1, 73.4, 101.5, 112.4], Heard(r));
        foreach (JsonElement mode in r.GetProperty("modes").EnumerateArray()) { Assert.True(Width(mode.GetProperty("found")) < 0.5 * Width(mode.GetProperty("untapped")), mode.ToString()); }
        foreach (JsonElement p in r.GetProperty("properties").EnumerateArray().Where(p => p.GetProperty("symbol").GetString() is "mass" or "D along" or "D across" or "D twist"))
        {
            Assert.True(Width(p.GetProperty("found")) < 0.5 * Width(p.GetProperty("table")), p.ToString());
        }
    }

    // Invented taps on a board whose modes lie 4 % above the demo's: told from a recording as from typing.
    [Fact]
    public void A_recording_serves_as_typing_does()
    {
        using var folder = new TemporaryFolder();
        double[] tones = [.. Json("modes", Board, "--count", "5", "--accuracy", "1 %").GetProperty("modes").EnumerateArray()
            .Select(m => 1.04 * m.GetProperty("frequency_hz").GetProperty("value").GetDouble())];
        double[] sound = InventedTaps.Sound(InventedTaps.Times, tones: [.. tones.Select(f => (f, 55.0, 0.05))]);
        InventedTaps.AddNoise(sound);
        string path = folder.File("board.wav");
        File.WriteAllBytes(path, WavWriter.Of([sound], (int)InventedTaps.Rate, 16));
        double[] heard = Heard(Json("measure", Board, "--recording", path, "--edge", "free"));
        Assert.Equal(tones.Length, heard.Length);
        foreach ((double tone, double found) in tones.Zip(heard)) { Checks.Near(tone, found, 2e-3); }
    }

    [Theory]
    [InlineData("nothing was read off the board")]
    [InlineData("its sizes and thicknesses are the board file's", "--length", "480 mm")]
    [InlineData("its sizes and thicknesses are the board file's", "--bend", "along, span 400 mm, load 200 g, down 1.42 mm")]
    [InlineData("leave one out", "--tap", "40 Hz", "--recording", "taps.wav")]
    [InlineData("a unit is missing", "--tap", "40")]
    [InlineData("do you mean kHz?", "--tap", "0.18 Hz")]
    [InlineData("is drawn of a piece", "--tap", "40 Hz", "--plot", "x.png")]
    [InlineData("weight", "--weight", "-3 g")]
    public void What_cannot_be_meant_is_said(string why, params string[] options) => Refused(why, ["measure", Board, .. options]);

    [Fact]
    public void A_board_without_outline_a_piece_with_an_edge_and_neither_are_refused()
    {
        Refused("need an outline", "measure", Commanded.Demo, "--tap", "40 Hz");
        Refused("a piece lies free on foam", "measure", "1", "--edge", "free");
        Refused("of a piece `sandwichmech listen", "measure", "1", "--recording", "taps.wav");
        Refused("neither the number of a piece", "measure", "myboard", "--tap", "40 Hz");
        Refused("nowhere.toml", "measure", "nowhere.toml", "--tap", "40 Hz");
    }

    private static void Refused(string why, params string[] line)
    {
        using var folder = new TemporaryFolder();
        Commanded run = Commanded.Run([.. line, "--log", DemoLog.In(folder)]);
        Assert.Equal(2, run.Code);
        Assert.Empty(run.Out);
        Assert.Contains(why, run.Err, StringComparison.Ordinal);
    }

    private static double[] Heard(JsonElement r) => [.. r.GetProperty("modes").EnumerateArray().Select(m => m.GetProperty("heard_hz")).Where(h => h.ValueKind == JsonValueKind.Number).Select(h => h.GetDouble())];

    private static double Width(JsonElement g) => Math.Log(g.GetProperty("high90_si").GetDouble() / g.GetProperty("low90_si").GetDouble());

    private static JsonElement Json(params string[] line)
    {
        using var folder = new TemporaryFolder();
        Commanded run = Commanded.Run([.. line, "--json", "--log", DemoLog.In(folder)]);
        Assert.True(run.Code == 0, run.Err);
        return JsonDocument.Parse(run.Out).RootElement;
    }
}
