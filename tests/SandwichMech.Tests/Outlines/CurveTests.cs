using CsCheck;
using SandwichMech.Core.Outlines;

namespace SandwichMech.Tests.Outlines;

/// <summary>Curves against closed forms and against plain sums.</summary>
[Trait("Check", "exact")]
public class CurveTests
{
    private static readonly Gen<Point> Places = Gen.Double[-0.5, 0.5].Select(Gen.Double[-0.5, 0.5], (x, y) => new Point(x, y));

    [Fact]
    public void A_circle_has_its_area_length_and_moments()
    {
        Curve circle = Shapes.Circle(new(0.3, -0.2), 0.05);
        // Twelve cubics: radius within 3.7e-7.
        Checks.Near(Math.PI * 0.0025, circle.SignedArea, 1e-6);
        Checks.Near(Math.PI * 0.1, circle.TotalLength, 1e-6);
        AreaMoments m = AreaMoments.Of(circle);
        Checks.Close(0.3, m.Centroid.X, 1e-12);
        Checks.Close(-0.2, m.Centroid.Y, 1e-12);
        Checks.Near(Math.PI / 4 * 6.25e-6, m.Ixx, 2e-6);
        Checks.Near(m.Ixx, m.Iyy, 1e-12);
        Checks.Close(0, m.Ixy, 1e-18);
    }

    [Fact]
    public void A_turned_ellipse_has_its_moments()
    {
        const double a = 0.2, b = 0.1, angle = 0.4;
        AreaMoments m = AreaMoments.Of(Shapes.Ellipse(new(1, 2), a, b, angle));
        double small = Math.PI / 4 * a * b * b * b, large = Math.PI / 4 * a * a * a * b;
        Checks.Near(Math.PI * a * b, m.Area, 1e-6);
        Checks.Near(small + large, m.Ixx + m.Iyy, 2e-6);
        Checks.Near((large - small) / 2 * Math.Sin(2 * angle), m.Ixy, 2e-6);
    }

    [Fact]
    public void Moments_do_not_depend_on_the_direction_and_polygons_are_exact()
    {
        Curve triangle = Shapes.Polygon([new(0, 0), new(0.3, 0), new(0, 0.6)]);
        AreaMoments m = AreaMoments.Of(triangle), back = AreaMoments.Of(triangle.Reversed());
        Checks.Near(0.09, m.Area, 1e-14);
        Checks.Near(0.1, m.Centroid.X, 1e-14);
        Checks.Near(0.2, m.Centroid.Y, 1e-14);
        Checks.Near(0.3 * 0.6 * 0.6 * 0.6 / 36, m.Ixx, 1e-13);
        Checks.Near(-0.3 * 0.3 * 0.6 * 0.6 / 72, m.Ixy, 1e-13);
        Checks.Near(m.Ixy, back.Ixy, 1e-13);
        Checks.Near(m.Iyy, back.Iyy, 1e-13);
    }

    [Fact]
    public void Containment_agrees_with_the_distance_from_the_centre() => Places.Sample(p =>
    {
        Curve circle = Shapes.Circle(new(0, 0), 0.3);
        Assert.True(Math.Abs(p.Norm - 0.3) < 1e-6 || circle.Contains(p) == (p.Norm < 0.3));
        Assert.Equal(circle.Contains(p), circle.Reversed().Contains(p));
    });

    [Fact]
    public void A_ray_through_joints_and_turning_points_counts_them_once()
    {
        Curve diamond = Shapes.Polygon([new(1, 0), new(0, 1), new(-1, 0), new(0, -1)]);
        Curve circle = Shapes.Circle(new(0, 0), 1);
        foreach (double x in (double[])[-1.5, -0.999, -0.5, 0, 0.5, 0.999, 1.5])
        {
            foreach (double y in (double[])[-1, -0.5, 0, 0.5, 1])
            {
                if (Math.Abs(Math.Abs(x) + Math.Abs(y) - 1) > 1e-9)
                {
                    Assert.Equal(Math.Abs(x) + Math.Abs(y) < 1, diamond.Contains(new(x, y)));
                }

                if (Math.Abs(x * x + y * y - 1) > 1e-5) { Assert.Equal(x * x + y * y < 1, circle.Contains(new(x, y))); }
            }
        }
    }

