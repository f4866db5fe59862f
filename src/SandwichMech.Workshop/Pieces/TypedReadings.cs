using System.Globalization;
using SandwichMech.Core.Identification;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Log;
using SandwichMech.Workshop.Tables;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Pieces;

/// <summary>Readings as a maker types them; what is not read is left out.</summary>
public sealed record ReadingWords
{
    /// <summary>Weight of the whole piece, as "212.4 g ± 0.1 g".</summary>
    public string? Weight { get; init; }
    /// <summary>Length along the grain, of a core sheet along the ribbon.</summary>
    public string? Length { get; init; }
    /// <summary>Width across it.</summary>
    public string? Width { get; init; }
    /// <summary>Thickness at one or more places, as "2.61 mm, 2.58 mm".</summary>
    public string? Thickness { get; init; }
    /// <summary>Thickness all over, as "2.02 1.98; 2.05 2.01 mm": rows from the lower end up; or a file that holds them.</summary>
    public string? ThicknessMap { get; init; }
    /// <summary>Moisture content by a meter.</summary>
    public string? Moisture { get; init; }
    /// <summary>Relative humidity of the room.</summary>
    public string? Humidity { get; init; }
    /// <summary>Temperature of the room.</summary>
    public string? Temperature { get; init; }
}

/// <summary>Typed readings, and what was taken without being typed.</summary>
/// <param name="Readings">The readings.</param>
/// <param name="ReadBack">How spreads were read or which was taken, one line each.</param>
/// <param name="Warnings">What is possible but unusual.</param>
public sealed record ReadReadings(IReadOnlyList<TypedReading> Readings, IReadOnlyList<string> ReadBack, IReadOnlyList<string> Warnings);

/// <summary>Reads typed readings of a piece, each in the range that such a piece can have.</summary>
public sealed class TypedReadings
{
    // Common practice, no source: a scale that shows tenths of a gram, callipers, a steel ruler.
    private const string ScaleLimits = "± 0.1 g", CalliperLimits = "± 0.02 mm", RulerLimits = "± 0.5 mm";
    // A place so many times as thick as the others was misread.
    private const double FarOff = 2;
    private const double Kelvin = 273.15, Percent = 100;

    // A decimal of a binary fraction: 21 °C is 294.15 K less 273.15 K, and meant as 21.
    private const int Decimals = 9;

    private static readonly MaterialTables NoTables = new([], [], []);
    private static readonly BoardTable Table = new("piece", "Readings of a piece.");
    private readonly List<Problem> _problems = [];
    private readonly List<string> _back = [], _warnings = [];
    private readonly Dictionary<string, List<string>> _taken = [];

    private TypedReadings()
    {
    }

    /// <summary>Reads what was typed of a piece.</summary>
    /// <param name="kind">What the piece is.</param>
    /// <param name="words">What was typed.</param>
    /// <param name="before">Readings of the piece that are in force already, in the order of time.</param>
    /// <returns>The readings.</returns>
    /// <exception cref="InputException">Something cannot be meant: everything that is wrong, each with its option.</exception>
    public static ReadReadings Read(PieceKind kind, ReadingWords words, IEnumerable<Reading>? before = null)
    {
        var typed = new TypedReadings();
        TypedReading?[] read =
        [
            typed.Weight(words.Weight),
            typed.Size("--length", words.Length, across: false),
            typed.Size("--width", words.Width, across: true),
            typed.Thickness(kind, words.Thickness),
            typed.Map(kind, words.ThicknessMap, words.Thickness is not null),
            typed.Moisture(words.Moisture, words.Humidity, words.Temperature),
        ];
        TypedReading[] readings = [.. read.OfType<TypedReading>()];
        if (typed._problems.Count == 0)
        {
            typed.CheckDensity(kind, [.. before ?? [], .. readings.Select(r => r.Reading)]);
        }

        return typed._problems.Count == 0 ? new(readings, [.. typed._back, .. typed._taken.Select(t => $"{string.Join(", ", t.Value)}: {t.Key}")], typed._warnings) : throw new InputException(typed._problems);
    }

    private TypedReading? Weight(string? text) => text is null || One("--weight", text, Weights) is not { } value
        ? null
        : new(new Weighing(Estimate.FromSd(value.Value, Deviation("--weight", value, ScaleLimits, Dimension.Mass))), text);

