using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;

namespace SandwichMech.Core.Predictions;

/// <summary>The solid top in a board's place: one wood and one thickness all over, no let-in wood, the board's bars on its faces and its added mass on the outer one.</summary>
internal static class SolidInPlace
{
    /// <summary>Its sections at the places of the board's.</summary>
    internal static IReadOnlyList<PlateSection> Sections(Board board, IReadOnlyList<SectionPlace> places, double thickness)
    {
        var section = PlateSection.Of(Board.SolidPlate(board.Solid.Wood, thickness));
        double face = thickness / 2;
        return [.. BoardPlate.Sections(board, places).Zip(places, (s, place) =>
        {
            double added = LocalLayup.Of(board, place.Regions, place.At).Added;
            return section with
            {
                Mass = section.Mass + added,
                FirstMoment = section.FirstMoment + added * face,
                RotaryInertia = section.RotaryInertia + added * face * face,
                Inner = s.Inner is { } inner ? inner with { Glue = -face } : null,
                Outer = s.Outer is { } outer ? outer with { Glue = face } : null,
            };
        })];
    }
}
