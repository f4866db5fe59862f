using System.CommandLine;
using System.Globalization;
using SandwichMech.App.Terminal;
using SandwichMech.Workshop;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Log;
using SandwichMech.Workshop.Pieces;
using SandwichMech.Workshop.Tables;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.App.Commands;

/// <summary>`log start`, `add`, `show`, `correct`, `note`, `attach`, `check`: builds in the log.</summary>
internal static class BuildCommands
{
    internal static void AddTo(Command log, CommonOptions common)
    {
        foreach (Command command in new Command[] { Start(common), Add(common), Show(common), Correct(common), Decide(common), Note(common), Attach(common), LogBondsCommand.Create(common), Look(common), Check(common) }) { log.Subcommands.Add(command); }
    }

    private static WorkCommand Start(CommonOptions common)
    {
        var command = new WorkCommand("start", "Begin a build: the board file's text goes into the log, and the board gets a number",
            "sandwichmech log start shared/demo/outline.toml --margin \"10 mm\" --target \"along at least solid\" --log builds.sqlite");
        var board = new Argument<string?>("BOARD") { Description = "A board file (TOML); `sandwichmech new` writes one; asked for when left out", Arity = ArgumentArity.ZeroOrOne };
        var margin = new Option<string?>("--margin") { Description = "Of the blank round the outline while it is bonded; none when left out", HelpName = "LENGTH" };
        var target = new Option<string[]>("--target") { Description = "What the board has to reach, as `choose` takes it, as often as needed", HelpName = "\"along at least solid\"" };
        command.Arguments.Add(board);
        command.Options.Add(margin);
        command.Options.Add(target);
        command.SetAction(parsed =>
        {
            using ShopLog log = common.Log(parsed);
            MaterialTables tables = common.Tables(parsed);
            (string file, double left, IReadOnlyList<string> targets) = parsed.GetValue(board) is { } path
                ? (path, CommonOptions.Typed(parsed, margin, Dimension.Length, 0, LargestMargin) ?? 0, parsed.GetValue(target) ?? [])
                : common.Console.CanAsk && !common.IsJson(parsed) ? AskStart(new(common.Console), tables) : throw new InputException("board file", "give one: `sandwichmech new my-board.toml` writes it");
            BuildChanged begun = KeepBuild.Start(log, file, tables, left, targets);
            return common.Show(parsed, begun, (r, screen) =>
            {
                screen.Title(string.Create(CultureInfo.InvariantCulture, $"Board {r.Board}: {r.Name}"));
                screen.Line(string.Create(CultureInfo.InvariantCulture, $"Begun. Next: {r.Next}; `sandwichmech plan {r.Board}` says what to weigh and what to expect."));
            });
        });
        return command;
    }

    private const double LargestMargin = 0.1;

    private static (string File, double Margin, IReadOnlyList<string> Targets) AskStart(Asking asking, MaterialTables tables)
    {
        string file = asking.Answer("Board file, as my-board.toml:", line => BoardFiles.Read(line.Trim(), tables)) ?? throw new InputException("board file", "none was named, and nothing was begun");
        double Margin(string line) => TypedValues.Read(line, Dimension.Length) is { Value: { } value } ? value.Value is >= 0 and <= LargestMargin ? value.Value : throw new InputException("margin", "0 mm to 100 mm is possible") : throw new InputException("margin", TypedValues.Read(line, Dimension.Length).Problem!);
        double margin = asking.Answer("Margin of the blank round the outline, as 10 mm; Enter for none:", line => Margin(line)) is { } typed ? Margin(typed) : 0;
        var targets = new List<string>();
        while (asking.Answer($"{(targets.Count == 0 ? "What it has to reach" : "And")}, as \"along at least solid\"; Enter for {(targets.Count == 0 ? "nothing" : "no more")}:", line => KeepBuild.CheckTarget(line.Trim().Trim('"'))) is { } one) { targets.Add(one.Trim('"')); }
        return (file, margin, targets);
    }

