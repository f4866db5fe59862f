using SandwichMech.Core.Outlines;
using SandwichMech.Figures.Drawing;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;
using BoardBox = SandwichMech.Core.Outlines.Box;
using BoardCurve = SandwichMech.Core.Outlines.Curve;
using Box = SandwichMech.Figures.Drawing.Box;

namespace SandwichMech.Figures;

/// <summary>An outline as it was read, to scale, the lower end at the foot, with the measures that a straightedge would check.</summary>
internal static class OutlinePicture
{
    private const int Width = 1000, Height = 1180;
    private const double Top = 130, Bottom = 1050, LabelSize = 16, Halves = 24;

    // Room beside the outline, in parts of half its width: at the left for the length, at the right for the widths; and above and below.
    private const double LeftRoom = 0.36, RightRoom = 0.72, Above = 0.03;

    internal static Picture Of(OutlineAnswer answer, UnitSystem units)
    {
        OutlineResult r = answer.Result;
        var say = new Say(units);
        BoardBox box = answer.Drawn.Outline.Bounds();
        double length = box.MaxX, half = Math.Max(-box.MinY, box.MaxY), across = half * (2 + LeftRoom + RightRoom), tall = length * (1 + 2 * Above);
        // One scale both ways, as large as the page allows.
        double pixels = Math.Min((Bottom - Top) / tall, (Width - 2 * Header.Left) / across), middle = Width / 2.0;
        var data = new Box(middle - across * pixels / 2, Top, middle + across * pixels / 2, Top + tall * pixels);
        var picture = new Picture($"{r.Drawing}: outline", Width, (int)(data.Bottom + 70));
        Header.Write(picture, r.Drawing, $"the outline '{r.Outline}'",
        [
            $"Area {say.Text(r.Area, Shown.Area)}, all round {say.Text(r.Perimeter, Shown.Length)}; the sides differ by {say.Text(r.SidesDiffer, Shown.Thickness)} at most.",
            "Lower end at the foot, seen as drawn.",
        ]);
        // Across the picture lies y of the board, reversed: x goes up, so y goes to the left.
        var panel = new Panel(picture, data, Scale.Bare(-half * (1 + LeftRoom), half * (1 + RightRoom)), Scale.Bare(-Above * length, length * (1 + Above)));
        panel.Plot.HideAxesAndGrid();
        panel.Plot.Add.Polygon([.. Points(answer.Drawn.Outline).Select(p => new ScottPlot.Coordinates(p.X, p.Y))]).FillColor = ScottPlot.Color.FromHex(Palette.PaleBlue).WithAlpha(0.35);
        panel.Line([(0, -0.02 * length), (0, length * 1.02)], new(Palette.Frame, 1, Dash.DashDot), keepClear: false);
        panel.Line(Points(answer.Drawn.Outline), new(Palette.Ink, 2.5), keepClear: false);
        foreach (var inside in answer.Drawn.Inside) { panel.Line(Points(inside.Curve), new(Palette.Blue, 2), keepClear: false); }
        Lengthwise(picture, panel, r, say, half);
        Crosswise(picture, panel, r.LowerBout, r.Waist is null ? "widest" : "lower bout", answer.Drawn.Outline, say);
        if (r.Waist is { } waist && r.UpperBout is { } upper)
        {
            Crosswise(picture, panel, waist, "waist", answer.Drawn.Outline, say);
            Crosswise(picture, panel, upper, "upper bout", answer.Drawn.Outline, say);
        }

        Name(picture, panel, r, answer, say);
        return picture;
    }

    private static IEnumerable<(double X, double Y)> Points(BoardCurve curve) =>
        curve.Segments.SelectMany(s => Enumerable.Range(0, (int)Halves).Select(i => s.At(i / Halves))).Append(curve.Segments[^1].P3).Select(p => (-p.Y, p.X));

