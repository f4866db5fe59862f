using System.Globalization;
using SandwichMech.Core.Outlines;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Drawings;

/// <summary>Turns and shifts an outline into the board's frame.</summary>
internal sealed class Laying
{
    // Sides that differ by less, in parts of the size, are alike as far as rounded numbers tell.
    private const double AsGood = 1e-7;

    private readonly double _angle;
    private readonly Point _origin;

    private Laying(double angle, Point origin, Curve outline) => (_angle, _origin, Outline) = (angle, origin, outline);

    internal Curve Outline { get; }

    internal Curve Moved(Curve curve) => curve.Mapped(p => p.Turned(-_angle) - _origin);

    /// <summary>The direction of the centre line on the drawing, rad, and how unlike the sides are about it, in parts of the size.</summary>
    internal static double Direction(Drawing drawing, DrawnCurve outer, double alike, List<string> notes, out double along)
    {
        if (drawing.Wishes.Along is { } told)
        {
            along = told;
            double unlike = MirrorLine.Unlikeness(outer.Curve, told);
            notes.Add("grain direction as told");
            return unlike;
        }

        Box box = outer.Curve.Bounds();
        double w = box.MaxX - box.MinX, h = box.MaxY - box.MinY;
        double principal = MirrorLine.PrincipalAngle(AreaMoments.Of(outer.Curve));
        // A mirror line along the page is taken before a slanted one; a round or square outline has several, and the longer way is meant.
        Way[] ways = [Along("across the drawing", 0), Along("up the drawing", Math.PI / 2), Along("at a slant", principal)];
        Way chosen = ways.MinBy(way => way.Unlikeness)!;
        Way[] pages = ways.Take(2).Where(way => way.Unlikeness <= Math.Max(AsGood, 2 * chosen.Unlikeness) && way.Unlikeness <= alike).ToArray();
        if (pages.Length == 2) { chosen = w >= h ? ways[0] : ways[1]; }
        else if (pages.Length == 1) { chosen = pages[0]; }
        else if (chosen.Unlikeness > alike)
        {
            if (Math.Max(w, h) < 1.1 * Math.Min(w, h))
            {
                throw new InputException(drawing.Path, "does not show which way the grain runs (the outline is about as long as wide, and its sides differ): say the direction from the lower to the upper end (along = \"up\", \"down\", \"left\", \"right\" or an angle in the board file, or --along)");
            }

            chosen = w >= h ? ways[0] : ways[1];
        }

        along = chosen.Angle;
        string degrees = chosen.Called == "at a slant" ? $" ({(along * 180 / Math.PI).ToString("0.0", CultureInfo.InvariantCulture)}° from its x)" : "";
        notes.Add(chosen.Unlikeness <= alike
            ? $"centre line {chosen.Called}{degrees}: the sides about it differ by {Display.Text(chosen.Unlikeness * outer.Curve.Size, Shown.Thickness, UnitSystem.Metric)} at most"
            : $"the sides differ about any line (by {Display.Text(chosen.Unlikeness * outer.Curve.Size, Shown.Length, UnitSystem.Metric)} about the best): grain taken along the longer way, {chosen.Called}, and the centre line through the middle of the lower bout");
        return chosen.Unlikeness;

        Way Along(string called, double angle) => new(called, angle, MirrorLine.Unlikeness(outer.Curve, angle));
    }

    private sealed record Way(string Called, double Angle, double Unlikeness);

    internal static Laying Of(Curve curve, double along, bool told, bool alike, List<string> notes)
    {
        Curve turned = curve.Mapped(p => p.Turned(-along));
        if (!told)
        {
            OutlineMeasures m = OutlineMeasures.Of(turned);
            // With the waist, the bouts tell the ends apart; without one, where the larger part of the area lies.
            Box all = turned.Bounds();
            double lower = m.UpperBout is null ? all.Middle.X : m.LowerBout.Width, upper = m.UpperBout is null ? AreaMoments.Of(turned).Centroid.X : m.UpperBout.Width;
            double scale = m.UpperBout is null ? m.Length : m.Width;
            if (lower < upper - 1e-6 * scale) { along += Math.PI; }
            else if (lower <= upper + 1e-6 * scale) { notes.Add("both ends are alike: the lower end is taken at the smaller coordinate of the drawing"); }
            turned = curve.Mapped(p => p.Turned(-along));
        }

        Box box = turned.Bounds();
        double middle = alike ? AreaMoments.Of(turned).Centroid.Y : Middle(turned, box);
        var origin = new Point(box.MinX, middle);
        return new(along, origin, turned.Mapped(p => p - origin));
    }

    // Half-way across the lower bout.
    private static double Middle(Curve turned, Box box)
    {
        double x = box.MinX + OutlineMeasures.Of(turned).LowerBout.At;
        Curve line = Shapes.Polygon([new(x, box.MinY - 1), new(x, box.MaxY + 1)], closed: false);
        double[] y = [.. Crossings.Between(line, turned).Select(m => m.At.Y)];
        return y.Length > 1 ? (y.Min() + y.Max()) / 2 : box.Middle.Y;
    }
}
