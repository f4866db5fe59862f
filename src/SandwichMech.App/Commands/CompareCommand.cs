using System.CommandLine;
using SandwichMech.App.Terminal;
using SandwichMech.Figures;
using SandwichMech.Workshop;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.App.Commands;

/// <summary>`compare BOARD`: the solid top of equal stiffness by every criterion, and the skins that match a solid top.</summary>
internal static class CompareCommand
{
    internal static Command Create(CommonOptions common)
    {
        var command = new WorkCommand("compare", "Against the solid top it replaces: equal stiffness by every criterion, both ways",
            "sandwichmech compare shared/demo/board.toml",
            "sandwichmech compare shared/demo/board.toml --plot compare.svg",
            "sandwichmech compare shared/demo/board.toml shared/demo/board-foam.toml");
        var board = new Argument<string[]>("BOARD") { Description = "A board file (TOML), or up to three to be set side by side; `sandwichmech new` writes one", Arity = ArgumentArity.OneOrMore };
        Option<string?> plot = CommonOptions.PlotOption("stiffness against areal density, with the solid woods");
        command.Arguments.Add(board);
        command.Options.Add(plot);
        var samples = new SampleOptions("what is held equal on an outline keeps them", EstimateCommand.MostSamples);
        samples.AddTo(command);
        command.SetAction(parsed =>
        {
            string[] files = parsed.GetRequiredValue(board);
            if (files.Length == 1)
            {
                return common.Show(parsed, CompareBoard.Run(common.Board(parsed, files[0]), new Progress(common.Console.Err).Report, samples.Read(parsed, new Progress(common.Console.Err))), Print, plot, BoardPictures.Compare);
            }

            if (parsed.GetValue(plot) is not null) { throw new InputException("--plot", "the picture is of one board beside solid tops: give one board, or leave --plot out"); }
            return common.Show(parsed, SideBySide.Run([.. files.Select(f => common.Board(parsed, f))]), Print);
        });
        return command;
    }

    private static void Print(SideBySideResult r, Screen screen)
    {
        screen.Title(string.Join("  |  ", r.Boards));
        var table = new TextTable(["", "", .. r.Boards.Select((_, i) => $">{(char)('A' + i)}, 90 %"), .. r.Boards.Skip(1).Select((_, i) => $">{(char)('B' + i)} over A")]);
        foreach (BesideRow row in r.Rows)
        {
            Shown kind = row.Unit switch { "N·m" => Shown.BendingStiffness, "kg/m²" => Shown.ArealDensity, "kg" => Shown.Mass, _ => Shown.Frequency };
            table.Add([row.Figure, screen.Unit(kind), .. row.Boards.Select(p => $"{screen.Number(p.Value, kind)} ({screen.Range(p, kind)})"), .. row.OverFirst.Select(p => $"{EstimateCommand.Percent(p.Value)} ({screen.Range(p, Shown.Percent)})")]);
        }

        screen.Table(table);
        for (int i = 0; i < r.Boards.Count; i++)
        {
            SolidRow s = r.Solids[i];
            screen.Line($"{(char)('A' + i)}, {r.Boards[i]}: as stiff as solid {s.Wood} of {screen.Text(s.Thickness.Value, Shown.Thickness)} by {s.Criterion}; {(s.Saved.Value >= 0 ? "saves" : "costs")} {screen.Text(Math.Abs(s.Saved.Value), Shown.Mass)} (90 %: {screen.Range(s.Saved, Shown.Mass)} {screen.Unit(Shown.Mass)}).");
        }

        screen.Line($"{char.ToUpperInvariant(r.Means[0])}{r.Means[1..]}.");
        EstimateCommand.Ending([], r.Warnings, screen);
    }

