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
    /// <summary>Whether its mass does.</summary>
    public virtual bool MassVaries => Varies;

    /// <summary>The same change in another wood.</summary>
    /// <param name="wood">In the place of <see cref="OwnWood"/>.</param>
    /// <returns>The change.</returns>
    public virtual RegionChange InWood(Wood wood) => this;
}

/// <summary>Solid wood in place of the core, as high as the core, quarter-sawn.</summary>
/// <param name="Wood">The wood.</param>
/// <param name="GrainAngle">From the board's length to its grain, rad.</param>
public sealed record LetInWood(Wood Wood, double GrainAngle = 0) : RegionChange
{
    /// <inheritdoc/>
    public override Wood? OwnWood => Wood;

    /// <inheritdoc/>
    public override RegionChange InWood(Wood wood) => this with { Wood = wood };
}

/// <summary>A core sheet whose ribbon lies another way.</summary>
/// <param name="RibbonAngle">From the board's length to the ribbon, rad.</param>
public sealed record TurnedCore(double RibbonAngle) : RegionChange;

/// <summary>A skin that is of another wood or thickness, or turned, in part of the board.</summary>
/// <param name="Face">Which skin.</param>
/// <param name="Wood">Another wood, or nothing.</param>
/// <param name="Factor">Its thickness in parts of the board's own skin, whatever earlier regions made of it, or nothing.</param>
/// <param name="GrainAngle">Another grain angle, rad, or nothing.</param>
public sealed record SkinPart(Face Face, Wood? Wood, double? Factor, double? GrainAngle) : RegionChange
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
/// <param name="Factor">Factor at a point, positive, on the thickness that earlier regions left.</param>
public sealed record GradedSkin(Face Face, Func<Point, double> Factor) : RegionChange
{
    /// <inheritdoc/>
    public override bool Varies => true;
}

/// <summary>Mass that carries nothing: a joint's glue, a weight, lacquer on a part.</summary>
/// <param name="ArealMass">kg/m².</param>
public sealed record AddedMass(Estimate ArealMass) : RegionChange;

/// <summary>A channel cut into the outer face and filled: binding, purfling, rosette.</summary>
/// <param name="Depth">m; what is cut away is what lies there, from the face inward.</param>
/// <param name="Wood">The wood that fills it, or nothing where it is known by its density and carries nothing.</param>
/// <param name="Density">Density of a filling that is no wood, kg/m³.</param>
/// <param name="Grain">From the board's length to the filling's grain at a point, rad: along the channel.</param>
public sealed record FilledChannel(double Depth, Wood? Wood, double Density, Func<Point, double> Grain) : RegionChange
{
    /// <inheritdoc/>
    public override Wood? OwnWood => Wood;

    /// <inheritdoc/>
    public override bool Varies => Wood is not null;

    /// <inheritdoc/>
    public override bool MassVaries => false;

    /// <inheritdoc/>
    public override RegionChange InWood(Wood wood) => this with { Wood = wood };
}
