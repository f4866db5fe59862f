using CsCheck;
using SandwichMech.Core.Outlines;
using SandwichMech.Workshop.Drawings;

namespace SandwichMech.Tests.Drawings;

/// <summary>One shape through every format, in pieces, turned and doubled: always the same outline in the board's frame.</summary>
[Trait("Check", "independent")]
public class DrawnOutlineTests
{
    private sealed record Family(double Length, double Lower, double Waist, double Upper)
    {
        internal Curve Outline => OutlineFamily.Of(Length, Lower, Waist, Upper);
    }

    private static readonly Gen<Family> Any = Gen.Select(Gen.Double[0.35, 0.6], Gen.Double[0.7, 0.85], Gen.Double[0.6, 0.9], Gen.Double[0.8, 0.97])
        .Select((length, lower, waist, upper) => new Family(length, lower * length, waist * upper * lower * length, upper * lower * length));

    private static DrawnOutline Read(string name, string text, DrawingWishes? wishes = null) => DrawnOutline.Of(DrawingFiles.Parse(name, DrawingWriter.Bytes(text), wishes));

    private static void SameAs(Family family, DrawnOutline drawn, double close, string what)
    {
        Curve wanted = family.Outline;
        Checks.Close(wanted.SignedArea, drawn.Area, close * wanted.TotalLength, what + " area");
        Checks.Close(family.Length, drawn.Measures.Length, 2 * close, what + " length");
        Checks.Close(Math.Max(family.Lower, family.Upper), drawn.Measures.Width, 2 * close, what + " width");
        Checks.Close(family.Lower, drawn.Measures.LowerBout.Width, 2 * close, what + " lower");
        Checks.Close(family.Waist, drawn.Measures.Waist!.Width, 2 * close, what + " waist");
        Checks.Close(family.Upper, drawn.Measures.UpperBout!.Width, 2 * close, what + " upper");
        for (double t = 0; t < wanted.Segments.Count; t += 0.21) { Checks.Close(0, drawn.Outline.Nearest(wanted.At(t)).Distance, 2 * close, what); }
    }

    [Fact]
    public void Svg_and_dxf_in_pieces_in_any_order_are_one_outline_wherever_it_lies() =>
        // So little off the page's axis that a drawing's rounding hides it, an outline is laid along the page: such turns are left out.
        Gen.Select(Any, Gen.Double[-Math.PI, Math.PI].Where(t => Math.Abs(Math.Sin(2 * t)) > 4e-6), Gen.Double[-0.4, 0.4], Gen.Shuffle(Enumerable.Range(0, 8).ToArray()), Gen.Bool.Array[8], Gen.Int[1, 3]).Sample((family, turn, shift, order, reversed, cut) =>
        {
            Curve placed = family.Outline.Mapped(p => p.Turned(turn) + new Point(shift, -shift));
            SameAs(family, Read("a.svg", DrawingWriter.Svg(("a", placed))), 1e-9, "SVG");
            Bezier[] pieces = [.. order.Select(i => reversed[i] ? placed.Segments[i].Reversed() : placed.Segments[i])];
            string splines = string.Concat(pieces.SelectMany(s => Enumerable.Range(0, cut).Select(k => DrawingWriter.Spline(s.Part((double)k / cut, (k + 1.0) / cut), "edge"))));
            DrawnOutline dxf = Read("a.dxf", DrawingWriter.Dxf(splines));
            SameAs(family, dxf, 1e-9, "DXF");
            Assert.Contains(dxf.Notes, n => n.Contains($"{8 * cut} loose pieces", StringComparison.Ordinal));
        }, iter: 30);

    [Fact]
    public void Points_and_half_widths_come_near_the_curve_and_nearer_when_smoothed() => Any.Sample(family =>
    {
        Curve outline = family.Outline;
        string points = "x_in,y_in\n" + string.Join('\n', Enumerable.Range(0, 160).Select(i => outline.At(i / 20.0)).Select(p => DrawingWriter.Row($"{p.X / 0.0254:R},{p.Y / 0.0254:R}")));
        // Stations denser towards the round ends.
        double[] stations = [.. Enumerable.Range(0, 61).Select(i => family.Length / 2 * (1 - Math.Cos(Math.PI * i / 60)))];
        string halves = "station_mm;half_width_mm\n" + string.Join('\n', stations.Select((x, i) => DrawingWriter.Row($"{1000 * x:F4};{(i is 0 or 60 ? 0 : 500 * OutlineMeasures.WidthAcross(outline, x)):F4}").Replace('.', ',')));
        foreach ((string name, string text) in ((string, string)[])[("a.csv", points), ("b.csv", halves)])
        {
            DrawnOutline smooth = Read(name, text, new() { Smooth = true }), plain = Read(name, text);
            SameAs(family, smooth, 2e-4, name);
            Assert.True(plain.Area < outline.SignedArea);
            Assert.True(Math.Abs(smooth.Area - outline.SignedArea) < 0.1 * (outline.SignedArea - plain.Area), $"{plain.Area} {smooth.Area} {outline.SignedArea}");
            Assert.Contains(plain.Notes, n => n.Contains("straight lines", StringComparison.Ordinal));
        }
    }, iter: 10);