    private TypedReading? Size(string option, string? text, bool across) => text is null || One(option, text, Sizes) is not { } value
        ? null
        : new(new SizeReading(across, Estimate.FromSd(value.Value, Deviation(option, value, RulerLimits, Dimension.Length))), text);

    private TypedReading? Thickness(PieceKind kind, string? text)
    {
        const string Option = "--thickness";
        if (text is null)
        {
            return null;
        }

        // A comma between digits is a decimal one; places are parted by a comma and a blank, or by a semicolon.
        string[] places = TypedText.OneLine(text).Replace(", ", ";", StringComparison.Ordinal).Split(';', StringSplitOptions.TrimEntries);
        // What is wrong with one place is mostly wrong with all: the first is said.
        TypedValue[] values = [.. places.Select(p => One(Option, p, ThicknessOf(kind))).TakeWhile(v => v is not null).OfType<TypedValue>()];
        if (values.Length < places.Length)
        {
            return null;
        }

        double[] typed = [.. values.Select(v => v.StandardDeviation).Where(d => d > 0).Distinct()];
        if (typed.Length > 1)
        {
            _problems.Add(new(Option, null, null, "the places have different spreads: callipers are wrong by alike at all places, so write one ±, behind the last place"));
            return null;
        }

        TypedValue instrument = values.FirstOrDefault(v => v.StandardDeviation > 0) ?? values[0];
        return new(new ThicknessReading([.. values.Select(v => v.Value)], Deviation(Option, instrument, CalliperLimits, Dimension.Length)), text);
    }

    private TypedReading? Map(PieceKind kind, string? text, bool hasPlaces)
    {
        const string Option = "--thickness-map";
        if (text is null) { return null; }
        if (hasPlaces)
        {
            _problems.Add(new(Option, null, null, "--thickness is given too, and of both the last counts: give one of them"));
            return null;
        }

        (TypedMap? map, string? problem) = TypedMap.Read(text);
        if (map is null)
        {
            _problems.Add(new(Option, null, null, problem!));
            return null;
        }

        int before = _warnings.Count;
        // What is wrong with one place is mostly wrong with all: the first is said, of what is unusual too.
        TypedValue[] values = [.. map.Rows.SelectMany(r => r).Select(n => One(Option, $"{n} {map.Unit}", ThicknessOf(kind))).TakeWhile(v => v is not null).OfType<TypedValue>()];
        if (_warnings.Count > before + 1) { _warnings.RemoveRange(before + 1, _warnings.Count - before - 1); }
        int places = map.Rows[0].Length;
        if (values.Length < map.Rows.Count * places) { return null; }
        double median = values.Select(v => v.Value).Order().ElementAt(values.Length / 2);
        if (Array.FindIndex(values, v => v.Value > FarOff * median || v.Value < median / FarOff) is >= 0 and var far)
        {
            _problems.Add(new(Option, null, null, string.Create(CultureInfo.InvariantCulture,
                $"row {far / places + 1}, place {far % places + 1} reads {map.Rows[far / places][far % places]} {map.Unit}, and most places about {Display.Text(median, Shown.Thickness, UnitSystem.Metric)}: check its digits")));
            return null;
        }

        if (One(Option, $"{map.Rows[0][0]} {map.Unit} {map.Spread}", ThicknessOf(kind)) is not { } instrument) { return null; }
        if (_warnings.Count > before + 1) { _warnings.RemoveRange(before + 1, _warnings.Count - before - 1); }
        IReadOnlyList<double>[] rows = [.. values.Select(v => v.Value).Chunk(places)];
        return new(new ThicknessMapReading(rows, Deviation(Option, instrument, CalliperLimits, Dimension.Length)), map.AsTyped);
    }

