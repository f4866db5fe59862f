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

/// <summary>A part of the bond line.</summary>
public sealed record BondRegionRow(
    string Region, [property: JsonPropertyName("area_m2")] double Area, [property: JsonPropertyName("mixed_kg_m2")] double Coverage, [property: JsonPropertyName("mixed_kg")] double Mixed);

/// <summary>The clock of a bond.</summary>
/// <param name="Temperature">Of the shop, K.</param>
/// <param name="FullVacuum">Latest full vacuum after the first stir, s.</param>
/// <param name="Unbag">Earliest opening of the bag after full vacuum, s.</param>
/// <param name="FullCure">Cured through, s.</param>
public sealed record BondClock(
    [property: JsonPropertyName("temperature_K")] double Temperature,
    [property: JsonPropertyName("full_vacuum_s")] double? FullVacuum,
    [property: JsonPropertyName("unbag_s")] double? Unbag,
    [property: JsonPropertyName("full_cure_s")] double? FullCure);

/// <summary>The wooden witness of the water that the bag draws out.</summary>
/// <param name="ScaleStep">Of the scale, kg.</param>
/// <param name="Change">Change of moisture that shows as one step, a share of the dry mass.</param>
/// <param name="LeastMass">Lightest witness, kg.</param>
/// <param name="Wood">Wood of the blank in the bag of the second bond, kg; only where a board is given.</param>
/// <param name="WaterPerPercent">Water that one percent of moisture is in that wood, kg.</param>
public sealed record WitnessRow(
    [property: JsonPropertyName("scale_step_kg")] double ScaleStep,
    double Change,
    [property: JsonPropertyName("least_mass_kg")] double LeastMass,
    [property: JsonPropertyName("wood_kg")] double? Wood,
    [property: JsonPropertyName("water_per_percent_kg")] double? WaterPerPercent);

/// <summary>How the shop bonds.</summary>
public sealed record BondWish
{
    /// <summary>Margin all round, m.</summary>
    public double Margin { get; init; }
    /// <summary>Whether the soundhole is open already.</summary>
    public bool HoleCut { get; init; }
    /// <summary>Mixed on let-in wood, kg/m²; none: as on the honeycomb.</summary>
    public double? LetInCoverage { get; init; }
    /// <summary>The empty cup, kg; none: it is tared away.</summary>
    public double? Cup { get; init; }
    /// <summary>Of the shop, K.</summary>
    public double Temperature { get; init; } = CureTimes.Room;
    /// <summary>Step of the scale, kg.</summary>
    public double ScaleStep { get; init; } = 1e-4;
    /// <summary>Vacuum that the shop draws, Pa below the air.</summary>
    public double? Vacuum { get; init; }
}

