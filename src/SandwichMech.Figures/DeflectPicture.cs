using System.Globalization;
using ScottPlot;
using Palette = SandwichMech.Figures.Drawing.Palette;
using Box = SandwichMech.Figures.Drawing.Box;
using BoardBox = SandwichMech.Core.Outlines.Box;
using BoardCurve = SandwichMech.Core.Outlines.Curve;
using SandwichMech.Core.Plates;
using SandwichMech.Figures.Drawing;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.Figures;

/// <summary>The board under its strings, seen from outside: deflection over the outline with lines of equal height, and along the centre line, both with the lower end at the left.</summary>
internal static class DeflectPicture
{
    private const int Width = 1400, Height = 1130;
    private const double Left = 110, Right = 1330, MapTop = 180, SectionTop = 860, SectionBottom = 1030;
    private const int GridAlong = 420, MostLevels = 12;
    private const double LabelSize = 15, Margin = 0.01;

    // As the modes': two hues alike in lightness; the labelled lines tell the sides apart on a grey printer.
    private static readonly Color[] Sides = [Color.FromHex(Palette.Blue), Color.FromHex("#FFFFFF"), Color.FromHex(Palette.Vermillion)];

    internal static Picture Of(DeflectAnswer answer, UnitSystem units)
    {
        DeflectResult r = answer.Result;
        var say = new Say(units);
        var picture = new Picture($"{r.Board}: under its strings", Width, Height);
        Header.Write(picture, r.Board, $"under its strings, edge {r.Edge}",
        [
            $"The bridge turns {say.WithRange(r.Rotation, Shown.Angle)} towards the nut; stiffness at the bridge {say.WithRange(r.Stiffness, Shown.Stiffness)}; in brackets the 90 % interval.",
            Strings(r, say) + " At once; wood creeps, in years to half or all as much again.",
        ]);
        BoardBox box = answer.Field.Nodes.Aggregate(BoardBox.Empty, (b, p) => b.With(p));
        double margin = Margin * (box.MaxX - box.MinX), perMetre = (Right - Left) / (box.MaxX - box.MinX + 2 * margin);
        var map = new Box(Left, MapTop, Right, MapTop + perMetre * (box.MaxY - box.MinY + 2 * margin));
        if (map.Bottom > SectionTop - 110)
        {
            double half = (SectionTop - 110 - MapTop) / (box.MaxY - box.MinY + 2 * margin) * (box.MaxX - box.MinX + 2 * margin) / 2;
            map = new Box((Left + Right) / 2 - half, MapTop, (Left + Right) / 2 + half, SectionTop - 110);
        }

        Scale along = Scale.Bare(box.MinX - margin, box.MaxX + margin);
        double[] levels = Map(picture, map, along, answer, box, margin, say);
        Section(picture, new Box(map.Left, SectionTop, map.Right, SectionBottom), answer, box, margin, say);
        picture.Add(new Words(
            $"Lines of equal height every {Number(say.In(levels.Length > 1 ? levels[1] - levels[0] : 0, Shown.Thickness))} {say.Unit(Shown.Thickness)}; red rises, blue sinks. Grey: the bridge's foot, and where the board differs.",
            map.Left, MapTop - 26, LabelSize)
        { Colour = Palette.Muted });
        return picture;
    }

    private static string Strings(DeflectResult r, Say say) => r.Strings.BreakAngle is { } angle
        ? $"Strings of {say.Text(r.Strings.Tension, Shown.Force)} to a tailpiece, bent by {say.Text(angle, Shown.Angle)}."
        : $"Strings of {say.Text(r.Strings.Tension, Shown.Force)}, tied to the bridge {say.Text(r.Strings.Height, Shown.Thickness)} above the board.";

    // The map and its levels, m.
    private static double[] Map(Picture picture, Box data, Scale along, DeflectAnswer answer, BoardBox box, double margin, Say say)
    {
        var panel = new Panel(picture, data, along, Scale.Bare(box.MinY - margin, box.MaxY + margin));
        panel.Plot.HideAxesAndGrid();
        int across = (int)(GridAlong * (box.MaxY - box.MinY) / (box.MaxX - box.MinX));
        (ShapeField field, Func<IReadOnlyList<double>, double[]> values) = answer.Field.Finer();
        double[] deflection = values(answer.Deflection);
        double[,] grid = field.OnGrid(deflection, box, GridAlong, across);
        double largest = deflection.Max(Math.Abs);
        double[,] upright = new double[across, GridAlong];
        for (int i = 0; i < across; i++)
        {
            for (int j = 0; j < GridAlong; j++) { upright[across - 1 - i, j] = grid[i, j] / largest; }
        }

        var map = panel.Plot.Add.Heatmap(upright);
        double halfX = (box.MaxX - box.MinX) / (GridAlong - 1) / 2, halfY = (box.MaxY - box.MinY) / (across - 1) / 2;
        map.Position = new CoordinateRect(box.MinX - halfX, box.MaxX + halfX, box.MinY - halfY, box.MaxY + halfY);
        map.Colormap = new ScottPlot.Colormaps.CustomInterpolated(Sides);
        map.ManualRange = new(-1, 1);
        map.NaNCellColor = Colors.Transparent;
        double[] levels = Levels(answer.Deflection, say);
        foreach (double level in levels)
        {
            bool rest = Math.Abs(level) < 1e-12;
            foreach (var line in field.ZeroCurves([.. deflection.Select(w => w - level)]))
            {
                panel.Line(line.Select(p => (p.X, p.Y)), new(Palette.Ink, rest ? 1.8 : 0.8), keepClear: rest);
            }
        }

        Outline(panel, answer.Shape.BordersOnBoard(), new(Palette.Muted, 1));
        Outline(panel, [answer.Shape.Outline, .. answer.Shape.Holes], new(Palette.Ink, 2));
        Outline(panel, [answer.Foot], new(Palette.Muted, 2.5));
        Extreme(panel, answer.Result.Sinks, "sinks", say);
        Extreme(panel, answer.Result.Rises, "rises", say);
        return levels;
    }