    private static WorkCommand Add(CommonOptions common)
    {
        var command = new WorkCommand("add", $"Write down what was read at a stage ({string.Join(", ", TypedBuild.StageWords)}); each reading in quotes, all of them or none",
            "sandwichmech log add 1 skins \"core 5.7 g\" \"core 1.80 mm, 1.82 mm\" \"let-in 31.5 g\"",
            "sandwichmech log add 1 bond1 \"mixed 36 g\" \"board 84.5 g\" \"witness 128.0 g to 127.2 g\"");
        command.Aliases.Add("a");
        var board = new Argument<int?>("BOARD") { Description = "The board's number in the log; asked for when left out", Arity = ArgumentArity.ZeroOrOne };
        var stage = new Argument<string?>("STAGE") { Description = "skins, bond1, level, bond2, sand, cut, brace, rim, lacquer or string; asked for when left out, as are readings", Arity = ArgumentArity.ZeroOrOne };
        var readings = new Argument<string[]>("READING") { Description = "\"outer 61.2 g\", \"outer 0.72 mm, 0.70 mm\", core, let-in, inner, board, mixed; \"witness 128.0 g to 127.2 g\", \"humidity 45 %\", \"temperature 21 °C\", \"tones 62 Hz, 88 Hz\", \"bend along, span 400 mm, load 50 g, down 3.1 mm\"", Arity = ArgumentArity.ZeroOrMore };
        var time = new Option<string?>("--at") { Description = "When it was read, as \"2026-03-01 14:30\"; now when left out", HelpName = "TIME" };
        command.Arguments.Add(board);
        command.Arguments.Add(stage);
        command.Arguments.Add(readings);
        command.Options.Add(time);
        command.SetAction(parsed =>
        {
            DateTimeOffset? when = null;
            if (parsed.GetValue(time) is { } text)
            {
                when = TypedTime.Read(text, TimeProvider.System, out string? problem) ?? throw new InputException("--at", problem!);
            }

            using ShopLog log = common.Log(parsed);
            var prompts = new BuildPrompts(common.Console, log);
            int number = parsed.GetValue(board) ?? prompts.Which();
            bool canAsk = common.Console.CanAsk && !common.IsJson(parsed);
            string at = parsed.GetValue(stage) ?? (canAsk ? prompts.Stage(number) : throw new InputException("stage", $"give one: {string.Join(", ", TypedBuild.StageWords)}"));
            IReadOnlyList<string> typed = parsed.GetValue(readings) is { Length: > 0 } all ? all : canAsk ? prompts.Readings(number, at) : [];
            return common.Show(parsed, KeepBuild.Add(log, number, at, typed, common.Tables(parsed), when), Print);
        });
        return command;
    }

    private static WorkCommand Show(CommonOptions common)
    {
        var command = new WorkCommand("show", $"The newest {KeepBuild.NewestShown} boards, or one with all that was written of it", "sandwichmech log show", "sandwichmech log show 1", "sandwichmech log show --all --json");
        command.Aliases.Add("s");
        var board = new Argument<int?>("BOARD") { Description = "A board's number; the newest boards when left out", Arity = ArgumentArity.ZeroOrOne };
        var all = new Option<bool>("--all") { Description = "All boards; without it --json gives the newest only too, and says in 'more' how many older ones there are" };
        command.Arguments.Add(board);
        command.Options.Add(all);
        command.SetAction(parsed =>
        {
            using ShopLog log = common.Log(parsed);
            return common.Show(parsed, KeepBuild.Show(log, parsed.GetValue(board), parsed.GetValue(all)), Print);
        });
        return command;
    }

