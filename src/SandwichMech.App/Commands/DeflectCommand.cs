using System.CommandLine;
using System.Globalization;
using SandwichMech.App.Terminal;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Figures;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.App.Commands;

/// <summary>`deflect BOARD`: the board under its strings.</summary>
internal static class DeflectCommand
{
    internal static Command Create(CommonOptions common)
    {
        var command = new WorkCommand("deflect", "The board under its strings: turn of the bridge, where the board sinks and rises, stiffness at the bridge",
            "sandwichmech deflect shared/demo/outline.toml",
            "sandwichmech deflect shared/demo/outline.toml --tension \"420 N\" --height \"10 mm\" --edge clamped --plot deflect.png",
            "sandwichmech deflect shared/demo/outline.toml --tension \"700 N\" --tailpiece \"12°\" --at \"160 mm\" --units inch");
        Argument<string> board = CommonOptions.BoardArgument();
        var tension = new Option<string[]>("--tension") { Description = "Tension of all strings together; or once for each string, which are added up; about 400 N unless you say", HelpName = "FORCE", DefaultValueFactory = _ => [] };
        var height = Text("--height", "HEIGHT", "From the board to the strings, at the bridge; 11 mm unless you say");
        var tailpiece = Text("--tailpiece", "ANGLE", "The strings go on over the bridge to a tailpiece, bent down by this angle; without it they are tied to the bridge");
        var edge = new Option<string?>("--edge") { Description = "How the edge is held: hinged, clamped or rim (between the two); the board file's unless you say, rim where that is free", HelpName = "hinged|clamped|rim" };
        edge.AcceptOnlyFromAmong("hinged", "clamped", "rim");
        var at = Text("--at", "LENGTH", "From the board's lower end to the middle of the bridge; the bridge's or its patch's unless you say");
        var along = Text("--along", "LENGTH", "Extent of the bridge's foot along the grain; the bridge's or its patch's unless you say, 28 mm without one");
        var across = Text("--across", "LENGTH", "Extent of the bridge's foot across; the bridge's or its patch's unless you say, 190 mm without one");
        Option<string?> plot = CommonOptions.PlotOption("the deflection over the outline and along the centre line");
        command.Arguments.Add(board);
        foreach (Option option in new Option[] { tension, height, tailpiece, edge, at, along, across, plot })
        {
            command.Options.Add(option);
        }

        command.SetAction(parsed =>
        {
            string[] each = parsed.GetRequiredValue(tension);
            var wish = new DeflectWish
            {
                Tension = each.Length == 0 ? null : each.Sum(t => CommonOptions.Typed(t, tension.Name, Dimension.Force, 0.1, 5000)),
                Height = CommonOptions.Typed(parsed, height, Dimension.Length, 0, 0.2),
                BreakAngle = CommonOptions.Typed(parsed, tailpiece, Dimension.Angle, 0, 1),
                Edge = parsed.GetValue(edge) is { } held ? BoardFields.HoldOf(held) : null,
                At = CommonOptions.Typed(parsed, at, Dimension.Length, 0, 2),
                Along = CommonOptions.Typed(parsed, along, Dimension.Length, 3e-3, 0.3),
                Across = CommonOptions.Typed(parsed, across, Dimension.Length, 5e-3, 1),
            };
            DeflectAnswer answer = DeflectBoard.Run(common.Board(parsed, board), wish);
            return common.Show(parsed, answer.Result, Print, plot, (_, units) => BoardPictures.Deflect(answer, units));
        });
        return command;
    }

    private static Option<string?> Text(string name, string holds, string description) => new(name) { Description = description, HelpName = holds };

    private static void Print(DeflectResult r, Screen screen)
    {
        screen.Title($"{r.Board}: edge {r.Edge}, strings {Strings(r, screen)}");
        var table = new TextTable("", ">", "", ">90 % of such boards", "mostly from");
        void Row(string what, Prediction p, Shown kind) => table.Add(what, screen.Number(p.Value, kind), screen.Unit(kind), screen.Range(p, kind), Screen.MostlyFrom(p));
        Row("bridge turns towards the nut", r.Rotation, Shown.Angle);
        // Where it sinks all over, nothing rises.
        if (r.Sinks.Deflection.Value < 0) { Row($"board sinks most, {Place(r.Sinks, r, screen)}", r.Sinks.Deflection.Negated(), Shown.Thickness); }
        if (r.Rises.Deflection.Value > 0) { Row($"board rises most, {Place(r.Rises, r, screen)}", r.Rises.Deflection, Shown.Thickness); }
        Row("stiffness at the bridge", r.Stiffness, Shown.Stiffness);
        screen.Table(table);
        EstimateCommand.SolidLines(r.Solid, screen);
        screen.Line(string.Create(CultureInfo.InvariantCulture,
            $"In years it may become {r.Creep.Low:0.#} to {r.Creep.High:0.#} times as much: the bridge {screen.Text(r.Creep.LowRotation, Shown.Angle)} to {screen.Text(r.Creep.HighRotation, Shown.Angle)} ({r.Creep.Source})."));
        screen.Line("Stiffness at the bridge: force onto its foot over the foot's mean sinking, as a weight and a dial gauge show it.");
        screen.Line(string.Create(CultureInfo.InvariantCulture, $"By {r.Means}. Numerical error at most {r.RelativeNumericalError * 100:F2} % ({r.Triangles} triangles, {r.Unknowns} unknowns)."));
        EstimateCommand.Ending(r.ReadBack, r.Warnings, screen);
    }

    private static string Strings(DeflectResult r, Screen screen) => r.Strings.BreakAngle is { } angle
        ? $"{screen.Text(r.Strings.Tension, Shown.Force)}, to a tailpiece at {screen.Text(angle, Shown.Angle)}: {screen.Text(r.Strings.Down, Shown.Force)} onto the bridge"
        : $"{screen.Text(r.Strings.Tension, Shown.Force)} tied to the bridge, {screen.Text(r.Strings.Height, Shown.Thickness)} above the board";

    // Before the bridge is towards the nut.
    private static string Place(DeflectedRow row, DeflectResult r, Screen screen)
    {
        double from = row.X - r.Bridge.At;
        return Math.Abs(from) <= r.Bridge.Along / 2 && Math.Abs(row.Y) <= r.Bridge.Across / 2 ? "under the bridge"
            : $"{screen.Text(Math.Abs(from), Shown.Length)} {(from > 0 ? "before" : "behind")} it";
    }
}
