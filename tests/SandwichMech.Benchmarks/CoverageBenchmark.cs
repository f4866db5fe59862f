using SandwichMech.Core.Identification;
using SandwichMech.Tests.Identification;

namespace SandwichMech.Benchmarks;

/// <summary>How many of the 90 % intervals of ten thousand invented pieces hold, with tones whose modes nobody named.</summary>
internal static class CoverageBenchmark
{
    private const int Cases = 10_000, Modes = 6;
    private const ulong Seed = 19;

    internal static bool Run()
    {
        PieceBefore wood = CoverageCases.Wood, sandwich = CoverageCases.Sandwich;
        bool met = Gated("wood, weighed, bent and tapped", new(wood, CoverageCases.WeighedAndBent(wood.Start)), Cases);
        met &= Gated("wood, weighed and tapped", new(wood, CoverageCases.Weighed), Cases);
        // Told only: fewer pieces, and pieces that are not what tables say.
        Tell("sandwich, weighed, bent and tapped", new CoverageTrial(sandwich, CoverageCases.WeighedAndBent(sandwich.Start)).Run(Modes, Cases / 10, Seed));
        Tell("wood with E_L two standard deviations high, weighed, bent and tapped", OffBy(2).Run(Modes, Cases / 10, Seed));
        Tell("wood with E_L two standard deviations low, weighed, bent and tapped", OffBy(-2).Run(Modes, Cases / 10, Seed));
        return met;

        CoverageTrial OffBy(double deviations) => new(wood, CoverageCases.WeighedAndBent(wood.Start)) { Off = new Dictionary<string, double> { ["E_L"] = deviations } };
    }

    private static bool Gated(string what, CoverageTrial trial, int cases)
    {
        CoverageResult found = trial.Run(Modes, cases, Seed);
        Tell(what, found);
        bool met = true;
        foreach ((string symbol, int held, _, _) in found.Properties)
        {
            double percent = 100.0 * held / cases;
            met &= Report.Gate($"intervals of {symbol} that hold, %", percent, percent is >= 89 and <= 91, $"89 to 91");
        }

        return met;
    }

    private static void Tell(string what, CoverageResult found)
    {
        Report.Line($"{what}: {found.Cases} pieces, {100.0 * found.WrongModes / found.Cases:F1} % with a tone taken for another mode");
        foreach ((string symbol, int held, double before, double after) in found.Properties) { Report.Line($"   {symbol}: {100.0 * held / found.Cases:F1} % hold; spread {before:F3} before, {after:F3} after"); }
    }
}
