using System.Globalization;
using ScottPlot;
using SandwichMech.Figures.Drawing;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;
using Box = SandwichMech.Figures.Drawing.Box;
using Palette = SandwichMech.Figures.Drawing.Palette;

namespace SandwichMech.Figures;

/// <summary>Tones beside modes: both on an axis of frequency, and from it each mode's own row with its nodal lines, what was read and how far that lies off.</summary>
internal static class ToneRows
{
    internal const string Hertz = "Hz";
    private const double RowHeight = 38, LeastRows = 9;
    private const double AxisLeft = 650, AxisRight = 752, IconLeft = 790, IconWidth = 86, LinesLeft = 890, FoundRight = 1020, ReadRight = 1110, OffLeft = 1150, OffRight = 1355;
    // On the axis: tones left, modes right.
    private const double ToneAt = 0.25, ModeFrom = 0.64;
    private const double FewestOff = 3, HeadY = MeasurePicture.Top - 16;

    internal static double Height(MeasureResult r) => r.Modes.Count == 0 ? 0 : RowHeight * Math.Max(LeastRows, r.Modes.Count);

    internal static void Draw(Picture picture, MeasureResult r, Say say, double bottom)
    {
        const string Title = "Tones, and the modes of the piece as found";
        picture.Add(new Words(Title, AxisLeft - 45, MeasurePicture.Top - 40, Panel.TitleSize) { Bold = true });
        if (r.Modes.Count == 0)
        {
            picture.Add(new Words("No tap tones were read yet.", AxisLeft - 45, MeasurePicture.Top, MeasurePicture.NameSize) { Colour = Palette.Muted });
            Next(picture, r, say);
            return;
        }

        ReadingRow[] tones = [.. r.Readings.Where(x => x.Unit == Hertz)];
        ReadingRow?[] readOf = Read(r.Modes, tones);
        Axis(picture, r, tones, bottom);
        double step = (bottom - MeasurePicture.Top) / r.Modes.Count;
        double most = Math.Max(FewestOff, Math.Ceiling(readOf.OfType<ReadingRow>().Select(x => Math.Abs(x.Misfit)).DefaultIfEmpty(0).Max() + 0.5));
        var off = new Panel(picture, new Box(OffLeft, MeasurePicture.Top, OffRight, bottom), Scale.Linear(-most, most, most > FewestOff ? 5 : 7), Scale.Bare(0, r.Modes.Count));
        off.WriteTicks();
        off.Rectangle(-2, 2, 0, r.Modes.Count, Palette.Grid);
        off.Line([(0, 0), (0, r.Modes.Count)], new(Palette.Frame, 1));
        picture.Add(new Words("read − expected, sd", (OffLeft + OffRight) / 2, bottom + 48, Panel.TitleSize) { Anchor = Anchor.Middle });
        Heads(picture);
        for (int i = 0; i < r.Modes.Count; i++)
        {
            PieceMode mode = r.Modes[i];
            double y = bottom - (i + 0.5) * step;
            ReadingRow? read = readOf[i];
            string colour = read is null ? Palette.Muted : Palette.Ink;
            picture.Add(new Words(mode.NodalLines ?? "mixed", LinesLeft, y, MeasurePicture.NameSize) { Colour = colour, Bold = read is not null });
            picture.Add(new Words(say.Text(mode.Frequency, Shown.Frequency), FoundRight, y, MeasurePicture.DetailSize) { Anchor = Anchor.End, Colour = colour });
            picture.Add(new Words(read is null ? "–" : say.Text(read.Read, Shown.Frequency), ReadRight, y, MeasurePicture.DetailSize) { Anchor = Anchor.End, Colour = colour, Bold = read is not null });
            if (read is not null) { off.Points([(read.Misfit, i + 0.5)], MarkerShape.FilledCircle, 12, Palette.Vermillion); }
        }
    }

    private static void Next(Picture picture, MeasureResult r, Say say)
    {
        const double Line = 24;
        double y = MeasurePicture.Top + 2 * Line;
        foreach (NextRow n in r.Next)
        {
            picture.Add(new Words(
                TextWidth.Fit($"Read next {n.What}: about {say.Text(n.Expected, MeasurePiece.ShownAs(n.Unit))}", picture.Width - AxisLeft, MeasurePicture.DetailSize), AxisLeft - 45, y, MeasurePicture.DetailSize));
            picture.Add(new Words($"narrows {n.Narrows} from ± {Say.Percent(n.FromRelative)} to ± {Say.Percent(n.ToRelative)}", AxisLeft - 25, y + Line, MeasurePicture.DetailSize) { Colour = Palette.Muted });
            y += 2.5 * Line;
        }
    }

    /// <summary>The tone that is each mode; nothing where none was read.</summary>
    internal static ReadingRow?[] Read(IReadOnlyList<PieceMode> modes, IReadOnlyList<ReadingRow> tones)
    {
        var read = new ReadingRow?[modes.Count];
        foreach (ReadingRow tone in tones.Where(t => t.Expected is not null))
        {
            // What all tones are off by alike is in what was expected, so the nodal lines lead and the frequency only parts modes of one count.
            int at = Enumerable.Range(0, modes.Count).Where(m => read[m] is null && modes[m].NodalLines == tone.NodalLines)
                .OrderBy(m => Math.Abs(modes[m].Frequency - tone.Expected!.Value)).DefaultIfEmpty(-1).First();
            if (at >= 0) { read[at] = tone; }
        }

        return read;
    }

