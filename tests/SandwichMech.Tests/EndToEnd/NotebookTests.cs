using System.Diagnostics;
using System.Text.Json;
using System.Text.RegularExpressions;
using System.Xml.Linq;

namespace SandwichMech.Tests.EndToEnd;

/// <summary>Every notebook runs headless from the root of the checkout; its own claims are its checks.</summary>
[Trait("Check", "exact")]
public partial class NotebookTests
{
    // No notebook takes a minute; this only ends a run that hangs.
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(10);

    private static readonly Lazy<Run> Tool = new(() => Dotnet("tool", "restore"));

    public static TheoryData<string> Notebooks() =>
        [.. Directory.EnumerateFiles(Repository.File("notebooks"), "*.ipynb").Select(file => Path.GetFileName(file)).Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Notebooks))]
    public void A_notebook_runs_and_all_it_claims_holds(string name)
    {
        using var folder = new TemporaryFolder();
        string notebook = AsTested(Repository.File("notebooks", name), folder);
        (Run run, Cell[] cells) = Execute(notebook, folder);
        Assert.True(cells.All(cell => cell.Passed), $"{name}: {string.Join('\n', cells.Where(cell => !cell.Passed).Select(cell => $"{cell.Name}\n{cell.Said}"))}");
        Assert.True(run.Code == 0, $"{name} ended with {run.Code}:\n{run.Said}");
        Assert.Equal(CellCount(notebook), cells.Length);
    }

    [Fact]
    public void A_notebook_whose_claim_does_not_hold_fails()
    {
        const string Wrong = """
            {
              "cells": [
                { "cell_type": "code", "id": "one", "execution_count": null, "outputs": [], "source": ["double two = 1 + 1;"],
                  "metadata": { "polyglot_notebook": { "kernelName": "csharp" } } },
                { "cell_type": "code", "id": "two", "execution_count": null, "outputs": [], "source": ["if (two != 3) throw new Exception(\"two is not three\");"],
                  "metadata": { "polyglot_notebook": { "kernelName": "csharp" } } }
              ],
              "metadata": { "kernelspec": { "display_name": ".NET (C#)", "language": "C#", "name": ".net-csharp" } },
              "nbformat": 4,
              "nbformat_minor": 5
            }
            """;
        using var folder = new TemporaryFolder();
        File.WriteAllText(folder.File("wrong.ipynb"), Wrong);
        (Run run, Cell[] cells) = Execute(folder.File("wrong.ipynb"), folder);
        Assert.NotEqual(0, run.Code);
        Assert.Equal([true, false], cells.Select(cell => cell.Passed));
        Assert.Contains("two is not three", cells[1].Said, StringComparison.Ordinal);
    }

    /// <summary>The notebook itself where it refers to the assemblies under test, else a copy that does.</summary>
    private static string AsTested(string notebook, TemporaryFolder folder)
    {
        string text = File.ReadAllText(notebook);
        if (BuiltFile().Matches(text).All(file => IsTested(file.Value, file.Groups["name"].Value)))
        {
            return notebook;
        }

        string copy = folder.File(Path.GetFileName(notebook));
        File.WriteAllText(copy, BuiltFile().Replace(text, file => Tested(file.Groups["name"].Value).Replace('\\', '/')));
        return copy;
    }

    private static bool IsTested(string path, string name) =>
        File.Exists(Repository.File(path)) && File.ReadAllBytes(Repository.File(path)).AsSpan().SequenceEqual(File.ReadAllBytes(Tested(name)));

    private static string Tested(string name) => Path.Combine(AppContext.BaseDirectory, name);

    private static (Run Run, Cell[] Cells) Execute(string notebook, TemporaryFolder folder)
    {
        Assert.True(Tool.Value.Code == 0, $"dotnet tool restore could not get dotnet-repl (.config/dotnet-tools.json), which runs the notebooks:\n{Tool.Value.Said}");
        string results = folder.File("results.trx");
        Run run = Dotnet("tool", "run", "dotnet-repl", "--", "--run", notebook, "--default-kernel", "csharp",
            "--exit-after-run", "--output-path", results, "--output-format", "trx");
        Assert.True(File.Exists(results), $"{notebook} gave no results, exit code {run.Code}:\n{run.Said}");
        // Parsed from text: its head promises UTF-16, and it is UTF-8.
        return (run, [.. XDocument.Parse(File.ReadAllText(results)).Descendants().Where(e => e.Name.LocalName == "UnitTestResult").Select(e => new Cell(
            (string)e.Attribute("testName")!, (string?)e.Attribute("outcome") == "Passed", e.Value))]);
    }

    private static int CellCount(string notebook)
    {
        using JsonDocument document = JsonDocument.Parse(File.ReadAllText(notebook));
        return document.RootElement.GetProperty("cells").GetArrayLength();
    }

    private static Run Dotnet(params string[] words)
    {
        using Process process = Process.Start(new ProcessStartInfo("dotnet", words)
        {
            WorkingDirectory = Repository.Root,
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        })!;
        process.StandardInput.Close();
        Task<string> output = process.StandardOutput.ReadToEndAsync(CancellationToken.None);
        Task<string> error = process.StandardError.ReadToEndAsync(CancellationToken.None);
        if (!process.WaitForExit(Patience))
        {
            process.Kill(entireProcessTree: true);
            Assert.Fail($"dotnet {string.Join(' ', words)} was still running after {Patience.TotalMinutes} minutes and was stopped.");
        }

        return new(process.ExitCode, output.GetAwaiter().GetResult() + error.GetAwaiter().GetResult());
    }

    [GeneratedRegex(@"src/SandwichMech\.\w+/bin/Debug/net10\.0/(?<name>[\w.]+\.dll)")]
    private static partial Regex BuiltFile();

    private sealed record Run(int Code, string Said);

    private sealed record Cell(string Name, bool Passed, string Said);
}
