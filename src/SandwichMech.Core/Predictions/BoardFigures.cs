using SandwichMech.Core.Choosing;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Predictions;

/// <summary>A board and how far the stand-in for its outline is off, for one evaluation.</summary>
/// <param name="Board">The board.</param>
/// <param name="OutlineShift">Shift of ln frequency for taking a rectangle in place of the outline.</param>
public sealed record BoardCase(Board Board, double OutlineShift);

/// <summary>All figures of one board at one set of values.</summary>
/// <param name="Laminate">Stiffness and mass per area.</param>
/// <param name="Mass">kg on the board's area.</param>
/// <param name="AdhesiveKept">kg in both bond lines.</param>
/// <param name="SofteningAlong">Hz above which shear takes more than 10 % of the stiffness along.</param>
/// <param name="SofteningAcross">The same across, Hz.</param>
/// <param name="Rectangle">The equivalent rectangle, where length and width are known.</param>
/// <param name="OutlineFactor">Factor on the rectangle's frequencies, 1 at the medians.</param>
/// <param name="Modes">Its lowest hinged modes in vacuo, lowest first; empty without a rectangle.</param>
/// <param name="Solids">The solid top of equal stiffness by each criterion that can be used.</param>
public sealed record BoardFigures(
    Laminate Laminate,
    double Mass,
    double AdhesiveKept,
    double SofteningAlong,
    double SofteningAcross,
    EquivalentRectangle? Rectangle,
    double OutlineFactor,
    IReadOnlyList<RectangleMode> Modes,
    IReadOnlyList<SolidEquivalent> Solids)
{
    /// <summary>How many modes are computed.</summary>
    public const int ModeCount = 5;

    /// <summary>Evaluates one board.</summary>
    /// <param name="board">The board at the values wanted.</param>
    /// <returns>Its figures.</returns>
    public static BoardFigures Of(Board board) => Of(new BoardCase(board, 0));

    /// <summary>Evaluates one board with its outline's stand-in shifted.</summary>
    /// <param name="at">Board and shift.</param>
    /// <returns>Its figures.</returns>
    public static BoardFigures Of(BoardCase at)
    {
        Board board = at.Board;
        Laminate laminate = board.Laminate();
        EquivalentRectangle? rectangle = EquivalentRectangle.Of(board.Size);
        return new(
            laminate,
            board.Mass(laminate),
            2 * board.Adhesive.Kept * board.Size.Area,
            WaveSoftening.Along(laminate),
            WaveSoftening.Across(laminate),
            rectangle,
            Math.Exp(at.OutlineShift),
            rectangle is { } r ? LowestModes(laminate, r, Math.Exp(at.OutlineShift)) : [],
            EqualSolids(laminate, board, rectangle));
    }

    /// <summary>Evaluates a board with the spread of everything that it depends on.</summary>
    /// <param name="board">The board at the medians.</param>
    /// <returns>The evaluations, from which the prediction of any figure is drawn.</returns>
    public static Propagation<BoardFigures> WithSpread(Board board)
    {
        var inputs = BoardInputs.Of(board)
            .Select(i => new UncertainInput<BoardCase>(i.Name, i.Spread, t => new(i.At(t), 0)))
            .Append(new("rectangle for outline", EquivalentRectangle.Spread, t => new(board, t)));
        return Propagation.Through(new BoardCase(board, 0), inputs, Of);
    }

    /// <summary>Evaluates boards drawn from the spread of everything that the board depends on.</summary>
    /// <param name="board">The board at the medians.</param>
    /// <param name="draws">How many boards, and from which seed.</param>
    /// <returns>The evaluations, from which the prediction of any figure is drawn.</returns>
    public static Sampled<BoardFigures> Drawn(Board board, Draws draws) => Sampled.Through(
        new BoardCase(board, 0),
        BoardInputs.All(board).Select(i => i.Of<BoardCase>(c => c.Board, (c, b) => c with { Board = b }))
            .Append(new("rectangle for outline", EquivalentRectangle.Spread, (c, t) => c with { OutlineShift = c.OutlineShift + t })),
        Of,
        draws);

    /// <summary>Frequency of a mode by its half waves: at a shifted input the same mode, even where two have changed places.</summary>
    /// <param name="mode">The mode; its own frequency is not used.</param>
    /// <returns>Hz.</returns>
    /// <exception cref="InvalidOperationException">The board's length and width are not known.</exception>
    public double FrequencyOf(RectangleMode mode) => OutlineFactor * HingedRectangle.Frequency(
        Laminate,
        (Rectangle ?? throw new InvalidOperationException("The board has no length and width.")).Length,
        Rectangle.Value.Width,
        mode.HalfWavesAlong,
        mode.HalfWavesAcross);

    private static List<SolidEquivalent> EqualSolids(Laminate laminate, Board board, EquivalentRectangle? rectangle)
    {
        var solids = new List<SolidEquivalent>();
        double mass = board.MassWithoutBars(laminate);
        foreach (StiffnessCriterion c in StiffnessMeasure.All)
        {
            if (rectangle is not null || !StiffnessMeasure.NeedsRectangle(c))
            {
                solids.Add(EqualStiffness.Solid(c, laminate, board.Solid.Wood, board.Size.Area, rectangle, mass));
            }
        }

        return solids;
    }

    private static List<RectangleMode> LowestModes(Laminate laminate, EquivalentRectangle r, double factor) =>
        [.. HingedRectangle.Lowest(laminate, r.Length, r.Width, ModeCount).Select(m => m with { Frequency = m.Frequency * factor })];
}
