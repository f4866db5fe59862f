using System.Diagnostics;
using System.Globalization;
using SandwichMech.Core.Building;
using SandwichMech.Workshop.Log;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.Tests.Log;

/// <summary>What some number of kills came to.</summary>
/// <param name="Kills">Programs that were killed while they wrote.</param>
/// <param name="Amid">Of those that wrote alone, how many were killed after a stage was begun and before it was acknowledged.</param>
/// <param name="Acknowledged">Stages that were acknowledged.</param>
/// <param name="Lost">Of those, how many were not in the log afterwards, at once or at the end.</param>
/// <param name="Halves">Stages that were in the log by half.</param>
/// <param name="Unacknowledged">Stages that were in the log whole, and whose program was killed before it could say so.</param>
/// <param name="Wrong">What `log check` found, every so many kills and at the end.</param>
internal sealed record KillResult(int Kills, int Amid, int Acknowledged, int Lost, int Halves, int Unacknowledged, IReadOnlyList<string> Wrong);

/// <summary>Programs that write a build into a log without pause are killed at a random moment: alone, and two at once.</summary>
/// <remarks>
/// A program says "w BOARD STAGE" before it begins to write a stage, and "a BOARD STAGE" when it is acknowledged. A kill shows what is left when
/// a program ends anywhere in its work; what the disk keeps when the current goes it cannot show.
/// </remarks>
internal static class KillTrial
{
    private const string Variable = "SANDWICHMECH_TEST_BUILDS";
    private const int LongestWait = 30, Stages = 10, Readings = 5, TwoAtOnceEvery = 4;

    /// <summary>Writes until it is killed, where this is the program to be killed; else nothing.</summary>
    internal static void WriteIfAsked()
    {
        if (Environment.GetEnvironmentVariable(Variable) is not { } file) { return; }
        using Stream said = Console.OpenStandardOutput();
        using ShopLog log = ShopLog.Open(file);
        while (true)
        {
            int board = log.StartBoard(new("invented", "board.toml", "", new string('0', 64), 0, [])).Number;
            for (int stage = 0; stage < Stages; stage++)
            {
                Say('w', board, stage);
                log.AddBuild(board, [.. Enumerable.Range(0, Readings).Select(q => new TypedBuildReading(new((BuildStage)stage, (BuildQuantity)q, [0.001 * (board + q)], 0.001), Typed(board, stage, q)))]);
                Say('a', board, stage);
            }
        }

        // One write of the system each: what was said is said, whatever happens next.
        void Say(char what, int board, int stage)
        {
            said.Write(System.Text.Encoding.ASCII.GetBytes(string.Create(CultureInfo.InvariantCulture, $"{what} {board} {stage}\n")));
            said.Flush();
        }
    }

    /// <summary>Kills programs that write into one log.</summary>
    /// <param name="file">The log, which is not there yet.</param>
    /// <param name="kills">How many to kill.</param>
    /// <param name="seed">Of the moments.</param>
    /// <param name="checkEvery">After how many kills the whole log is checked.</param>
    internal static KillResult Run(string file, int kills, int seed, int checkEvery)
    {
        var moments = new Random(seed);
        var acknowledged = new List<(int Board, int Stage)>();
        var wrong = new List<string>();
        (int killed, int amid, int lost, int halves, int silent, int sinceCheck) = (0, 0, 0, 0, 0, 0);
        for (int round = 0; killed < kills; round++)
        {
            int together = round % TwoAtOnceEvery == TwoAtOnceEvery - 1 && kills - killed > 1 ? 2 : 1;
            Process[] writers = [.. Enumerable.Range(0, together).Select(_ => Start(file))];
            var said = new List<(char What, int Board, int Stage)>();
            foreach (Process writer in writers)
            {
                // A program that is up writes; where in a stage it is, chance decides.
                string first = writer.StandardOutput.ReadLine() ?? throw new InvalidOperationException("the writing program ended by itself: " + writer.StandardError.ReadToEnd());
                Thread.Sleep(moments.Next(LongestWait));
                Thread.SpinWait(moments.Next(100_000));
                writer.Kill();
                (char What, int Board, int Stage)[] lines = [.. (first + "\n" + writer.StandardOutput.ReadToEnd()).Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(Line)];
                writer.WaitForExit();
                writer.Dispose();
                amid += together == 1 && lines[^1].What == 'w' ? 1 : 0;
                said.AddRange(lines);
            }

            killed += together;
            sinceCheck += together;
            using ShopLog log = ShopLog.Open(file);
            (int Board, int Stage)[] done = [.. said.Where(s => s.What == 'a').Select(s => (s.Board, s.Stage))];
            acknowledged.AddRange(done);
            var there = said.Select(s => s.Board).Distinct().SelectMany(b => Kept(log, b)).ToDictionary(k => (k.Board, k.Stage), k => k.IsWhole);
            lost += done.Count(d => !there.GetValueOrDefault(d));
            halves += there.Count(t => !t.Value);
            silent += there.Count(t => t.Value && !done.Contains(t.Key));
            if (sinceCheck >= checkEvery || killed >= kills)
            {
                sinceCheck = 0;
                wrong.AddRange(KeepBuild.Check(log).Wrong);
            }
        }

        // Nothing that was there once went away later.
        using ShopLog end = ShopLog.Open(file);
        lost += acknowledged.GroupBy(a => a.Board).Sum(b => Kept(end, b.Key).Where(k => k.IsWhole).Select(k => k.Stage).ToHashSet() is var whole ? b.Count(a => !whole.Contains(a.Stage)) : 0);
        return new(killed, amid, acknowledged.Count, lost, halves, silent, wrong);
    }

    private static Process Start(string file) => Process.Start(new ProcessStartInfo("dotnet", [typeof(KillTrial).Assembly.Location])
    {
        RedirectStandardOutput = true,
        RedirectStandardError = true,
        Environment = { [Variable] = file },
    })!;

    // Stages of a board that are in the log, and whether each is there with all its readings as they were written.
    private static IEnumerable<(int Board, int Stage, bool IsWhole)> Kept(ShopLog log, int board) =>
        log.BuildReadings(board).GroupBy(e => (int)e.Built!.Stage).Select(s => (board, s.Key, s.Select(e => e.AsTyped).SequenceEqual(Enumerable.Range(0, Readings).Select(q => Typed(board, s.Key, q)))));

    private static string Typed(int board, int stage, int quantity) => string.Create(CultureInfo.InvariantCulture, $"{board} {stage} {quantity}");

    private static (char What, int Board, int Stage) Line(string line) => line.Split(' ') is [var what, var board, var stage]
        ? (what[0], int.Parse(board, CultureInfo.InvariantCulture), int.Parse(stage, CultureInfo.InvariantCulture))
        : throw new InvalidOperationException($"the writing program said '{line}'");
}
