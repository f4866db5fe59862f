using System.CommandLine;
using SandwichMech.App.Terminal;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Figures;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.App.Commands;

/// <summary>`estimate BOARD`: how stiff, how heavy, roughly where the modes are, and what solid top it equals.</summary>
internal static class EstimateCommand
{
    /// <summary>Boards that may be drawn at most for figures of the layup, all of which are kept until the quantiles are taken.</summary>
    internal const int MostSamples = 100_000;

    internal static Command Create(CommonOptions common)
    {
        var command = new WorkCommand("estimate", "How stiff, how heavy, roughly where the modes are, and what solid top it equals",
            "sandwichmech estimate shared/demo/board.toml",
            "sandwichmech estimate shared/demo/board.toml --units inch --plot estimate.png",
            "sandwichmech estimate shared/demo/board.toml --sources sources.png",
            "sandwichmech estimate shared/demo/board.toml --samples 2000 --json");
        Argument<string> board = CommonOptions.BoardArgument();
        Option<string?> plot = CommonOptions.PlotOption("where stiffness and mass come from, layer by layer");
        command.Arguments.Add(board);
        command.Options.Add(plot);
        var samples = new SampleOptions("modes on an outline keep theirs (`sandwichmech modes --samples` samples them)", MostSamples);
        samples.AddTo(command);
        var sources = new Option<string?>("--sources") { Description = "Also draw what the spread of each main figure comes from: what is worth measuring first", HelpName = "FILE.png|FILE.svg" };
        command.Options.Add(sources);
        command.SetAction(parsed =>
        {
            CommonOptions.CheckPlot(parsed, plot);
            CommonOptions.CheckPlot(parsed, sources);
            EstimateResult result = EstimateBoard.Run(common.Board(parsed, board), samples.Read(parsed, new Progress(common.Console.Err)));
            if (parsed.GetValue(sources) is { } file)
            {
                SavedPicture saved = BoardPictures.Sources(result, common.Units(parsed)).Save(file);
                common.Console.Err.WriteLine($"{saved.Path} written{(saved.Note is null ? "" : $"; {saved.Note}")}");
            }

            return common.Show(parsed, result, Print, plot, BoardPictures.Estimate);
        });
        return command;
    }

    private static void Print(EstimateResult r, Screen screen)
    {
        screen.Title(r.Board);
        var figures = new TextTable("", ">", "", ">90 % of boards", ">50 %", "mostly from");
        void Figure(string name, Prediction p, Shown kind) =>
            figures.Add(name, screen.Number(p.Value, kind), screen.Unit(kind), screen.Range(p, kind), screen.Likely(p, kind), Screen.MostFrom(p));
        Figure("Bending stiffness along", r.StiffnessAlong, Shown.BendingStiffness);
        Figure("Bending stiffness across", r.StiffnessAcross, Shown.BendingStiffness);
        Figure("Twisting stiffness", r.StiffnessTwist, Shown.BendingStiffness);
        Figure("Areal density", r.ArealDensity, Shown.ArealDensity);
        Figure($"Mass on {screen.Text(r.Area, Shown.Area)}", r.Mass, Shown.Mass);
        Figure("  of it adhesive", r.AdhesiveKept, Shown.Mass);
        Figure("Thickness", r.Thickness, Shown.Thickness);
        screen.Table(figures);
        Sampled(r.SampledBoards, r.Intervals, screen);

        screen.Heading("The solid top that it equals");
        SolidLines(r.Solid, screen);

        screen.Heading("Where it comes from");
        var layers = new TextTable("layer", "material", $">{screen.Unit(Shown.Thickness)}", $">{screen.Unit(Shown.ArealDensity)}", ">of mass", ">of stiffness along", ">across");
        foreach (LayerRow l in r.Layers)
        {
            layers.Add(l.Layer, l.Material, screen.Number(l.Thickness, Shown.Thickness), screen.Number(l.ArealDensity, Shown.ArealDensity),
                Percent(l.ShareOfMass), Percent(l.ShareAlong), Percent(l.ShareAcross));
        }

        screen.Table(layers);

        screen.Heading("Shear");
        screen.Line($"Shear takes a tenth of the stiffness above {screen.Text(r.SofteningAlong.Value, Shown.Frequency)} along and {screen.Text(r.SofteningAcross.Value, Shown.Frequency)} across;"
            + $" shear stiffness {screen.Text(r.ShearAlong.Value, Shown.ShearStiffness)} along, {screen.Text(r.ShearAcross.Value, Shown.ShearStiffness)} across.");

        if (r.Outline is { } outline)
        {
            screen.Heading($"Modes on the outline, edge {outline.Edge}");
            ModesCommand.PrintModes(outline, screen);
        }
        else if (r.Rectangle is { } rectangle)
        {
            screen.Heading("Modes, approximate");
            var modes = new TextTable("half waves along × across", $">{screen.Unit(Shown.Frequency)}", ">90 % of boards", ">50 %", "mostly from");
            foreach (ModeRow m in rectangle.Modes)
            {
                modes.Add($"{m.HalfWavesAlong} × {m.HalfWavesAcross}", screen.Number(m.Frequency.Value, Shown.Frequency), screen.Range(m.Frequency, Shown.Frequency), screen.Likely(m.Frequency, Shown.Frequency), Screen.MostFrom(m.Frequency));
            }

            screen.Table(modes);
            screen.Line($"They are {rectangle.Means} ({screen.Text(rectangle.Length, Shown.Length)} × {screen.Text(rectangle.Width, Shown.Length)}).");
        }
        else
        {
            screen.Line("Give size.length and size.width in the board file for approximate modes.");
        }

        Ending(r.ReadBack, r.Warnings, screen);
    }

    /// <summary>How the intervals were found, where not in the usual way.</summary>
    internal static void Sampled(int boards, string intervals, Screen screen)
    {
        if (boards > 0) { screen.Line($"Intervals: {intervals}."); }
    }

    internal static void SolidLines(SolidRow solid, Screen screen)
    {
        screen.Line($"By {solid.Criterion}{(solid.By == "layup" ? "" : $" ({solid.By})")}: solid {solid.Wood}, {screen.Text(solid.Thickness.Value, Shown.Thickness)} thick ({screen.Range(solid.Thickness, Shown.Thickness)}), {screen.Text(solid.Mass.Value, Shown.Mass)} on the same area.");
        screen.Line($"This board {Saves(solid.Saved.Value, solid.SavedShare.Value, screen)} (90 %: {screen.Range(solid.Saved, Shown.Mass)} {screen.Unit(Shown.Mass)}, 50 %: {screen.Likely(solid.Saved, Shown.Mass)}; mostly from {Screen.MostlyFrom(solid.Saved)}).");
    }

    internal static string Saves(double saved, double share, Screen screen) =>
        $"{(saved >= 0 ? "saves" : "is heavier by")} {screen.Text(Math.Abs(saved), Shown.Mass)}, {Percent(Math.Abs(share))}";

    internal static string Percent(double share) => Display.Text(share, Shown.Percent, UnitSystem.Metric);

    internal static void Ending(IReadOnlyList<string> readBack, IReadOnlyList<string> warnings, Screen screen)
    {
        if (readBack.Count + warnings.Count > 0)
        {
            screen.Line();
        }

        foreach (string line in readBack)
        {
            screen.Line(line);
        }

        screen.Warnings(warnings);
    }
}
