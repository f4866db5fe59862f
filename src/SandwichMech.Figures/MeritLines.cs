using SandwichMech.Figures.Drawing;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.Figures;

/// <summary>
/// Lines of equal merit D/m³ on one panel: plates on one line are so many times as stiff as the reference solid of
/// their mass. On logarithmic axes they are straight and parallel; the reference solid's own line is 1 ×.
/// </summary>
internal sealed class MeritLines(Panel panel, Say say, MeritCurve reference, Func<MeritPoint, double> stiffness)
{
    private const double LabelSize = 13;
    private static readonly int[] Drawn = [2, 4, 8, 16, 32];
    private static readonly Stroke Stroke = new("#A6A6A6", 1.2, Dash.Dotted);

    // In the units that are shown, of which the mass is cubed.
    private readonly double _merit =
        say.In(stiffness(reference.Points[0]), Shown.BendingStiffness) / Math.Pow(say.In(reference.Points[0].ArealDensity, Shown.ArealDensity), 3);

    /// <summary>The two ends of a line as far as the panel shows it; nothing where it lies outside.</summary>
    /// <param name="times">Stiffness over that of the reference solid at equal mass.</param>
    internal (double Mass, double Stiffness)[] Ends(int times)
    {
        double Mass(double d) => Math.Cbrt(d / (times * _merit));
        double from = Math.Max(panel.X.Low, Mass(panel.Y.Low)), to = Math.Min(panel.X.High, Mass(panel.Y.High));
        return from < to ? [(from, times * _merit * Math.Pow(from, 3)), (to, times * _merit * Math.Pow(to, 3))] : [];
    }

    /// <summary>Draws the lines, and the reference solid thinly where its curve ends within the panel: beyond its points it is exact too.</summary>
    internal void Draw()
    {
        foreach ((double, double)[] ends in Drawn.Select(Ends).Where(e => e.Length > 0))
        {
            panel.Line(ends, Stroke, keepClear: false);
        }

        (double Mass, double Stiffness) Of(MeritPoint p) => (say.In(p.ArealDensity, Shown.ArealDensity), say.In(stiffness(p), Shown.BendingStiffness));
        (double Mass, double Stiffness) first = Of(reference.Points[0]), last = Of(reference.Points[^1]);
        if (Ends(1) is [var low, var high])
        {
            var thin = new Stroke(Palette.Solids[0].Colour, 1.2, Dash.Dotted);
            if (low.Mass < first.Mass)
            {
                panel.Line([low, high.Mass < first.Mass ? high : first], thin);
            }

            if (high.Mass > last.Mass)
            {
                panel.Line([low.Mass > last.Mass ? low : last, high], thin);
            }
        }
    }

    /// <summary>Writes how many times, where there is room.</summary>
    internal void Label()
    {
        foreach (int times in Drawn)
        {
            string text = times == 2 ? "2 × as stiff at equal weight" : $"{times} ×";
            (double X, double Y)[] line = [.. Ends(times).Select(p => (panel.PixelX(p.Mass), panel.PixelY(p.Stiffness)))];
            panel.WriteAlong(line, new Words(text, 0, 0, LabelSize) { Colour = Palette.Muted }, above: true, needed: false);
        }
    }
}
