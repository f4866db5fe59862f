using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates.Meshing;

/// <summary>How large triangles should be inside the board: as wanted, held back where the edges near by are shorter.</summary>
internal sealed class SizeField
{
    // Growth of the size with the distance from the edges.
    private const double Growth = 0.3;

    private readonly Func<Point, double> _wanted;
    private readonly (Point Middle, double Length)[] _edges;

    internal SizeField(IEnumerable<CurveEdge> edges, Func<Point, double> wanted)
    {
        _wanted = wanted;
        _edges = [.. edges.Select(e => (e.At(0.5), e.Length))];
    }

    /// <summary>Size at a point, m.</summary>
    internal double At(Point p)
    {
        double weights = 0, sum = 0, nearest = double.PositiveInfinity;
        foreach ((Point middle, double length) in _edges)
        {
            Point d = p - middle;
            double square = d.Dot(d) + 0.1 * length * length, distance = Math.Sqrt(square);
            // An edge counts by the angle that it fills, more or less: a short one across a band does not hold back what lies around.
            double weight = length / (square * distance);
            weights += weight;
            sum += weight * length;
            nearest = Math.Min(nearest, distance);
        }

        return Math.Min(_wanted(p), sum / weights + Growth * nearest);
    }
}
