using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;
using SandwichMech.Tests.Outlines;

namespace SandwichMech.Tests.Plates;

/// <summary>Borders that cross, touch, run together and leave the board.</summary>
[Trait("Check", "exact")]
public class MeetingCurvesTests
{
    private static readonly Curve Plate = Shapes.Rectangle(new(0, 0, 0.4, 0.3));

    [Fact]
    public void Crossing_borders_make_four_parts()
    {
        Curve across = Shapes.Polygon([new(0.2, -0.1), new(0.2, 0.4)], closed: false), along = Shapes.Polygon([new(-0.1, 0.1), new(0.5, 0.1)], closed: false);
        var domain = new MeshDomain(Plate, [], [across, along], p => (p.X > 0.2 ? 1 : 0) + (p.Y > 0.1 ? 2 : 0));
        Check(domain, 0.05, [0.02, 0.02, 0.04, 0.04], 1e-12);
        Assert.Contains(PlateMesher.Mesh(domain, 0.05).Vertices, v => (v - new Point(0.2, 0.1)).Norm < 1e-15);
    }

    [Fact]
    public void Ellipses_that_cross_have_their_own_and_common_parts()
    {
        Curve first = Shapes.Ellipse(new(0.17, 0.15), 0.1, 0.06, 0.3), second = Shapes.Ellipse(new(0.23, 0.15), 0.1, 0.06, -0.5);
        var domain = new MeshDomain(Plate, [], [first, second], p => (first.Contains(p) ? 1 : 0) + (second.Contains(p) ? 2 : 0));
        PlateMesh mesh = PlateMesher.Mesh(domain, 0.05);
        MeshChecks.AreSound(mesh, domain);
        double[] areas = Areas(mesh, 4);
        Checks.Near(first.SignedArea, areas[1] + areas[3], 1e-7);
        Checks.Near(second.SignedArea, areas[2] + areas[3], 1e-7);
        Checks.Near(0.12, areas.Sum(), 1e-12);
    }

    [Fact]
    public void A_border_over_the_edge_of_the_board_is_cut_off_there()
    {
        Curve circle = Shapes.Circle(new(0.4, 0.15), 0.1);
        var domain = new MeshDomain(Plate, [], [circle], p => circle.Contains(p) ? 1 : 0);
        Check(domain, 0.05, [0.12 - circle.SignedArea / 2, circle.SignedArea / 2], 1e-7);
    }

    [Fact]
    public void A_border_over_a_hole_is_cut_off_there()
    {
        Curve hole = Shapes.Circle(new(0.2, 0.15), 0.05), ring = Shapes.Circle(new(0.2, 0.15), 0.08);
        Curve line = Shapes.Polygon([new(0, 0.15), new(0.4, 0.15)], closed: false);
        var domain = new MeshDomain(Plate, [hole], [ring, line], p => (ring.Contains(p) ? 2 : 0) + (p.Y > 0.15 ? 1 : 0));
        double inner = (ring.SignedArea - hole.SignedArea) / 2, outer = (0.12 - ring.SignedArea) / 2;
        Check(domain, 0.05, [outer, outer, inner, inner], 1e-7);
    }

    [Fact]
    public void Neighbours_with_a_common_side_share_its_edges()
    {
        Curve left = Shapes.Rectangle(new(0.1, 0.1, 0.2, 0.2)), right = Shapes.Rectangle(new(0.2, 0.05, 0.3, 0.25));
        var domain = new MeshDomain(Plate, [], [left, right], p => left.Contains(p) ? 1 : right.Contains(p) ? 2 : 0);
        Check(domain, 0.05, [0.09, 0.01, 0.02], 1e-12);
    }

    [Fact]
    public void A_region_along_the_outline_shares_its_edges()
    {
        Curve board = SampleOutline.Board;
        // From one place of the outline to another along it, and straight back.
        Curve part = board.Part(3.4, 6.6);
        Curve region = new([.. part.Segments, Bezier.Line(part.At(part.Segments.Count), part.At(0))]);
        var domain = new MeshDomain(board, [], [region], p => region.Contains(p) ? 1 : 0);
        Check(domain, 0.045, [board.SignedArea - region.SignedArea, region.SignedArea], 1e-8);
    }

    [Theory]
    [InlineData(0.03), InlineData(0.06), InlineData(0.12)]
    public void A_circle_that_touches_the_outline_from_inside_leaves_cusps_without_folds(double radius)
    {
        Curve board = Shapes.Circle(new(0, 0), 0.2), circle = Shapes.Circle(new(0.2 - radius, 0), radius);
        var domain = new MeshDomain(board, [], [circle], p => circle.Contains(p) ? 1 : 0);
        PlateMesh mesh = PlateMesher.Mesh(domain, 0.05);
        MeshChecks.AreSound(mesh, domain);
        Checks.Within(0.15, 1, MeshChecks.LeastRatio(mesh));
        // The border's ends are turned in the cusps; the board's own area does not feel it.
        Checks.Near(board.SignedArea, MeshChecks.Area(mesh, 8), 1e-8);
        Checks.Near(circle.SignedArea, Areas(mesh, 2)[1], 0.01);
    }

    [Fact]
    public void An_open_border_that_ends_in_the_board_is_held()
    {
        var domain = new MeshDomain(Plate, [], [Shapes.Smooth([new(0.1, 0.1), new(0.2, 0.2), new(0.3, 0.12)], closed: false)], _ => 7);
        PlateMesh mesh = PlateMesher.Mesh(domain, 0.06);
        MeshChecks.AreSound(mesh, domain);
        MeshChecks.EdgesLieOnCurves(mesh, domain, 1e-9);
        Assert.Contains(mesh.Edges, e => e.Curve == 1);
        Assert.All(mesh.Triangles, t => Assert.Equal(7, t.Region));
    }

    [Theory]
    [InlineData(1e-9), InlineData(1e-6), InlineData(2e-5), InlineData(2e-4), InlineData(1e-3)]
    public void The_outline_drawn_twice_a_little_apart_does_no_harm(double apart)
    {
        Curve copy = SampleOutline.Board.Mapped(p => p + new Point(apart, 0.7 * apart));
        var domain = new MeshDomain(SampleOutline.Board, [], [copy], _ => 0);
        PlateMesh mesh = PlateMesher.Mesh(domain, 0.045);
        MeshChecks.AreSound(mesh, domain);
        Checks.Near(MeshChecks.Area(domain), MeshChecks.Area(mesh, 8), 2e-8);
    }

    private static void Check(MeshDomain domain, double size, double[] areas, double relative)
    {
        PlateMesh mesh = PlateMesher.Mesh(domain, size);
        MeshChecks.AreSound(mesh, domain);
        double[] found = Areas(mesh, areas.Length);
        for (int i = 0; i < areas.Length; i++) { Checks.Near(areas[i], found[i], relative, $"region {i}"); }
    }

    private static double[] Areas(PlateMesh mesh, int regions)
    {
        (double Area, double)[] triangles = MeshChecks.Triangles(mesh, 8);
        double[] areas = new double[regions];
        for (int t = 0; t < triangles.Length; t++) { areas[mesh.Triangles[t].Region] += triangles[t].Area; }
        return areas;
    }
}
