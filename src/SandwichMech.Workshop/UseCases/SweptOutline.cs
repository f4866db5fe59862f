using SandwichMech.Core.Choosing;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Predictions;
using SandwichMech.Workshop.Boards;

namespace SandwichMech.Workshop.UseCases;

/// <summary>A sweep's boards on their outline.</summary>
internal sealed class SweptOutline
{
    // Most of the boards of a line that are commonly solved, for the share done.
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
            StiffnessCriterion.MidSpanDeflection when SolidsOnOutline.AtBridge(middle) is not null => (board, _) => SolidsOnOutline.AtBridge(board)!,
            _ => null,
        };
        return new SweptOutline(file, frame, criterion);
    });

    /// <summary>Solves all boards of the sweep, in its order, in lines along the thickness with more values: of a line few boards need a solution.</summary>
    /// <exception cref="InputException">No solid top equals one of them.</exception>
    internal OutlineRow[] Rows(IReadOnlyList<Varied> varied, Func<double[], Board> at, Action<double> progress)
    {
        if (varied.Count == 1) { return [.. Line(varied[0].Values, v => at([v]), progress)]; }
        (IReadOnlyList<double> first, IReadOnlyList<double> second) = (varied[0].Values, varied[1].Values);
        bool alongSecond = second.Count >= first.Count;
        IReadOnlyList<double> lines = alongSecond ? first : second, along = alongSecond ? second : first;
        var rows = new OutlineRow[first.Count * second.Count];
        for (int i = 0; i < lines.Count; i++)
        {
            double here = lines[i];
            IReadOnlyList<OutlineRow> line = Line(along, v => at(alongSecond ? [here, v] : [v, here]), share => progress((i + share) / lines.Count));
            for (int k = 0; k < line.Count; k++) { rows[alongSecond ? i * second.Count + k : k * second.Count + i] = line[k]; }
        }

        return rows;
    }

    private IReadOnlyList<OutlineRow> Line(IReadOnlyList<double> thicknesses, Func<double, Board> at, Action<double> progress)
    {
        int solved = 0;
        try
        {
            IReadOnlyList<OutlineRow> rows = OutlineSolving.Try(_file, "modes", () => OutlineLine.Of(
                _frame, thicknesses, at, _criterion, _ => progress(Math.Min(0.95, ++solved / Math.Min(Commonly, thicknesses.Count)))));
            Error = Math.Max(Error, rows.Max(r => r.Error));
            return rows;
        }
        catch (NoSolidException e)
        {
            throw SolidsOnOutline.Refusal(_file, e);
        }
    }
}
