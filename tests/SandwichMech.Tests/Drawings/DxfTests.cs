using CsCheck;
using SandwichMech.Core.Outlines;
using SandwichMech.Workshop.Drawings;

namespace SandwichMech.Tests.Drawings;

/// <summary>DXF against areas in closed form and against the same shape in SVG.</summary>
[Trait("Check", "exact")]
public class DxfTests
{
    private const double Circle = 1e-6;

    private static Drawing Read(string dxf, string? unit = null) => DrawingFiles.Parse("drawing.dxf", DrawingWriter.Bytes(dxf), new() { Unit = unit });

    private static Curve Only(string entities) => Assert.Single(Read(DrawingWriter.Dxf(entities)).Curves).Curve;

    private static double Area(string entities) => 1e6 * Only(entities).SignedArea;

    private static string G(params object[] groups) => DrawingWriter.Groups(groups);

    [Fact]
    public void Entities_have_their_areas()
    {
        Checks.Near(Math.PI * 150 * 150, Area(G(0, "CIRCLE", 8, "a", 10, 5, 20, -3, 40, 150)), Circle);
        Checks.Near(Math.PI * 200 * 150, Area(G(0, "ELLIPSE", 8, "a", 10, 5, 20, -3, 11, 200 * Math.Cos(0.3), 21, 200 * Math.Sin(0.3), 40, 0.75, 41, 0, 42, 2 * Math.PI)), Circle);
        Checks.Near(400 * 300, Area(DrawingWriter.Polyline("a", (0, 0, 0), (400, 0, 0), (400, 300, 0), (0, 300, 0))), 1e-12);
        // A half circle by a bulge of one, on the right-hand side of its way: outside of the rectangle.
        Checks.Near(400 * 300 + Math.PI * 150 * 150 / 2, Area(DrawingWriter.Polyline("a", (0, 0, 0), (400, 0, 1), (400, 300, 0), (0, 300, 0))), Circle);
        Checks.Near(400 * 300 - Math.PI * 150 * 150 / 2, Area(DrawingWriter.Polyline("a", (0, 0, 0), (400, 0, -1), (400, 300, 0), (0, 300, 0))), Circle);
        // Half a circle and its diameter, as arc and line; the arc wraps past 360°.
        Checks.Near(Math.PI * 200 * 200 / 2, Area(G(0, "ARC", 8, "a", 10, 0, 20, 0, 40, 200, 50, 270, 51, 90) + DrawingWriter.Line(new(0, 200), new(0, -200), "a")), Circle);
        // Old polylines carry vertices of their own; one that only frames a fitted curve is not on it.
        Checks.Near(400 * 300, Area(G(0, "POLYLINE", 8, "a", 70, 1) + V(0, 0, 0) + V(400, 0, 0) + V(900, 900, 16) + V(400, 300, 0) + V(0, 300, 0) + G(0, "SEQEND", 8, "a")), 1e-12);

        static string V(double x, double y, int flags) => G(0, "VERTEX", 8, "a", 10, x, 20, y, 70, flags);
    }

    [Fact]
    public void A_bulge_is_the_tangent_of_a_quarter_of_its_angle() => Gen.Select(Gen.Double[-3, 3], Gen.Double[-3, 3]).Sample((bulge, turn) =>
    {
        Point a = new Point(-0.2, 0.05).Turned(turn), b = new Point(0.2, 0.1).Turned(turn);
        Curve arc = Shapes.Bulged(a, b, bulge);
        double chord = (b - a).Norm;
        Assert.Equal(a, arc.Segments[0].P0);
        Assert.Equal(b, arc.Segments[^1].P3);
        if (Math.Abs(bulge) < 1e-6) { return; }
        // Its height over the chord is bulge times half the chord, to the right of the way where positive; length r θ.
        double angle = 4 * Math.Atan(Math.Abs(bulge)), radius = chord / 2 * (1 + bulge * bulge) / (2 * Math.Abs(bulge));
        Point height = arc.At(arc.Segments.Count / 2.0) - 0.5 * (a + b);
        Checks.Close(0, (height + bulge / 2 * (b - a).Left()).Norm, 1e-6 * radius);
        Checks.Near(radius * angle, arc.TotalLength, 1e-6);
    }, iter: 300);