    private static WorkCommand Correct(CommonOptions common)
    {
        var command = new WorkCommand("correct", "Put an entry right, or take it back with --withdraw; the old one stays and is marked", "sandwichmech log correct 1 21 \"inner 40.9 g\"");
        Argument<int> board = Number();
        var entry = new Argument<long>("ENTRY") { Description = "The entry's number, as `log show BOARD` lists it" };
        var reading = new Argument<string?>("READING") { Description = "What it should have been", Arity = ArgumentArity.ZeroOrOne };
        var withdraw = new Option<string?>("--withdraw") { Description = "Take it back, and say why", HelpName = "WHY" };
        command.Arguments.Add(board);
        command.Arguments.Add(entry);
        command.Arguments.Add(reading);
        command.Options.Add(withdraw);
        command.SetAction(parsed =>
        {
            (string? right, string? why) = (parsed.GetValue(reading), parsed.GetValue(withdraw));
            if (right is null == why is null) { throw new InputException("log correct", "give the reading as it should have been, or --withdraw \"why\", for example: sandwichmech log correct 3 12 \"board 145 g\""); }
            using ShopLog log = common.Log(parsed);
            return common.Show(parsed, KeepBuild.Correct(log, parsed.GetRequiredValue(board), parsed.GetRequiredValue(entry), right, why ?? "", common.Tables(parsed)), Print);
        });
        return command;
    }

    private static WorkCommand Decide(CommonOptions common)
    {
        var command = new WorkCommand("decide", "Settle what is still open of a board, as its inner skin: the build is planned so from then on", "sandwichmech log decide 1 \"inner.thickness 0.55 mm\"");
        Argument<int> board = Number();
        var fields = new Argument<string[]>("FIELD") { Description = "A field of the board file and its value in quotes: \"inner.thickness 0.55 mm\", \"inner.wood piece 3\"", Arity = ArgumentArity.OneOrMore };
        command.Arguments.Add(board);
        command.Arguments.Add(fields);
        command.SetAction(parsed =>
        {
            using ShopLog log = common.Log(parsed);
            return common.Show(parsed, KeepBuild.Decide(log, parsed.GetRequiredValue(board), parsed.GetRequiredValue(fields), common.Tables(parsed)), Print);
        });
        return command;
    }

    private static WorkCommand Note(CommonOptions common)
    {
        var command = new WorkCommand("note", "Keep some words with a board", "sandwichmech log note 1 \"edge a little soft at the lower end\"");
        Argument<int> board = Number();
        var text = new Argument<string>("TEXT") { Description = "The words" };
        command.Arguments.Add(board);
        command.Arguments.Add(text);
        command.SetAction(parsed =>
        {
            using ShopLog log = common.Log(parsed);
            LogEntry kept = log.AddNote(parsed.GetRequiredValue(board), parsed.GetRequiredValue(text));
            return common.Show(parsed, new BuildChanged(parsed.GetRequiredValue(board), log.Board(parsed.GetRequiredValue(board)).Start.Name, [kept.Number], [], [], null), Print);
        });
        return command;
    }

    private static WorkCommand Attach(CommonOptions common)
    {
        var command = new WorkCommand("attach", "Keep a file with a board, a recording or a picture, beside the log under the hash of what it holds", "sandwichmech log attach 1 shared/demo/taps.wav");
        Argument<int> board = Number();
        var file = new Argument<string>("FILE") { Description = "The file; it is copied" };
        command.Arguments.Add(board);
        command.Arguments.Add(file);
        command.SetAction(parsed =>
        {
            using ShopLog log = common.Log(parsed);
            LogEntry kept = log.Attach(parsed.GetRequiredValue(board), parsed.GetRequiredValue(file));
            return common.Show(parsed, new BuildChanged(parsed.GetRequiredValue(board), log.Board(parsed.GetRequiredValue(board)).Start.Name, [kept.Number], [], [], null), Print);
        });
        return command;
    }

    private static WorkCommand Look(CommonOptions common)
    {
        var command = new WorkCommand("hindsight", "What was predicted of a board, or of the newest hundred, beside what was read: how far the next prediction is to be trusted", "sandwichmech log hindsight", "sandwichmech log hindsight 1");
        var board = new Argument<int?>("BOARD") { Description = "A board's number; the newest hundred together when left out", Arity = ArgumentArity.ZeroOrOne };
        command.Arguments.Add(board);
        command.SetAction(parsed =>
        {
            using ShopLog log = common.Log(parsed);
            return common.Show(parsed, Hindsight.Of(log, parsed.GetValue(board)), Print);
        });
        return command;
    }

