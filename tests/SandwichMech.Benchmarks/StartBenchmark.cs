using System.Diagnostics;
using System.Runtime.InteropServices;

namespace SandwichMech.Benchmarks;

/// <summary>How long the tool takes to start and answer, beside a bare hello-world published alike.</summary>
/// <remarks>
/// Both are published for this machine, framework-dependent with ReadyToRun, into a temporary folder, so that no build of
/// the checkout is touched. What is timed is a whole process: started, read to the end of its output, gone.
/// </remarks>
internal static class StartBenchmark
{
    private const int Rounds = 21, WarmUps = 3;
    private const double MostTimesHello = 3;

    private const string HelloProject = """
        <Project Sdk="Microsoft.NET.Sdk">
          <PropertyGroup>
            <OutputType>Exe</OutputType>
            <TargetFramework>net10.0</TargetFramework>
            <TieredPGO>false</TieredPGO>
          </PropertyGroup>
        </Project>
        """;

    internal static bool Run()
    {
        DirectoryInfo folder = Directory.CreateTempSubdirectory("sandwichmech-start-");
        try
        {
            string hello = Publish(Hello(folder), "hello", folder);
            string tool = Publish(Path.Combine(Repository.Root, "src", "SandwichMech.App"), "sandwichmech", folder);
            string board = Path.Combine(Repository.Root, "shared", "demo", "board.toml");
            return Compare("materials", tool, hello, "materials") & Compare("estimate of the demo board", tool, hello, "estimate", board);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static bool Compare(string what, string tool, string hello, params string[] words)
    {
        Pairs pairs = Pairs.Measure(Rounds, WarmUps, () => Seconds(tool, words), () => Seconds(hello));
        Report.Line($"{what} {pairs.Ours * 1000:F0} ms, hello-world {pairs.Rival * 1000:F0} ms");
        return Report.Gate($"{what} over hello-world", pairs.Ratio, pairs.Ratio <= MostTimesHello, $"at most {MostTimesHello}");
    }

    private static double Seconds(string program, params string[] words) => Stopclock.Seconds(() => Output(program, words));

    private static string Hello(DirectoryInfo folder)
    {
        string source = folder.CreateSubdirectory("hello-source").FullName;
        File.WriteAllText(Path.Combine(source, "hello.csproj"), HelloProject);
        File.WriteAllText(Path.Combine(source, "Program.cs"), "System.Console.WriteLine(\"Hello, world\");\n");
        return source;
    }

    private static string Publish(string project, string program, DirectoryInfo folder)
    {
        string target = Path.Combine(folder.FullName, program);
        Output("dotnet", "publish", project, "-c", "Release", "-r", RuntimeInformation.RuntimeIdentifier, "--self-contained", "false",
            "-p:PublishReadyToRun=true", "--artifacts-path", Path.Combine(folder.FullName, "artifacts"), "-o", target, "-v", "q", "--nologo");
        return Path.Combine(target, OperatingSystem.IsWindows() ? program + ".exe" : program);
    }

    private static string Output(string program, params string[] words)
    {
        using Process process = Process.Start(new ProcessStartInfo(program, words) { RedirectStandardOutput = true })!;
        string output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return process.ExitCode == 0
            ? output
            : throw new InvalidOperationException($"{Path.GetFileName(program)} {string.Join(' ', words)} ended with {process.ExitCode}:\n{output}");
    }
}
