using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates.Meshing;

/// <summary>Makes two edges that leave a vertex at a small angle equally long.</summary>
/// <remarks>
/// Then the corner is one triangle, from tip to tip. Were one edge longer, a straight side from the tip of the shorter would run
/// along it, and the longer would bulge across that side.
/// </remarks>
internal static class SharpCorners
{
    // Corners sharper than this count, rad.
    private const double Sharp = 0.3;

    // An edge so many times longer than the other is cut.
    private const double Unequal = 1.5;

    private const int Rounds = 4;

    internal static void Balance(List<Point> vertices, List<CurveEdge> edges)
    {
        for (int round = 0; round < Rounds; round++)
        {
            // The wanted length at each end, where it is less than the edge has.
            var cuts = new SortedDictionary<(int Edge, int End), double>();
            foreach (IGrouping<int, (int Edge, int End, double Angle)> vertex in Ends(edges).GroupBy(e => e.End == 0 ? edges[e.Edge].A : edges[e.Edge].B))
            {
                (int Edge, int End, double Angle)[] round2 = [.. vertex.OrderBy(e => e.Angle)];
                for (int i = 0; i < round2.Length; i++)
                {
                    var (right, left) = (round2[i], round2[(i + 1) % round2.Length]);
                    double corner = left.Angle - right.Angle + (i == round2.Length - 1 ? 2 * Math.PI : 0);
                    if (right.Edge == left.Edge || Math.Min(corner, 2 * Math.PI - corner) > Sharp) { continue; }
                    double a = edges[right.Edge].Length, b = edges[left.Edge].Length;
                    if (a > Unequal * b) { Shorten((right.Edge, right.End), b); }
                    if (b > Unequal * a) { Shorten((left.Edge, left.End), a); }
                }
            }

            if (cuts.Count == 0) { return; }
            var done = new HashSet<int>();
            foreach (((int edge, int end), double length) in cuts)
            {
                if (!done.Add(edge)) { continue; }
                double share = length / edges[edge].Length;
                ChordClearing.Cut(vertices, edges, edge, end == 0 ? share : 1 - share);
            }

            void Shorten((int, int) end, double length) => cuts[end] = Math.Min(length, cuts.GetValueOrDefault(end, double.PositiveInfinity));
        }
    }

    // Directions in which edges leave their ends: of the tangent, which tells touching curves from crossing ones.
    private static IEnumerable<(int Edge, int End, double Angle)> Ends(List<CurveEdge> edges)
    {
        for (int i = 0; i < edges.Count; i++)
        {
            Point t0 = edges[i].Derivative(0), t1 = edges[i].Derivative(1);
            yield return (i, 0, Math.Atan2(t0.Y, t0.X));
            yield return (i, 1, Math.Atan2(-t1.Y, -t1.X));
        }
    }
}
