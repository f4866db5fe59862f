using System.Text.Json;

namespace SandwichMech.Tests.EndToEnd;

/// <summary>The invented build in shared/demo: it can be put back, and it is what its own words make of it, typed anew.</summary>
[Trait("Check", "exact")]
public class DemoBuildTests
{
    private static readonly string[] StageWords = ["skins", "bond1", "level", "bond2", "sand", "cut", "brace", "rim", "lacquer", "string"];
    private static readonly string[] StageNames = ["skins", "first_bond", "levelled", "second_bond", "sanded", "cut_out", "braced", "on_rim", "lacquered", "strung"];

    [Fact]
    public void It_is_put_back_whole_and_looks_back_on_a_strung_board()
    {
        using var folder = new TemporaryFolder();
        string log = folder.File("log.sqlite");
        Done(log, "log", "restore", Repository.File("shared", "demo", "build.json"));
        Assert.Contains("All of it is whole", Done(log, "log", "check"), StringComparison.Ordinal);
        JsonElement back = JsonDocument.Parse(Done(log, "log", "hindsight", "1", "--json")).RootElement;
        Checks.Within(0.8, 1, back.GetProperty("within_share").GetDouble());
        Assert.Contains("invented", Done(log, "log", "show", "1"), StringComparison.Ordinal);
        JsonElement plan = JsonDocument.Parse(Done(log, "plan", "1", "--json")).RootElement;
        Assert.Equal(JsonValueKind.Null, plan.GetProperty("next").ValueKind);
        Assert.Equal(["levelled", "cut out", "on the rim", "strung"], plan.GetProperty("taps").EnumerateArray().Select(t => t.GetProperty("stage").GetString()!));
        Assert.All(plan.GetProperty("taps").EnumerateArray(), t => Assert.True(t.GetProperty("chance").GetDouble() > 0.01));
        Assert.DoesNotContain("stop", plan.GetProperty("readings").EnumerateArray().Select(r => r.GetProperty("verdict").GetString()));
    }

    // Each entry's words, typed again into an empty log at its stage, give the same readings.
    [Fact]
    public void Its_words_typed_anew_are_the_same_build()
    {
        using var folder = new TemporaryFolder();
        JsonElement[] entries = Entries(File.ReadAllText(Repository.File("shared", "demo", "build.json")));
        string log = folder.File("log.sqlite");
        JsonElement start = entries[0].GetProperty("start");
        Done(log, ["log", "start", Repository.File("shared", "demo", "outline.toml"), "--margin", "10 mm", .. start.GetProperty("targets").EnumerateArray().SelectMany(t => new[] { "--target", t.GetString()! })]);
        string before = "";
        foreach (JsonElement entry in entries)
        {
            string typed = entry.GetProperty("as_typed").GetString()!;
            switch (entry.GetProperty("kind").GetString())
            {
                // A witness before and after is one line, and two entries.
                case "stage" when typed != before:
                    Done(log, "log", "add", "1", StageWords[Array.IndexOf(StageNames, entry.GetProperty("built").GetProperty("stage").GetString())], typed);
                    before = typed;
                    break;
                case "decision":
                    Done(log, "log", "decide", "1", typed);
                    break;
            }
        }

        Assert.Equal(Readings(entries), Readings(Entries(Done(log, "log", "export"))));
    }

    private static string[] Readings(JsonElement[] entries) => [.. entries.Where(e => e.GetProperty("kind").GetString() == "stage").Select(e => e.GetProperty("built").GetRawText())];

    private static JsonElement[] Entries(string json) => [.. JsonDocument.Parse(json).RootElement.GetProperty("entries").EnumerateArray()];

    private static string Done(string log, params string[] words)
    {
        Commanded run = Commanded.Run(["--log", log, .. words]);
        Assert.True(run.Code == 0, $"{string.Join(' ', words)}: {run.Err}");
        return run.Out;
    }
}