    private static void Extreme(Panel panel, DeflectedRow row, string what, Say say)
    {
        if (row.Deflection.Value == 0) { return; }
        panel.Points([(row.X, row.Y)], MarkerShape.Cross, 11, Palette.Ink);
        double size = Math.Abs(row.Deflection.Value);
        double x = panel.PixelX(row.X), y = panel.PixelY(row.Y);
        var words = new Words($"{what} {say.Text(size, Shown.Thickness)}", x, y + 22, LabelSize + 1) { Anchor = Anchor.Middle, Bold = true, Halo = true };
        // Towards the middle of the map where it stands at an end of it, and beside it where the soundhole is below; clear of the line that rests.
        Words left = words with { X = x - 12, Y = y, Anchor = Anchor.End }, right = words with { X = x + 12, Y = y, Anchor = Anchor.Start };
        Words[] below = [.. new[] { 0.0, -25, 25, -45, 45 }.SelectMany(aside => new[] { 22, -22 }.Select(down => words with { X = x + aside, Y = y + down }))];
        panel.Write(x > panel.Data.MiddleX ? [left, .. below, right] : [.. below, left, right], needed: true);
    }

    private static double[] Levels(IReadOnlyList<double> deflection, Say say)
    {
        double low = say.In(deflection.Min(), Shown.Thickness), high = say.In(deflection.Max(), Shown.Thickness), unit = say.In(1, Shown.Thickness);
        return [.. Scale.Linear(low, high, MostLevels).Ticks.Select(t => t.Value / unit)];
    }

    private static void Section(Picture picture, Box data, DeflectAnswer answer, BoardBox box, double margin, Say say)
    {
        DeflectResult r = answer.Result;
        double In(double si) => say.In(si, Shown.Thickness);
        double X(double si) => say.In(si, Shown.Length);
        double low = Math.Min(0, r.CentreLine.Min(p => In(p.Deflection))), high = Math.Max(0, r.CentreLine.Max(p => In(p.Deflection))), air = 0.12 * (high - low);
        var panel = new Panel(picture, data, Scale.Linear(X(box.MinX - margin), X(box.MaxX + margin), 11), Scale.Linear(low - air, high + air, 6));
        panel.WriteTicks();
        panel.WriteTitles($"along the centre line from the lower end, {say.Unit(Shown.Length)}", $"deflection along the centre line, {say.Unit(Shown.Thickness)}", data.Left - 50);
        double foot = r.Bridge.At - r.Bridge.Along / 2, end = r.Bridge.At + r.Bridge.Along / 2;
        panel.Rectangle(X(foot), X(end), low - air, high + air, Palette.Grid);
        panel.Line([(X(box.MinX), 0), (X(box.MaxX), 0)], new(Palette.Frame, 1, Dash.Dashed), keepClear: false);
        foreach (List<SectionPoint> piece in Pieces(r.CentreLine))
        {
            panel.Line(piece.Select(p => (X(p.X), In(p.Deflection))), Palette.Board);
        }

        panel.Write(
            new[] { data.Top + 14, data.Bottom - 14 }.Select(y => new Words("bridge", panel.PixelX(X(r.Bridge.At)), y, LabelSize) { Anchor = Anchor.Middle, Bold = true, Colour = Palette.Muted }), needed: true);
    }

    // The soundhole parts the line.
    private static List<List<SectionPoint>> Pieces(IReadOnlyList<SectionPoint> line)
    {
        double step = line.Zip(line.Skip(1), (a, b) => b.X - a.X).Min();
        var pieces = new List<List<SectionPoint>> { new() };
        foreach (SectionPoint p in line)
        {
            if (pieces[^1].Count > 0 && p.X - pieces[^1][^1].X > 1.5 * step) { pieces.Add([]); }
            pieces[^1].Add(p);
        }

        return pieces;
    }

    private static void Outline(Panel panel, IEnumerable<BoardCurve> curves, Stroke stroke)
    {
        foreach (BoardCurve curve in curves)
        {
            var points = curve.Segments.SelectMany(s => Enumerable.Range(0, 24).Select(i => s.At(i / 24.0))).Append(curve.Segments[^1].P3);
            panel.Line(points.Select(p => (p.X, p.Y)), stroke, keepClear: false);
        }
    }

    private static string Number(double value) => value.ToString("0.####", CultureInfo.InvariantCulture);
}
