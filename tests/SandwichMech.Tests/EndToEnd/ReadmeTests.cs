using System.Diagnostics;
using SandwichMech.Tests.Log;
using SandwichMech.Workshop.Log;

namespace SandwichMech.Tests.EndToEnd;

/// <summary>What README.md shows runs as it stands, from the root of the checkout.</summary>
[Trait("Check", "exact")]
public class ReadmeTests
{
    private const string TestCommand = "dotnet test";

    public static TheoryData<string> CommandsToRun() => [.. Commands().Where(c => c != TestCommand)];

    [Fact]
    public void The_first_two_commands_run_the_main_job_and_all_tests()
    {
        string[] commands = Commands();
        Assert.StartsWith("dotnet run --project src/SandwichMech.App -- estimate shared/demo/board.toml", commands[0], StringComparison.Ordinal);
        Assert.Equal(TestCommand, commands[1]);
    }

    [Theory]
    [MemberData(nameof(CommandsToRun))]
    public void A_command_runs(string command)
    {
        // dotnet run builds first; the tests have built already, so it is told not to and to take the same configuration.
        string[] words = Commanded.Words(command);
        Assert.Equal(["dotnet", "run", "--project", "src/SandwichMech.App", "--"], words[..5]);
        using var folder = new TemporaryFolder();
        string[] run = [.. words.Skip(5).Select(w => w.StartsWith("shared/", StringComparison.Ordinal) ? w : Path.GetExtension(w) is ".png" or ".svg" or ".csv" or ".vtu" or ".html" or ".json" or ".sqlite" || w == "my-board.toml" ? folder.File(w) : w)];
        var start = new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "sandwichmech.dll"), .. run])
        {
            WorkingDirectory = Repository.Root,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            RedirectStandardInput = true,
            Environment = { [LogPlace.FileVariable] = DemoLog.In(folder) },
        };
        using Process process = Process.Start(start)!;
        process.StandardInput.Close();
        string error = process.StandardError.ReadToEnd(), output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        Assert.True(process.ExitCode == 0, $"{command}: {error}");
        Assert.NotEqual("", output);
        string[] written = [.. words.Where(w => !w.StartsWith("shared/", StringComparison.Ordinal) && Path.GetExtension(w) is ".png" or ".svg" or ".csv" or ".vtu" or ".html" or ".json" or ".sqlite")];
        Assert.All(written, w => Assert.True(File.Exists(folder.File(w)), $"{w} was not written."));
    }

    [Fact]
    public void Every_file_it_points_to_is_there()
    {
        string text = File.ReadAllText(Repository.File("README.md"));
        foreach (System.Text.RegularExpressions.Match link in System.Text.RegularExpressions.Regex.Matches(text, @"\]\(([^)#]+)\)"))
        {
            string target = link.Groups[1].Value;
            if (!target.StartsWith("http", StringComparison.Ordinal))
            {
                Assert.True(Path.Exists(Repository.File(target.Split('/'))), target);
            }
        }
    }

    private static string[] Commands()
    {
        var commands = new List<string>();
        bool shell = false;
        foreach (string line in File.ReadAllLines(Repository.File("README.md")))
        {
            if (line.StartsWith("```", StringComparison.Ordinal))
            {
                shell = line is "```sh";
            }
            else if (shell && line.Trim().Length > 0)
            {
                commands.Add(line.Trim());
            }
        }

        return [.. commands];
    }
}
