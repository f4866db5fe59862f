using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Layups;

/// <summary>The independent uncertain inputs of a board, each as a shift of its logarithm.</summary>
public static class BoardInputs
{
    /// <summary>All inputs that a prediction about the board depends on.</summary>
    /// <param name="board">The board.</param>
    /// <returns>Independent inputs; those without spread are included and harmless.</returns>
    public static IEnumerable<UncertainInput<Board>> Of(Board board) =>
        [.. All(board).Select(i => new UncertainInput<Board>(i.Name, i.Spread, t => i.Shift(board, t)))];

    /// <summary>The same as shifts that can follow on each other.</summary>
    /// <param name="board">The board.</param>
    /// <returns>The inputs.</returns>
    public static IEnumerable<InputShift<Board>> All(Board board) => [.. Shifts(board), .. Solid(board)];

    /// <summary>All but the solid top's.</summary>
    /// <param name="board">The board.</param>
    /// <returns>The inputs.</returns>
    internal static IEnumerable<InputShift<Board>> Shifts(Board board) => [.. InputShifts.OfLayup(board), .. InputShifts.OfRegions(board)];

    private static IEnumerable<InputShift<Board>> Solid(Board board)
    {
        var woods = InputShifts.Of(board.Solid.Wood).Select(i => i.Of<Board>(b => b.Solid.Wood, (b, wood) => b with { Solid = b.Solid with { Wood = wood } }, "solid top "));
        return board.Solid.Thickness is { } h
            ? [.. woods, new("solid top thickness", h.Spread, (b, t) => b with { Solid = b.Solid with { Thickness = b.Solid.Thickness!.Value.Shifted(t) } })]
            : woods;
    }
}
