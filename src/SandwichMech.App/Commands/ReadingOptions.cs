using System.CommandLine;
using SandwichMech.Workshop.Pieces;

namespace SandwichMech.App.Commands;

/// <summary>The options for what is read off a piece.</summary>
internal sealed class ReadingOptions
{
    private readonly Option<string?>
        _weight = Value("--weight", "Weight of the whole piece, as \"212.4 g\"; a scale of 0.1 g is taken unless ± is typed", "MASS"),
        _length = Value("--length", "Length along the grain, of a core sheet along the ribbon; a ruler's ± 0.5 mm is taken", "LENGTH"),
        _width = Value("--width", "Width across it", "LENGTH"),
        _thickness = Value("--thickness", "Thickness at one or more places, as \"2.61 mm, 2.58 mm\"; callipers' ± 0.02 mm is taken, alike at all places", "LENGTHS"),
        _moisture = Value("--moisture", "Moisture content by a meter, as \"7.5 %\"", "PERCENT"),
        _humidity = Value("--humidity", "Relative humidity of the room in which the piece has lain", "PERCENT"),
        _temperature = Value("--temperature", "Temperature of that room, as \"21 degC\"", "TEMPERATURE");

    internal void AddTo(Command command)
    {
        foreach (Option<string?> option in new[] { _weight, _length, _width, _thickness, _moisture, _humidity, _temperature })
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
        Moisture = parsed.GetValue(_moisture),
        Humidity = parsed.GetValue(_humidity),
        Temperature = parsed.GetValue(_temperature),
    };

    internal static Option<string?> Value(string name, string description, string helpName) => new(name) { Description = description, HelpName = helpName };
}
