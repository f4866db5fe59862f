using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Materials;

/// <summary>An adhesive with the shop's way of using it. Mixed, kept and film mass are three different numbers.</summary>
public sealed record Adhesive
{
    /// <summary>Name as the maker types it.</summary>
    public required string Name { get; init; }
    /// <summary>Density of the cured adhesive, kg/m³.</summary>
    public required Estimate Density { get; init; }
    /// <summary>Mass mixed per bonded area of one bond line, kg/m².</summary>
    public required Estimate Mixed { get; init; }
    /// <summary>Share of the mixed mass that stays in the board, 0 to 1; the rest is left on plate, roller and paper.</summary>
    public required Estimate KeptShare { get; init; }
    /// <summary>Share of the kept mass that cures as a film on the skin, 0 to 1; the rest is fillets on the cell walls.</summary>
    public required Estimate FilmShare { get; init; }
    /// <summary>Young's modulus of the cured film, Pa.</summary>
    public required Estimate FilmModulus { get; init; }
    /// <summary>Poisson's ratio of the cured film.</summary>
    public required double FilmNu { get; init; }
    /// <summary>Mix ratio by mass, parts of resin; none for a one-part adhesive.</summary>
    public double? ResinParts { get; init; }
    /// <summary>Mix ratio by mass, parts of hardener; none for a one-part adhesive.</summary>
    public double? HardenerParts { get; init; }
    /// <summary>Density of the resin, kg/m³, for measuring by volume.</summary>
    public double? ResinDensity { get; init; }
    /// <summary>Density of the hardener, kg/m³, for measuring by volume.</summary>
    public double? HardenerDensity { get; init; }
    /// <summary>Working time at room temperature, s, where the sheet gives it.</summary>
    public double? WorkingTime { get; init; }
    /// <summary>Temperature that the times belong to, K, where the sheet says it.</summary>
    public double? TimesAt { get; init; }
    /// <summary>Earliest opening of the bag after full vacuum, s, where it is known.</summary>
    public double? UnbagTime { get; init; }
    /// <summary>Until it is cured through, s, where it is known.</summary>
    public double? FullCureTime { get; init; }

    /// <summary>Kept mass per area of one bond line at the medians, kg/m².</summary>
    public double Kept => Mixed.Value * KeptShare.Value;
    /// <summary>Thickness of the cured film at the medians, m.</summary>
    public double FilmThickness => Kept * FilmShare.Value / Density.Value;
    /// <summary>Kept mass per area that lies in fillets, at the medians, kg/m².</summary>
    public double Fillets => Kept * (1 - FilmShare.Value);
}
