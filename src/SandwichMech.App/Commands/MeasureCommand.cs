using System.CommandLine;
using System.Globalization;
using SandwichMech.App.Terminal;
using SandwichMech.Core.Identification;
using SandwichMech.Core.Layups;
using SandwichMech.Figures;
using SandwichMech.Workshop;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Log;
using SandwichMech.Workshop.Pieces;
using SandwichMech.Workshop.Tables;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.App.Commands;

/// <summary>`measure PIECE|BOARD`: what its weighing, bending and tap tones say; asks for them when run bare.</summary>
internal static class MeasureCommand
{
    internal static Command Create(CommonOptions common)
    {
        var command = new WorkCommand("measure", "A piece's stiffness and density from what you weighed, bent and tapped, or a whole board's; asks when run bare",
            "sandwichmech measure 1 --bend \"along, span 400 mm, load 200 g, down 1.42 mm\"",
            "sandwichmech measure 1 --tap \"30.1 Hz, 41.3 Hz, 77 Hz, 97.6 Hz\" --humidity \"45 %\"",
            "sandwichmech measure 1 --plot measure.png",
            "sandwichmech measure shared/demo/outline.toml --weight \"124.3 g\" --tap \"36.8 Hz, 53.1 Hz, 73.4 Hz, 101.5 Hz, 112.4 Hz\" --edge free",
            "sandwichmech measure 1 --json");
        var piece = new Argument<string>("PIECE|BOARD") { Description = "The piece's number, or the file of a board that was tapped as a whole" };
        var readings = new ReadingOptions();
        var bend = new Option<string[]>("--bend")
        {
            Description = $"A bending test over two supports, as \"{TypedTests.BendForm}\"; \"lines 100 mm\" for two lines of load, \"gauge\" where a dial gauge rests on the piece; may be given more than once",
            HelpName = "TEST",
            DefaultValueFactory = _ => [],
        };
        Option<string?> tap = ReadingOptions.Value("--tap", $"Tap tones of the piece lying free on foam, as \"{TypedTests.TapForm}\"; \"30.1 Hz (1 x 1)\" where you know the nodal lines along and across the grain", "TONES");
        Option<string?> plot = CommonOptions.PlotOption("what each property was by the table and is by the readings, and the tones against the modes");
        var edge = new Option<string?>("--edge") { Description = "How a board's edge was held while it was tapped; the board file's unless you say", HelpName = "free|hinged|clamped|rim" };
        Option<string?> recording = ReadingOptions.Value("--recording", "Tones of a board from a WAV of some taps on it, in the place of --tap (of a piece: `listen RECORDING --piece 1`)", "FILE.wav");
        edge.AcceptOnlyFromAmong("free", "hinged", "clamped", "rim");
        Option<string?> into = ReadingOptions.Value("--board", "A board that names this piece: what to read next is then judged by that board's mass and first modes too", "FILE");
        command.Arguments.Add(piece);
        readings.AddTo(command);
        command.Options.Add(bend);
        command.Options.Add(tap);
        command.Options.Add(edge);
        command.Options.Add(recording);
        command.Options.Add(into);
        command.Options.Add(plot);
        command.SetAction(parsed =>
        {
            string which = parsed.GetRequiredValue(piece);
            ReadingWords words = readings.Words(parsed);
            var tests = new TestWords(parsed.GetRequiredValue(bend), parsed.GetValue(tap));
            CommonOptions.CheckPlot(parsed, plot);
            if (Path.HasExtension(which))
            {
                if (parsed.GetValue(into) is not null) { throw new InputException("--board", "goes with the number of a piece: `measure 1 --board my-board.toml`"); }
                if (parsed.GetValue(plot) is not null) { throw new InputException("--plot", "is drawn of a piece; of a board's modes `modes` draws the shapes"); }
                EdgeHold? held = parsed.GetValue(edge) is { } hold ? BoardFields.HoldOf(hold) : null;
                return common.Show(parsed, MeasureBoard.Run(common.Board(parsed, piece), held, words, tests, parsed.GetValue(recording)), PrintBoard);
            }

            int number = int.TryParse(which, NumberStyles.None, CultureInfo.InvariantCulture, out int typed) && typed > 0
                ? typed
                : throw new InputException("PIECE|BOARD", $"'{which}' is neither the number of a piece (`sandwichmech piece list` shows them; in digits, as 3) nor a board's file (as my-board.toml)");
            if (parsed.GetValue(recording) is not null) { throw new InputException("--recording", $"is for boards: of a piece `sandwichmech listen {parsed.GetValue(recording)} --piece {number}`"); }
            if (parsed.GetValue(edge) is not null) { throw new InputException("--edge", "is for boards: a piece lies free on foam"); }
            BoardFile? board = parsed.GetValue(into) is { } file ? common.Board(parsed, file) : null;
            MaterialTables tables = common.Tables(parsed);
            using ShopLog log = common.Log(parsed);
            bool isBare = words == new ReadingWords() && tests is { Bends.Count: 0, Taps: null };
            if (isBare && common.Console.CanAsk && !common.IsJson(parsed)) { (words, tests) = Ask(common.Console, log.Piece(number)); }
            return common.Show(parsed, MeasurePiece.Run(log, tables, number, words, tests, board), Print, plot, BoardPictures.Measure);
        });
        return command;
    }

