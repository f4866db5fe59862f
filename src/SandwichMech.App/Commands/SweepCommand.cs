using System.CommandLine;
using System.Globalization;
using SandwichMech.App.Terminal;
using SandwichMech.Figures;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.App.Commands;

/// <summary>`sweep BOARD --vary …`: stiffness, mass and first modes over one or two thicknesses.</summary>
internal static class SweepCommand
{
    private static readonly string[] Ends = ["", "_low50", "_high50", "_low90", "_high90"];

    internal static Command Create(CommonOptions common)
    {
        var command = new WorkCommand("sweep", "Stiffness, mass and first modes over one or two thicknesses",
            "sandwichmech sweep shared/demo/board.toml --vary \"skins 0.4 mm to 1.0 mm by 0.1 mm\"",
            "sandwichmech sweep shared/demo/board.toml --vary \"core 1.5 mm to 3 mm\" --plot sweep.png --csv sweep.csv",
            "sandwichmech sweep shared/demo/board.toml --vary \"inner 16 thou to 30 thou by 2 thou\" --vary \"core 1.5 mm to 3 mm in 4 steps\" --units inch");
        Argument<string> board = CommonOptions.BoardArgument();
        var vary = new Option<string[]>("--vary") { Description = "What to vary: outer, inner, skins or core, FROM to TO [by STEP | in N steps]; once or twice", Required = true, HelpName = "\"NAME FROM to TO\"" };
        Option<string?> plot = CommonOptions.PlotOption("stiffness and mass over what is varied, with the solid tops they equal");
        var csv = new Option<string?>("--csv") { Description = "Also write the rows as CSV, SI units in the column names", HelpName = "FILE" };
        command.Arguments.Add(board);
        command.Options.Add(vary);
        command.Options.Add(plot);
        command.Options.Add(csv);
        var samples = new SampleOptions("modes and equal solids on an outline keep them", EstimateCommand.MostSamples);
        samples.AddTo(command);
        command.SetAction(parsed =>
        {
            var varied = parsed.GetRequiredValue(vary).Select(SweepBoard.Read).ToList();
            var progress = new Progress(common.Console.Err);
            SweepResult result = SweepBoard.Run(common.Board(parsed, board), varied, progress.Report, samples.Read(parsed, progress));
            if (parsed.GetValue(csv) is { } file)
            {
                File.WriteAllLines(file, Csv(result));
                common.Console.Err.WriteLine($"{file} written");
            }

            return common.Show(parsed, result, Print, plot, BoardPictures.Sweep);
        });
        return command;
    }

    private static void Print(SweepResult r, Screen screen)
    {
        screen.Title(r.Board);
        string mm = screen.Unit(Shown.Thickness), g = screen.Unit(Shown.Mass), hz = screen.Unit(Shown.Frequency), d = screen.Unit(Shown.BendingStiffness);
        int modes = Math.Min(3, r.Rows[0].Modes.Count);
        var table = new TextTable([
            .. r.Varied.Select(v => $">{v.Name} {mm}"),
            $">along {d}", $">across {d}", $">{screen.Unit(Shown.ArealDensity)}", $">mass {g}",
            .. Enumerable.Range(1, modes).Select(i => $">mode {i.ToString(CultureInfo.InvariantCulture)} {hz}"),
            $">equal solid {mm}", $">saved {g}"]);
        foreach (SweepRow row in r.Rows)
        {
            table.Add([
                .. row.Values.Select(v => screen.Number(v, Shown.Thickness)),
                screen.Number(row.StiffnessAlong, Shown.BendingStiffness), screen.Number(row.StiffnessAcross, Shown.BendingStiffness),
                screen.Number(row.ArealDensity, Shown.ArealDensity), screen.Number(row.Mass, Shown.Mass),
                .. row.Modes.Take(modes).Select(m => screen.Number(m, Shown.Frequency)),
                screen.Number(row.SolidThickness, Shown.Thickness), screen.Number(row.Saved, Shown.Mass)]);
        }

        screen.Table(table);
        screen.Line($"Equal solid: {r.SolidWood}, by {r.Criterion} ({r.By}).{(modes > 0 ? $" Modes are {r.Means}.{Error(r)}" : "")}");
        EstimateCommand.Sampled(r.SampledBoards, r.Intervals, screen);
        EstimateCommand.Ending([], r.Warnings, screen);
    }

    private static string Error(SweepResult r) => r.RelativeNumericalError is { } error
        ? string.Create(CultureInfo.InvariantCulture, $" Numerical error at most {error * 100:F2} %.")
        : "";

    private static IEnumerable<string> Csv(SweepResult r)
    {
        int modes = r.Rows[0].Modes.Count;
        yield return string.Join(',', [
            .. r.Varied.Select(v => $"{v.Name}_m"), .. Heads("bending_stiffness_along", "n_m"), .. Heads("bending_stiffness_across", "n_m"), "areal_density_kg_m2", .. Heads("mass", "kg"),
            .. Ends.SelectMany(end => Enumerable.Range(1, modes).Select(i => string.Create(CultureInfo.InvariantCulture, $"mode_{i}{end}_hz"))),
            .. Heads("equal_solid_thickness", "m"), .. Heads("saved", "kg")]);
        foreach (SweepRow row in r.Rows)
        {
            double[] cells =
            [
                .. row.Values,
                row.StiffnessAlong, row.StiffnessAlongLow50, row.StiffnessAlongHigh50, row.StiffnessAlongLow90, row.StiffnessAlongHigh90,
                row.StiffnessAcross, row.StiffnessAcrossLow50, row.StiffnessAcrossHigh50, row.StiffnessAcrossLow90, row.StiffnessAcrossHigh90,
                row.ArealDensity, row.Mass, row.MassLow50, row.MassHigh50, row.MassLow90, row.MassHigh90,
                .. row.Modes, .. row.ModesLow50, .. row.ModesHigh50, .. row.ModesLow90, .. row.ModesHigh90,
                row.SolidThickness, row.SolidThicknessLow50, row.SolidThicknessHigh50, row.SolidThicknessLow90, row.SolidThicknessHigh90,
                row.Saved, row.SavedLow50, row.SavedHigh50, row.SavedLow90, row.SavedHigh90,
            ];
            yield return string.Join(',', cells.Select(c => c.ToString("G9", CultureInfo.InvariantCulture)));
        }
    }

    private static IEnumerable<string> Heads(string name, string unit) => Ends.Select(end => $"{name}{end}_{unit}");
}
