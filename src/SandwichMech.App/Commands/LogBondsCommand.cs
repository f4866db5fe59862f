using System.CommandLine;
using System.Globalization;
using SandwichMech.App.Terminal;
using SandwichMech.Core.Building;
using SandwichMech.Figures;
using SandwichMech.Workshop.Log;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.App.Commands;

/// <summary>`log bonds`: what all bonds of the shop kept, as a control chart.</summary>
internal static class LogBondsCommand
{
    internal static WorkCommand Create(CommonOptions common)
    {
        var command = new WorkCommand("bonds", "What the shop's bonds kept of what was mixed, in the order of time: mean, control limits, which lie outside, and what to do",
            "sandwichmech log bonds", "sandwichmech log bonds --plot bonds.png");
        Option<string?> plot = CommonOptions.PlotOption("the shares as a control chart");
        command.Options.Add(plot);
        command.SetAction(parsed =>
        {
            CommonOptions.CheckPlot(parsed, plot);
            using ShopLog log = common.Log(parsed);
            return common.Show(parsed, ShopBonds.Run(log, common.Tables(parsed)), Print, plot, BoardPictures.Bonds);
        });
        return command;
    }

    private static void Print(ShopBondsResult r, Screen screen)
    {
        screen.Title(r.Log);
        if (r.Bonds.Count > 0)
        {
            var table = new TextTable(">board", "name", "bond", "weighed", $">mixed, {screen.Unit(Shown.Mass)}", $">kept, {screen.Unit(Shown.Mass)}", ">± sd", ">share", "");
            foreach (ShopBondRow b in r.Bonds)
            {
                table.Add(b.Board.ToString(CultureInfo.InvariantCulture), b.Name, b.Bond, b.At, screen.Number(b.Mixed, Shown.Mass), screen.Number(b.Kept, Shown.Mass), screen.Number(b.Deviation, Shown.Mass), Percent(b.KeptShare), b.IsOut ? "outside" : "");
            }

            screen.Table(table);
        }

        if (r.Chart is { } chart) { screen.Line($"Mean {Percent(chart.Mean)}, control limits {Percent(chart.Low)} to {Percent(chart.High)} (mean ± {KeptShares.FactorText} of the mean step from bond to bond)."); }
        foreach (string line in r.ToDo) { screen.Line(line); }
    }

    private static string Percent(double share) => string.Create(CultureInfo.InvariantCulture, $"{100 * share:F1} %");
}
