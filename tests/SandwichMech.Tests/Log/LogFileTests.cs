using System.Diagnostics;
using Microsoft.Data.Sqlite;
using SandwichMech.Core.Identification;
using SandwichMech.Tests.EndToEnd;
using SandwichMech.Workshop;
using SandwichMech.Workshop.Log;
using static SandwichMech.Tests.Log.SampleLog;

namespace SandwichMech.Tests.Log;

/// <summary>The file: kept through a kill, refused where it is damaged or no log, and where it lies.</summary>
[Trait("Check", "exact")]
public class LogFileTests
{
    public static TheoryData<string, string> Wrong() => new()
    {
        { "text", "is no log" },
        { "empty", "is empty" },
        { "database", "is no log" },
        { "newer", "made by a newer sandwichmech" },
        { "cut", "damaged" },
        { "overwritten", "damaged" },
        { "older", "damaged" },
    };

    [Theory]
    [MemberData(nameof(Wrong))]
    public void A_file_that_is_no_log_of_ours_is_refused_and_stays_as_it_is(string what, string says)
    {
        using var folder = new TemporaryFolder();
        string file = folder.File("log.sqlite");
        switch (what)
        {
            case "text":
                File.WriteAllText(file, string.Concat(Enumerable.Repeat("[outer]\nwood = \"Sitka spruce\"\n", 100)));
                break;
            case "empty":
                File.WriteAllText(file, "");
                break;
            case "database":
                Sql(file, "CREATE TABLE entries (number INTEGER)");
                break;
            default:
                using (ShopLog log = Open(folder))
                {
                    for (int i = 0; i < 40; i++)
                    {
                        log.AddPiece(PieceKind.Wood, "Sitka spruce", new string('x', 200));
                    }
                }

                byte[] bytes = File.ReadAllBytes(file);
                switch (what)
                {
                    case "cut":
                        File.WriteAllBytes(file, bytes[..(bytes.Length / 2 / 4096 * 4096)]);
                        break;
                    case "overwritten":
                        bytes.AsSpan(4096, bytes.Length - 4096).Fill(0x5a);
                        File.WriteAllBytes(file, bytes);
                        break;
                    default:
                        Sql(file, $"PRAGMA user_version = {(what == "newer" ? 99 : 0)}");
                        break;
                }

                break;
        }

        byte[] before = File.ReadAllBytes(file);
        string message = Assert.Throws<InputException>(() => Open(folder)).Message;
        Assert.Contains(says, message, StringComparison.Ordinal);
        Assert.Contains(file, message, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', message);
        Assert.Equal(before, File.ReadAllBytes(file));
    }

    [Fact]
    public void A_folder_is_refused()
    {
        using var folder = new TemporaryFolder();
        Assert.Contains("this is a folder", Assert.Throws<InputException>(() => ShopLog.Open(folder.Path)).Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData(" ")]
    [InlineData("a\0b")]
    [InlineData("no-such-folder/")]
    public void A_name_that_is_no_file_is_refused(string name) => Assert.Throws<InputException>(() => ShopLog.Open(name));

    [Fact]
    public void Links_are_followed_to_where_the_log_lies()
    {
        using var folder = new TemporaryFolder();
        Directory.CreateDirectory(folder.File("SomeCloud/wood"));
        Directory.CreateSymbolicLink(folder.File("first"), "SomeCloud");
        Directory.CreateSymbolicLink(folder.File("second"), folder.File("first"));
        Directory.CreateSymbolicLink(folder.File("round"), folder.File("round"));
        using (ShopLog log = ShopLog.Open(folder.File("second/wood/log.sqlite")))
        {
            Assert.Equal(folder.File("SomeCloud/wood/log.sqlite"), log.File);
            Assert.NotEmpty(log.Warnings);
        }

        Assert.ThrowsAny<IOException>(() => { using ShopLog log = ShopLog.Open(folder.File("round/log.sqlite")); log.AddPiece(PieceKind.Wood, "balsa", ""); });
    }

    /// <summary>A child writes one entry after another and says each that is acknowledged; it is killed in the midst of it.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(7)]
    [InlineData(40)]
    [InlineData(90)]
    public void Every_acknowledged_entry_survives_a_kill(int after)
    {
        using var folder = new TemporaryFolder();
        string file = folder.File("log.sqlite");
        var start = new ProcessStartInfo("dotnet", [typeof(LogFileTests).Assembly.Location])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            Environment = { [LogWriter.Variable] = file },
        };
        using Process child = Process.Start(start)!;
        var said = new List<string>();
        while (said.Count < after && child.StandardOutput.ReadLine() is { } line)
        {
            said.Add(line);
        }

        child.Kill();
        // What was acknowledged between the last line read and the kill counts too.
        said.AddRange(child.StandardOutput.ReadToEnd().Split('\n')[..^1]);
        child.WaitForExit();
        Assert.True(said.Count >= after, $"The child ended early: {child.StandardError.ReadToEnd()}");
        using ShopLog log = ShopLog.Open(file);
        HashSet<string> kept = [.. log.Readings(1).Select(e => e.AsTyped)];
        Assert.All(said, s => Assert.Contains(s, kept));
        // It goes on where it stopped.
        Assert.Equal(log.Entries() + 1, log.AddReading(1, Weighed(1), "after").Number);
    }

    [Fact]
    public void The_file_system_is_the_one_mounted_nearest_above_the_file()
    {
        string[] mounts = ["/dev/sda1 / ext4 rw 0 0", "server:/home /home nfs4 rw 0 0", "/dev/sdb1 /home/maker/my\\040disk ext4 rw 0 0", "tmpfs /homes tmpfs rw 0 0"];
        Assert.Equal("nfs4", LogPlace.SystemAt("/home/maker/log.sqlite", mounts));
        Assert.Equal("ext4", LogPlace.SystemAt("/home/maker/my disk/log.sqlite", mounts));
        Assert.Equal("tmpfs", LogPlace.SystemAt("/homes/log.sqlite", mounts));
        Assert.Equal("ext4", LogPlace.SystemAt("/homework/log.sqlite", mounts));
        Assert.True(LogPlace.IsNetworkSystem("nfs4") && LogPlace.IsNetworkSystem("CIFS") && LogPlace.IsNetworkSystem("fuse.sshfs"));
        Assert.False(LogPlace.IsNetworkSystem("ext4") || LogPlace.IsNetworkSystem("fuseblk") || LogPlace.IsNetworkSystem("overlay"));
    }

    [Theory]
    [InlineData("shop", "", false)]
    [InlineData("SomeCloud", "", true)]
    [InlineData("OurDrive - Workshop", "", true)]
    [InlineData("Our Drive", "", true)]
    [InlineData("driven", "", false)]
    [InlineData("shop", ".stfolder", true)]
    [InlineData("shop", ".sync_0a1b.db", true)]
    [InlineData("shop", ".thing.cache", true)]
    [InlineData("shop", ".cache", false)]
    [InlineData("shop", ".git", false)]
    public void A_synchronised_folder_is_warned_of(string name, string mark, bool warned)
    {
        using var folder = new TemporaryFolder();
        Directory.CreateDirectory(folder.File(Path.Combine(name, "wood")));
        if (mark.Length > 0)
        {
            File.WriteAllText(folder.File(Path.Combine(name, mark)), "");
        }

        using ShopLog log = ShopLog.Open(folder.File(Path.Combine(name, "wood", "log.sqlite")));
        Assert.Equal(warned, log.Warnings.Count > 0);
        Assert.All(log.Warnings, w => Assert.Contains($"({folder.File(name)})", w, StringComparison.Ordinal));
    }

    private static void Sql(string file, string sql)
    {
        using var connection = new SqliteConnection($"Data Source={file};Pooling=False");
        connection.Open();
        using SqliteCommand command = connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }
}
