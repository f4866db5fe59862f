using SandwichMech.Core.Materials;
using SandwichMech.Core.Outlines;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Layups;

/// <summary>Which face of the board.</summary>
public enum Face
{
    /// <summary>The face that is seen and strung.</summary>
    Outer,
    /// <summary>The face inside the box.</summary>
    Inner,
}

/// <summary>What differs in a region of the board.</summary>
public abstract record RegionChange
{
    /// <summary>A wood that only this region has.</summary>
    public virtual Wood? OwnWood => null;
    /// <summary>Whether it changes from place to place within the region.</summary>
    public virtual bool Varies => false;

    /// <summary>The same change in another wood.</summary>
    /// <param name="wood">In the place of <see cref="OwnWood"/>.</param>
    /// <returns>The change.</returns>
    public virtual RegionChange InWood(Wood wood) => this;
}

/// <summary>Solid wood in place of the core, as high as the core, quarter-sawn, grain along the board.</summary>
/// <param name="Wood">The wood.</param>
public sealed record LetInWood(Wood Wood) : RegionChange
{
    /// <inheritdoc/>
    public override Wood? OwnWood => Wood;

    /// <inheritdoc/>
    public override RegionChange InWood(Wood wood) => new LetInWood(wood);
}

/// <summary>A core sheet whose ribbon lies another way.</summary>
/// <param name="RibbonAngle">From the board's length to the ribbon, rad.</param>
public sealed record TurnedCore(double RibbonAngle) : RegionChange;

/// <summary>A skin that is of another wood or thickness, or turned, in part of the board.</summary>
/// <param name="Face">Which skin.</param>
/// <param name="Wood">Another wood, or nothing.</param>
/// <param name="Factor">Factor on the skin's thickness.</param>
/// <param name="GrainAngle">Another grain angle, rad, or nothing.</param>
public sealed record SkinPart(Face Face, Wood? Wood, double Factor, double? GrainAngle) : RegionChange
{
    /// <inheritdoc/>
    public override Wood? OwnWood => Wood;

    /// <inheritdoc/>
    public override RegionChange InWood(Wood wood) => this with { Wood = wood };
}

/// <summary>The grain of the skin mirrored at the centre line, as in the other half of a book-matched pair.</summary>
/// <param name="Face">Which skin.</param>
public sealed record MirroredGrain(Face Face) : RegionChange;

/// <summary>A skin whose thickness changes from place to place.</summary>
/// <param name="Face">Which skin.</param>
/// <param name="Factor">Factor on the skin's thickness at a point, positive.</param>
public sealed record GradedSkin(Face Face, Func<Point, double> Factor) : RegionChange
{
    /// <inheritdoc/>
    public override bool Varies => true;
}

/// <summary>Mass that carries nothing: a joint's glue, a weight, lacquer on a part.</summary>
/// <param name="ArealMass">kg/m².</param>
public sealed record AddedMass(Estimate ArealMass) : RegionChange;

/// <summary>A bar glued on a face: a brace or a bridge, grain along its run, quarter-sawn with upright rings.</summary>
/// <param name="Face">The face that it stands on.</param>
/// <param name="Wood">Its wood.</param>
/// <param name="Angle">From the board's length to its run, rad.</param>
/// <param name="Height">Full height, m.</param>
/// <param name="Sides">Height of its sides over the full height: 1 of a rectangular section, less where the crown is rounded (a parabola).</param>
/// <param name="Run">Factor on the height at a point along the run, 1 of a straight bar; nothing where it is straight.</param>
public sealed record GluedBar(Face Face, Wood Wood, double Angle, Estimate Height, double Sides, Func<Point, double>? Run) : RegionChange
{
    /// <inheritdoc/>
    public override Wood? OwnWood => Wood;

    /// <inheritdoc/>
    public override bool Varies => Run is not null;

    /// <inheritdoc/>
    public override RegionChange InWood(Wood wood) => this with { Wood = wood };

    /// <summary>Means over the width of the height, its square and its cube: h(t) = H (s + (1 − s)(1 − t²)), −1 ≤ t ≤ 1.</summary>
    /// <param name="at">A place.</param>
    /// <returns>m, m², m³.</returns>
    public (double Height, double Square, double Cube) Moments(Point at)
    {
        double h = Height.Value * (Run?.Invoke(at) ?? 1), r = 1 - Sides;
        // With h/H = 1 − r t²: means 1 − r/3, 1 − 2r/3 + r²/5, 1 − r + 3r²/5 − r³/7.
        return (h * (1 - r / 3), h * h * (1 - 2 * r / 3 + r * r / 5), h * h * h * (1 - r + 3 * r * r / 5 - r * r * r / 7));
    }
}
