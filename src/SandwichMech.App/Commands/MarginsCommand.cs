using System.CommandLine;
using System.Globalization;
using SandwichMech.App.Terminal;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Figures;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.App.Commands;

/// <summary>`margins BOARD`: how far a board is from what can break or spoil it.</summary>
internal static class MarginsCommand
{
    private const double Metre = 1e6, Thou = 25.4e-6, Small = 1e-3;

    internal static Command Create(CommonOptions common)
    {
        var command = new WorkCommand("margins", "How far the board is from what can break or spoil it, in the press, under its strings and in dry or damp air",
            "sandwichmech margins shared/demo/outline.toml --plot margins.png",
            "sandwichmech margins shared/demo/outline.toml --tension \"420 N\" --edge clamped --vacuum \"85 kPa\" --outer-humidity \"42 %\" --inner-humidity \"50 %\"",
            "sandwichmech margins shared/demo/board.toml --clamps \"0.2 MPa\" --json");
        Argument<string> board = CommonOptions.BoardArgument();
        var tension = Text("--tension", "FORCE", "Tension of all strings together; about 400 N unless you say");
        var height = Text("--height", "HEIGHT", "From the board to the strings, at the bridge; 11 mm unless you say");
        var tailpiece = Text("--tailpiece", "ANGLE", "The strings go on over the bridge to a tailpiece, bent down by this angle; without it they are tied to the bridge");
        var edge = new Option<string?>("--edge") { Description = "How the edge is held: hinged, clamped or rim (between the two); the board file's unless you say, rim where that is free", HelpName = "hinged|clamped|rim" };
        edge.AcceptOnlyFromAmong("hinged", "clamped", "rim");
        var at = Text("--at", "LENGTH", "From the board's lower end to the middle of the bridge; the bridge's or its patch's unless you say");
        var vacuum = Text("--vacuum", "PRESSURE", "Of the vacuum that presses the skins on; a whole atmosphere unless you say");
        var clamps = Text("--clamps", "PRESSURE", "Largest pressure under clamps or cauls");
        var outer = Text("--outer-humidity", "PERCENT", "Relative humidity that the outer skin had come to when it was bonded; 45 % unless you say");
        var inner = Text("--inner-humidity", "PERCENT", "The same of the inner skin");
        var accuracy = Text("--accuracy", "PERCENT", "Largest numerical error wanted of the deflection under the strings, 0.1 % to 5 %; 0.2 % unless you say");
        Option<string?> plot = CommonOptions.PlotOption("the margins as bars with their intervals, the nearest on top");
        command.Arguments.Add(board);
        foreach (Option option in new Option[] { tension, height, tailpiece, edge, at, vacuum, clamps, outer, inner, accuracy, plot }) { command.Options.Add(option); }
        command.SetAction(parsed =>
        {
            CommonOptions.CheckPlot(parsed, plot);
            return common.Show(parsed, MarginsBoard.Run(common.Board(parsed, board), Wish(parsed)), Print, plot, (r, units) => BoardPictures.Margins(r, units));
        });
        return command;

        MarginsWish Wish(ParseResult parsed) => new()
        {
            Strings = new()
            {
                Accuracy = CommonOptions.Typed(parsed, accuracy, Dimension.Ratio, 1e-3, 0.05) ?? new DeflectWish().Accuracy,
                Tension = CommonOptions.Typed(parsed, tension, Dimension.Force, 0.1, 5000),
                Height = CommonOptions.Typed(parsed, height, Dimension.Length, 0, 0.2),
                BreakAngle = CommonOptions.Typed(parsed, tailpiece, Dimension.Angle, 0, 1),
                Edge = parsed.GetValue(edge) is { } held ? BoardFields.HoldOf(held) : null,
                At = CommonOptions.Typed(parsed, at, Dimension.Length, 0, 2),
            },
            Vacuum = CommonOptions.Typed(parsed, vacuum, Dimension.Pressure, 100, 101_400),
            Clamps = CommonOptions.Typed(parsed, clamps, Dimension.Pressure, 100, 1e8),
            OuterHumidity = 100 * CommonOptions.Typed(parsed, outer, Dimension.Ratio, 0.01, 0.98),
            InnerHumidity = 100 * CommonOptions.Typed(parsed, inner, Dimension.Ratio, 0.01, 0.98),
        };
    }

    private static Option<string?> Text(string name, string holds, string description) => new(name) { Description = description, HelpName = holds };

