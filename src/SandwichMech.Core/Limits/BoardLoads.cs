using SandwichMech.Core.Layups;
using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Limits;

/// <summary>What acts per width at one place of a board.</summary>
/// <param name="Where">The place in the maker's words: "before the bridge"; empty where <see cref="At"/> says it.</param>
public sealed record LoadedPlace(string Where)
{
    /// <summary>Where on the board, m; nothing where that is not known.</summary>
    public Point? At { get; init; }
    /// <summary>Forces in the plane Nx, Ny, Nxy, N/m, tension positive.</summary>
    public InPlane Force { get; init; }
    /// <summary>Moments Mx, My, Mxy, N·m/m, about half the thickness; positive where they stretch the outer face.</summary>
    public InPlane Moment { get; init; }
    /// <summary>Transverse shear Vx, N/m.</summary>
    public double ShearAlong { get; init; }
    /// <summary>Transverse shear Vy, N/m.</summary>
    public double ShearAcross { get; init; }
}

/// <summary>What a board has to bear.</summary>
public sealed record BoardLoads
{
    /// <summary>Pressure of the air that vacuum can bring at most: one standard atmosphere, Pa.</summary>
    public const double FullVacuum = 101_325;

    /// <summary>Loads per width under the strings, place by place; none where they are not known.</summary>
    public IReadOnlyList<LoadedPlace> Places { get; init; } = [];
    /// <summary>Standard deviation of the logarithm of all of them together: string tension and how the plate passes it on. Judgement.</summary>
    public double Spread { get; init; } = 0.15;
    /// <summary>Pressure of the vacuum while a skin is bonded, Pa.</summary>
    public double Vacuum { get; init; } = FullVacuum;
    /// <summary>Largest pressure under clamps, cauls or the bridge, Pa; 0 where there is none.</summary>
    public double Clamps { get; init; }
}
