using SandwichMech.Core.Layups;

namespace SandwichMech.Core.Building;

/// <summary>Areas of a board and of the blank that it is cut out of.</summary>
/// <param name="Board">Cut out, hole cut, m².</param>
/// <param name="Blank">With its margin, hole not yet cut, m².</param>
/// <param name="LetIn">Of the blank, where wood stands in place of the core, m²: let-in wood, and the margin where there is an edge band.</param>
public sealed record BlankAreas(double Board, double Blank, double LetIn)
{
    /// <summary>Of the blank, where the core is, m².</summary>
    public double Core => Blank - LetIn;

    /// <summary>Areas of a board whose hole is not yet cut.</summary>
    /// <param name="board">The board.</param>
    /// <param name="margin">m, 0 or more.</param>
    /// <returns>The areas, those of its bonds.</returns>
    /// <exception cref="ArgumentException">The margin cannot be laid round the board.</exception>
    public static BlankAreas Of(Board board, double margin)
    {
        var bond = BondAreas.Of(board, margin, holeCut: false);
        return new(board.Shape?.Area ?? board.Size.Area, bond.Total, bond.LetIn);
    }
}
