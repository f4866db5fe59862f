using SandwichMech.Core.Materials;
using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Layups;

/// <summary>How the edge of the board is held.</summary>
public enum EdgeHold
{
    /// <summary>Lying on soft foam, for a tap test.</summary>
    Free,
    /// <summary>w = 0 along the edge, free to turn and to slide.</summary>
    Hinged,
    /// <summary>Neither moves nor turns.</summary>
    Clamped,
}

/// <summary>Solid wood in place of the core in part of the board, as high as the core.</summary>
/// <param name="Name">Where it is, in the maker's words.</param>
/// <param name="Border">Its closed border; nothing where it is the band along the edge.</param>
/// <param name="Inside">Whether a point of the board lies in it.</param>
/// <param name="Wood">The wood, quarter-sawn, grain along the board.</param>
public sealed record LetIn(string Name, IReadOnlyList<Curve> Border, Func<Point, bool> Inside, Wood Wood);

/// <summary>The board in the plane: its outline, its soundhole, the solid wood let in, and how its edge is held.</summary>
public sealed record BoardShape
{
    /// <summary>Closed, anticlockwise; x along the grain, the lower end at the smaller x.</summary>
    public required Curve Outline { get; init; }
    /// <summary>The soundhole and other holes.</summary>
    public IReadOnlyList<Curve> Holes { get; init; } = [];
    /// <summary>Solid wood let in; where two overlap, the later one holds.</summary>
    public IReadOnlyList<LetIn> LetIns { get; init; } = [];
    /// <summary>How the edge is held; holes are always free.</summary>
    public EdgeHold Edge { get; init; } = EdgeHold.Free;

    /// <summary>Area of the sandwich, then of each let-in wood where it is not covered by a later one, m².</summary>
    public required IReadOnlyList<double> RegionAreas { get; init; }

    /// <summary>Area without the holes, m².</summary>
    public double Area => Math.Abs(Outline.SignedArea) - Holes.Sum(h => Math.Abs(h.SignedArea));
}
