using SandwichMech.Core.Choosing;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;

namespace SandwichMech.Core.Predictions;

/// <summary>A figure of one plate on an outline that grows with its stiffness, and what moves it.</summary>
/// <param name="Log">Its logarithm.</param>
/// <param name="Change">Change of that for changed inputs, to first order by exact derivatives; a rim stays.</param>
/// <param name="Rim">Its derivative by the logarithm of a rim's spring.</param>
public record OutlineFigure(double Log, Func<Board, double> Change, double Rim);

/// <summary>The same of a solid top.</summary>
/// <param name="Log">Its logarithm.</param>
/// <param name="Change">Change of that for changed wood or bars, to first order; thickness and rim stay.</param>
/// <param name="Rim">Its derivative by the logarithm of a rim's spring.</param>
/// <param name="Slope">Its derivative by the logarithm of the thickness.</param>
/// <param name="Mode">Number of the solid's mode that was looked at, from 0, where one was.</param>
public sealed record SolidFigure(double Log, Func<Board, double> Change, double Rim, double Slope, int? Mode) : OutlineFigure(Log, Change, Rim);

/// <summary>What is held equal between a board and a solid top on its outline, with the same edge and, on a rim, the board's own.</summary>
public sealed record OutlineCriterion
{
    private const double Step = 1e-4;
    private const int Order = 5;

    private OutlineCriterion(Func<Board, OutlineFigure> of, Func<double, SolidFigure> ofSolid) => (Of, OfSolid) = (of, ofSolid);

    /// <summary>Which criterion.</summary>
    public required StiffnessCriterion Criterion { get; init; }
    /// <summary>How the edge is held, but for its stretches.</summary>
    public required EdgeHold Edge { get; init; }
    /// <summary>The board that it was made for.</summary>
    public required Board Board { get; init; }
    /// <summary>Estimated numerical error of its figure, relative, where it was looked at.</summary>
    public double? Error { get; init; }
    /// <summary>Its figure.</summary>
    public required OutlineFigure Own { get; init; }

    /// <summary>Figure of the board with other thicknesses.</summary>
    internal Func<Board, OutlineFigure> Of { get; }

    /// <summary>Figure of the solid top at a thickness, m.</summary>
    internal Func<double, SolidFigure> OfSolid { get; }

    /// <summary>Equal first mode in air: the frequency of the mode whose shape is the board's first.</summary>
    /// <param name="frame">Frame of the board or of one that differs in thickness.</param>
    /// <param name="board">The board.</param>
    /// <param name="modes">Its modes on that frame.</param>
    /// <returns>The criterion; Log is ln Hz.</returns>
    public static OutlineCriterion FirstMode(OutlineFrame frame, Board board, FirstModes modes)
    {
        double[] shape = modes.Shapes[0];
        return new(Of, OfSolid)
        {
            Criterion = StiffnessCriterion.FirstMode,
            Edge = BoardPlate.ShapeOf(board).Edge,
            Board = board,
            Own = Figure(board, modes.Modes[0]),
            Error = modes.Modes[0].Error,
        };

        OutlineFigure Of(Board b)
        {
            // The rim stays the first board's.
            FirstModes found = frame.Of(b, board);
            return Figure(b, found.Modes[frame.MostLike(shape, found)]);
        }

        SolidFigure OfSolid(double h)
        {
            FirstModes found = frame.OfSolid(board, h);
            int like = frame.MostLike(shape, found);
            PlateMode mode = found.Modes[like];
            Func<Board, double, double> change = frame.SolidChange(board, h, mode);
            return new(Math.Log(mode.Frequency), b => change(b, h), BoardModes.Rim(mode.Energy) / 2, Slope(t => change(board, h * Math.Exp(t))), like);
        }

        OutlineFigure Figure(Board b, PlateMode mode) => new(Math.Log(mode.Frequency), frame.Change(b, mode), BoardModes.Rim(mode.Energy) / 2);
    }

    /// <summary>Equal stiffness under the bridge: force onto its foot over the foot's mean sinking.</summary>
    /// <param name="board">The board; its shape is given.</param>
    /// <param name="edge">How its edge is held, but for its stretches.</param>
    /// <param name="foot">Border of the bridge's foot, inside the board.</param>
    /// <param name="withError">Whether the numerical error is wanted, for one more solution: as of the deflection under strings, from the order below.</param>
    /// <returns>The criterion; Log is ln N/m.</returns>
    /// <exception cref="UnsupportedPlateException">Nothing holds the board.</exception>
    /// <exception cref="DomainException">The curves cannot be meshed.</exception>
    public static OutlineCriterion AtBridge(Board board, EdgeHold edge, Curve foot, bool withError = false)
    {
        (PlateProblem frame, IReadOnlyList<SectionPlace> places) = BoardPlate.Problem(board, BoardPlate.FirstSize(BoardPlate.ShapeOf(board).Outline), edge, foot);
        OutlineFigure OfBoard(Board b)
        {
            (double log, Func<IReadOnlyList<PlateSection>, double> change, double rim) = At(BoardPlate.Sections(b, places));
            return new(log, x => change(BoardPlate.Sections(x, places)), rim);
        }

        SolidFigure OfSolid(double h)
        {
            (double log, Func<IReadOnlyList<PlateSection>, double> change, double rim) = At(SolidInPlace.Sections(board, places, h));
            return new(log, x => change(SolidInPlace.Sections(x, places, h)), rim, Slope(t => change(SolidInPlace.Sections(board, places, h * Math.Exp(t)))), null);
        }

        OutlineFigure own = OfBoard(board);
        return new(OfBoard, OfSolid)
        {
            Criterion = StiffnessCriterion.MidSpanDeflection,
            Edge = edge,
            Board = board,
            Own = own,
            Error = withError ? PlateSolver.Left * Math.Abs(Give(frame.Sections, Order - 1).Give * Math.Exp(own.Log) - 1) : null,
        };

        (PlateStatics Plate, PlateResponse Down, double Give) Give(IReadOnlyList<PlateSection> sections, int order)
        {
            var plate = PlateStatics.Of(frame with { Sections = sections }, order);
            PlateResponse down = plate.Respond([new(PlatePush.Deflect, foot)])[0];
            return (plate, down, PlateStatics.Movement(down, down));
        }

        (double Log, Func<IReadOnlyList<PlateSection>, double> Change, double Rim) At(IReadOnlyList<PlateSection> sections)
        {
            (PlateStatics plate, PlateResponse down, double give) = Give(sections, Order);
            Func<IReadOnlyList<PlateSection>, double> change = plate.Change(down, down);
            return (-Math.Log(give), s => -change(s) / give, RimCase.IsOn(board, edge) ? plate.EdgeEnergy(down, down) / give : 0);
        }
    }

    private static double Slope(Func<double, double> change) => (change(Step) - change(-Step)) / (2 * Step);
}
