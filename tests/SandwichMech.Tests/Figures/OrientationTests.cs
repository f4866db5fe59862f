using SandwichMech.Core.Outlines;
using SandwichMech.Figures;
using SandwichMech.Tests.EndToEnd;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Tables;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;
using ScottPlot.Plottables;

namespace SandwichMech.Tests.Pictures;

/// <summary>Pictures show a lopsided board as it was drawn, seen from outside: what is at the left on the drawing is at the left, with the lower end at the foot.</summary>
[Trait("Check", "exact")]
public sealed class OrientationTests : IDisposable
{
    // Invented: standing, y downwards as SVG has it; at the right the upper bout is cut away. Its axis is at 200.
    private const string Drawing = """
        <svg xmlns="http://www.w3.org/2000/svg" width="400mm" height="520mm" viewBox="0 0 400 520">
        <path d="M 200,500 C 320,500 385,430 380,360 C 375,300 325,290 315,250 C 305,210 270,205 245,170 C 230,145 235,60 180,60 C 100,60 55,95 60,160 C 65,210 85,235 80,260 C 70,300 20,300 20,370 C 20,440 80,500 200,500 Z"/>
        </svg>
        """;

    // Height of the upper bout above the lower end, m, and how far it reaches to the left and to the right of the lower bout's middle on the drawing.
    private const double At = 0.34, ToTheLeft = 0.140, ToTheRight = 0.040;

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void The_outlines_picture_is_as_drawn()
    {
        OutlineAnswer answer = ReadOutline.Run(Draw(), new() { Along = Math.PI / 2 });
        Picture picture = BoardPictures.Outline(answer, UnitSystem.Metric);
        AsDrawn(picture.Series(0).MaxBy(s => s.Length)!);
    }

    [Fact]
    public void The_modes_picture_is_as_drawn_and_so_are_the_shapes_on_it()
    {
        ModesAnswer answer = ModesBoard.Run(Board("free"), 2, 0.02, inAir: false);
        Assert.True(answer.Shape.Outline.Contains(new Point(At, 0.11)), "y goes to the left of the drawing.");
        Picture picture = BoardPictures.Modes(answer, UnitSystem.Metric);
        AsDrawn(Largest(picture.Series(0)));
        for (int mode = 0; mode < 2; mode++)
        {
            Heatmap map = picture.Panels[mode].Plot.GetPlottables<Heatmap>().Single();
            double[] shape = answer.Shapes[mode];
            double largest = shape.Max(Math.Abs);
            int compared = 0;
            for (int node = 0; node < shape.Length; node += 17)
            {
                Point p = answer.Field.Nodes[node];
                double value = Value(map, -p.Y, p.X);
                if (double.IsNaN(value)) { continue; }
                Checks.Close(shape[node] / largest, value, 0.1, $"mode {mode + 1} at {p}");
                compared++;
            }

            Assert.True(compared > 20, "Too few nodes were looked at.");
        }
    }

    [Fact]
    public void The_deflections_picture_lies_with_its_left_side_up()
    {
        DeflectAnswer answer = DeflectBoard.Run(Board("clamped"), new() { At = 0.15, Along = 0.03, Across = 0.12, Accuracy = 0.05 });
        Picture picture = BoardPictures.Deflect(answer, UnitSystem.Metric);
        AsDrawn([.. Largest(picture.Series(0)).Select(p => (-p.Y, p.X))]);
        Heatmap map = picture.Panels[0].Plot.GetPlottables<Heatmap>().Single();
        double largest = answer.Deflection.Max(Math.Abs);
        for (int node = 0; node < answer.Deflection.Count; node += 29)
        {
            Point p = answer.Field.Nodes[node];
            if (Value(map, p.X, p.Y) is var value && !double.IsNaN(value)) { Checks.Close(answer.Deflection[node] / largest, value, 0.1, $"at {p}"); }
        }
    }

    // As pixels too: where the upper bout reaches out it is coloured, and at the mirrored place the paper is bare.
    [Fact]
    public void On_paper_the_cut_away_side_is_bare()
    {
        ModesAnswer answer = ModesBoard.Run(Board("free"), 1, 0.02, inAir: false);
        Picture picture = BoardPictures.Modes(answer, UnitSystem.Metric);
        string png = _folder.File("modes.png");
        picture.Save(png);
        using var bitmap = SkiaSharp.SKBitmap.Decode(png);
        var panel = picture.Panels[0];
        Assert.True(Coloured(-0.11) > 5 && Coloured(0.11) == 0, $"{Coloured(-0.11)} and {Coloured(0.11)} dots are coloured.");

        int Coloured(double across) => Enumerable.Range(-10, 21).Count(i =>
        {
            SkiaSharp.SKColor c = bitmap.GetPixel((int)panel.PixelX(across), (int)panel.PixelY(At) + i);
            return Math.Min(c.Red, Math.Min(c.Green, c.Blue)) < 250;
        });
    }

    // The line with across to the right and along upwards.
    private static void AsDrawn((double X, double Y)[] line)
    {
        (double X, double Y)[] there = [.. line.Where(p => Math.Abs(p.Y - At) < 0.012)];
        Checks.Close(-ToTheLeft, there.Min(p => p.X), 0.02, "to the left");
        Checks.Close(ToTheRight, there.Max(p => p.X), 0.02, "to the right");
    }

    // Nothing reaches as far as the outline.
    private static (double X, double Y)[] Largest(IEnumerable<(double X, double Y)[]> series) =>
        series.MaxBy(s => (s.Max(p => p.X) - s.Min(p => p.X)) * (s.Max(p => p.Y) - s.Min(p => p.Y)))!;

    // Row 0 of a heatmap is its top.
    private static double Value(Heatmap map, double x, double y)
    {
        ScottPlot.CoordinateRect box = map.Position!.Value;
        int rows = map.Intensities.GetLength(0), columns = map.Intensities.GetLength(1);
        int row = (int)((box.Top - y) / box.Height * rows), column = (int)((x - box.Left) / box.Width * columns);
        return row >= 0 && row < rows && column >= 0 && column < columns ? map.Intensities[row, column] : double.NaN;
    }

    private string Draw()
    {
        string file = _folder.File("lopsided.svg");
        File.WriteAllText(file, Drawing);
        return file;
    }

    private BoardFile Board(string held)
    {
        Draw();
        string file = _folder.File("board.toml");
        string[] tables = File.ReadAllText(Repository.File("shared", "demo", "outline.toml")).Split("\n\n");
        string kept = string.Join("\n\n", tables.Where(t => t.StartsWith("[outer]", StringComparison.Ordinal) || t.StartsWith("[inner]", StringComparison.Ordinal) || t.StartsWith("[core]", StringComparison.Ordinal)));
        File.WriteAllText(file, $"[outline]\nfile = \"lopsided.svg\"\nalong = \"up\"\n\n[edge]\nheld = \"{held}\"\n\n{kept}\n");
        return BoardFiles.Read(file, MaterialTables.BuiltIn());
    }
}