    [Fact]
    public void An_outline_told_to_run_up_is_not_turned_by_its_bouts()
    {
        var family = new Family(0.5, 0.38, 0.25, 0.3);
        // Drawn with the large bout at the top: by itself the lower end is there; told "up", it is at the bottom.
        string svg = DrawingWriter.Svg(("a", family.Outline.Mapped(p => p.Turned(-Math.PI / 2))));
        SameAs(family, Read("a.svg", svg), 1e-9, "by itself");
        DrawnOutline told = Read("a.svg", svg, new() { Along = Math.PI / 2 });
        Checks.Close(0.3, told.Measures.LowerBout.Width, 1e-9);
        Checks.Close(0.38, told.Measures.UpperBout!.Width, 1e-9);
    }

    [Fact]
    public void What_is_not_alike_on_both_sides_keeps_its_hand()
    {
        // A corner cut off on the left-hand side, seen with the lower end down.
        string cut = "<path id='a' d='M100 600 H500 V100 H220 L100 300 Z'/>";
        DrawnOutline o = Read("a.svg", DrawingWriter.SvgPage(cut));
        // Left-hand with the lower end down is +y with x along the grain.
        Assert.False(o.Outline.Contains(new(0.49, 0.18)));
        Assert.True(o.Outline.Contains(new(0.49, -0.18)));
        Checks.Near(400 * 500 * 1e-6 - 0.5 * 120 * 200 * 1e-6, o.Area, 1e-9);
        // The centre line runs through the middle of the lower bout.
        Checks.Close(0, o.Outline.Bounds().MinY + 0.2, 1e-9);
        Assert.Contains(o.Notes, n => n.Contains("longer way, up the drawing", StringComparison.Ordinal));
    }

    [Fact]
    public void A_soundhole_and_others_inside_are_named_and_move_with_the_outline()
    {
        var family = new Family(0.48, 0.36, 0.24, 0.28);
        Curve Up(Curve c) => c.Mapped(p => p.Turned(1.1));
        DrawnOutline o = Read("a.svg", DrawingWriter.Svg(("soundhole", Up(Shapes.Circle(new(0.32, 0), 0.0425))), ("edge", Up(family.Outline)), ("bridge", Up(Shapes.Rectangle(new(0.1, -0.09, 0.13, 0.09)))), ("label", Up(Shapes.Rectangle(new(0.6, 0, 0.7, 0.05))))), new() { Part = "edge" });
        Assert.Equal(["soundhole", "bridge"], o.Inside.Select(c => c.Name));
        Box hole = o.InsideCurve("Soundhole").Curve.Bounds();
        Checks.Close(0.32, hole.Middle.X, 1e-6);
        Checks.Close(0, hole.Middle.Y, 1e-9);
        Assert.Contains(o.Notes, n => n.Contains("'label'", StringComparison.Ordinal));
    }

    [Fact]
    public void Doubled_lines_count_once_and_small_gaps_are_closed_and_said()
    {
        string side = DrawingWriter.Line(new(0, 0), new(400, 0)) + DrawingWriter.Line(new(400.03, 0.04), new(400, 600)) + DrawingWriter.Line(new(0, 600), new(400, 600)) + DrawingWriter.Line(new(0, 600), new(0, 0));
        DrawnOutline o = Read("a.dxf", DrawingWriter.Dxf(side + DrawingWriter.Line(new(400, 0), new(0, 0)) + DrawingWriter.Line(new(0, 600), new(400, 600))));
        Checks.Near(0.24, o.Area, 1e-4);
        Assert.Contains(o.Notes, n => n.Contains("2 pieces are drawn twice", StringComparison.Ordinal));
        Assert.Contains(o.Notes, n => n.Contains("0.050 mm apart", StringComparison.Ordinal));
        // A whole outline drawn twice, on two layers.
        DrawnOutline twice = Read("a.svg", DrawingWriter.Svg(("a", new Family(0.48, 0.36, 0.24, 0.28).Outline), ("b", new Family(0.48, 0.36, 0.24, 0.28).Outline.Reversed())));
        Assert.Contains(twice.Notes, n => n.Contains("once more", StringComparison.Ordinal));
    }

