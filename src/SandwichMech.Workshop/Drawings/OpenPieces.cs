using SandwichMech.Core.Outlines;

namespace SandwichMech.Workshop.Drawings;

/// <summary>Says where a drawing is open.</summary>
internal static class OpenPieces
{
    /// <summary>Where the largest piece is open and by how much.</summary>
    /// <param name="open">One or more.</param>
    /// <param name="perUnit">Drawing units of one unit of the pieces.</param>
    /// <param name="unit">The unit's name for numbers; empty for the drawing's own numbers.</param>
    internal static string Words(IReadOnlyList<OpenPiece> open, double perUnit, string unit)
    {
        OpenPiece largest = open.MaxBy(o => o.Curve.Size)!;
        Point from = largest.From, to = largest.To;
        // The nearest other end tells which joint is missing.
        Point near = open.Where(o => o != largest).SelectMany(o => (Point[])[o.From, o.To]).Append(from).MinBy(p => (p - to).Norm);
        string where = $"({Show(to.X)}, {Show(to.Y)}) and ({Show(near.X)}, {Show(near.Y)})";
        string on = largest.Group.Length > 0 ? $" on '{Units.TypedText.Short(largest.Group)}'" : "";
        return $"has no closed outline: the largest piece{on} is open by {Show((near - to).Norm)}{unit}, between {where}; join these ends in the drawing"
            + (open.Count > 1 ? $" ({open.Count} pieces are open)" : "");

        string Show(double value) => MachineNumber.Show(Math.Round(value * perUnit, 6));
    }
}
