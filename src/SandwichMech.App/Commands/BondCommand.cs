using System.CommandLine;
using System.Globalization;
using SandwichMech.App.Terminal;
using SandwichMech.Core.Building;
using SandwichMech.Core.Materials;
using SandwichMech.Core.Layups;
using SandwichMech.Figures;
using SandwichMech.Workshop;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Log;
using SandwichMech.Workshop.Tables;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.App.Commands;

/// <summary>`bond BOARD`, or a typed area: adhesive to mix, what the scale reads, what the board should gain.</summary>
internal static class BondCommand
{
    private const double SmallestArea = 1e-4, LargestArea = 4;

    internal static Command Create(CommonOptions common)
    {
        var command = new WorkCommand("bond", "Adhesive for both bonds: what to mix, what the scale reads, what the board should gain",
            "sandwichmech bond shared/demo/board.toml",
            "sandwichmech bond shared/demo/outline.toml --margin \"10 mm\" --cup \"12.4 g\" --temperature \"22 °C\" --sheet bond.html",
            "sandwichmech bond --area \"241 in²\" --mixed \"0.15 g/in²\" --bead \"0.25 g/in\" --bead-line \"12 in\"");
        var board = new Argument<string?>("BOARD") { Description = "A board file, or a number of the log; or give --area", Arity = ArgumentArity.ZeroOrOne };
        Option<string?> area = Value("--area", "Bonded area in place of a board's", "AREA");
        Option<string?> adhesive = Value("--adhesive", "Adhesive from the tables", "NAME");
        Option<string?> mixed = Value("--mixed", "Coverage you mix for one bond line, g/in² or g/m²", "COVERAGE");
        Option<string?> kept = Value("--kept", "Share that usually stays in the board", "PERCENT");
        Option<string?> bead = Value("--bead", "Mass of your bead per length", "G-PER-LENGTH");
        Option<string?> line = Value("--bead-line", "Length of one line of bead", "LENGTH");
        Option<string?> margin = Value("--margin", "Left all round to be cut off later", "LENGTH");
        var holeCut = new Option<bool>("--hole-cut") { Description = "The soundhole is open already" };
        Option<string?> letIn = Value("--letin-coverage", "Coverage you mix on let-in wood, where it is another", "COVERAGE");
        Option<string?> cup = Value("--cup", "Mass of the empty cup, so that nothing is tared", "MASS");
        Option<string?> temperature = Value("--temperature", "Of the shop, as \"22 °C\"", "TEMPERATURE");
        Option<string?> vacuum = Value("--vacuum", "Vacuum that you draw, below the air, as \"60 kPa\"", "PRESSURE");
        Option<string?> step = Value("--scale-step", "Smallest step of your scale, as \"0.1 g\"", "MASS");
        var sheet = new Option<string?>("--sheet") { Description = "Also write a sheet to print for the bench", HelpName = "FILE.html" };
        command.Arguments.Add(board);
        command.Options.Add(holeCut);
        command.Options.Add(sheet);
        foreach (Option<string?> option in new[] { area, adhesive, mixed, kept, bead, line, margin, letIn, cup, temperature, vacuum, step })
        {
            command.Options.Add(option);
        }

        command.SetAction(parsed =>
        {
            MaterialTables tables = common.Tables(parsed);
            string? path = parsed.GetValue(board), asked = null;
            if (path is null && parsed.GetValue(area) is null && common.Console.CanAsk && !common.IsJson(parsed))
            {
                asked = new Asking(common.Console).Answer("Board file, a board's number in the log, or the bonded area as 241 in²:", line => { if (!IsArea(line)) { Board(line.Trim()); } });
                path = asked is not null && !IsArea(asked) ? asked : null;
            }

            (BoardFile? file, double logged) = path is null ? (null, 0) : Board(path);
            double? typedArea = asked is not null && path is null ? TypedValues.Read(asked, Dimension.Area).Value!.Value : CommonOptions.Typed(parsed, area, Dimension.Area, SmallestArea, LargestArea);
            if (file is null == typedArea is null)
            {
                throw new InputException("bond", "give either a board file or --area, for example: sandwichmech bond --area \"241 in²\"");
            }

            Adhesive used = file?.Board.Adhesive ?? Named(tables, BoardFields.Product.Offered);
            used = parsed.GetValue(adhesive) is { } name ? Named(tables, name) : used;
            if (CommonOptions.Typed(parsed, mixed, Dimension.ArealDensity, 0.01, 2) is { } coverage)
            {
                // The shop's own figure: what is mixed is on the scale, so it carries no spread of its own.
                used = used with { Mixed = new(coverage, 0) };
            }

            if (CommonOptions.Typed(parsed, kept, Dimension.Ratio, 0.01, 1) is { } share)
            {
                used = used with { KeptShare = used.KeptShare with { Value = share } };
            }

            Board? sized = file?.Board is { } b ? b with { Adhesive = used } : null;
            var wish = new BondWish
            {
                Margin = CommonOptions.Typed(parsed, margin, Dimension.Length, 0, 0.1) ?? logged,
                HoleCut = parsed.GetValue(holeCut),
                LetInCoverage = CommonOptions.Typed(parsed, letIn, Dimension.ArealDensity, 0.01, 2),
                Cup = CommonOptions.Typed(parsed, cup, Dimension.Mass, 1e-4, 0.5),
                Temperature = CommonOptions.Typed(parsed, temperature, Dimension.Temperature, 278.15, 313.15) ?? CureTimes.Room,
                Vacuum = CommonOptions.Typed(parsed, vacuum, Dimension.Pressure, 1e3, 101.325e3),
                ScaleStep = CommonOptions.Typed(parsed, step, Dimension.Mass, 1e-6, 5e-3) ?? new BondWish().ScaleStep,
            };
            string? page = parsed.GetValue(sheet);
            if (page is not null) { BondSheet.CheckName(page, sheet.Name); }
            BondResult result = PlanBonds.Run(
                file?.Board.Name ?? "typed area", used, typedArea, BeadOf(parsed, bead, line) ?? file?.Bead, sized,
                [.. file?.Warnings.Select(w => w.ToString()) ?? []], wish);
            if (page is not null)
            {
                BondSheet.Of(result, common.Units(parsed)).Save(page);
                common.Console.Err.WriteLine($"{page} written: print it on A4 or Letter");
            }

            return common.Show(parsed, result, Print);

            static bool IsArea(string line) => TypedValues.Read(line, Dimension.Area).Value is { Value: >= SmallestArea and <= LargestArea };

            (BoardFile, double) Board(string path)
            {
                if (CommonOptions.NumberOf(path) is not { } number) { return (BoardFiles.Read(path, tables), 0); }
                using ShopLog log = common.Log(parsed);
                return KeepBuild.ToBond(log, number, tables);
            }
        });
        return command;
    }

