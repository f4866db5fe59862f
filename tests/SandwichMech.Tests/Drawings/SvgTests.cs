using CsCheck;
using SandwichMech.Core.Outlines;
using SandwichMech.Workshop.Drawings;

namespace SandwichMech.Tests.Drawings;

/// <summary>SVG against areas in closed form and against the same shape written another way.</summary>
[Trait("Check", "exact")]
public class SvgTests
{
    // A circle of twelve cubics is one within 3.7e-7 of its radius.
    private const double Circle = 1e-6;

    private static Drawing Read(string svg, string? unit = null) => DrawingFiles.Parse("drawing.svg", DrawingWriter.Bytes(svg), new() { Unit = unit });

    private static Curve Only(string content) => Assert.Single(Read(DrawingWriter.SvgPage(content)).Curves).Curve;

    private static double Area(string content) => 1e6 * Only(content).SignedArea;

    [Fact]
    public void Shapes_have_their_areas()
    {
        Checks.Near(400 * 300, Area("<rect x='10' y='20' width='400' height='300'/>"), 1e-12);
        Checks.Near(400 * 300 - (4 - Math.PI) * 30 * 20, Area("<rect width='400' height='300' rx='30' ry='20'/>"), Circle);
        Checks.Near(400 * 300 - (4 - Math.PI) * 25 * 25, Area("<rect width='400' height='300' ry='25'/>"), Circle);
        Checks.Near(Math.PI * 150 * 150, Area("<circle cx='5' cy='-7' r='150'/>"), Circle);
        Checks.Near(Math.PI * 200 * 150, Area("<ellipse rx='200' ry='150'/>"), Circle);
        Checks.Near(0.5 * 400 * 300, Area("<polygon points='0,0 400,0 0,300'/>"), 1e-12);
        Checks.Near(0.5 * 400 * 300, Area("<polyline points='0 0,400 0 0 300 0 0'/>"), 1e-12);
        Checks.Near(0.5 * 400 * 300, Area("<g><line x2='400'/><line x1='400' x2='0' y2='300'/><line y1='300'/></g>"), 1e-12);
    }

    [Fact]
    public void Path_commands_absolute_relative_and_packed_say_the_same()
    {
        double wanted = 200 * 300;
        foreach (string d in (string[])["M0 0 H200 V300 H0 Z", "m0 0h200v300h-200z", "M0,0 200,0 200,300 0,300z", "m0,0 200,0 0,300 -200,0 z", "M0 0L200 0 200 300 0 300 0 0", "M.0.0 2e2-0L200 3.0e2,0,300Z"])
        {
            Checks.Near(wanted, Area($"<path d='{d}'/>"), 1e-12, d);
        }

        // Under a parabola over 300 with its control 200 high: two thirds of the triangle half as high, 300·200/3.
        Checks.Near(300 * 200 / 3.0, Area("<path d='M0 0 Q150 200 300 0 Z'/>"), 1e-12);
        // T mirrors the control: the second arch lies on the other side, so a box is added to keep one sign.
        Checks.Near(600 * 300, Area("<path d='M0 0 Q150 200 300 0 T600 0 V300 H0 Z'/>"), 1e-12);
        // S mirrors the handle: the curve is point-symmetric about (300, 0).
        Checks.Near(600 * 300, Area("<path d='M0 0 C100 150 200 150 300 0 S500 -150 600 0 L600 300 L0 300 Z'/>"), 1e-12);
        // After another command S starts along no handle: the first control is the point itself.
        Checks.Near(Area("<path d='M0 0 L300 0 C300 0 400 100 300 300 Z'/>"), Area("<path d='M0 0 L300 0 S400 100 300 300 Z'/>"), 1e-12);
    }

    [Fact]
    public void The_four_arcs_between_two_points_are_told_apart_by_their_flags()
    {
        // Radius 200, chord 200: the small segment is r²/2 (π/3 − sin π/3).
        double small = 200 * 200 / 2.0 * (Math.PI / 3 - Math.Sin(Math.PI / 3)), large = Math.PI * 200 * 200 - small;
        // What an arc too wide by 3.7e-7 of its radius adds.
        const double off = 3.7e-7 * 200 * 200 * Math.PI / 3;
        Checks.Close(small, Area("<path d='M0 0A200 200 0 0 1 200 0Z'/>"), off);
        Checks.Close(small, Area("<path d='M0 0a200,200,0,00200,0z'/>"), off);
        Checks.Near(large, Area("<path d='M0 0A200 200 0 1 1 200 0Z'/>"), 2e-6);
        Checks.Near(large, Area("<path d='M0 0a200 200 0 10200 0z'/>"), 2e-6);
        // On which side: y grows downwards, and rising angles turn from x to y.
        Assert.True(Only("<path d='M0 0A200 200 0 1 1 200 0Z'/>").Bounds().MaxY > 0.1);
        Assert.True(Only("<path d='M0 0A200 200 0 1 0 200 0Z'/>").Bounds().MinY < -0.1);
        // Radii too small are enlarged: a half circle over 400; a half ellipse turned.
        Checks.Near(Math.PI * 200 * 200 / 2, Area("<path d='M0 0A10 10 0 0 1 400 0Z'/>"), Circle);
        Checks.Near(Math.PI * 200 * 100 / 2, Area("<path d='M0 0A100 200 90 0 1 400 0Z'/>"), Circle);
        Checks.Near(0.5 * 400 * 300, Area("<path d='M0 0A0 10 0 0 1 400 0V300Z'/>"), 1e-12);
    }

