using MathNet.Numerics.LinearAlgebra;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Predictions;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Tables;

namespace SandwichMech.Benchmarks;

/// <summary>How many layups are estimated in a second on one core, beside a named piece of work of known size.</summary>
/// <remarks>
/// One layup is everything that a board is chosen by (<see cref="BoardFigures.Of(Board)"/>): stiffness, mass, softening,
/// five modes of the rectangle and the equal solid by five criteria. The rival is one symmetric eigenvalue decomposition
/// of a 20 × 20 matrix by MathNet.Numerics: it has nothing to do with boards, but everybody knows how much work it is, and
/// it makes the figure comparable between machines.
/// </remarks>
internal static class LayupBenchmark
{
    private const int Rounds = 15, Batch = 2000, RivalBatch = 400, RivalSize = 20;
    private const double LeastPerSecond = 10_000;

    internal static bool Run()
    {
        Board[] boards = Boards();
        Matrix<double> matrix = SymmetricMatrix();
        double checkSum = 0;
        double Layups() => Stopclock.Seconds(() => Array.ForEach(boards, b => checkSum += BoardFigures.Of(b).Mass)) / Batch;
        double Rival() => Stopclock.Seconds(() =>
        {
            for (int i = 0; i < RivalBatch; i++)
            {
                checkSum += matrix.Evd(Symmetricity.Symmetric).D[0, 0];
            }
        }) / RivalBatch;

        Pairs pairs = Pairs.Measure(Rounds, warmUps: 5, Layups, Rival);
        if (!double.IsFinite(checkSum))
        {
            throw new InvalidOperationException("A layup gave no finite mass.");
        }

        double perSecond = 1 / pairs.Ours;
        Report.Line($"one layup {pairs.Ours * 1e6:F1} µs, one {RivalSize} × {RivalSize} symmetric eigenvalue decomposition {pairs.Rival * 1e6:F1} µs: ratio {pairs.Ratio:F2}");
        return Report.Gate("layups per second on one core", perSecond, perSecond >= LeastPerSecond, $"at least {LeastPerSecond:F0}", "F0");
    }

    // No two boards alike, so that nothing can be remembered from one to the next.
    private static Board[] Boards()
    {
        Board board = BoardFiles.Read(Path.Combine(Repository.Root, "shared", "demo", "board.toml"), MaterialTables.BuiltIn()).Board;
        return [.. Enumerable.Range(0, Batch).Select(i =>
        {
            double factor = 0.7 + 0.6 * i / Batch;
            return board with
            {
                Outer = board.Outer with { Thickness = board.Outer.Thickness.Times(factor) },
                Core = board.Core with { Height = board.Core.Height.Times(1.7 - factor) },
            };
        })];
    }

    private static Matrix<double> SymmetricMatrix() =>
        Matrix<double>.Build.Dense(RivalSize, RivalSize, (i, j) => 1.0 / (i + j + 1) + (i == j ? i : 0));
}