    [Fact]
    public void The_share_of_points_inside_is_the_area()
    {
        Curve board = SampleOutline.Board;
        Box box = board.Bounds();
        const int n = 200;
        int inside = 0;
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                inside += board.Contains(new(box.MinX + (i + 0.5) / n * (box.MaxX - box.MinX), box.MinY + (j + 0.5) / n * (box.MaxY - box.MinY))) ? 1 : 0;
            }
        }

        Checks.Near(board.SignedArea, (double)inside / (n * n) * (box.MaxX - box.MinX) * (box.MaxY - box.MinY), 1e-3);
    }

    [Fact]
    public void The_nearest_point_is_no_farther_than_any_other_and_square_to_the_curve() => Places.Sample(p =>
    {
        Curve board = SampleOutline.Board;
        NearestPoint n = board.Nearest(p);
        Checks.Close((n.At - p).Norm, n.Distance, 1e-15);
        Checks.Close(0, (board.At(n.T) - n.At).Norm, 1e-15);
        double least = Enumerable.Range(0, 28 * 200).Min(i => (board.At(i / 200.0) - p).Norm);
        Assert.True(n.Distance <= least + 1e-12);
        Assert.True(Math.Abs((n.At - p).Dot(board.Derivative(n.T))) <= 1e-9);
    }, iter: 30);

    [Fact]
    public void The_box_is_tight()
    {
        Box box = Shapes.Ellipse(new(1, 2), 0.3, 0.1, 0.7).Bounds();
        double x = Math.Sqrt(0.09 * Math.Pow(Math.Cos(0.7), 2) + 0.01 * Math.Pow(Math.Sin(0.7), 2));
        double y = Math.Sqrt(0.09 * Math.Pow(Math.Sin(0.7), 2) + 0.01 * Math.Pow(Math.Cos(0.7), 2));
        Checks.Close(1 - x, box.MinX, 2e-7);
        Checks.Close(1 + x, box.MaxX, 2e-7);
        Checks.Close(2 - y, box.MinY, 2e-7);
        Checks.Close(2 + y, box.MaxY, 2e-7);
    }

    [Fact]
    public void A_ruler_agrees_with_the_length_and_goes_round() => Gen.Double[0, 1].Sample(share =>
    {
        Curve board = SampleOutline.Board;
        var ruler = new CurveRuler(board);
        double n = board.Segments.Count, t = share * n;
        Checks.Near(board.TotalLength, ruler.Total, 1e-9);
        Checks.Close(board.Length(0, t), ruler.LengthAt(t), 1e-9);
        Checks.Close(t, ruler.ParameterAt(ruler.LengthAt(t)), 1e-4);
        Checks.Close(0, (ruler.At(share * ruler.Total) - ruler.At((share - 1) * ruler.Total)).Norm, 1e-9);
    });

    [Fact]
    public void A_smooth_curve_runs_through_its_points_with_one_curvature_on_both_sides()
    {
        Curve board = SampleOutline.Board;
        Assert.Empty(board.Corners());
        for (int i = 0; i < board.Segments.Count; i++)
        {
            Bezier before = board.Segments[(i + board.Segments.Count - 1) % board.Segments.Count], after = board.Segments[i];
            Checks.Near(before.Curvature(1), after.Curvature(0), 1e-8);
            Checks.Close(0, before.Derivative(1).AngleTo(after.Derivative(0)), 1e-12);
        }

        Curve open = Shapes.Smooth([new(0, 0), new(0.1, 0.05), new(0.3, 0)], closed: false);
        Checks.Close(0, open.Segments[0].Curvature(0), 1e-9);
        Checks.Close(0, (open.At(1) - new Point(0.1, 0.05)).Norm, 1e-15);
        Assert.False(open.IsClosed);
    }

    [Fact]
    public void Corners_are_where_the_tangent_turns()
    {
        Assert.Equal([0.0, 1, 2, 3], SampleOutline.BridgePatch.Corners());
        Assert.Empty(Shapes.Circle(new(0, 0), 1).Corners());
        Assert.Equal([0.0, 2], Shapes.Polygon([new(0, 0), new(1, 0), new(2, 0.1)], closed: false).Corners());
    }

    [Fact]
    public void Broken_chains_are_refused()
    {
        Bezier first = Bezier.Line(new(0, 0), new(1, 0));
        Assert.Throws<ArgumentException>(() => new Curve([]));
        Assert.Contains("segments 1 and 2", Assert.Throws<ArgumentException>(() => new Curve([first, Bezier.Line(new(1, 0.1), new(0, 0))])).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => new Curve([Bezier.Line(new(0, 0), new(double.NaN, 0))]));
        Assert.Throws<ArgumentException>(() => Shapes.Polygon([new(0, 0), new(1, 0), new(0, 0)]));
        Assert.Throws<ArgumentException>(() => new Curve([first]).Contains(new(0, 0)));
    }
}
