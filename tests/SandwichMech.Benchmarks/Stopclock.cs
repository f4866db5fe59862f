using System.Diagnostics;

namespace SandwichMech.Benchmarks;

/// <summary>Wall time of one piece of work.</summary>
internal static class Stopclock
{
    internal static double Seconds(Action work)
    {
        long start = Stopwatch.GetTimestamp();
        work();
        return Stopwatch.GetElapsedTime(start).TotalSeconds;
    }

    /// <summary>Processor time of all threads beside the wall's, which a busy machine stretches.</summary>
    internal static Cost Cost(Action work)
    {
        TimeSpan before = Environment.CpuUsage.TotalTime;
        double wall = Seconds(work);
        return new((Environment.CpuUsage.TotalTime - before).TotalSeconds, wall);
    }
}

/// <summary>What a piece of work cost.</summary>
/// <param name="Processor">Processor time of all its threads, s: what one core needs for it.</param>
/// <param name="Wall">s.</param>
internal sealed record Cost(double Processor, double Wall)
{
    /// <summary>Before anything is measured.</summary>
    internal static readonly Cost None = new(double.PositiveInfinity, double.PositiveInfinity);

    /// <summary>The least of several runs of one piece of work.</summary>
    internal Cost Or(Cost other) => new(Math.Min(Processor, other.Processor), Math.Min(Wall, other.Wall));
}

/// <summary>Our time and a rival's, taken in turn in one run, so that a machine that slows down slows both.</summary>
/// <param name="Ours">Median of our times, s.</param>
/// <param name="Rival">Median of the rival's, s.</param>
/// <param name="Ratio">Median of the ratios of neighbours, ours over rival's.</param>
internal sealed record Pairs(double Ours, double Rival, double Ratio)
{
    /// <summary>Measures A B A B … after some rounds that do not count.</summary>
    internal static Pairs Measure(int rounds, int warmUps, Func<double> ours, Func<double> rival)
    {
        var measured = new List<(double Ours, double Rival)>();
        for (int i = -warmUps; i < rounds; i++)
        {
            (double Ours, double Rival) pair = (ours(), rival());
            if (i >= 0)
            {
                measured.Add(pair);
            }
        }

        return new(Median(measured.Select(p => p.Ours)), Median(measured.Select(p => p.Rival)), Median(measured.Select(p => p.Ours / p.Rival)));
    }

    private static double Median(IEnumerable<double> values)
    {
        double[] sorted = [.. values.Order()];
        int half = sorted.Length / 2;
        return sorted.Length % 2 == 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
    }
}
