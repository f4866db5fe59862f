using System.CommandLine;
using System.Globalization;
using SandwichMech.App.Terminal;
using SandwichMech.Workshop;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.App.Commands;

/// <summary>`sound BOARD`: how a held board answers, how long, and how much air it moves beside the solid top.</summary>
internal static class SoundCommand
{
    private const int MostModes = 30, OfferedModes = 8;
    private const double Audible = 20e3;

    internal static Command Create(CommonOptions common)
    {
        var command = new WorkCommand("sound", "How the held board answers its strings: losses of its modes, air that it moves beside the solid top, the pair of tones with a box",
            "sandwichmech sound shared/demo/outline.toml",
            "sandwichmech sound shared/demo/outline.toml --depth \"95 mm\" --tap tap.wav --pluck note.wav --note \"220 Hz\"");
        Argument<string> board = CommonOptions.BoardArgument();
        var count = new Option<string>("--count") { Description = "How many modes, 1 to 30", HelpName = "N", DefaultValueFactory = _ => OfferedModes.ToString(CultureInfo.InvariantCulture) };
        var edge = new Option<string?>("--edge") { Description = "How the edge is held: hinged, clamped or rim (between the two); the board file's unless you say, rim where that is free", HelpName = "hinged|clamped|rim" };
        edge.AcceptOnlyFromAmong("hinged", "clamped", "rim");
        var depth = new Option<string?>("--depth") { Description = "Mean depth of the air in a box under the board: gives the two tones of its first mode and the box's air", HelpName = "LENGTH" };
        var tap = new Option<string?>("--tap") { Description = "Also write what a tap on the bridge would sound like", HelpName = "FILE.wav" };
        var pluck = new Option<string?>("--pluck") { Description = "Also write what a plucked string would sound like", HelpName = "FILE.wav" };
        var note = new Option<string?>("--note") { Description = "Pitch of the plucked string; 196 Hz unless you say", HelpName = "FREQUENCY" };
        command.Arguments.Add(board);
        foreach (Option option in new Option[] { count, edge, depth, tap, pluck, note })
        {
            command.Options.Add(option);
        }

        command.SetAction(parsed =>
        {
            if (!int.TryParse(parsed.GetRequiredValue(count), NumberStyles.None, CultureInfo.InvariantCulture, out int wanted) || wanted is < 1 or > MostModes)
            {
                throw new InputException("--count", $"'{parsed.GetRequiredValue(count)}' is no number of modes: write a whole number from 1 to {MostModes}");
            }

            CheckName(parsed.GetValue(tap), "--tap");
            CheckName(parsed.GetValue(pluck), "--pluck");
            double? box = CommonOptions.Typed(parsed, depth, Dimension.Length, 5e-3, 1);
            double pitch = CommonOptions.Typed(parsed, note, Dimension.Frequency, 20, 2000) ?? SoundBoard.UsualNote;
            SoundAnswer answer = SoundBoard.Run(common.Board(parsed, board), wanted, parsed.GetValue(edge) is { } held ? BoardFields.HoldOf(held) : null, box, pitch);
            Write(parsed.GetValue(tap), answer.Tap);
            Write(parsed.GetValue(pluck), answer.Note);
            return common.Show(parsed, answer.Result, Print);
        });
        return command;

        void Write(string? path, byte[] content)
        {
            if (path is null) { return; }
            File.WriteAllBytes(path, content);
            common.Console.Err.WriteLine($"{path} written");
        }
    }

    // Before minutes of work and before the first of two files is written.
    private static void CheckName(string? path, string option)
    {
        if (path is null) { return; }
        if (!Path.GetExtension(path).Equals(".wav", StringComparison.OrdinalIgnoreCase)) { throw new InputException(option, $"'{path}' would hold a WAV: give it a name that ends with .wav"); }
        if (Path.GetDirectoryName(Path.GetFullPath(path)) is { } folder && !Directory.Exists(folder)) { throw new InputException(option, $"there is no folder '{folder}' to write {Path.GetFileName(path)} into: make it first, or name another"); }
    }

    private static void Print(SoundResult r, Screen screen)
    {
        screen.Title($"{r.Board}: edge {r.Edge}");
        var layups = new TextTable("", ">radiation along", ">across", ">faster than sound along", ">across");
        foreach (WaveRow l in r.Layups)
        {
            layups.Add(l.Layup, Plain(l.RadiationAlong, "F1"), Plain(l.RadiationAcross, "F1"), Critical(l.CriticalAlong), Critical(l.CriticalAcross));
        }

        screen.Table(layups);
        screen.Line("Radiation: √(12 D/m³) in m⁴/(kg·s), for a solid top sound speed over density. Faster than sound: where bending waves pass the air's speed; none where shear holds them below it, as far as this theory goes.");
        foreach (SoundingRow b in r.Boards)
        {
            screen.Heading(b.Name == "board" ? "The board" : $"The solid top, {screen.Text(r.SolidThickness!.Value, Shown.Thickness)}, in the same frame");
            var modes = new TextTable(">mode", $">{screen.Unit(Shown.Frequency)}", ">Q", ">90 %", ">air moved", "loses most to");
            foreach (SoundModeRow m in b.Modes)
            {
                modes.Add(m.Number.ToString(CultureInfo.InvariantCulture), screen.Number(m.Frequency, Shown.Frequency), Plain(1 / m.LossFactor, "F0"),
                    $"{Plain(1 / m.LossHigh90, "F0")} to {Plain(1 / m.LossLow90, "F0")}", Plain(m.Volume, "F3"),
                    string.Join(", ", m.Losses.OrderByDescending(l => l.LossFactor).Take(2).Select(l => $"{l.Kind} {Plain(100 * l.LossFactor / m.LossFactor, "F0")} %")));
            }

            screen.Table(modes);
            screen.Line($"A steady newton at the bridge pushes {Plain(b.SteadyVolume * 1e9, "F0")} mm³ of air aside.");
        }

        screen.Line("Air moved: volume at unit modal mass, m²/√kg (effective area over the root of the effective mass).");
        foreach (LevelRow level in r.Levels)
        {
            screen.Line($"{screen.Text(level.Low, Shown.Frequency)} to {screen.Text(level.High, Shown.Frequency)}: {Plain(level.Level, "+0.0;−0.0")} dB beside the solid top{(level.High > 1.01 * r.Limit ? ", by air moved alone, which says less and less here" : "")}.");
        }

        if (r.Box is { } box)
        {
            screen.Line($"In a box of {Plain(box.Volume * 1000, "F1")} l with a rigid back: air alone {screen.Text(box.Helmholtz, Shown.Frequency)}, top with the hole shut {screen.Text(box.HoleShut, Shown.Frequency)}, together {screen.Text(box.Lower, Shown.Frequency)} and {screen.Text(box.Upper, Shown.Frequency)}.");
        }

        screen.Line($"{r.Means}.");
        screen.Line($"{r.CannotTell}.");
        EstimateCommand.Ending(r.ReadBack, r.Warnings, screen);

        // Beyond hearing, and beyond the theory, whose skins do not bend by themselves.
        string Critical(double? f) => f is not { } at ? "none" : at > Audible ? "not below 20 kHz" : screen.Text(at, Shown.Frequency);
    }

    private static string Plain(double value, string format) => value.ToString(format, CultureInfo.InvariantCulture);
}
