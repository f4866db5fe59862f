using System.CommandLine;
using System.Globalization;
using SandwichMech.App.Terminal;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.App.Commands;

/// <summary>`strip BOARD`: a test strip from the blank's margin, and how to bend it.</summary>
internal static class StripCommand
{
    internal static Command Create(CommonOptions common)
    {
        var command = new WorkCommand("strip", "A test strip from the blank's margin: spans, weights, what the gauge should read, and how well core and skins would be known then",
            "sandwichmech strip shared/demo/board.toml --margin \"30 mm\"",
            "sandwichmech strip shared/demo/board.toml --across --length \"200 mm\" --gauge-step \"0.01 mm\" --heaviest \"10 kg\"");
        Argument<string> board = CommonOptions.BoardArgument();
        Option<string?> margin = Value("--margin", "Width of the margin that the blank has beside the outline; 25 mm unless you say", "LENGTH");
        Option<string?> length = Value("--length", "Length of the strip; what the board's side allows unless you say", "LENGTH");
        var across = new Option<bool>("--across") { Description = "Cut it across the grain, from an end of the blank; along the grain when left out" };
        Option<string?> step = Value("--gauge-step", "One step of your dial gauge; 0.01 mm unless you say", "LENGTH");
        Option<string?> heaviest = Value("--heaviest", "The heaviest weight that you can lay on; 5 kg unless you say", "MASS");
        command.Arguments.Add(board);
        foreach (Option option in new Option[] { margin, length, across, step, heaviest }) { command.Options.Add(option); }
        command.SetAction(parsed =>
        {
            StripWords words = new(
                parsed.GetValue(across), CommonOptions.Typed(parsed, margin, Dimension.Length, 2e-3, 0.3), CommonOptions.Typed(parsed, length, Dimension.Length, 20e-3, 2),
                CommonOptions.Typed(parsed, step, Dimension.Length, 0.1e-6, 0.2e-3), CommonOptions.Typed(parsed, heaviest, Dimension.Mass, 0.05, 100));
            return common.Show(parsed, PlanStrip.Run(common.Board(parsed, board), words), Print);
        });
        return command;
    }

    private static Option<string?> Value(string name, string description, string helpName) => new(name) { Description = description, HelpName = helpName };

    private static void Print(StripResult r, Screen screen)
    {
        screen.Title($"{r.Board}: test strip {r.Direction} the grain, {screen.Text(r.Length, Shown.Length)} × {screen.Text(r.Width, Shown.Length)}, {screen.Text(r.Thickness, Shown.Thickness)} thick, {screen.Text(r.Mass, Shown.Mass)}");
        foreach (string line in r.Taken) { screen.Line($"{char.ToUpperInvariant(line[0])}{line[1..]}."); }
        screen.Heading("Tests");
        var tests = new TextTable(">test", ">span", ">in thicknesses", "load on", ">weight", ">goes down", ">9 in 10", ">gauge steps", ">shear", ">skin", ">core");
        foreach (StripTestRow t in r.Tests)
        {
            tests.Add(
                Whole(t.Number), screen.Text(t.Span, Shown.Length), Whole(t.SpanOverThickness), t.LoadSpan > 0 ? $"2 lines, {screen.Text(t.LoadSpan, Shown.Length)}" : "middle", $"{1000 * t.Load:0} g",
                screen.Text(t.Deflection.Value, Shown.Thickness), $"{screen.Number(t.Deflection.Low90, Shown.Thickness)} to {screen.Number(t.Deflection.High90, Shown.Thickness)}", Whole(t.GaugeSteps),
                Percent(t.ShearShare), screen.Text(t.SkinStress, Shown.Stress), screen.Text(t.CoreStress, Shown.Stress));
        }

        screen.Table(tests);
        screen.Heading("How well it would be known then, give or take (9 in 10)");
        var schemes = new TextTable("", ">tests", ">core shear", ">skin stiffness");
        schemes.Add("by the board file", "", Percent(r.CoreShear.Relative), Percent(r.SkinStiffness.Relative));
        foreach (StripSchemeRow s in r.Schemes) { schemes.Add(s.Name, string.Join(", ", s.Tests.Select(n => Whole(n))), Percent(s.CoreShearRelative), Percent(s.SkinStiffnessRelative)); }
        screen.Table(schemes);
        screen.Line($"By the board file: core shear modulus {r.Direction} {screen.Text(r.CoreShear.Value, Shown.Stress)}, skins {screen.Text(r.SkinStiffness.Value, Shown.Modulus)} {r.Direction}, as a tap finds it.");
        screen.Heading("To do, and to mind");
        foreach (string note in r.Notes) { screen.Line($"- {note}"); }
    }

    private static string Whole(double value) => value.ToString("0", CultureInfo.InvariantCulture);

    private static string Percent(double share) => string.Create(CultureInfo.InvariantCulture, $"{100 * share:0} %");
}
