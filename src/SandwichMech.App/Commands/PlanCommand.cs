using System.CommandLine;
using System.Globalization;
using SandwichMech.App.Terminal;
using SandwichMech.Workshop.Log;
using SandwichMech.Workshop.Tables;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.App.Commands;

/// <summary>`plan BOARD`: what comes next in a build, what to expect, and what each choice that is still open would make.</summary>
internal static class PlanCommand
{
    internal static Command Create(CommonOptions common)
    {
        var command = new WorkCommand("plan", "A build in the log: what now, what to expect, and which inner skin, from all that was read so far");
        var board = new Argument<int>("BOARD") { Description = "The board's number in the log (`sandwichmech log show`)" };
        var target = new Option<string[]>("--target") { Description = "Targets in place of those that the build began with, as `choose` takes them", HelpName = "\"along at least solid\"" };
        var free = new Option<string[]>("--free") { Description = "Inner skins that you could take: inner.thickness, inner.wood or inner.grain with their values, as `choose` takes them", HelpName = "\"inner.thickness 0.4 mm to 0.8 mm by 0.05 mm\"" };
        var sure = new Option<string?>("--sure") { Description = "Chance with which all targets have to hold together; 90 % when left out", HelpName = "PERCENT" };
        command.Arguments.Add(board);
        command.Options.Add(target);
        command.Options.Add(free);
        command.Options.Add(sure);
        command.SetAction(parsed =>
        {
            using ShopLog log = common.Log(parsed);
            MaterialTables tables = common.Tables(parsed);
            PlanResult plan = PlanBoard.Run(KeepBuild.Build(log, parsed.GetRequiredValue(board), tables), tables, new()
            {
                Targets = parsed.GetValue(target) ?? [],
                Free = parsed.GetValue(free) ?? [],
                Sure = CommonOptions.Typed(parsed, sure, Dimension.Ratio, 0.01, 0.999) ?? ChooseWish.UsualSure,
                Units = common.Units(parsed),
            }, new Progress(common.Console.Err).Report);
            return common.Show(parsed, plan, Print);
        });
        return command;
    }

    private static void Print(PlanResult r, Screen screen)
    {
        screen.Title(string.Create(CultureInfo.InvariantCulture, $"Board {r.Number}: {r.Board}"));
        screen.Line(r.Reached is null ? "Nothing was read yet." : $"Reached: {r.Reached}.");
        BuildCommands.Readings(r.Readings, screen);
        BuildCommands.Bonds(r.Bonds, screen);
        Next(r, screen);
        Inner(r, screen);
        foreach (string caution in r.Cautions)
        {
            screen.Line();
            screen.Line(caution);
        }

        if (r.Notes.Count == 0) { return; }
        screen.Line();
        foreach (string note in r.Notes) { screen.Line(note); }
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
        foreach (ExpectedRow e in r.Expected)
        {
            screen.Line($"The scale should read {screen.Text(e.Mass.Value, Shown.Mass)} for the {e.What}, {screen.Text(e.Mass.Low50, Shown.Mass)} to {screen.Text(e.Mass.High50, Shown.Mass)} in half of all cases, {screen.Text(e.Mass.Low90, Shown.Mass)} to {screen.Text(e.Mass.High90, Shown.Mass)} in nine of ten.");
            if (e.From.Count > 0) { screen.Line($"  {string.Join(", ", e.From.Where(p => p.Mass != 0 || p.Deviation != 0).Select(p => $"{p.Part} {screen.Text(p.Mass, Shown.Mass)} ± {screen.Text(p.Deviation, Shown.Mass)}"))} (sd)"); }
        }
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
    }

    private static string[] Figures(OutcomeRow o, Screen screen)
    {
        string Number(double value) => ChooseBoard.Figure(o.Unit, value, screen.Units).Number;
        return [$"{Number(o.Figure.Value)} {ChooseBoard.Figure(o.Unit, o.Figure.Value, screen.Units).Unit}".TrimEnd(), $"{Number(o.Figure.Low90)} to {Number(o.Figure.High90)}"];
    }

    private static string Percent(double share) => string.Create(CultureInfo.InvariantCulture, $"{share * 100:0.#} %");
}
