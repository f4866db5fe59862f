using System.Globalization;
using System.Text.Json.Serialization;
using SandwichMech.Core.Building;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Pieces;

namespace SandwichMech.Workshop.UseCases;

/// <summary>One bending test of a strip.</summary>
public sealed record StripTestRow
{
    /// <summary>Its number, from 1.</summary>
    public required int Number { get; init; }
    /// <summary>Between the supports, m.</summary>
    [JsonPropertyName("span_m")] public required double Span { get; init; }
    /// <summary>Between the two lines of load, m; 0 for one line at the middle.</summary>
    [JsonPropertyName("load_span_m")] public required double LoadSpan { get; init; }
    /// <summary>Weight to lay on, kg.</summary>
    [JsonPropertyName("load_kg")] public required double Load { get; init; }
    /// <summary>Deflection to expect, m.</summary>
    [JsonPropertyName("deflection_m")] public required GiveOrTake Deflection { get; init; }
    /// <summary>The same in steps of the gauge.</summary>
    public required double GaugeSteps { get; init; }
    /// <summary>Share of the deflection that is shear.</summary>
    public required double ShearShare { get; init; }
    /// <summary>Span over thickness.</summary>
    public required double SpanOverThickness { get; init; }
    /// <summary>Stress in the thinner skin, Pa.</summary>
    [JsonPropertyName("skin_stress_pa")] public required double SkinStress { get; init; }
    /// <summary>Shear stress in the core, Pa.</summary>
    [JsonPropertyName("core_shear_stress_pa")] public required double CoreStress { get; init; }
    /// <summary>What the gauge's spring holds up of the load at that deflection, N.</summary>
    [JsonPropertyName("gauge_holds_n")] public required double GaugeHolds { get; init; }
    /// <summary>What to type for `measure --bend`, with the deflection that is read in the place of the dots.</summary>
    public required string ToType { get; init; }
}

/// <summary>Some of the tests together.</summary>
public sealed record StripSchemeRow
{
    /// <summary>What is done.</summary>
    public required string Name { get; init; }
    /// <summary>Numbers of its tests.</summary>
    public required IReadOnlyList<int> Tests { get; init; }
    /// <summary>Half the 90 % interval of the core's shear modulus then.</summary>
    public required double CoreShearRelative { get; init; }
    /// <summary>Half the 90 % interval of the skins' stiffness then.</summary>
    public required double SkinStiffnessRelative { get; init; }
}

/// <summary>What `strip` answers.</summary>
public sealed record StripResult
{
    /// <summary>The board.</summary>
    public required string Board { get; init; }
    /// <summary>"along" or "across" the grain.</summary>
    public required string Direction { get; init; }
    /// <summary>m.</summary>
    [JsonPropertyName("length_m")] public required double Length { get; init; }
    /// <summary>m.</summary>
    [JsonPropertyName("width_m")] public required double Width { get; init; }
    /// <summary>m.</summary>
    [JsonPropertyName("thickness_m")] public required double Thickness { get; init; }
    /// <summary>kg.</summary>
    [JsonPropertyName("mass_kg")] public required double Mass { get; init; }
    /// <summary>Core shear modulus along the strip, by the board file.</summary>
    [JsonPropertyName("core_shear_modulus_pa")] public required GiveOrTake CoreShear { get; init; }
    /// <summary>Young's modulus of the skins along the strip, mean by thickness, as a tap finds it.</summary>
    [JsonPropertyName("skin_stiffness_pa")] public required GiveOrTake SkinStiffness { get; init; }
    /// <summary>The tests: short span and long, each with one line of load and two.</summary>
    public required IReadOnlyList<StripTestRow> Tests { get; init; }
    /// <summary>Ways to go about it, and how well the two would be known.</summary>
    public required IReadOnlyList<StripSchemeRow> Schemes { get; init; }
    /// <summary>What was taken without being typed.</summary>
    public required IReadOnlyList<string> Taken { get; init; }
    /// <summary>What to do, and what to mind.</summary>
    public required IReadOnlyList<string> Notes { get; init; }
}

/// <summary>What was typed of a strip; nothing where it is left to the tool.</summary>
/// <param name="Across">Whether it runs across the grain.</param>
/// <param name="Margin">Width of the blank's margin, m.</param>
/// <param name="Length">m.</param>
/// <param name="GaugeStep">m.</param>
/// <param name="Heaviest">kg.</param>
public sealed record StripWords(bool Across, double? Margin, double? Length, double? GaugeStep, double? Heaviest);

