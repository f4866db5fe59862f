using System.CommandLine;
using SandwichMech.App;
using SandwichMech.Tests.Log;

namespace SandwichMech.Tests.EndToEnd;

/// <summary>Help is complete, and each example in it runs as it stands.</summary>
[Trait("Check", "exact")]
public class HelpTests
{
    public static TheoryData<string> Commands() => [.. Paths(Root(), "")];

    [Theory]
    [MemberData(nameof(Commands))]
    public void Help_describes_every_option_and_ends_with_examples_that_run(string command)
    {
        string[] words = Commanded.Words(command);
        Commanded help = Commanded.Run([.. words, "--help"]);
        Assert.Equal(0, help.Code);
        string[] lines = help.Out.Split('\n');
        int at = Array.FindIndex(lines, l => l.StartsWith("Examples:", StringComparison.Ordinal));
        Assert.True(at > 0, "There are no examples.");
        string[] examples = [.. lines.Skip(at + 1).Select(l => l.Trim()).Where(l => l.Length > 0)];
        Assert.NotEmpty(examples);
        using var folder = new TemporaryFolder();
        string log = DemoLog.In(folder);
        foreach (string example in examples)
        {
            string[] typed = Commanded.Words(example);
            Assert.Equal("sandwichmech", typed[0]);
            // The files that an example writes go to a folder of the test's own.
            string[] run = [.. typed.Skip(1).Select(w => w.StartsWith("shared/", StringComparison.Ordinal) ? Repository.File(w.Split('/')) : IsFile(w) || w == "tables" ? folder.File(w) : w)];
            Commanded done = Commanded.Run([.. run, .. run.Contains("--log") ? Array.Empty<string>() : ["--log", log]]);
            Assert.True(done.Code == 0, $"{example}: {done.Err}");
            Assert.NotEqual("", done.Out + done.Err);
        }
    }

    [Fact]
    public void Every_command_option_and_argument_is_described()
    {
        foreach (Command command in All(Root()))
        {
            Assert.False(string.IsNullOrWhiteSpace(command.Description), command.Name);
            Assert.All(command.Options, o => Assert.False(string.IsNullOrWhiteSpace(o.Description), $"{command.Name} {o.Name}"));
            Assert.All(command.Arguments, a => Assert.False(string.IsNullOrWhiteSpace(a.Description), $"{command.Name} {a.Name}"));
        }
    }

    private static bool IsFile(string word) => word.Contains('.', StringComparison.Ordinal) && !word.Contains(' ', StringComparison.Ordinal)
        && Path.GetExtension(word) is ".png" or ".svg" or ".csv" or ".toml" or ".vtu" or ".json" or ".sqlite" or ".wav" or ".html";

    private static RootCommand Root() => Cli.Build(new(TextReader.Null, TextWriter.Null, TextWriter.Null, false, false));

    private static IEnumerable<Command> All(Command command) => command.Subcommands.SelectMany(All).Prepend(command);

    private static IEnumerable<string> Paths(Command command, string path) =>
        command.Subcommands.SelectMany(c => Paths(c, $"{path} {c.Name}".Trim()).Prepend($"{path} {c.Name}".Trim()));
}
