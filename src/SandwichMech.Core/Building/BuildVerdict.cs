using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Building;

/// <summary>What a reading means for the work.</summary>
public enum Verdict
{
    /// <summary>As expected.</summary>
    Go,
    /// <summary>Off by more than nine in ten would be.</summary>
    LookAgain,
    /// <summary>Off by more than all but a few in a thousand, or not possible.</summary>
    Stop,
}

/// <summary>A reading beside what was expected of it.</summary>
/// <param name="Reading">The reading.</param>
/// <param name="Expected">What was expected; nothing where nothing could be.</param>
/// <param name="Verdict">Go, look again or stop.</param>
/// <param name="Reason">Why.</param>
public sealed record JudgedReading(BuildReading Reading, Prediction? Expected, Verdict Verdict, string Reason);

/// <summary>Judges readings of a build, each by what was known before it.</summary>
public static class BuildVerdicts
{
    // Standard deviations: outside of the first one in ten readings falls by chance, outside of the second three in a thousand.
    private const double Stopping = 3;

    /// <summary>Judges.</summary>
    /// <param name="masses">The build's masses without this reading.</param>
    /// <param name="before">Readings before this one.</param>
    /// <param name="reading">The reading.</param>
    /// <returns>The verdict.</returns>
    public static JudgedReading Of(BuildMasses masses, IReadOnlyList<BuildReading> before, BuildReading reading)
    {
        Prediction? expected = masses.Expected(reading.Stage).Concat(masses.Thicknesses(reading.Stage)).FirstOrDefault(e => e.Quantity == reading.Quantity)?.Reading;
        if (Impossible(before, reading) is { } why) { return new(reading, expected, Verdict.Stop, why); }
        if (expected is null) { return new(reading, null, Verdict.Go, "nothing was expected of it"); }
        double spread = (expected.High90 - expected.Low90) / (2 * Propagation.Z90), off = (reading.Mean - expected.Value) / Math.Sqrt(spread * spread + reading.Deviation * reading.Deviation);
        string side = off > 0 ? "more" : "less";
        return Math.Abs(off) <= Propagation.Z90 ? new(reading, expected, Verdict.Go, "as expected")
            : Math.Abs(off) <= Stopping ? new(reading, expected, Verdict.LookAgain, $"{side} than nine in ten would be: {Again(reading.Quantity)}")
            : new(reading, expected, Verdict.Stop, $"{side} than is likely at all: do not go on before you know why");
    }

    private static string Again(BuildQuantity quantity) => quantity is BuildQuantity.OuterThickness or BuildQuantity.CoreHeight or BuildQuantity.InnerThickness or BuildQuantity.BoardThickness
        ? "measure again, at more places" : "weigh again, and see whether all that lies on the scale belongs to it";

    private static string? Impossible(IReadOnlyList<BuildReading> before, BuildReading now)
    {
        double? Earlier(BuildStage stage, BuildQuantity quantity) => before.LastOrDefault(r => r.Stage == stage && r.Quantity == quantity)?.Mean;
        if (now.Quantity == BuildQuantity.BoardMass)
        {
            double? last = before.Where(r => r.Quantity == BuildQuantity.BoardMass && r.Stage < now.Stage).OrderBy(r => r.Stage).LastOrDefault()?.Mean;
            if (now.Stage is BuildStage.Levelled or BuildStage.Sanded or BuildStage.CutOut && now.Mean > last + 3 * now.Deviation) { return "it gained mass where wood was taken off: weigh again"; }
            double? parts = now.Stage == BuildStage.FirstBond
                ? Earlier(BuildStage.Skins, BuildQuantity.OuterMass) + (Earlier(BuildStage.Skins, BuildQuantity.CoreMass) ?? 0) + (Earlier(BuildStage.Skins, BuildQuantity.LetInMass) ?? 0)
                : now.Stage == BuildStage.SecondBond ? last + (Earlier(BuildStage.SecondBond, BuildQuantity.InnerMass) ?? Earlier(BuildStage.Skins, BuildQuantity.InnerMass)) : null;
            if (now.Mean < parts - 3 * now.Deviation) { return "it weighs less than what was bonded: no bond takes mass away; weigh again, and see that all parts were weighed as they were bonded"; }
        }

        if (now.Quantity == BuildQuantity.LetInHeight && Earlier(now.Stage, BuildQuantity.CoreHeight) is { } core && now.Mean < core - 3 * now.Deviation)
        {
            return "let-in wood lower than the core: it would not be bonded; cut higher pieces";
        }

        return now.Quantity == BuildQuantity.WitnessAfter && Earlier(now.Stage, BuildQuantity.WitnessBefore) is { } witness && now.Mean > 1.05 * witness
            ? "the witness piece gained more than a twentieth: adhesive may have run onto it"
            : null;
    }
}