    private static (ReadingWords, TestWords) Ask(ConsoleStreams console, Piece piece)
    {
        var asking = new Asking(console);
        asking.Say("Enter passes over what you have not read, or is in the log already.");
        string? Answer(string question, Action<string> check) => asking.Answer(question, check);

        string? One(string question, Func<string, ReadingWords> put) => Answer(question, line => TypedReadings.Read(piece.Kind, put(line)));
        var words = new ReadingWords
        {
            Weight = One("Weight of the whole piece, as 88.1 g:", w => new() { Weight = w }),
            Length = One("Length along the grain, as 520 mm:", w => new() { Length = w }),
            Width = One("Width, as 200 mm:", w => new() { Width = w }),
            Thickness = One("Thickness at some places, as 2.61 mm, 2.58 mm, 2.60 mm:", w => new() { Thickness = w }),
            Humidity = One("Humidity of the room it has lain in, as 45 %:", w => new() { Humidity = w }),
        };
        if (piece.Kind == PieceKind.Core) { return (words, new([], null)); }
        var bends = new List<string>();
        while (Answer($"A bending test, as {TypedTests.BendForm}:", w => TypedTests.Bend(w)) is { } bend) { bends.Add(bend); }
        return (words, new(bends, Answer($"Tap tones, lying free on foam, as {TypedTests.TapForm}:", w => TypedTests.Taps(w))));
    }

    private static void Print(MeasureResult r, Screen screen)
    {
        screen.Title(string.Create(CultureInfo.InvariantCulture, $"Piece {r.Piece.Number}: {r.Piece.Kind}, {r.Piece.Material}{(r.Piece.Name.Length > 0 ? $", “{r.Piece.Name}”" : "")}"));
        foreach (string line in r.ReadBack) { screen.Line(line); }
        if (r.Properties.Count > 0)
        {
            screen.Heading("What it is made of");
            PrintProperties(r.Properties, screen, "the table says");
            screen.Line("Give or take: 9 in 10 such pieces lie within.");
        }

        if (r.MoisturePercent is { } moisture)
        {
            screen.Line(string.Create(CultureInfo.InvariantCulture,
                $"Moisture {moisture:F1} % give or take {r.MoistureGiveOrTakePercent:F1} ({r.MoistureFrom}): stiffness along was read {100 * (r.MoistureFactor - 1):+0.0;-0.0} % from what it is at {r.ReferencePercent:F0} %, which all figures above stand for. Density as it was weighed, at {moisture:F1} %: {screen.Text(r.DensityAsRead!.Value, Workshop.Units.Shown.Density)}."));
        }

        PrintReadings(r.Readings, r.OtherWays, r.Next, screen);
        screen.Warnings(r.Notes);
    }

