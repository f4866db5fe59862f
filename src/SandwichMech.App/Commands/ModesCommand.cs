using System.CommandLine;
using System.Globalization;
using System.Text;
using SandwichMech.App.Terminal;
using SandwichMech.Figures;
using SandwichMech.Workshop;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.App.Commands;

/// <summary>`modes BOARD`: the board on its outline, mode by mode, with pictures of the shapes.</summary>
internal static class ModesCommand
{
    private const int MostModes = 60, OfferedModes = 12;
    private const double OfferedAccuracy = 1e-3;
    private const int MostSamples = 1_000_000;

    // A mode that hardly moves there is not named.
    private const double MostOfBoard = 20;

    internal static Command Create(CommonOptions common)
    {
        var command = new WorkCommand("modes", "Modes of the board on its own outline: frequencies, shapes, what each thickness does to them",
            "sandwichmech modes shared/demo/outline.toml",
            "sandwichmech modes shared/demo/outline.toml --count 20 --plot modes.png --vtu modes.vtu");
        Argument<string> board = CommonOptions.BoardArgument();
        var count = new Option<string>("--count") { Description = "How many modes, 1 to 60", HelpName = "N", DefaultValueFactory = _ => OfferedModes.ToString(CultureInfo.InvariantCulture) };
        var accuracy = new Option<string?>("--accuracy") { Description = "Largest numerical error wanted, 0.02 % to 2 %; 0.1 % unless you say", HelpName = "PERCENT" };
        Option<string?> plot = CommonOptions.PlotOption("the shape of each mode with its nodal lines");
        var noAir = new Option<bool>("--no-air") { Description = "Leave the air's mass out: modes in vacuo" };
        var loss = new Option<string?>("--loss") { Description = "Loss factor of the modes (one over Q) for the mobility at the bridge, 0.1 % to 20 %; 1.4 % (Q 70) unless you say", HelpName = "PERCENT" };
        var samples = new SampleOptions("the first time for an outline this takes minutes", MostSamples);
        var vtu = new Option<string?>("--vtu") { Description = "Also write the shapes as VTK file (.vtu)", HelpName = "FILE" };
        command.Arguments.Add(board);
        foreach (Option option in new Option[] { count, accuracy, noAir, loss, plot, vtu })
        {
            command.Options.Add(option);
        }

        samples.AddTo(command);

        command.SetAction(parsed =>
        {
            if (!int.TryParse(parsed.GetRequiredValue(count), NumberStyles.None, CultureInfo.InvariantCulture, out int wanted) || wanted is < 1 or > MostModes)
            {
                throw new InputException("--count", $"'{parsed.GetRequiredValue(count)}' is no number of modes: write a whole number from 1 to {MostModes}");
            }

            CommonOptions.CheckPlot(parsed, plot);
            if (parsed.GetValue(vtu) is { } wantedFile) { WholeFile.CheckPlace(wantedFile, vtu.Name); }
            double error = CommonOptions.Typed(parsed, accuracy, Dimension.Ratio, 2e-4, 0.02) ?? OfferedAccuracy;
            ModesAnswer answer = ModesBoard.Run(
                common.Board(parsed, board), wanted, error, !parsed.GetValue(noAir), CommonOptions.Typed(parsed, loss, Dimension.Ratio, 1e-3, 0.2) ?? ModesBoard.UsualLoss,
                samples.Read(parsed, new Progress(common.Console.Err)));
            if (parsed.GetValue(vtu) is { } file)
            {
                WholeFile.Write(file, Encoding.UTF8.GetBytes(VtkFile.Text(answer)), "the shapes");
                common.Console.Err.WriteLine($"{file} written");
            }

            return common.Show(parsed, answer.Result, Print, plot, (_, units) => BoardPictures.Modes(answer, units));
        });
        return command;
    }

