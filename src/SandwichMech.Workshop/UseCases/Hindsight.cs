using System.Text.Json.Serialization;
using SandwichMech.Core.Building;
using SandwichMech.Workshop.Log;

namespace SandwichMech.Workshop.UseCases;

/// <summary>A reading beside what was predicted of it at the time.</summary>
/// <param name="Board">The board's number.</param>
/// <param name="Stage">When.</param>
/// <param name="Figure">What: "board", "inner skin".</param>
/// <param name="Unit">SI.</param>
/// <param name="Predicted">Median.</param>
/// <param name="Low90">Low end of the 90 % interval.</param>
/// <param name="High90">High end.</param>
/// <param name="Read">As it was read.</param>
/// <param name="Version">Version of the tool that predicted it.</param>
public sealed record HindsightRow(int Board, string Stage, string Figure, string Unit, double Predicted, double Low90, double High90, double Read, string Version)
{
    /// <summary>Whether the reading lies in the interval.</summary>
    public bool IsWithin => Read >= Low90 && Read <= High90;
}

/// <summary>How a figure turned out over several boards.</summary>
/// <param name="Stage">When.</param>
/// <param name="Figure">What.</param>
/// <param name="Readings">How many.</param>
/// <param name="MeanOff">Mean of read over predicted, less 1.</param>
/// <param name="Within">How many lay in their 90 % interval.</param>
/// <param name="IsBiased">Whether the mean is off by more than chance would have it (two standard errors, from three boards on).</param>
public sealed record HindsightSum(string Stage, string Figure, int Readings, double MeanOff, int Within, bool IsBiased);

/// <summary>What `log hindsight` answers.</summary>
/// <param name="Boards">How many boards were looked at, the newest.</param>
/// <param name="Rows">Each reading that had been predicted.</param>
/// <param name="Sums">The same by figure.</param>
/// <param name="Within">Share of all readings in their 90 % interval; nothing without any.</param>
public sealed record HindsightResult(int Boards, IReadOnlyList<HindsightRow> Rows, IReadOnlyList<HindsightSum> Sums, [property: JsonPropertyName("within_share")] double? Within);

/// <summary>Holds what was predicted against what was read, as it was predicted at the time.</summary>
public static class Hindsight
{
    private const int MostBoards = 100, FewestForBias = 3;

    /// <summary>Looks back.</summary>
    /// <param name="log">The log.</param>
    /// <param name="number">A board; nothing for the newest hundred.</param>
    /// <returns>Rows in the order of boards and stages.</returns>
    public static HindsightResult Of(ShopLog log, int? number)
    {
        IReadOnlyList<LoggedBoard> boards = number is { } n ? [log.Board(n)] : log.NewestBoards(MostBoards);
        HindsightRow[] rows = [.. boards.SelectMany(b => OfBoard(b.Number, log.BoardEntries(b.Number)))];
        HindsightSum[] sums = [.. rows.GroupBy(r => (r.Stage, r.Figure)).Select(Sum)];
        return new(boards.Count, rows, sums, rows.Length == 0 ? null : (double)rows.Count(r => r.IsWithin) / rows.Length);
    }

    private static IEnumerable<HindsightRow> OfBoard(int board, IReadOnlyList<LogEntry> entries)
    {
        foreach (LogEntry e in entries.Where(e => e.Built is not null && e.CorrectedBy is null).OrderBy(e => e.Built!.Stage).ThenBy(e => e.Number))
        {
            BuildReading read = e.Built!;
            // A correction is held against what was predicted before the reading that it puts right.
            long first = First(e, entries);
            GivenPrediction? given = entries.LastOrDefault(p => p.Number < first && p.Given is { } g && g.Stage == read.Stage && g.Figure == BuildWords.Of(read.Quantity))?.Given;
            if (given is not null) { yield return new(board, BuildWords.Of(read.Stage), given.Figure, given.Unit, given.Value, given.Low90, given.High90, read.Mean, given.Version); }
        }
    }

    private static long First(LogEntry entry, IReadOnlyList<LogEntry> entries)
    {
        while (entry.Corrects is { } number && entries.FirstOrDefault(e => e.Number == number) is { } before) { entry = before; }
        return entry.Number;
    }

    private static HindsightSum Sum(IGrouping<(string Stage, string Figure), HindsightRow> of)
    {
        double[] off = [.. of.Select(r => r.Read / r.Predicted - 1)];
        double mean = off.Average(), deviation = off.Length > 1 ? Math.Sqrt(off.Sum(o => (o - mean) * (o - mean)) / (off.Length - 1)) : 0;
        return new(of.Key.Stage, of.Key.Figure, off.Length, mean, of.Count(r => r.IsWithin), off.Length >= FewestForBias && Math.Abs(mean) > 2 * deviation / Math.Sqrt(off.Length));
    }
}
