using SandwichMech.Core.Plates.Reduced;

namespace SandwichMech.Tests.Plates.Reduced;

/// <summary>Rows that are sums of few, and the designs that stand for a range.</summary>
[Trait("Check", "exact")]
public class SpanningTests
{
    // Heights of a tapered bar: 1, h and h² at eleven places span three rows, whatever the designs.
    [Fact]
    public void A_quadratic_field_needs_three_places()
    {
        double[][] rows = [.. Enumerable.Range(0, 11).Select(i => i / 10.0).Select(x => new[] { 1, 2 + x, 1 + x * x, 3 - x + 2 * x * x, 0.5 * x })];
        Spanning spanning = Spanning.Of(rows, 1e-9);
        Assert.Equal(3, spanning.Chosen.Length);
        for (int i = 0; i < rows.Length; i++)
        {
            for (int j = 0; j < rows[i].Length; j++)
            {
                Checks.Close(rows[i][j], spanning.Chosen.Select((c, k) => spanning.Weights[i][k] * rows[c][j]).Sum(), 1e-9);
            }

            // Constants are in the span, so the weights add up to 1.
            Checks.Near(1, spanning.Weights[i].Sum(), 1e-9);
        }
    }

    [Fact]
    public void A_row_of_zeros_is_a_sum_of_none()
    {
        Spanning spanning = Spanning.Of([[0, 0], [1, 2], [2, 4]], 1e-9);
        Assert.Single(spanning.Chosen);
        Assert.Equal([0], spanning.Weights[0]);
        Checks.Near(2, spanning.Weights[1][0] / spanning.Weights[2][0] * 4, 1e-12);
    }

    [Fact]
    public void Each_input_takes_each_of_its_steps_once()
    {
        double[][] designs = DesignSample.Inside(5, 12, DesignSample.Random(4));
        for (int k = 0; k < 5; k++) { Assert.Equal(Enumerable.Range(0, 12), designs.Select(d => (int)(d[k] * 12)).Order()); }
        Assert.Equal(designs, DesignSample.Inside(5, 12, DesignSample.Random(4)));
        Assert.All(DesignSample.Of(5, 12, 4).Where((_, i) => i % 2 == 1), corner => Assert.All(corner, t => Assert.True(t is 0 or 1)));
    }
}