    private static WorkCommand Check(CommonOptions common)
    {
        var command = new WorkCommand("check", "Prove that the log is whole: pages, pointers, guards, numbers, every entry and attached file", "sandwichmech log check");
        command.SetAction(parsed =>
        {
            using ShopLog log = common.Log(parsed);
            CheckResult result = KeepBuild.Check(log, new Progress(common.Console.Err).Report);
            int shown = common.Show(parsed, result, (r, screen) =>
            {
                screen.Title(r.Log);
                screen.Line(string.Create(CultureInfo.InvariantCulture, $"{r.Pieces} pieces, {r.Boards} boards, {r.Entries} entries, {r.Attachments} attached files."));
                foreach (string what in r.Checked) { screen.Line($"checked: {what}"); }
                screen.Line(r.Wrong.Count == 0 ? "All of it is whole." : "Not whole; keep a copy, then `log restore` your last export into a new file:");
                foreach (string wrong in r.Wrong) { screen.Line($"wrong: {wrong}"); }
            });
            return result.Wrong.Count == 0 ? shown : Cli.CouldNot;
        });
        return command;
    }

    private static Argument<int> Number() => new("BOARD") { Description = "The board's number in the log" };

    private static void Print(BuildChanged r, Screen screen)
    {
        screen.Title(string.Create(CultureInfo.InvariantCulture, $"Board {r.Board}: {r.Name}"));
        screen.Line($"Kept: {(r.Entries.Count == 1 ? "entry" : "entries")} {string.Join(", ", r.Entries.Select(e => e.ToString(CultureInfo.InvariantCulture)))}.");
        Readings(r.Readings, screen);
        Bonds(r.Bonds, screen);
        if (r.Next is { } next && r.Readings.Count > 0) { screen.Line(string.Create(CultureInfo.InvariantCulture, $"Next: {next} (`sandwichmech plan {r.Board}`).")); }
    }

    /// <summary>Readings with their verdicts.</summary>
    internal static void Readings(IReadOnlyList<JudgedRow> rows, Screen screen)
    {
        if (rows.Count == 0) { return; }
        var table = new TextTable("stage", "what", ">read", "expected, 90 %", "verdict", "why");
        foreach (JudgedRow j in rows)
        {
            table.Add(j.Stage, j.What, j.Unit == "Hz" ? Tones(j.Values, screen) : Value(j.Unit, j.Value, screen), j.Expected is { } e ? $"{Value(j.Unit, e.Low90, screen)} to {Value(j.Unit, e.High90, screen)}" : "", j.Verdict, j.Verdict == "go" ? "" : j.Reason);
        }

        screen.Table(table);
    }

    /// <summary>What the bonds kept.</summary>
    internal static void Bonds(IReadOnlyList<BalanceRow> rows, Screen screen)
    {
        foreach (BalanceRow b in rows)
        {
            string water = b.WaterLost is { } w ? $" and lost {screen.Text(w, Shown.Mass)} of water" : "; without a witness piece what water it lost is not known";
            string share = b.KeptShare is { } s ? string.Create(CultureInfo.InvariantCulture, $", {s * 100:F0} % of the {screen.Text(b.Mixed!.Value, Shown.Mass)} mixed") : "";
            screen.Line($"The {b.Bond} gained {screen.Text(b.Gain, Shown.Mass)}{water}: adhesive kept {screen.Text(b.Kept, Shown.Mass)} ± {screen.Text(b.Deviation, Shown.Mass)} sd{share}.");
        }
    }

    // All of them stand as typed beside it.
    private static string Tones(IReadOnlyList<double> values, Screen screen) =>
        values.Count == 1 ? screen.Text(values[0], Shown.Frequency) : string.Create(CultureInfo.InvariantCulture, $"{values.Count}, {screen.Number(values[0], Shown.Frequency)} to {screen.Text(values[^1], Shown.Frequency)}");

