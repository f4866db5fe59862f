using MathNet.Numerics.RootFinding;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Materials;
using SandwichMech.Core.Plates;

namespace SandwichMech.Core.Choosing;

/// <summary>The solid top as stiff as a board, by one criterion.</summary>
/// <param name="Criterion">What was held equal.</param>
/// <param name="Thickness">m.</param>
/// <param name="Mass">kg on the board's area.</param>
/// <param name="Saved">kg, solid minus board; negative where the board is heavier.</param>
/// <param name="SavedShare">Saved over the solid's mass.</param>
public sealed record SolidEquivalent(StiffnessCriterion Criterion, double Thickness, double Mass, double Saved, double SavedShare);

/// <summary>The skins that make a board as stiff as a given solid top.</summary>
/// <param name="Criterion">What was held equal.</param>
/// <param name="Outer">Outer skin, m.</param>
/// <param name="Inner">Inner skin, m.</param>
/// <param name="Mass">kg on the board's area.</param>
/// <param name="Saved">kg, solid minus board.</param>
/// <param name="SavedShare">Saved over the solid's mass.</param>
public sealed record MatchingSkins(StiffnessCriterion Criterion, double Outer, double Inner, double Mass, double Saved, double SavedShare);

/// <summary>No solid top that a maker could mean is as stiff as the board.</summary>
/// <param name="wood">Of which wood.</param>
public sealed class NoSolidException(string wood)
    : Exception($"no solid top of {wood} between 0.05 and 200 mm is as stiff as this board.");

/// <summary>Equal stiffness, both ways: the solid for a board, and the board for a solid.</summary>
public static class EqualStiffness
{
    // Any solid plate a maker could mean; the root is sought in the logarithm, where the measures are nearly straight.
    private static readonly (double From, double To) SolidRange = (0.05e-3, 0.2);
    private static readonly (double From, double To) SkinFactor = (0.02, 20);

    /// <summary>Thickness and mass of the solid top that equals the board.</summary>
    /// <param name="criterion">What is held equal.</param>
    /// <param name="board">The board's layup.</param>
    /// <param name="wood">The solid's wood.</param>
    /// <param name="area">m².</param>
    /// <param name="rectangle">Equivalent rectangle, where the criterion needs it.</param>
    /// <param name="boardMass">The board's mass, kg, where it is more than its sandwich on the area: with let-in wood; without bars.</param>
    /// <returns>The solid, and the mass saved.</returns>
    /// <exception cref="NoSolidException">None between 0.05 and 200 mm equals the board.</exception>
    public static SolidEquivalent Solid(
        StiffnessCriterion criterion, Laminate board, Wood wood, double area, EquivalentRectangle? rectangle, double? boardMass = null)
    {
        double target = Math.Log(StiffnessMeasure.Of(criterion, board, rectangle));
        if (!Brent.TryFindRoot(
            t => Math.Log(StiffnessMeasure.Of(criterion, Board.SolidPlate(wood, Math.Exp(t)), rectangle)) - target,
            Math.Log(SolidRange.From), Math.Log(SolidRange.To), 1e-10, 100, out double root))
        {
            throw new NoSolidException(wood.Name);
        }

        double thickness = Math.Exp(root);
        double mass = wood.Density.Value * thickness * area, saved = mass - (boardMass ?? board.ArealMass * area);
        return new(criterion, thickness, mass, saved, saved / mass);
    }

    /// <summary>The skins, both scaled alike, that make the board as stiff as the solid top it names.</summary>
    /// <param name="criterion">What is held equal.</param>
    /// <param name="board">The board; its solid top has a thickness.</param>
    /// <returns>The skins, or nothing where no scaling between 1/50 and 20 times reaches the solid.</returns>
    /// <exception cref="ArgumentException">The board names no thickness of solid top.</exception>
    public static MatchingSkins? Skins(StiffnessCriterion criterion, Board board)
    {
        if (board.Solid.Thickness is not { } thickness)
        {
            throw new ArgumentException("The solid top has no thickness to be matched.", nameof(board));
        }

        EquivalentRectangle? rectangle = EquivalentRectangle.Of(board.Size);
        Laminate solid = Board.SolidPlate(board.Solid.Wood, thickness.Value);
        double target = Math.Log(StiffnessMeasure.Of(criterion, solid, rectangle));
        if (!Brent.TryFindRoot(
            t => Math.Log(StiffnessMeasure.Of(criterion, Scaled(board, Math.Exp(t)).Laminate(), rectangle)) - target,
            Math.Log(SkinFactor.From), Math.Log(SkinFactor.To), 1e-10, 100, out double root))
        {
            return null;
        }

        return Matched(criterion, board, Scaled(board, Math.Exp(root)), solid);
    }

    /// <summary>What a board saves beside a solid top of its wood, kg, both without bars.</summary>
    /// <param name="board">The board.</param>
    /// <param name="thickness">The solid's, m.</param>
    /// <returns>Solid minus board.</returns>
    public static double Saved(Board board, double thickness) =>
        board.Solid.Wood.Density.Value * thickness * board.Size.Area - board.MassWithoutBars(board.Laminate());

    /// <summary>What a board with other skins weighs beside a solid top.</summary>
    internal static MatchingSkins Matched(StiffnessCriterion criterion, Board board, Board match, Laminate solid)
    {
        double mass = match.MassWithoutBars(match.Laminate()), solidMass = solid.ArealMass * board.Size.Area;
        return new(criterion, match.Outer.Thickness.Value, match.Inner.Thickness.Value, mass, solidMass - mass, (solidMass - mass) / solidMass);
    }

    /// <summary>The board with both skins scaled alike.</summary>
    internal static Board Scaled(Board board, double factor) => board with
    {
        Outer = board.Outer with { Thickness = board.Outer.Thickness.Times(factor) },
        Inner = board.Inner with { Thickness = board.Inner.Thickness.Times(factor) },
    };
}