    private static void Lengthwise(Picture picture, Panel panel, OutlineResult r, Say say, double half)
    {
        double x = -half * (1 + 0.5 * LeftRoom);
        Measure(panel, (x, 0), (x, r.Length));
        foreach (double y in (double[])[0, r.Length]) { panel.Line([(x * 1.03, y), (0, y)], new(Palette.Frame, 0.8), keepClear: false); }
        picture.Add(new Words($"length {say.Text(r.Length, Shown.Length)}", panel.PixelX(x) - 16, panel.PixelY(r.Length / 2), LabelSize) { Anchor = Anchor.Middle, Angle = -90, Halo = true, Bold = true });
    }

    private static void Crosswise(Picture picture, Panel panel, WidthRow width, string what, BoardCurve outline, Say say)
    {
        (double left, double right) = Ends(outline, width);
        Measure(panel, (left, width.At), (right, width.At));
        double label = panel.PixelX(Math.Max(-outline.Bounds().MinY, outline.Bounds().MaxY)) + 22, y = panel.PixelY(width.At);
        panel.Line([(right, width.At), (panel.X.Low + (label - 6 - panel.Data.Left) / panel.Data.Width * (panel.X.High - panel.X.Low), width.At)], new(Palette.Frame, 0.8), keepClear: false);
        picture.Add(new Words($"{what} {say.Text(width.Width, Shown.Length)}", label, y, LabelSize) { Bold = true });
        picture.Add(new Words($"{say.Text(width.At, Shown.Length)} from the lower end", label, y + 22, LabelSize - 2) { Colour = Palette.Muted });
    }

    // Where the line across meets the edge on both sides, as on the picture.
    private static (double Left, double Right) Ends(BoardCurve outline, WidthRow width)
    {
        BoardBox box = outline.Bounds();
        double[] y = [.. Crossings.Between(Shapes.Polygon([new(width.At, box.MinY - 0.1), new(width.At, box.MaxY + 0.1)], closed: false), outline, 1e-6).Select(m => -m.At.Y)];
        return y.Length > 1 ? (y.Min(), y.Max()) : (-width.Width / 2, width.Width / 2);
    }

    private static void Measure(Panel panel, (double X, double Y) from, (double X, double Y) to)
    {
        var stroke = new Stroke(Palette.Vermillion, 1.6);
        panel.Line([from, to], stroke, keepClear: false);
        // Heads at both ends, each from the middle outwards.
        (double X, double Y) middle = ((from.X + to.X) / 2, (from.Y + to.Y) / 2);
        panel.Arrow(middle, from, stroke);
        panel.Arrow(middle, to, stroke);
    }

    private static void Name(Picture picture, Panel panel, OutlineResult r, OutlineAnswer answer, Say say)
    {
        foreach ((InsideRow row, var curve) in r.Inside.Zip(answer.Drawn.Inside, (a, b) => (a, b.Curve)))
        {
            BoardBox box = curve.Bounds();
            double x = panel.PixelX(-box.Middle.Y), y = panel.PixelY(box.Middle.X);
            // In the curve where it has room, else above it.
            string[] lines = [row.Name, say.Text(row.Area, Shown.Area)];
            bool fits = lines.Max(l => TextWidth.Of(l, LabelSize, false)) < 0.85 * (box.MaxY - box.MinY) / (panel.X.High - panel.X.Low) * panel.Data.Width
                && 2.6 * LabelSize < (box.MaxX - box.MinX) / (panel.Y.High - panel.Y.Low) * panel.Data.Height;
            if (fits)
            {
                picture.Add(new Words(lines[0], x, y - 11, LabelSize) { Anchor = Anchor.Middle, Colour = Palette.Blue, Halo = true });
                picture.Add(new Words(lines[1], x, y + 11, LabelSize) { Anchor = Anchor.Middle, Colour = Palette.Blue, Halo = true });
            }
            else
            {
                picture.Add(new Words(string.Join(", ", lines), x, panel.PixelY(box.MaxX) - 14, LabelSize) { Anchor = Anchor.Middle, Colour = Palette.Blue, Halo = true });
            }
        }
    }
}
