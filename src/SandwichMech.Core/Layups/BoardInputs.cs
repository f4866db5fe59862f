using SandwichMech.Core.Materials;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Layups;

/// <summary>The independent uncertain inputs of a board, each as a shift of its logarithm.</summary>
public static class BoardInputs
{
    /// <summary>All inputs that a prediction about the board depends on.</summary>
    /// <param name="board">The board.</param>
    /// <returns>Independent inputs; those without spread are included and harmless.</returns>
    public static IEnumerable<UncertainInput<Board>> Of(Board board) =>
        [.. Shifts(board).Select(i => new UncertainInput<Board>(i.Name, i.Spread, t => i.Shift(board, t))), .. Solid(board)];

    /// <summary>The same but for the solid top, as shifts that can follow on each other.</summary>
    /// <param name="board">The board.</param>
    /// <returns>The inputs.</returns>
    internal static IEnumerable<InputShift<Board>> Shifts(Board board) => [.. InputShifts.OfLayup(board), .. InputShifts.OfRegions(board)];

    private static IEnumerable<UncertainInput<Board>> Of(string name, Wood wood, Func<Wood, Board> put) =>
        InputShifts.Of(wood).Select(i => new UncertainInput<Board>($"{name} {i.Name}", i.Spread, t => put(i.Shift(wood, t))));

    private static IEnumerable<UncertainInput<Board>> Solid(Board board)
    {
        SolidTop solid = board.Solid;
        var woods = Of("solid top", solid.Wood, wood => board with { Solid = solid with { Wood = wood } });
        return solid.Thickness is { } h
            ? [.. woods, new("solid top thickness", h.Spread, t => board with { Solid = solid with { Thickness = h.Shifted(t) } })]
            : woods;
    }
}
