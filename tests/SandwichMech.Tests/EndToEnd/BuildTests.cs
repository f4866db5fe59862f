using System.Text.Json;

namespace SandwichMech.Tests.EndToEnd;

/// <summary>An invented build, from the first weighing to the finished board, and what is refused on the way.</summary>
[Trait("Check", "exact")]
public class BuildTests
{
    private static string Board => Repository.File("shared", "demo", "outline.toml");

    [Fact]
    public void A_build_is_kept_from_the_first_weighing_to_the_finished_board()
    {
        using var folder = new TemporaryFolder();
        string log = folder.File("log.sqlite");
        Ok("log", "start", Board, "--margin", "10 mm", "--target", "along at least 0.6 solid");
        JsonElement plan = Plan();
        Assert.Equal("skins", plan.GetProperty("next").GetString());
        Assert.Equal(4, plan.GetProperty("expected").GetArrayLength());
        Ok("log", "add", "1", "skins", "outer 42.4 g", "outer 0.75 mm, 0.77 mm, 0.76 mm", "core 5.7 g", "core 1.80 mm, 1.82 mm", "let-in 31.5 g", "let-in 1.85 mm", "witness 128.0 g");
        string first = Ok("log", "add", "1", "bond1", "mixed 36 g", "board 96.2 g", "witness 127.2 g");
        Assert.Contains("gained 16.6 g and lost 0.46 g of water: adhesive kept 17.1 g", first, StringComparison.Ordinal);
        Ok("log", "add", "1", "level", "board 95.4 g");
        plan = Plan("--free", "inner.thickness 0.5 mm, 0.6 mm, 0.7 mm");
        Assert.True(plan.GetProperty("is_open").GetBoolean());
        double[] chances = [.. plan.GetProperty("inner").EnumerateArray().Select(i => i.GetProperty("chance").GetDouble())];
        Assert.Equal(chances.Order(), chances);
        Assert.Equal(3, chances.Length);
        double expected = plan.GetProperty("expected")[0].GetProperty("mass_kg").GetProperty("value").GetDouble();
        Checks.Within(0.145, 0.158, expected);
        Ok("log", "add", "1", "bond2", "inner 41.2 g", "inner 0.60 mm");
        Ok("log", "add", "1", "bond2", "mixed 36 g", "board 153.1 g", "board 3.32 mm");
        Ok("log", "add", "1", "sand", "board 152.0 g", "board 3.30 mm");
        Ok("log", "add", "1", "cut", "board 124.0 g", "tones 36 Hz, 52 Hz");
        Ok("log", "note", "1", "edge a little soft at the lower end");
        Ok("log", "attach", "1", Repository.File("shared", "demo", "taps.wav"));
        foreach (string stage in new[] { "brace", "rim", "lacquer", "string" }) { Ok("log", "add", "1", stage, "humidity 45 %"); }
        plan = Plan();
        Assert.Equal(JsonValueKind.Null, plan.GetProperty("next").ValueKind);
        Assert.False(plan.GetProperty("is_open").GetBoolean());
        Assert.Equal(2, plan.GetProperty("bonds").GetArrayLength());
        Assert.DoesNotContain("stop", plan.GetProperty("readings").EnumerateArray().Select(r => r.GetProperty("verdict").GetString()));
        Assert.Contains("All of it is whole", Ok("log", "check"), StringComparison.Ordinal);
        // And all of it once more from its export.
        string json = folder.File("shop.json"), other = folder.File("other.sqlite"), again = folder.File("again.json");
        Ok("log", "export", json);
        Assert.Equal(0, Commanded.Run("--log", other, "log", "restore", json).Code);
        Assert.Equal(0, Commanded.Run("--log", other, "log", "export", again).Code);
        Assert.Equal(File.ReadAllText(json), File.ReadAllText(again));

        string Ok(params string[] words)
        {
            Commanded run = Commanded.Run(["--log", log, .. words]);
            Assert.True(run.Code == 0, $"{string.Join(' ', words)}: {run.Err}");
            return string.Join(' ', run.Out.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        }

        JsonElement Plan(params string[] words) => JsonDocument.Parse(Commanded.Run(["--log", log, "plan", "1", "--json", .. words]).Out).RootElement;
    }

    [Theory]
    [InlineData("a unit is missing", "add", "1", "skins", "outer 0.7")]
    [InlineData("did you mean 'outer'", "add", "1", "skins", "outr 44 g")]
    [InlineData("did you mean 'skins'", "add", "1", "skinz", "outer 44 g")]
    [InlineData("there is 1", "add", "3", "skins", "outer 44 g")]
    [InlineData("outside what is possible", "add", "1", "skins", "outer 44 kg")]
    [InlineData("still to come", "add", "1", "skins", "outer 44 g", "--at", "2199-01-01 10:00")]
    [InlineData("was read at this stage already", "add", "1", "skins", "core 5.7 g")]
    [InlineData("comes before", "add", "1", "s", "outer 44 g")]
    [InlineData("can be read", "add", "1", "sand", "board 1,450 g")]
    [InlineData("nothing to write down", "add", "1", "sand")]
    [InlineData("no reading of the number", "correct", "1", "999", "board 90 g")]
    [InlineData("give the reading as it should have been", "correct", "1", "6")]
    public void What_cannot_be_written_is_said_in_one_line_and_nothing_is(string said, params string[] words)
    {
        using var folder = new TemporaryFolder();
        string log = folder.File("log.sqlite");
        Run("start", Board);
        Run("add", "1", "skins", "core 5.7 g");
        if (words.Contains("s")) { Run("add", "1", "sand", "board 90 g"); }
        string before = Run("show", "1").Out;
        Commanded run = Run(words);
        Assert.Equal(2, run.Code);
        Assert.Empty(run.Out);
        Assert.Contains(said, run.Err, StringComparison.Ordinal);
        Assert.Single(run.Err.TrimEnd().Split('\n'));
        Assert.Equal(before, Run("show", "1").Out);

        Commanded Run(params string[] of) => Commanded.Run(["--log", log, "log", .. of]);
    }

    [Fact]
    public void A_correction_stands_in_the_place_of_what_was_wrong_and_both_stay()
    {
        using var folder = new TemporaryFolder();
        string log = folder.File("log.sqlite");
        Run("start", Board);
        Run("add", "1", "skins", "core 57 g");
        using JsonDocument shown = JsonDocument.Parse(Run("show", "1", "--json").Out);
        long entry = shown.RootElement.GetProperty("entries").EnumerateArray().First(e => e.GetProperty("as_typed").GetString() == "core 57 g").GetProperty("entry").GetInt64();
        Assert.Equal(0, Run("correct", "1", $"{entry}", "core 5.7 g").Code);
        string after = Run("show", "1").Out;
        Assert.Contains("core 57 g", after, StringComparison.Ordinal);
        Assert.Contains("corrected by", after, StringComparison.Ordinal);
        Assert.Equal(2, Run("correct", "1", $"{entry}", "core 5.8 g").Code);

        Commanded Run(params string[] of) => Commanded.Run(["--log", log, "log", .. of]);
    }

    // The sheet and the build are of one blank.
    [Fact]
    public void The_bond_sheet_and_the_build_expect_the_same_adhesive()
    {
        using var folder = new TemporaryFolder();
        string log = folder.File("log.sqlite");
        Assert.Equal(0, Commanded.Run("--log", log, "log", "start", Board, "--margin", "10 mm").Code);
        Assert.Equal(0, Commanded.Run("--log", log, "log", "add", "1", "skins", "outer 42.4 g", "core 5.7 g", "let-in 31.5 g").Code);
        using JsonDocument plan = JsonDocument.Parse(Commanded.Run("--log", log, "plan", "1", "--json").Out), sheet = JsonDocument.Parse(Commanded.Run("bond", Board, "--margin", "10 mm", "--json").Out);
        double kept = plan.RootElement.GetProperty("expected")[0].GetProperty("from").EnumerateArray().First(p => p.GetProperty("part").GetString() == "adhesive kept").GetProperty("mass_kg").GetDouble();
        Assert.Equal(sheet.RootElement.GetProperty("one_bond_line").GetProperty("kept_kg").GetProperty("value").GetDouble(), kept, 1e-9);
    }

    [Fact]
    public void A_file_that_was_changed_since_is_found()
    {
        using var folder = new TemporaryFolder();
        string log = folder.File("log.sqlite"), file = folder.File("tap.txt");
        File.WriteAllText(file, "invented");
        Run("start", Board);
        Assert.Equal(0, Run("attach", "1", file).Code);
        Assert.Equal(0, Run("check").Code);
        string kept = Directory.GetFiles($"{log}.files").Single();
        File.WriteAllText(kept, "other");
        Commanded check = Run("check");
        Assert.Equal(1, check.Code);
        Assert.Contains("was changed since", check.Out, StringComparison.Ordinal);

        Commanded Run(params string[] of) => Commanded.Run(["--log", log, "log", .. of]);
    }
}
