using System.Globalization;
using SandwichMech.Core.Identification;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Workshop.Log;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Pieces;

/// <summary>A typed test, and how its spreads were read or which were taken.</summary>
/// <param name="Reading">The test.</param>
/// <param name="ReadBack">One line each.</param>
public sealed record TypedTest(TypedReading Reading, IReadOnlyList<string> ReadBack);

/// <summary>Bending tests and tap tones as a maker types them.</summary>
public static class TypedTests
{
    /// <summary>How a bending test is typed.</summary>
    public const string BendForm = "along, span 400 mm, load 200 g, down 1.42 mm";

    /// <summary>How tap tones are typed.</summary>
    public const string TapForm = "30.1 Hz, 41.3 Hz, 77 Hz";

    // What is taken where no ± is typed, as limits (common practice, no source): a tape between the supports, a scale of 0.1 g, a dial gauge or callipers, a
    // spectrum on a phone.
    private static readonly Limit Span = new(1e-3, "span ± 1 mm"), Load = new(0.1e-3, "load ± 0.1 g"), Down = new(0.02e-3, "down ± 0.02 mm"), Heard = new(1, "± 1 Hz");
    // Stiffness of a dial gauge's spring, N/m: it holds up what sinks. Judgement, no source.
    internal const double GaugeSpring = 50;
    private sealed record Limit(double Value, string Words);

    /// <summary>How well tests are taken to be read where nothing is typed, standard deviations; callipers' as of a thickness.</summary>
    /// <param name="gaugeStep">A finer gauge than the usual one of 0.01 mm is not read better than two of its steps, m.</param>
    internal static Core.Building.TestReadings Usual(double gaugeStep) => new(
        Span.Value / Math.Sqrt(3), Load.Value / Math.Sqrt(3), 2 * gaugeStep / Math.Sqrt(3), 0.02e-3 / Math.Sqrt(3), GaugeSpring);

    private const double ShortestSpan = 0.03, LongestSpan = 2, LeastLoad = 1e-3, MostLoad = 50, LeastDown = 0.02e-3, MostDown = 0.1, LowestTone = 5, HighestTone = 10000;

