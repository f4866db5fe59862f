using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates;

/// <summary>What is to be meshed: a board's outline, its holes, and the borders of its regions.</summary>
/// <param name="Outline">Closed, in either direction.</param>
/// <param name="Holes">Closed, inside the outline, apart from each other and from it.</param>
/// <param name="Borders">Closed or open; they may cross, touch or run along each other, the outline and the holes. What lies outside
/// the board is left out.</param>
/// <param name="Region">The region at a point. It is asked once for each part that the curves divide the board into, at a point well inside.</param>
public sealed record MeshDomain(Curve Outline, IReadOnlyList<Curve> Holes, IReadOnlyList<Curve> Borders, Func<Point, int> Region)
{
    /// <summary>Points of the outline where an edge of the mesh shall end, as where its hold changes.</summary>
    public IReadOnlyList<Point> Breaks { get; init; } = [];

    /// <summary>All curves, numbered as <see cref="CurvedEdge.Curve"/> is: the outline, the holes, the borders.</summary>
    public IReadOnlyList<Curve> Curves => [Outline, .. Holes, .. Borders];

    /// <summary>What a curve is called in messages.</summary>
    /// <param name="curve">Its number.</param>
    /// <returns>'the outline', 'hole 2', 'border 1'.</returns>
    public string NameOf(int curve) =>
        curve == 0 ? "the outline" : curve <= Holes.Count ? $"hole {curve}" : $"border {curve - Holes.Count}";
}
