using CsCheck;
using SandwichMech.Core.Outlines;

namespace SandwichMech.Tests.Outlines;

/// <summary>Meetings of curves against closed forms.</summary>
[Trait("Check", "exact")]
public class CrossingsTests
{
    private static readonly Gen<double> Angle = Gen.Double[-3, 3];

    [Fact]
    public void A_line_cuts_a_circle_twice() => Gen.Select(Angle, Gen.Double[-0.9, 0.9]).Sample((angle, offset) =>
    {
        Curve circle = Shapes.Circle(new(0, 0), 1);
        Curve line = Shapes.Polygon([new Point(-2, offset).Turned(angle), new Point(2, offset).Turned(angle)], closed: false);
        IReadOnlyList<Meeting> meetings = Crossings.Between(line, circle);
        Assert.Equal(2, meetings.Count);
        for (int i = 0; i < 2; i++)
        {
            Point exact = new Point((2 * i - 1) * Math.Sqrt(1 - offset * offset), offset).Turned(angle);
            // The circle is one within 3.7e-7; at a slant that shows enlarged.
            Checks.Close(0, (meetings[i].At - exact).Norm, 1e-6);
            Checks.Close(0, (line.At(meetings[i].A) - circle.At(meetings[i].B)).Norm, 1e-12);
            Assert.False(meetings[i].IsShared);
        }
    });

    [Fact]
    public void A_line_that_touches_a_joint_of_a_circle_touches_once() => Angle.Sample(angle =>
    {
        Curve circle = Shapes.Circle(new(0, 0), 1).Mapped(p => p.Turned(angle));
        Curve line = Shapes.Polygon([new Point(1, -0.7).Turned(angle), new Point(1, 0.9).Turned(angle)], closed: false);
        Meeting touch = Assert.Single(Crossings.Between(line, circle, 1e-7));
        Assert.True(touch.Tangential);
        Assert.False(touch.IsShared);
        Checks.Close(0, (touch.At - new Point(1, 0).Turned(angle)).Norm, 1e-3);
    });

    [Fact]
    public void Circles_that_touch_from_inside_or_outside_touch_once()
    {
        Curve circle = Shapes.Circle(new(0, 0), 1);
        Meeting outside = Assert.Single(Crossings.Between(circle, Shapes.Circle(new(1.5, 0), 0.5)));
        Checks.Close(0, (outside.At - new Point(1, 0)).Norm, 1e-5);
        Assert.True(outside.Tangential);
        Meeting inside = Assert.Single(Crossings.Between(circle, Shapes.Circle(new(0.5, 0), 0.5)));
        Checks.Close(0, (inside.At - new Point(1, 0)).Norm, 1e-5);
        Assert.Empty(Crossings.Between(circle, Shapes.Circle(new(0.499, 0), 0.5)));
    }

    [Fact]
    public void A_crossing_at_a_corner_or_a_joint_is_one_crossing()
    {
        Curve square = Shapes.Rectangle(new(0, 0, 1, 1));
        Assert.Equal(2, Crossings.Between(Shapes.Polygon([new(-1, -1), new(2, 2)], closed: false), square).Count);
        Curve board = SampleOutline.Board;
        Curve centre = Shapes.Polygon([new(-0.1, 0), new(0.6, 0)], closed: false);
        Assert.Equal(2, Crossings.Between(centre, board).Count);
        Assert.Equal(2, Crossings.Between(board, centre).Count);
    }

    [Fact]
    public void A_border_that_ends_on_another_meets_it()
    {
        Curve square = Shapes.Rectangle(new(0, 0, 1, 1));
        Meeting end = Assert.Single(Crossings.Between(Shapes.Polygon([new(0.5, 0.5), new(1, 0.25)], closed: false), square));
        Checks.Close(1, end.A, 1e-12);
        Checks.Close(1.25, end.B, 1e-12);
    }

    [Fact]
    public void A_curve_and_itself_share_everything()
    {
        Curve board = SampleOutline.Board;
        Meeting all = Assert.Single(Crossings.Between(board, board));
        Assert.True(all.IsShared);
        Checks.Near(board.Segments.Count, all.EndA - all.StartA, 1e-6);
        Meeting reversed = Assert.Single(Crossings.Between(board, board.Reversed()));
        Checks.Near(board.Segments.Count, reversed.EndA - reversed.StartA, 1e-6);
    }

