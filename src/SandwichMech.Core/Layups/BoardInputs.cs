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
        [.. InputShifts.OfLayup(board).Select(i => new UncertainInput<Board>(i.Name, i.Spread, t => i.Shift(board, t))), .. InRegions(board), .. Solid(board)];

    private static IEnumerable<UncertainInput<Board>> Of(string name, Wood wood, Func<Wood, Board> put) =>
        InputShifts.Of(wood).Select(i => new UncertainInput<Board>($"{name} {i.Name}", i.Spread, t => put(i.Shift(wood, t))));

    // Pieces of one wood are taken as cut from one plank: one set of inputs a wood.
    private static IEnumerable<UncertainInput<Board>> InRegions(Board board)
    {
        if (board.Shape is not { } shape)
        {
            return [];
        }

        var woods = shape.Regions.Select(r => r.Change.OwnWood).OfType<Wood>().Distinct(ReferenceEqualityComparer.Instance).Cast<Wood>();
        var bars = shape.Regions.Where(r => r.Change is GluedBar);
        var masses = shape.Regions.Where(r => r.Change is AddedMass { ArealMass.Spread: > 0 });
        return
        [
            .. woods.SelectMany(old => Of($"let-in {old.Name}", old, wood => Changed(board, r => ReferenceEquals(r.Change.OwnWood, old) ? r.Change.InWood(wood) : r.Change))),
            .. bars.Select(bar => new UncertainInput<Board>($"{bar.Name} height", ((GluedBar)bar.Change).Height.Spread, t => Changed(board, r =>
                ReferenceEquals(r, bar) ? (GluedBar)r.Change with { Height = ((GluedBar)r.Change).Height.Shifted(t) } : r.Change))),
            .. masses.Select(mass => new UncertainInput<Board>(mass.Name, ((AddedMass)mass.Change).ArealMass.Spread, t => Changed(board, r =>
                ReferenceEquals(r, mass) ? new AddedMass(((AddedMass)r.Change).ArealMass.Shifted(t)) : r.Change))),
        ];
    }

    private static Board Changed(Board board, Func<BoardRegion, RegionChange> change) => board with
    {
        Shape = board.Shape! with { Regions = [.. board.Shape.Regions.Select(r => r with { Change = change(r) })] },
    };

    private static IEnumerable<UncertainInput<Board>> Solid(Board board)
    {
        SolidTop solid = board.Solid;
        var woods = Of("solid top", solid.Wood, wood => board with { Solid = solid with { Wood = wood } });
        return solid.Thickness is { } h
            ? [.. woods, new("solid top thickness", h.Spread, t => board with { Solid = solid with { Thickness = h.Shifted(t) } })]
            : woods;
    }
}