    [Fact]
    public void An_arc_lies_on_its_ellipse() => Gen.Select(Gen.Double[-400, 400], Gen.Double[100, 400], Gen.Double[80, 300], Gen.Double[0, 180], Gen.Bool, Gen.Bool).Sample((x, rx, ry, turn, large, rises) =>
    {
        if (Math.Abs(x) < 110) { return; }
        Curve arc = Only(DrawingWriter.Row($"<path d='M0 0A{rx} {ry} {turn} {(large ? 1 : 0)} {(rises ? 1 : 0)} {x} 90Z'/>"));
        // Squeezed back into a circle, every point of the arc is as far from one centre: that of the circle through three of them.
        Point[] round = [.. arc.Segments.Where(s => (s.P1 - s.P0).Cross(s.P3 - s.P0) != 0 && (s.At(0.5) - 0.5 * (s.P0 + s.P3)).Norm > 1e-6).SelectMany(s => Enumerable.Range(0, 5).Select(i => s.At(i / 5.0)))
            .Select(p => p.Turned(turn * Math.PI / 180)).Select(p => new Point(p.X / rx, p.Y / ry))];
        if (round.Length < 5) { return; }
        Point a = round[0], b = round[round.Length / 2] - a, c = round[^1] - a;
        double d = 2 * b.Cross(c);
        if (Math.Abs(d) < 1e-9) { return; }
        Point centre = a + new Point((c.Y * b.Dot(b) - b.Y * c.Dot(c)) / d, (b.X * c.Dot(c) - c.X * b.Dot(b)) / d);
        double radius = (a - centre).Norm;
        Assert.All(round, p => Checks.Near(radius, (p - centre).Norm, 1e-5));
        // One unit of the squeezed plane is 1 mm over a semi-axis in mm, unless the radii had to be enlarged.
        Assert.True(radius >= 1e-3 * (1 - 1e-5), $"{radius}");
    }, iter: 300);

    [Fact]
    public void Transforms_nest_and_the_last_written_acts_first() => Gen.Select(Gen.Double[-200, 200], Gen.Double[0.5, 2], Gen.Double[-180, 180], Gen.Double[-30, 30]).Sample((move, scale, turn, skew) =>
    {
        string inner = "<path d='M0 0H200V100H50Z'/>";
        Curve nested = Only(DrawingWriter.Row($"<g transform='translate({move} 3)'><g transform='rotate({turn})'><g transform='skewX({skew})'><g transform='scale({scale},1.5)'>{inner}</g></g></g></g>"));
        Curve chained = Only(DrawingWriter.Row($"<g transform='translate({move},3) rotate({turn}),skewX({skew}) scale({scale} 1.5)'>{inner}</g>"));
        double t = turn * Math.PI / 180, k = Math.Tan(skew * Math.PI / 180), c = Math.Cos(t), s = Math.Sin(t);
        Curve matrix = Only(DrawingWriter.Row($"<g transform='matrix({c * scale:R} {s * scale:R} {(c * k - s) * 1.5:R} {(s * k + c) * 1.5:R} {move} 3)'>{inner}</g>"));
        for (double at = 0; at < 4; at += 0.3)
        {
            Checks.Close(0, (nested.At(at) - chained.At(at)).Norm, 1e-12);
            Checks.Close(0, (nested.At(at) - matrix.At(at)).Norm, 1e-12);
        }

        // Trapezoid of 200 and 150 by 100, times the determinant.
        Checks.Near(17500 * scale * 1.5, 1e6 * nested.SignedArea, 1e-9);
    }, iter: 50);

    [Fact]
    public void A_turn_about_a_point_leaves_it_there()
    {
        Curve turned = Only("<path transform='rotate(90 100 50)' d='M100 50H400V150H100Z'/>");
        // A quarter turn from x to y, which points down on the page: +300 along x becomes +300 down.
        Checks.Close(0, (turned.Segments.Select(p => p.P0).Min(p => (p - new Point(0.1, -0.05)).Norm)), 1e-12);
        Checks.Close(-0.35, turned.Bounds().MinY, 1e-12);
        Checks.Close(0, turned.Bounds().MinX, 1e-12);
    }