    private static void PrintBoard(MeasureBoardResult r, Screen screen)
    {
        screen.Title($"{r.Board}: edge {r.Edge}");
        foreach (string line in r.ReadBack) { screen.Line(line); }
        screen.Heading("What the board is");
        PrintProperties(r.Properties, screen, "file and tables say");
        if (r.Modes.Count > 0)
        {
            screen.Heading("Its modes in air");
            var table = new TextTable(">mode", "nodal lines", ">without taps", ">give or take", ">heard", ">by the taps", ">give or take");
            foreach (MeasuredMode m in r.Modes)
            {
                table.Add(
                    m.Number.ToString(CultureInfo.InvariantCulture), m.NodalLines ?? "", screen.Text(m.Untapped.Value, Shown.Frequency), Percent(m.Untapped.Relative),
                    m.Heard is { } heard ? screen.Text(heard, Shown.Frequency) : "", screen.Text(m.Found.Value, Shown.Frequency), Percent(m.Found.Relative));
            }

            screen.Table(table);
        }

        PrintReadings(r.Readings, r.OtherWays, r.Next, screen);
        screen.Warnings(r.Notes);
    }

    internal static void PrintProperties(IReadOnlyList<PropertyRow> properties, Screen screen, string before)
    {
        var table = new TextTable("", "", $">{before}", ">give or take", ">your readings say", ">give or take");
        foreach (PropertyRow p in properties)
        {
            table.Add(
                p.Name, p.Symbol, MeasurePiece.Text(p.Table.Value, p.Unit, p.Symbol, screen.Units), Percent(p.Table.Relative),
                MeasurePiece.Text(p.Found.Value, p.Unit, p.Symbol, screen.Units), Percent(p.Found.Relative));
        }

        screen.Table(table);
    }

    private static void PrintReadings(IReadOnlyList<ReadingRow> readings, IReadOnlyList<OtherWayRow> otherWays, IReadOnlyList<NextRow> next, Screen screen)
    {
        if (readings.Count > 0)
        {
            screen.Heading("Your readings beside it");
            var table = new TextTable("", ">read", ">expected", ">misfit (sd)", "nodal lines", "tells most of", ">without it", ">with it");
            foreach (ReadingRow x in readings)
            {
                Shown kind = MeasurePiece.ShownAs(x.Unit);
                table.Add(
                    x.Name, screen.Text(x.Read, kind), x.Expected is { } e ? screen.Text(e, kind) : "no mode", x.Expected is null ? "" : x.Misfit.ToString("+0.0;-0.0;0.0", CultureInfo.InvariantCulture),
                    x.NodalLines ?? "", x.Narrows ?? "", x.FromRelative is { } from ? Percent(from) : "", x.ToRelative is { } to ? Percent(to) : "");
            }

            screen.Table(table);
        }

        foreach (OtherWayRow way in otherWays)
        {
            screen.Line(string.Create(CultureInfo.InvariantCulture, $"The tones could also be, {way.Likelihood:F2} times as likely: {string.Join(", ", way.NodalLines.Select(l => l ?? "none"))}."));
        }

        if (next.Count > 0)
        {
            screen.Heading("What to read next");
            var table = new TextTable("", ">about", "narrows", ">from", ">to");
            foreach (NextRow n in next) { table.Add(n.What, screen.Text(n.Expected, MeasurePiece.ShownAs(n.Unit)), n.Narrows, Percent(n.FromRelative), Percent(n.ToRelative)); }
            screen.Table(table);
        }
    }

    private static string Percent(double relative) => relative > 1 ? "unknown" : string.Create(CultureInfo.InvariantCulture, $"{100 * relative:F1} %");
}
