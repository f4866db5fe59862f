using SandwichMech.Benchmarks;
using SandwichMech.Tests.Log;

// dotnet run -c Release --project tests/SandwichMech.Benchmarks [-- NAME]
// Ratios against named rivals in the same run, and counts. Exit code 1 where a gate is missed, 2 where a name is not known.
(string Name, Func<bool> Run)[] all = [("start", StartBenchmark.Run), ("layups", LayupBenchmark.Run), ("plate", PlateBenchmark.Run), ("plate-growth", PlateGrowth.Run), ("reduced", ReducedBenchmark.Run), ("taps", TapBenchmark.Run), ("coverage", CoverageBenchmark.Run), ("choose", ChooseBenchmark.Run), ("log", LogBenchmark.Run), ("logkill", LogKill.Run)];
KillTrial.WriteIfAsked();
if (PlateGrowth.IsChild(args)) { return 0; }

if (args.FirstOrDefault(name => all.All(b => b.Name != name)) is { } unknown)
{
    Console.Error.WriteLine($"there is no benchmark '{unknown}': give {string.Join(" or ", all.Select(b => b.Name))}, or nothing for all");
    return 2;
}

bool met = true;
foreach ((string name, Func<bool> run) in all.Where(b => args.Length == 0 || args.Contains(b.Name)))
{
    Report.Heading(name);
    try
    {
        met &= run();
    }
    catch (MissingRivalException e)
    {
        Console.Error.WriteLine(e.Message);
        met = false;
    }
}

return met ? 0 : 1;
