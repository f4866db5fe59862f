using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates.Reduced;

namespace SandwichMech.Benchmarks;

/// <summary>Boards of one outline through the reduced model, beside a full solve of each at the same accuracy.</summary>
/// <remarks>The full solve is the rival: what <see cref="PlateBenchmark"/> holds against others. The model answers for any skins, core, glue and woods of its usual range.</remarks>
internal static class ReducedBenchmark
{
    private const double Wanted = 1e-3, LeastOverFull = 50;
    private const int Boards = 50, Compared = 4, Rounds = 6, MostSolves = 60;

    internal static bool Run()
    {
        var plate = PlateCase.Of(EdgeHold.Clamped);
        BoardRange range = BoardRange.Usual(plate.Board);
        ReducedPlate model = null!;
        Cost build = Stopclock.Cost(() => model = ReducedPlate.Build(plate.Board, range));
        var random = new Random(7);
        Board[] boards = [.. Enumerable.Range(0, Boards).Select(_ => range.At(plate.Board, [.. range.Inputs.Select(_ => random.NextDouble())]))];
        Cost reduced = Cost.None, full = Cost.None;
        int answered = 0;
        for (int i = 0; i < Rounds; i++)
        {
            reduced = reduced.Or(Stopclock.Cost(() => answered = boards.Count(b => model.Solve(b).WhyNot is null)));
            full = full.Or(Stopclock.Cost(() => (plate with { Board = boards[i] }).Cold(Wanted)));
        }

        double worst = 0, stated = 0;
        foreach (Board board in boards[..Compared])
        {
            ReducedModes modes = model.Solve(board);
            double[] exact = PlateCase.Frequencies((plate with { Board = board }).Cold(Wanted / 10));
            worst = Math.Max(worst, PlateCase.Error([.. modes.Frequencies], exact));
            stated = Math.Max(stated, modes.Errors.Max());
        }

        double each = reduced.Processor / Boards;
        ReducedReport report = model.Content.Report;
        Report.Line($"{range.Inputs.Count} inputs free, {PlateCase.Modes} modes, {Wanted:P1} wanted; {string.Join(" and ", model.Content.Parts.Select(p => p.Flexible))} vectors of {report.Unknowns} unknowns");
        Report.Line($"built in {build.Processor:F1} s of processor time; a board {1e3 * each:F2} ms, {1 / each:F0} boards a second and core; a full solve {1e3 * full.Processor:F0} ms");
        Report.Line($"{answered} of {Boards} boards are within what it relies on; largest error of {Compared} boards against a tenth of the error wanted: {worst:P3}, stated {stated:P3}");
        return Report.Gate("times faster than a full solve", full.Processor / each, full.Processor >= LeastOverFull * each, $"at least {LeastOverFull}")
            & Report.Gate("largest error, %", 100 * worst, worst <= Wanted, $"at most {100 * Wanted}", "F3")
            & Report.Gate("full solves to build it", report.Solves, report.Solves <= MostSolves, $"at most {MostSolves}", "F0");
    }
}
