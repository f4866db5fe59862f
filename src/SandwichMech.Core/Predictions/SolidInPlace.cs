using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;

namespace SandwichMech.Core.Predictions;

/// <summary>The solid top in a board's place: one wood and one thickness all over, no let-in wood, the board's bars on its faces.</summary>
internal static class SolidInPlace
{
    /// <summary>Its sections at the places of the board's.</summary>
    internal static IReadOnlyList<PlateSection> Sections(Board board, IReadOnlyList<SectionPlace> places, double thickness)
    {
        var section = PlateSection.Of(Board.SolidPlate(board.Solid.Wood, thickness));
        return [.. BoardPlate.Sections(board, places).Select(s => section with
        {
            Inner = s.Inner is { } inner ? inner with { Glue = -thickness / 2 } : null,
            Outer = s.Outer is { } outer ? outer with { Glue = thickness / 2 } : null,
        })];
    }
}