    // Left the tones, right the modes, and from each mode a thin line to its row.
    private static void Axis(Picture picture, MeasureResult r, ReadingRow[] tones, double bottom)
    {
        double[] all = [.. r.Modes.Select(m => m.Frequency), .. tones.Select(t => t.Read)];
        var data = new Box(AxisLeft, MeasurePicture.Top, AxisRight, bottom);
        Scale hertz = Scale.Log(all.Min() * 0.94, all.Max() * 1.06, data.Height, 24);
        var panel = new Panel(picture, data, Scale.Bare(0, 1), hertz);
        panel.WriteTicks();
        panel.Plot.Axes.Bottom.IsVisible = false;
        picture.Add(new Words("Hz", AxisLeft - 10, bottom + 20, Panel.TickSize) { Anchor = Anchor.End, Colour = Palette.Muted });
        var rows = new Panel(picture, new Box(AxisRight, MeasurePicture.Top, IconLeft + IconWidth + 1, bottom), Scale.Bare(AxisRight, IconLeft + IconWidth + 1), Scale.Bare(-bottom, -MeasurePicture.Top));
        rows.Plot.HideAxesAndGrid();
        double step = (bottom - MeasurePicture.Top) / r.Modes.Count;
        for (int i = 0; i < r.Modes.Count; i++)
        {
            double y = bottom - (i + 0.5) * step, at = panel.PixelY(r.Modes[i].Frequency);
            panel.Line([(ModeFrom, r.Modes[i].Frequency), (1, r.Modes[i].Frequency)], new(Palette.Ink, 2), keepClear: false);
            rows.Line([(AxisRight, -at), (AxisRight + 8, -at), (IconLeft - 10, -y), (IconLeft - 3, -y)], new(Palette.Frame, 1), keepClear: false);
            Plate(rows, r.Modes[i].NodalLines, y, Math.Min(30, step - 6));
        }

        panel.Points(tones.Where(t => t.Expected is not null).Select(t => (ToneAt, t.Read)), MarkerShape.FilledCircle, 9, Palette.Vermillion);
        (double, double)[] strays = [.. tones.Where(t => t.Expected is null).Select(t => (ToneAt, t.Read))];
        if (strays.Length > 0) { panel.Points(strays, MarkerShape.Eks, 12, Palette.Ink); }
        picture.Add(new Words("tones", AxisLeft + ToneAt * data.Width, HeadY, Panel.TickSize) { Anchor = Anchor.Middle, Colour = Palette.Muted });
        picture.Add(new Words("modes", AxisLeft + 0.82 * data.Width, HeadY, Panel.TickSize) { Anchor = Anchor.Middle, Colour = Palette.Muted });
        if (strays.Length > 0) { picture.Add(new Words("× no mode of it", AxisLeft, bottom + 20, Panel.TickSize)); }
    }

    private static void Heads(Picture picture)
    {
        picture.Add(new Words("nodal lines", LinesLeft - 14, HeadY, Panel.TickSize) { Anchor = Anchor.End, Colour = Palette.Muted });
        picture.Add(new Words("found", FoundRight, HeadY, Panel.TickSize) { Anchor = Anchor.End, Colour = Palette.Muted });
        picture.Add(new Words("read", ReadRight, HeadY, Panel.TickSize) { Anchor = Anchor.End, Colour = Palette.Muted });
    }

    private static void Plate(Panel rows, string? lines, double y, double height)
    {
        double low = -y - height / 2, high = -y + height / 2;
        (double, double)[] frame = [(IconLeft, low), (IconLeft + IconWidth, low), (IconLeft + IconWidth, high), (IconLeft, high), (IconLeft, low)];
        rows.Rectangle(IconLeft, IconLeft + IconWidth, low, high, lines is null ? Palette.Grid : "#FFFFFF");
        if (lines?.Split(" × ") is [var along, var across])
        {
            foreach (double x in Nodes(int.Parse(along, CultureInfo.InvariantCulture))) { rows.Line([(IconLeft + x * IconWidth, low), (IconLeft + x * IconWidth, high)], new(Palette.Blue, 2), keepClear: false); }
            foreach (double x in Nodes(int.Parse(across, CultureInfo.InvariantCulture))) { rows.Line([(IconLeft, low + x * height), (IconLeft + IconWidth, low + x * height)], new(Palette.Blue, 2), keepClear: false); }
        }

        rows.Line(frame, new(Palette.Muted, 1.2), keepClear: false);
    }

    /// <summary>Where a free beam rests, in parts of its length.</summary>
    /// <remarks>
    /// Its n nodes belong to βL = (n − 1/2)π, to 0.4 % for n = 2 and better above; the outer ones lie at 0.33/(n − 1/2), the others at (k + 1/4)/(n − 1/2), as far from
    /// the ends the shape is a sine. One node is the middle of a beam that turns.
    /// </remarks>
    internal static IEnumerable<double> Nodes(int count) => count == 1
        ? [0.5]
        : Enumerable.Range(0, count).Select(k => 2 * k == count - 1 ? 0.5 : 2 * k < count ? Near(k, count) : 1 - Near(count - 1 - k, count));

    private static double Near(int k, int count) => (k == 0 ? 0.333 : k + 0.25) / (count - 0.5);
}
