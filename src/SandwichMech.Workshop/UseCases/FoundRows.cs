using System.Globalization;
using SandwichMech.Core.Identification;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Workshop.UseCases;

/// <summary>What a fit found, as rows.</summary>
internal static class FoundRows
{
    private const double Unlikely = 0.01;
    private const int FewStrays = 3;

    internal static PropertyRow Of(PropertyFound p) => new(p.Property.Name, p.Property.Symbol, UnitOf(p.Property.Symbol), GiveOrTake.Of(p.Table), GiveOrTake.Of(p.Found));

    internal static ReadingRow Of(ReadingUsed r) => new(
        r.Observation.Name, UnitOf(r.Observation.Quantity), r.Observation.Value, r.Expected, r.Misfit, Lines(r.Lines), r.Narrows?.Property.Name,
        r.Narrows is null ? null : Propagation.Z90 * r.WithoutIt, r.Narrows is null ? null : Propagation.Z90 * r.Narrows.Found.Spread);

    internal static OtherWayRow Of(OtherWay w) => new([.. w.Lines.Select(Lines)], w.Likelihood);

    internal static NextRow Of(NextReading n) => new(n.What, UnitOf(n.Quantity), n.Expected, n.Narrows.Name, Propagation.Z90 * n.From, Propagation.Z90 * n.To);

    internal static string? Lines((int Along, int Across)? lines) => lines is { } l ? string.Create(CultureInfo.InvariantCulture, $"{l.Along} × {l.Across}") : null;

    /// <summary>Readings that do not go together, and tones that are none.</summary>
    /// <param name="found">The fit.</param>
    /// <param name="what">What was read: "piece", "board".</param>
    internal static IEnumerable<string> Doubts(Identified found, string what)
    {
        if (found.Readings.Count > 0 && found.Chance < Unlikely)
        {
            yield return $"the readings do not go together: such misfits would come up in fewer than one {what} in a hundred; look at the largest misfit, at its unit, and at which mode it was taken for";
        }

        ReadingUsed[] strays = [.. found.Readings.Where(r => r.Expected is null)];
        if (strays.Length > FewStrays)
        {
            string all = string.Join(", ", strays.Select(s => s.Observation.Value.ToString("F1", CultureInfo.InvariantCulture)));
            yield return $"{all} Hz are no tones of such a {what} and were left out: check its sizes, thicknesses and wood, how it was held, and that the tones are its own";
            yield break;
        }

        foreach (ReadingUsed stray in strays) { yield return Stray(stray.Observation.Value, [.. found.Modes.Select(m => m.Mode)], what); }
    }

    private static string Stray(double frequency, IReadOnlyList<TapMode> modes, string what)
    {
        TapMode? below = modes.LastOrDefault(m => m.Frequency < frequency), above = modes.FirstOrDefault(m => m.Frequency >= frequency);
        string[] near = [.. new[] { below, above }.OfType<TapMode>().Select(m => string.Create(CultureInfo.InvariantCulture, $"{m.Frequency:F1} Hz ({Lines(m.Lines) ?? "mixed"})"))];
        return string.Create(CultureInfo.InvariantCulture, $"{frequency:F1} Hz is no tone of this {what} as the other readings have it, and was left out; nearest {(near.Length == 1 ? "is" : "are")} {string.Join(" and ", near)}");
    }

    internal static string UnitOf(string of) => of switch
    {
        "rho" or "outer rho" or "inner rho" => "kg/m³",
        "m" => "kg/m²",
        "D along" or "D across" or "D twist" => "N·m",
        "mass" or "board mass" => "kg",
        "deflection" => "m",
        "frequency" or "board f1" or "board f2" or "board f3" => "Hz",
        "rim" => MeasurePiece.Ratio,
        _ => "Pa",
    };
}
