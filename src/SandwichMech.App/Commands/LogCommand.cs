using System.CommandLine;
using System.Globalization;
using SandwichMech.App.Terminal;
using SandwichMech.Workshop;
using SandwichMech.Workshop.Log;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.App.Commands;

/// <summary>`log where`, `export`, `restore`: the file that the shop's log is kept in.</summary>
internal static class LogCommand
{
    internal static Command Create(CommonOptions common)
    {
        var command = new WorkCommand("log", "Your shop's log: builds from first weighing to finished board, where it lies, a copy of it as plain JSON, and back from there", "sandwichmech log where");
        command.SetAction(parsed => Where(common, parsed));
        var where = new WorkCommand("where", "Its file, how much it holds, and whether it is safe there", "sandwichmech log where");
        where.SetAction(parsed => Where(common, parsed));
        command.Subcommands.Add(where);
        BuildCommands.AddTo(command, common);
        command.Subcommands.Add(Export(common));
        command.Subcommands.Add(Restore(common));
        return command;
    }

    private static int Where(CommonOptions common, ParseResult parsed)
    {
        using ShopLog log = common.Log(parsed);
        return common.Show(parsed, KeepLog.Where(log), Print);
    }

    private static WorkCommand Export(CommonOptions common)
    {
        var command = new WorkCommand("export", "All of the log as plain JSON, nothing lost: for a copy elsewhere, or for other programs; files attached to boards go into FILE.files beside it",
            "sandwichmech log export shop.json",
            "sandwichmech log export --csv tables",
            "sandwichmech log export");
        var file = new Argument<string?>("FILE") { Description = "Where to write it, an earlier export is replaced; to the screen when left out", Arity = ArgumentArity.ZeroOrOne };
        Option<string?> csv = ReadingOptions.Value("--csv", "Write readings.csv, predictions.csv, notes.csv, boards.csv and pieces.csv for spreadsheets into this folder instead; SI units in the column names", "FOLDER");
        command.Arguments.Add(file);
        command.Options.Add(csv);
        command.SetAction(parsed =>
        {
            using ShopLog log = common.Log(parsed);
            if (!System.IO.File.Exists(log.File))
            {
                throw new InputException(log.File, "there is no log yet, so there is nothing to export: `sandwichmech piece add` begins one; --log FILE names another");
            }

            if (parsed.GetValue(csv) is { } folder)
            {
                return parsed.GetValue(file) is not null
                    ? throw new InputException("log export", "give a file for all of it as JSON, or --csv FOLDER for tables: one at a time")
                    : common.Show(parsed, KeepLog.Tables(log, folder), (r, screen) => screen.Line($"readings.csv, predictions.csv, notes.csv, boards.csv and pieces.csv written into {folder}."));
            }

            if (parsed.GetValue(file) is { } path)
            {
                return common.Show(parsed, KeepLog.Export(log, path), (r, screen) =>
                {
                    screen.Line(string.Create(CultureInfo.InvariantCulture, $"{path} written: {r.Entries} entries."));
                    screen.Warnings(r.Warnings);
                });
            }

            common.Console.Out.Write(LogExport.Write(log));
            return Cli.Done;
        });
        return command;
    }

    private static WorkCommand Restore(CommonOptions common)
    {
        var command = new WorkCommand("restore", "An export back into a new log, with the attached files from FILE.files beside it; a log that holds anything is never written over",
            "sandwichmech log restore shop.json --log restored.sqlite");
        var file = new Argument<string>("FILE") { Description = "A file that `log export` has written" };
        command.Arguments.Add(file);
        command.SetAction(parsed =>
        {
            using ShopLog log = common.Log(parsed);
            return common.Show(parsed, KeepLog.Restore(log, parsed.GetRequiredValue(file)), Print);
        });
        return command;
    }

    private static void Print(LogResult r, Screen screen)
    {
        screen.Title(r.Log);
        screen.Line(r.IsThere
            ? string.Create(CultureInfo.InvariantCulture, $"{r.Pieces} {(r.Pieces == 1 ? "piece" : "pieces")}, {r.Boards} {(r.Boards == 1 ? "board" : "boards")}, {r.Entries} {(r.Entries == 1 ? "entry" : "entries")}{(r.Export is { } from ? $", restored from {from}" : "")}.")
            : "Not begun yet: `sandwichmech piece add` or `sandwichmech log start` begins it.");
        screen.Warnings(r.Warnings);
    }
}
