using System.Globalization;
using ScottPlot;
using SandwichMech.Figures.Drawing;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;
using Box = SandwichMech.Figures.Drawing.Box;
using Palette = SandwichMech.Figures.Drawing.Palette;

namespace SandwichMech.Figures;

/// <summary>Mobility at the bridge over frequency, board and solid top with the bands of drawn ones, their modes marked; below, how much louder the board is by the air that it moves.</summary>
internal static class SoundPicture
{
    private const int Width = 1400, Height = 1050;
    private const double Left = 95, Right = 1340, LabelSize = 14, MarkSize = 10, Air = 1.4;

    internal static Picture Of(SoundResult r, UnitSystem units)
    {
        var say = new Say(units);
        var picture = new Picture($"{r.Board}: sound", Width, Height);
        Header.Write(picture, r.Board, $"at the bridge, edge {r.Edge}",
        [
            string.Create(CultureInfo.InvariantCulture, $"Lines: as expected; bands: nine tenths of {r.DrawnBoards} drawn boards and solid tops. Each drawn one has peaks as sharp as the line's, but elsewhere."),
            r.SolidThickness is { } h ? $"Solid top {say.Text(h, Shown.Thickness)} ({r.SolidFrom}), in the same frame, on the same edge." : $"No solid top beside it: {r.SolidFrom}.",
        ]);
        bool compared = r.LevelCurve.Count > 0;
        double low = r.Boards[0].Mobility[0].Frequency, high = r.Boards[0].Mobility[^1].Frequency;
        Scale hertz = Scale.Log(low, high, Right - Left, 46);
        Mobility(picture, r, new Box(Left, 175, Right, compared ? 620 : 965), hertz);
        if (compared) { Level(picture, r, new Box(Left, 745, Right, 965), hertz); }
        return picture;
    }

    private static void Mobility(Picture picture, SoundResult r, Box data, Scale hertz)
    {
        double low = r.Boards.Min(b => b.Mobility.Min(p => Math.Min(p.Low90, p.Magnitude))), high = r.Boards.Max(b => b.Mobility.Max(p => Math.Max(p.High90, p.Magnitude)));
        Scale magnitude = Scale.Log(low / Air, high * Air * Air * Air, data.Height, 26);
        var panel = new Panel(picture, data, hertz, magnitude);
        panel.WriteTicks();
        panel.WriteTitles("frequency, Hz", "Mobility at the bridge, s/kg (velocity for a newton); triangles: modes", 40);
        (SoundingRow Row, Stroke Stroke, string Fill, MarkerShape Mark, double At)[] boards =
        [
            .. r.Boards.Select((b, i) => (b, i == 0 ? Palette.Board : Palette.Solids[0], i == 0 ? Palette.Blue : Palette.Orange,
                i == 0 ? MarkerShape.FilledTriangleDown : MarkerShape.OpenTriangleDown, Math.Exp(Math.Log(magnitude.High) - (i + 1) * 0.035 * Math.Log(magnitude.High / magnitude.Low)))),
        ];
        foreach (var b in boards) { panel.Band(b.Row.Mobility.Select(p => (p.Frequency, p.Low90, p.High90)), b.Fill); }
        foreach (var b in boards) { panel.Line(b.Row.Mobility.Select(p => (p.Frequency, p.Magnitude)), b.Stroke); }
        foreach (var b in boards)
        {
            panel.Points(b.Row.Modes.Select(m => m.Frequency.Value).Where(f => f > hertz.Low && f < hertz.High).Select(f => (f, b.At)), b.Mark, MarkSize, b.Stroke.Colour);
        }

        foreach (var b in boards) { Name(panel, b.Row.Mobility.Select(p => (p.Frequency, p.Magnitude)), b.Row.Name, b.Stroke); }
    }

    private static void Level(Picture picture, SoundResult r, Box data, Scale hertz)
    {
        double low = r.LevelCurve.Min(p => Math.Min(p.Low90, p.Level)), high = r.LevelCurve.Max(p => Math.Max(p.High90, p.Level));
        Scale decibel = Scale.Linear(Math.Min(low, -1) - 2, Math.Max(high, 1) + 2, 6);
        var panel = new Panel(picture, data, hertz, decibel);
        panel.WriteTicks();
        panel.WriteTitles("frequency, Hz", "Board above the solid top by the air moved, dB; dark: half, light: nine tenths of drawn pairs", 40);
        if (r.Limit < hertz.High) { panel.Rectangle(Math.Max(r.Limit, hertz.Low), hertz.High, decibel.Low, decibel.High, Palette.Grid); }
        panel.Band(r.LevelCurve.Select(p => (p.Frequency, p.Low90, p.High90)), Palette.Blue);
        panel.Band(r.LevelCurve.Select(p => (p.Frequency, p.Low50, p.High50)), Palette.Blue);
        panel.Line([(hertz.Low, 0), (hertz.High, 0)], new(Palette.Muted, 1.5, Dash.Dashed), keepClear: false);
        panel.Line(r.LevelCurve.Select(p => (p.Frequency, p.Level)), Palette.Board);
        if (r.Limit < hertz.High)
        {
            panel.Write(new[] { data.Bottom - 14, data.Top + 14 }.Select(y => new Words("here the air moved tells less and less", data.Right - 8, y, LabelSize) { Anchor = Anchor.End, Colour = Palette.Muted, Halo = true }), needed: true);
        }
    }

    private static void Name(Panel panel, IEnumerable<(double X, double Y)> line, string name, Stroke stroke) =>
        panel.WriteAlong([.. line.Select(p => (panel.PixelX(p.X), panel.PixelY(p.Y)))], new Words(name, 0, 0, LabelSize) { Bold = true, Colour = stroke.Colour, Halo = true }, above: true, needed: true);
}