    private static void Print(ModesResult r, Screen screen)
    {
        screen.Title($"{r.Board}: edge {r.Edge}, {screen.Text(r.Mass, Shown.Mass)} on {screen.Text(r.Area, Shown.Area)}");
        PrintModes(r, screen);
        PrintBridge(r, screen);
        if (r.Regions.Count > 1)
        {
            screen.Heading("Mass by region");
            var regions = new TextTable("", $">{screen.Unit(Shown.Area)}", $">{screen.Unit(Shown.Mass)}");
            foreach (RegionMass region in r.Regions)
            {
                regions.Add(region.Region, screen.Number(region.Area, Shown.Area), screen.Number(region.Mass, Shown.Mass));
            }

            screen.Table(regions);
        }

        EstimateCommand.Ending(r.ReadBack, r.Warnings, screen);
    }

    private static void PrintBridge(ModesResult r, Screen screen)
    {
        screen.Line($"Centre of mass {screen.Text(r.CentreOfMassX, Shown.Length)} from the lower end.");
        PlateModeRow[] moving = [.. r.Modes.Where(m => m.ModalMassAtBridge < MostOfBoard * r.Mass).Take(3)];
        if (moving.Length > 0)
        {
            screen.Line("Modal mass at the bridge: " + string.Join(", ", moving.Select(m => $"mode {m.Number} {screen.Text(m.ModalMassAtBridge!.Value, Shown.Mass)}")) + " (--json has all, and those at the antinodes).");
        }

        if (r.MobilityAtBridge is { } y)
        {
            MobilityPoint peak = y.Curve.MaxBy(p => p.Magnitude)!;
            screen.Line(string.Create(CultureInfo.InvariantCulture,
                $"Mobility at the bridge, {screen.Text(y.Curve[0].Frequency, Shown.Frequency)} to {screen.Text(y.Curve[^1].Frequency, Shown.Frequency)} at Q {1 / y.LossFactor:F0} (50 to 100 is common practice, no source): typically {y.Typical:G2} s/kg, most {peak.Magnitude:G2} s/kg at {screen.Text(peak.Frequency, Shown.Frequency)}; {y.Means}."));
        }
    }

    internal static void PrintModes(ModesResult r, Screen screen)
    {
        string[] heads = [">mode", $">{screen.Unit(Shown.Frequency)}", ">90 % of boards", ">50 %", "lines", ">along", ">across", ">twist", ">shear", ">outer", ">inner", ">core"];
        var modes = new TextTable(heads);
        foreach (PlateModeRow m in r.Modes)
        {
            modes.Add([
                m.Number.ToString(CultureInfo.InvariantCulture), screen.Number(m.Frequency.Value, Shown.Frequency), screen.Range(m.Frequency, Shown.Frequency), screen.Likely(m.Frequency, Shown.Frequency),
                m.NodalLines ?? "", Percent(m.Energy.BendingAlong), Percent(m.Energy.BendingAcross), Percent(m.Energy.Twist), Percent(m.Energy.Shear),
                Thicker(m, "outer skin thickness"), Thicker(m, "inner skin thickness"), Thicker(m, "core height")]);
        }

        screen.Table(modes);
        screen.Line("Lines: nodal lines met going along × across, where the shape has a plain count. Along to shear: where its energy sits. Outer, inner, core: what 0.1 mm more of it does to the frequency, in %.");
        screen.Line(string.Create(CultureInfo.InvariantCulture, $"They are {r.Means}. Numerical error at most {r.Modes.Max(m => m.RelativeNumericalError) * 100:F2} % ({r.Triangles} triangles, {r.Unknowns} unknowns)."));
        if (r.AirDensity > 0)
        {
            double[] air = [.. r.Modes.Select(m => m.InVacuo / m.Frequency.Value - 1)];
            screen.Line(string.Create(CultureInfo.InvariantCulture, $"With no air they would be {air.Min() * 100:F1} to {air.Max() * 100:F1} % higher (--json has each)."));
        }

        EstimateCommand.Sampled(r.SampledBoards, r.Intervals, screen);
    }

    private static string Thicker(PlateModeRow m, string input) => string.Create(
        CultureInfo.InvariantCulture, $"{m.Sensitivities.First(s => s.Input == input).RelativeFrequencyChange * 100:+0.0;−0.0}");

    private static string Percent(double share) => string.Create(CultureInfo.InvariantCulture, $"{share * 100:F0} %");
}
