using SandwichMech.Core.Layups;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Choosing;

/// <summary>What the layup alone says of a board's figures: all of it for stiffness and mass, the way it goes for mobility and level, nothing for the others.</summary>
/// <remarks>
/// Mobility goes as that of an endless plate, 1/(8 √(D m)) (Cremer, Heckl &amp; Petersson 2005, Structure-Borne Sound; the geometric mean of a finite plate's is that of the endless one: Skudrzyk
/// 1980, J. Acoust. Soc. Am. 67, both from memory), D = √(D11 D22); the square of the volume velocity that a force brings, per mode, as 1/(m^1.5 D^0.5).
/// </remarks>
internal sealed class LayupFigures(IReadOnlyList<ChoiceTarget> targets)
{
    private readonly bool _weighs = targets.Any(t => t.Figure == ChoiceFigure.Mass), _solid = targets.Any(t => t.OfSolid || t.Figure == ChoiceFigure.Level);

    /// <summary>Scaled figures at the medians.</summary>
    /// <param name="board">The board, its woods as under a weight.</param>
    /// <param name="mass">Its mass, kg, where it is known already.</param>
    internal double[] Nominal(Board board, double? mass = null)
    {
        Laminate laminate = board.Laminate();
        Laminate? solid = _solid && board.Solid.Thickness is { } h ? Board.SolidPlate(board.Solid.Wood, h.Value) : null;
        double weighed = _weighs ? mass ?? board.Mass(laminate) : 0;
        double[] values = new double[targets.Count];
        for (int t = 0; t < values.Length; t++) { values[t] = Of(targets[t], laminate, weighed, solid); }
        return values;
    }

    /// <summary>The same with what the board's inputs do to them.</summary>
    internal ChoiceValue[] WithSpread(Board board)
    {
        Propagation<double[]> figures = Propagation.Through(board, BoardInputs.Of(board), b => Nominal(b));
        return [.. targets.Select((_, t) => new ChoiceValue(figures.Nominal[t], figures.Effects(f => f[t]), 0))];
    }

    private static double Of(ChoiceTarget target, Laminate l, double mass, Laminate? solid) =>
        Plain(target.Figure, l, mass) - (solid is not null && (target.OfSolid || target.Figure == ChoiceFigure.Level) ? Plain(target.Figure, solid, mass) : 0);

    private static double Plain(ChoiceFigure figure, Laminate l, double mass) => figure switch
    {
        ChoiceFigure.StiffnessAlong => Math.Log(l.Bending.M11),
        ChoiceFigure.StiffnessAcross => Math.Log(l.Bending.M22),
        ChoiceFigure.StiffnessTwist => Math.Log(l.Bending.M66),
        ChoiceFigure.StiffnessRatio => Math.Log(l.Bending.M11 / l.Bending.M22),
        ChoiceFigure.ArealDensity => Math.Log(l.ArealMass),
        ChoiceFigure.Mass => Math.Log(mass),
        ChoiceFigure.Mobility => -Math.Log(MeanStiffness(l) * l.ArealMass) / 2,
        ChoiceFigure.Level => -10 * (1.5 * Math.Log10(l.ArealMass) + 0.5 * Math.Log10(MeanStiffness(l))),
        _ => 0,
    };

    private static double MeanStiffness(Laminate l) => Math.Sqrt(l.Bending.M11 * l.Bending.M22);
}
