using ScottPlot;
using ScottPlot.TickGenerators;

namespace SandwichMech.Figures.Drawing;

/// <summary>One pair of axes on a picture. ScottPlot draws the shapes; the words are the picture's own, placed in pixels.</summary>
internal sealed class Panel
{
    internal const double TickSize = 14, TitleSize = 16;

    // A shorter piece of line has no room for a name.
    private const double ShortestNamed = 90;
    private static readonly double[] NameRooms = [400, 220, 160];

    // Farther off a name passes what is marked on its line; better so than cut.
    private static readonly double[] NameGaps = [AlongLine.Gap, 14];

    private readonly Picture _picture;

    /// <summary>Adds a panel to a picture.</summary>
    /// <param name="picture">The picture.</param>
    /// <param name="data">The rectangle between the axes.</param>
    /// <param name="x">Horizontal axis.</param>
    /// <param name="y">Vertical axis.</param>
    internal Panel(Picture picture, Box data, Scale x, Scale y)
    {
        (_picture, Data, X, Y) = (picture, data, x, y);
        Free = new FreePlaces(data);
        Plot.RenderManager.ClearCanvasBeforeEachRender = false;
        Plot.FigureBackground.Color = Colors.Transparent;
        Plot.Layout.Fixed(new PixelRect((float)data.Left, (float)data.Right, (float)data.Bottom, (float)data.Top));
        Plot.Axes.SetLimits(x.Coordinate(x.Low), x.Coordinate(x.High), y.Coordinate(y.Low), y.Coordinate(y.High));
        Plot.Axes.Top.IsVisible = false;
        Plot.Axes.Right.IsVisible = false;
        Style(Plot.Axes.Bottom, x);
        Style(Plot.Axes.Left, y);
        Plot.Grid.MajorLineColor = Color.FromHex(Palette.Grid);
        Plot.Grid.MajorLineWidth = 1;
        picture.Add(this);
    }

    internal Plot Plot { get; } = new();

    internal Box Data { get; }

    internal Scale X { get; }

    internal Scale Y { get; }

    /// <summary>Where words still find room.</summary>
    internal FreePlaces Free { get; }

    internal double PixelX(double x) => Data.Left + X.Share(x) * Data.Width;

    internal double PixelY(double y) => Data.Bottom - Y.Share(y) * Data.Height;

    /// <summary>A line through points; words keep clear of it.</summary>
    internal void Line(IEnumerable<(double X, double Y)> points, Stroke stroke, bool keepClear = true)
    {
        (double X, double Y)[] all = [.. points];
        var line = Plot.Add.ScatterLine(Coordinates(all), Color.FromHex(stroke.Colour));
        line.LineWidth = (float)stroke.Width;
        line.LinePattern = Pattern(stroke.Dash);
        Plot.Add.Plottable(new PlainPaint());
        if (keepClear)
        {
            Free.KeepClear([.. all.Select(p => (PixelX(p.X), PixelY(p.Y)))], stroke.Width / 2);
        }
    }

    /// <summary>The area between two lines.</summary>
    /// <param name="points">From left to right.</param>
    /// <param name="colour">As #RRGGBB.</param>
    /// <param name="opacity">0 to 1.</param>
    internal void Band(IEnumerable<(double X, double Low, double High)> points, string colour, double opacity = 0.3)
    {
        (double X, double Low, double High)[] all = [.. points];
        var band = Plot.Add.Polygon(Coordinates(all.Select(p => (p.X, p.High)).Concat(all.Reverse().Select(p => (p.X, p.Low)))));
        band.FillColor = Color.FromHex(colour).WithAlpha(opacity);
        band.LineWidth = 0;
        band.MarkerSize = 0;
    }

    /// <summary>Marks points; words keep clear of them.</summary>
    /// <param name="points">Where.</param>
    /// <param name="shape">Mark.</param>
    /// <param name="size">Pixels.</param>
    /// <param name="colour">As #RRGGBB.</param>
    /// <param name="line">Width of the lines that an open mark is drawn with, pixels.</param>
    internal void Points(IEnumerable<(double X, double Y)> points, MarkerShape shape, double size, string colour, double line = 1)
    {
        (double X, double Y)[] all = [.. points];
        var marks = Plot.Add.ScatterPoints(Coordinates(all), Color.FromHex(colour));
        marks.MarkerShape = shape;
        marks.MarkerSize = (float)size;
        marks.MarkerLineWidth = (float)line;
        foreach ((double x, double y) in all)
        {
            Free.KeepClear(Box.Around(PixelX(x), PixelY(y), size / 2, size / 2));
        }
    }

    /// <summary>A filled rectangle.</summary>
    internal void Rectangle(double left, double right, double bottom, double top, string colour)
    {
        var rectangle = Plot.Add.Rectangle(X.Coordinate(left), X.Coordinate(right), Y.Coordinate(bottom), Y.Coordinate(top));
        rectangle.FillColor = Color.FromHex(colour);
        rectangle.LineWidth = 0;
    }

