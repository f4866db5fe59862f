using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates;

/// <summary>What a load pushes on; what it does work on is the mean movement that is named beside it.</summary>
public enum PlatePush
{
    /// <summary>Force along z, N, as even pressure; the mean deflection w, m.</summary>
    Deflect,
    /// <summary>Moment about y, N·m, as a pressure that changes evenly along x and has no resultant; the slope −∂w/∂x of the plane that fits w best, rad.</summary>
    TiltAlong,
    /// <summary>The same about −x: a pressure that changes along y; the slope −∂w/∂y, rad.</summary>
    TiltAcross,
    /// <summary>Couple on the normals in the plane of x and z, N·m, evenly spread; the mean turn φx, rad.</summary>
    TurnAlong,
    /// <summary>Couple on the normals in the plane of y and z, N·m; the mean turn φy, rad.</summary>
    TurnAcross,
    /// <summary>Force along x in the reference plane, N, as even traction; the mean of u, m. Nothing where the model leaves the plane's motion out.</summary>
    SlideAlong,
    /// <summary>Force along y in the reference plane, N; the mean of v, m.</summary>
    SlideAcross,
}

/// <summary>A unit load, and by the same weights a measure of movement: so the compliance between actions is symmetric (Maxwell, Betti).</summary>
/// <remarks>A load at height z above the reference plane is <see cref="PlatePush.SlideAlong"/> and z times <see cref="PlatePush.TurnAlong"/>.</remarks>
/// <param name="Push">What it pushes on.</param>
/// <param name="Patch">Closed border of what it acts on; the mesh has to follow it. Nothing: the whole plate.</param>
public sealed record PlateAction(PlatePush Push, Curve? Patch)
{
    /// <summary>A corner of the mesh that a force acts on, in place of a patch.</summary>
    public Point? Corner { get; private init; }

    /// <summary>A force on one point. First-order theory lets the deflection right under it grow without bound, if slowly, as the mesh is made finer: for loads take a patch.</summary>
    /// <param name="at">A corner of the mesh's triangles.</param>
    /// <returns>The action.</returns>
    public static PlateAction At(Point at) => new(PlatePush.Deflect, null) { Corner = at };
}
