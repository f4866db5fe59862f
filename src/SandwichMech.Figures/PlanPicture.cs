using System.Globalization;
using SandwichMech.Figures.Drawing;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;
using MarkerShape = ScottPlot.MarkerShape;

namespace SandwichMech.Figures;

/// <summary>A board's mass through its build: parts stacked as they come on, the board at each stage, expected and weighed; below, how far each reading lay off.</summary>
internal sealed class PlanPicture
{
    private const int Width = 1400, Height = 930;
    private const double Left = 95, Right = 1340, NameSize = 14, ValueSize = 14, RangeSize = 12, LineStep = 18;
    private const double HalfColumn = 0.5, HalfBand = 0.3, HalfBar = 0.17, MarkSize = 11, TellingSize = 17, TellingLine = 2.5;

    // Air above the heaviest; how far off a reading may lie before it is put at the edge, as share of the heaviest and of the widest band.
    private const double Air = 1.25, MostMass = 1.4, BandAir = 1.3, MostOff = 3, AtEdge = 0.88;
    private static readonly Box Upper = new(Left, 165, Right, 545), Lower = new(Left, 660, Right, 810);

    private readonly Picture _picture;
    private readonly PlanResult _r;
    private readonly Say _say;
    private readonly Scale _columns;
    private readonly double _heaviest, _farthest;

    private PlanPicture(PlanResult r, Say say)
    {
        (_r, _say) = (r, say);
        _picture = new Picture($"{r.Board}: mass through the build", Width, Height);
        _columns = Scale.Bare(0, Math.Max(1, r.Course.Count));
        _heaviest = MostMass * r.Course.Max(c => M(c.StartsAt + (c.Expected?.High90 ?? c.Read!.Value)));
        double widest = r.Course.Max(c => c.Expected is { } e ? M(Math.Max(e.High90 - e.Value, e.Value - e.Low90)) : 0);
        double off = r.Course.Max(c => Off(c) is { } o ? Math.Abs(o) : 0);
        _farthest = Math.Max(BandAir * widest, Math.Min(BandAir * off, MostOff * widest));
    }

    internal static Picture Of(PlanResult r, UnitSystem units)
    {
        var picture = new PlanPicture(r, new(units));
        picture.Draw();
        return picture._picture;
    }

    private void Draw()
    {
        Header.Write(_picture, _r.Board, "mass through the build",
        [
            string.Create(CultureInfo.InvariantCulture, $"Board {_r.Number} of the log. {(_r.Reached is { } reached ? $"Reached: {reached}." : "Nothing was read yet.")}{(_r.Next is { } next ? $" Next: {next}." : "")} Bars: what is bonded on, in its order."),
            "Bands: dark half, light nine tenths of such boards, as expected before each weighing; of what is still to come, from all that is known now.",
        ]);
        double top = Air * _r.Course.Max(c => Math.Min(_heaviest, M(c.StartsAt + Math.Max(c.Expected?.High90 ?? 0, c.Read ?? 0))));
        var mass = new Panel(_picture, Upper, _columns, Scale.Linear(0, top, 8));
        mass.WriteTicks();
        _picture.Add(new Words($"mass, {_say.Unit(Shown.Mass)}", Left - 60, Upper.Top - 24, Panel.TitleSize) { Bold = true });
        var off = new Panel(_picture, Lower, _columns, Scale.Linear(-_farthest, _farthest, 5));
        off.WriteTicks();
        _picture.Add(new Words($"weighed above or below what was expected, {_say.Unit(Shown.Mass)}", Left - 60, Lower.Top - 24, Panel.TitleSize) { Bold = true });
        for (int i = 0; i < _r.Course.Count; i++)
        {
            Mass(mass, _r.Course[i], i);
            Differences(off, _r.Course[i], i + HalfColumn);
        }

        off.Line([(0, 0), (_columns.High, 0)], new(Palette.Frame, 1.2, Dash.Dotted));
        Now(mass, off);
        Header.Foot(_picture, "Filled circle: go. Open triangle: look again, more than nine in ten would be off. Cross: stop, not likely or not possible. What lies beyond an axis is marked at its end.");
    }

