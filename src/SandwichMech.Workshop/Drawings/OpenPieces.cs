using SandwichMech.Core.Outlines;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Drawings;

/// <summary>Says where a drawing is open.</summary>
internal static class OpenPieces
{
    /// <summary>Where the largest piece is open and by how much.</summary>
    /// <param name="open">One or more.</param>
    /// <param name="numbers">From the pieces' coordinates to the file's numbers.</param>
    /// <param name="unit">Metres of one unit of the pieces; nothing where that is not known.</param>
    internal static string Words(IReadOnlyList<OpenPiece> open, Func<Point, Point> numbers, double? unit)
    {
        OpenPiece largest = open.MaxBy(o => o.Curve.Size)!;
        Point from = largest.From, to = largest.To;
        // The nearest other end tells which joint is missing.
        Point near = open.Where(o => o != largest).SelectMany(o => (Point[])[o.From, o.To]).Append(from).MinBy(p => (p - to).Norm);
        string on = largest.Group.Length > 0 ? $" on '{TypedText.Short(TypedText.OneLine(largest.Group))}'" : "";
        double gap = (near - to).Norm;
        string width = unit is { } metres ? Display.Text(gap * metres, Shown.Thickness, UnitSystem.Metric) : MachineNumber.Show(gap);
        return $"has no closed outline: the largest piece{on} is open by {width}, between {Place(to)} and {Place(near)}; join these ends in the drawing"
            + (open.Count > 1 ? $" ({open.Count} pieces are open)" : "");

        string Place(Point p)
        {
            Point n = numbers(p);
            return $"({MachineNumber.Show(Math.Round(n.X, 6))}, {MachineNumber.Show(Math.Round(n.Y, 6))})";
        }
    }
}
