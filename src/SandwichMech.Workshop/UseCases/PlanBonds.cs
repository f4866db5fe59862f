using System.Text.Json.Serialization;
using SandwichMech.Core.Building;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Materials;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Workshop.UseCases;

/// <summary>One step at the scale.</summary>
public sealed record ScaleStep(string Do, [property: JsonPropertyName("scale_reads_kg")] double Reads);

/// <summary>One part of a two-part adhesive.</summary>
public sealed record PartRow([property: JsonPropertyName("mass_kg")] double Mass, [property: JsonPropertyName("volume_m3")] double? Volume);

/// <summary>Adhesive for one bond line.</summary>
public sealed record BondLineRow(
    [property: JsonPropertyName("mixed_kg")] double Mixed,
    PartRow? Resin,
    PartRow? Hardener,
    IReadOnlyList<ScaleStep> Scale,
    [property: JsonPropertyName("kept_kg")] Prediction Kept,
    [property: JsonPropertyName("left_over_kg")] double LeftOver,
    double? BeadLines,
    [property: JsonPropertyName("bead_line_length_m")] double? BeadLineLength);

/// <summary>What the adhesive of both bond lines adds to the board; only where a board is given.</summary>
public sealed record AdhesiveEffect(
    [property: JsonPropertyName("areal_density_kg_m2")] double ArealDensity,
    double ShareOfMass,
    [property: JsonPropertyName("share_of_bending_stiffness_along")] double ShareAlong,
    [property: JsonPropertyName("share_of_bending_stiffness_across")] double ShareAcross);

/// <summary>What `bond` answers.</summary>
public sealed record BondResult
{
    /// <summary>The board's name, or "typed area".</summary>
    public required string Board { get; init; }
    /// <summary>The adhesive's name.</summary>
    public required string Adhesive { get; init; }
    /// <summary>Bonded area of one bond line, m².</summary>
    [JsonPropertyName("area_m2")] public required double Area { get; init; }
    /// <summary>Mass mixed per area, kg/m².</summary>
    [JsonPropertyName("mixed_kg_m2")] public required double MixedPerArea { get; init; }
    /// <summary>Share of the mixed mass that is expected to stay.</summary>
    public required double KeptShare { get; init; }
    /// <summary>The plan for one bond line.</summary>
    public required BondLineRow OneBondLine { get; init; }
    /// <summary>Mixed for both bond lines, kg; mixed in two goes, one before each bond.</summary>
    [JsonPropertyName("mixed_for_both_kg")] public required double MixedForBoth { get; init; }
    /// <summary>Parts by mass, resin then hardener; none for a one-part adhesive.</summary>
    public required IReadOnlyList<double>? PartsByMass { get; init; }
    /// <summary>Parts by volume for 100 of resin; none where densities are not known.</summary>
    public required double? HardenerPer100ByVolume { get; init; }
    /// <summary>Working time at room temperature, s, where known.</summary>
    [JsonPropertyName("working_time_s")] public required double? WorkingTime { get; init; }
    /// <summary>What the adhesive adds; none for a typed area.</summary>
    public required AdhesiveEffect? Adds { get; init; }
    /// <summary>Cautions, to be read before the tin is opened.</summary>
    public required IReadOnlyList<string> Cautions { get; init; }
    /// <summary>What is unusual.</summary>
    public required IReadOnlyList<string> Warnings { get; init; }
}

/// <summary>Plans the adhesive of the two bonds.</summary>
public static class PlanBonds
{
    /// <summary>The usual cautions; the product's safety data sheet goes first.</summary>
    public static readonly IReadOnlyList<string> Cautions =
    [
        "Read the product's safety data sheet and label first; they go before this page, and so do local codes.",
        "Skin contact with resin or hardener can make you allergic for life: nitrile gloves, sleeves, eye protection; wash with soap and water, not solvent.",
        "Work with fresh air. Dust from half-cured adhesive is harmful: let it cure before you sand, and extract or wear a mask.",
        "A full cup heats itself and can smoke or burn: mix only what this bond needs, spread it soon, let leftovers cure in a thin layer away from anything that burns.",
        "Heat gun, solvent and adhesive do not go together. Vacuum: check bag, pump and lines before you mix; once mixed, the clock runs.",
    ];

    /// <summary>Plans both bonds.</summary>
    /// <param name="name">The board's name, or "typed area".</param>
    /// <param name="adhesive">The adhesive with the shop's coverage.</param>
    /// <param name="area">Bonded area of one bond line, m².</param>
    /// <param name="bead">The shop's bead, where known.</param>
    /// <param name="board">The board, where there is one.</param>
    /// <param name="warnings">What is unusual in the board file.</param>
    /// <returns>The plan.</returns>
    public static BondResult Run(
        string name, Adhesive adhesive, double area, Bead? bead, Board? board, IReadOnlyList<string> warnings)
    {
        BondLinePlan plan = AdhesivePlan.Of(adhesive, area, bead);
        return new()
        {
            Board = name,
            Adhesive = adhesive.Name,
            Area = area,
            MixedPerArea = adhesive.Mixed.Value,
            KeptShare = adhesive.KeptShare.Value,
            OneBondLine = new(
                plan.Mixed, Part(plan.Resin), Part(plan.Hardener), Scale(plan), plan.Kept, plan.LeftOver, plan.BeadLines, bead?.LineLength),
            MixedForBoth = 2 * plan.Mixed,
            PartsByMass = adhesive is { ResinParts: { } r, HardenerParts: { } h } ? [r, h] : null,
            HardenerPer100ByVolume = 100 * plan.Hardener?.Volume / plan.Resin?.Volume,
            WorkingTime = adhesive.WorkingTime,
            Adds = board is null ? null : Effect(board.Laminate()),
            Cautions = Cautions,
            Warnings = warnings,
        };
    }

    private static PartRow? Part(AdhesivePart? part) => part is { } p ? new(p.Mass, p.Volume) : null;

    private static ScaleStep[] Scale(BondLinePlan plan) => plan is { Resin: { } resin, Hardener: { } hardener }
        ?
        [
            new("Empty cup on the scale, press tare", 0),
            new("Pour resin until the scale reads", resin.Mass),
            new("Without taring again, add hardener until it reads", resin.Mass + hardener.Mass),
        ]
        :
        [
            new("Empty cup on the scale, press tare", 0),
            new("Pour adhesive until the scale reads", plan.Mixed),
        ];

    private static AdhesiveEffect Effect(Laminate laminate)
    {
        var films = laminate.Shares().Where(s => s.Name.EndsWith("bond line", StringComparison.Ordinal)).ToList();
        double mass = films.Sum(f => f.ArealMass);
        return new(
            mass, mass / laminate.ArealMass, films.Sum(f => f.StiffnessAlong) / laminate.Bending.M11, films.Sum(f => f.StiffnessAcross) / laminate.Bending.M22);
    }
}
