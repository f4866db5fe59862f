using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;
using SandwichMech.App.Commands;

namespace SandwichMech.App.Terminal;

/// <summary>The library's help, followed by the command's examples; a test runs each of them.</summary>
internal sealed class HelpWithExamples(HelpAction help) : SynchronousCommandLineAction
{
    public override bool ClearsParseErrors => true;

    public override int Invoke(ParseResult parseResult)
    {
        help.Invoke(parseResult);
        if (parseResult.CommandResult.Command is WorkCommand { Examples: { Count: > 0 } examples })
        {
            TextWriter output = parseResult.InvocationConfiguration.Output;
            output.WriteLine("Examples:");
            foreach (string example in examples)
            {
                output.WriteLine($"  {example}");
            }

            output.WriteLine();
        }

        return Cli.Done;
    }
}
