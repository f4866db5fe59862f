using System.CommandLine;
using System.Globalization;
using SandwichMech.App.Terminal;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Figures;
using SandwichMech.Workshop;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.App.Commands;

/// <summary>`sound BOARD`: how a held board answers, how long, and how much air it moves beside the solid top.</summary>
internal static class SoundCommand
{
    private const int MostModes = 30, OfferedModes = 8, FewestBoards = 20, MostBoards = 10_000;
    private const double Audible = 20e3;
    private const string Signed = "+0.0;−0.0";

    internal static Command Create(CommonOptions common)
    {
        var command = new WorkCommand("sound", "How the held board answers its strings: losses of its modes, air that it moves beside the solid top, the pair of tones with a box",
            "sandwichmech sound shared/demo/outline.toml --plot sound.png",
            "sandwichmech sound shared/demo/outline.toml --depth \"95 mm\" --tap tap.wav --pluck note.wav --note \"220 Hz\"");
        Argument<string> board = CommonOptions.BoardArgument();
        var count = new Option<string>("--count") { Description = "How many modes, 1 to 30", HelpName = "N", DefaultValueFactory = _ => OfferedModes.ToString(CultureInfo.InvariantCulture) };
        var edge = new Option<string?>("--edge") { Description = "How the edge is held: hinged, clamped or rim (between the two); the board file's unless you say, rim where that is free", HelpName = "hinged|clamped|rim" };
        edge.AcceptOnlyFromAmong("hinged", "clamped", "rim");
        var depth = new Option<string?>("--depth") { Description = "Mean depth of the air in a box under the board: gives the two tones of its first mode and the box's air", HelpName = "LENGTH" };
        var tap = new Option<string?>("--tap") { Description = "Also write what taps on the bridge would sound like: board and solid top as expected, then three drawn pairs", HelpName = "FILE.wav" };
        var pluck = new Option<string?>("--pluck") { Description = "Also write the same of a plucked string", HelpName = "FILE.wav" };
        var note = new Option<string?>("--note") { Description = "Pitch of the plucked string; 196 Hz unless you say", HelpName = "FREQUENCY" };
        var samples = new Option<string?>("--samples") { Description = "Boards and solid tops drawn for the intervals; 200 unless you say", HelpName = "N" };
        var seed = new Option<string>("--seed") { Description = "Which boards are drawn", HelpName = "N", DefaultValueFactory = _ => "1" };
        Option<string?> plot = CommonOptions.PlotOption("mobility at the bridge and level beside the solid top over frequency, with the bands of drawn boards");
        command.Arguments.Add(board);
        foreach (Option option in new Option[] { count, edge, depth, tap, pluck, note, samples, seed, plot })
        {
            command.Options.Add(option);
        }

        command.SetAction(parsed =>
        {
            int wanted = Whole(parsed.GetRequiredValue(count), "--count", "number of modes", 1, MostModes);
            CheckName(parsed.GetValue(tap), "--tap");
            CheckName(parsed.GetValue(pluck), "--pluck");
            CommonOptions.CheckPlot(parsed, plot);
            var wish = new SoundWish(wanted);
            SoundAnswer answer = SoundBoard.Run(common.Board(parsed, board), wish with
            {
                Edge = parsed.GetValue(edge) is { } held ? BoardFields.HoldOf(held) : null,
                Depth = CommonOptions.Typed(parsed, depth, Dimension.Length, 5e-3, 1),
                Note = CommonOptions.Typed(parsed, note, Dimension.Frequency, 20, 2000) ?? wish.Note,
                Heard = parsed.GetValue(tap) is not null || parsed.GetValue(pluck) is not null,
                Boards = parsed.GetValue(samples) is { } n ? Whole(n, "--samples", "number of boards", FewestBoards, MostBoards) : wish.Boards,
                Seed = Whole(parsed.GetRequiredValue(seed), "--seed", "seed", 0, int.MaxValue),
            });
            Write(parsed.GetValue(tap), answer.Sounds.Tap);
            Write(parsed.GetValue(pluck), answer.Sounds.Pluck);
            return common.Show(parsed, answer.Result, Print, plot, BoardPictures.Sound);
        });
        return command;

        void Write(string? path, Func<byte[]> content)
        {
            if (path is null) { return; }
            WholeFile.Write(path, content(), "the sound");
            common.Console.Err.WriteLine($"{path} written");
        }
    }

