using System.Text.Json;

namespace SandwichMech.Tests.EndToEnd;

/// <summary>An invented build, from the first weighing to the finished board, and what is refused on the way.</summary>
[Trait("Check", "exact")]
public class BuildTests
{
    private static readonly string[] LessByIt = ["mass_kg", "chance"];

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
        // Each reading beside what had been said of it: skins, both bonds, levelling, sanding, cutting out.
        JsonElement back = JsonDocument.Parse(Commanded.Run("--log", log, "log", "hindsight", "1", "--json").Out).RootElement;
        JsonElement second = back.GetProperty("rows").EnumerateArray().Single(r => r.GetProperty("stage").GetString() == "second bond" && r.GetProperty("figure").GetString() == "board");
        Checks.Close(0.1531, second.GetProperty("read").GetDouble(), 1e-9);
        Assert.True(second.GetProperty("is_within").GetBoolean());
        Assert.Equal(["skins", "skins", "skins", "skins", "skins", "first bond", "levelled", "second bond", "second bond", "second bond", "sanded", "cut out"], back.GetProperty("rows").EnumerateArray().Select(r => r.GetProperty("stage").GetString()!));
        // And all of it once more from its export.
        string json = folder.File("shop.json"), other = folder.File("other.sqlite"), again = folder.File("again.json");
        Ok("log", "export", json);
        Assert.Equal(0, Commanded.Run("--log", other, "log", "restore", json).Code);
        Assert.Equal(0, Commanded.Run("--log", other, "log", "export", again).Code);
        Assert.Equal(File.ReadAllText(json), File.ReadAllText(again));

        string Ok(params string[] words) => Done(log, words);

