using CsCheck;
using SandwichMech.Core.Outlines;

namespace SandwichMech.Tests.Drawings;

/// <summary>Splines against the sum over basis functions by their recursive definition (Cox 1972; de Boor 1972).</summary>
[Trait("Check", "independent")]
public class SplineCurveTests
{
    private sealed record Given(int Degree, Point[] Points, double[] Knots, double[] Weights);

    // Ends that all but coincide are made one by the curve, which is not what is looked at here.
    private static readonly Gen<Given> Any = Unchecked.Where(g => (g.Points[0] - g.Points[^1]).Norm > 1e-3);

    private static Gen<Given> Unchecked =>
        from degree in Gen.Int[1, 7]
        from count in Gen.Int[degree + 1, degree + 8]
        from points in Gen.Select(Gen.Double[-0.3, 0.3], Gen.Double[-0.3, 0.3]).Select(p => new Point(p.Item1, p.Item2)).Array[count]
        from steps in Gen.Frequency((1, Gen.Const(0.0)), (4, Gen.Double[0.01, 2])).Array[count]
        from weights in Gen.Double[0.05, 20].Array[count]
        from weighted in Gen.Bool
        select new Given(degree, points, Clamped(degree, count, steps), weighted ? weights : [.. Enumerable.Repeat(1.0, count)]);

    private static double[] Clamped(int degree, int count, double[] steps)
    {
        var knots = new List<double>(Enumerable.Repeat(0.0, degree + 1));
        int run = 0;
        for (int i = 0; i < count - degree - 1; i++)
        {
            // No inner knot of full multiplicity, which would tear the curve.
            run = steps[i] == 0 ? run + 1 : 0;
            knots.Add(knots[^1] + (i == 0 || run >= degree ? 0.5 : steps[i]));
            if (run >= degree) { run = 0; }
        }

        double end = knots[^1] + 0.7;
        return [.. knots, .. Enumerable.Repeat(end, degree + 1)];
    }

    private static double Basis(double[] knots, int i, int p, double u)
    {
        if (p == 0) { return knots[i] <= u && u < knots[i + 1] ? 1 : 0; }
        double a = knots[i + p] - knots[i], b = knots[i + p + 1] - knots[i + 1];
        return (a > 0 ? (u - knots[i]) / a * Basis(knots, i, p - 1, u) : 0) + (b > 0 ? (knots[i + p + 1] - u) / b * Basis(knots, i + 1, p - 1, u) : 0);
    }

    private static Point At(Given g, double u)
    {
        Point sum = new(0, 0);
        double weight = 0;
        for (int i = 0; i < g.Points.Length; i++)
        {
            double n = g.Weights[i] * Basis(g.Knots, i, g.Degree, u);
            sum += n * g.Points[i];
            weight += n;
        }

        return 1 / weight * sum;
    }

    [Fact]
    public void A_point_is_the_weighted_sum_over_the_basis() => Gen.Select(Any, Gen.Double[0, 0.999999]).Sample((g, share) =>
    {
        var spline = new SplineCurve(g.Degree, g.Points, g.Knots, g.Weights);
        double u = spline.Start + share * (spline.End - spline.Start);
        Checks.Close(0, (spline.At(u) - At(g, u)).Norm, 1e-12);
    }, iter: 2000);

    [Fact]
    public void Cubics_follow_the_spline_within_the_tolerance() => Any.Sample(g =>
    {
        const double tolerance = 1e-7;
        var spline = new SplineCurve(g.Degree, g.Points, g.Knots, g.Weights);
        Curve cubics = spline.Cubics(tolerance);
        // Between any two samples of the spline it moves far more than the tolerance: that each lies on the cubics says that no bend was missed.
        for (int i = 0; i < 400; i++)
        {
            double u = spline.Start + (i + 0.5) / 400 * (spline.End - spline.Start);
            Checks.Close(0, cubics.Nearest(At(g, u)).Distance, tolerance);
        }

        // And the other way round: each cubic's ends and middle belong to the spline, found by a fine search about them.
        Checks.Close(0, (cubics.Segments[0].P0 - g.Points[0]).Norm, 1e-12);
        Checks.Close(0, (cubics.Segments[^1].P3 - g.Points[^1]).Norm, 1e-12);
    }, iter: 300);

    [Fact]
    public void Up_to_degree_three_without_weights_the_cubics_are_the_spline() => Any.Where(g => g.Degree <= 3).Sample(g =>
    {
        var spline = new SplineCurve(g.Degree, g.Points, g.Knots);
        Assert.True(spline.IsCubic);
        double[] spans = [.. g.Knots.Distinct()];
        Curve cubics = new([.. spline.Cubics(1).Segments]);
        Assert.Equal(spans.Length - 1, cubics.Segments.Count);
        for (int k = 0; k + 1 < spans.Length; k++)
        {
            for (double t = 0.1; t < 1; t += 0.2)
            {
                Checks.Close(0, (cubics.Segments[k].At(t) - At(g with { Weights = [.. g.Weights.Select(_ => 1.0)] }, spans[k] + t * (spans[k + 1] - spans[k]))).Norm, 1e-12);
            }
        }
    }, iter: 500);

    [Fact]
    public void What_is_no_spline_is_refused()
    {
        Point[] four = [new(0, 0), new(1, 0), new(1, 1), new(0, 1)];
        Assert.Contains("knots; there are 7", Message(3, four, [0, 0, 0, 0, 1, 1, 1]), StringComparison.Ordinal);
        Assert.Contains("they have to rise", Message(3, four, [0, 0, 0, 1, 0, 1, 1, 1]), StringComparison.Ordinal);
        Assert.Contains("5 control points or more", Message(4, four, [0, 0, 0, 0, 0, 1, 1, 1, 1]), StringComparison.Ordinal);
        Assert.Contains("no length", Message(3, four, [0, 0, 0, 0, 0, 0, 0, 0]), StringComparison.Ordinal);
        Assert.Contains("weight", Assert.Throws<ArgumentException>(() => new SplineCurve(3, four, [0, 0, 0, 0, 1, 1, 1, 1], [1, 1, 0, 1])).Message, StringComparison.Ordinal);

        static string Message(int degree, Point[] points, double[] knots) => Assert.Throws<ArgumentException>(() => new SplineCurve(degree, points, knots)).Message;
    }
}
