using SandwichMech.Core.Layups;
using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;
using SandwichMech.Tests.Outlines;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Plates;

/// <summary>Edges that are held otherwise on a stretch.</summary>
public class EdgeStretchTests
{
    private const double Length = 0.5, Width = 0.3;
    private static readonly double[] Along = [0.001, 0.25, 0.5, 0.75, 0.999];

    private static Board On(Curve outline, EdgeHold edge, params EdgeStretch[] stretches) => SampleBoard.Unsymmetric with
    {
        Shape = new BoardShape { Outline = outline, Parts = BoardPlate.Parts(outline, [], []), Edge = edge, Stretches = stretches },
    };

    private static EdgeStretch Upper(EdgeHold hold, double across) => new("at the upper end", hold, p => p.X > 0.24 && Math.Abs(p.Y) <= across / 2, Ends(across));

    private static Point[] Ends(double across) => [.. new[] { -across / 2, across / 2 }
        .SelectMany(y => Crossings.Between(Shapes.Polygon([new(-1, y), new(1, y)], closed: false), SampleOutline.Board)).Select(m => m.At).Where(p => p.X > 0.24)];

    // A rectangle held on a part of one side, on a mesh made by hand: cells that end where the stretch ends, graded towards there.
    [Theory]
    [Trait("Check", "independent")]
    [InlineData(EdgeHold.Free, EdgeHold.Clamped, 1)]
    [InlineData(EdgeHold.Free, EdgeHold.Clamped, 0.4)]
    [InlineData(EdgeHold.Hinged, EdgeHold.Clamped, 0.4)]
    [InlineData(EdgeHold.Clamped, EdgeHold.Free, 0.4)]
    public void A_rectangle_held_on_a_part_of_a_side_is_the_one_meshed_by_hand(EdgeHold edge, EdgeHold hold, double share)
    {
        Curve outline = Shapes.Rectangle(new(0, -Width / 2, Length, Width / 2));
        double half = share * Width / 2;
        Board board = On(outline, edge, new EdgeStretch("at the upper end", hold, p => p.X > Length - 1e-9 && Math.Abs(p.Y) <= half, [new(Length, -half), new(Length, half)]));
        double[] ours = [.. BoardPlate.Solve(board, 4, 2e-3).Plate.Modes.Select(m => m.Frequency)];

        double[] ys = [.. new[] { 0, 0.004, 0.012, 0.03, 0.06, 0.1, Width / 2 }.SelectMany(d => new[] { Width / 2 - half - d, Width / 2 - half + d, Width / 2 + half - d, Width / 2 + half + d })
            .Append(0).Append(Width).Where(y => y >= 0 && y <= Width).Order()];
        double[] distinct = [.. ys.Where((y, i) => i == 0 || y - ys[i - 1] > 1e-3)];
        double[] xs = [0, 0.004, 0.02, 0.06, 0.12, 0.2, 0.28, 0.36, 0.42, 0.46, 0.48, 0.492, 0.497, Length];
        PlateMesh mesh = PlateMesh.Rectangle(xs, distinct);
        var problem = new PlateProblem(mesh, [BoardPlate.Section(board, new([], default))],
            e => Held(e.Curve == 1 && Math.Abs(e.At(0.5).Y - Width / 2) < half ? hold : edge));
        PlateSolution byHand = PlateSolver.Once(problem, 4, 4);
        Assert.Equal(byHand.RigidModes, BoardPlate.Solve(board, 1, 0.02).Plate.RigidModes);
        for (int i = 0; i < 4; i++) { Checks.Near(byHand.Modes[i].Frequency, ours[i], 5e-3, $"mode {i + 1}"); }
    }

    [Fact]
    [Trait("Check", "exact")]
    public void The_mesh_has_corners_where_the_stretch_ends_and_no_edge_is_held_half()
    {
        Board board = On(SampleOutline.Board, EdgeHold.Free, Upper(EdgeHold.Clamped, 0.08));
        PlateProblem problem = BoardPlate.Problem(board, 0.04).Problem;
        Assert.All(Ends(0.08), end => Assert.True(problem.Mesh.Vertices.Min(v => (v - end).Norm) < 1e-6, $"no corner at {end}"));
        double held = 0;
        foreach (CurvedEdge e in problem.Mesh.Edges.Where(e => e.Curve == 0))
        {
            bool[] inside = [.. Along.Select(t => board.Shape!.Stretches[0].Inside(e.At(t)))];
            Assert.True(inside.All(i => i == inside[0]), $"an edge at {e.At(0.5)} is held half");
            Assert.Equal(inside[0] ? EdgeSupport.Clamped : EdgeSupport.Free, problem.Support(e));
            if (inside[0]) { held += Enumerable.Range(0, 50).Sum(i => (e.At((i + 1) / 50.0) - e.At(i / 50.0)).Norm); }
        }

        Checks.Within(0.08, 0.095, held, "as long as the block is wide, and a little for the curve");
    }

    // More that is held, higher: each mode by its number.
    [Fact]
    [Trait("Check", "exact")]
    public void A_wider_block_holds_more_and_one_all_round_is_a_clamp()
    {
        double[] narrow = Modes(Upper(EdgeHold.Clamped, 0.04)), wide = Modes(Upper(EdgeHold.Clamped, 0.12));
        double[] all = Modes(new EdgeStretch("all round", EdgeHold.Clamped, _ => true, []));
        double[] clamped = [.. BoardPlate.Solve(On(SampleOutline.Board, EdgeHold.Clamped), 3, 2e-3).Plate.Modes.Select(m => m.Frequency)];
        for (int i = 0; i < 3; i++)
        {
            Assert.True(narrow[i] < wide[i] && wide[i] < clamped[i]);
            Checks.Near(clamped[i], all[i], 2e-3);
        }

        double[] Modes(EdgeStretch stretch) => [.. BoardPlate.Solve(On(SampleOutline.Board, EdgeHold.Free, stretch), 3, 2e-3).Plate.Modes.Select(m => m.Frequency)];
    }

    [Fact]
    [Trait("Check", "exact")]
    public void Of_two_that_overlap_the_later_one_holds()
    {
        EdgeStretch all = new("all round", EdgeHold.Hinged, _ => true, []), end = Upper(EdgeHold.Clamped, 0.1);
        BoardShape shape = On(SampleOutline.Board, EdgeHold.Free, all, end).Shape!;
        Assert.Equal(EdgeHold.Clamped, shape.HoldAt(new(0.48, 0), EdgeHold.Free));
        Assert.Equal(EdgeHold.Hinged, shape.HoldAt(new(0, 0), EdgeHold.Free));
        Assert.True(shape.IsHeld(EdgeHold.Clamped, EdgeHold.Free) && shape.IsHeld(EdgeHold.Free, EdgeHold.Free) && !shape.IsHeld(EdgeHold.Rim, EdgeHold.Free));
    }

    private static EdgeSupport Held(EdgeHold hold) => hold switch { EdgeHold.Clamped => EdgeSupport.Clamped, EdgeHold.Hinged => EdgeSupport.Hinged, _ => EdgeSupport.Free };
}
