using SandwichMech.Figures.Drawing;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;
using MarkerShape = ScottPlot.MarkerShape;

namespace SandwichMech.Figures;

/// <summary>From the board to the solid of equal stiffness, with the mass per area that lies between.</summary>
internal sealed class SavingArrow(Panel panel, Say say, double boardMass, double stiffness, SolidRow solid, double area)
{
    private const double LabelSize = 15;

    /// <summary>Where the solid stands, in the units that are shown.</summary>
    internal (double Mass, double Stiffness) Solid { get; } = (say.In(solid.Mass.Value / area, Shown.ArealDensity), stiffness);

    internal void Draw()
    {
        panel.Arrow((boardMass, stiffness), Solid, new(Palette.Ink, 2.5));
        panel.Points([Solid], MarkerShape.OpenCircle, 13, Palette.Ink);
    }

    internal void Label()
    {
        double saved = solid.Saved.Value / area;
        panel.Write(Places($"{(saved >= 0 ? "saves" : "costs")} {say.Text(Math.Abs(saved), Shown.ArealDensity)}", $"({Say.Percent(Math.Abs(solid.SavedShare.Value))})"), needed: true);
        string[] equal = [$"{say.Text(solid.Thickness.Value, Shown.Thickness)} solid", "is as stiff"];
        panel.Write(
            AroundPoint.Places(panel.PixelX(Solid.Mass), panel.PixelY(stiffness), new Words("", 0, 0, LabelSize) { Colour = Palette.Solids[0].Colour }, equal, AroundPoint.Right), needed: true);
    }

    /// <summary>Above the arrow, below it, or on both sides of it.</summary>
    private IEnumerable<Words[]> Places(string amount, string share)
    {
        double from = panel.PixelX(boardMass), to = panel.PixelX(Solid.Mass), y = panel.PixelY(stiffness);
        Words Line(string line, double x, double dy) => new(line, x, y + dy, LabelSize) { Anchor = Anchor.Middle, Halo = true, Bold = true };
        string both = $"{amount} {share}";
        foreach (double part in new[] { 0.5, 0.4, 0.6, 0.3, 0.7 })
        {
            double x = from + part * (to - from);
            yield return [Line(both, x, -18)];
            yield return [Line(both, x, 18)];
            yield return [Line(amount, x, -38), Line(share, x, -18)];
            yield return [Line(amount, x, 18), Line(share, x, 38)];
            yield return [Line(amount, x, -18), Line(share, x, 18)];
        }

        // A short arrow: beside it, clear of the board's cross.
        foreach (double dy in new[] { 22.0, 44, 66, -22, -44, -66 })
        {
            yield return [Line(both, Math.Min(from, to) + 10, dy) with { Anchor = Anchor.Start }];
            yield return [Line(both, Math.Max(from, to) + 12, dy) with { Anchor = Anchor.Start }];
        }
    }
}
