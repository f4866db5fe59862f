using System.Globalization;
using ScottPlot;
using SandwichMech.Core.Taps;
using SandwichMech.Figures.Drawing;
using SandwichMech.Workshop.UseCases;
using Box = SandwichMech.Figures.Drawing.Box;
using Palette = SandwichMech.Figures.Drawing.Palette;

namespace SandwichMech.Figures;

/// <summary>A recording of taps: the spectrum with its partials above, the decay of the loudest tap below.</summary>
internal static class ListenPicture
{
    private const int Width = 1400, Height = 1050;
    private const double Left = 95, Right = 1340, Lowest = -80, LabelSize = 14;

    internal static Picture Of(ListenAnswer answer)
    {
        ListenResult r = answer.Result;
        var picture = new Picture($"{r.Recording}: tap tones", Width, Height);
        string taps = r.Taps.Count == 1 ? "one tap" : string.Create(CultureInfo.InvariantCulture, $"{r.Taps.Count} taps");
        Header.Write(picture, r.Recording, string.Create(CultureInfo.InvariantCulture, $"{r.Partials.Count} partials in {taps}"), r.Findings.Take(2));
        Spectrum(picture, answer);
        Decay(picture, answer);
        return picture;
    }

    private static void Spectrum(Picture picture, ListenAnswer answer)
    {
        ListenResult r = answer.Result;
        var panel = new Panel(picture, new Box(Left, 165, Right, 590), Scale.Log(r.Low, r.High, Right - Left, 46), Scale.Linear(Lowest, 14, 6));
        panel.WriteTicks();
        panel.WriteTitles("frequency, Hz", "Spectrum after the taps, dB below its highest; triangles: partials", 40);
        panel.Line(answer.Curves.Spectrum.Select(p => (p.X, Math.Max(Lowest, p.Y))), new(Palette.Blue, 1.6));
        (double X, double Y)[] tops = [.. r.Partials.Select(p => (p.Frequency, Math.Max(Lowest, Top(answer, p.Frequency)) + 3))];
        panel.Points(tops, MarkerShape.FilledTriangleDown, 11, Palette.Vermillion);
        // The strongest get their names first.
        foreach ((PartialRow partial, (double x, double y)) in r.Partials.Zip(tops).OrderByDescending(p => p.Second.Y))
        {
            string name = partial.Frequency.ToString(partial.Frequency < 1000 ? "0.0" : "0", CultureInfo.InvariantCulture);
            double px = panel.PixelX(x), py = panel.PixelY(y);
            panel.Write(new[] { (0.0, -18.0), (26.0, -14.0), (-26.0, -14.0), (30.0, 2.0), (-30.0, 2.0), (30.0, 9.0) }
                .Select(d => new Words(name, px + d.Item1, py + d.Item2, LabelSize) { Anchor = Anchor.Middle }), needed: false);
        }
    }

    private static double Top(ListenAnswer answer, double frequency) =>
        answer.Curves.Spectrum.Where(p => Math.Abs(p.X / frequency - 1) < 0.006).Select(p => p.Y).DefaultIfEmpty(Lowest).Max();

    private static void Decay(Picture picture, ListenAnswer answer)
    {
        TapCurves curves = answer.Curves;
        double noise = answer.Result.Noise, high = curves.Decay.Max(p => p.Y) + 5, low = Math.Max(Math.Min(noise, curves.Decay.Min(p => p.Y)) - 6, high - 100);
        double end = curves.Decay[^1].X + 0.01;
        var panel = new Panel(picture, new Box(Left, 715, Right, 965), Scale.Linear(0, end, 11), Scale.Linear(low, high, 5));
        panel.WriteTicks();
        panel.WriteTitles("time after the tap, s", string.Create(CultureInfo.InvariantCulture, $"Decay of tap {curves.DecayTap}, dB of full scale"), 40);
        (IReadOnlyList<(double X, double Y)> Points, Stroke Stroke, string Name, bool Above)[] lines =
        [
            (curves.Decay, new(Palette.Blue, 2.5), "as recorded", true),
            (answer.Result.DampingUsable ? curves.Fitted : [], new(Palette.Vermillion, 2.5, Dash.Dashed), "sum of its partials", false),
            ([(0, noise), (end, noise)], new(Palette.Muted, 1.5, Dash.Dotted), "between the taps", false),
        ];
        var seen = lines.Select(l => (Points: l.Points.Where(p => p.Y >= low).ToArray(), l.Stroke, l.Name, l.Above)).Where(l => l.Points.Length > 1).ToArray();
        // All lines first, so that no name comes to lie on one that is drawn later.
        foreach (var l in seen) { panel.Line(l.Points, l.Stroke); }
        foreach (var l in seen) { panel.WriteAlong([.. l.Points.Select(p => (panel.PixelX(p.X), panel.PixelY(p.Y)))], new Words(l.Name, 0, 0, LabelSize) { Bold = true, Colour = l.Stroke.Colour }, l.Above, needed: true); }
    }
}
