using SandwichMech.Core.Materials;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Building;

/// <summary>One part of a two-part adhesive for one bond line.</summary>
/// <param name="Mass">kg.</param>
/// <param name="Volume">m³, where the part's density is known.</param>
public readonly record struct AdhesivePart(double Mass, double? Volume);

/// <summary>What to mix for one bond line, what should stay, and what is left over.</summary>
/// <param name="Area">Bonded area, m².</param>
/// <param name="Mixed">kg.</param>
/// <param name="Resin">Resin, for a two-part adhesive.</param>
/// <param name="Hardener">Hardener, for a two-part adhesive.</param>
/// <param name="Kept">kg that the board should gain, with its interval.</param>
/// <param name="LeftOver">kg on plate, roller and paper at the median.</param>
/// <param name="BeadLines">Lines of bead of the given length, where the shop's grams per length are known.</param>
public sealed record BondLinePlan(
    double Area, double Mixed, AdhesivePart? Resin, AdhesivePart? Hardener, Prediction Kept, double LeftOver, double? BeadLines);

/// <summary>A bead as the shop lays it.</summary>
/// <param name="MassPerLength">kg/m.</param>
/// <param name="LineLength">m.</param>
public readonly record struct Bead(double MassPerLength, double LineLength);

/// <summary>Plans the adhesive of a bond line from the coverage that the maker uses.</summary>
public static class AdhesivePlan
{
    /// <summary>Plan for one bond line.</summary>
    /// <param name="adhesive">The adhesive with the shop's coverage and kept share.</param>
    /// <param name="area">Bonded area, m², positive.</param>
    /// <param name="bead">Grams per length and length of a line, where known.</param>
    /// <returns>The plan.</returns>
    public static BondLinePlan Of(Adhesive adhesive, double area, Bead? bead) => Of(adhesive, new BondAreas(area, 0), adhesive.Mixed.Value, bead);

    /// <summary>Plan for one bond line over honeycomb and let-in wood.</summary>
    /// <param name="adhesive">The adhesive with the shop's coverage on honeycomb and kept share.</param>
    /// <param name="areas">What is bonded.</param>
    /// <param name="letInCoverage">Mixed on let-in wood, kg/m².</param>
    /// <param name="bead">Grams per length and length of a line, where known.</param>
    /// <returns>The plan.</returns>
    public static BondLinePlan Of(Adhesive adhesive, BondAreas areas, double letInCoverage, Bead? bead)
    {
        double mixed = adhesive.Mixed.Value * areas.Honeycomb + letInCoverage * areas.LetIn;
        AdhesivePart? resin = null, hardener = null;
        if (adhesive is { ResinParts: { } r, HardenerParts: { } h })
        {
            resin = Part(mixed * r / (r + h), adhesive.ResinDensity);
            hardener = Part(mixed * h / (r + h), adhesive.HardenerDensity);
        }

        // The mixed mass is on the scale, so what is uncertain of the gain is the share that stays.
        Prediction kept = Propagation.Rising("share kept", adhesive.KeptShare.Spread, t => mixed * adhesive.KeptShare.ShiftedShare(t).Value);
        return new(areas.Total, mixed, resin, hardener, kept, mixed - kept.Value, mixed / (bead?.MassPerLength * bead?.LineLength));
    }

    private static AdhesivePart Part(double mass, double? density) => new(mass, mass / density);
}