    [Fact]
    public void An_arc_of_an_ellipse_runs_between_its_parameters()
    {
        double from = 0.4, to = 2.9, a = 200, ratio = 0.6, turn = 0.5;
        foreach (int side in (int[])[1, -1])
        {
            Point At(double t) => new Point(a * Math.Cos(t), side * ratio * a * Math.Sin(t)).Turned(turn);
            Curve half = Only(G(0, "ELLIPSE", 8, "a", 10, 0, 20, 0, 11, a * Math.Cos(turn), 21, a * Math.Sin(turn), 40, ratio, 41, from, 42, to, 210, 0, 220, 0, 230, side) + DrawingWriter.Line(At(to), At(from), "a"));
            Checks.Near(0.5 * a * ratio * a * (to - from - Math.Sin(to - from)), 1e6 * half.SignedArea, 2e-6);
            for (double t = from; t < to; t += 0.2) { Checks.Close(0, half.Nearest(1e-3 * At(t)).Distance, 1e-6 * 0.2); }
        }
    }

    [Fact]
    public void Nine_weighted_points_are_a_circle()
    {
        // The circle as a rational spline of degree two (Piegl & Tiller 1997, section 7.5): weights 1 and √½ in turn.
        double h = Math.Sqrt(0.5);
        (double X, double Y)[] square = [(1, 0), (1, 1), (0, 1), (-1, 1), (-1, 0), (-1, -1), (0, -1), (1, -1), (1, 0)];
        string spline = G(0, "SPLINE", 8, "a", 70, 4, 71, 2, 72, 12, 73, 9) + string.Concat("000112233444".Select(k => G(40, k)))
            + string.Concat(square.Select((_, i) => G(41, i % 2 == 0 ? 1 : h))) + string.Concat(square.Select(p => G(10, 200 * p.X, 20, 200 * p.Y, 30, 0)));
        Curve circle = Only(spline);
        for (double t = 0; t < circle.Segments.Count; t += 0.1) { Checks.Near(0.2, circle.At(t).Norm, 1e-6); }
        Checks.Near(Math.PI * 0.04, circle.SignedArea, 1e-6);
    }

    [Fact]
    public void A_closed_uniform_spline_is_smooth_all_round()
    {
        // Degree three over eight points of an octagon, the first three repeated: no clamped ends.
        (double X, double Y)[] ring = [.. Enumerable.Range(0, 11).Select(i => (250 * Math.Cos(i * Math.PI / 4), 250 * Math.Sin(i * Math.PI / 4)))];
        Curve curve = Only(G(0, "SPLINE", 8, "a", 70, 3, 71, 3, 72, 15, 73, 11) + string.Concat(Enumerable.Range(0, 15).Select(k => G(40, k))) + string.Concat(ring.Select(p => G(10, p.X, 20, p.Y))));
        Assert.Equal(8, curve.Segments.Count);
        // At a knot a uniform cubic spline is (P0 + 4 P1 + P2) / 6.
        Checks.Near(0.25 * (4 + Math.Sqrt(2)) / 6, curve.Segments[0].P0.Norm, 1e-12);
        for (int i = 0; i < 8; i++) { Checks.Close(0, curve.Segments[i].Derivative(1).AngleTo(curve.Segments[(i + 1) % 8].Derivative(0)), 1e-9); }
    }

