using System.Globalization;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Figures.Drawing;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;
using MarkerShape = ScottPlot.MarkerShape;

namespace SandwichMech.Figures;

/// <summary>One panel of the comparison: stiffness along, or across, against areal density.</summary>
internal sealed class ComparePanel
{
    private const double LabelSize = 15, NameSize = 14, SmallSize = 13;

    // Round thicknesses at which a curve is marked, m; coarser ones where these would crowd it.
    private const double Inch = 0.0254, SolidStep = 0.5e-3, SkinStep = 0.2e-3, SolidStepInch = 0.020 * Inch, SkinStepInch = 0.010 * Inch;
    private const int MostMarks = 8;
    private static readonly int[] Coarser = [1, 2, 5, 10, 20, 50, 100, 1000];

    private readonly CompareResult _r;
    private readonly Say _say;
    private readonly Grain _grain;
    private readonly Panel _panel;
    private readonly MeritCurve _reference;
    private readonly MeritLines _merit;
    private readonly SavingArrow _saving;
    private readonly (double X, double Y) _board;
    private readonly (double X, double Y)? _named;

    internal ComparePanel(Picture picture, Box data, CompareResult r, Say say, Scale mass, Grain grain)
    {
        (_r, _say, _grain) = (r, say, grain);
        Prediction board = grain.OfBoard(r);
        _board = (M(r.ArealDensity.Value), D(board.Value));
        _named = r.NamedSolid is { } named ? (M(named.Mass / r.Area), D(grain.OfNamed(named))) : null;
        IEnumerable<double> shown = [D(board.Low90), D(board.High90), _named?.Y ?? _board.Y];
        _panel = new Panel(picture, data, mass, ComparePicture.StiffnessScale(shown, data.Height));
        _reference = r.Curves.First(c => !c.IsSandwich);
        _merit = new MeritLines(_panel, say, _reference, grain.OfPoint);
        _saving = new SavingArrow(_panel, say, _board.X, _board.Y, grain.EqualSolid(r), r.Area);
    }

    internal void Draw()
    {
        _panel.WriteTicks();
        _panel.WriteTitles(
            $"areal density, {_say.Unit(Shown.ArealDensity)}", $"bending stiffness {_grain.Word}, {_say.Unit(Shown.BendingStiffness)}", _panel.Data.Left - 50);
        List<(MeritCurve Curve, Stroke Stroke)> curves = WithStrokes();
        _merit.Draw();
        foreach ((MeritCurve curve, Stroke stroke) in curves)
        {
            _panel.Line(curve.Points.Select(At), stroke);
        }

        _saving.Draw();
        DrawMarks();

        // What matters most finds its place first.
        LabelMarks();
        _saving.Label();
        foreach ((MeritCurve curve, Stroke stroke) in curves)
        {
            LabelCurve(curve, stroke);
        }

        _merit.Label();
        foreach ((MeritCurve curve, Stroke stroke) in curves)
        {
            MarkThicknesses(curve, stroke);
        }
    }

    private double M(double areal) => _say.In(areal, Shown.ArealDensity);

    private double D(double stiffness) => _say.In(stiffness, Shown.BendingStiffness);

    private (double X, double Y) At(MeritPoint p) => (M(p.ArealDensity), D(_grain.OfPoint(p)));

    private bool Shows((double X, double Y) p) => p.X >= _panel.X.Low && p.X <= _panel.X.High && p.Y >= _panel.Y.Low && p.Y <= _panel.Y.High;

    private (double X, double Y) Pixel((double X, double Y) p) => (_panel.PixelX(p.X), _panel.PixelY(p.Y));

    private List<(MeritCurve, Stroke)> WithStrokes()
    {
        int solids = 0;
        return [.. _r.Curves.Select(c => (c, c.IsSandwich ? Palette.Board : Palette.Solids[solids++ % Palette.Solids.Count]))];
    }

    private void LabelCurve(MeritCurve curve, Stroke stroke)
    {
        IEnumerable<(double X, double Y)> points = curve == _reference ? _merit.Ends(1) : curve.Points.Select(At).Where(Shows);
        string name = curve == _reference ? $"1 ×, {curve.Name}" : curve.Name;
        _panel.WriteAlong([.. points.Select(Pixel)], new Words(name, 0, 0, NameSize) { Bold = true, Colour = stroke.Colour }, above: curve.IsSandwich, needed: true);
    }

