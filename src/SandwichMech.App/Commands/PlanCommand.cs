using System.CommandLine;
using System.Globalization;
using SandwichMech.App.Terminal;
using SandwichMech.Core.Choosing;
using SandwichMech.Core.Identification;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Figures;
using SandwichMech.Workshop;
using SandwichMech.Workshop.Log;
using SandwichMech.Workshop.Tables;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.App.Commands;

/// <summary>`plan BOARD`: what comes next in a build, what to expect, and what each choice that is still open would make.</summary>
internal static class PlanCommand
{
    // What taps hardly narrow is not shown.
    private const double TellingShare = 0.9;

    internal static Command Create(CommonOptions common)
    {
        var command = new WorkCommand("plan", "A build in the log: what now, what to expect, and which inner skin, from all that was read so far",
            "sandwichmech plan 1", "sandwichmech plan 1 --free \"inner.thickness 0.5 mm, 0.6 mm\" --free \"inner.wood Sitka spruce, Engelmann spruce\" --sure \"80 %\"",
            "sandwichmech plan 1 --plot plan.png");
        command.Aliases.Add("p");
        var board = new Argument<int?>("BOARD") { Description = "The board's number in the log (`sandwichmech log show`); asked for when left out", Arity = ArgumentArity.ZeroOrOne };
        var target = new Option<string[]>("--target") { Description = "Targets in place of those that the build began with, as `choose` takes them", HelpName = "\"along at least solid\"" };
        var free = new Option<string[]>("--free") { Description = "Inner skins that you could take: inner.thickness, inner.wood or inner.grain with their values, as `choose` takes them", HelpName = "\"inner.thickness 0.4 mm to 0.8 mm by 0.05 mm\"" };
        var sure = new Option<string?>("--sure") { Description = "Chance with which all targets have to hold together; 90 % when left out", HelpName = "PERCENT" };
        var modes = new Option<int>("--modes") { Description = "How many modes to tell, of each finished board and of the next stage for your taps; a plate is solved for each", HelpName = "NUMBER", DefaultValueFactory = _ => 0 };
        var stock = new Option<string?>("--stock") { Description = "Your stock as CSV with material, height, price, hours, for \"in stock\" beside the log's pieces", HelpName = "FILE" };
        Option<string?> plot = CommonOptions.PlotOption("the board's mass through all stages, as weighed and as expected");
        command.Arguments.Add(board);
        command.Options.Add(target);
        command.Options.Add(free);
        command.Options.Add(sure);
        command.Options.Add(modes);
        command.Options.Add(stock);
        command.Options.Add(plot);
        command.SetAction(parsed =>
        {
            CommonOptions.CheckPlot(parsed, plot);
            using ShopLog log = common.Log(parsed);
            MaterialTables tables = common.Tables(parsed);
            PlanResult plan = PlanBoard.Run(KeepBuild.Build(log, parsed.GetValue(board) ?? new BuildPrompts(common.Console, log).Which(), tables), tables, new()
            {
                Targets = parsed.GetValue(target) ?? [],
                Free = parsed.GetValue(free) ?? [],
                Sure = CommonOptions.Typed(parsed, sure, Dimension.Ratio, 0.01, 0.999) ?? ChooseWish.UsualSure,
                Modes = parsed.GetValue(modes) is var count and >= 0 and <= 12 ? count : throw new InputException("--modes", "a number from 0 to 12 is possible"),
                Stock = parsed.GetValue(stock),
                Pieces = () => [.. log.Pieces().Where(p => p.Kind != PieceKind.Sandwich).Select(p => p.Number)],
                Units = common.Units(parsed),
            }, new Progress(common.Console.Err).Report);
            return common.Show(parsed, plan, Print, plot, BoardPictures.Plan);
        });
        return command;
    }

    private static void Print(PlanResult r, Screen screen)
    {
        screen.Title(string.Create(CultureInfo.InvariantCulture, $"Board {r.Number}: {r.Board}"));
        screen.Line(r.Reached is null ? "Nothing was read yet." : $"Reached: {r.Reached}.");
        BuildCommands.Readings(r.Readings, screen);
        BuildCommands.Bonds(r.Bonds, screen);
        FileChanges(r, screen);
        foreach (StageTapsRow taps in r.Taps) { Taps(taps, screen); }
        Next(r, screen);
        Inner(r, screen);
        if (r.Sanding is { } room) { Sanding(room, r.Sure, screen); }
        foreach (string caution in r.Cautions)
        {
            screen.Line();
            screen.Line(caution);
        }

        if (r.Notes.Count == 0) { return; }
        screen.Line();
        foreach (string note in r.Notes) { screen.Line(note); }
    }