/// <summary>Plans a test strip.</summary>
public static class PlanStrip
{
    // Taken where nothing is typed; what saw and trimming take of the margin, both sides together. Common practice, no source.
    private const double UsualMargin = 25e-3, Sawn = 4e-3, UsualStep = 0.01e-3, UsualHeaviest = 5;
    private const double Narrowest = 8e-3, FewCells = 6;

    /// <summary>Plans.</summary>
    /// <param name="file">The board.</param>
    /// <param name="words">What was typed.</param>
    /// <returns>The plan.</returns>
    /// <exception cref="InputException">The margin holds no such strip.</exception>
    public static StripResult Run(BoardFile file, StripWords words)
    {
        double thickness = file.Board.Laminate().Thickness, margin = words.Margin ?? UsualMargin, width = margin - Sawn, step = words.GaugeStep ?? UsualStep;
        if (width < Narrowest) { throw new InputException("--margin", $"a margin of {Mm(margin)} leaves a strip of {Mm(Math.Max(0, width))} beside what the saw takes ({Mm(Sawn)}), and one narrower than {Mm(Narrowest)} is mostly edge: leave a wider margin"); }
        double? side = words.Across ? file.Board.Size.Width : file.Board.Size.Length;
        double least = TestStrip.LeastLength(thickness), good = TestStrip.GoodLength(thickness), length = words.Length ?? Math.Min(side ?? good, good);
        if (length < least)
        {
            throw new InputException("--length", $"a strip of {Mm(length)} is too short for two spans on a sandwich {Mm(thickness)} thick: {Mm(Math.Ceiling(least * 1e3) / 1e3)} or more is needed, {Mm(Math.Max(good, least))} is good");
        }

        if (words.Length is { } typed && side is { } whole && typed > whole + 2 * margin)
        {
            throw new InputException("--length", $"{Mm(typed)} is longer than the blank, {Mm(whole)} and a margin of {Mm(margin)} at either end: shorten the strip, or check --across");
        }

        var wishes = new StripWishes(words.Across, length, width, step, words.Heaviest ?? UsualHeaviest);
        StripPlan plan = TestStrip.Plan(file.Board, wishes, TypedTests.Usual(step));
        StripTestRow[] tests = [.. plan.Tests.Select((t, i) => Row(t, i + 1, plan.Thickness))];
        return new()
        {
            Board = file.Board.Name,
            Direction = words.Across ? "across" : "along",
            Length = length,
            Width = width,
            Thickness = plan.Thickness,
            Mass = plan.Mass,
            CoreShear = GiveOrTake.Of(plan.Schemes[0].CoreShear.Table),
            SkinStiffness = GiveOrTake.Of(plan.Schemes[0].SkinStiffness.Table),
            Tests = tests,
            Schemes = [.. plan.Schemes.Select(s => new StripSchemeRow
            {
                Name = s.Name,
                Tests = [.. s.Tests.Select(i => i + 1)],
                CoreShearRelative = Propagation.Z90 * s.CoreShear.Found.Spread,
                SkinStiffnessRelative = Propagation.Z90 * s.SkinStiffness.Found.Spread,
            })],
            Taken = Taken(words, length, width, margin, side is null),
            Notes = Notes(file, plan, tests, wishes),
        };
    }

    private static StripTestRow Row(StripTest t, int number, double thickness) => new()
    {
        Number = number,
        Span = t.Reading.Span.Value,
        LoadSpan = t.Reading.LoadSpan,
        Load = t.Reading.Load.Value,
        Deflection = GiveOrTake.Of(t.Deflection),
        GaugeSteps = t.Steps,
        ShearShare = t.ShearShare,
        SpanOverThickness = t.Reading.Span.Value / thickness,
        SkinStress = t.SkinStress,
        CoreStress = t.CoreStress,
        GaugeHolds = -t.Reading.Plunger,
        ToType = $"{(t.Reading.Across ? "across" : "along")}, span {Mm(t.Reading.Span.Value)}{(t.IsOnTwoLines ? $", lines {Mm(t.Reading.LoadSpan)}" : "")}, load {Grams(t.Reading.Load.Value)}, down … mm, gauge",
    };

