using ScottPlot;
using Palette = SandwichMech.Figures.Drawing.Palette;
using Box = SandwichMech.Figures.Drawing.Box;
using BoardBox = SandwichMech.Core.Outlines.Box;
using BoardCurve = SandwichMech.Core.Outlines.Curve;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;
using SandwichMech.Figures.Drawing;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.Figures;

/// <summary>The modes over the outline as seen from outside, the lower end of the board at the foot: where it moves to either side, and where it rests.</summary>
internal static class ModesPicture
{
    private const int Columns = 4, Most = 12, Width = 1400;
    private const double Left = 60, Right = 1340, Top = 150, Gap = 36, TitleRoom = 62, TitleSize = 16, DetailSize = 14;
    private const int GridAlong = 260;
    private const double Margin = 0.02;

    // Two hues that stay apart for the colour-blind, alike in lightness; the nodal lines tell the sides apart on a grey printer.
    private static readonly Color[] Sides = [Color.FromHex(Palette.Blue), Color.FromHex("#FFFFFF"), Color.FromHex(Palette.Vermillion)];

    internal static Picture Of(ModesAnswer answer, UnitSystem units)
    {
        ModesResult r = answer.Result;
        var say = new Say(units);
        (ShapeField field, Func<IReadOnlyList<double>, double[]> values) = answer.Field.Finer();
        BoardBox box = field.Nodes.Aggregate(BoardBox.Empty, (b, p) => b.With(p));
        int count = Math.Min(Most, r.Modes.Count), rows = (count + Columns - 1) / Columns;
        double cell = (Right - Left - (Columns - 1) * Gap) / Columns, height = cell * (box.MaxX - box.MinX) / (box.MaxY - box.MinY);
        var picture = new Picture($"{r.Board}: modes", Width, (int)(Top + rows * (height + TitleRoom + Gap) + 40));
        Header.Write(picture, r.Board, $"modes of the board, edge {r.Edge}",
        [
            $"Mass {say.Text(r.Mass, Shown.Mass)} on {say.Text(r.Area, Shown.Area)}. In brackets the range of 90 % of such boards. Blue and red move to opposite sides; black lines rest.",
            (r.Air == "none" ? "In vacuo: no air" : $"With the air on both faces ({r.Air})") + (answer.Shape.Regions.Any(x => x.Change is GluedBar) ? "; no box yet." : "; no bridge, braces or box yet."),
        ]);
        for (int i = 0; i < count; i++)
        {
            double left = Left + i % Columns * (cell + Gap), top = Top + i / Columns * (height + TitleRoom + Gap);
            var data = new Box(left, top + TitleRoom, left + cell, top + TitleRoom + height);
            PlateModeRow mode = r.Modes[i];
            picture.Add(new Words($"{mode.Number}:  {say.Text(mode.Frequency.Value, Shown.Frequency)}", left, top + 12, TitleSize) { Bold = true });
            picture.Add(new Words($"({Display.Number(mode.Frequency.Low90, Shown.Frequency, units)} to {Display.Number(mode.Frequency.High90, Shown.Frequency, units)})  {Kind(mode)}", left, top + 36, DetailSize) { Colour = Palette.Muted });
            Draw(picture, data, field, answer.Shape, box, values(answer.Shapes[i]));
        }

        return picture;
    }

    // The kind of energy that leads, and the nodal lines along × across where the shape has a plain count.
    private static string Kind(PlateModeRow mode)
    {
        (string Name, double Share)[] kinds =
        [
            ("bends along", mode.Energy.BendingAlong), ("bends across", mode.Energy.BendingAcross), ("twists", mode.Energy.Twist),
            ("shears", mode.Energy.Shear), ("stretches", mode.Energy.Membrane),
        ];
        return kinds.MaxBy(k => k.Share).Name + (mode.NodalLines is { } lines ? $", {lines}" : "");
    }

    private static void Draw(Picture picture, Box data, ShapeField field, BoardShape shape, BoardBox box, double[] values)
    {
        double mx = Margin * (box.MaxX - box.MinX), my = Margin * (box.MaxY - box.MinY);
        // Seen from outside: x goes up, so y goes to the left.
        var panel = new Panel(picture, data, Scale.Bare(-box.MaxY - my, -box.MinY + my), Scale.Bare(box.MinX - mx, box.MaxX + mx));
        panel.Plot.HideAxesAndGrid();
        int across = (int)(GridAlong * (box.MaxY - box.MinY) / (box.MaxX - box.MinX));
        double[,] grid = field.OnGrid(values, box, GridAlong, across);
        double largest = values.Max(Math.Abs);
        double[,] upright = new double[GridAlong, across];
        for (int i = 0; i < across; i++)
        {
            for (int j = 0; j < GridAlong; j++)
            {
                upright[GridAlong - 1 - j, across - 1 - i] = grid[i, j] / largest;
            }
        }

        var map = panel.Plot.Add.Heatmap(upright);
        double halfX = (box.MaxX - box.MinX) / (GridAlong - 1) / 2, halfY = (box.MaxY - box.MinY) / (across - 1) / 2;
        map.Position = new CoordinateRect(-box.MaxY - halfY, -box.MinY + halfY, box.MinX - halfX, box.MaxX + halfX);
        map.Colormap = new ScottPlot.Colormaps.CustomInterpolated(Sides);
        map.ManualRange = new(-1, 1);
        map.NaNCellColor = Colors.Transparent;
        foreach (var line in field.ZeroCurves(values))
        {
            panel.Line(line.Select(p => (-p.Y, p.X)), new(Palette.Ink, 1.6), keepClear: false);
        }

        Outline(panel, shape.BordersOnBoard(), new(Palette.Muted, 1));
        Outline(panel, [shape.Outline, .. shape.Holes], new(Palette.Ink, 2));
    }

    private static void Outline(Panel panel, IEnumerable<BoardCurve> curves, Stroke stroke)
    {
        foreach (BoardCurve curve in curves)
        {
            var points = curve.Segments.SelectMany(s => Enumerable.Range(0, 24).Select(i => s.At(i / 24.0))).Append(curve.Segments[^1].P3);
            panel.Line(points.Select(p => (-p.Y, p.X)), stroke, keepClear: false);
        }
    }
}
