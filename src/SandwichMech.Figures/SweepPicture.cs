using System.Globalization;
using SandwichMech.Figures.Drawing;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.Figures;

/// <summary>Stiffness and mass over one thickness, or over one for several values of another.</summary>
internal static class SweepPicture
{
    internal const double LabelSize = 15;

    /// <summary>How far numbers and their heading may stand out to the right of a panel, and titles to its left.</summary>
    internal const double RightRoom = 75, LeftRoom = 55;

    private const int Width = 1400, Height = 1000;
    private const double FirstTop = 152, RowStep = 414, PanelHeight = 300;
    private const double FirstLeft = 95, ColumnStep = 675, PanelWidth = 510;

    internal static Picture Of(SweepResult r, UnitSystem units)
    {
        var say = new Say(units);
        string over = r.Varied.Count == 1 ? $"stiffness and mass over {NameOf(r.Varied[0])}" : $"stiffness and mass over {NameOf(r.Varied[0])} and {NameOf(r.Varied[1])}";
        var picture = new Picture($"{r.Board}: {over}", Width, Height);
        Header.Write(picture, r.Board, over, [HeadLine(r)]);
        if (r.Varied.Count == 1)
        {
            new OneThickness(picture, r, say).Draw();
        }
        else
        {
            new TwoThicknesses(picture, r, say).Draw();
        }

        return picture;
    }

    /// <summary>One of four places for a panel.</summary>
    /// <param name="column">0 or 1, from the left.</param>
    /// <param name="row">0 or 1, from the top.</param>
    internal static Box Place(int column, int row) => new(
        FirstLeft + column * ColumnStep, FirstTop + row * RowStep, FirstLeft + column * ColumnStep + PanelWidth, FirstTop + row * RowStep + PanelHeight);

    /// <summary>The horizontal axis: the first thickness, with room for the marks at both ends.</summary>
    internal static Scale Across(SweepResult r, Say say)
    {
        double[] values = [.. r.Varied[0].Values.Select(v => say.In(v, Shown.Thickness))];
        double low = values.Min(), high = values.Max(), air = low < high ? 0.015 * (high - low) : 0.1 * low;
        return Scale.Linear(low - air, high + air, 8);
    }

    /// <summary>A thickness in words, with its unit and what the number stands for.</summary>
    internal static string TitleOf(Varied varied, Say say) =>
        (varied.Name == "skins" ? "outer skin thickness (inner in proportion)" : NameOf(varied)) + $", {say.Unit(Shown.Thickness)}";

    internal static string NameOf(Varied varied) => varied.Name switch
    {
        "outer" => "outer skin thickness",
        "inner" => "inner skin thickness",
        "skins" => "skin thickness",
        _ => "core height",
    };

    /// <summary>Thicknesses with as many decimals as the finest of them needs, all alike.</summary>
    internal static string[] Labels(IReadOnlyList<double> thicknesses, Say say)
    {
        (int least, int most) = say.Units == UnitSystem.Inch ? (2, 4) : (1, 3);
        double[] shown = [.. thicknesses.Select(t => say.In(t, Shown.Thickness))];
        int decimals = Enumerable.Range(least, most - least).FirstOrDefault(d => shown.All(v => Math.Abs(v - Math.Round(v, d)) < 1e-6), most);
        return [.. shown.Select(v => v.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture))];
    }

    /// <summary>The stiffness of the solid top that the board file names, where it lies near enough to the curves not to crush them.</summary>
    /// <param name="named">In the unit that is shown, if there is one.</param>
    /// <param name="low">Least of what the curves show.</param>
    /// <param name="high">Greatest of it.</param>
    internal static double? Near(double? named, double low, double high) => named > low / 2.5 && named < high * 1.6 ? named : null;

    /// <summary>Draws the solid top that the board file names as a level across a panel, or says that it lies beyond.</summary>
    internal static void NamedSolid(Panel panel, SweepResult r, Say say, double? named)
    {
        Stroke stroke = Palette.Solids[0];
        if (named >= panel.Y.Low && named <= panel.Y.High)
        {
            (double X, double Y)[] line = [(panel.X.Low, named.Value), (panel.X.High, named.Value)];
            panel.Line(line, stroke);
            string text = TextWidth.Fit($"your solid, {say.Text(r.NamedSolidThickness!.Value, Shown.Thickness)} {r.SolidWood}", 0.8 * panel.Data.Width, LabelSize, true);
            panel.Write(BesideLevel(panel, panel.PixelY(named.Value), new Words(text, 0, 0, LabelSize) { Bold = true, Colour = stroke.Colour, Halo = true }), needed: true);
        }
        else if (named is { } beyond)
        {
            string value = beyond.ToString("G3", CultureInfo.InvariantCulture);
            string text = $"beyond: your solid, {say.Text(r.NamedSolidThickness!.Value, Shown.Thickness)} {TextWidth.Fit(r.SolidWood, 160, LabelSize)}: {value} {say.Unit(Shown.BendingStiffness)}";
            var words = new Words(text, panel.Data.Left + 10, panel.Data.Top + 14, LabelSize) { Colour = stroke.Colour, Halo = true };
            panel.Write(new[] { words, words with { X = panel.Data.Right - 10, Y = panel.Data.Bottom - 14, Anchor = Anchor.End } }, needed: true);
        }
    }

    // On the level's line, or else somewhat off it: its colour says whose name it is, and it is not cut for want of room.
    private static IEnumerable<Words> BesideLevel(Panel panel, double level, Words words)
    {
        const double Beside = 14.4, Row = 20, Most = 100, Step = 15;
        for (double off = Beside; off <= Most; off += Row)
        {
            foreach (double y in new[] { level - off, level + off })
            {
                for (double x = panel.Data.Right - 12; x - words.Width > panel.Data.Left + 8; x -= Step)
                {
                    yield return words with { X = x, Y = y, Anchor = Anchor.End };
                }
            }
        }
    }

    /// <summary>Names a line, on the side that is wanted if there is room.</summary>
    internal static void Label(Panel panel, IEnumerable<(double X, double Y)> points, string text, string colour, bool above) => panel.WriteAlong(
        [.. points.Select(p => (panel.PixelX(p.X), panel.PixelY(p.Y)))], new Words(text, 0, 0, LabelSize) { Bold = true, Colour = colour }, above, needed: true);

    private static string HeadLine(SweepResult r)
    {
        string shade = r.Varied.Count == 1 ? "Shaded: 90 % of boards, darker 50 %. " : "";
        return $"{shade}The solid of equal stiffness is {Say.Short(r.SolidWood)}, equal by {r.Criterion}{(r.By == "layup" ? "" : $": {r.By}")}.";
    }
}
