using SandwichMech.Core.Materials;
using SandwichMech.Core.Outlines;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Layups;

/// <summary>The upper side of a bar's section, above its straight sides.</summary>
public enum BarTop
{
    /// <summary>None: a rectangle.</summary>
    Flat,
    /// <summary>Half an ellipse.</summary>
    Rounded,
    /// <summary>A triangle.</summary>
    Gabled,
}

/// <summary>A bar glued on a face: a brace or a bridge, grain along its run, quarter-sawn with upright rings.</summary>
/// <param name="Face">The face that it stands on.</param>
/// <param name="Wood">Its wood.</param>
/// <param name="Angle">From the board's length to its run, rad.</param>
/// <param name="Height">Full height, m.</param>
/// <param name="Top">What stands on its sides.</param>
/// <param name="Sides">Height of its sides over the full height, 0 to 1; without meaning where the top is flat.</param>
/// <param name="Run">Factor on the height at a point along the run, 1 of a straight bar; nothing where it is straight.</param>
public sealed record GluedBar(Face Face, Wood Wood, double Angle, Estimate Height, BarTop Top, double Sides, Func<Point, double>? Run) : RegionChange
{
    /// <inheritdoc/>
    public override Wood? OwnWood => Wood;

    /// <inheritdoc/>
    public override bool Varies => Run is not null;

    /// <inheritdoc/>
    public override RegionChange InWood(Wood wood) => this with { Wood = wood };

    /// <summary>Means over the width of the height, its square and its cube: area, first and second moment about the glued face follow from them exactly.</summary>
    /// <remarks>
    /// h(t) = H (s + (1 − s) c(t)) over the width, −1 ≤ t ≤ 1, with a crown c = √(1 − t²) of half an ellipse or c = 1 − |t| of a
    /// gable. Means of c, c², c³: π/4, 2/3, 3π/16, and 1/2, 1/3, 1/4. Of a strip dt the area is h dt, the moments about its foot
    /// h²/2 dt and h³/3 dt, so that what <see cref="Plates.BarSection"/> needs is the mean of h, h²/2 and h³/3.
    /// </remarks>
    /// <param name="at">A place.</param>
    /// <returns>m, m², m³.</returns>
    public (double Height, double Square, double Cube) Moments(Point at)
    {
        (double c1, double c2, double c3) = Top switch
        {
            BarTop.Flat => (1, 1, 1),
            BarTop.Rounded => (Math.PI / 4, 2.0 / 3, 3 * Math.PI / 16),
            _ => (1.0 / 2, 1.0 / 3, 1.0 / 4),
        };
        double h = Height.Value * (Run?.Invoke(at) ?? 1), s = Sides, r = 1 - s;
        return (
            h * (s + r * c1),
            h * h * (s * s + 2 * s * r * c1 + r * r * c2),
            h * h * h * (s * s * s + 3 * s * s * r * c1 + 3 * s * r * r * c2 + r * r * r * c3));
    }
}
