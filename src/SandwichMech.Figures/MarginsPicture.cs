using System.Globalization;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Figures.Drawing;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.Figures;

/// <summary>All margins of a board as bars on a logarithmic axis with their 90 % intervals, the likeliest to be passed on top; at 1 it bears just what it has to.</summary>
internal static class MarginsPicture
{
    private const int Width = 1400;
    private const double Left = 470, Right = 1270, Top = 130, RowHeight = 44, Foot = 85, NameSize = 15, HalfBar = 0.3, HalfCap = 0.16;

    internal static Picture? Of(MarginsResult r, UnitSystem units)
    {
        MarginRow[] known = [.. r.Margins.Where(m => m.Margin is not null).OrderByDescending(m => m.ChanceExceeded).ThenBy(m => m.Margin!.Value)];
        if (known.Length == 0) { return null; }
        var say = new Say(units);
        double bottom = Top + known.Length * RowHeight;
        var picture = new Picture($"{r.Board}: margins", Width, (int)(bottom + Foot));
        Header.Write(picture, r.Board, r.Strings is { } s ? $"margins, edge {r.Edge}, strings {say.Text(s.Tension, Shown.Force)}" : "margins in the press",
        [
            "How many times the load is borne; whiskers: 90 % of such boards. Left of the line at 1 it is more than the board bears.",
            $"The likeliest to be passed on top. No margin replaces a test.{Unjudged(r)}",
        ]);
        double low = Math.Min(0.5, 0.9 * known.Min(m => m.Margin!.Low90)), high = 1.3 * known.Max(m => m.Margin!.High90);
        var panel = new Panel(picture, new Box(Left, Top, Right, bottom), Scale.Log(low, high, Right - Left, 40), Scale.Bare(0, known.Length));
        panel.WriteTicks();
        picture.Add(new Words("margin: what it bears over what it has to bear", panel.Data.MiddleX, bottom + 48, Panel.TitleSize) { Anchor = Anchor.Middle });
        for (int i = 0; i < known.Length; i++) { Bar(picture, panel, known[i], known.Length - 0.5 - i, low, i == 0); }
        panel.Line([(1, 0), (1, known.Length)], new(Palette.Ink, 2.5, Dash.Dashed), keepClear: false);
        return picture;
    }

    private static void Bar(Picture picture, Panel panel, MarginRow row, double y, double low, bool governs)
    {
        Prediction margin = row.Margin!;
        // Light and dark on a grey printer too: orange where one in twenty does not bear it.
        panel.Rectangle(low, margin.Value, y - HalfBar, y + HalfBar, margin.Low90 < 1 ? Palette.Orange : Palette.PaleBlue);
        var whisker = new Stroke(Palette.Ink, 2);
        panel.Line([(margin.Low90, y), (margin.High90, y)], whisker, keepClear: false);
        foreach (double end in new[] { margin.Low90, margin.High90 }) { panel.Line([(end, y - HalfCap), (end, y + HalfCap)], whisker, keepClear: false); }
        double py = panel.PixelY(y);
        picture.Add(new Words(TextWidth.Fit(row.Case, Left - Header.Left - 15, NameSize, governs), Left - 12, py, NameSize) { Anchor = Anchor.End, Bold = governs });
        picture.Add(new Words(Times(margin.Value), Right + 12, py, NameSize) { Bold = governs });
    }

    private static string Unjudged(MarginsResult r)
    {
        string unknown = r.NotKnown.Count == 0 ? "" : $" Not known, so not judged: {string.Join(", ", r.NotKnown)}.";
        return unknown + (r.Strings is null ? " Without an outline nothing is known of the strings' load." : "");
    }

    private static string Times(double margin) => margin.ToString(margin < 10 ? "0.0" : "0", CultureInfo.InvariantCulture);
}