    private TypedReading? Moisture(string? content, string? humidity, string? temperature)
    {
        double? Of(string option, string? text, BoardField field, Func<double, double> shown) =>
            text is null || One(option, text, field) is not { } value ? null : Math.Round(shown(value.Value), Decimals);
        var reading = new MoistureReading(
            Of("--moisture", content, Contents, v => v * Percent),
            Of("--humidity", humidity, Humidities, v => v * Percent),
            Of("--temperature", temperature, Temperatures, v => v - Kelvin));
        string[] said = [.. new[] { content ?? "", humidity is null ? "" : $"humidity {humidity}", temperature is null ? "" : $"temperature {temperature}" }.Where(s => s.Length > 0)];
        return said.Length == 0 ? null : new(reading, string.Join(", ", said));
    }

    private TypedValue? One(string option, string text, BoardField field)
    {
        FieldReading read = FieldReader.Read(field, text, NoTables);
        if (read.Problem is { } problem)
        {
            _problems.Add(new(option, null, null, problem));
        }
        else if (read.Warning is { } warning)
        {
            _warnings.Add($"{option}: {warning}");
        }

        return read.Value;
    }

    private double Deviation(string option, TypedValue value, string limits, Dimension dimension)
    {
        if (value.SpreadReading is { } reading)
        {
            _back.Add($"{option}: {reading}");
            return value.StandardDeviation;
        }

        double taken = TypedValues.Read($"1 {limits.Split(' ')[^1]} {limits}", dimension).Value!.StandardDeviation;
        string shown = (taken * 1000).ToString("G2", CultureInfo.InvariantCulture), unit = dimension == Dimension.Mass ? "g" : "mm";
        string said = $"no spread typed; {limits} taken as limits, standard deviation {shown} {unit} (common practice, no source)";
        if (!_taken.TryAdd(said, [option]))
        {
            _taken[said].Add(option);
        }

        return taken;
    }

    private void CheckDensity(PieceKind kind, IReadOnlyList<Reading> readings)
    {
        (double low, double high, string what) = kind switch
        {
            PieceKind.Wood => (50.0, 1500.0, "no wood has"),
            PieceKind.Core => (5, 800, "no core has"),
            _ => (20, 1300, "no sandwich has"),
        };
        if (PieceFigures.Of(readings).Density is { } density && (density.Value < low || density.Value > high))
        {
            _problems.Add(new("piece", null, null, string.Create(CultureInfo.InvariantCulture,
                $"weight, length, width and thickness together make {density.Value:G3} kg/m³, which {what} ({low} to {high} kg/m³ is possible): check the unit and the digits of each")));
        }
    }

    private static readonly BoardField Weights = Field(Dimension.Mass, "a piece's weight", "0.2 g to 10 kg", "1 g to 1.5 kg", "212.4 g", spread: true, "g", "kg", "oz");
    private static readonly BoardField Sizes = Field(Dimension.Length, "a piece's size", "10 mm to 2 m", "30 mm to 800 mm", "520 mm", spread: true, "mm", "cm", "in");
    private static readonly BoardField Contents = Field(Dimension.Ratio, "moisture content", "0 % to 40 %", "4 % to 16 %", "7.5 %", spread: false, "%");
    private static readonly BoardField Humidities = Field(Dimension.Ratio, "relative humidity", "1 % to 100 %", "20 % to 80 %", "45 %", spread: false, "%");
    private static readonly BoardField Temperatures = Field(Dimension.Temperature, "a room's temperature", "-20 °C to 60 °C", "5 °C to 35 °C", "21 °C", spread: false, "°C", "°F");

    private static BoardField ThicknessOf(PieceKind kind) => kind switch
    {
        PieceKind.Wood => Field(Dimension.Length, "the thickness of a wooden piece", "0.1 mm to 30 mm", "0.3 mm to 6 mm", "2.61 mm", spread: true, "mm", "in"),
        PieceKind.Core => Field(Dimension.Length, "a core sheet's thickness", "0.3 mm to 50 mm", "1 mm to 15 mm", "1.80 mm", spread: true, "mm", "in"),
        _ => Field(Dimension.Length, "a sandwich's thickness", "0.6 mm to 60 mm", "1.5 mm to 15 mm", "3.12 mm", spread: true, "mm", "in"),
    };

    private static BoardField Field(Dimension dimension, string of, string possible, string usual, string example, bool spread, params string[] units) =>
        new(Table, "reading", new TypedKind(dimension, of, FieldForms.Range(dimension, possible), FieldForms.Range(dimension, usual), units) { TakesSpread = spread }, "", example);
}
