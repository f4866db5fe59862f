using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates.Meshing;

/// <summary>Opens the cusps where a border leaves a point in the direction of another curve.</summary>
/// <remarks>
/// A triangle in a cusp has a corner of no angle, and its map stands still there. The border's end is turned, so that
/// the corner keeps a part of the angle between the chords; outline and holes stay as they are. A border moves by a sixtieth of the
/// edge's length, a thirtieth at most, and only there.
/// </remarks>
internal static class CuspEasing
{
    // Corner that is wanted, as a part of that between the chords and at most, rad.
    private const double Share = 0.5, Most = 0.1;

    // Chords further apart than this make no cusp, rad.
    private const double Wide = 1;

    // No end is turned further, rad; where that is not enough the edges are cut later.
    private const double Furthest = 0.2;

    private const int Sweeps = 3;

    private sealed record End(int Edge, int Which, double Chord, double Tangent, bool Fixed)
    {
        internal double Turn { get; set; }
    }

    internal static void Ease(List<CurveEdge> edges, Func<int, bool> isFixed)
    {
        List<End> ends = [];
        for (int i = 0; i < edges.Count; i++)
        {
            Point chord = edges[i].At(1) - edges[i].At(0), t0 = edges[i].Derivative(0), t1 = edges[i].Derivative(1);
            ends.Add(new(i, 0, Math.Atan2(chord.Y, chord.X), Math.Atan2(t0.Y, t0.X), isFixed(edges[i].Curve)));
            ends.Add(new(i, 1, Math.Atan2(-chord.Y, -chord.X), Math.Atan2(-t1.Y, -t1.X), isFixed(edges[i].Curve)));
        }

        foreach (IGrouping<int, End> vertex in ends.GroupBy(e => e.Which == 0 ? edges[e.Edge].A : edges[e.Edge].B)) { Open([.. vertex.OrderBy(e => e.Chord)]); }
        foreach (IGrouping<int, End> edge in ends.Where(e => e.Turn != 0).GroupBy(e => e.Edge).ToList())
        {
            edges[edge.Key] = edges[edge.Key].Turned(edge.Where(e => e.Which == 0).Sum(e => e.Turn), edge.Where(e => e.Which == 1).Sum(e => e.Turn));
        }
    }

    private static void Open(End[] round)
    {
        if (round.Length < 2) { return; }
        for (int sweep = 0; sweep < Sweeps; sweep++)
        {
            for (int i = 0; i < round.Length; i++)
            {
                End right = round[i], left = round[(i + 1) % round.Length];
                double chords = Mod(left.Chord - right.Chord, 0);
                if (chords >= Wide || (left.Fixed && right.Fixed)) { continue; }
                double corner = Mod(left.Tangent + left.Turn - right.Tangent - right.Turn, -Math.PI);
                double missing = Math.Min(Share * chords, Most) - corner;
                if (missing <= 0) { continue; }
                double toLeft = left.Fixed ? 0 : right.Fixed ? 1 : 0.5;
                left.Turn = Math.Clamp(left.Turn + toLeft * missing, -Furthest, Furthest);
                right.Turn = Math.Clamp(right.Turn - (1 - toLeft) * missing, -Furthest, Furthest);
            }
        }
    }

    // The angle brought into a full turn from a start.
    private static double Mod(double angle, double start) => angle - 2 * Math.PI * Math.Floor((angle - start) / (2 * Math.PI));
}