    [Fact]
    public void Many_short_lines_in_any_order_are_joined()
    {
        // 6000 lines of some 0.25 mm, shorter than twice the gap that is closed between long ones.
        const int n = 6000;
        static Point At(int i) => new(250 * Math.Cos(2 * Math.PI * i / n), 170 * Math.Sin(2 * Math.PI * i / n));
        int[] order = [.. Enumerable.Range(0, n).Select(i => (int)((long)i * 2749 % n))];
        DrawnOutline o = Read("a.dxf", DrawingWriter.Dxf(string.Concat(order.Select(i => DrawingWriter.Line(At(i), At(i + 1))))));
        Assert.Equal(n, o.Outline.Segments.Count);
        // A polygon inscribed in an ellipse, n equal steps of the parameter: n/2 · a b sin(2π/n).
        Checks.Near(n / 2.0 * 0.25 * 0.17 * Math.Sin(2 * Math.PI / n), o.Area, 1e-12);
    }

    [Fact]
    public void A_centre_line_on_the_same_layer_is_left_out()
    {
        // It ends on the joints of the outline, and comes first in the file.
        Curve outline = new Family(0.48, 0.36, 0.24, 0.28).Outline;
        string all = DrawingWriter.Line(new(-20, 0), new(0, 0), "edge") + DrawingWriter.Line(new(0, 0), new(480, 0), "edge") + string.Concat(outline.Segments.Select(s => DrawingWriter.Spline(s, "edge")));
        DrawnOutline o = Read("a.dxf", DrawingWriter.Dxf(all));
        Checks.Near(outline.SignedArea, o.Area, 1e-9);
        Assert.Contains(o.Notes, n => n.Contains("open piece", StringComparison.Ordinal));
    }

    [Fact]
    public void Arcs_and_lines_of_one_shape_in_dxf_and_svg_agree()
    {
        // A stadium of 300 and radius 120: lines and half circles, as entities, as bulges, as path, as rounded rectangle.
        double area = 300 * 240 + Math.PI * 120 * 120;
        string entities = DrawingWriter.Line(new(0, 0), new(300, 0)) + DrawingWriter.Groups(0, "ARC", 8, "0", 10, 300, 20, 120, 40, 120, 50, 270, 51, 90)
            + DrawingWriter.Line(new(0, 240), new(300, 240)) + DrawingWriter.Groups(0, "ARC", 8, "0", 10, 0, 20, 120, 40, 120, 50, 90, 51, 270);
        string[] texts =
        [
            DrawingWriter.Dxf(entities),
            DrawingWriter.Dxf(DrawingWriter.Polyline("0", (0, 0, 0), (300, 0, 1), (300, 240, 0), (0, 240, 1))),
            DrawingWriter.SvgPage("<path d='M0 0H300A120 120 0 0 1 300 240H0A120 120 0 0 1 0 0Z'/>"),
            DrawingWriter.SvgPage("<rect x='-120' width='540' height='240' rx='120'/>"),
        ];
        foreach (string text in texts)
        {
            DrawnOutline o = Read(text.StartsWith('<') ? "a.svg" : "a.dxf", text);
            Checks.Near(area * 1e-6, o.Area, 1e-6);
            Checks.Near(0.54, o.Measures.Length, 1e-9);
            Checks.Near(0.24, o.Measures.LowerBout.Width, 1e-9);
            Assert.Null(o.Measures.Waist);
        }
    }

    [Fact]
    public void Several_parts_of_a_table_of_points_and_other_separators()
    {
        const string text = "# invented\nx (cm)\ty (cm)\tpart\n0\t0\tboard\n48\t0\tboard\n48\t36\tboard\n0\t36\tboard\n20\t10\thole\n28\t10\thole\n28\t18\thole\n";
        DrawnOutline o = Read("a.csv", text);
        Checks.Near(0.48 * 0.36, o.Area, 1e-12);
        Checks.Near(0.5 * 0.08 * 0.08, o.InsideCurve("hole").Curve.SignedArea, 1e-12);
        Checks.Near(0.48 * 0.36, Read("b.txt", "0 0\n480 0\n480 360\n0 360\n0 0\n", new() { Unit = "mm" }).Area, 1e-12);
        // Whole widths; a straight end where the first is not zero.
        Checks.Near(0.4 * 0.3, Read("c.csv", "station_mm,width_mm\n0,300\n100,300\n400,300\n").Area, 1e-12);
    }

    [Fact]
    public void A_choice_of_layers_follows_the_word_that_is_given()
    {
        string two = DrawingWriter.Dxf(DrawingWriter.Polyline("mould", (-20, -20, 0), (420, -20, 0), (420, 620, 0), (-20, 620, 0)) + DrawingWriter.Polyline("Board", (0, 0, 0), (400, 0, 0), (400, 600, 0), (0, 600, 0)));
        Checks.Near(0.24, Read("a.dxf", two, new() { Part = "board" }).Area, 1e-12);
        Checks.Near(0.44 * 0.64, Read("a.dxf", two, new() { Part = "mould" }).Area, 1e-12);
        // A curve that is called the outline needs no choice.
        Checks.Near(0.24, Read("a.dxf", two.Replace("Board", "Outline", StringComparison.Ordinal)).Area, 1e-12);
    }
}
