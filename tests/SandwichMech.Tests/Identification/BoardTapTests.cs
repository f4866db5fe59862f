using SandwichMech.Core.Identification;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Materials;
using SandwichMech.Core.Plates;
using SandwichMech.Tests.Outlines;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Identification;

/// <summary>Whole boards, tapped free and on the rim: invented truths are found again.</summary>
[Trait("Check", "independent")]
public class BoardTapTests
{
    private static readonly Wood Spruce = SampleBoard.Spruce;

    private static Board On(EdgeHold edge)
    {
        return SampleBoard.Unsymmetric with
        {
            Shape = new BoardShape
            {
                Outline = SampleOutline.Board,
                Holes = [SampleOutline.Soundhole],
                Edge = edge,
                Parts = BoardPlate.Parts(SampleOutline.Board, [SampleOutline.Soundhole], []),
            },
        };
    }

    // Stiffer along, softer across and in its core than table and file say; its tones by a full solution of it on a mesh of its own.
    private static BoardSample Truth(Board board, double rim = 0)
    {
        Board tapped = board.Tapped();
        return new(tapped with
        {
            Outer = tapped.Outer with { Wood = tapped.Outer.Wood with { EL = tapped.Outer.Wood.EL.Times(1.15), ErOverEl = tapped.Outer.Wood.ErOverEl.Times(0.8) } },
            Core = tapped.Core with { Material = tapped.Core.Material with { ShearRibbon = tapped.Core.Material.ShearRibbon.Times(0.8), ShearAcross = tapped.Core.Material.ShearAcross.Times(0.8) } },
        }, rim);
    }

    private static TapReading Taps(BoardSample truth, params int[] modes)
    {
        IReadOnlyList<TapMode> all = truth.Plate(modes.Max() + 1).Counted(truth);
        return new([.. modes.Select(m => new Tone(new(all[m].Frequency, 1e-3)))]);
    }

    [Fact]
    public void A_free_boards_stiffness_is_found_from_its_tones()
    {
        Board board = On(EdgeHold.Free);
        BoardSample truth = Truth(board);
        var evidence = PieceEvidence.OfBoard(board, [Taps(truth, 0, 1, 2, 3, 4, 5), new Weighing(new(truth.Mass, 1e-3))]);
        Identified found = Identify.Run(evidence.Before, evidence.Observed, evidence.Candidates);
        Assert.DoesNotContain(found.OtherWays, w => w.Likelihood > 0.5);
        Assert.Equal([0, 1, 2, 3, 4, 5], found.Readings.Where(r => r.Observation.Tone is not null).Select(r => r.Mode!.Value));
        foreach (PropertyFound p in found.Properties)
        {
            double of = p.Property.Of(truth);
            // Within what it is said to be known to, and that is less than was known before.
            Checks.Within(-2.5, 2.5, Math.Log(p.Found.Value / of) / p.Found.Spread, p.Property.Name);
            Assert.True(p.Found.Spread < p.Table.Spread, p.Property.Name);
        }

        PropertyFound along = found.Properties.Single(p => p.Property.Symbol == "D along"), across = found.Properties.Single(p => p.Property.Symbol == "D across");
        Assert.True(along.Found.Spread < 0.5 * along.Table.Spread && across.Found.Spread < 0.5 * across.Table.Spread);
        // What was not tapped is known better too, and nearer to the truth.
        IReadOnlyList<TapMode> modes = truth.Plate(9).Counted(truth);
        for (int m = 6; m < 9; m++)
        {
            Assert.True(found.Modes[m].Spread < 0.5 * found.Modes[m].Untapped.Spread);
            Checks.Within(-0.015, 0.015, Math.Log(found.Modes[m].Mode.Frequency / modes[m].Frequency), $"mode {m + 1}");
        }
    }

    [Fact]
    public void On_the_rim_its_hold_is_told()
    {
        Board board = On(EdgeHold.Rim);
        BoardSample truth = Truth(board, 0.7);
        var evidence = PieceEvidence.OfBoard(board, [Taps(truth, 0, 1, 2, 3, 4)]);
        Identified found = Identify.Run(evidence.Before, evidence.Observed, evidence.Candidates);
        PropertyFound rim = found.Properties.Single(p => p.Property.Symbol == "rim");
        Checks.Close(1, rim.Table.Value, 1e-12);
        Checks.Within(-2, 2, (Math.Log(rim.Found.Value) - 0.7) / rim.Found.Spread);
        Assert.True(rim.Found.Spread < rim.Table.Spread);
        // The weight was not read: it is what is offered, or a further tone.
        Assert.NotEmpty(found.Next);
    }

    // On the rim the slopes of the fit hold the spring's own; each against two full solutions on meshes of their own. A rim's spring follows the board that a plate is
    // made for, so the board's own inputs are looked at free.
    [Theory]
    [InlineData(EdgeHold.Rim, "rim's hold")]
    [InlineData(EdgeHold.Free, "outer skin E_L")]
    [InlineData(EdgeHold.Free, "core height")]
    [InlineData(EdgeHold.Free, "core shear modulus across the ribbon")]
    public void Slopes_of_a_boards_tones_are_those_of_differences(EdgeHold edge, string name)
    {
        const double step = 0.1;
        BoardSample truth = Truth(On(edge));
        InputShift<Sample> input = SampleInputs.OfBoard(truth.Board).Single(i => i.Name == name);
        Sample more = input.Shift(truth, step), less = input.Shift(truth, -step);
        TappedPlate plate = truth.Plate(4);
        double[] changes = plate.Changes(plate.Solve(truth), less, more);
        IReadOnlyList<TapMode> up = more.Plate(4).Solve(more), down = less.Plate(4).Solve(less);
        for (int i = 0; i < 2; i++)
        {
            // What meshes are off by, over the step, and what shapes change over it.
            double difference = Math.Log(up[i].Frequency / down[i].Frequency) / (2 * step);
            Checks.Close(difference, changes[i] / (2 * step), 1e-3 + 0.02 * Math.Abs(difference), $"mode {i + 1}");
        }
    }

    [Fact]
    public void A_wood_found_by_taps_is_softer_under_a_weight_and_one_of_the_table_stays()
    {
        Checks.Near(Spruce.EL.Value, Spruce.Tapped().UnderWeight().EL.Value, 1e-12);
        Assert.Same(Spruce, Spruce.UnderWeight());
        Board board = On(EdgeHold.Free), mixed = board with { Outer = board.Outer with { Wood = board.Outer.Wood.Tapped() } };
        Assert.Same(board, board.ForModes());
        Checks.Close(Wood.TappedOverBent, mixed.ForModes().Solid.Wood.EL.Value / board.Solid.Wood.EL.Value, 1e-12);
        Checks.Near(board.Laminate().Bending.M11, mixed.UnderWeight().Laminate().Bending.M11, 1e-12);
    }
}