    private static void Print(BondResult r, Screen screen)
    {
        BondLineRow one = r.OneBondLine;
        screen.Title($"{r.Board}: {r.Adhesive} on {screen.Text(r.Area, Shown.Area)} a bond line, {screen.Text(r.MixedPerArea, Shown.ArealDensity)} mixed");
        screen.Line();
        foreach (string caution in r.Cautions)
        {
            screen.Line($"! {caution}");
        }

        screen.Heading("For one bond line, at the scale");
        var steps = new TextTable("", "", $">{screen.Unit(Shown.Mass)}");
        foreach ((ScaleStep step, int i) in one.Scale.Select((s, i) => (s, i + 1)))
        {
            steps.Add(i.ToString(CultureInfo.InvariantCulture), step.Do, screen.Number(step.Reads, Shown.Mass));
        }

        screen.Table(steps);
        screen.Line($"Mixed {screen.Text(one.Mixed, Shown.Mass)}{Parts(r, screen)}.");
        if (one.BeadLines is { } lines && one.BeadLineLength is { } length)
        {
            screen.Line(string.Create(CultureInfo.InvariantCulture, $"That is {lines:F1} lines of bead, each {screen.Text(length, Shown.Length)} long."));
        }

        screen.Heading("Where it goes");
        foreach (BondRegionRow row in r.Regions)
        {
            screen.Line($"{row.Region}: {screen.Text(row.Area, Shown.Area)} at {screen.Text(row.Coverage, Shown.ArealDensity)}, {screen.Text(row.Mixed, Shown.Mass)}");
        }

        foreach (string poor in r.TooMuchOrLittle) { screen.Line(poor); }
        screen.Heading($"The clock at {screen.Text(r.Clock.Temperature, Shown.Temperature)}");
        foreach (string time in BondSheet.Clock(r)) { screen.Line(time); }
        screen.Heading("What should stay");
        screen.Line($"The board should gain {screen.Text(one.Kept.Value, Shown.Mass)} a bond line ({screen.Range(one.Kept, Shown.Mass)} {screen.Unit(Shown.Mass)} in 90 % of bonds, {screen.Number(one.Kept.Low50, Shown.Mass)} to {screen.Number(one.Kept.High50, Shown.Mass)} in half of them; {EstimateCommand.Percent(r.KeptShare)} of what is mixed); about {screen.Text(one.LeftOver, Shown.Mass)} is left on plate, roller and paper.");
        screen.Line($"Of it about {screen.Text(r.Film, Shown.Mass)} lies as film, the rest as fillets on the cell walls.");
        screen.Line(BondSheet.Witness(r, screen.Units));
        if (r.Adds is { } adds)
        {
            screen.Line($"Both bond lines add {screen.Text(adds.ArealDensity, Shown.ArealDensity)}, {EstimateCommand.Percent(adds.ShareOfMass)} of the board's mass; their films carry {EstimateCommand.Percent(adds.ShareAlong)} of its stiffness along and {EstimateCommand.Percent(adds.ShareAcross)} across.");
        }

        screen.Heading("For both bonds");
        screen.Line($"{screen.Text(r.MixedForBoth, Shown.Mass)} in all, mixed in two goes, one before each bond.");
        EstimateCommand.Ending([], r.Warnings, screen);
    }

