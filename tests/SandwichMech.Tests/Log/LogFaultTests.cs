using System.Diagnostics;
using System.Security.Cryptography;
using Microsoft.Data.Sqlite;
using SandwichMech.Tests.EndToEnd;
using SandwichMech.Workshop.Log;

namespace SandwichMech.Tests.Log;

/// <summary>What disks, rights and other programs do to a log: one clear line each, the exit code, and the log as it was.</summary>
[Trait("Check", "exact")]
public class LogFaultTests
{
    private const int Flips = 50, HeadFlips = 24, Seed = 5;

    [Fact]
    public void A_file_that_may_not_grow_as_on_a_full_disk_keeps_the_log_as_it_was()
    {
        using var folder = new TemporaryFolder();
        string file = Filled(folder, 3);
        byte[] before = Hash(file);
        // The shell's units are 512 or 1024 bytes: room for the database's own small files, and none for the note.
        Commanded full = Program("trap '' XFSZ; ulimit -f 100; exec \"$@\"", file, "log", "note", "1", new string('x', 120_000));
        OneLine(full, 1, "the disk is full");
        Assert.Equal(before, Hash(file));
        Assert.Equal(0, Commanded.Run("--log", file, "log", "note", "1", new string('x', 120_000)).Code);
        Assert.Contains("All of it is whole", Commanded.Run("--log", file, "log", "check").Out, StringComparison.Ordinal);
    }

    // Root may write anywhere until it gives that right away, which is what setpriv (util-linux) does; to others the file's rights are enough.
    [Fact]
    public void A_file_and_a_folder_that_may_not_be_written_keep_the_log_as_it_was()
    {
        using var folder = new TemporaryFolder();
        string file = Filled(folder, 3);
        byte[] before = Hash(file);
        string bound = Environment.IsPrivilegedProcess ? "exec setpriv --bounding-set=-all --inh-caps=-all \"$@\"" : "exec \"$@\"";
        Mode("444", file);
        OneLine(Program(bound, file, "log", "note", "1", "x"), 1, "cannot be opened for writing");
        Mode("555", folder.Path);
        try
        {
            OneLine(Program(bound, file, "log", "note", "1", "x"), 1, "cannot be opened for writing");
            OneLine(Program(bound, folder.File("new.sqlite"), "log", "start", Commanded.Demo), 1, "new.sqlite");
        }
        finally
        {
            Mode("755", folder.Path);
            Mode("644", file);
        }

        Assert.Equal(before, Hash(file));
        Assert.Equal(0, Commanded.Run("--log", file, "log", "note", "1", "x").Code);
    }

    [Fact]
    public void A_program_that_does_not_let_go_of_the_log_is_waited_for_and_then_told_of()
    {
        using var folder = new TemporaryFolder();
        string file = Filled(folder, 3);
        byte[] before = Hash(file);
        using (var other = new SqliteConnection($"Data Source={file};Pooling=False"))
        {
            other.Open();
            using SqliteTransaction holds = other.BeginTransaction(deferred: false);
            OneLine(Program("exec \"$@\"", file, "log", "note", "1", "x"), 1, "in use by another program");
            // Reading goes on meanwhile.
            Assert.Equal(0, Program("exec \"$@\"", file, "log", "show").Code);
        }

        Assert.Equal(before, Hash(file));
        Assert.Equal(0, Commanded.Run("--log", file, "log", "note", "1", "x").Code);
    }

    [Fact]
    public void A_log_cut_short_anywhere_is_told_as_damaged()
    {
        using var folder = new TemporaryFolder();
        string file = Filled(folder, 3), cut = folder.File("cut.sqlite");
        byte[] whole = File.ReadAllBytes(file);
        foreach (int length in new[] { 1, 50, 100, 4095, 4096, 4097, whole.Length / 3, whole.Length / 2, whole.Length - 4096, whole.Length - 1 })
        {
            File.WriteAllBytes(cut, whole[..length]);
            foreach (string[] words in new[] { new[] { "log", "show" }, ["log", "show", "1"], ["log", "note", "1", "x"], ["log", "check"], ["piece", "list"] })
            {
                OneLine(Commanded.Run(["--log", cut, .. words]), 2, "log");
            }

            Assert.Equal(length, new FileInfo(cut).Length);
        }
    }

