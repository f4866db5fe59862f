using SandwichMech.Core.Building;
using SandwichMech.Core.Choosing;
using SandwichMech.Core.Layups;
using SandwichMech.Workshop.Tables;

namespace SandwichMech.Workshop.Boards;

/// <summary>A board file that was read without a mistake.</summary>
/// <param name="Path">The file, as given.</param>
/// <param name="Text">Its text.</param>
/// <param name="Board">The board that it wishes for.</param>
/// <param name="Criterion">What "as stiff as" means for it.</param>
/// <param name="Bead">The shop's bead of adhesive, where the file gives it.</param>
/// <param name="Warnings">What is possible but unusual.</param>
/// <param name="ReadBack">What was taken without being typed, and how typed spreads were read: to be shown back.</param>
public sealed record BoardFile(
    string Path,
    string Text,
    Board Board,
    StiffnessCriterion Criterion,
    Bead? Bead,
    IReadOnlyList<Problem> Warnings,
    IReadOnlyList<string> ReadBack)
{
    /// <summary>The materials that the file's names were looked up in: the given ones, with the maker's own where the file names a folder.</summary>
    public required MaterialTables Tables { get; init; }
}
