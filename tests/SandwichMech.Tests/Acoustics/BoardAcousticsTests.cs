using SandwichMech.Core.Acoustics;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Predictions;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Tables;

namespace SandwichMech.Tests.Acoustics;

/// <summary>The demo board's sound on a rim beside that of a solid top: what has to hold between its figures.</summary>
public class BoardAcousticsTests
{
    private static readonly Lazy<(Board Board, BoardAcoustics Own, BoardAcoustics Solid)> Demo = new(() =>
    {
        string path = Repository.File("shared", "demo", "outline.toml");
        Board board = BoardFiles.Parse(path, File.ReadAllText(path).Replace("held = \"free\"", "held = \"rim\"", StringComparison.Ordinal), MaterialTables.BuiltIn()).Board;
        var frame = OutlineFrame.For(board, 10, 3e-3);
        var bridge = new PlateAction(PlatePush.Deflect, board.Shape!.Regions.First(r => r.Change is LetInWood && r.Name.Contains("bridge", StringComparison.Ordinal)).Border[0]);
        return (board, BoardAcoustics.Of(board, frame, bridge), BoardAcoustics.OfSolid(board, 2.6e-3, frame, bridge));
    });

    [Fact]
    [Trait("Check", "exact")]
    public void Losses_are_between_those_of_what_it_is_made_of()
    {
        // Without sound and edge: no less than wood along the grain, no more than what loses most.
        foreach (SoundingMode mode in Demo.Value.Own.Modes.Take(10).Concat(Demo.Value.Solid.Modes.Take(10)))
        {
            double materials = mode.Loss.Total.Value - mode.Loss.Of(LossKind.Radiation) - mode.Loss.Of(LossKind.Edge);
            Checks.Within(0.5 * 0.007, 0.020, materials);
        }

        // A solid top has no core and no film.
        Assert.All(Demo.Value.Solid.Modes, m => Assert.Equal(0, m.Loss.Of(LossKind.Core) + m.Loss.Of(LossKind.Film)));
        Assert.All(Demo.Value.Own.Modes, m => Assert.True(m.Loss.Of(LossKind.Core) > 0));
    }

    // The first mode pushes all one way; its sound by Rayleigh's integral is that of its volume, less what size takes.
    [Fact]
    [Trait("Check", "independent")]
    public void The_first_mode_radiates_by_its_volume()
    {
        foreach (BoardAcoustics a in new[] { Demo.Value.Own, Demo.Value.Solid })
        {
            SoundingMode first = a.Modes[0];
            double monopole = Radiation.MonopoleLoss(first.Volume, first.Frequency);
            Checks.Within(0.8 * monopole, 1.0 * monopole, first.Loss.Of(LossKind.Radiation));
            // Of a plate of even mass, V² cannot pass area over mass per area (Cauchy and Schwarz).
            Assert.True(first.Volume * first.Volume < a.Area / 0.5);
        }

        Checks.Near(Demo.Value.Board.Shape!.Area, Demo.Value.Own.Area, 1e-5);
    }

    [Fact]
    [Trait("Check", "exact")]
    public void A_level_is_nothing_beside_itself_and_turns_with_its_sign()
    {
        ModalTransfer own = Demo.Value.Own.Volume, solid = Demo.Value.Solid.Volume;
        double low = 0.5 * own.Frequencies[0], high = Radiation.MonopoleLimit(Demo.Value.Own.Area);
        Assert.All(RelativeLevel.Of(own, own, low, high).Points, p => Assert.Equal(0, p.Level, 1e-9));
        RelativeLevel level = RelativeLevel.Of(own, solid, low, high);
        Checks.Near(-RelativeLevel.Of(solid, own, low, high).Mean, level.Mean, 1e-9);
        Checks.Near(low, level.Points[0].Frequency, 1e-12);
        Checks.Near(high, level.Points[^1].Frequency, 1e-9);
        // Twice the volume is 6.02 dB.
        Checks.Near(20 * Math.Log10(2), RelativeLevel.Of(own with { Measured = [.. own.Measured.Select(v => 2 * v)], Residual = 2 * own.Residual }, own, low, high).Mean, 1e-9);
        // At rest the lighter and softer board moves more air per newton where its first mode is lower for its mass: by the transfer's own steady value.
        Checks.Near(20 * Math.Log10(Math.Abs(own.Steady / solid.Steady)), RelativeLevel.Of(own, solid, 1, 2).Mean, 0.01);
    }
}
