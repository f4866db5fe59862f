using SandwichMech.Core.Materials;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Layups;

/// <summary>What a ply is made of, where energy is lost.</summary>
public enum LossyMaterial
{
    /// <summary>Skins, let-in wood, bars.</summary>
    Wood,
    /// <summary>The core.</summary>
    Core,
    /// <summary>Adhesive as a film.</summary>
    Film,
}

/// <summary>Loss factors of a ply's material in its own axes: share of the energy that a radian of a cycle loses.</summary>
/// <param name="Material">What it is.</param>
/// <param name="Along">Stretching along 1.</param>
/// <param name="Across">Stretching along 2.</param>
/// <param name="Shear">Shear, in the plane and through the thickness.</param>
public sealed record PlyLoss(LossyMaterial Material, Estimate Along, Estimate Across, Estimate Shear)
{
    /// <summary>Spread of what is judgement, in the logarithm: a factor of two either way is one standard deviation.</summary>
    public const double Judgement = 0.7;

    // Of wood whose table has none: usual spruce (Ono & Norimoto 1983, Jpn. J. Appl. Phys. 22, 611, from memory).
    private const double UsualAlong = 0.007, UsualAcross = 0.02;
    // Wood in shear: that across, as the fit of tap tones takes it beforehand; McIntyre & Woodhouse (1988, Acta Metall. 36, 1397) have spruce at three quarters of it (from memory).
    private const double WoodShearSpread = 0.5;

    /// <summary>A core in shear: 0.02. Judgement, no source seen: resin-dipped paper, wood and foam alike, a factor of two either way; measure a sandwich's taps instead.</summary>
    public static PlyLoss OfCore { get; } = Alike(LossyMaterial.Core, 0.02);

    /// <summary>A film of cured adhesive: 0.02, as of stiff epoxies well below their glass transition. Judgement, no source seen; a soft adhesive loses several times that.</summary>
    public static PlyLoss OfFilm { get; } = Alike(LossyMaterial.Film, 0.02);

    /// <summary>Of a wood by its table.</summary>
    /// <param name="wood">The wood; where its table has no losses those of usual spruce stand, with the spread of judgement.</param>
    /// <returns>Its losses; in shear those across, with a wider spread.</returns>
    public static PlyLoss Of(Wood wood)
    {
        Estimate across = wood.LossAcross ?? new(UsualAcross, Judgement);
        return new(LossyMaterial.Wood, wood.LossAlong ?? new(UsualAlong, Judgement), across, across with { Spread = Math.Max(across.Spread, WoodShearSpread) });
    }

    private static PlyLoss Alike(LossyMaterial material, double loss) => new(material, new(loss, Judgement), new(loss, Judgement), new(loss, Judgement));
}