    [Fact]
    public void A_common_stretch_is_found_with_its_ends()
    {
        Curve square = Shapes.Rectangle(new(0, 0, 1, 1));
        Curve neighbour = Shapes.Rectangle(new(1, 0.25, 2, 0.75));
        Meeting side = Assert.Single(Crossings.Between(square, neighbour));
        Assert.True(side.IsShared);
        Checks.Close(1.25, side.StartA, 1e-6);
        Checks.Close(1.75, side.EndA, 1e-6);
        Checks.Close(0, (neighbour.At(side.StartB) - new Point(1, 0.25)).Norm, 1e-6);

        // Part of one curve, in another cut and with other ends.
        Curve board = SampleOutline.Board;
        var part = new Curve([board.Segments[3].Part(0.4, 1), board.Segments[4], board.Segments[5].Part(0, 0.3)]);
        Meeting common = Assert.Single(Crossings.Between(part, board));
        Checks.Close(0, common.StartA, 1e-6);
        Checks.Close(3, common.EndA, 1e-6);
        Checks.Close(3.4, common.StartB, 1e-6);
        Checks.Close(5.3, common.EndB, 1e-6);
    }

    [Fact]
    public void Every_crossing_of_two_ellipses_is_found() => Gen.Select(Angle, Gen.Double[-0.3, 0.3], Gen.Double[-0.3, 0.3], Gen.Double[0.3, 0.9]).Sample((angle, x, y, b) =>
    {
        Curve first = Shapes.Ellipse(new(0, 0), 1, b, 0), second = Shapes.Ellipse(new(x, y), 1, b, angle);
        // Counted by signs of the first's equation along the second, finely enough unless two crossings are close together.
        const int n = 6000;
        double[] values = [.. Enumerable.Range(0, n).Select(i => second.At(12.0 * i / n)).Select(p => p.X * p.X + p.Y * p.Y / (b * b) - 1)];
        if (values.Any(v => Math.Abs(v) < 1e-6)) { return; }
        int signs = Enumerable.Range(0, n).Count(i => values[i] * values[(i + 1) % n] < 0);
        // A near touch between two samples may go uncounted.
        bool near = Enumerable.Range(0, n).Any(i => Math.Abs(values[i]) < 1e-4 && Math.Abs(values[i]) < Math.Abs(values[(i + 1) % n]) && Math.Abs(values[i]) < Math.Abs(values[(i + n - 1) % n])
            && values[i] * values[(i + 1) % n] > 0 && values[i] * values[(i + n - 1) % n] > 0);
        IReadOnlyList<Meeting> meetings = Crossings.Between(first, second);
        Assert.True(near || meetings.Count == signs, $"{meetings.Count} for {signs}");
        Assert.All(meetings, m => Checks.Close(0, (first.At(m.A) - second.At(m.B)).Norm, 1e-7));
    }, iter: 60);

    // Two pieces of one curve end where it crosses the other at an angle of a hundredth: each sees the crossing within the tolerance, some hundred tolerances apart.
    [Fact]
    public void A_crossing_at_a_small_angle_beside_the_end_of_a_piece_is_one() => Assert.Equal(
        4, Crossings.Between(Shapes.Ellipse(new(0, 0), 1, 25.0 / 29, 0), Shapes.Ellipse(new(-0.0077547360805328425, 0), 1, 25.0 / 29, 5.0 / 97)).Count);

    [Fact]
    public void A_simple_curve_does_not_meet_itself()
    {
        Assert.Empty(Crossings.Within(SampleOutline.Board));
        Assert.Empty(Crossings.Within(SampleOutline.BridgePatch));
        Assert.Empty(Crossings.Within(SampleOutline.Soundhole));
        Assert.Empty(Crossings.Within(Shapes.Polygon([new(0, 0), new(1, 0), new(0, 0.02)])));
    }

    [Fact]
    public void A_figure_of_eight_and_a_loop_within_one_segment_cross_once()
    {
        Curve eight = Shapes.Smooth([new(0, 0), new(1, 1), new(2, 0), new(1, -1), new(-1, 1), new(-2, 0), new(-1, -1)]);
        Assert.Single(Crossings.Within(eight));
        var loop = new Curve([new(new(0, 0), new(2, 1), new(-1, 1), new(1, 0))]);
        Meeting m = Assert.Single(Crossings.Within(loop));
        Checks.Close(0.5, m.At.X, 1e-12);
        Checks.Close(1, m.A + m.B, 1e-12);
        Curve bow = Shapes.Polygon([new(0, 0), new(1, 1), new(1, 0), new(0, 1)]);
        Checks.Close(0, (Assert.Single(Crossings.Within(bow)).At - new Point(0.5, 0.5)).Norm, 1e-12);
    }
}
