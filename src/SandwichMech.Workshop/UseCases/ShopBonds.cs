using System.Globalization;
using System.Text.Json.Serialization;
using SandwichMech.Core.Building;
using SandwichMech.Workshop.Log;
using SandwichMech.Workshop.Tables;

namespace SandwichMech.Workshop.UseCases;

/// <summary>One bond of the shop.</summary>
/// <param name="Board">The board's number.</param>
/// <param name="Name">Its name.</param>
/// <param name="Bond">First or second bond.</param>
/// <param name="At">When the board was weighed after it, local time.</param>
/// <param name="Mixed">kg.</param>
/// <param name="Kept">kg.</param>
/// <param name="Deviation">Its standard deviation, kg.</param>
/// <param name="KeptShare">Kept over mixed.</param>
/// <param name="HasWitness">Whether a witness piece told the water lost.</param>
/// <param name="IsOut">Whether it lies outside the limits.</param>
public sealed record ShopBondRow(
    int Board,
    string Name,
    string Bond,
    string At,
    [property: JsonPropertyName("mixed_kg")] double Mixed,
    [property: JsonPropertyName("kept_kg")] double Kept,
    [property: JsonPropertyName("kept_deviation_kg")] double Deviation,
    double KeptShare,
    bool HasWitness,
    bool IsOut);

/// <summary>Mean and control limits of the shares.</summary>
public sealed record ShareChartRow(double Mean, double Low, double High);

/// <summary>What `log bonds` answers.</summary>
/// <param name="Log">The log's file.</param>
/// <param name="Bonds">In the order of time.</param>
/// <param name="Chart">Nothing with fewer than three bonds.</param>
/// <param name="ToDo">What follows from it, in words.</param>
public sealed record ShopBondsResult(string Log, IReadOnlyList<ShopBondRow> Bonds, ShareChartRow? Chart, IReadOnlyList<string> ToDo);

/// <summary>What the shop's bonds kept, in the order of time, as a control chart of single values.</summary>
public static class ShopBonds
{
    /// <summary>How many of the last bonds are looked at: a shop of years ago is another shop.</summary>
    public const int Most = 100;

    // Common practice, no source: limits from fewer values still move with each new one.
    private const int Settled = 20;

    // More than was mixed cannot stay but by errors of weighing; far more is a reading that is wrong.
    private const double MostShare = 1.5;

    /// <summary>Reads them from the log.</summary>
    /// <param name="log">The log.</param>
    /// <param name="tables">Where materials are looked up.</param>
    /// <returns>The bonds with mean, limits and what to do.</returns>
    public static ShopBondsResult Run(ShopLog log, MaterialTables tables)
    {
        var left = new List<string>();
        (ShopBondRow[] rows, bool more) = Weighed(log, tables, null, left);
        if (rows.Length < KeptShares.Fewest)
        {
            return new(log.File, rows, null, [string.Create(CultureInfo.InvariantCulture, $"{rows.Length} {(rows.Length == 1 ? "bond was" : "bonds were")} weighed; from {KeptShares.Fewest} on they have a mean and limits, and the share that your shop keeps goes before the table's. Weigh what you mix, and the board when it is out of the bag."), .. left]);
        }

        var chart = KeptShares.Of([.. rows.Select(r => r.KeptShare)]);
        rows = [.. rows.Select((r, i) => r with { IsOut = chart.Out.Contains(i) })];
        return new(log.File, rows, new(chart.Mean, chart.Low, chart.High), [.. ToDo(rows, chart), .. left, .. more ? [string.Create(CultureInfo.InvariantCulture, $"Only the last {Most} bonds are shown.")] : Array.Empty<string>()]);
    }

    /// <summary>Kept over mixed of the last bonds, in the order of time.</summary>
    /// <param name="log">The log.</param>
    /// <param name="tables">Where materials are looked up.</param>
    /// <param name="but">A board that is left out.</param>
    internal static IReadOnlyList<double> Shares(ShopLog log, MaterialTables tables, int but) => [.. Weighed(log, tables, but, []).Rows.Select(r => r.KeptShare)];

    // The last bonds, in the order of time; what cannot be is said and left out.
    private static (ShopBondRow[] Rows, bool More) Weighed(ShopLog log, MaterialTables tables, int? but, List<string> left)
    {
        var all = new List<(DateTimeOffset At, ShopBondRow Row)>();
        bool more = false;
        foreach (int number in log.BoardsWithMixed(Most, but))
        {
            if (more = all.Count >= Most) { break; }
            IReadOnlyList<LogEntry> written = log.BoardEntries(number), entries = ShopLog.InForceReadings(written);
            LogEntry begun = written.Last(e => e.Start is not null && e.CorrectedBy is null);
            LoggedBoard board = KeepBuild.Decided(new(number, begun.Start!, begun.At), written);
            BuildMasses masses = KeepBuild.Masses(board, [.. entries.Select(e => e.Built!)], tables);
            foreach (BuildStage stage in new[] { BuildStage.FirstBond, BuildStage.SecondBond })
            {
                if (masses.Balance(stage) is not { Mixed: { } mixed, Share: { } share } balance) { continue; }
                DateTimeOffset at = entries.Last(e => e.Built!.Stage == stage && e.Built.Quantity == BuildQuantity.BoardMass).At;
                var row = new ShopBondRow(board.Number, board.Start.Name, BuildWords.Of(stage), KeepBuild.Local(at), mixed, balance.Kept.Value, balance.Kept.Deviation, share, balance.WaterLost is not null, false);
                if (share is > 0 and < MostShare) { all.Add((at, row)); }
                else { left.Add($"Left out: {Named(row)}, {Percent(share)} of what was mixed, cannot be: put the reading that is wrong right with `sandwichmech log correct`."); }
            }
        }

        return ([.. all.OrderBy(b => b.At).TakeLast(Most).Select(b => b.Row)], more);
    }

    private static IEnumerable<string> ToDo(ShopBondRow[] rows, KeptShares chart)
    {
        if (chart.Out.Count == 0)
        {
            yield return $"All {rows.Length.ToString(CultureInfo.InvariantCulture)} lie within {Percent(chart.Low)} to {Percent(chart.High)}: what differs between them is chance in the way you work. Change nothing because of a single bond; to keep less or more, change one thing and look at the bonds after it.";
        }

        foreach (ShopBondRow row in rows.Where(r => r.IsOut))
        {
            bool high = row.KeptShare > chart.High;
            yield return $"{Named(row)}, kept {Percent(row.KeptShare)}, {(high ? "above" : "below")} {Percent(chart.Low)} to {Percent(chart.High)}: "
                + (high ? "look for more spread than usual, weak or late vacuum, a cold shop, or skins that were not weighed just before the bag; the board is heavier by it, and cells may print through." : "look for a starved joint (tap all over, dull places did not take), adhesive left on plate and roller, or parts that dried in the bag; before the second bond it can still be seen from inside.")
                + (row.HasWitness ? "" : " No witness piece was weighed, so water is in it too.")
                + " If a reading was wrong, `sandwichmech log correct` puts it right.";
        }

        if (rows.Length < Settled) { yield return $"The limits come from {rows.Length.ToString(CultureInfo.InvariantCulture)} bonds and still move with each new one; from some {Settled.ToString(CultureInfo.InvariantCulture)} on they hold still (common practice, no source)."; }
    }

    private static string Named(ShopBondRow row) => string.Create(CultureInfo.InvariantCulture, $"Board {row.Board}, {row.Bond}");

    private static string Percent(double share) => string.Create(CultureInfo.InvariantCulture, $"{100 * share:F0} %");
}
