using SandwichMech.Core.Choosing;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Predictions;
using SandwichMech.Workshop.Boards;

namespace SandwichMech.Workshop.UseCases;

/// <summary>A sweep's boards on their outline.</summary>
internal sealed class SweptOutline
{
    // So many values of each thickness are commonly solved at most, for the share done.
    private const double Commonly = 5;

    private readonly BoardFile _file;
    private readonly OutlineFrame _frame;
    private readonly Func<Board, FirstModes, OutlineCriterion>? _criterion;

    private SweptOutline(BoardFile file, OutlineFrame frame, Func<Board, FirstModes, OutlineCriterion>? criterion) => (_file, _frame, _criterion) = (file, frame, criterion);

    /// <summary>Whether solid tops are looked for on the outline.</summary>
    internal bool HasSolids => _criterion is not null;

    /// <summary>Estimated numerical error of the modes so far, relative.</summary>
    internal double Error { get; private set; }

    /// <summary>What is in the model.</summary>
    internal string Means => $"{ModesBoard.Means(true, _file.Board.Shape!.Edge != EdgeHold.Free, OutlineSolving.NotIn(_file.Board.Shape, "box"))}; edge {OutlineSolving.EdgeWords(_file.Board.Shape)}";

    /// <summary>Prepares.</summary>
    /// <param name="file">The board as read.</param>
    /// <param name="middle">A board in the middle of the sweep.</param>
    /// <exception cref="InputException">The outline cannot be meshed.</exception>
    internal static SweptOutline Of(BoardFile file, Board middle) => OutlineSolving.Try(file, "modes", () =>
    {
        var frame = OutlineFrame.For(middle, BoardFigures.ModeCount, SolidsOnOutline.Accuracy);
        Func<Board, FirstModes, OutlineCriterion>? criterion = file.Criterion switch
        {
            StiffnessCriterion.FirstMode => (board, modes) => OutlineCriterion.FirstMode(frame, board, modes),
            StiffnessCriterion.MidSpanDeflection when SolidsOnOutline.AtBridge(middle) is not null => (board, _) => SolidsOnOutline.AtBridge(board.UnderWeight())!,
            _ => null,
        };
        return new SweptOutline(file, frame, criterion);
    });

    /// <summary>All boards of the sweep, in its order; few of them need a solution.</summary>
    /// <exception cref="InputException">No solid top equals one of them.</exception>
    internal IReadOnlyList<OutlineRow> Rows(IReadOnlyList<Varied> varied, Func<double[], Board> at, Action<double> progress)
    {
        int solved = 0;
        double expected = varied.Aggregate(1.0, (n, v) => n * Math.Min(Commonly, v.Values.Count));
        try
        {
            IReadOnlyList<OutlineRow> rows = OutlineSolving.Try(_file, "modes", () => OutlineSweep.Of(
                _frame, [.. varied.Select(v => v.Values)], at, _criterion, _ => progress(Math.Min(0.95, ++solved / expected))));
            Error = rows.Max(r => r.Error);
            return rows;
        }
        catch (NoSolidException e)
        {
            throw SolidsOnOutline.Refusal(_file, e);
        }
    }
}
