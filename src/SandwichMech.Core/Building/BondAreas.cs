using SandwichMech.Core.Layups;
using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Building;

/// <summary>What one bond line covers: honeycomb takes fillets and a film, wood in its place takes a film alone.</summary>
/// <param name="Honeycomb">m² over the core.</param>
/// <param name="LetIn">m² over let-in wood.</param>
public sealed record BondAreas(double Honeycomb, double LetIn)
{
    /// <summary>The whole bond line, m².</summary>
    public double Total => Honeycomb + LetIn;

    /// <summary>Areas of a board's blank in the bag.</summary>
    /// <param name="board">The board; without an outline it is a rectangle of its length and width, scaled to its area.</param>
    /// <param name="margin">Left all round to be cut off later, m, 0 or more; without an outline length and width have to be known where it is not 0.</param>
    /// <param name="holeCut">Whether the soundhole is open already. An uncut one is let-in wood where wood runs through under it, as a ring's does.</param>
    /// <returns>The areas.</returns>
    /// <exception cref="ArgumentException">The margin cannot be laid round the board.</exception>
    public static BondAreas Of(Board board, double margin, bool holeCut)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(margin);
        var blank = BlankAreas.Of(board, margin);
        if (board.Shape is not { } shape)
        {
            return margin > 0 && board.Size is not { Length: not null, Width: not null }
                ? throw new ArgumentException("A margin needs the board's length and width.", nameof(margin))
                : new(blank.Core, blank.LetIn);
        }

        double outline = Math.Abs(shape.Outline.SignedArea);
        double grown = Offset.Inward(shape.Outline, -margin).Sum(c => Math.Abs(c.SignedArea)) - outline;
        double inside = BlankAreas.Of(board, 0).LetIn;
        double letIn = inside + (blank.LetIn > inside ? grown : 0);
        double underHole = holeCut ? 0 : shape.Holes.Where(h => shape.Regions.Any(r => r.Change is LetInWood && r.Inside(Middle(h)))).Sum(h => Math.Abs(h.SignedArea));
        double all = (holeCut ? shape.Area : outline) + grown;
        return new(all - letIn - underHole, letIn + underHole);
    }

    private static Point Middle(Curve hole)
    {
        Box box = hole.Bounds();
        return new((box.MinX + box.MaxX) / 2, (box.MinY + box.MaxY) / 2);
    }
}
