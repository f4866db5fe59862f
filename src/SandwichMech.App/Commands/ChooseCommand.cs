using System.CommandLine;
using System.Globalization;
using SandwichMech.App.Terminal;
using SandwichMech.Core.Identification;
using SandwichMech.Figures;
using SandwichMech.Workshop;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Log;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.App.Commands;

/// <summary>`choose BOARD`: the lightest board that meets its targets, what lightness costs, or what stands in the way.</summary>
internal static class ChooseCommand
{
    internal static Command Create(CommonOptions common)
    {
        var command = new WorkCommand("choose", "The lightest board that meets your targets, with the chance that it does",
            "sandwichmech choose shared/demo/board.toml --target \"along at least solid\" --sure \"80 %\"",
            "sandwichmech choose shared/demo/board.toml --target \"along equal 1.2 solid\" --target \"ratio 4 to 14\" --free \"outer.thickness 20 thou to 40 thou by 1 thou\" --free \"core.height 1.5 mm, 2 mm, 3 mm\" --units inch");
        Argument<string> board = CommonOptions.BoardArgument();
        var target = new Option<string[]>("--target")
        {
            Description = "What the board has to reach, as often as needed: along, across, twist, ratio, density, mass, mode N [free|hinged|clamped|rim], mobility, level or margin; 'at least', 'at most', 'equal' [± …] or FROM to TO; of stiffness and density also times the solid top's",
            HelpName = "\"along at least solid\"",
        };
        var free = new Option<string[]>("--free")
        {
            Description = "A field of the board file that may change, and its values, as often as needed: FROM to TO by STEP, a list, or 'in stock' for the log's pieces; without it both skins",
            HelpName = "\"FIELD VALUES\"",
        };
        var sure = new Option<string?>("--sure") { Description = "Chance with which all targets have to hold together; 90 % when left out", HelpName = "PERCENT" };
        var sand = new Option<string?>("--sand") { Description = "Limits that you sand both skins to, in place of the board file's", HelpName = "\"± 0.05 mm\"" };
        var stock = new Option<string?>("--stock") { Description = "What else is in stock, with price and hours if you like: CSV with the columns material, height, price, hours", HelpName = "FILE.csv" };
        var rank = new Option<string>("--rank") { Description = "Order of the other kinds of board", HelpName = "mass|price|hours", DefaultValueFactory = _ => "mass" };
        rank.AcceptOnlyFromAmong("mass", "price", "hours");
        var seed = new Option<int>("--seed") { Description = "The same seed gives the same answer", DefaultValueFactory = _ => 0, HelpName = "NUMBER" };
        var adopt = new Option<bool>("--adopt") { Description = "Write the choice into the board file; its comments stay" };
        Option<string?> plot = CommonOptions.PlotOption("what lightness costs in stiffness, with the chosen board and the solid top");
        command.Arguments.Add(board);
        foreach (Option option in new Option[] { target, free, sure, sand, stock, rank, seed, adopt, plot }) { command.Options.Add(option); }
        command.SetAction(parsed =>
        {
            CommonOptions.CheckPlot(parsed, plot);
            if (parsed.GetValue(adopt) && CommonOptions.NumberOf(parsed.GetRequiredValue(board)) is { } build)
            {
                throw new InputException("--adopt", string.Create(CultureInfo.InvariantCulture, $"writes into a board file, and {build} is a board of the log: `sandwichmech log decide {build} \"inner.thickness 0.55 mm\"` settles what is open of it"));
            }

            BoardFile file = common.Board(parsed, board);
            string? limits = parsed.GetValue(sand);
            var progress = new Progress(common.Console.Err);
            ChooseResult result = ChooseBoard.Run(file, new()
            {
                Targets = parsed.GetValue(target) ?? [],
                Free = parsed.GetValue(free) ?? [],
                Sure = CommonOptions.Typed(parsed, sure, Dimension.Ratio, 0.01, 0.999) ?? ChooseWish.UsualSure,
                Sand = limits is null ? null : ChooseBoard.Limits(limits),
                Stock = parsed.GetValue(stock),
                Rank = parsed.GetValue(rank) switch { "price" => ChoiceRank.Price, "hours" => ChoiceRank.Hours, _ => ChoiceRank.Mass },
                Seed = parsed.GetValue(seed),
                Units = common.Units(parsed),
                Pieces = () =>
                {
                    using ShopLog log = common.Log(parsed);
                    return [.. log.Pieces().Where(p => p.Kind != PieceKind.Sandwich).Select(p => p.Number)];
                },
            }, progress.Report);
            if (parsed.GetValue(adopt)) { result = ChooseBoard.Adopt(file, result, limits); }
            return common.Show(parsed, result, Print, plot, BoardPictures.Choose);
        });
        return command;
    }

