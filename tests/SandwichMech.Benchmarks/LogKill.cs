using SandwichMech.Tests.Log;

namespace SandwichMech.Benchmarks;

/// <summary>A thousand programs are killed while they write builds into one log: what they acknowledged has to be there, and the log whole.</summary>
internal static class LogKill
{
    private const int Kills = 1000, FewestAmid = 300, Seed = 2, CheckEvery = 50;

    internal static bool Run()
    {
        DirectoryInfo folder = Directory.CreateTempSubdirectory("sandwichmech-kill-");
        try
        {
            KillResult r = KillTrial.Run(Path.Combine(folder.FullName, "log.sqlite"), Kills, Seed, CheckEvery);
            Report.Line($"{r.Kills} kills, {r.Acknowledged} stages acknowledged, {r.Unacknowledged} whole though their program could not say so any more");
            foreach (string wrong in r.Wrong.Take(10)) { Report.Line($"{wrong}"); }
            bool met = Report.Gate("kills of a program that wrote alone, amid a stage", r.Amid, r.Amid >= FewestAmid, $"at least {FewestAmid}", "F0");
            met &= Report.Gate("acknowledged stages that are not there whole", r.Lost, r.Lost == 0 && r.Acknowledged > 0, $"0", "F0");
            met &= Report.Gate("stages that are there by half", r.Halves, r.Halves == 0, $"0", "F0");
            return met & Report.Gate("faults that `log check` found", r.Wrong.Count, r.Wrong.Count == 0, $"0", "F0");
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }
}
