using System.Globalization;
using SandwichMech.Figures.Drawing;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.Figures;

/// <summary>What the readings of a piece tell: each property before and after them on the left, the tones against the modes of the piece as found on the right.</summary>
internal static class MeasurePicture
{
    internal const double Top = 180, DetailSize = 14, NameSize = 15;
    private const int Width = 1400, Foot = 60;
    private const double Left = 60, Right = 560, RowHeight = 92, AxisRoom = 92, ReadingHeight = 26, Widest = 8;
    // Of a row: where its bar lies, in parts of it from its foot.
    private const double BarMiddle = 0.19, HalfTable = 0.13, HalfFound = 0.065;

    internal static Picture? Of(MeasureResult r, UnitSystem units)
    {
        if (r.Properties.Count == 0) { return null; }
        var say = new Say(units);
        ReadingRow[] others = [.. r.Readings.Where(x => x.Unit != ToneRows.Hertz)];
        double bars = r.Properties.Count * RowHeight, left = bars + AxisRoom + (others.Length > 0 ? 40 + others.Length * ReadingHeight : 0);
        double height = Math.Max(left, ToneRows.Height(r) + AxisRoom);
        var picture = new Picture($"Piece {r.Piece.Number}: what its readings tell", Width, (int)(Top + height + Foot));
        string name = r.Piece.Name.Length > 0 ? $", “{r.Piece.Name}”" : "";
        Header.Write(picture, string.Create(CultureInfo.InvariantCulture, $"Piece {r.Piece.Number}, {r.Piece.Material}{name}"), "what its readings tell", [Fit(r), Moisture(r)]);
        Properties(picture, r, say, Top + bars);
        Others(picture, others, say, Top + bars + AxisRoom);
        ToneRows.Draw(picture, r, say, Top + Math.Max(ToneRows.Height(r), left - AxisRoom));
        Header.Foot(picture, "Wide pale bar: 9 in 10 such pieces by the table. Narrow dark bar: 9 in 10 pieces with these readings." + (r.Modes.Count > 0 ? " Small plates: nodal lines, simplified; grain from left to right." : ""));
        return picture;
    }

    private static string Fit(MeasureResult r)
    {
        int tones = r.Readings.Count(x => x.Unit == ToneRows.Hertz && x.Expected is not null), strays = r.Readings.Count(x => x.Expected is null);
        string what = string.Create(CultureInfo.InvariantCulture, $"Read: weight and bending {r.Readings.Count - tones - strays}, tones {tones}{(strays > 0 ? $"; left out as no mode of it {strays}" : "")}.");
        return r.Chance is { } chance
            ? $"{what} Of 100 such pieces {InHundred(chance)} would fit no better than this one."
            : "No readings to compare yet: all is by the table.";
    }

    private static string InHundred(double chance) => chance > 0.99 ? "more than 99" : chance < 0.01 ? "fewer than 1" : (100 * chance).ToString("0", CultureInfo.InvariantCulture);

    private static string Moisture(MeasureResult r) => r.MoisturePercent is { } moisture
        ? string.Create(CultureInfo.InvariantCulture, $"All figures stand for {r.ReferencePercent:0} % moisture and for stiffness as a tap finds it; the piece was read at about {moisture:0.0} % ({r.MoistureFrom}).")
        : "Stiffness as a tap finds it.";

    private static void Properties(Picture picture, MeasureResult r, Say say, double bottom)
    {
        int rows = r.Properties.Count;
        double Low(PropertyRow p) => Math.Min(p.Table.Low90, p.Found.Low90) / p.Table.Value;
        double High(PropertyRow p) => Math.Max(p.Table.High90, p.Found.High90) / p.Table.Value;
        double low = Math.Max(r.Properties.Min(Low) * 0.94, 1 / Widest), high = Math.Min(r.Properties.Max(High) * 1.06, Widest);
        var panel = new Panel(picture, new Box(Left, Top, Right, bottom), Scale.Log(low, high, Right - Left, 44), Scale.Bare(0, rows));
        panel.WriteTicks();
        picture.Add(new Words("What it is made of, before and after its readings", Header.Left, Top - 40, Panel.TitleSize) { Bold = true });
        picture.Add(new Words("times the table's value", panel.Data.MiddleX, bottom + 48, Panel.TitleSize) { Anchor = Anchor.Middle });
        for (int i = 0; i < rows; i++)
        {
            PropertyRow p = r.Properties[i];
            double foot = rows - 1 - i, middle = foot + BarMiddle, y = panel.PixelY(foot + 1);
            panel.Line([(1, foot), (1, foot + 2 * BarMiddle)], new(Palette.Frame, 1, Dash.Dashed));
            Bar(p.Table, HalfTable, Palette.PaleBlue);
            Bar(p.Found, HalfFound, Palette.Blue);
            panel.Line([(In(p.Found.Value), middle - HalfTable), (In(p.Found.Value), middle + HalfTable)], new(Palette.Ink, 3));
            picture.Add(new Words($"{p.Name}, {p.Symbol}", Left + 8, y + 22, NameSize) { Bold = true, Halo = true });
            picture.Add(new Words($"{Value(p, p.Table)}  →  {Value(p, p.Found)}", Left + 8, y + 44, DetailSize) { Halo = true });

            double In(double value) => Math.Clamp(value / p.Table.Value, low, high);

            void Bar(GiveOrTake of, double half, string colour) => panel.Rectangle(In(of.Low90), In(of.High90), middle - half, middle + half, colour);
        }

        string Value(PropertyRow p, GiveOrTake of) => $"{MeasurePiece.Text(of.Value, p.Unit, p.Symbol, say.Units)} ± {(of.Relative > 1 ? "all of it" : Say.Percent(of.Relative))}";
    }

    private static void Others(Picture picture, ReadingRow[] others, Say say, double top)
    {
        if (others.Length == 0) { return; }
        picture.Add(new Words("Weight and bending", Header.Left, top, Panel.TitleSize) { Bold = true });
        for (int i = 0; i < others.Length; i++)
        {
            ReadingRow x = others[i];
            Shown kind = MeasurePiece.ShownAs(x.Unit);
            picture.Add(new Words(
                $"{x.Name}: {say.Text(x.Read, kind)} read, {say.Text(x.Expected!.Value, kind)} expected, {x.Misfit.ToString("+0.0;-0.0;0.0", CultureInfo.InvariantCulture)} sd",
                Header.Left, top + 28 + i * ReadingHeight, DetailSize));
        }
    }
}
