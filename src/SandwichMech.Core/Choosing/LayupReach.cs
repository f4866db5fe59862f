using SandwichMech.Core.Layups;

namespace SandwichMech.Core.Choosing;

/// <summary>What a board's layup has of a target's figure.</summary>
public static class LayupReach
{
    /// <summary>The figure at the medians.</summary>
    /// <param name="target">A target that needs no plate.</param>
    /// <param name="board">The board.</param>
    /// <returns>In the figure's unit, or times the solid top's.</returns>
    public static double Of(ChoiceTarget target, Board board) => target.Figured(new LayupFigures([target]).Nominal(board.UnderWeight())[0]);
}
