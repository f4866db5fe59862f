using System.CommandLine;
using SandwichMech.App.Terminal;
using SandwichMech.Figures;
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
            "sandwichmech compare shared/demo/board.toml --plot compare.svg");
        Argument<string> board = CommonOptions.BoardArgument();
        Option<string?> plot = CommonOptions.PlotOption("stiffness against areal density, with the solid woods");
        command.Arguments.Add(board);
        command.Options.Add(plot);
        var samples = new SampleOptions("what is held equal on an outline keeps them", EstimateCommand.MostSamples);
        samples.AddTo(command);
        command.SetAction(parsed => common.Show(parsed, CompareBoard.Run(common.Board(parsed, board), new Progress(common.Console.Err).Report, samples.Read(parsed, new Progress(common.Console.Err))), Print, plot, BoardPictures.Compare));
        return command;
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