    /// <summary>A value of a build's reading.</summary>
    internal static string Value(string unit, double value, Screen screen) => unit switch
    {
        "kg" => screen.Text(value, Shown.Mass),
        "m" => screen.Text(value, Shown.Thickness),
        "Hz" => screen.Text(value, Shown.Frequency),
        "K" => screen.Text(value, Shown.Temperature),
        _ => screen.Text(value, Shown.Percent),
    };

    private static void Print(HindsightResult r, Screen screen)
    {
        if (r.Within is not { } within)
        {
            screen.Line("Nothing that was predicted has been read yet: `log add` keeps both.");
            return;
        }

        if (r.Boards == 1)
        {
            var table = new TextTable("stage", "what", ">predicted", "90 %", ">read", ">off by", "");
            foreach (HindsightRow h in r.Rows) { table.Add(h.Stage, h.Figure, Value(h.Unit, h.Predicted, screen), $"{Value(h.Unit, h.Low90, screen)} to {Value(h.Unit, h.High90, screen)}", Value(h.Unit, h.Read, screen), Off(h.Read / h.Predicted - 1), h.IsWithin ? "" : "outside"); }
            screen.Table(table);
        }
        else
        {
            var table = new TextTable("stage", "what", ">boards", ">off by, mean", ">within 90 %", "");
            foreach (HindsightSum s in r.Sums) { table.Add(s.Stage, s.Figure, s.Readings.ToString(CultureInfo.InvariantCulture), Off(s.MeanOff), string.Create(CultureInfo.InvariantCulture, $"{s.Within} of {s.Readings}"), s.IsBiased ? "off to one side: look for why" : ""); }
            screen.Table(table);
        }

        screen.Line(string.Create(CultureInfo.InvariantCulture, $"{r.Rows.Count(h => h.IsWithin)} of {r.Rows.Count} readings lay in their 90 % interval ({within * 100:F0} %); nine in ten should."));

        static string Off(double share) => string.Create(CultureInfo.InvariantCulture, $"{share * 100:+0.0;-0.0;0.0} %");
    }

    private static void Print(BuildsResult r, Screen screen)
    {
        if (r.Boards.Count == 0)
        {
            screen.Line("The log holds no board yet: `sandwichmech log start BOARD.toml` begins one.");
            return;
        }

        var boards = new TextTable(">board", "name", "begun", "reached", ">readings");
        foreach (BoardRow b in r.Boards) { boards.Add(b.Number.ToString(CultureInfo.InvariantCulture), b.Name, b.Started, b.Reached ?? "nothing yet", b.Readings.ToString(CultureInfo.InvariantCulture)); }
        screen.Table(boards);
        if (r.More > 0) { screen.Line(string.Create(CultureInfo.InvariantCulture, $"{r.More} older {(r.More == 1 ? "board" : "boards")} more: `sandwichmech log show --all` lists all.")); }
        if (r.Entries.Count == 0) { return; }
        screen.Line();
        var entries = new TextTable(">entry", "at", "stage", "what", ">value", "as typed", "");
        foreach (BoardEntryRow e in r.Entries)
        {
            string value = e.Values.Count == 0 ? "" : e.What.StartsWith("expected", StringComparison.Ordinal) ? $"{Value(e.Unit, e.Values[0], screen)} to {Value(e.Unit, e.Values[2], screen)}" : e.Unit == "Hz" ? Tones(e.Values, screen) : string.Join(", ", e.Values.Select(v => Value(e.Unit, v, screen)));
            entries.Add(e.Entry.ToString(CultureInfo.InvariantCulture), e.At, e.Stage ?? "", e.What, value, e.AsTyped, e.CorrectedBy is { } by ? string.Create(CultureInfo.InvariantCulture, $"corrected by {by}") : "");
        }

        screen.Table(entries);
    }
}