    private void Mass(Panel panel, CourseRow row, int i)
    {
        double x = i + HalfColumn, start = M(row.StartsAt), end = start + M(row.Read ?? row.Expected!.Value), high = end;
        if (row.IsPart) { panel.Rectangle(x - HalfBar, x + HalfBar, start, end, Palette.Frame); }
        if (row.Expected is { } e)
        {
            high = Math.Max(high, start + M(e.High90));
            Band(panel, x, start + M(e.Low90), start + M(e.High90), Palette.PaleBlue);
            Band(panel, x, start + M(e.Low50), start + M(e.High50), Palette.Ordered(0));
            panel.Line([(x - HalfBand, start + M(e.Value)), (x + HalfBand, start + M(e.Value))], new(Palette.Ink, 1.2));
        }

        // What is there is carried over to the part that comes on it.
        if (i + 1 < _r.Course.Count && _r.Course[i + 1].IsPart) { panel.Line([(x + HalfBand, Seen(end)), (x + 1 - HalfBar, Seen(end))], new(Palette.Frame, 1.2, Dash.Dotted)); }
        if (row.Read is not null) { Mark(panel, x, Seen(end), row.Verdict); }
        double pixel = panel.PixelX(x), above = panel.PixelY(Seen(high)) - 16;
        string range = row.Expected is { } p ? $"{Number(p.Low90)} to {Number(p.High90)}" : "";
        _picture.Add(new Words(range, pixel, above, RangeSize) { Anchor = Anchor.Middle, Colour = Palette.Muted });
        _picture.Add(new Words($"{(row.Read is null ? "≈ " : "")}{_say.Text(row.Read ?? row.Expected!.Value, Shown.Mass)}", pixel, above - (range.Length > 0 ? LineStep : 0), ValueSize) { Anchor = Anchor.Middle, Bold = row.Read is not null });
        _picture.Add(new Words(row.IsPart ? $"+ {row.What}" : row.Stage, pixel, Upper.Bottom + 20, NameSize) { Anchor = Anchor.Middle, Bold = !row.IsPart });
    }

    private void Differences(Panel panel, CourseRow row, double x)
    {
        if (row.Expected is { } e)
        {
            Band(panel, x, M(e.Low90 - e.Value), M(e.High90 - e.Value), Palette.PaleBlue);
            Band(panel, x, M(e.Low50 - e.Value), M(e.High50 - e.Value), Palette.Ordered(0));
        }

        double pixel = panel.PixelX(x), below = Lower.Bottom + 20;
        bool telling = row.Verdict is not (null or "go");
        _picture.Add(new Words(row.Verdict ?? (row.IsToCome ? "to come" : "not weighed"), pixel, below, NameSize) { Anchor = Anchor.Middle, Bold = telling, Colour = telling ? Palette.Ink : Palette.Muted });
        if (Off(row) is not { } off) { return; }
        Mark(panel, x, Math.Clamp(off, -AtEdge * _farthest, AtEdge * _farthest), row.Verdict);
        _picture.Add(new Words(off.ToString("+0.0;−0.0;0.0", CultureInfo.InvariantCulture), pixel, below + LineStep, NameSize) { Anchor = Anchor.Middle, Bold = telling });
    }

    // Where what was read ends and what is still to come begins.
    private void Now(Panel mass, Panel off)
    {
        int first = _r.Course.TakeWhile(c => !c.IsToCome).Count();
        if (first == 0 || first == _r.Course.Count) { return; }
        foreach (Panel panel in new[] { mass, off }) { panel.Line([(first, panel.Y.Low), (first, panel.Y.High)], new(Palette.Ink, 1.5, Dash.Dashed)); }
        _picture.Add(new Words("still to come", mass.PixelX(first) + 8, Upper.Top + 8, NameSize) { Colour = Palette.Muted });
    }

    private static void Band(Panel panel, double x, double low, double high, string colour) => panel.Rectangle(x - HalfBand, x + HalfBand, low, high, colour);

    private static void Mark(Panel panel, double x, double y, string? verdict)
    {
        (MarkerShape shape, double size) = verdict switch
        {
            "stop" => (MarkerShape.Eks, TellingSize),
            "look again" => (MarkerShape.OpenTriangleUp, TellingSize),
            _ => (MarkerShape.FilledCircle, MarkSize),
        };
        panel.Points([(x, y)], shape, size, Palette.Ink, TellingLine);
    }

    private double Seen(double mass) => Math.Min(mass, _heaviest);

    private double? Off(CourseRow row) => row is { Read: { } read, Expected: { } e } ? M(read - e.Value) : null;

    private string Number(double mass) => Display.Number(mass, Shown.Mass, _say.Units);

    private double M(double mass) => _say.In(mass, Shown.Mass);
}
