using System.CommandLine;
using SandwichMech.Workshop;
using SandwichMech.Workshop.Pieces;
using SandwichMech.Workshop.Units;

namespace SandwichMech.App.Commands;

/// <summary>The options for what is read off a piece.</summary>
internal sealed class ReadingOptions
{
    private readonly Option<string?>
        _weight = Value("--weight", "Weight of the whole piece, as \"212.4 g\"; a scale of 0.1 g is taken unless ± is typed", "MASS"),
        _length = Value("--length", "Length along the grain, of a core sheet along the ribbon; a ruler's ± 0.5 mm is taken", "LENGTH"),
        _width = Value("--width", "Width across it", "LENGTH"),
        _thickness = Value("--thickness", "Thickness at one or more places, as \"2.61 mm, 2.58 mm\"; callipers' ± 0.02 mm is taken, alike at all places", "LENGTHS"),
        _map = Value("--thickness-map", "Thickness all over, in the middles of equal fields: rows from the lower end up, each from left to right seen from outside, as \"2.02 1.98 2.00; 2.05 2.01 1.99 mm\"; or a CSV with the unit in its first line", "ROWS|FILE.csv"),
        _moisture = Value("--moisture", "Moisture content by a meter, as \"7.5 %\"", "PERCENT"),
        _humidity = Value("--humidity", "Relative humidity of the room in which the piece has lain", "PERCENT"),
        _temperature = Value("--temperature", "Temperature of that room, as \"21 degC\"", "TEMPERATURE"),
        _at = Value("--at", "When it was read, as \"2026-03-01 14:30\" or the date alone; now when left out, of a correction when the old one was", "TIME");

    internal void AddTo(Command command)
    {
        foreach (Option<string?> option in new[] { _weight, _length, _width, _thickness, _map, _moisture, _humidity, _temperature, _at })
        {
            command.Options.Add(option);
        }
    }

    internal ReadingWords Words(ParseResult parsed) => new()
    {
        Weight = parsed.GetValue(_weight),
        Length = parsed.GetValue(_length),
        Width = parsed.GetValue(_width),
        Thickness = parsed.GetValue(_thickness),
        ThicknessMap = parsed.GetValue(_map),
        Moisture = parsed.GetValue(_moisture),
        Humidity = parsed.GetValue(_humidity),
        Temperature = parsed.GetValue(_temperature),
    };

    /// <summary>When it was read; nothing where that is not typed.</summary>
    internal DateTimeOffset? At(ParseResult parsed)
    {
        if (parsed.GetValue(_at) is not { } text)
        {
            return null;
        }

        return TypedTime.Read(text, TimeProvider.System, out string? problem) ?? throw new InputException("--at", problem!);
    }

    internal static Option<string?> Value(string name, string description, string helpName) => new(name) { Description = description, HelpName = helpName };
}
