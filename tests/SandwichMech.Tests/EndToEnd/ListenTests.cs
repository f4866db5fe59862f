using System.Text.Json;

namespace SandwichMech.Tests.EndToEnd;

/// <summary>`listen` on the demo recording, whose partials stand in shared/demo/taps.py, and on what cannot be used.</summary>
[Trait("Check", "exact")]
public class ListenTests
{
    private static readonly (double Frequency, double Q)[] Made =
        [(29.8, 62), (42.1, 128), (74.2, 80), (77.3, 51), (97.4, 55), (117.9, 125), (148.2, 93), (150.3, 64), (213.1, 54), (260.3, 103), (284.6, 60), (342.9, 79), (367.5, 62)];

    private static string Demo { get; } = Repository.File("shared", "demo", "taps.wav");

    [Fact]
    public void The_demo_recording_gives_back_what_it_was_made_of()
    {
        Commanded run = Commanded.Run("listen", Demo, "--low", "25 Hz", "--json");
        Assert.True(run.Code == 0, run.Err);
        using JsonDocument document = JsonDocument.Parse(run.Out);
        JsonElement[] partials = [.. document.RootElement.GetProperty("partials").EnumerateArray()];
        Assert.Equal(Made.Length, partials.Length);
        foreach ((JsonElement p, (double frequency, double q)) in partials.Zip(Made))
        {
            Checks.Close(frequency, p.GetProperty("frequency_hz").GetDouble(), 4 * p.GetProperty("frequency_sd_hz").GetDouble(), "frequency");
            Checks.Close(q, p.GetProperty("quality_factor").GetDouble(), 4 * p.GetProperty("quality_factor_sd").GetDouble(), "Q");
            Assert.Equal(5, p.GetProperty("taps").GetInt32());
        }

        Assert.Contains("hum of 50 Hz", document.RootElement.GetProperty("findings").ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_narrower_range_gives_the_same_partials_within_it()
    {
        Commanded run = Commanded.Run("listen", Demo, "--low", "90 Hz", "--high", "0.3 kHz");
        Assert.True(run.Code == 0, run.Err);
        Assert.Contains("7 partials in 5 taps", run.Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("is no WAV", "listen", "README.md")]
    [InlineData("no such file", "listen", "nowhere.wav")]
    [InlineData("--low", "listen", "shared/demo/taps.wav", "--low", "500 Hz", "--high", "400 Hz")]
    public void What_cannot_be_used_is_told_in_one_line(string says, params string[] words)
    {
        string[] run = [.. words.Select(w => w.Contains('.', StringComparison.Ordinal) && w != "nowhere.wav" ? Repository.File(w.Split('/')) : w)];
        Commanded done = Commanded.Run(run);
        Assert.Equal(2, done.Code);
        Assert.Equal("", done.Out);
        Assert.Contains(says, Assert.Single(done.Err.Trim().Split('\n')), StringComparison.Ordinal);
    }
}
