using CsCheck;
using SandwichMech.Core.Outlines;

namespace SandwichMech.Tests.Outlines;

/// <summary>Places where several nearest points crowd together, and curves that run back on themselves.</summary>
[Trait("Check", "exact")]
public class SharpBendTests
{
    private static readonly Gen<Point> Place = Gen.Select(Gen.Double[-1, 1], Gen.Double[-1, 1]).Select(p => new Point(p.Item1, p.Item2));

    // A hairpin: out along x and back, a little apart, with its bend at the far end.
    private static readonly Gen<Bezier> Hairpin = Gen.Select(Gen.Double[1e-6, 1e-2], Gen.Double[0.9, 1.1], Gen.Double[-3, 3])
        .Select((apart, reach, angle) => Turned(new(new(0, 0), new(reach, -apart), new(reach * 0.98, 2 * apart), new(0, apart)), angle));

    [Fact]
    public void No_sampled_point_of_a_segment_is_nearer_than_the_nearest() => Gen.Select(Gen.Select(Place, Place, Place, Place).Select((a, b, c, d) => new Bezier(a, b, c, d)), Place)
        .Sample(Check, iter: 2000);

    [Fact]
    public void At_a_sharp_bend_the_nearest_is_no_greatest() => Gen.Select(Hairpin, Gen.Double[0.2, 0.8], Gen.Double[-1e-5, 1e-5])
        .Sample((s, t, off) => Check(s, s.At(t) + off * new Point(0.6, 0.8)), iter: 2000);

    [Fact]
    public void A_point_on_a_segment_is_its_own_nearest() => Gen.Select(Hairpin, Gen.Double[0, 1]).Sample((s, t) =>
        Checks.Close(0, s.Nearest(s.At(t)).Distance, 1e-12), iter: 2000);

    [Fact]
    public void A_hairpin_alike_on_both_sides_has_two_nearest_and_not_the_place_between()
    {
        // From the middle between the legs the tip of the bend is a greatest distance, at exactly t = 1/2.
        var s = new Bezier(new(0, -0.001), new(1, -0.001), new(1, 0.001), new(0, 0.001));
        Checks.Close(0.5, s.Nearest(new(0.74999, 0)).T, 0.1);
        NearestPoint n = s.Nearest(new(0.3, 0));
        Checks.Within(0, 0.001, n.Distance);
    }

    [Fact]
    public void A_segment_that_turns_back_on_itself_meets_itself()
    {
        // Straight out to its turn at t = 1/2 and straight back, or back part of the way.
        var there = new Curve([new(new(0, 0), new(1, 0), new(1, 0), new(0, 0))]);
        var open = new Curve([new(new(0, 0), new(1, 0), new(1, 0), new(0.2, 0))]);
        var within = new Curve([Bezier.Line(new(0, 1), new(0, 0)), new(new(0, 0), new(1, 0), new(0.9, 0), new(0.3, 0)), Bezier.Line(new(0.3, 0), new(0.3, 1))]);
        foreach (Curve folded in (Curve[])[there, open, within])
        {
            Meeting m = Assert.Single(Crossings.Within(folded));
            Assert.True(m.IsShared);
            Checks.Close(0, m.At.Y, 1e-12);
        }
    }

    [Fact]
    public void Lines_out_and_back_meet_and_a_narrow_corner_does_not()
    {
        Assert.True(Assert.Single(Crossings.Within(Shapes.Polygon([new(0, 0), new(1, 0), new(0.4, 0), new(0.4, 1)], closed: false))).IsShared);
        Assert.Empty(Crossings.Within(Shapes.Polygon([new(0, 0), new(1, 0), new(0, 0.001)], closed: false)));
    }

    private static void Check(Bezier s, Point p)
    {
        double least = Enumerable.Range(0, 4001).Min(i => (s.At(i / 4000.0) - p).Norm);
        NearestPoint n = s.Nearest(p);
        Assert.True(n.Distance <= least + 1e-12, $"{n.Distance} at {n.T}; {least} sampled");
    }

    private static Bezier Turned(Bezier s, double angle) => new(s.P0.Turned(angle), s.P1.Turned(angle), s.P2.Turned(angle), s.P3.Turned(angle));
}
