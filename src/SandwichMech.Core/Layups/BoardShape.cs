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
    /// <summary>On a rim: does not move, and turns against a spring between hinged and clamped.</summary>
    Rim,
}

/// <summary>A stretch of the edge that is held otherwise than the rest, as by a neck block.</summary>
/// <param name="Name">Where it is, in the maker's words.</param>
/// <param name="Hold">How it is held.</param>
/// <param name="Inside">Whether a point of the outline lies in it.</param>
/// <param name="Ends">Where it begins and ends on the outline.</param>
public sealed record EdgeStretch(string Name, EdgeHold Hold, Func<Point, bool> Inside, IReadOnlyList<Point> Ends);

/// <summary>A part of the board where something differs.</summary>
/// <param name="Name">Where it is, in the maker's words.</param>
/// <param name="Border">Its closed borders, and lines that the mesh shall follow within it.</param>
/// <param name="Inside">Whether a point of the board lies in it.</param>
/// <param name="Change">What differs there.</param>
public sealed record BoardRegion(string Name, IReadOnlyList<Curve> Border, Func<Point, bool> Inside, RegionChange Change)
{
    /// <summary>Whether it is worth a row of its own where the board's parts are listed: not where it runs through nearly all of them.</summary>
    public bool IsPart { get; init; } = true;
}

/// <summary>A piece of the board where the same regions lie over each other.</summary>
/// <param name="Regions">Numbers of the regions that cover it, in their order.</param>
/// <param name="Samples">Places that stand for it, each with its area, m²: one at the centroid, or more where something changes from place to place.</param>
public sealed record BoardPart(IReadOnlyList<int> Regions, IReadOnlyList<PartSample> Samples)
{
    /// <summary>Area, m².</summary>
    public double Area => Samples.Sum(s => s.Area);
}

/// <summary>A place and the area that it stands for.</summary>
/// <param name="At">The place.</param>
/// <param name="Area">m².</param>
public sealed record PartSample(Point At, double Area);

/// <summary>The board in the plane: its outline, its soundhole, what differs where, and how its edge is held.</summary>
public sealed record BoardShape
{
    /// <summary>Closed, anticlockwise; x along the grain, the lower end at the smaller x.</summary>
    public required Curve Outline { get; init; }
    /// <summary>The soundhole and other holes.</summary>
    public IReadOnlyList<Curve> Holes { get; init; } = [];
    /// <summary>What differs where. All that can be together is; where two change the same thing, the later one holds.</summary>
    public IReadOnlyList<BoardRegion> Regions { get; init; } = [];
    /// <summary>How the edge is held, but for its stretches; holes are always free.</summary>
    public EdgeHold Edge { get; init; } = EdgeHold.Free;
    /// <summary>Stretches of the edge that are held otherwise; where two overlap, the later one holds.</summary>
    public IReadOnlyList<EdgeStretch> Stretches { get; init; } = [];
    /// <summary>1/radius of the dome along the board, 1/m; 0 of a flat one, positive where it bulges outward.</summary>
    public double DomeAlong { get; init; }
    /// <summary>1/radius of the dome across, 1/m.</summary>
    public double DomeAcross { get; init; }

    /// <summary>The pieces that outline, holes and borders divide the board into, like ones together.</summary>
    public required IReadOnlyList<BoardPart> Parts { get; init; }

    /// <summary>Area without the holes, m².</summary>
    public double Area => Math.Abs(Outline.SignedArea) - Holes.Sum(h => Math.Abs(h.SignedArea));

    /// <summary>How the edge is held at a point of the outline.</summary>
    /// <param name="p">The point.</param>
    /// <param name="elsewhere">How it is held outside the stretches.</param>
    /// <returns>The hold there.</returns>
    public EdgeHold HoldAt(Point p, EdgeHold elsewhere) => Stretches.LastOrDefault(s => s.Inside(p))?.Hold ?? elsewhere;

    /// <summary>Whether some of the edge is held in a way.</summary>
    /// <param name="hold">The way.</param>
    /// <param name="elsewhere">How the edge is held outside the stretches.</param>
    /// <returns>True where it is.</returns>
    public bool IsHeld(EdgeHold hold, EdgeHold elsewhere) => elsewhere == hold || Stretches.Any(s => s.Hold == hold);

    /// <summary>The regions' borders without what of them lies outside the board, for pictures.</summary>
    /// <returns>Open or closed curves.</returns>
    public IEnumerable<Curve> BordersOnBoard() => Regions.SelectMany(r => r.Border).SelectMany(OnBoard);

    private IEnumerable<Curve> OnBoard(Curve border)
    {
        double[] cuts = [0, .. Holes.Prepend(Outline).SelectMany(c => Crossings.Between(border, c)).SelectMany(m => (double[])[m.StartA, m.EndA]).Order(), border.Segments.Count];
        for (int i = 1; i < cuts.Length; i++)
        {
            Point middle = border.At((cuts[i - 1] + cuts[i]) / 2);
            if (cuts[i] - cuts[i - 1] > 1e-9 && Outline.Contains(middle) && !Holes.Any(h => h.Contains(middle))) { yield return border.Part(cuts[i - 1], cuts[i]); }
        }
    }

    /// <summary>Numbers of the regions at a point.</summary>
    /// <param name="regions">The regions.</param>
    /// <param name="p">The point.</param>
    /// <returns>Rising.</returns>
    public static int[] Covering(IReadOnlyList<BoardRegion> regions, Point p) =>
        [.. Enumerable.Range(0, regions.Count).Where(i => regions[i].Inside(p))];
}
