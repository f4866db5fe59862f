using System.CommandLine;
using System.Globalization;
using SandwichMech.App.Terminal;
using SandwichMech.Figures;
using SandwichMech.Workshop;
using SandwichMech.Workshop.Log;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.App.Commands;

/// <summary>`listen RECORDING`: the partials of a tapped piece.</summary>
internal static class ListenCommand
{
    internal static Command Create(CommonOptions common)
    {
        var command = new WorkCommand("listen", "Tap tones from a recording (WAV): frequency, damping and level of each partial, with how well they are known",
            "sandwichmech listen shared/demo/taps.wav",
            "sandwichmech listen shared/demo/taps.wav --low \"60 Hz\" --high \"800 Hz\" --plot taps.png",
            "sandwichmech listen shared/demo/taps.wav --piece 1",
            "sandwichmech listen shared/demo/taps.wav --json");
        var recording = new Argument<string>("RECORDING") { Description = "A WAV of some taps on one piece, two seconds apart" };
        var low = new Option<string?>("--low") { Description = "Lowest frequency looked for; 40 Hz unless you say", HelpName = "FREQUENCY" };
        var high = new Option<string?>("--high") { Description = "Highest frequency looked for; 2 kHz unless you say", HelpName = "FREQUENCY" };
        var piece = new Option<string?>("--piece") { Description = "Keep the partials as tap tones of this piece of your log; `measure` says what they tell", HelpName = "NUMBER" };
        Option<string?> plot = CommonOptions.PlotOption("the spectrum with the partials marked, and the decay");
        command.Arguments.Add(recording);
        foreach (Option option in new Option[] { low, high, piece, plot })
        {
            command.Options.Add(option);
        }

        command.SetAction(parsed =>
        {
            CommonOptions.CheckPlot(parsed, plot);
            ListenAnswer answer = ListenRecording.Run(
                parsed.GetRequiredValue(recording),
                CommonOptions.Typed(parsed, low, Dimension.Frequency, 10, 50_000) ?? ListenRecording.Low,
                CommonOptions.Typed(parsed, high, Dimension.Frequency, 20, 80_000) ?? ListenRecording.High);
            if (parsed.GetValue(piece) is { } typed)
            {
                int number = int.TryParse(typed, NumberStyles.None, CultureInfo.InvariantCulture, out int n) && n > 0
                    ? n
                    : throw new InputException("--piece", $"'{typed}' is no number of a piece (`sandwichmech piece list` shows them): write it in digits, as 3");
                using ShopLog log = common.Log(parsed);
                answer = ListenRecording.Keep(log, number, answer);
            }

            return common.Show(parsed, answer.Result, Print, plot, (_, _) => BoardPictures.Listen(answer));
        });
        return command;
    }

    private static void Print(ListenResult r, Screen screen)
    {
        screen.Title(string.Create(CultureInfo.InvariantCulture, $"{r.Recording}: {r.Partials.Count} partials in {r.Taps.Count} {(r.Taps.Count == 1 ? "tap" : "taps")}, {r.Low:0} to {r.High:0} Hz"));
        var table = new TextTable(">Hz", ">give or take", ">Q", ">give or take", ">falls 60 dB in", ">level dB", ">in taps");
        foreach (PartialRow p in r.Partials)
        {
            table.Add(
                Fixed(p.Frequency, p.FrequencySd), Two(p.FrequencySd),
                p.QualityFactor is { } q ? Fixed(q, p.QualityFactorSd!.Value) : "", p.QualityFactorSd is { } sd ? Two(sd) : "",
                p.DecayTime is { } t ? string.Create(CultureInfo.InvariantCulture, $"{t:0.00} s") : "",
                p.Level.ToString("0", CultureInfo.InvariantCulture),
                string.Create(CultureInfo.InvariantCulture, $"{p.Taps} of {r.Taps.Count}"));
        }

        screen.Table(table);
        foreach (string finding in r.Findings) { screen.Line(finding); }
        if (r.KeptForPiece is { } kept) { screen.Line(string.Create(CultureInfo.InvariantCulture, $"Kept as tap tones of piece {kept}: `sandwichmech measure {kept}` says what they tell.")); }
        screen.Line("Give or take: one standard deviation, from the noise under each tap and from how much taps differ.");
    }

    // To the place of the second digit of what it may be off by, three decimals at most.
    private static string Fixed(double value, double sd) => value.ToString("F" + Decimals(sd).ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);

    private static string Two(double sd) => Fixed(Math.Max(sd, sd > 0 ? 0.0005 : 0), sd);

    private static int Decimals(double sd) => sd > 0 ? Math.Clamp(1 - (int)Math.Floor(Math.Log10(sd)), 0, 3) : 3;
}