    [Fact]
    public void A_spline_by_its_points_alone_runs_through_them()
    {
        (double X, double Y)[] round = [.. Enumerable.Range(0, 12).Select(i => (200 * Math.Cos(i * Math.PI / 6), 150 * Math.Sin(i * Math.PI / 6)))];
        Drawing d = Read(DrawingWriter.Dxf(G(0, "SPLINE", 8, "a", 70, 1, 71, 3, 74, 12) + string.Concat(round.Select(p => G(11, p.X, 21, p.Y, 31, 0)))));
        Curve curve = Assert.Single(d.Curves).Curve;
        foreach ((double x, double y) in round) { Checks.Close(0, curve.Nearest(new(x / 1000, y / 1000)).Distance, 1e-12); }
        Assert.Contains(d.Notes, n => n.Contains("passes through", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(1, 19, 0.0254)]
    [InlineData(2, 1.6, 0.3048)]
    [InlineData(4, 480, 1e-3)]
    [InlineData(5, 48, 1e-2)]
    [InlineData(6, 0.48, 1)]
    [InlineData(9, 19000, 0.0254e-3)]
    [InlineData(14, 4.8, 0.1)]
    public void The_file_says_its_unit(int code, double length, double metres)
    {
        Drawing d = Read(DrawingWriter.Dxf(DrawingWriter.Polyline("a", (0, 0, 0), (length, 0, 0), (length, 0.7 * length, 0), (0, 0.7 * length, 0)), code));
        Checks.Near(0.7 * length * length * metres * metres, Assert.Single(d.Curves).Curve.SignedArea, 1e-12);
    }

    [Fact]
    public void Blocks_are_placed_turned_scaled_and_take_the_layer_of_their_insert()
    {
        string block = G(0, "BLOCK", 8, "0", 2, "half", 10, 10, 20, 0) + DrawingWriter.Polyline("0", (10, 0, 0), (210, 0, 0), (210, 100, 0), (10, 100, 0)) + G(0, "ENDBLK", 8, "0");
        Drawing d = Read(DrawingWriter.Dxf(G(0, "INSERT", 8, "plates", 2, "HALF", 10, 50, 20, 20, 41, 2, 42, 3, 50, 90), 4, block));
        DrawnCurve c = Assert.Single(d.Curves);
        Assert.Equal("plates", c.Layer);
        Box box = c.Curve.Bounds();
        Checks.Close(-0.25, box.MinX, 1e-12);
        Checks.Close(0.05, box.MaxX, 1e-12);
        Checks.Close(0.02, box.MinY, 1e-12);
        Checks.Close(0.42, box.MaxY, 1e-12);
    }

    [Fact]
    public void Seen_from_behind_x_is_mirrored_but_a_line_is_where_it_is()
    {
        Drawing d = Read(DrawingWriter.Dxf(G(0, "LWPOLYLINE", 8, "a", 90, 3, 70, 1, 210, 0, 220, 0, 230, -1, 10, 0, 20, 0, 10, 400, 20, 0, 10, 0, 20, 300)));
        Checks.Close(-0.4, Assert.Single(d.Curves).Curve.Bounds().MinX, 1e-12);
    }

    [Fact]
    public void Layers_switched_off_paper_and_hidden_entities_are_left_out()
    {
        string table = G(0, "LAYER", 2, "notes", 70, 0, 62, -7) + G(0, "LAYER", 2, "frozen", 70, 1, 62, 7);
        string rectangle = G(10, 0, 20, 0, 10, 400, 20, 0, 10, 400, 20, 300);
        Drawing d = Read(DrawingWriter.Dxf(DrawingWriter.Polyline("board", (0, 0, 0), (400, 0, 0), (400, 300, 0)) + DrawingWriter.Polyline("NOTES", (0, 0, 0), (900, 0, 0), (900, 900, 0))
            + DrawingWriter.Polyline("frozen", (0, 0, 0), (900, 0, 0), (900, 900, 0)) + G(0, "LWPOLYLINE", 8, "board", 67, 1, 70, 1) + rectangle + G(0, "LWPOLYLINE", 8, "board", 60, 1, 70, 1) + rectangle
            + G(0, "TEXT", 8, "board", 1, "0"), 4, "", table));
        Assert.Equal("board", Assert.Single(d.Curves).Name);
        Assert.Contains(d.Notes, n => n.Contains("switched off", StringComparison.Ordinal) && n.Contains("1 TEXT", StringComparison.Ordinal));
    }
}