        JsonElement Plan(params string[] words) => Planned(log, words);
    }

    // Tones of the invented build: the outer skin 12 % stiffer along than its weight says, which nobody but the taps tells.
    [Fact]
    public void What_is_tapped_and_decided_while_it_is_open_is_planned_with()
    {
        using var folder = new TemporaryFolder();
        string log = folder.File("log.sqlite"), own = folder.File("own.toml");
        File.Copy(Board, own);
        Done(log, "log", "start", own, "--margin", "10 mm", "--target", "along at least 0.6 solid");
        Done(log, "log", "add", "1", "skins", "outer 42.4 g", "outer 0.75 mm, 0.77 mm, 0.76 mm", "core 5.7 g", "core 1.80 mm, 1.82 mm", "let-in 31.5 g", "let-in 1.85 mm", "witness 128.0 g");
        Done(log, "log", "add", "1", "bond1", "mixed 36 g", "board 96.2 g", "witness 127.2 g");
        JsonElement before = Planned(log, "--free", "inner.thickness 0.5 mm, 0.6 mm");
        Assert.Equal(0, before.GetProperty("taps").GetArrayLength());
        // The tones that the taps will have lie in what is said of them beforehand.
        JsonElement[] tones = [.. Planned(log, "--free", "inner.thickness 0.6 mm", "--modes", "3").GetProperty("tones").EnumerateArray()];
        Assert.All(tones.Zip([14.7, 21.2, 23.3]), pair => Checks.Within(pair.First.GetProperty("low90").GetDouble(), pair.First.GetProperty("high90").GetDouble(), pair.Second));
        Assert.Equal(3, tones.Length);
        Done(log, "log", "add", "1", "level", "board 95.5 g", "tones 14.7 Hz, 21.2 Hz, 23.3 Hz, 40.1 Hz, 42.3 Hz, 50.1 Hz, 54.2 Hz, 70.9 Hz");
        JsonElement tapped = Planned(log, "--free", "inner.thickness 0.5 mm, 0.6 mm", "--modes", "1");
        Assert.Equal("levelled", tapped.GetProperty("taps")[0].GetProperty("stage").GetString());
        // Stiffer than thought, and each finished board known better for it.
        Assert.All(before.GetProperty("inner").EnumerateArray().Zip(tapped.GetProperty("inner").EnumerateArray()), pair =>
        {
            JsonElement was = Figure(pair.First), now = Figure(pair.Second);
            Assert.True(now.GetProperty("value").GetDouble() > was.GetProperty("value").GetDouble());
            Assert.True(now.GetProperty("high90").GetDouble() / now.GetProperty("low90").GetDouble() < was.GetProperty("high90").GetDouble() / was.GetProperty("low90").GetDouble());
        });
        Assert.Equal(["mass", "along", "across", "mode 1"], tapped.GetProperty("each_step").EnumerateArray().Select(e => e.GetProperty("figure").GetString()!));

        // What is bonded is settled, what is not can be decided; the file may say what it will.
        Assert.Contains("bonded already", Refused(log, "log", "decide", "1", "outer.thickness 0.7 mm"), StringComparison.Ordinal);
        Assert.Contains("did you mean 'inner.thickness'", Refused(log, "log", "decide", "1", "inner.thicknes 0.7 mm"), StringComparison.Ordinal);
        Assert.Contains("a unit is missing", Refused(log, "log", "decide", "1", "inner.thickness 0.7"), StringComparison.Ordinal);
        Done(log, "log", "decide", "1", "inner.thickness 0.55 mm");
        File.WriteAllText(own, File.ReadAllText(own).Replace("ribbon = \"along\"", "ribbon = \"across\" # turned", StringComparison.Ordinal));
        Assert.Equal(["core.ribbon"], Planned(log).GetProperty("file_changes").EnumerateArray().Select(c => c.GetProperty("field").GetString()!));
        Assert.False(Planned(log).GetProperty("file_changes")[0].GetProperty("is_open").GetBoolean());
        Assert.Contains("28.", Done(log, "log", "show", "1"), StringComparison.Ordinal);

        Done(log, "log", "add", "1", "bond2", "inner 28.6 g", "inner 0.55 mm, 0.56 mm, 0.54 mm", "mixed 36 g", "board 140.5 g", "board 3.25 mm, 3.26 mm");
        JsonElement room = Planned(log).GetProperty("sanding");
        JsonElement[] rows = [.. room.GetProperty("rows").EnumerateArray()];
        Assert.Equal(7, rows.Length);
        Assert.All(rows.Zip(rows.Skip(1)), pair =>
        {
            Checks.Close(0.05e-3, pair.Second.GetProperty("taken_off_m").GetDouble() - pair.First.GetProperty("taken_off_m").GetDouble(), 1e-9);
            foreach (string less in LessByIt) { Assert.True(pair.Second.GetProperty("board").GetProperty(less).GetDouble() <= pair.First.GetProperty("board").GetProperty(less).GetDouble()); }
            Assert.True(pair.Second.GetProperty("skin_ratio").GetDouble() < pair.First.GetProperty("skin_ratio").GetDouble());
        });
        Assert.Contains("nothing of the layup is open", Refused(log, "log", "decide", "1", "inner.thickness 0.5 mm"), StringComparison.Ordinal);

        // A number stands where a board file does.
        double mass = JsonDocument.Parse(Commanded.Run("--log", log, "estimate", "1", "--json").Out).RootElement.GetProperty("mass_kg").GetProperty("value").GetDouble();
        Checks.Close(rows[0].GetProperty("board").GetProperty("mass_kg").GetDouble(), mass, 1e-6);
        Assert.Contains("log decide 1", Refused(log, "choose", "1", "--target", "along at least solid", "--adopt"), StringComparison.Ordinal);
        Assert.Equal(0, Commanded.Run("--log", log, "bond", "1").Code);
        Assert.Contains("no board 7", Refused(log, "modes", "7"), StringComparison.Ordinal);

        static JsonElement Figure(JsonElement row) => row.GetProperty("figures")[0].GetProperty("figure");
    }

    [Fact]
    public void What_is_left_out_at_the_terminal_is_asked_for_and_asked_again_where_it_cannot_be_meant()
    {
        using var folder = new TemporaryFolder();
        string log = folder.File("log.sqlite");
        Commanded begun = Commanded.WithAnswers($"nowhere.toml\n{Board}\n10\n10 mm\nalong at leest solid\nalong at least 0.6 solid\n\n", "--log", log, "log", "start");
        Assert.True(begun.Code == 0, begun.Err);
        foreach (string again in new[] { "no such file", "a unit is missing", "says neither" }) { Assert.Contains(again, begun.Err, StringComparison.Ordinal); }
        // Board and stage as offered; outer skin twice, since the first has no unit; the rest passed over but the core.
        Commanded added = Commanded.WithAnswers("\n\n42.4\n42.4 g\n0.75 mm, 0.77 mm\n5.7 g\n", "--log", log, "log", "add");
        Assert.True(added.Code == 0, added.Err);
        Assert.Contains("a unit is missing", added.Err, StringComparison.Ordinal);
        JsonElement[] read = [.. JsonDocument.Parse(Done(log, "log", "show", "1", "--json")).RootElement.GetProperty("entries").EnumerateArray().Where(e => e.GetProperty("values").GetArrayLength() > 0 && !e.GetProperty("what").GetString()!.StartsWith("expected", StringComparison.Ordinal))];
        Assert.Equal(["outer skin", "outer skin's thickness", "core"], read.Select(e => e.GetProperty("what").GetString()!));
        Commanded nothing = Commanded.WithAnswers("", "--log", log, "log", "add", "1", "sand");
        Assert.Equal(2, nothing.Code);
        Assert.Contains("nothing to write down", nothing.Err, StringComparison.Ordinal);
        // What was read is not asked for again.
        Assert.DoesNotContain("Outer skin's weight", Commanded.WithAnswers("\nskins\n", "--log", log, "log", "add").Err, StringComparison.Ordinal);
        Assert.Contains("demo board", Commanded.WithAnswers("\n", "--log", log, "plan", "--free", "inner.thickness 0.6 mm").Out, StringComparison.Ordinal);
        Assert.Contains("155", Commanded.WithAnswers("241 in²\n", "--log", log, "bond").Out, StringComparison.Ordinal);
    }

    private static string Done(string log, params string[] words)
    {
        Commanded run = Commanded.Run(["--log", log, .. words]);
        Assert.True(run.Code == 0, $"{string.Join(' ', words)}: {run.Err}");
        return string.Join(' ', run.Out.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
    }

    private static string Refused(string log, params string[] words)
    {
        Commanded run = Commanded.Run(["--log", log, .. words]);
        Assert.True(run.Code == 2, $"{string.Join(' ', words)}: {run.Out}{run.Err}");
        return run.Err;
    }

    private static JsonElement Planned(string log, params string[] words) => JsonDocument.Parse(Done(log, ["plan", "1", "--json", .. words])).RootElement;

    [Theory]
    [InlineData("a unit is missing", "add", "1", "skins", "outer 0.7")]
    [InlineData("did you mean 'outer'", "add", "1", "skins", "outr 44 g")]
    [InlineData("did you mean 'skins'", "add", "1", "skinz", "outer 44 g")]
    [InlineData("there is 1", "add", "3", "skins", "outer 44 g")]
    [InlineData("outside what is possible", "add", "1", "skins", "outer 44 kg")]
    [InlineData("still to come", "add", "1", "skins", "outer 44 g", "--at", "2199-01-01 10:00")]
    [InlineData("was read at this stage already", "add", "1", "skins", "core 5.7 g")]
    [InlineData("farther apart than the board is wide", "add", "1", "level", "bend across, span 700 mm, load 50 g, down 0.4 mm")]
    [InlineData("is no part of a bending test", "add", "1", "level", "bend across, span 300 mm, load 50 g, dwn 0.4 mm")]
    [InlineData("bent as a piece", "add", "1", "skins", "bend across, span 300 mm, load 50 g, down 0.4 mm")]
    [InlineData("comes before", "add", "1", "s", "outer 44 g")]
    [InlineData("can be read", "add", "1", "sand", "board 1,450 g")]
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
