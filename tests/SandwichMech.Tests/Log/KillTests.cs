using SandwichMech.Tests.EndToEnd;

namespace SandwichMech.Tests.Log;

/// <summary>Programs are killed while they write a build; benchmark `logkill` does it a thousand times.</summary>
[Trait("Check", "exact")]
public class KillTests
{
    [Fact]
    public void What_was_acknowledged_survives_a_kill_and_a_stage_is_there_wholly_or_not_at_all()
    {
        using var folder = new TemporaryFolder();
        KillResult result = KillTrial.Run(folder.File("log.sqlite"), kills: 40, seed: 1, checkEvery: 10);
        Assert.Equal(40, result.Kills);
        Assert.True(result.Acknowledged > 0);
        // That enough of them fell into the midst of writing: else the test shows nothing.
        Assert.True(result.Amid >= 10, $"{result.Amid} kills fell between the beginning of a stage and its acknowledgement");
        Assert.Equal((0, 0), (result.Lost, result.Halves));
        Assert.Empty(result.Wrong);
    }
}
