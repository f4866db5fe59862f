using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Tables;

namespace SandwichMech.Benchmarks;

/// <summary>The board that every plate solver here is timed on: the demo outline, of classical size, with soundhole, edge band, hole ring and bridge patch, flat and without bars.</summary>
/// <param name="Edge">How its edge is held.</param>
/// <param name="Board">The board at its medians.</param>
internal sealed record PlateCase(EdgeHold Edge, Board Board)
{
    /// <summary>Flexible modes that are solved for.</summary>
    internal const int Modes = 20;

    // The reference's polynomials, and its triangles, m: within 0.003 % of order 7 on triangles of 15 mm.
    private const int ReferenceOrder = 6;
    private const double ReferenceSize = 0.018;

    internal string Name => Edge == EdgeHold.Free ? "free" : "clamped";

    /// <summary>Size that our solver begins with, m.</summary>
    internal double FirstSize => BoardPlate.FirstSize(BoardPlate.ShapeOf(Board).Outline);

    internal static PlateCase Of(EdgeHold edge)
    {
        Board board = BoardFiles.Read(Path.Combine(Repository.Root, "shared", "demo", "outline.toml"), MaterialTables.BuiltIn()).Board;
        return new(edge, board with { Shape = BoardPlate.ShapeOf(board) with { Edge = edge } });
    }

    /// <summary>The plate on a mesh of about a size.</summary>
    internal PlateProblem Problem(double size) => BoardPlate.Problem(Board, size).Problem;

    /// <summary>From mesh to frequencies, nothing known beforehand.</summary>
    internal PlateSolution Cold(double accuracy, int beyond = 0) => BoardPlate.Solve(Board, Modes, accuracy, beyond).Plate;

    /// <summary>Frequencies that every error of the plate theory is taken against, Hz.</summary>
    internal double[] Reference() => Frequencies(PlateSolver.Once(Problem(ReferenceSize), Modes, ReferenceOrder));

    internal static double[] Frequencies(PlateSolution solution) => [.. solution.Frequencies];

    /// <summary>Largest relative error of a mode.</summary>
    internal static double Error(IReadOnlyList<double> frequencies, IReadOnlyList<double> reference) =>
        reference.Select((f, i) => Math.Abs(frequencies[i] / f - 1)).Max();
}