/// <summary>What `bond` answers.</summary>
public sealed record BondResult
{
    /// <summary>The board's name, or "typed area".</summary>
    public required string Board { get; init; }
    /// <summary>The adhesive's name.</summary>
    public required string Adhesive { get; init; }
    /// <summary>Bonded area of one bond line, m².</summary>
    [JsonPropertyName("area_m2")] public required double Area { get; init; }
    /// <summary>Margin all round the board, part of the area, m.</summary>
    [JsonPropertyName("margin_m")] public required double Margin { get; init; }
    /// <summary>Whether the soundhole is open already, and not part of the area.</summary>
    public required bool HoleCut { get; init; }
    /// <summary>The bond line by what it covers.</summary>
    public required IReadOnlyList<BondRegionRow> Regions { get; init; }
    /// <summary>Mass mixed per area, over all of it, kg/m².</summary>
    [JsonPropertyName("mixed_kg_m2")] public required double MixedPerArea { get; init; }
    /// <summary>Share of the mixed mass that is expected to stay.</summary>
    public required double KeptShare { get; init; }
    /// <summary>The plan for one bond line.</summary>
    public required BondLineRow OneBondLine { get; init; }
    /// <summary>Of what is kept in one bond line, what lies as film, kg; the rest is fillets in the honeycomb.</summary>
    [JsonPropertyName("film_kg")] public required double Film { get; init; }
    /// <summary>Mixed for both bond lines, kg; mixed in two goes, one before each bond.</summary>
    [JsonPropertyName("mixed_for_both_kg")] public required double MixedForBoth { get; init; }
    /// <summary>Parts by mass, resin then hardener; none for a one-part adhesive.</summary>
    public required IReadOnlyList<double>? PartsByMass { get; init; }
    /// <summary>Parts by volume for 100 of resin; none where densities are not known.</summary>
    public required double? HardenerPer100ByVolume { get; init; }
    /// <summary>Working time at room temperature, s, where known.</summary>
    [JsonPropertyName("working_time_s")] public required double? WorkingTime { get; init; }
    /// <summary>Times at the shop's temperature.</summary>
    public required BondClock Clock { get; init; }
    /// <summary>Vacuum that the shop draws, Pa below the air, where it was said.</summary>
    [JsonPropertyName("vacuum_Pa")] public required double? Vacuum { get; init; }
    /// <summary>The witness of the water.</summary>
    public required WitnessRow Witness { get; init; }
    /// <summary>What the adhesive adds; none for a typed area.</summary>
    public required AdhesiveEffect? Adds { get; init; }
    /// <summary>Cautions, to be read before the tin is opened.</summary>
    public required IReadOnlyList<string> Cautions { get; init; }
    /// <summary>What too little and too much do.</summary>
    public required IReadOnlyList<string> TooMuchOrLittle { get; init; }
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
        "Heat gun, open flame and solvent do not go together: one of them in the shop at a time, rags shut away.",
        "Vacuum: try bag, seals, pump and trap dry before you mix, keep eyes and hands off a bag that folds or whistles; once mixed, the clock runs.",
    ];

    /// <summary>What makes a bond poor, in words.</summary>
    public static readonly IReadOnlyList<string> TooMuchOrLittle =
    [
        "Too little: a starved joint, with fillets that do not close and a skin that lets go under heat or a knock. Dry places cannot be mended later.",
        "Too much: weight that damps, glue pressed into the cells, and cells that print through a thin skin.",
    ];

    /// <summary>The rule behind the clock.</summary>
    public const string ClockRule = "Times halve per 10 °C warmer: a rough rule (common practice, no source). The label on the tin goes first.";

    // Common practice, no source: grams mixed per square inch of bond line, and grams that stay in one bond of a full-size classical board.
    private const double Inch = 0.0254, LeastMixed = 0.14e-3 / (Inch * Inch), MostMixed = 0.16e-3 / (Inch * Inch), LeastKept = 0.012, MostKept = 0.020;

    // What is called full size, m²: 241 in² and about a tenth to either side.
    private const double LeastFull = 0.14, MostFull = 0.17;

    // A change that is still worth knowing, and what wood holds in a room of 40 to 45 % humidity.
    private const double WitnessChange = 0.002, WitnessMoisture = 0.08;

    /// <summary>Plans both bonds.</summary>
    /// <param name="name">The board's name, or "typed area".</param>
    /// <param name="adhesive">The adhesive with the shop's coverage.</param>
    /// <param name="typedArea">Bonded area of one bond line, m²; needed without a board.</param>
    /// <param name="bead">The shop's bead, where known.</param>
    /// <param name="board">The board, where there is one.</param>
    /// <param name="warnings">What is unusual in the board file.</param>
    /// <param name="wish">How the shop bonds; none: no margin, no cup, a warm room.</param>
    /// <returns>The plan.</returns>
    /// <exception cref="InputException">A margin cannot be laid round the board, or what belongs to a board is asked of a typed area.</exception>
    public static BondResult Run(
        string name, Adhesive adhesive, double? typedArea, Bead? bead, Board? board, IReadOnlyList<string> warnings, BondWish? wish = null)
    {
        wish ??= new();
        BondAreas areas = Areas(typedArea, board, wish);
        double letIn = wish.LetInCoverage ?? adhesive.Mixed.Value;
        BondLinePlan plan = AdhesivePlan.Of(adhesive, areas, letIn, bead);
        var clock = CureTimes.At(adhesive, wish.Temperature);
        return new()
        {
            Board = name,
            Adhesive = adhesive.Name,
            Area = areas.Total,
            Margin = wish.Margin,
            HoleCut = wish.HoleCut,
            Regions = Regions(areas, adhesive.Mixed.Value, letIn),
            MixedPerArea = plan.Mixed / areas.Total,
            KeptShare = adhesive.KeptShare.Value,
            OneBondLine = new(
                plan.Mixed, Part(plan.Resin), Part(plan.Hardener), Scale(plan, wish.Cup), plan.Kept, plan.LeftOver, plan.BeadLines, bead?.LineLength),
            Film = adhesive.KeptShare.Value * (adhesive.FilmShare.Value * adhesive.Mixed.Value * areas.Honeycomb + letIn * areas.LetIn),
            MixedForBoth = 2 * plan.Mixed,
            PartsByMass = adhesive is { ResinParts: { } r, HardenerParts: { } h } ? [r, h] : null,
            HardenerPer100ByVolume = 100 * plan.Hardener?.Volume / plan.Resin?.Volume,
            WorkingTime = adhesive.WorkingTime,
            Clock = new(wish.Temperature, clock.FullVacuum, clock.Unbag, clock.FullCure),
            Vacuum = wish.Vacuum,
            Witness = Witness(areas, board, wish),
            Adds = board is null ? null : Effect(board.Laminate()),
            Cautions = Cautions,
            TooMuchOrLittle = TooMuchOrLittle,
            Warnings = [.. warnings, .. Unusual(plan)],
        };
    }

    private static BondAreas Areas(double? typed, Board? board, BondWish wish)
    {
        if (board is null)
        {
            return wish.Margin > 0 || wish.HoleCut || wish.LetInCoverage is not null
                ? throw new InputException("bond", "--margin, --hole-cut and --letin-coverage need a board file: an area that is typed is bonded as it is")
                : new(typed!.Value, 0);
        }

        return wish.Margin > 0 && board is { Shape: null, Size: { Length: null } or { Width: null } }
            ? throw new InputException("--margin", "the board file has neither an outline nor both length and width to lay a margin round: add length and width to its [size], or leave --margin out")
            : BondAreas.Of(board, wish.Margin, wish.HoleCut);
    }

    private static List<BondRegionRow> Regions(BondAreas areas, double mixed, double letIn)
    {
        var rows = new List<BondRegionRow> { new("honeycomb", areas.Honeycomb, mixed, mixed * areas.Honeycomb) };
        if (areas.LetIn > 0) { rows.Add(new("let-in wood", areas.LetIn, letIn, letIn * areas.LetIn)); }
        return rows;
    }

    private static WitnessRow Witness(BondAreas areas, Board? board, BondWish wish)
    {
        double? wood = null;
        if (board is not null)
        {
            double height = board.Core.Height.Value;
            double letIn = board.Shape?.Regions.Select(r => r.Change).OfType<LetInWood>().FirstOrDefault()?.Wood.Density.Value ?? 0;
            wood = (Areal(board.Outer) + Areal(board.Inner)) * areas.Total + letIn * height * areas.LetIn;
        }

        return new(
            wish.ScaleStep, WitnessChange, WaterWitness.LeastMass(wish.ScaleStep, WitnessChange, WitnessMoisture), wood,
            wood is { } m ? WaterWitness.Water(m, WitnessMoisture, 0.01) : null);

        static double Areal(Skin skin) => skin.Wood.Density.Value * skin.Thickness.Value;
    }

    private static IEnumerable<string> Unusual(BondLinePlan plan)
    {
        const double rounding = 1e-9;
        double mixed = plan.Mixed / plan.Area;
        if (mixed < LeastMixed * (1 - rounding)) { yield return "less is mixed per area than the usual 0.14 to 0.16 g/in² (common practice, no source): a starved joint threatens"; }
        if (mixed > MostMixed * (1 + rounding)) { yield return "more is mixed per area than the usual 0.14 to 0.16 g/in² (common practice, no source): weight, and cells that print through"; }
        if (plan.Area is < LeastFull or > MostFull) { yield break; }
        if (plan.Kept.Value < LeastKept) { yield return "less should stay than the usual 12 to 20 g in one bond of a full-size classical board (common practice, no source): a starved joint threatens"; }
        if (plan.Kept.Value > MostKept) { yield return "more should stay than the usual 12 to 20 g in one bond of a full-size classical board (common practice, no source): weight, and cells that print through"; }
    }

    private static PartRow? Part(AdhesivePart? part) => part is { } p ? new(p.Mass, p.Volume) : null;

    private static ScaleStep[] Scale(BondLinePlan plan, double? cup)
    {
        ScaleStep first = cup is { } mass ? new("Empty cup on the scale, no tare: it reads", mass) : new("Empty cup on the scale, press tare", 0);
        return plan is { Resin: { } resin, Hardener: { } hardener }
            ?
            [
                first,
                new("Pour resin until the scale reads", first.Reads + resin.Mass),
                new($"Without taring{(cup is null ? " again" : "")}, add hardener until it reads", first.Reads + resin.Mass + hardener.Mass),
            ]
            : [first, new("Pour adhesive until the scale reads", first.Reads + plan.Mixed)];
    }

    private static AdhesiveEffect Effect(Laminate laminate)
    {
        var films = laminate.Shares().Where(s => s.Name.EndsWith("bond line", StringComparison.Ordinal)).ToList();
        double mass = films.Sum(f => f.ArealMass);
        return new(
            mass, mass / laminate.ArealMass, films.Sum(f => f.StiffnessAlong) / laminate.Bending.M11, films.Sum(f => f.StiffnessAcross) / laminate.Bending.M22);
    }
}
