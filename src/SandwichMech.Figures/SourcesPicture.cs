using System.Globalization;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Figures.Drawing;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.Figures;

/// <summary>What the spread of each main figure comes from, the largest source on top: what is worth measuring first.</summary>
internal sealed class SourcesPicture(Picture picture, Say say)
{
    private const int Width = 1400, MostBars = 5;
    private const double FirstTop = 150, RowStep = 250, FirstLeft = 285, ColumnStep = 690, PanelWidth = 340, BarHeight = 34, NameSize = 14, HalfBar = 0.32;

    internal static Picture Of(EstimateResult r, UnitSystem units)
    {
        (string Name, Prediction Figure, Shown Kind)[] figures =
        [
            ("bending stiffness along", r.StiffnessAlong, Shown.BendingStiffness), ("bending stiffness across", r.StiffnessAcross, Shown.BendingStiffness),
            ("mass", r.Mass, Shown.Mass), ("saved beside the solid top", r.Solid.Saved, Shown.Mass),
            .. r.Outline?.Modes.Take(2).Select(m => ($"mode {m.Number.ToString(CultureInfo.InvariantCulture)}", m.Frequency, Shown.Frequency))
                ?? r.Rectangle?.Modes.Take(2).Select(m => ($"mode {m.HalfWavesAlong.ToString(CultureInfo.InvariantCulture)} × {m.HalfWavesAcross.ToString(CultureInfo.InvariantCulture)} of a rectangle", m.Frequency, Shown.Frequency)) ?? [],
        ];
        int rows = (figures.Length + 1) / 2;
        var picture = new Picture($"{r.Board}: what the spread comes from", Width, (int)(FirstTop + rows * RowStep + 10));
        Header.Write(picture, r.Board, "what the spread comes from", ["Share of the variance, the largest source on top: measuring that one narrows the figure most. In brackets the 90 % interval."]);
        var drawing = new SourcesPicture(picture, new(units));
        for (int i = 0; i < figures.Length; i++) { drawing.Bars(i, figures[i].Name, figures[i].Figure, figures[i].Kind); }
        return picture;
    }

    private void Bars(int number, string name, Prediction figure, Shown kind)
    {
        double left = FirstLeft + number % 2 * ColumnStep, top = FirstTop + number / 2 * RowStep;
        VarianceShare[] shares = [.. figure.MostlyFrom.Take(MostBars)];
        picture.Add(new Words($"{name}: {say.WithRange(figure, kind)}", left - FirstLeft + Header.Left, top - 18, Panel.TitleSize) { Bold = true });
        if (shares.Length == 0)
        {
            picture.Add(new Words("nothing about it is uncertain", left, top + 20, NameSize) { Colour = Palette.Muted });
            return;
        }

        var panel = new Panel(picture, new Box(left, top, left + PanelWidth, top + MostBars * BarHeight), Scale.Bare(0, 1), Scale.Bare(0, MostBars));
        for (int i = 0; i < shares.Length; i++)
        {
            double y = MostBars - 0.5 - i, pixel = panel.PixelY(y);
            panel.Rectangle(0, shares[i].Share, y - HalfBar, y + HalfBar, i == 0 ? Palette.Blue : Palette.PaleBlue);
            picture.Add(new Words(TextWidth.Fit(shares[i].Input, FirstLeft - Header.Left - 20, NameSize, i == 0), left - 10, pixel, NameSize) { Anchor = Anchor.End, Bold = i == 0 });
            picture.Add(new Words(Say.Percent(shares[i].Share), panel.PixelX(shares[i].Share) + 8, pixel, NameSize) { Bold = i == 0 });
        }
    }
}
