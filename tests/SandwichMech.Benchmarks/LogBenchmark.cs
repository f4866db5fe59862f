using Microsoft.Data.Sqlite;
using SandwichMech.Tests.Log;
using SandwichMech.Workshop.Log;
using SandwichMech.Workshop.Tables;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.Benchmarks;

/// <summary>What a maker asks of a log of a million readings, beside reading all of its entries once through the database's library alone.</summary>
internal static class LogBenchmark
{
    private const int Boards = 10_000, Rounds = 7, WarmUps = 2;
    private const double MostOfAll = 0.1, MostSeconds = 0.3;

    internal static bool Run()
    {
        DirectoryInfo folder = Directory.CreateTempSubdirectory("sandwichmech-log-");
        try
        {
            string file = Path.Combine(folder.FullName, "log.sqlite");
            double written = Stopclock.Seconds(() => ManyBoards.Write(file, Boards));
            Report.Line($"{Boards} boards, {Boards * ManyBoards.Readings} readings written in one transaction in {written:F0} s; {new FileInfo(file).Length / 1e6:F0} MB");
            MaterialTables tables = MaterialTables.BuiltIn();
            bool met = Compare("log show", file, log => KeepBuild.Show(log, null));
            met &= Compare("log show BOARD", file, log => KeepBuild.Show(log, Boards / 2));
            met &= Compare("what plan BOARD reads of the log", file, log => KeepBuild.Build(log, Boards / 2, tables));
            CheckResult check = null!;
            double checking = Stopclock.Seconds(() =>
            {
                using ShopLog log = ShopLog.Open(file);
                check = KeepBuild.Check(log);
            });
            Report.Line($"log check {checking:F1} s, {check.Entries} entries; largest working set {Environment.WorkingSet / 1e6:F0} MB");
            return met & Report.Gate("faults that `log check` found", check.Wrong.Count, check.Wrong.Count == 0, $"0", "F0");
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static bool Compare(string what, string file, Action<ShopLog> ask)
    {
        Pairs pairs = Pairs.Measure(Rounds, WarmUps, () => Stopclock.Seconds(() =>
        {
            using ShopLog log = ShopLog.Open(file);
            ask(log);
        }), () => Stopclock.Seconds(() => ReadAll(file)));
        Report.Line($"{what} {pairs.Ours * 1000:F0} ms (wanted: below {MostSeconds * 1000:F0}), all entries through the database's library {pairs.Rival * 1000:F0} ms");
        return Report.Gate($"{what} over reading all", pairs.Ratio, pairs.Ratio <= MostOfAll, $"at most {MostOfAll}", "F3");
    }

    private static void ReadAll(string file)
    {
        using var log = new SqliteConnection($"Data Source={file};Mode=ReadOnly;Pooling=False");
        log.Open();
        using SqliteCommand command = log.CreateCommand();
        command.CommandText = "SELECT number, at_utc, board, kind, payload, as_typed FROM entries";
        using SqliteDataReader row = command.ExecuteReader();
        long length = 0;
        while (row.Read()) { length += row.GetString(4).Length + row.GetString(1).Length; }
        if (length == 0) { throw new InvalidOperationException("nothing was read"); }
    }
}
