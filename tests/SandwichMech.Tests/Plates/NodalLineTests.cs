using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;

namespace SandwichMech.Tests.Plates;

/// <summary>Nodal lines as pictures show them.</summary>
[Trait("Check", "exact")]
public class NodalLineTests
{
    // By symmetry the first mode of a free square twists it about its two middle lines; their crossing lies within a triangle, where values are smallest
    // and the shape least like a plane.
    [Fact]
    public void Two_nodal_lines_stay_straight_where_they_cross()
    {
        double[] uneven = [0, 0.37, 0.61, 1];
        PlateSolution twisted = PlateSolver.Once(new(PlateMesh.Rectangle(uneven, uneven), [SamplePlate.Isotropic(0.01)], _ => EdgeSupport.Free), 1, 6);
        (ShapeField field, Func<IReadOnlyList<double>, double[]> values) = twisted.Field.Finer();
        var lines = field.ZeroCurves(values(twisted.Shape(0)));
        Point[] points = [.. lines.SelectMany(l => l)];
        double off = points.Max(p => Math.Min(Math.Abs(p.X - 0.5), Math.Abs(p.Y - 0.5)));
        Checks.Within(0, 0.005, off, "farthest from the middle lines");
        // Four arms, joined to two lines; each is there from edge to edge.
        Assert.Equal(2, lines.Count);
        Checks.Within(0.999, 1.001, points.Max(p => p.X) - points.Min(p => p.X));
        Checks.Within(0.999, 1.001, points.Max(p => p.Y) - points.Min(p => p.Y));
    }

    [Fact]
    public void Pieces_become_lines_however_they_lie()
    {
        // A ring of twelve, turned this way and that, and a line of three whose ends miss by rounding.
        Point At(int i) => new Point(1, 0).Turned(Math.PI * i / 6);
        LinePiece[] ring = [.. Enumerable.Range(0, 12).Select(i => 5 * i % 12).Select(i => i % 2 == 0 ? new LinePiece(At(i), At(i + 1)) : new LinePiece(At(i + 1), At(i)))];
        LinePiece[] line = [new(new(4, 0), new(5, 0)), new(new(6 + 1e-12, 0), new(5, 1e-12)), new(new(6, 0), new(7, 0))];
        var chains = LineChains.Of([.. ring, .. line], 1e-6);
        Assert.Equal([4, 13], chains.Select(c => c.Count).Order());
        Assert.True((chains.Single(c => c.Count == 13) is var closed) && (closed[0] - closed[^1]).Norm < 1e-6);
    }
}
