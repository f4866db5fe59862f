using System.Text.Json;
using SandwichMech.Core.Taps;
using SandwichMech.Workshop.Recordings;

namespace SandwichMech.Tests.EndToEnd;

/// <summary>`sound` on the demo board.</summary>
[Trait("Check", "exact")]
public class SoundTests
{
    private static readonly string Board = Repository.File("shared", "demo", "outline.toml");

    // What is shown and what is heard in the file are one: the tap's first partial is the first mode, with its Q.
    [Fact]
    public void The_tap_that_is_written_has_the_modes_that_are_shown()
    {
        using var folder = new TemporaryFolder();
        Commanded run = Commanded.Run("sound", Board, "--count", "3", "--depth", "95 mm", "--tap", folder.File("tap.wav"), "--pluck", folder.File("note.wav"), "--json");
        Assert.Equal(0, run.Code);
        using JsonDocument document = JsonDocument.Parse(run.Out);
        JsonElement root = document.RootElement, first = root.GetProperty("boards")[0].GetProperty("modes")[0];
        // The board as expected comes first.
        Recording whole = WavFile.Read(folder.File("tap.wav")).Recording;
        JsonElement[] times = [.. root.GetProperty("heard").EnumerateArray()];
        TapReport heard = TapListening.Of(new(whole.SampleRate, [.. whole.Samples.Take((int)(whole.SampleRate * (times[0].GetProperty("to_s").GetDouble() - 0.1)))]), 40, 400);
        double frequency = first.GetProperty("frequency_hz").GetProperty("value").GetDouble(), loss = first.GetProperty("loss_factor").GetProperty("value").GetDouble();
        TapPartial partial = heard.Partials.MinBy(p => Math.Abs(p.Frequency - frequency))!;
        Checks.Near(frequency, partial.Frequency, 2e-3);
        Checks.Near(1 / loss, partial.Q, 0.03);
        Checks.Near(loss, first.GetProperty("losses").EnumerateArray().Sum(l => l.GetProperty("loss_factor").GetDouble()), 1e-9);
        // Christensen and Vistisen's sum rule in what is written.
        JsonElement box = root.GetProperty("box");
        double Square(string name) => Math.Pow(box.GetProperty(name).GetProperty("value").GetDouble(), 2);
        Checks.Near(Square("hole_shut_hz") + Square("helmholtz_hz"), Square("lower_hz") + Square("upper_hz"), 1e-9);
        // Board and solid top as expected, then three drawn pairs, in both files.
        Assert.Equal(8, times.Length);
        Assert.Equal("solid top, as expected", times[1].GetProperty("heard").GetString());
        Assert.Equal(8 * 3 * 44_100, WavFile.Read(folder.File("note.wav")).Recording.Samples.Length);
        // Silence between two: what is cut off has faded.
        Assert.All(whole.Samples[(int)(2.52 * 44_100)..(int)(2.98 * 44_100)], s => Assert.Equal(0, s, 1e-6));
        // The first pair of bands meets at the limit of what volume velocity tells.
        Assert.Equal(root.GetProperty("levels")[0].GetProperty("high_hz").GetDouble(), root.GetProperty("volume_velocity_limit_hz").GetDouble());
    }

    [Fact]
    public void The_screen_says_what_it_cannot_tell()
    {
        Commanded run = Commanded.Run("sound", Board, "--count", "2", "--edge", "clamped");
        Assert.Equal(0, run.Code);
        foreach (string part in new[] { "edge clamped", "do not tell tone", "judgement", "dB beside the solid top", "none" })
        {
            Assert.Contains(part, run.Out, StringComparison.Ordinal);
        }

        Assert.DoesNotContain("NaN", run.Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--count 0", "--count")]
    [InlineData("--depth 95", "--depth")]
    [InlineData("--note \"30 kHz\"", "--note")]
    [InlineData("--samples 3", "20 to 10000")]
    [InlineData("--seed -1", "--seed")]
    [InlineData("--plot /no/such/folder/sound.png", "there is no folder")]
    [InlineData("--plot sound.gif", ".png")]
    [InlineData("--tap tap.mp3", "ends with .wav")]
    [InlineData("--pluck /no/such/folder/note.wav", "there is no folder")]
    public void Bad_input_is_one_line(string options, string names)
    {
        Commanded run = Commanded.Run([.. Commanded.Words($"sound {Board} {options}")]);
        Assert.Equal(2, run.Code);
        Assert.Contains(names, Assert.Single(run.Err.TrimEnd('\n').Split('\n')), StringComparison.Ordinal);
        Assert.Equal("", run.Out);
    }

    [Fact]
    public void A_board_without_an_outline_is_told_what_to_add()
    {
        Commanded run = Commanded.Run("sound", Commanded.Demo);
        Assert.Equal(2, run.Code);
        Assert.Contains("outline", Assert.Single(run.Err.TrimEnd('\n').Split('\n')), StringComparison.Ordinal);
    }
}
