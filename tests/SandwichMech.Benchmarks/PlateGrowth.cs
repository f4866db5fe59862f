using System.Diagnostics;
using System.Globalization;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;

namespace SandwichMech.Benchmarks;

/// <summary>How our plate solver's cost grows with the unknowns, on ever finer meshes of the same board, and how much memory a cold solve takes.</summary>
internal static class PlateGrowth
{
    private const double MostPower = 1.5, Factor = 16;
    private const double MostMegabytes = 300;
    private const int Order = 5, Runs = 3, WarmUps = 5;
    private const double Step = 0.75;
    private const string Child = "plate-memory";

    internal static bool Run()
    {
        PlateCase plate = PlateCase.Of(EdgeHold.Clamped);
        var points = new List<(double Unknowns, double Seconds)>();
        for (int i = 0; i < WarmUps; i++) { plate.Cold(1e-3); }
        for (double size = plate.FirstSize; points.Count == 0 || points[^1].Unknowns < Factor * points[0].Unknowns; size *= Step)
        {
            PlateSolution solution = null!;
            Cost cost = Cost.None;
            // The small ones, over in a moment, are the noisy ones.
            for (int i = 0; i < (points.Count < 4 ? Runs : 1); i++)
            {
                cost = cost.Or(Stopclock.Cost(() => solution = PlateSolver.OnMesh(plate.Problem(size), PlateCase.Modes, Order)));
            }

            points.Add((solution.Unknowns, cost.Processor));
            Report.Line($"triangles of {1000 * size,5:F1} mm: {solution.Unknowns,7} unknowns, {cost.Processor,7:F2} s of processor, {1e6 * cost.Processor / solution.Unknowns,6:F1} µs each");
        }

        double power = Slope([.. points.Select(p => Math.Log(p.Unknowns))], [.. points.Select(p => Math.Log(p.Seconds))]);
        bool met = Report.Gate($"power of the unknowns that the cost grows with, over a factor of {points[^1].Unknowns / points[0].Unknowns:F0}", power, power <= MostPower, $"at most {MostPower}");
        foreach (double accuracy in new[] { PlateBenchmark.Wanted, 1e-3 })
        {
            double megabytes = MemoryOf(accuracy);
            met &= Report.Gate($"largest working set of a cold solve at {accuracy:P1}, MB", megabytes, megabytes <= MostMegabytes, $"at most {MostMegabytes}", "F0");
        }

        return met;
    }

    /// <summary>What the child process does: one cold solve, then it says the largest memory that it ever held.</summary>
    /// <returns>Whether the arguments ask for it.</returns>
    internal static bool IsChild(string[] args)
    {
        if (args.Length != 2 || args[0] != Child) { return false; }
        PlateCase.Of(EdgeHold.Clamped).Cold(double.Parse(args[1], CultureInfo.InvariantCulture));
        using var own = Process.GetCurrentProcess();
        Console.WriteLine((own.PeakWorkingSet64 / 1e6).ToString(CultureInfo.InvariantCulture));
        return true;
    }

    private static double MemoryOf(double accuracy)
    {
        string program = Environment.ProcessPath!;
        string[] words = [Child, accuracy.ToString(CultureInfo.InvariantCulture)];
        // Started as `dotnet X.dll`, the process is dotnet.
        if (Path.GetFileNameWithoutExtension(program) == "dotnet") { words = [typeof(PlateGrowth).Assembly.Location, .. words]; }
        using Process process = Process.Start(new ProcessStartInfo(program, words) { RedirectStandardOutput = true })!;
        string output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return process.ExitCode == 0
            ? double.Parse(output, CultureInfo.InvariantCulture)
            : throw new InvalidOperationException($"The solve in a process of its own ended with {process.ExitCode}.");
    }

    private static double Slope(double[] x, double[] y)
    {
        double meanX = x.Average(), meanY = y.Average();
        return x.Zip(y).Sum(p => (p.First - meanX) * (p.Second - meanY)) / x.Sum(v => (v - meanX) * (v - meanX));
    }
}
