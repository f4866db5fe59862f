using SandwichMech.Core.Layups;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Predictions;

/// <summary>A board and how far its rim's hold is off, for one evaluation.</summary>
/// <param name="Board">The board.</param>
/// <param name="Shift">Shift of the logarithm of the rim's stiffness against turning.</param>
internal sealed record RimCase(Board Board, double Shift)
{
    /// <summary>
    /// Standard deviation of the logarithm of a rim's stiffness against turning. No source: a judgement that 90 % of rims lie within a factor of five either way of
    /// <see cref="Plates.EdgeSupport.RimTurning"/>, from nearly hinged to nearly clamped. Replaced by what taps on the rim say.
    /// </summary>
    internal const double Spread = 1;

    /// <summary>Whether a rim holds some of the edge.</summary>
    internal static bool IsOn(Board board, EdgeHold edge) => board.Shape?.IsHeld(EdgeHold.Rim, edge) ?? edge == EdgeHold.Rim;

    /// <summary>The board's inputs, and the rim's where it holds the edge.</summary>
    internal static IEnumerable<UncertainInput<RimCase>> Inputs(Board board, EdgeHold edge)
    {
        IEnumerable<UncertainInput<RimCase>> own = BoardInputs.Of(board).Select(i => new UncertainInput<RimCase>(i.Name, i.Spread, t => new(i.At(t), 0)));
        return IsOn(board, edge) ? own.Append(new("rim's hold", Spread, t => new(board, t))) : own;
    }
}
