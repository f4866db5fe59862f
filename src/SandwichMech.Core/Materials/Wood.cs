using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Materials;

/// <summary>A wood as the tables give it: orthotropic, axes L (grain), R (radial), T (tangential), at one moisture content.</summary>
/// <remarks>
/// Ratios rather than moduli are kept because that is how the handbook tabulates them, and because modulus and ratio
/// spread independently: a stiff piece is stiffer in every direction. Reciprocity is taken from ν_LR, ν_LT, ν_RT and the
/// moduli (ν_RL = ν_LR·E_R/E_L); the handbook's own ν_RL disagrees with that for several species and is not used.
/// </remarks>
public sealed record Wood
{
    /// <summary>Name as the maker types it.</summary>
    public required string Name { get; init; }
    /// <summary>Density, kg/m³, mass and volume at <see cref="MoisturePercent"/>.</summary>
    public required Estimate Density { get; init; }
    /// <summary>Young's modulus along the grain E_L, Pa, free of shear deflection.</summary>
    public required Estimate EL { get; init; }
    /// <summary>E_R/E_L.</summary>
    public required Estimate ErOverEl { get; init; }
    /// <summary>E_T/E_L.</summary>
    public required Estimate EtOverEl { get; init; }
    /// <summary>G_LR/E_L, shear in the plane of a quarter-sawn skin.</summary>
    public required Estimate GlrOverEl { get; init; }
    /// <summary>G_LT/E_L, transverse shear along the grain of a quarter-sawn skin.</summary>
    public required Estimate GltOverEl { get; init; }
    /// <summary>G_RT/E_L, rolling shear: transverse shear across a quarter-sawn skin.</summary>
    public required Estimate GrtOverEl { get; init; }
    /// <summary>Poisson's ratio ν_LR: stretch along L, contraction along R.</summary>
    public required double NuLR { get; init; }
    /// <summary>Poisson's ratio ν_LT.</summary>
    public double? NuLT { get; init; }
    /// <summary>Poisson's ratio ν_RT.</summary>
    public double? NuRT { get; init; }
    /// <summary>Moisture content that the values belong to, percent of the oven-dry mass.</summary>
    public required double MoisturePercent { get; init; }
    /// <summary>Loss factor of bending along the grain, where a source gives it.</summary>
    public Estimate? LossAlong { get; init; }
    /// <summary>Loss factor of bending across the grain, where a source gives it.</summary>
    public Estimate? LossAcross { get; init; }
    /// <summary>Radial shrinkage from green to dry, a share of the green size, where a source gives it.</summary>
    public Estimate? ShrinkageRadial { get; init; }
    /// <summary>Tangential shrinkage from green to dry, where a source gives it.</summary>
    public Estimate? ShrinkageTangential { get; init; }
    /// <summary>Bending strength along the grain (modulus of rupture), Pa, where a source gives it.</summary>
    public Estimate? BendingStrength { get; init; }
    /// <summary>Compression across the grain at its proportional limit, Pa, where a source gives it.</summary>
    public Estimate? CompressionAcross { get; init; }
    /// <summary>Crushing strength along the grain, Pa, where a source gives it.</summary>
    public Estimate? CompressionAlong { get; init; }
    /// <summary>Tensile strength across the grain, Pa, where a source gives it.</summary>
    public Estimate? TensionAcross { get; init; }

    /// <summary>
    /// How much stiffer wood is against a tap than under a weight: what creeps in seconds does not in milliseconds. 5 to 10 %
    /// (common in the literature, no single source; from memory).
    /// </summary>
    public const double TappedOverBent = 1.075;

    /// <summary>Whether E_L is as a tap finds it; tables have it as a weight does.</summary>
    public bool IsTapped { get; init; }

    /// <summary>The wood as a tap finds it.</summary>
    /// <returns>Itself, where it is that already.</returns>
    public Wood Tapped() => IsTapped ? this : this with { EL = EL.Times(TappedOverBent), IsTapped = true };

    /// <summary>The wood as a weight finds it.</summary>
    /// <returns>Itself, where it is that already.</returns>
    public Wood UnderWeight() => IsTapped ? this with { EL = EL.Times(1 / TappedOverBent), IsTapped = false } : this;

    /// <summary>E_R, Pa, at the medians.</summary>
    public double ER => EL.Value * ErOverEl.Value;
    /// <summary>G_LR, Pa, at the medians.</summary>
    public double Glr => EL.Value * GlrOverEl.Value;
    /// <summary>G_LT, Pa, at the medians.</summary>
    public double Glt => EL.Value * GltOverEl.Value;
    /// <summary>G_RT, Pa, at the medians.</summary>
    public double Grt => EL.Value * GrtOverEl.Value;
}
