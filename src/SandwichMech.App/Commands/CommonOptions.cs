using System.CommandLine;
using System.Globalization;
using SandwichMech.App.Terminal;
using SandwichMech.Figures;
using SandwichMech.Workshop;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Log;
using SandwichMech.Workshop.Pieces;
using SandwichMech.Workshop.Tables;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.App.Commands;

/// <summary>The options that every command takes, and what they lead to: tables, screen, JSON, pictures.</summary>
internal sealed class CommonOptions(ConsoleStreams console)
{
    private readonly Option<bool> _json = new("--json") { Description = "Write one JSON document, SI units in the field names (schemas in shared/schemas)", Recursive = true };
    private readonly Option<string> _units = Choice("--units", "Show metric or inch units", "metric", "inch");
    private readonly Option<bool> _noColor = new("--no-color") { Description = "Plain text without bold or colour", Recursive = true };
    private readonly Option<string?> _materials = new("--materials")
    {
        Description = "Folder with your own woods.csv, cores.csv or adhesives.csv, which override and extend the tables",
        HelpName = "FOLDER",
        Recursive = true,
    };

    private readonly Option<string?> _log = new("--log")
    {
        Description = $"Your shop's log in place of the usual one (as does the environment variable {LogPlace.FileVariable}); `sandwichmech log where` shows it",
        HelpName = "FILE",
        Recursive = true,
    };

    internal ConsoleStreams Console => console;

    internal static Argument<string> BoardArgument() => new("BOARD") { Description = "A board file (TOML); `sandwichmech new` writes one; or the number of a board in the log, as known from its readings" };

    internal static Option<string?> PlotOption(string shows) =>
        new("--plot") { Description = $"Also draw {shows}", HelpName = "FILE.png|FILE.svg" };

    /// <summary>Refuses a picture's name that cannot be written, before anything is solved or written to the log.</summary>
    internal static void CheckPlot(ParseResult parsed, Option<string?> plot)
    {
        if (parsed.GetValue(plot) is not { } path) { return; }
        Picture.CheckName(path);
        WholeFile.CheckPlace(path, plot.Name);
    }

    internal void AddTo(RootCommand root)
    {
        root.Options.Add(_json);
        root.Options.Add(_units);
        root.Options.Add(_noColor);
        root.Options.Add(_materials);
        root.Options.Add(_log);
    }

    internal MaterialTables Tables(ParseResult parsed)
    {
        MaterialTables builtIn = MaterialTables.BuiltIn() with { Pieces = (number, tables) => FromLog(parsed, number, tables) };
        return parsed.GetValue(_materials) is { } folder ? builtIn.With(folder) : builtIn;
    }

    /// <summary>The shop's log, to be closed by the caller.</summary>
    internal ShopLog Log(ParseResult parsed) => ShopLog.Open(parsed.GetValue(_log));

    internal BoardFile Board(ParseResult parsed, Argument<string> argument) => Board(parsed, parsed.GetRequiredValue(argument));

    internal BoardFile Board(ParseResult parsed, string file)
    {
        if (NumberOf(file) is not { } number) { return BoardFiles.Read(file, Tables(parsed)); }
        using ShopLog log = Log(parsed);
        return KeepBuild.Known(log, number, Tables(parsed));
    }

    /// <summary>The number of a board of the log, where one stands in the place of a file.</summary>
    internal static int? NumberOf(string file) => int.TryParse(file, NumberStyles.None, CultureInfo.InvariantCulture, out int number) && !File.Exists(file) ? number : null;

    internal UnitSystem Units(ParseResult parsed) => parsed.GetValue(_units) == "inch" ? UnitSystem.Inch : UnitSystem.Metric;

    internal bool IsJson(ParseResult parsed) => parsed.GetValue(_json);

    /// <summary>Shows a result as JSON or on the screen, and draws its picture where one is asked for.</summary>
    internal int Show<T>(ParseResult parsed, T result, Action<T, Screen> show, Option<string?>? plot = null, Func<T, UnitSystem, Picture?>? draw = null)
    {
        // The picture first: if it cannot be written, nothing has been printed as if all were well.
        string? path = plot is null ? null : parsed.GetValue(plot);
        SavedPicture? saved = path is null ? null : draw!(result, Units(parsed))?.Save(path);
        if (IsJson(parsed))
        {
            console.Out.WriteLine(ResultJson.Write(result));
        }
        else
        {
            show(result, Screen(parsed));
        }

        if (path is not null && saved is null)
        {
            console.Err.WriteLine($"{path} was not written: there is nothing to draw yet");
        }
        else if (saved is not null)
        {
            console.Err.WriteLine($"{saved.Path} written{(saved.Note is null ? "" : $"; {saved.Note}")}");
        }

        return Cli.Done;
    }

    internal Screen Screen(ParseResult parsed)
    {
        bool color = console.IsTerminal && !parsed.GetValue(_noColor) && string.IsNullOrEmpty(Environment.GetEnvironmentVariable("NO_COLOR"));
        return new(console.Out, color, Units(parsed));
    }

    /// <summary>Reads an option's typed value.</summary>
    internal static double? Typed(ParseResult parsed, Option<string?> option, Dimension dimension, double low, double high) =>
        parsed.GetValue(option) is { } text ? Typed(text, option.Name, dimension, low, high) : null;

    /// <summary>Reads one typed value of an option.</summary>
    internal static double Typed(string text, string name, Dimension dimension, double low, double high)
    {
        ReadResult read = TypedValues.Read(text, dimension);
        return read.Value is not { } value ? throw new InputException(name, read.Problem!)
            : value.Value >= low && value.Value <= high ? value.Value
            : throw new InputException(name, $"{text} is outside what is possible here");
    }

    // A board that names no piece never comes here, and the database's library is not even loaded.
    private PieceMaterial FromLog(ParseResult parsed, int number, MaterialTables tables)
    {
        using ShopLog log = Log(parsed);
        return PieceMaterials.Of(log, number, tables);
    }

    private static Option<string> Choice(string name, string description, params string[] choices)
    {
        var option = new Option<string>(name) { Description = description, Recursive = true, HelpName = string.Join('|', choices), DefaultValueFactory = _ => choices[0] };
        option.AcceptOnlyFromAmong(choices);
        return option;
    }
}