    private static string Parts(BondResult r, Screen screen)
    {
        if (r.OneBondLine is not { Resin: { } resin, Hardener: { } hardener } || r.PartsByMass is not { } parts)
        {
            return "";
        }

        string byMass = string.Create(CultureInfo.InvariantCulture, $": resin {screen.Text(resin.Mass, Shown.Mass)}, hardener {screen.Text(hardener.Mass, Shown.Mass)} ({parts[0]:G4} : {parts[1]:G4} by mass)");
        return resin.Volume is { } rv && hardener.Volume is { } hv
            ? byMass + string.Create(CultureInfo.InvariantCulture, $", or {rv * 1e6:F1} ml and {hv * 1e6:F1} ml (100 : {r.HardenerPer100ByVolume:F0} by volume)")
            : byMass;
    }

    private static Adhesive Named(MaterialTables tables, string name) => MaterialTables.Find(tables.Adhesives, name)?.Item
        ?? throw new InputException("--adhesive", MaterialTables.Unknown(tables.Adhesives, name, "adhesive"));

    private static Bead? BeadOf(ParseResult parsed, Option<string?> bead, Option<string?> line)
    {
        double? mass = CommonOptions.Typed(parsed, bead, Dimension.LineDensity, 1e-4, 0.2), length = CommonOptions.Typed(parsed, line, Dimension.Length, 0.01, 2);
        return (mass, length) switch
        {
            ({ } m, { } l) => new(m, l),
            (null, null) => null,
            _ => throw new InputException("bond", "--bead and --bead-line belong together: give both, for example --bead \"0.25 g/in\" --bead-line \"12 in\""),
        };
    }

    private static Option<string?> Value(string name, string description, string helpName) => new(name) { Description = description, HelpName = helpName };
}