    /// <summary>A line with a small head at its end.</summary>
    internal void Arrow((double X, double Y) from, (double X, double Y) to, Stroke stroke)
    {
        Coordinates[] ends = Coordinates([from, to]);
        var arrow = Plot.Add.Arrow(ends[0], ends[1]);
        arrow.ArrowFillColor = Color.FromHex(stroke.Colour);
        arrow.ArrowLineWidth = 0;
        arrow.ArrowWidth = (float)stroke.Width;
        arrow.ArrowheadWidth = 12;
        arrow.ArrowheadAxisLength = 14;
        arrow.ArrowheadLength = 14;
        Free.KeepClear([(PixelX(from.X), PixelY(from.Y)), (PixelX(to.X), PixelY(to.Y))], 4);
    }

    /// <summary>Writes the numbers of both axes.</summary>
    internal void WriteTicks()
    {
        foreach (Tick tick in X.Ticks)
        {
            _picture.Add(new Words(tick.Label, PixelX(tick.Value), Data.Bottom + 20, TickSize) { Anchor = Anchor.Middle, Colour = Palette.Muted });
        }

        foreach (Tick tick in Y.Ticks)
        {
            _picture.Add(new Words(tick.Label, Data.Left - 10, PixelY(tick.Value), TickSize) { Anchor = Anchor.End, Colour = Palette.Muted });
        }
    }

    /// <summary>What the axes show, with units: across the foot, and lying above the vertical axis where it can be read without tilting the head.</summary>
    internal void WriteTitles(string x, string y, double left)
    {
        _picture.Add(new Words(x, Data.MiddleX, Data.Bottom + 48, TitleSize) { Anchor = Anchor.Middle });
        _picture.Add(new Words(y, left, Data.Top - 24, TitleSize) { Bold = true });
    }

    /// <summary>Puts words on the picture.</summary>
    internal void Write(Words words)
    {
        _picture.Add(words);
        Free.KeepClear(words);
    }

    /// <summary>Puts words at the best of several places.</summary>
    /// <param name="places">The places, the best liked first.</param>
    /// <param name="needed">Whether they are written even where they touch something.</param>
    internal void Write(IEnumerable<Words> places, bool needed) => Write(places.Select(w => new[] { w }), needed);

    /// <summary>Puts a block of lines at the best of several places.</summary>
    /// <param name="places">The places, the best liked first.</param>
    /// <param name="needed">Whether they are written even where they touch something.</param>
    internal void Write(IEnumerable<Words[]> places, bool needed)
    {
        foreach (Words line in Free.Choose(places, needed) ?? [])
        {
            Write(line);
        }
    }

    /// <summary>Names a line: words that run along it, cut shorter where they would touch something otherwise.</summary>
    /// <param name="line">The line in pixels, from left to right, as far as it can be seen.</param>
    /// <param name="words">The words; where they stand is not used.</param>
    /// <param name="above">The side that is liked better.</param>
    /// <param name="needed">Whether they are written even where they touch something.</param>
    internal void WriteAlong(IReadOnlyList<(double X, double Y)> line, Words words, bool above, bool needed)
    {
        double length = line.Zip(line.Skip(1), (a, b) => Math.Sqrt((b.X - a.X) * (b.X - a.X) + (b.Y - a.Y) * (b.Y - a.Y))).Sum();
        if (length < ShortestNamed)
        {
            return;
        }

        IEnumerable<Words> places = NameRooms
            .Select(room => words with { Text = TextWidth.Fit(words.Text, Math.Min(room, 0.8 * length), words.Size, words.Bold) })
            .DistinctBy(w => w.Text)
            .SelectMany(w => NameGaps.SelectMany(gap => AlongLine.Places(line, w, above, gap).Concat(AlongLine.Places(line, w, !above, gap))));
        Write(places, needed);
    }

    private Coordinates[] Coordinates(IEnumerable<(double X, double Y)> points) =>
        [.. points.Select(p => new Coordinates(X.Coordinate(p.X), Y.Coordinate(p.Y)))];

    private static void Style(IAxis axis, Scale scale)
    {
        axis.TickGenerator = new NumericManual([.. scale.Ticks.Select(t => scale.Coordinate(t.Value))], [.. scale.Ticks.Select(_ => "")]);
        axis.FrameLineStyle.Color = Color.FromHex(Palette.Frame);
        axis.MajorTickStyle.Color = Color.FromHex(Palette.Frame);
        axis.MajorTickStyle.Length = 5;
    }

    private static LinePattern Pattern(Dash dash) => dash switch
    {
        Dash.Solid => LinePattern.Solid,
        Dash.Dashed => new LinePattern([11, 6], 0, "dashed"),
        Dash.DashDot => new LinePattern([13, 5, 3, 5], 0, "dash and dot"),
        _ => new LinePattern([2.5f, 4.5f], 0, "dotted"),
    };
}