    [Theory]
    [InlineData("width='400mm' height='300mm' viewBox='0 0 400 300'", 1e-3, 1e-3)]
    [InlineData("width='40cm' height='30cm' viewBox='0 0 800 600'", 5e-4, 5e-4)]
    [InlineData("width='20in' height='15in' viewBox='0 0 400 300'", 0.0254 / 20, 0.0254 / 20)]
    [InlineData("width='1440pt' height='1080pt' viewBox='0 0 400 300'", 0.0254 / 20, 0.0254 / 20)]
    [InlineData("width='1920' height='1440' viewBox='0 0 400 300'", 0.0254 / 20, 0.0254 / 20)]
    [InlineData("width='400mm' viewBox='0 0 400 300'", 1e-3, 1e-3)]
    [InlineData("width='800mm' height='300mm' viewBox='0 0 400 300'", 1e-3, 1e-3)]
    [InlineData("width='800mm' height='300mm' viewBox='0 0 400 300' preserveAspectRatio='xMinYMax meet'", 1e-3, 1e-3)]
    [InlineData("width='800mm' height='300mm' viewBox='0 0 400 300' preserveAspectRatio='xMidYMid slice'", 2e-3, 2e-3)]
    [InlineData("width='800mm' height='300mm' viewBox='0 0 400 300' preserveAspectRatio='none'", 2e-3, 1e-3)]
    [InlineData("", 0.0254 / 96, 0.0254 / 96)]
    [InlineData("width='100%' height='100%' viewBox='0 0 400 300'", 0.0254 / 96, 0.0254 / 96)]
    public void A_page_has_its_size(string size, double metresAlong, double metresAcross)
    {
        Box box = Assert.Single(Read(DrawingWriter.SvgPage("<rect x='20' y='30' width='1400' height='1200'/>", size)).Curves).Curve.Bounds();
        Checks.Near(1400 * metresAlong, box.MaxX - box.MinX, 1e-12);
        Checks.Near(1200 * metresAcross, box.MaxY - box.MinY, 1e-12);
    }

    [Fact]
    public void A_unit_that_is_told_goes_for_the_numbers_as_they_stand()
    {
        Box box = Assert.Single(Read(DrawingWriter.SvgPage("<rect width='400' height='300'/>", "width='10mm' height='10mm' viewBox='0 0 1000 1000'"), "mm").Curves).Curve.Bounds();
        Checks.Near(0.4, box.MaxX - box.MinX, 1e-12);
    }

    [Fact]
    public void A_page_within_a_page_and_what_is_used_have_their_place()
    {
        Curve inner = Only("<svg x='100' y='10' width='400' height='300' viewBox='0 0 40 30'><rect width='40' height='30'/></svg>");
        Checks.Near(0.12, inner.SignedArea, 1e-12);
        Checks.Close(0.1, inner.Bounds().MinX, 1e-12);
        Curve used = Only("<defs><g id='half'><rect width='200' height='150'/></g></defs><use href='#half' x='7' transform='scale(2)'/>");
        Checks.Near(0.12, used.SignedArea, 1e-12);
        Checks.Close(0.014, used.Bounds().MinX, 1e-12);
    }

    [Fact]
    public void Curves_are_named_by_id_else_by_group_and_what_is_hidden_is_left_out()
    {
        Drawing d = Read(DrawingWriter.SvgPage("""
            <defs><rect width="900" height="900"/></defs>
            <g id="layer1" label="outlines"><rect id="outer" width="400" height="300"/><circle cx="100" cy="100" r="40"/><circle cx="250" cy="100" r="40"/></g>
            <rect display="none" width="800" height="800"/><g style="display: none"><rect width="800" height="800"/></g>
            <text>words</text>
            """));
        Assert.Equal(["outer", "outlines", "outlines 2"], d.Curves.Select(c => c.Name));
        Assert.All(d.Curves, c => Assert.Equal("outlines", c.Layer));
        Assert.Contains(d.Notes, n => n.Contains("1 text", StringComparison.Ordinal));
    }

    [Fact]
    public void Any_closed_curve_comes_back_as_it_was_written() => Gen.Select(Gen.Double[0.3, 0.6], Gen.Double[0.7, 0.9], Gen.Double[0.5, 0.9], Gen.Double[-3, 3]).Sample((length, lower, waist, turn) =>
    {
        Curve curve = OutlineFamily.Of(length, lower * length, waist * lower * length, 0.9 * lower * length).Mapped(p => p.Turned(turn));
        Curve back = Assert.Single(Read(DrawingWriter.Svg(("a", curve))).Curves).Curve;
        for (double t = 0; t < curve.Segments.Count; t += 0.37) { Checks.Close(0, back.Nearest(curve.At(t)).Distance, 1e-12); }
        Checks.Near(curve.SignedArea, back.SignedArea, 1e-12);
    }, iter: 40);
}