    private static void Print(ChooseResult r, Screen screen)
    {
        screen.Title(r.Board);
        screen.Line($"Wanted: {string.Join("; ", r.Targets)}; all together with a chance of at least {Percent(r.Sure)}.");
        if (r.Best is { } best) { Best(r, best, screen); } else { InTheWay(r, screen); }
        screen.Line();
        screen.Line($"{Count(r.Boards)} boards to choose among{(r.Solves > 0 ? $", {Count(r.Solves)} {(r.Solves == 1 ? "plate" : "plates")} solved" : "")}. Meant is {r.Means}.");
        EstimateCommand.Ending(r.ReadBack, r.Warnings, screen);
    }

    private static void Best(ChooseResult r, ChosenRow best, Screen screen)
    {
        screen.Heading($"The lightest: {screen.Text(best.Mass, Shown.Mass)}, chance {Percent(best.Chance)}{(r.Adopted is { } file ? $", written into {file}" : "")}");
        var cut = new TextTable("cut", "of", $">{screen.Unit(Shown.Thickness)}", ">±", $">{screen.Unit(Shown.Mass)}", "");
        foreach (CutRow c in r.CutList) { cut.Add(c.Part, c.Material, screen.Number(c.Thickness, Shown.Thickness), screen.Number(c.Tolerance, Shown.Thickness), screen.Number(c.Mass, Shown.Mass), c.Note); }
        screen.Table(cut);
        ChosenField[] more = [.. best.Fields.Where(f => !f.Field.StartsWith("outer.", StringComparison.Ordinal) && !f.Field.StartsWith("inner.", StringComparison.Ordinal) && !f.Field.StartsWith("core.", StringComparison.Ordinal))];
        if (more.Length > 0) { screen.Line($"with {string.Join(", ", more.Select(f => $"{f.Field} {f.Value}"))}"); }
        Outcomes(best, screen);
        Thicknesses(r, screen);
        Others(r, screen);
        Front(r, screen);
    }

    private static void Outcomes(ChosenRow row, Screen screen)
    {
        screen.Line();
        var table = new TextTable("target", ">median", "50 %", "90 %", ">chance", "mostly from");
        foreach (OutcomeRow o in row.Outcomes)
        {
            string Number(double value) => ChooseBoard.Figure(o.Unit, value, screen.Units).Number;
            table.Add(o.Target, $"{Number(o.Figure.Value)} {ChooseBoard.Figure(o.Unit, o.Figure.Value, screen.Units).Unit}".TrimEnd(), $"{Number(o.Figure.Low50)} to {Number(o.Figure.High50)}", $"{Number(o.Figure.Low90)} to {Number(o.Figure.High90)}", Percent(o.Chance), Screen.MostlyFrom(o.Figure));
        }

        screen.Table(table);
    }

    private static void Thicknesses(ChooseResult r, Screen screen)
    {
        if (r.Best is not { Outcomes.Count: > 0 }) { return; }
        screen.Heading($"What {screen.Text(0.05e-3, Shown.Thickness)} more does, and how much of the spread it is");
        var table = new TextTable(["thickness", $">± {screen.Unit(Shown.Thickness)}", .. r.Best.Outcomes.Select(o => $">{o.Target}")]);
        foreach (ThicknessRow t in r.Thicknesses)
        {
            table.Add([t.Part, screen.Number(t.Tolerance, Shown.Thickness), .. r.Best.Outcomes.Select((o, i) => Change(o, t.Changes[i], t.Shares[i]))]);
        }

        screen.Table(table);
        screen.Line(r.SandingAllowed switch
        {
            null => $"How closely you sand hardly matters here: ± {screen.Text(r.SandingLooked!.Value, Shown.Thickness)} on both skins would still do.",
            0 => $"Even exact skins give a chance of {Percent(r.ChanceIfExact!.Value)} only.",
            { } a => $"Sanding both skins to ± {screen.Text(a, Shown.Thickness)} still meets the targets as surely as asked; exact skins give {Percent(r.ChanceIfExact!.Value)}.",
        });
    }