    private static void Print(CompareResult r, Screen screen)
    {
        screen.Title($"{r.Board}: {screen.Text(r.Mass.Value, Shown.Mass)} on {screen.Text(r.Area, Shown.Area)} (90 %: {screen.Range(r.Mass, Shown.Mass)} {screen.Unit(Shown.Mass)}, 50 %: {screen.Likely(r.Mass, Shown.Mass)})");
        screen.Heading($"Solid {r.Solids[0].Wood} that is as stiff");
        var solids = new TextTable("held equal", $">{screen.Unit(Shown.Thickness)}", ">90 % of boards", ">50 %", $">weighs {screen.Unit(Shown.Mass)}", "by");
        foreach (SolidRow s in r.Solids)
        {
            solids.Add(Held(s), screen.Number(s.Thickness.Value, Shown.Thickness), screen.Range(s.Thickness, Shown.Thickness), screen.Likely(s.Thickness, Shown.Thickness), screen.Number(s.Mass.Value, Shown.Mass), s.By);
        }

        screen.Table(solids);
        screen.Heading("What the board saves against it");
        var saves = new TextTable("held equal", $">saved {screen.Unit(Shown.Mass)}", ">90 % of boards", ">50 %", ">of the solid", "mostly from");
        foreach (SolidRow s in r.Solids)
        {
            saves.Add(Held(s), screen.Number(s.Saved.Value, Shown.Mass), screen.Range(s.Saved, Shown.Mass), screen.Likely(s.Saved, Shown.Mass), EstimateCommand.Percent(s.SavedShare.Value), Screen.MostFrom(s.Saved));
        }

        screen.Table(saves);
        EstimateCommand.Sampled(r.SampledBoards, r.Intervals, screen);
        screen.Line("* the criterion that the board file asks for. 'First mode' is equal tuning, not equal stiffness: a lighter board reaches it with less.");
        foreach (string means in r.Means) { screen.Line($"{char.ToUpperInvariant(means[0])}{means[1..]}."); }

        if (r.NamedSolid is { } named)
        {
            screen.Heading($"Against solid {named.Wood} of {screen.Text(named.Thickness, Shown.Thickness)}, {screen.Text(named.Mass, Shown.Mass)}");
            var ratios = new TextTable("board over solid", ">", ">90 % of boards", ">50 %", "mostly from");
            ratios.Add("bending stiffness along", EstimateCommand.Percent(named.Along.Value), screen.Range(named.Along, Shown.Percent), screen.Likely(named.Along, Shown.Percent), Screen.MostFrom(named.Along));
            ratios.Add("bending stiffness across", EstimateCommand.Percent(named.Across.Value), screen.Range(named.Across, Shown.Percent), screen.Likely(named.Across, Shown.Percent), Screen.MostFrom(named.Across));
            ratios.Add("mass", EstimateCommand.Percent(named.MassRatio.Value), screen.Range(named.MassRatio, Shown.Percent), screen.Likely(named.MassRatio, Shown.Percent), Screen.MostFrom(named.MassRatio));
            screen.Table(ratios);

            screen.Heading("Skins on this core that equal it (their ratio kept)");
            string mm = screen.Unit(Shown.Thickness), g = screen.Unit(Shown.Mass);
            var skins = new TextTable("held equal", $">outer {mm}", $">inner {mm}", $">weighs {g}", $">saved {g}", ">saved");
            foreach (MatchRow m in named.MatchingSkins)
            {
                skins.Add(m is { Outer: { } outer, Inner: { } inner, Mass: { } mass, Saved: { } saved, SavedShare: { } share }
                    ? [m.Criterion, screen.Number(outer, Shown.Thickness), screen.Number(inner, Shown.Thickness), screen.Number(mass, Shown.Mass), screen.Number(saved, Shown.Mass), EstimateCommand.Percent(share)]
                    : [m.Criterion, "none", "none", "", "", "choose another core height"]);
            }

            screen.Table(skins);
        }
        else
        {
            screen.Line();
            screen.Line("Give solid.thickness in the board file to compare with a certain top and to find the skins that match it.");
        }

        EstimateCommand.Ending([], r.Warnings, screen);

        string Held(SolidRow s) => s.Criterion + (s.Criterion == r.Criterion ? " *" : "");
    }
}
