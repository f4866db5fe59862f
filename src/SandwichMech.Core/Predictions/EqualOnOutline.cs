using SandwichMech.Core.Choosing;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Predictions;

/// <summary>The solid top that equals a board on its outline.</summary>
/// <param name="Thickness">m.</param>
/// <param name="Mass">kg, without bars.</param>
/// <param name="Saved">Its mass less the board's, both without bars, kg.</param>
/// <param name="SavedShare">The same, of its mass.</param>
/// <param name="Figure">What they share: Hz, or N/m.</param>
/// <param name="Mode">Number of the solid's mode that is the board's first by its shape, from 0; nothing where no mode was looked at.</param>
public sealed record SolidOnOutline(Prediction Thickness, Prediction Mass, Prediction Saved, Prediction SavedShare, double Figure, int? Mode)
{
    /// <summary>Its thickness for changed inputs, to first order.</summary>
    internal Func<RimCase, double> ThicknessOf { get; init; } = _ => Thickness.Value;
}

/// <summary>Equal first mode and equal stiffness at the bridge, both ways, on the board's own outline.</summary>
/// <remarks>
/// Newton's method in the logarithms with exact derivatives: each trial is one solution of the plate, two or three in all. Intervals to first
/// order by the exact derivatives of both figures: with L the logarithms, L_solid(h, inputs) = L_board(inputs).
/// </remarks>
public static class EqualOnOutline
{
    private const int MostSteps = 12;
    private const double LongestStep = 0.7, Step = 1e-4;

    // So near, one more step by the exact slope leaves less than a millionth, and needs no further solution.
    private const double Near = 1e-3;

    // Any solid plate a maker could mean, and skins between these parts of the board's own.
    private static readonly (double From, double To) SolidRange = (0.05e-3, 0.2), SkinFactor = (0.02, 20);

    /// <summary>The solid top that equals the board.</summary>
    /// <param name="criterion">What is held equal, made for the board.</param>
    /// <param name="near">A thickness near the one sought, m, where one is known.</param>
    /// <returns>The solid; nothing where none of 0.05 to 200 mm equals it.</returns>
    public static SolidOnOutline? Solid(OutlineCriterion criterion, double? near = null)
    {
        (Board board, OutlineFigure own) = (criterion.Board, criterion.Own);
        if (Root(near ?? First(criterion), own.Log, SolidRange, criterion.OfSolid, (_, s) => s.Slope) is not var (thickness, solid)) { return null; }
        double ThicknessOf(RimCase c) => thickness * Math.Exp(
            (own.Change(c.Board) - solid.Change(c.Board) + (own.Rim - solid.Rim) * c.Shift) / solid.Slope);
        double area = BoardPlate.ShapeOf(board).Area;
        Propagation<(double H, double Solid, double Own)> figures = Propagation.Through(new RimCase(board, 0), RimCase.Inputs(board, criterion.Edge), c =>
        {
            double h = ThicknessOf(c);
            return (h, Board.SolidPlate(c.Board.Solid.Wood, h).ArealMass * area, c.Board.MassWithoutBars(c.Board.Laminate()));
        });
        return new(figures.Positive(x => x.H), figures.Positive(x => x.Solid), figures.OfEitherSign(x => x.Solid - x.Own),
            figures.OfEitherSign(x => 1 - x.Own / x.Solid), Math.Exp(own.Log), solid.Mode)
        {
            ThicknessOf = ThicknessOf,
        };
    }

    /// <summary>The skins, both scaled alike, that make the board equal the solid top it names.</summary>
    /// <param name="criterion">What is held equal, made for the board.</param>
    /// <returns>The skins, or nothing where no scaling between 1/50 and 20 times reaches the solid.</returns>
    /// <exception cref="ArgumentException">The board names no thickness of solid top.</exception>
    public static MatchingSkins? Skins(OutlineCriterion criterion)
    {
        Board board = criterion.Board;
        double thickness = board.Solid.Thickness?.Value ?? throw new ArgumentException("The solid top has no thickness to be matched.", nameof(criterion));
        double wanted = criterion.OfSolid(thickness).Log;
        Found<OutlineFigure>? found = Root(1, wanted, SkinFactor, s => criterion.Of(EqualStiffness.Scaled(board, s)),
            (s, at) => (at.Change(EqualStiffness.Scaled(board, s * (1 + Step))) - at.Change(EqualStiffness.Scaled(board, s * (1 - Step)))) / (2 * Step));
        return found is null ? null
            : EqualStiffness.Matched(criterion.Criterion, board, EqualStiffness.Scaled(board, found.X), Board.SolidPlate(board.Solid.Wood, thickness));
    }

    // A solid plate's stiffness goes with the cube of its thickness, its frequency with the thickness.
    private static double First(OutlineCriterion criterion)
    {
        const double some = 1e-3;
        Laminate board = criterion.Board.Laminate(), solid = Board.SolidPlate(criterion.Board.Solid.Wood, some);
        double stiffness = StiffnessMeasure.Of(StiffnessCriterion.GeometricMean, board, null) / StiffnessMeasure.Of(StiffnessCriterion.GeometricMean, solid, null);
        return some * (criterion.Criterion == StiffnessCriterion.FirstMode
            ? Math.Sqrt(stiffness * solid.ArealMass / board.ArealMass)
            : Math.Cbrt(stiffness));
    }

    private sealed record Found<T>(double X, T At);

    private static Found<T>? Root<T>(double start, double wanted, (double From, double To) range, Func<double, T> at, Func<double, T, double> slope) where T : OutlineFigure
    {
        double ln = Math.Log(start), from = Math.Log(range.From), to = Math.Log(range.To);
        for (int step = 0; step < MostSteps; step++)
        {
            double x = Math.Exp(ln);
            T now = at(x);
            double off = wanted - now.Log;
            double whole = off / slope(x, now);
            if (Math.Abs(off) < Near) { return new(x * Math.Exp(whole), now); }
            double move = Math.Clamp(whole, -LongestStep, LongestStep), next = Math.Clamp(ln + move, from, to);
            // At an end of the range, and it points out of it.
            if (!(Math.Abs(next - ln) > 0)) { return null; }
            ln = next;
        }

        return null;
    }
}