    private static void Print(MarginsResult r, Screen screen)
    {
        screen.Title(r.Strings is { } s ? $"{r.Board}: edge {r.Edge}, strings {screen.Text(s.Tension, Shown.Force)}" : r.Board);
        var table = new TextTable("", ">load", ">bears", ">margin", ">90 % of such boards", ">chance of exceeding");
        foreach (MarginRow m in r.Margins)
        {
            table.Add(m.Case, m.Load is { } l ? Value(l, m.Unit, screen) : r.Strings is null ? "not known" : "none", m.Resistance is { } x ? Value(x, m.Unit, screen) : "not known",
                m.Margin is { } margin ? Times(margin.Value) : "", m.Margin is { } p ? $"{Times(p.Low90)} to {Times(p.High90)}" : "", m.ChanceExceeded is { } c ? Chance(c) : "");
        }

        screen.Table(table);
        screen.Line(r.Governing is { } g ? $"Nearest of those known: {g}. Not known, so not judged: {Listed(r.NotKnown)}." : "Nothing is loaded that is known.");
        screen.Heading("Where, and by what");
        // What is said of one is not said of the next again.
        string said = "";
        foreach (MarginRow m in r.Margins)
        {
            string knocked = m.KnockDown < 1 ? string.Create(CultureInfo.InvariantCulture, $"; knock-down {m.KnockDown:0.00} of a perfect skin") : "";
            string by = $"by {m.Source}{knocked}{string.Concat(m.Notes.Select(n => $"; {n}"))}";
            screen.Line($"{m.Case}: {(m.Load is null ? "" : $"{m.Governing}{Place(m, screen)}; ")}{(by == said ? "as above" : by)}.");
            said = by;
        }

        PrintAir(r, screen);
        screen.Line(string.Create(CultureInfo.InvariantCulture, $"In years deflections may become {r.Creep.Low:0.#} to {r.Creep.High:0.#} times as much ({r.Creep.Source})."));
        screen.Line($"By {r.Means}.");
        EstimateCommand.Ending(r.ReadBack, r.Warnings, screen);
    }

    private static void PrintAir(MarginsResult r, Screen screen)
    {
        if (r.Humidity.Count == 0) { return; }
        screen.Heading("In dry and damp air");
        var table = new TextTable("humidity", "", "", ">", ">90 % of such boards", "mostly from");
        foreach (HumidityRow h in r.Humidity)
        {
            string humidity = string.Create(CultureInfo.InvariantCulture, $"{h.Humidity:0} %");
            void Row(string what, Prediction p, Shown kind) => table.Add(humidity, what, "", screen.Text(p.Value, kind), screen.Range(p, kind), Screen.MostlyFrom(p));
            if (h.BowAlong is { } along) { Row("free, rises along", along, Shown.Thickness); }
            if (h.BowAcross is { } across) { Row("free, rises across", across, Shown.Thickness); }
            foreach (LockedRow l in h.Stresses) { Row($"{(l.Held ? "held" : "free")}, {l.Skin}, across the grain", l.Across, Shown.Stress); }
        }

        screen.Table(table);
        screen.Line("Rises: hollow inside is positive; held: kept flat and from stretching, as on a stiff rim; stress: tension is positive. Elastic: in weeks wood gives way and both are less. Core and adhesive are taken not to grow.");
    }

    private static string Place(MarginRow m, Screen screen) =>
        m is { X: { } x, Y: { } y } ? $", {screen.Text(x, Shown.Length)} from the lower end, {(Math.Abs(y) < Small ? "on" : $"{screen.Text(Math.Abs(y), Shown.Length)} off")} the centre line" : "";

    private static string Value(Prediction p, string unit, Screen screen) => unit switch
    {
        "Pa" => screen.Text(p.Value, Shown.Stress),
        "N/m" => screen.Text(p.Value, Shown.ShearStiffness),
        // A print of cells is below what thicknesses are shown to.
        _ => screen.Units == UnitSystem.Inch
            ? string.Create(CultureInfo.InvariantCulture, $"{p.Value / Thou:0.###} thou")
            : string.Create(CultureInfo.InvariantCulture, $"{p.Value * Metre:0.##} µm"),
    };

    private static string Times(double margin) => margin.ToString(margin < 10 ? "0.0" : "0", CultureInfo.InvariantCulture);

    private static string Chance(double chance) => chance < Small ? "below 0.1 %" : EstimateCommand.Percent(chance);

    private static string Listed(IReadOnlyList<string> names) => names.Count == 0 ? "none" : string.Join(", ", names);
}
