using System.Globalization;
using SandwichMech.Core.Building;
using SandwichMech.Figures.Drawing;
using SandwichMech.Workshop.UseCases;
using MarkerShape = ScottPlot.MarkerShape;

namespace SandwichMech.Figures;

/// <summary>The shop's kept shares bond after bond, with mean and control limits; what lies outside is a cross with its name.</summary>
internal static class BondsPicture
{
    private const int Width = 1400, Height = 640, MostNumbers = 26;
    private const double Left = 95, Right = 1340, LabelSize = 14, MarkSize = 11, OutSize = 18, MarkLine = 2.5, Air = 0.12;
    private static readonly Box Data = new(Left, 165, Right, 520);

    internal static Picture Of(ShopBondsResult r, ShareChartRow chart)
    {
        var picture = new Picture("What the shop's bonds kept", Width, Height);
        Header.Write(picture, "What the shop's bonds kept", "share of the adhesive that was mixed",
        [
            $"Mean {Say.Percent(chart.Mean)}, control limits {Say.Percent(chart.Low)} to {Say.Percent(chart.High)}: mean ± {KeptShares.FactorText} of the mean step from one bond to the next.",
            r.Bonds.Any(b => b.IsOut) ? "A cross lies outside the limits: something was other than usual. What lies within differs by chance." : "None lies outside the limits: what differs between them is chance.",
        ]);
        double[] shown = [.. r.Bonds.Select(b => 100 * b.KeptShare), 100 * chart.Low, 100 * chart.High];
        double air = Math.Max(1, Air * (shown.Max() - shown.Min()));
        int count = r.Bonds.Count, every = (count + MostNumbers - 1) / MostNumbers;
        var panel = new Panel(picture, Data, Scale.Bare(0, count), Scale.Linear(Math.Max(0, shown.Min() - air), shown.Max() + air, 7));
        panel.WriteTicks();
        panel.WriteTitles("board / bond, in the order in which they were weighed", "adhesive kept, % of what was mixed", Left - 60);
        foreach (double limit in new[] { chart.Low, chart.High }) { panel.Line([(0, 100 * limit), (count, 100 * limit)], new(Palette.Ink, 1.8, Dash.Dashed)); }
        panel.Line([(0, 100 * chart.Mean), (count, 100 * chart.Mean)], new(Palette.Muted, 1.5));
        (double X, double Y)[] points = [.. r.Bonds.Select((b, i) => (i + 0.5, 100 * b.KeptShare))];
        panel.Line(points, new(Palette.Blue, 1.5));
        for (int i = 0; i < count; i++)
        {
            ShopBondRow b = r.Bonds[i];
            panel.Points([points[i]], b.IsOut ? MarkerShape.Eks : IsFirst(b) ? MarkerShape.FilledCircle : MarkerShape.OpenCircle, b.IsOut ? OutSize : MarkSize, b.IsOut ? Palette.Ink : Palette.Blue, MarkLine);
            if (i % every == 0) { picture.Add(new Words(string.Create(CultureInfo.InvariantCulture, $"{b.Board}/{(IsFirst(b) ? 1 : 2)}"), panel.PixelX(i + 0.5), Data.Bottom + 20, Panel.TickSize) { Anchor = Anchor.Middle, Colour = Palette.Muted }); }
        }

        for (int i = 0; i < count; i++)
        {
            if (!r.Bonds[i].IsOut) { continue; }
            string[] name = [string.Create(CultureInfo.InvariantCulture, $"board {r.Bonds[i].Board}, {r.Bonds[i].Bond}: {Say.Percent(r.Bonds[i].KeptShare)}")];
            panel.Write(AroundPoint.Places(panel.PixelX(points[i].X), panel.PixelY(points[i].Y), new Words("", 0, 0, LabelSize) { Bold = true }, name, i < count / 2 ? AroundPoint.Right : AroundPoint.Left), needed: true);
        }

        Name(panel, 100 * chart.High, "upper limit");
        Name(panel, 100 * chart.Mean, "mean");
        Name(panel, 100 * chart.Low, "lower limit");
        Header.Foot(picture, "Filled circle: first bond of a board; open circle: second.");
        return picture;
    }

    private static bool IsFirst(ShopBondRow b) => b.Bond.StartsWith("first", StringComparison.Ordinal);

    // Beside the line, at whichever end is free.
    private static void Name(Panel panel, double at, string name)
    {
        double y = panel.PixelY(at);
        var words = new Words(name, 0, 0, LabelSize) { Colour = Palette.Muted, Halo = true };
        panel.Write(new[] { y - 12, y + 12 }.SelectMany(place => new[] { words with { X = Data.Right - 8, Y = place, Anchor = Anchor.End }, words with { X = Data.Left + 8, Y = place } }), needed: true);
    }
}