    private static void Others(ChooseResult r, Screen screen)
    {
        if (r.Others.Count == 0) { return; }
        bool price = r.Others.Append(r.Best!).Any(o => o.Price is not null), hours = r.Others.Append(r.Best!).Any(o => o.Hours is not null);
        screen.Heading("The lightest of other kinds");
        var table = new TextTable([$">{screen.Unit(Shown.Mass)}", ">chance", .. price ? [">price"] : Array.Empty<string>(), .. hours ? [">hours"] : Array.Empty<string>(), "board"]);
        foreach (ChosenRow o in r.Others)
        {
            table.Add([screen.Number(o.Mass, Shown.Mass), (o.Solved ? "" : "about ") + Percent(o.Chance), .. price ? [Plain(o.Price)] : Array.Empty<string>(), .. hours ? [Plain(o.Hours)] : Array.Empty<string>(), Fields(o.Fields)]);
        }

        screen.Table(table);
    }

    private static void Front(ChooseResult r, Screen screen)
    {
        if (r.Front.Count < 2) { return; }
        screen.Heading($"What lightness costs: none of these is both lighter and stiffer than another ({r.Traded})");
        var table = new TextTable($">{screen.Unit(Shown.Mass)}", $">{screen.Unit(Shown.BendingStiffness)}", ">louder dB", ">chance", "board");
        foreach (FrontRow f in r.Front)
        {
            table.Add(screen.Number(f.Mass, Shown.Mass), screen.Number(f.Stiffness, Shown.BendingStiffness), f.LevelChange.ToString("+0.0;-0.0;0.0", CultureInfo.InvariantCulture), Percent(f.Chance), Fields(f.Fields));
        }

        screen.Table(table);
        screen.Line("Louder: than the chosen board, by mass and stiffness alone; `sound` says it of a board in its frame.");
    }

    private static void InTheWay(ChooseResult r, Screen screen)
    {
        screen.Heading("No board meets all of this");
        if (r.Obstacles.Count > 0)
        {
            screen.Line("One of these would have to give way:");
            var table = new TextTable("in place of", "the others allow", ">g", "with");
            foreach (ObstacleRow o in r.Obstacles) { table.Add(o.Target, o.Instead, screen.Number(o.With.Mass, Shown.Mass), Fields(o.With.Fields)); }
            screen.Table(table);
        }
        else
        {
            screen.Line("No single target stands in the way: two or more would have to give way.");
        }

        if (r.Nearest is not { } near) { return; }
        screen.Heading($"The likeliest of all: chance {Percent(near.Chance)}, {screen.Text(near.Mass, Shown.Mass)}");
        screen.Line(Fields(near.Fields));
        Outcomes(near, screen);
    }

    private static string Fields(IEnumerable<ChosenField> fields) => string.Join(", ", fields.Select(f => $"{f.Field} {f.Value}"));

    private static string Change(OutcomeRow o, double change, double share) => string.Create(CultureInfo.InvariantCulture, $"{(o.Unit == "dB" ? $"{change:+0.0;-0.0} dB" : $"{change * 100:+0.0;-0.0} %")} ({share * 100:F0} %)");

    private static string Percent(double share) => string.Create(CultureInfo.InvariantCulture, $"{share * 100:0.#} %");

    private static string Plain(double? value) => value?.ToString("0.##", CultureInfo.InvariantCulture) ?? "";

    private static string Count(int n) => n.ToString("#,0", CultureInfo.InvariantCulture).Replace(',', ' ');
}