    /// <summary>Reads a bending test: "along, span 400 mm, load 200 g, down 1.42 mm", with "lines 100 mm" for two lines of load and "gauge" where a dial gauge rests on the piece.</summary>
    /// <param name="typed">As typed.</param>
    /// <returns>The test.</returns>
    /// <exception cref="InputException">It cannot be meant.</exception>
    public static TypedTest Bend(string typed)
    {
        const string Option = "--bend";
        bool? across = null;
        TypedValue? span = null, load = null, down = null, lines = null, gauge = null;
        bool hasGauge = false;
        foreach (string part in Parts(typed))
        {
            string[] words = part.Split(' ', 2, StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
            string rest = words.Length > 1 ? words[1] : "";
            switch (words[0].ToLowerInvariant())
            {
                case "along" when rest.Length == 0: across = false; break;
                case "across" when rest.Length == 0: across = true; break;
                case "span": span = Value(Option, part, rest, Dimension.Length, ShortestSpan, LongestSpan, "a span"); break;
                case "lines": lines = Value(Option, part, rest, Dimension.Length, 1e-3, LongestSpan, "the distance of two lines of load"); break;
                case "load": load = Value(Option, part, rest, Dimension.Mass, LeastLoad, MostLoad, "a load"); break;
                case "down": down = Value(Option, part, rest, Dimension.Length, LeastDown, MostDown, "a deflection"); break;
                case "gauge":
                    hasGauge = true;
                    if (rest.Length > 0) { gauge = Value(Option, part, rest, Dimension.Force, 0, 5, "a gauge's force"); }
                    break;
                default:
                    throw Refuse(Option, part, $"is no part of a bending test; write it as \"{BendForm}\"");
            }
        }

        if (across is not { } isAcross || span is null || load is null || down is null)
        {
            string missing = string.Join(", ", new[] { across is null ? "along or across" : "", span is null ? "span" : "", load is null ? "load" : "", down is null ? "down" : "" }.Where(m => m.Length > 0));
            throw Refuse(Option, typed, $"lacks {missing}; write it as \"{BendForm}\"");
        }

        if (lines is not null && lines.Value >= span.Value) { throw Refuse(Option, typed, "has its lines of load outside the supports"); }
        // What the gauge holds up as the piece sinks.
        double plunger = !hasGauge ? 0 : -(gauge?.Value ?? GaugeSpring * down.Value);
        if (load.Value * Observations.Gravity + plunger <= 0) { throw Refuse(Option, typed, "has a gauge that holds more than the load"); }
        var spreads = new Spreads(Option);
        return new(
            new(new BendingReading(isAcross, spreads.With(span, Span), lines?.Value ?? 0, spreads.With(load, Load), spreads.With(down, Down), plunger), typed.Trim()),
            [.. spreads.ReadBack, .. !hasGauge ? Array.Empty<string>() : [string.Create(CultureInfo.InvariantCulture, $"{Option}: the gauge holds up {-plunger:G2} N of the load{(gauge is null ? " (its spring taken as 0.05 N for each millimetre; judgement, no source)" : "")}")]]);
    }

    /// <summary>Reads tap tones: "30.1 Hz (1 x 1), 41.3 Hz, 77 Hz", with the nodal lines along and across where they are known.</summary>
    /// <param name="typed">As typed.</param>
    /// <returns>The tones.</returns>
    /// <exception cref="InputException">They cannot be meant.</exception>
    public static TypedTest Taps(string typed)
    {
        const string Option = "--tap";
        var tones = new List<Tone>();
        var spreads = new Spreads(Option);
        foreach (string part in Parts(typed))
        {
            int open = part.IndexOf('(', StringComparison.Ordinal);
            string frequency = open < 0 ? part : part[..open].Trim();
            (int, int)? lines = open < 0 ? null : Lines(part, part[(open + 1)..].TrimEnd(')', ' '));
            TypedValue value = Value(Option, part, frequency, Dimension.Frequency, LowestTone, HighestTone, "a tap tone");
            tones.Add(new(spreads.With(value, Heard), lines?.Item1, lines?.Item2));
        }

        if (tones.Count == 0) { throw Refuse(Option, typed, $"holds no tone; write them as \"{TapForm}\""); }
        tones.Sort((a, b) => a.Frequency.Value.CompareTo(b.Frequency.Value));
        for (int i = 1; i < tones.Count; i++)
        {
            if (tones[i].Frequency.Value < tones[i - 1].Frequency.Value * 1.0005)
            {
                throw Refuse(Option, typed, string.Create(CultureInfo.InvariantCulture, $"names {tones[i].Frequency.Value:G5} Hz twice"));
            }
        }

        return new(new(new TapReading(tones), typed.Trim()), spreads.ReadBack);

        static (int, int) Lines(string part, string text)
        {
            string[] two = text.Split('x', '×');
            return two.Length == 2 && int.TryParse(two[0].Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out int along)
                && int.TryParse(two[1].Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out int across)
                ? (along, across)
                : throw Refuse(Option, part, "has no nodal lines in its brackets: write 30.1 Hz (1 x 1), lines met going along the grain first");
        }
    }

    // A comma between digits is a decimal one.
    private static string[] Parts(string typed) =>
        TypedText.OneLine(typed).Replace(", ", ";", StringComparison.Ordinal).Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);

    private static TypedValue Value(string option, string part, string text, Dimension dimension, double low, double high, string what)
    {
        ReadResult read = TypedValues.Read(text, dimension);
        if (read.Value is not { } value) { throw Refuse(option, part, read.Problem!); }
        if (value.Value >= low && value.Value <= high) { return value; }
        string hint = dimension == Dimension.Frequency && value.Value * 1000 >= low && value.Value * 1000 <= high ? "; do you mean kHz?" : "";
        throw Refuse(option, part, $"is not possible for {what}{hint}");
    }

    // The spreads of a test's values as they are taken from the typed text, and what is to be said of them.
    private sealed class Spreads(string option)
    {
        private readonly List<string> _typed = [], _taken = [];

        internal IReadOnlyList<string> ReadBack =>
        [
            .. _typed.Distinct().Select(t => $"{option}: {t}"),
            .. _taken.Count == 0 ? Array.Empty<string>() : [$"{option}: no spread typed; {string.Join(", ", _taken.Distinct())} taken as limits (common practice, no source)"],
        ];

        internal Estimate With(TypedValue value, Limit limit)
        {
            if (value.SpreadReading is { } reading)
            {
                _typed.Add(reading);
                return Estimate.FromSd(value.Value, value.StandardDeviation);
            }

            _taken.Add(limit.Words);
            return Estimate.FromSd(value.Value, limit.Value / Math.Sqrt(3));
        }
    }

    private static InputException Refuse(string option, string typed, string why) => new([new(option, null, $"'{typed.Trim()}'", why)]);
}
