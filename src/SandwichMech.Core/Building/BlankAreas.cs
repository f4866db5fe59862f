using SandwichMech.Core.Layups;
using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Building;

/// <summary>Areas of a board and of the blank that it is cut out of.</summary>
/// <param name="Board">Cut out, hole cut, m².</param>
/// <param name="Blank">With its margin, hole not yet cut, m².</param>
/// <param name="LetIn">Of the blank, where wood stands in place of the core, m²: let-in wood, and the margin where there is an edge band.</param>
public sealed record BlankAreas(double Board, double Blank, double LetIn)
{
    /// <summary>Of the blank, where the core is, m².</summary>
    public double Core => Blank - LetIn;

    /// <summary>Areas of a board.</summary>
    /// <remarks>A margin m round a smooth closed curve of area A and length P adds P m + π m² (Steiner 1840, from memory), as long as it does not run into itself.</remarks>
    /// <param name="board">The board.</param>
    /// <param name="margin">m, 0 or more.</param>
    /// <returns>The areas; without an outline those of a rectangle of the board's length and width, scaled to its area.</returns>
    public static BlankAreas Of(Board board, double margin)
    {
        if (board.Shape is not { } shape)
        {
            double grown = board.Size is { Length: { } l, Width: { } w } ? (1 + 2 * margin / l) * (1 + 2 * margin / w) : 1;
            return new(board.Size.Area, board.Size.Area * grown, 0);
        }

        double outline = Math.Abs(shape.Outline.SignedArea), edge = margin > 0 ? shape.Outline.TotalLength * margin + Math.PI * margin * margin : 0;
        double letIn = shape.Parts.Where(p => p.Regions.Any(r => shape.Regions[r].Change is LetInWood)).Sum(p => p.Area);
        bool band = shape.Regions.Any(r => r.Change is LetInWood && shape.Outline.Segments.Count > 0 && r.Inside(Outermost(shape.Outline)));
        return new(shape.Area, outline + edge, letIn + (band ? edge : 0));
    }

    // A point just inside the lower end, on the centre line: there an edge band is, or none.
    private static Point Outermost(Curve outline)
    {
        const double inside = 1e-3;
        Box box = outline.Bounds();
        return new(box.MinX + inside, 0);
    }
}
