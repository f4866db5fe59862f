using SandwichMech.Figures.Drawing;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.Figures;

/// <summary>Where the stiffness and the mass come from: the layers from the outer face down, each with its shares.</summary>
internal static class EstimatePicture
{
    private const int Width = 1400, HeadAndFoot = 285;
    private const double RowHeight = 88, Top = 190;
    private const double SectionRight = 110, NamesLeft = 160, NamesRight = 425, BarsLeft = 440, BarsRight = 1362, BarsGap = 34;
    private const double NameSize = 16, DetailSize = 14, LabelSize = 16;

    // A longer bar leaves no room for its label behind it.
    private const double LongBar = 0.7, HalfBar = 0.3;

    internal static Picture Of(EstimateResult r, UnitSystem units)
    {
        var say = new Say(units);
        int rows = r.Layers.Count;
        var picture = new Picture($"{r.Board}: where the stiffness and the mass come from", Width, HeadAndFoot + (int)(rows * RowHeight));
        Header.Write(picture, r.Board, "where the stiffness and the mass come from",
        [
            $"Stiffness along {say.WithRange(r.StiffnessAlong, Shown.BendingStiffness)}, across {say.WithRange(r.StiffnessAcross, Shown.BendingStiffness)}; "
                + $"mass {say.WithRange(r.Mass, Shown.Mass)} on {say.Text(r.Area, Shown.Area)}; in brackets the 90 % interval.",
            $"As stiff as solid {Say.Short(r.Solid.Wood)}, {say.Text(r.Solid.Thickness.Value, Shown.Thickness)} ({r.Solid.Criterion}).",
        ]);
        Section(picture, r, say);
        double bottom = Top + rows * RowHeight, step = (BarsRight - BarsLeft + BarsGap) / 3;
        Box Bars(int i) => new(BarsLeft + i * step, Top, BarsLeft + (i + 1) * step - BarsGap, bottom);
        Shares(picture, Bars(0), r, "Mass", say.Text(r.ArealDensity.Value, Shown.ArealDensity), l => l.ShareOfMass,
            l => say.Text(l.ArealDensity, Shown.ArealDensity), say);
        Shares(picture, Bars(1), r, "Stiffness along", say.Text(r.StiffnessAlong.Value, Shown.BendingStiffness), l => l.ShareAlong,
            l => say.Text(l.ShareAlong * r.StiffnessAlong.Value, Shown.BendingStiffness), say);
        Shares(picture, Bars(2), r, "Stiffness across", say.Text(r.StiffnessAcross.Value, Shown.BendingStiffness), l => l.ShareAcross,
            l => say.Text(l.ShareAcross * r.StiffnessAcross.Value, Shown.BendingStiffness), say);
        return picture;
    }

    /// <summary>The layup to scale, with a thin line from each layer to its name.</summary>
    private static void Section(Picture picture, EstimateResult r, Say say)
    {
        int rows = r.Layers.Count;
        double total = r.Layers.Sum(l => l.Thickness), above = 0;
        var data = new Box(Header.Left, Top, NamesLeft, Top + rows * RowHeight);
        var panel = new Panel(picture, data, Scale.Bare(data.Left, data.Right), Scale.Bare(0, total));
        panel.Plot.HideAxesAndGrid();
        for (int i = 0; i < rows; i++)
        {
            LayerRow layer = r.Layers[i];
            double top = total - above, bottom = top - layer.Thickness, row = total * (1 - (i + 0.5) / rows);
            panel.Rectangle(data.Left, SectionRight, bottom, top, ColourOf(layer.Layer));
            panel.Line([(SectionRight + 3, (top + bottom) / 2), (SectionRight + 12, (top + bottom) / 2), (NamesLeft - 14, row), (NamesLeft - 6, row)], new(Palette.Frame, 1));
            double y = Top + (i + 0.5) * RowHeight, room = NamesRight - NamesLeft;
            picture.Add(new Words(TextWidth.Fit($"{layer.Layer}, {say.Text(layer.Thickness, Shown.Thickness)}", room, NameSize, true), NamesLeft, y - 11, NameSize) { Bold = true });
            picture.Add(new Words(TextWidth.Fit(layer.Material, room, DetailSize), NamesLeft, y + 11, DetailSize) { Colour = Palette.Muted });
            above += layer.Thickness;
        }

        picture.Add(new Words("Layers, outer face on top", Header.Left, Top - 46, Panel.TitleSize) { Bold = true });
        picture.Add(new Words($"section to scale, {say.WithRange(r.Thickness, Shown.Thickness)} thick", Header.Left, Top - 24, DetailSize) { Colour = Palette.Muted });
    }

    private static void Shares(Picture picture, Box data, EstimateResult r, string what, string total, Func<LayerRow, double> share, Func<LayerRow, string> amount, Say say)
    {
        int rows = r.Layers.Count;
        Scale percent = Scale.Linear(0, 100, 5), places = Scale.Bare(0, rows);
        var panel = new Panel(picture, data, percent, places);
        panel.WriteTicks();
        picture.Add(new Words("share of the whole, %", data.MiddleX, data.Bottom + 48, Panel.TitleSize) { Anchor = Anchor.Middle });
        picture.Add(new Words(what, data.Left, data.Top - 46, Panel.TitleSize) { Bold = true });
        picture.Add(new Words($"in all {total}", data.Left, data.Top - 24, DetailSize) { Colour = Palette.Muted });
        for (int i = 0; i < rows; i++)
        {
            LayerRow layer = r.Layers[i];
            double middle = rows - i - 0.5, bar = 100 * share(layer), y = panel.PixelY(middle);
            panel.Rectangle(0, bar, middle - HalfBar, middle + HalfBar, ColourOf(layer.Layer));
            bool inside = share(layer) > LongBar;
            Words Label(string text, double dy, double size) =>
                new(text, panel.PixelX(bar) + (inside ? -8 : 8), y + dy, size) { Anchor = inside ? Anchor.End : Anchor.Start, Halo = !inside };
            picture.Add(Label(Say.Percent(share(layer)), -10, LabelSize) with { Bold = true });
            picture.Add(Label(amount(layer), 11, DetailSize));
        }
    }

    private static string ColourOf(string layer) =>
        layer.Contains("skin", StringComparison.Ordinal) ? Palette.Orange
        : layer.Contains("bond", StringComparison.Ordinal) ? Palette.Blue
        : Palette.PaleBlue;
}