    private static List<string> Taken(StripWords words, double length, double width, double margin, bool sizeUnknown)
    {
        var taken = new List<string>();
        string saw = $"{Mm(Sawn)} of it go to the saw and to trimming, which leaves {Mm(width)}";
        taken.Add(words.Margin is null ? $"margin of {Mm(margin)} taken, as none is typed (--margin); {saw}" : saw.Replace("of it go", "of the margin go", StringComparison.Ordinal));
        if (words.Length is null) { taken.Add($"length {Mm(length)}: {(sizeUnknown ? "the board's size is not known, and a longer one tells little more" : "what the board's side allows, as far as it tells more")} (--length)"); }
        if (words.GaugeStep is null) { taken.Add("dial gauge with steps of 0.01 mm, read to two of them (--gauge-step)"); }
        if (words.Heaviest is null) { taken.Add($"weights up to {Grams(UsualHeaviest)} (--heaviest)"); }
        return taken;
    }

    private static List<string> Notes(BoardFile file, StripPlan plan, StripTestRow[] tests, StripWishes wishes)
    {
        var notes = new List<string>
        {
            "Saw the strip off after the second bond, where core and both skins are whole, and keep it with the board until it is used: same bond, same moisture. Weigh it and measure its thickness at several places.",
            string.Create(CultureInfo.InvariantCulture, $"The gauge: its plunger presses with some 0.4 to 1.5 N by itself (common practice, no source), which the first reading holds already: set it on, read, lay the weight on, read again. As the strip sinks its spring holds up to {tests.Max(t => t.GaugeHolds):0.00} N of the load (0.05 N for each millimetre; judgement, no source), which \"gauge\" in --bend allows for: type your own as \"gauge 0.03 N\" if you have weighed it."),
            "Supports and lines of load: rods of 6 to 12 mm, square to the strip; a strip of tape or veneer under them keeps the cell walls whole. Lay weights on gently and read within some ten seconds: wood creeps.",
            $"Then add it as a piece (`piece add sandwich` with the skins as pieces measured before the bond), and type the tests as `measure N --bend \"{tests[0].ToType}\"`.",
        };
        StripTestRow[] few = [.. tests.Where(t => t.GaugeSteps < TestStrip.FewestSteps)];
        if (few.Length > 0)
        {
            string which = string.Join(", ", few.Select(t => string.Create(CultureInfo.InvariantCulture, $"test {t.Number} by {t.GaugeSteps:0}")));
            notes.Add(string.Create(CultureInfo.InvariantCulture, $"Fewer than {TestStrip.FewestSteps:0} steps of the gauge: {which}. More weight than there is (--heaviest) or more stress than skins and core should bear would be needed; a finer gauge helps."));
        }

        if (tests.Any(t => t.SpanOverThickness < TestStrip.ShortInThickness))
        {
            notes.Add(string.Create(CultureInfo.InvariantCulture, $"A span of {tests[0].SpanOverThickness:0} thicknesses is short (under {TestStrip.ShortInThickness:0}): the supports press into the skins, and the skins bend on their own. What is found there for the core may be some 10 % off even if all is read perfectly; the give or take above does not hold that."));
        }

        if (file.Board.Core.Material.CellSize is { } cell && wishes.Width < FewCells * cell) { notes.Add($"The strip is {wishes.Width / cell:0} cells wide: with fewer than {FewCells:0} the cut ones at its edges make the core softer than the board's."); }
        if (wishes.Width < 2 * plan.Thickness) { notes.Add($"The strip is narrower than twice its thickness ({Mm(2 * plan.Thickness)}): it may tip on its supports; leave a wider margin."); }
        if (plan.Tests[2].ShearShare > 0.2) { notes.Add($"Even over the long span {Say(plan.Tests[2].ShearShare)} of the deflection is shear: a longer strip tells the skins better."); }
        notes.Add(string.Create(CultureInfo.InvariantCulture, $"The plan stays below {TestStrip.SkinAlong / 1e6:0.##} MPa in a skin along the grain, {TestStrip.SkinAcross / 1e6:0.##} MPa across it and {TestStrip.CoreShear / 1e6:0.##} MPa of shear in the core (judgement, no source): lay on no more."));
        return notes;
    }

    private static string Say(double share) => string.Create(CultureInfo.InvariantCulture, $"{100 * share:0} %");

    // What is typed again has no more digits than are meant.
    private static string Mm(double metres) => (metres * 1e3).ToString("0.##", CultureInfo.InvariantCulture) + " mm";

    private static string Grams(double kg) => kg < 1 ? (kg * 1e3).ToString("0", CultureInfo.InvariantCulture) + " g" : kg.ToString("0.###", CultureInfo.InvariantCulture) + " kg";
}
