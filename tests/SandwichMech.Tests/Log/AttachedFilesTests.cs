using SandwichMech.Tests.EndToEnd;
using SandwichMech.Workshop.Log;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.Tests.Log;

/// <summary>Attached files go with an export and come back with it, and what is missing is named.</summary>
[Trait("Check", "exact")]
public class AttachedFilesTests
{
    [Fact]
    public void They_travel_with_an_export_and_missing_ones_are_named()
    {
        using var folder = new TemporaryFolder();
        string json = folder.File("shop.json"), taps = folder.File("taps.wav"), picture = folder.File("picture.png");
        File.WriteAllText(taps, "invented taps");
        File.WriteAllText(picture, "invented picture");
        using ShopLog log = SampleLog.Open(folder);
        int board = log.StartBoard(new("invented", "board.toml", "", new string('0', 64), 0, [])).Number;
        log.Attach(board, taps);
        log.Attach(board, picture);
        Assert.Empty(KeepLog.Export(log, json).Warnings);
        using (ShopLog whole = ShopLog.Open(folder.File("whole.sqlite")))
        {
            Assert.Empty(KeepLog.Restore(whole, json).Warnings);
            Assert.Empty(KeepBuild.Check(whole).Wrong);
        }

        // One is lost on the way, the other changed.
        string[] sent = [.. Directory.GetFiles(KeepLog.FilesOf(json)).OrderBy(f => File.ReadAllText(f).Length)];
        Assert.Equal(2, sent.Length);
        File.Delete(sent[0]);
        File.AppendAllText(sent[1], "x");
        using ShopLog part = ShopLog.Open(folder.File("part.sqlite"));
        IReadOnlyList<string> warnings = KeepLog.Restore(part, json).Warnings;
        Assert.Equal(2, warnings.Count);
        Assert.Contains("taps.wav (entry 2, board 1) is missing or was changed", warnings[0], StringComparison.Ordinal);
        Assert.Contains("picture.png (entry 3, board 1)", warnings[1], StringComparison.Ordinal);
        // The next export mends what was changed on the way, and says nothing is missing.
        Assert.Empty(KeepLog.Export(log, json).Warnings);
        using ShopLog again = ShopLog.Open(folder.File("again.sqlite"));
        Assert.Empty(KeepLog.Restore(again, json).Warnings);
    }
}
