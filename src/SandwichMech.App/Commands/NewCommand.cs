using System.CommandLine;
using SandwichMech.Workshop;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Tables;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.App.Commands;

/// <summary>`new FILE`: asks at most ten things, Enter takes the offered answer, writes a commented board file.</summary>
internal static class NewCommand
{
    internal static Command Create(CommonOptions common)
    {
        var command = new WorkCommand("new", "Begin a board: at most ten questions, Enter takes the offered answer, a commented file is written",
            "sandwichmech new my-board.toml",
            "sandwichmech new my-board.toml --offered --overwrite");
        var file = new Argument<string>("FILE") { Description = "The board file to write (.toml)" };
        var offered = new Option<bool>("--offered") { Description = "Ask nothing: take every offered answer" };
        var overwrite = new Option<bool>("--overwrite") { Description = "Replace a file that is there" };
        command.Arguments.Add(file);
        command.Options.Add(offered);
        command.Options.Add(overwrite);
        command.SetAction(parsed =>
        {
            string path = parsed.GetRequiredValue(file);
            if (File.Exists(path) && !parsed.GetValue(overwrite))
            {
                throw new InputException(path, "is there already: choose another name, or add --overwrite");
            }

            MaterialTables tables = common.Tables(parsed);
            var answers = BoardFields.Questions.ToDictionary(q => q.Name, q => q.Offered);
            foreach (BoardField question in BoardFields.Questions.Where(_ => !parsed.GetValue(offered)))
            {
                Ask(common.Console, question, answers, path, tables);
            }

            string text = BoardText.New(answers);
            BoardFile board = BoardFiles.Parse(path, text, tables);
            File.WriteAllText(path, text);
            if (common.IsJson(parsed))
            {
                common.Console.Out.WriteLine(ResultJson.Write(new NewResult(path, board.Board.Name)));
            }
            else
            {
                common.Console.Out.WriteLine($"{path} written. Next: sandwichmech estimate {path}");
            }

            return Cli.Done;
        });
        return command;
    }

    // Asks until the answer can stand in the file; what it is checked by is the file's own reader.
    private static void Ask(ConsoleStreams console, BoardField question, Dictionary<string, string> answers, string path, MaterialTables tables)
    {
        while (true)
        {
            console.Err.Write($"{question.Question} [{question.Offered}] ");
            string? line = console.In.ReadLine();
            if (line is null)
            {
                // No more answers: the offered one stands.
                console.Err.WriteLine();
                return;
            }

            answers[question.Name] = line.Trim() is { Length: > 0 } answer ? answer : question.Offered;
            Problem? problem = Problems(path, answers, tables).FirstOrDefault(p => p.Field == question.Name);
            if (problem is null)
            {
                return;
            }

            console.Err.WriteLine($"  {problem.Message}");
        }
    }

    private static IReadOnlyList<Problem> Problems(string path, Dictionary<string, string> answers, MaterialTables tables)
    {
        try
        {
            BoardFiles.Parse(path, BoardText.New(answers), tables);
            return [];
        }
        catch (InputException e)
        {
            return e.Problems;
        }
    }
}
