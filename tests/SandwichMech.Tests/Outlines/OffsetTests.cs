using CsCheck;
using SandwichMech.Core.Outlines;

namespace SandwichMech.Tests.Outlines;

/// <summary>Offsets against closed forms and against their definition.</summary>
[Trait("Check", "exact")]
public class OffsetTests
{
    [Fact]
    public void A_circle_stays_a_circle()
    {
        Curve inner = Assert.Single(Offset.Inward(Shapes.Circle(new(0.1, 0), 0.1), 0.03));
        Checks.Near(Math.PI * 0.07 * 0.07, inner.SignedArea, 1e-5);
        Curve outer = Assert.Single(Offset.Inward(Shapes.Circle(new(0.1, 0), 0.1).Reversed(), -0.03));
        Checks.Near(Math.PI * 0.13 * 0.13, outer.SignedArea, 1e-5);
        Assert.Empty(Offset.Inward(Shapes.Circle(new(0.1, 0), 0.1), 0.11));
    }

    [Fact]
    public void A_rectangle_keeps_its_corners_inwards_and_is_rounded_outwards()
    {
        Curve inner = Assert.Single(Offset.Inward(Shapes.Rectangle(new(0, 0, 0.4, 0.2)), 0.01));
        Checks.Near(0.38 * 0.18, inner.SignedArea, 1e-12);
        Assert.Equal(4, inner.Corners().Count);
        Curve outer = Assert.Single(Offset.Inward(Shapes.Rectangle(new(0, 0, 0.4, 0.2)), -0.01));
        Checks.Near(0.08 + 0.012 + Math.PI * 1e-4, outer.SignedArea, 1e-7);
    }

    [Fact]
    public void An_inner_corner_is_rounded()
    {
        Curve angle = Shapes.Polygon([new(0, 0), new(0.3, 0), new(0.3, 0.1), new(0.1, 0.1), new(0.1, 0.3), new(0, 0.3)]);
        Curve inner = Assert.Single(Offset.Inward(angle, 0.02));
        // Two legs of 0.06 by 0.26, once their common square, and what the round corner gives: r²(1 − π/4) is kept out beyond the square corner.
        Checks.Near(2 * 0.06 * 0.26 - 0.0036 + 4e-4 * (1 - Math.PI / 4), inner.SignedArea, 1e-6);
    }

    [Fact]
    public void A_waist_narrower_than_twice_the_distance_is_closed()
    {
        Curve waisted = Shapes.Polygon([new(0, 0), new(0.1, 0), new(0.15, 0.04), new(0.2, 0), new(0.3, 0), new(0.3, 0.1), new(0.2, 0.1), new(0.15, 0.06), new(0.1, 0.1), new(0, 0.1)]);
        Assert.Single(Offset.Inward(waisted, 0.005));
        IReadOnlyList<Curve> two = Offset.Inward(waisted, 0.02);
        Assert.Equal(2, two.Count);
        Checks.Near(two[0].SignedArea, two[1].SignedArea, 1e-9);
    }

    [Fact]
    public void Every_point_of_the_band_border_keeps_the_distance() => Gen.Double[-0.03, 0.08].Sample(d =>
    {
        Curve board = SampleOutline.Board;
        foreach (Curve inner in Offset.Inward(board, d))
        {
            for (double t = 0; t < inner.Segments.Count; t += 0.23)
            {
                Checks.Close(Math.Abs(d), board.Nearest(inner.At(t)).Distance, 2e-6);
            }

            Assert.Empty(Crossings.Within(inner));
        }
    }, iter: 8);

    [Fact]
    public void Without_tight_places_area_and_length_follow_Steiner()
    {
        // A smooth closed curve: A(d) = A − d L + π d², L(d) = L − 2π d, while no place is tighter than d.
        Curve board = SampleOutline.Board;
        const double d = 0.01;
        Curve inner = Assert.Single(Offset.Inward(board, d, 1e-8));
        double length = board.TotalLength;
        Checks.Near(board.SignedArea - d * length + Math.PI * d * d, inner.SignedArea, 1e-7);
        Checks.Near(length - 2 * Math.PI * d, inner.TotalLength, 1e-6);
    }

    [Fact]
    public void A_polygon_of_many_sides_loses_its_knots()
    {
        Curve polygon = Shapes.Polygon([.. Enumerable.Range(0, 300).Select(i => SampleOutline.Board.At(28.0 * i / 300))]);
        Curve inner = Assert.Single(Offset.Inward(polygon, 0.01));
        Assert.Empty(Crossings.Within(inner));
        for (double t = 0; t < inner.Segments.Count; t += 0.37)
        {
            Checks.Close(0.01, polygon.Nearest(inner.At(t)).Distance, 5e-6);
        }
    }

    [Fact]
    public void Wrong_input_is_refused()
    {
        Assert.Throws<ArgumentException>(() => Offset.Inward(Shapes.Polygon([new(0, 0), new(1, 0)], closed: false), 0.01));
        Assert.Throws<ArgumentException>(() => Offset.Inward(SampleOutline.Board, double.NaN));
    }
}
