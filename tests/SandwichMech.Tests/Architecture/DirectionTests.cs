using System.Reflection;

namespace SandwichMech.Tests.Architecture;

/// <summary>App → Figures → Workshop → Core; Core reads no file, prints nothing, has no clock, culture or unseeded chance.</summary>
[Trait("Check", "exact")]
public class DirectionTests
{
    private static readonly Assembly Core = typeof(Core.Layups.Laminate).Assembly;
    private static readonly Assembly Workshop = typeof(Workshop.Problem).Assembly;
    private static readonly Assembly Figures = typeof(Figures.BoardPictures).Assembly;
    private static readonly Assembly App = typeof(App.Cli).Assembly;

    private static readonly string[] ForbiddenInCore =
    [
        "System.Console", "System.IO.FileSystem", "System.Net", "System.Diagnostics.Process", "System.Text.Json",
        "Tomlyn", "CsvHelper", "ScottPlot", "SkiaSharp", "System.CommandLine", "UnitsNet",
    ];

    [Fact]
    public void Core_uses_no_project_of_ours() => Assert.Empty(Ours(Core));

    [Fact]
    public void Workshop_uses_only_Core() => Assert.Equal([Name(Core)], Ours(Workshop));

    [Fact]
    public void Figures_uses_Core_and_Workshop_only() => Assert.Empty(Ours(Figures).Except([Name(Core), Name(Workshop)]));

    [Fact]
    public void Nothing_uses_App()
    {
        Assert.DoesNotContain(Name(App), new[] { Core, Workshop, Figures }.SelectMany(Ours));
        Assert.NotEmpty(Ours(App));
    }

    [Fact]
    public void Core_references_no_library_that_does_input_or_output()
    {
        string[] found = [.. Core.GetReferencedAssemblies().Select(a => a.Name!)
            .Where(name => ForbiddenInCore.Any(f => name.StartsWith(f, StringComparison.Ordinal)))];
        Assert.Empty(found);
    }

    [Fact]
    public void The_build_refuses_input_output_clock_and_chance_in_Core()
    {
        string banned = File.ReadAllText(Repository.File("src", "SandwichMech.Core", "BannedSymbols.txt"));
        foreach (string symbol in new[] { "N:System.IO", "T:System.Console", "P:System.DateTime.Now", "P:System.Random.Shared", "P:System.Globalization.CultureInfo.CurrentCulture" })
        {
            Assert.Contains(symbol, banned, StringComparison.Ordinal);
        }

        string project = File.ReadAllText(Repository.File("src", "SandwichMech.Core", "SandwichMech.Core.csproj"));
        Assert.Contains("BannedApiAnalyzers", project, StringComparison.Ordinal);
        Assert.Contains("BannedSymbols.txt", project, StringComparison.Ordinal);
    }

    [Fact]
    public void Core_keeps_no_state_that_can_change()
    {
        var changing = Core.GetTypes()
            .Where(t => !t.Name.Contains('<', StringComparison.Ordinal))
            .SelectMany(t => t.GetFields(BindingFlags.Static | BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.DeclaredOnly))
            .Where(f => !f.IsInitOnly && !f.IsLiteral && !f.Name.Contains('<', StringComparison.Ordinal))
            .Select(f => $"{f.DeclaringType!.Name}.{f.Name}");
        Assert.Empty(changing);
    }

    [Fact]
    public void Only_the_table_reader_opens_the_shared_tables()
    {
        // The tables are resources of Workshop; no other source file asks for a resource.
        var others = Directory.EnumerateFiles(Path.Combine(Repository.Root, "src"), "*.cs", SearchOption.AllDirectories)
            .Where(f => !f.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal))
            .Where(f => File.ReadAllText(f).Contains("GetManifestResourceStream", StringComparison.Ordinal))
            .Select(Path.GetFileName);
        Assert.Equal(["MaterialTables.cs"], others);
    }

    private static string Name(Assembly a) => a.GetName().Name!;

    private static string[] Ours(Assembly a) =>
        [.. a.GetReferencedAssemblies().Select(r => r.Name!).Where(n => n.StartsWith("SandwichMech", StringComparison.Ordinal) || n == "sandwichmech").Order()];
}