    private static void FileChanges(PlanResult r, Screen screen)
    {
        if (r.FileChanges.Count == 0) { return; }
        screen.Heading("The board file was changed since; the build goes by the log");
        var table = new TextTable("", "in the log", "in the file", "");
        foreach (FileChangeRow c in r.FileChanges)
        {
            table.Add(c.Field, c.InLog.Length > 0 ? c.InLog : "left out", c.InFile.Length > 0 ? c.InFile : "left out", c.IsOpen ? string.Create(CultureInfo.InvariantCulture, $"still open: `sandwichmech log decide {r.Number} \"{c.Field} {c.InFile}\"` takes it up") : "not taken: settled");
        }

        screen.Table(table);
    }

    private static void Taps(StageTapsRow taps, Screen screen)
    {
        screen.Heading($"What taps and bending at '{taps.Stage}' say, before and after");
        MeasureCommand.PrintProperties([.. taps.Properties.Where(p => p.Found.Relative < TellingShare * p.Table.Relative)], screen, "weighed and measured");
        foreach (string note in taps.Notes) { screen.Line(note); }
    }

    private static void Next(PlanResult r, Screen screen)
    {
        if (r.Next is not { } next)
        {
            screen.Line("All stages are done.");
            return;
        }

        screen.Heading($"Next: {next}");
        foreach (string what in r.ToRead) { screen.Line($"- {what}"); }
        var table = new TextTable("what scale and callipers should read", ">", "half of all", "nine of ten");
        foreach (ExpectedRow e in r.Expected) { Row(e.What, e.Mass, Shown.Mass); }
        foreach (CalliperRow c in r.Callipers) { Row(c.What, c.Thickness, Shown.Thickness); }
        if (r.Expected.Count + r.Callipers.Count > 0)
        {
            screen.Line();
            screen.Table(table);
        }

        foreach (ExpectedRow e in r.Expected.Where(e => e.From.Count > 0))
        {
            screen.Line($"The {e.What}: {string.Join(", ", e.From.Where(p => p.Mass != 0 || p.Deviation != 0).Select(p => $"{p.Part} {screen.Text(p.Mass, Shown.Mass)} ± {screen.Text(p.Deviation, Shown.Mass)}"))} (sd).");
        }

        Further(r, screen);

        void Row(string what, Prediction p, Shown kind) => table.Add(what, screen.Text(p.Value, kind), screen.Likely(p, kind), screen.Range(p, kind));
    }

    private static void Further(PlanResult r, Screen screen)
    {
        if (r.Tones.Count > 0) { screen.Line($"Tapped then, its tones should be {string.Join(", ", r.Tones.Select(t => $"{screen.Text(t.Value, Shown.Frequency)} ({screen.Range(t, Shown.Frequency)})"))}; in brackets nine of ten."); }
        if (r.Levelling is not { } level) { return; }
        screen.Line(level.Proud > 0
            ? $"Let-in wood stands {screen.Text(level.Proud, Shown.Thickness)} ± {screen.Text(level.Deviation, Shown.Thickness)} sd above the core: take that off, and the board weighs {screen.Text(level.Mass, Shown.Mass)} less. Stop at the core: sanded cells bond poorly."
            : $"Let-in wood lies {screen.Text(-level.Proud, Shown.Thickness)} ± {screen.Text(level.Deviation, Shown.Thickness)} sd below the core: nothing to take off, and where it lies low the inner skin would not touch it: shim it before the second bond.");
    }

    private static void Inner(PlanResult r, Screen screen)
    {
        if (r.Inner.Count == 0) { return; }
        screen.Heading(r.IsOpen ? "Still open: the inner skin, and the finished board that each would make" : "The board as it is known now");
        var table = new TextTable(["", "inner skin", $">{screen.Unit(Shown.Mass)}", ">chance", .. r.Inner[0].Outcomes.SelectMany(o => new[] { $">{o.Target}", "90 %" })]);
        for (int i = 0; i < r.Inner.Count; i++)
        {
            InnerRow row = r.Inner[i];
            table.Add([i == r.Best ? "→" : "", string.Join(", ", row.Fields.Select(f => f.Value)), screen.Number(row.Mass, Shown.Mass), Percent(row.Chance), .. row.Outcomes.SelectMany(o => Figures(o, screen))]);
        }

        screen.Table(table);
        if (r.Best is { } best && r.IsOpen)
        {
            screen.Line(r.Inner[best].Chance >= r.Sure
                ? $"→ the lightest that meets {string.Join("; ", r.Targets)} with a chance of at least {Percent(r.Sure)}."
                : $"→ the likeliest; none meets {string.Join("; ", r.Targets)} with a chance of {Percent(r.Sure)}.");
        }

        if (r.EachStep.Count > 0) { screen.Line($"Each {screen.Text(Tolerances.Step, Shown.Thickness)} more of it: {Changes(r.EachStep)}."); }
        if (r.Inner[0].Figures.Any(f => f.Unit == "Hz")) { Modes(r.Inner, screen); }
    }