    /// <summary>Marks round thicknesses along a curve, with their figure where there is room.</summary>
    private void MarkThicknesses(MeritCurve curve, Stroke stroke)
    {
        bool inch = _say.Units == UnitSystem.Inch;
        (double from, double to) = (curve.Points[0].Thickness, curve.Points[^1].Thickness);
        if (curve == _reference && _merit.Ends(1) is [var low, var high])
        {
            double thicknessPerMass = from / M(curve.Points[0].ArealDensity);
            (from, to) = (low.Mass * thicknessPerMass, high.Mass * thicknessPerMass);
        }

        double least = curve.IsSandwich ? (inch ? SkinStepInch : SkinStep) : (inch ? SolidStepInch : SolidStep);
        double step = least * Coarser.First(times => (to - from) / (least * times) <= MostMarks);
        int first = (int)Math.Ceiling(from / step - 1e-6), last = (int)Math.Floor(to / step + 1e-6);
        foreach (double thickness in Enumerable.Range(first, last - first + 1).Select(i => i * step))
        {
            (double X, double Y) at = At(Curve.At(curve, thickness)), pixel = Pixel(at);
            if (!Shows(at) || IsMarked(pixel))
            {
                continue;
            }

            _panel.Points([at], MarkerShape.FilledCircle, 7, stroke.Colour);
            string text = $"{_say.In(thickness, Shown.Thickness).ToString(inch ? "0.00" : "0.0", CultureInfo.InvariantCulture)} {_say.Unit(Shown.Thickness)}";
            var right = new Words(text, pixel.X + 9, pixel.Y + 5, SmallSize) { Colour = stroke.Colour, Halo = true };
            Words left = right with { X = pixel.X - 9, Y = pixel.Y - 5, Anchor = Anchor.End };
            _panel.Write(curve.IsSandwich ? [left, right] : [right, left], needed: false);
        }
    }

    /// <summary>Whether the board, its equal or the solid that the file names is marked there already.</summary>
    private bool IsMarked((double X, double Y) pixel) =>
        new[] { _board, _saving.Solid, _named ?? _board }.Select(Pixel).Any(m => Math.Max(Math.Abs(m.X - pixel.X), Math.Abs(m.Y - pixel.Y)) < 10);

    private void DrawMarks()
    {
        if (_named is { } named)
        {
            _panel.Points([named], MarkerShape.FilledSquare, 13, Palette.Solids[0].Colour);
        }

        Prediction stiffness = _grain.OfBoard(_r);
        var cross = new Stroke(Palette.Ink, 2);
        (double X, double Y)[] upright = [(_board.X, D(stiffness.Low90)), (_board.X, D(stiffness.High90))];
        (double X, double Y)[] level = [(M(_r.ArealDensity.Low90), _board.Y), (M(_r.ArealDensity.High90), _board.Y)];
        _panel.Line(upright, cross);
        _panel.Line(level, cross);
        // The 50 % interval is the thick part.
        var likely = new Stroke(Palette.Ink, 6);
        _panel.Line([(_board.X, D(stiffness.Low50)), (_board.X, D(stiffness.High50))], likely);
        _panel.Line([(M(_r.ArealDensity.Low50), _board.Y), (M(_r.ArealDensity.High50), _board.Y)], likely);
        _panel.Points(upright, MarkerShape.HorizontalBar, 14, Palette.Ink);
        _panel.Points(level, MarkerShape.VerticalBar, 14, Palette.Ink);
        _panel.Points([_board], MarkerShape.FilledCircle, 14, Palette.Ink);
    }

    private void LabelMarks()
    {
        (double x, double y) = Pixel(_board);
        _panel.Write(AroundPoint.Places(x, y, new Words("", 0, 0, LabelSize) { Bold = true }, ["this board"], AroundPoint.Left), needed: true);
        if (_named is { } at)
        {
            (x, y) = Pixel(at);
            _panel.Write(
                AroundPoint.Places(x, y, new Words("", 0, 0, LabelSize) { Colour = Palette.Solids[0].Colour }, [$"your {_say.Text(_r.NamedSolid!.Thickness, Shown.Thickness)} solid"], AroundPoint.Right), needed: true);
        }
    }
}
