using System.Globalization;

namespace SandwichMech.Figures.Drawing;

/// <summary>A place on an axis and the number that stands there.</summary>
internal readonly record struct Tick(double Value, string Label);

/// <summary>One axis: from where to where, straight or logarithmic, and where its numbers stand.</summary>
internal sealed record Scale(double Low, double High, bool IsLog, IReadOnlyList<Tick> Ticks)
{
    private static readonly double[][] Decades =
    [
        [1], [1, 3], [1, 2, 5], [1, 2, 3, 5, 7], [1, 1.5, 2, 3, 4, 5, 6, 8], [1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 7, 8, 9],
        [1, 1.1, 1.2, 1.3, 1.4, 1.5, 1.6, 1.8, 2, 2.2, 2.4, 2.6, 2.8, 3, 3.5, 4, 4.5, 5, 5.5, 6, 6.5, 7, 7.5, 8, 8.5, 9, 9.5],
    ];

    /// <summary>The coordinate that is plotted for a value.</summary>
    internal double Coordinate(double value) => IsLog ? Math.Log10(value) : value;

    /// <summary>0 at the low end, 1 at the high end.</summary>
    internal double Share(double value) =>
        (Coordinate(value) - Coordinate(Low)) / (Coordinate(High) - Coordinate(Low));

    /// <summary>A straight axis without numbers.</summary>
    internal static Scale Bare(double low, double high) => new(low, high, false, []);

    /// <summary>A straight axis with round numbers.</summary>
    /// <param name="low">Low end.</param>
    /// <param name="high">High end, larger.</param>
    /// <param name="most">Most numbers wanted, 2 or more.</param>
    internal static Scale Linear(double low, double high, int most)
    {
        double step = RoundStep((high - low) / (most - 1));
        int first = (int)Math.Ceiling(low / step - 1e-9), last = (int)Math.Floor(high / step + 1e-9);
        int decimals = Math.Max(0, -(int)Math.Floor(Math.Log10(step) + 1e-9) + (IsWhole(step / Math.Pow(10, Math.Floor(Math.Log10(step) + 1e-9))) ? 0 : 1));
        return new(low, high, false, [.. Enumerable.Range(first, last - first + 1).Select(i =>
            new Tick(i * step, (i * step).ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture)))]);
    }

    /// <summary>A straight axis around values: from zero where they come near it, and with a little air above and below.</summary>
    /// <param name="least">Least value.</param>
    /// <param name="greatest">Greatest value, not smaller.</param>
    /// <param name="most">Most numbers wanted, 2 or more.</param>
    internal static Scale Around(double least, double greatest, int most)
    {
        double air = greatest > least ? (greatest - least) * 0.08 : Math.Max(Math.Abs(greatest) * 0.1, double.Epsilon);
        return Linear(least >= 0 && least < greatest * 0.4 ? 0 : least - air, greatest + air, most);
    }

    /// <summary>A logarithmic axis with plain numbers, as close as there is room for.</summary>
    /// <param name="low">Low end, positive.</param>
    /// <param name="high">High end, larger.</param>
    /// <param name="length">Length, pixels.</param>
    /// <param name="room">Least distance between two numbers, pixels.</param>
    internal static Scale Log(double low, double high, double length, double room)
    {
        double perLog = length / Math.Log(high / low);
        double[] chosen = [];
        foreach (double[] decade in Decades)
        {
            double[] values = [.. Enumerable.Range((int)Math.Floor(Math.Log10(low)), (int)Math.Ceiling(Math.Log10(high / low)) + 2)
                .SelectMany(k => decade.Select(d => d * Math.Pow(10, k))).Where(v => v >= low && v <= high)];
            if (values.Zip(values.Skip(1), (a, b) => perLog * Math.Log(b / a)).All(d => d >= room))
            {
                chosen = values;
            }
        }

        return new(low, high, true, [.. chosen.Select(v => new Tick(v, Math.Round(v, 6).ToString("0.######", CultureInfo.InvariantCulture)))]);
    }

    /// <summary>The smallest of 1, 2, 2.5, 5 times a power of ten that is not below the least.</summary>
    internal static double RoundStep(double least)
    {
        double power = Math.Pow(10, Math.Floor(Math.Log10(least) + 1e-9));
        return new[] { 1, 2, 2.5, 5, 10 }.First(m => m * power >= least * (1 - 1e-9)) * power;
    }

    private static bool IsWhole(double value) => Math.Abs(value - Math.Round(value)) < 1e-6;
}