    private static void Modes(IReadOnlyList<InnerRow> rows, Screen screen)
    {
        OutcomeRow[] heads = [.. rows[0].Figures.Where(f => f.Unit == "Hz")];
        var table = new TextTable(["inner skin", .. heads.SelectMany(f => new[] { $">{f.Target}", "90 %" })]);
        foreach (InnerRow row in rows)
        {
            table.Add([string.Join(", ", row.Fields.Select(f => f.Value)), .. row.Figures.Where(f => f.Unit == "Hz").SelectMany(o => Figures(o, screen))]);
        }

        screen.Table(table);
    }

    private static void Sanding(SandingRoom room, double sure, Screen screen)
    {
        screen.Heading("What may still be taken off the outer skin");
        string unit = screen.Unit(Shown.Thickness);
        var table = new TextTable(
        [
            $">off, {unit}", ">left", ">thinnest", $">{screen.Unit(Shown.Mass)}",
            .. room.Rows[0].Board.Figures.Select(f => $">{f.Target}, {ChooseBoard.Figure(f.Unit, f.Figure.Value, screen.Units).Unit}"), ">outer/inner", $">bow, {unit}", ">chance",
        ]);
        foreach (SandingRow row in room.Rows)
        {
            string Thickness(double value) => screen.Number(value, Shown.Thickness);
            table.Add(
            [
                row.TakenOff == 0 ? "now" : Thickness(row.TakenOff), Thickness(row.Left), Thickness(row.Thinnest), screen.Number(row.Board.Mass, Shown.Mass),
                .. row.Board.Figures.Select(f => ChooseBoard.Figure(f.Unit, f.Figure.Value, screen.Units).Number),
                row.SkinRatio.ToString("F2", CultureInfo.InvariantCulture), row.BowAcross is { } bow ? Thickness(Math.Abs(bow)) : "", Percent(row.Board.Chance),
            ]);
        }

        screen.Table(table);
        screen.Line($"Each {screen.Text(Tolerances.Step, Shown.Thickness)} taken off: {Changes(room.Each)}. Outer/inner is the outer skin's stiffness in its plane over the inner one's; bow is what the free board bows across when it comes to air of {MarginsBoard.Dry:0} %: skins of one wood do not at 1, skins of unlike woods always do.");
        screen.Line(room.Most switch
        {
            null => $"Take nothing off: the targets do not hold with a chance of {Percent(sure)} as it is.",
            0 => $"Take nothing off: with {screen.Text(Tolerances.Step, Shown.Thickness)} less the targets no longer hold with a chance of {Percent(sure)}.",
            { } most when most >= room.Rows[^1].TakenOff => $"Down to {screen.Text(room.Rows[^1].Left, Shown.Thickness)} all targets hold with a chance of {Percent(sure)}; thinner was not looked at.",
            { } most => $"At most {screen.Text(most, Shown.Thickness)} off: with more the targets no longer hold with a chance of {Percent(sure)}.",
        });
        screen.Line("Repair ends there too: a dent or scratch deeper than that is filled, not sanded out, and a place where the bond did not take cannot be reached any more.");
    }

    private static string Changes(IEnumerable<StepRow> steps) => string.Join(", ", steps.Select(s => string.Create(CultureInfo.InvariantCulture, $"{s.Figure} {s.Change * 100:+0.0;-0.0;0.0} %")));

    private static string[] Figures(OutcomeRow o, Screen screen)
    {
        string Number(double value) => ChooseBoard.Figure(o.Unit, value, screen.Units).Number;
        return [$"{Number(o.Figure.Value)} {ChooseBoard.Figure(o.Unit, o.Figure.Value, screen.Units).Unit}".TrimEnd(), $"{Number(o.Figure.Low90)} to {Number(o.Figure.High90)}"];
    }

    private static string Percent(double share) => string.Create(CultureInfo.InvariantCulture, $"{share * 100:0.#} %");
}