    /// <summary>One bit of a log of some MB turns round, anywhere, and in its head: either all reads as before, or `log check` tells of it.</summary>
    [Fact]
    public void A_flipped_bit_does_no_harm_or_is_told_of()
    {
        using var folder = new TemporaryFolder();
        string file = Filled(folder, 100), bad = folder.File("bad.sqlite");
        byte[] whole = File.ReadAllBytes(file);
        Assert.InRange(whole.Length, 2_000_000, 10_000_000);
        string before = Export(file)!;
        var chance = new Random(Seed);
        int told = 0;
        for (int flip = 0; flip < Flips + HeadFlips; flip++)
        {
            // The head, the tables' making and the first pages are few among many, and most depends on them.
            long bit = flip < Flips ? chance.NextInt64(8L * whole.Length) : flip % 2 == 0 ? chance.Next(8 * 100) : chance.Next(8 * 4 * 4096);
            byte[] flipped = [.. whole];
            flipped[bit / 8] ^= (byte)(1 << (int)(bit % 8));
            File.WriteAllBytes(bad, flipped);
            string where = $"bit {bit}";
            Commanded check = Commanded.Run("--log", bad, "log", "check");
            Assert.True(check.Code is 0 or 1 or 2, where);
            if (check.Code == 0)
            {
                Assert.True(before == Export(bad), $"{where}: other contents, and `log check` finds nothing");
            }
            else
            {
                told++;
                Assert.True(check.Code == 2 ? check.Err.Trim().Split('\n').Length == 1 : check.Out.Contains("wrong:", StringComparison.Ordinal) || check.Err.StartsWith("could not:", StringComparison.Ordinal), $"{where}: {check.Err}{check.Out}");
            }

            foreach (string[] words in new[] { new[] { "log", "show" }, ["log", "show", "7"], ["log", "note", "7", "x"] })
            {
                Commanded asked = Commanded.Run(["--log", bad, .. words]);
                Assert.True(asked.Code == 0 ? asked.Err.Length == 0 : asked.Code is 2 or 1 && asked.Err.Trim().Split('\n').Length == 1, $"{where}, {words[1]}: {asked.Code} {asked.Err}");
                // A command that refuses has not touched the file.
                Assert.True(asked.Code == 0 || words[1] != "show" || File.ReadAllBytes(bad).AsSpan().SequenceEqual(flipped), $"{where}: {words[1]} wrote");
            }

            foreach (string beside in Directory.GetFiles(folder.Path, "bad.sqlite?*")) { File.Delete(beside); }
        }

        Assert.True(told > Flips / 4, $"only {told} flips were told of");
    }

    private static string Filled(TemporaryFolder folder, int boards)
    {
        string file = folder.File("log.sqlite");
        ManyBoards.Write(file, boards);
        return file;
    }

    private static string? Export(string file)
    {
        using ShopLog log = ShopLog.Open(file);
        return LogExport.Write(log);
    }

    private static byte[] Hash(string file) => SHA256.HashData(File.ReadAllBytes(file));

    private static void Mode(string mode, string path)
    {
        using Process process = Process.Start("chmod", [mode, path]);
        process.WaitForExit();
        Assert.Equal(0, process.ExitCode);
    }

    private static void OneLine(Commanded run, int code, string says)
    {
        Assert.True(run.Code == code, $"exit code {run.Code}: {run.Err}");
        Assert.Single(run.Err.Trim().Split('\n'));
        Assert.Contains(says, run.Err, StringComparison.Ordinal);
        Assert.Empty(run.Out);
    }

    /// <summary>The real program in a process of its own, started by the shell as the script says.</summary>
    private static Commanded Program(string script, string file, params string[] words)
    {
        // The runtime's doubly mapped memory is a file too, which a limit on files would hit first.
        using Process process = Process.Start(new ProcessStartInfo("sh", ["-c", script, "sh", "dotnet", typeof(App.Cli).Assembly.Location, "--log", file, .. words])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            Environment = { ["DOTNET_EnableWriteXorExecute"] = "0" },
        })!;
        Task<string> error = process.StandardError.ReadToEndAsync();
        string output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return new(process.ExitCode, output, error.Result);
    }
}
