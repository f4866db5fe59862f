using SandwichMech.Core.Layups;
using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates;

/// <summary>Where a section stands: the regions that lie there and, for what changes within them, the place.</summary>
/// <param name="Regions">Numbers of the board's regions.</param>
/// <param name="At">The place.</param>
public sealed record SectionPlace(IReadOnlyList<int> Regions, Point At);

/// <summary>A board's modes, and where each section stands that they were found with.</summary>
/// <param name="Plate">The modes.</param>
/// <param name="Places">One a section, in the order of <see cref="PlateMode.Regions"/>.</param>
public sealed record BoardSolution(PlateSolution Plate, IReadOnlyList<SectionPlace> Places);

/// <summary>Numbers the combinations of regions that are met.</summary>
internal sealed class PartKinds(IReadOnlyList<BoardRegion> regions)
{
    private readonly List<int[]> _all = [];

    /// <summary>The combinations, by number.</summary>
    internal IReadOnlyList<int[]> All => _all;

    /// <summary>Number of the combination at a point.</summary>
    internal int At(Point p)
    {
        int[] covering = BoardShape.Covering(regions, p);
        int known = _all.FindIndex(k => k.AsSpan().SequenceEqual(covering));
        if (known >= 0)
        {
            return known;
        }

        _all.Add(covering);
        return _all.Count - 1;
    }

    /// <summary>Whether the section changes within a combination.</summary>
    internal bool Varies(int kind) => _all[kind].Any(i => regions[i].Change.Varies);

    /// <summary>Whether the mass per area changes within a combination.</summary>
    internal bool MassVaries(int kind) => _all[kind].Any(i => regions[i].Change.MassVaries);

    /// <summary>Places of sections on a mesh: one a combination, or six a triangle where it changes, shared with its neighbours.</summary>
    internal (IReadOnlyList<SectionPlace> Places, IReadOnlyList<int[]>? ByTriangle) Places(PlateMesh mesh)
    {
        List<SectionPlace> places = [.. _all.Select(k => new SectionPlace(k, default))];
        if (!Enumerable.Range(0, _all.Count).Any(Varies))
        {
            return (places, null);
        }

        var nodes = new NodalMesh(mesh, 2);
        var numbers = new Dictionary<(int Kind, int Node), int>();
        int[][] byTriangle = new int[mesh.Triangles.Count][];
        for (int e = 0; e < byTriangle.Length; e++)
        {
            int kind = mesh.Triangles[e].Region;
            byTriangle[e] = Varies(kind) ? [.. nodes.Nodes[e].Select(n => Number(kind, n))] : [kind];
        }

        return (places, byTriangle);

        int Number(int kind, int node)
        {
            if (!numbers.TryGetValue((kind, node), out int number))
            {
                numbers[(kind, node)] = number = places.Count;
                places.Add(new(_all[kind], nodes.Points[node]));
            }

            return number;
        }
    }
}
