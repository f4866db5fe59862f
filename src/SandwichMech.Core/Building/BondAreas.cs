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
    /// <remarks>
    /// A margin m round a curve of length P adds P m + π m² (Steiner 1840, from memory) only where no place turns inward tighter than m: a cutaway's corner adds less, and a slot narrower than 2 m is filled.
    /// So the blank is what lies within the curve at the distance m outside. Where there is an edge band the margin is of its wood.
    /// </remarks>
    /// <param name="board">The board; without an outline it is a rectangle of its length and width, scaled to its area.</param>
    /// <param name="margin">Left all round to be cut off later, m, 0 or more; without an outline length and width have to be known where it is not 0.</param>
    /// <param name="holeCut">Whether the soundhole is open already. An uncut one is let-in wood where wood runs through under it, as a ring's does.</param>
    /// <returns>The areas.</returns>
    /// <exception cref="ArgumentException">The margin cannot be laid round the board.</exception>
    public static BondAreas Of(Board board, double margin, bool holeCut)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(margin);
        if (board.Shape is not { } shape)
        {
            return margin == 0 ? new(board.Size.Area, 0)
                : board.Size is { Length: { } l, Width: { } w } ? new(board.Size.Area * (1 + 2 * margin / l) * (1 + 2 * margin / w), 0)
                : throw new ArgumentException("A margin needs the board's length and width.", nameof(margin));
        }

        double outline = Math.Abs(shape.Outline.SignedArea), grown = Grown(shape.Outline, margin);
        double letIn = shape.Parts.Where(p => p.Regions.Any(r => shape.Regions[r].Change is LetInWood)).Sum(p => p.Area);
        if (shape.Regions.Any(r => r.Change is LetInWood && r.Inside(AtLowerEnd(shape.Outline)))) { letIn += grown; }
        if (!holeCut) { letIn += shape.Holes.Where(h => shape.Regions.Any(r => r.Change is LetInWood && r.Inside(Middle(h)))).Sum(h => Math.Abs(h.SignedArea)); }
        return new((holeCut ? shape.Area : outline) + grown - letIn, letIn);
    }

    /// <summary>The curve along which the blank is cut; a pocket that the margin closes is part of it.</summary>
    internal static Curve Blank(Curve outline, double margin) => margin == 0 ? outline : Offset.Inward(outline, -margin, OffsetTolerance).MaxBy(c => Math.Abs(c.SignedArea))!;

    private const double OffsetTolerance = 1e-6;

    private static double Grown(Curve outline, double margin) => Math.Abs(Blank(outline, margin).SignedArea) - Math.Abs(outline.SignedArea);

    // Just inside the lower end, on the centre line: an edge band is there, or none.
    private static Point AtLowerEnd(Curve outline)
    {
        const double inside = 1e-3;
        return new(outline.Bounds().MinX + inside, 0);
    }

    private static Point Middle(Curve hole) => hole.Bounds().Middle;
}
