using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Parsing;
using SandwichMech.App.Commands;
using SandwichMech.App.Terminal;
using SandwichMech.Workshop;
using SandwichMech.Workshop.Units;

namespace SandwichMech.App;

/// <summary>The command line: words in, text out, and an exit code: 0 done, 1 could not, 2 your input.</summary>
public static class Cli
{
    /// <summary>Done.</summary>
    public const int Done = 0;
    /// <summary>Could not: a file that cannot be written, say.</summary>
    public const int CouldNot = 1;
    /// <summary>The input is at fault; the message says how to mend it.</summary>
    public const int YourInput = 2;

    /// <summary>Runs one command.</summary>
    /// <param name="args">Words after the program's name.</param>
    /// <param name="console">Where to read and write.</param>
    /// <returns>Exit code.</returns>
    public static int Run(IReadOnlyList<string> args, ConsoleStreams console)
    {
        RootCommand root = Build(console);
        ParseResult parsed = root.Parse(args, new ParserConfiguration { ResponseFileTokenReplacer = null });
        if (parsed.Errors.Count > 0 && parsed.Action is not (HelpAction or HelpWithExamples))
        {
            foreach (ParseError error in parsed.Errors.Take(1))
            {
                console.Err.WriteLine(Explain(error, parsed, root));
            }

            return YourInput;
        }

        try
        {
            return parsed.Invoke(new InvocationConfiguration { Output = console.Out, Error = console.Err, EnableDefaultExceptionHandler = false });
        }
        catch (InputException problem)
        {
            foreach (Problem p in problem.Problems)
            {
                console.Err.WriteLine(p);
            }

            return YourInput;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ComputationException)
        {
            console.Err.WriteLine($"could not: {e.Message}");
            return CouldNot;
        }
    }

    /// <summary>All commands, for the tests of help.</summary>
    /// <param name="console">Where to read and write.</param>
    /// <returns>The root.</returns>
    public static RootCommand Build(ConsoleStreams console)
    {
        var common = new CommonOptions(console);
        var root = new RootCommand(
            "Sandwich soundboards: stiffness, mass, modes and adhesive of a layup before wood is cut, beside the solid top it replaces.");
        root.Subcommands.Add(NewCommand.Create(common));
        root.Subcommands.Add(OutlineCommand.Create(common));
        root.Subcommands.Add(EstimateCommand.Create(common));
        root.Subcommands.Add(ModesCommand.Create(common));
        root.Subcommands.Add(DeflectCommand.Create(common));
        root.Subcommands.Add(MarginsCommand.Create(common));
        root.Subcommands.Add(SoundCommand.Create(common));
        root.Subcommands.Add(CompareCommand.Create(common));
        root.Subcommands.Add(SweepCommand.Create(common));
        root.Subcommands.Add(ChooseCommand.Create(common));
        root.Subcommands.Add(PlanCommand.Create(common));
        root.Subcommands.Add(BondCommand.Create(common));
        root.Subcommands.Add(StripCommand.Create(common));
        root.Subcommands.Add(ListenCommand.Create(common));
        root.Subcommands.Add(MaterialsCommand.Create(common));
        root.Subcommands.Add(PieceCommand.Create(common));
        root.Subcommands.Add(MeasureCommand.Create(common));
        root.Subcommands.Add(LogCommand.Create(common));
        root.Subcommands.Add(CompletionCommand.Create(common));
        common.AddTo(root);
        HelpOption help = root.Options.OfType<HelpOption>().Single();
        help.Action = new HelpWithExamples((HelpAction)help.Action!);
        root.SetAction(_ =>
        {
            console.Err.WriteLine("say what to do: sandwichmech --help lists the commands; sandwichmech new my-board.toml begins one");
            return YourInput;
        });
        return root;
    }

    private static string Explain(ParseError error, ParseResult parsed, RootCommand root)
    {
        Command command = parsed.CommandResult.Command;
        string help = command is RootCommand ? "sandwichmech --help" : $"sandwichmech {command.Name} --help";
        if (parsed.UnmatchedTokens.Count > 0)
        {
            string typed = parsed.UnmatchedTokens[0];
            IEnumerable<string> known = typed.StartsWith('-')
                ? command.Options.Concat(root.Options).Select(o => o.Name)
                : command.Subcommands.Select(c => c.Name);
            string? near = Nearest.Name(typed, known);
            string what = typed.StartsWith('-') ? "option" : command.Subcommands.Count > 0 ? "command" : "argument";
            return $"'{typed}' is no {what} here{(near is null ? "" : $"; did you mean '{near}'?")} ({help})";
        }

        string message = string.Join(' ', error.Message.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)).TrimEnd('.');
        return $"{message} ({help})";
    }
}

/// <summary>Where a command reads and writes.</summary>
/// <param name="In">Answers.</param>
/// <param name="Out">Results.</param>
/// <param name="Err">Messages and progress.</param>
/// <param name="IsTerminal">Whether a person looks at the output directly.</param>
/// <param name="CanAsk">Whether a person can answer.</param>
public sealed record ConsoleStreams(TextReader In, TextWriter Out, TextWriter Err, bool IsTerminal, bool CanAsk);