    private static int Whole(string text, string option, string what, int least, int most) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out int number) && number >= least && number <= most ? number
            : throw new InputException(option, $"'{text}' is no {what}: write a whole number from {least} to {most}");

    // Before minutes of work and before the first of two files is written.
    private static void CheckName(string? path, string option)
    {
        if (path is null) { return; }
        if (!Path.GetExtension(path).Equals(".wav", StringComparison.OrdinalIgnoreCase)) { throw new InputException(option, $"'{path}' would hold a WAV: give it a name that ends with .wav"); }
        WholeFile.CheckPlace(path, option);
    }

    private static void Print(SoundResult r, Screen screen)
    {
        screen.Title($"{r.Board}: edge {r.Edge}");
        var layups = new TextTable("", ">along", ">90 % of such boards", ">across", ">90 % of such boards");
        foreach (WaveRow l in r.Layups)
        {
            layups.Add($"{l.Layup}, radiation", Plain(l.RadiationAlong.Value, "F1"), Range(l.RadiationAlong, "F1"), Plain(l.RadiationAcross.Value, "F1"), Range(l.RadiationAcross, "F1"));
            layups.Add($"{l.Layup}, faster than sound above", Critical(l.CriticalAlong.Value), Between(l.CriticalAlong), Critical(l.CriticalAcross.Value), Between(l.CriticalAcross));
            layups.Add($"{l.Layup}, shear takes a tenth above", screen.Text(l.SofteningAlong.Value, Shown.Frequency), screen.Range(l.SofteningAlong, Shown.Frequency),
                screen.Text(l.SofteningAcross.Value, Shown.Frequency), screen.Range(l.SofteningAcross, Shown.Frequency));
        }

        screen.Table(layups);
        screen.Line("Radiation: √(12 D/m³) in m⁴/(kg·s), for a solid top sound speed over density. Faster than sound: where bending waves pass the air's speed; none where shear holds them below it, as far as this theory goes. Shear takes a tenth: of the bending stiffness.");
        foreach (SoundingRow b in r.Boards)
        {
            screen.Heading(b.Name == "board" ? "The board" : $"The solid top, {screen.Text(r.SolidThickness!.Value, Shown.Thickness)} ({r.SolidFrom}), in the same frame");
            Modes(b, screen);
            screen.Line($"A steady newton at the bridge pushes {Plain(b.SteadyVolume.Value * 1e9, "F0")} mm³ of air aside ({Plain(b.SteadyVolume.Low90 * 1e9, "F0")} to {Plain(b.SteadyVolume.High90 * 1e9, "F0")} mm³). "
                + $"Mobility at the bridge from {screen.Text(b.Mobility[0].Frequency, Shown.Frequency)} to {screen.Text(b.Mobility[^1].Frequency, Shown.Frequency)}: typically {Plain(b.TypicalMobility.Value, "G2")} s/kg ({Plain(b.TypicalMobility.Low90, "G2")} to {Plain(b.TypicalMobility.High90, "G2")}; mostly from {Screen.MostlyFrom(b.TypicalMobility)}).");
        }

        screen.Line("Air moved: volume at unit modal mass, m²/√kg (effective area over the root of the effective mass). Ranges hold 90 % of such boards.");
        Compare(r, screen);
        if (r.Box is { } box)
        {
            screen.Line($"In a box of {Plain(box.Volume * 1000, "F1")} l with a rigid back: air alone {Tone(box.Helmholtz)}, top with the hole shut {Tone(box.HoleShut)}, together {Tone(box.Lower)} and {Tone(box.Upper)}; the upper mostly from {Screen.MostlyFrom(box.Upper)}.");
        }

        if (r.Heard.Count > 0)
        {
            screen.Heading("In the sounds");
            foreach (HeardRow h in r.Heard) { screen.Line($"{Plain(h.From, "0.0")} to {Plain(h.To, "0.0")} s: {h.Heard}."); }
        }

        screen.Line($"{r.Means}.");
        screen.Line($"{r.Intervals}.");
        screen.Line($"{r.CannotTell}.");
        EstimateCommand.Ending(r.ReadBack, r.Warnings, screen);

        // Beyond hearing, and beyond the theory, whose skins do not bend by themselves.
        string Critical(double? f) => f is not { } at ? "none" : at > Audible ? "not below 20 kHz" : screen.Text(at, Shown.Frequency);
        string Between(CriticalRow c) => c.Low90 is { } low && low < Audible ? $"{screen.Number(low, Shown.Frequency)} to {(c.High90 is { } high && high < Audible ? screen.Number(high, Shown.Frequency) : "none")}" : "";
        string Tone(Prediction p) => p.High90 > p.Low90 ? $"{screen.Text(p.Value, Shown.Frequency)} ({screen.Range(p, Shown.Frequency)})" : screen.Text(p.Value, Shown.Frequency);
    }

    private static void Modes(SoundingRow b, Screen screen)
    {
        var modes = new TextTable(">mode", $">{screen.Unit(Shown.Frequency)}", ">90 %", ">Q", ">90 %", ">air moved", ">90 %", "loses most to");
        foreach (SoundModeRow m in b.Modes)
        {
            modes.Add(m.Number.ToString(CultureInfo.InvariantCulture), screen.Number(m.Frequency.Value, Shown.Frequency), screen.Range(m.Frequency, Shown.Frequency), Plain(1 / m.LossFactor.Value, "F0"),
                $"{Plain(1 / m.LossFactor.High90, "F0")} to {Plain(1 / m.LossFactor.Low90, "F0")}", Plain(m.Volume.Value, "F3"), Range(m.Volume, "F3"),
                string.Join(", ", m.Losses.OrderByDescending(l => l.LossFactor).Take(2).Select(l => $"{l.Kind} {Plain(100 * l.LossFactor / m.LossFactor.Value, "F0")} %")));
        }

        screen.Table(modes);
    }

    private static void Compare(SoundResult r, Screen screen)
    {
        foreach (LevelRow level in r.Levels)
        {
            screen.Line($"{screen.Text(level.Low, Shown.Frequency)} to {screen.Text(level.High, Shown.Frequency)}: {Plain(level.Level.Value, Signed)} dB beside the solid top ({Range(level.Level, Signed)} dB; mostly from {Screen.MostlyFrom(level.Level)}){(level.High > 1.01 * r.Limit ? ", by air moved alone, which says less and less here" : "")}.");
        }

        if (r.Scatter is { } s)
        {
            screen.Line($"Board against solid top, and against how much they scatter: {Plain(s.Level, Signed)} dB with a standard deviation of {Plain(s.LevelScatter, "0.0")} dB; first tone {Plain(100 * s.FirstTone, Signed)} % with {Plain(100 * s.FirstToneScatter, "0.0")} %. {s.Words}.");
        }
        else
        {
            screen.Line($"Nothing to compare with: {r.SolidFrom}.");
        }
    }

    private static string Range(Prediction p, string format) => p.High90 > p.Low90 ? $"{Plain(p.Low90, format)} to {Plain(p.High90, format)}" : "";

    private static string Plain(double value, string format) => value.ToString(format, CultureInfo.InvariantCulture);
}
