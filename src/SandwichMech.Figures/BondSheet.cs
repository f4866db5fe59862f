using System.Globalization;
using SandwichMech.Figures.Pages;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.Figures;

/// <summary>The sheet for both bonds: their figures are the same, so one page has columns to tick and to fill in for either.</summary>
public static class BondSheet
{
    private const double Minute = 60, Hour = 3600;

    private static readonly string[] Blanks = [.. Enumerable.Repeat("", 9)];

    // One page has no room for more.
    private const int MostWarnings = 1;

    /// <summary>Refuses a name that no sheet can have.</summary>
    /// <param name="path">The name.</param>
    /// <param name="option">What named it.</param>
    public static void CheckName(string path, string option) => Page.CheckName(path, option);

    /// <summary>Lays out the sheet.</summary>
    /// <param name="r">The plan.</param>
    /// <param name="units">In which it is written.</param>
    /// <returns>The page.</returns>
    public static Page Of(BondResult r, UnitSystem units)
    {
        BondLineRow one = r.OneBondLine;
        var page = new Page($"Bond sheet: {r.Board}");
        page.Line($"{r.Adhesive}. 1st bond: outer skin, let-in wood, core; 2nd bond: inner skin. Mix for one bond at a time; these figures are for each.");
        page.Big(one.Scale.Select((s, i) => ($"{i + 1}. {s.Do}", Text(s.Reads, Shown.Mass))), "1st", "2nd");
        page.Line(Mix(r, units));
        page.Line($"{Capital(string.Join("; ", r.Regions.Select(row => $"{row.Region}: {Text(row.Mixed, Shown.Mass)} on {Text(row.Area, Shown.Area)}, {Text(row.Coverage, Shown.ArealDensity)}")))}{(r.Margin > 0 ? $"; with {Text(r.Margin, Shown.Length)} of margin all round" : "")}.");
        page.Line("Too little starves the joint, and dry places cannot be mended later. Too much is weight, and prints cells through.");
        foreach (string warning in r.Warnings.Take(MostWarnings)) { page.Line($"Note: {warning}"); }
        if (r.Warnings.Count > MostWarnings) { page.Line($"Note: {(r.Warnings.Count - MostWarnings).ToString(CultureInfo.InvariantCulture)} more on the screen."); }
        page.Heading($"The clock, at {Text(r.Clock.Temperature, Shown.Temperature)}");
        page.Ticks(Clock(r).SkipLast(1));
        page.Small(PlanBonds.ClockRule);
        page.Heading("What should stay, for each bond");
        page.Line($"The board gains {Text(one.Kept.Value, Shown.Mass)}: {Range(one.Kept.Low50, one.Kept.High50)} in half of the bonds, {Range(one.Kept.Low90, one.Kept.High90)} in 90 % of them. About {Text(one.LeftOver, Shown.Mass)} is left over. Of what stays, {Text(r.Film, Shown.Mass)} lies as film.");
        page.Line(Witness(r, units));
        page.Table(["bond", "parts, g", "mixed, g", "stirred at", "full vac. at", "vacuum held", "room", "witness before, g", "after, g", "out of bag, g"],
            [["1st", .. Blanks], ["2nd", .. Blanks]]);
        page.Cautions("Before the tin is opened", r.Cautions);
        return page;

        string Text(double si, Shown kind) => Display.Text(si, kind, units);

        string Range(double low, double high) => $"{Display.Number(low, Shown.Mass, units)} to {Text(high, Shown.Mass)}";
    }

    /// <summary>The clock in words, for page and screen.</summary>
    /// <param name="r">The plan.</param>
    /// <returns>Lines; the last says by which rule.</returns>
    public static IEnumerable<string> Clock(BondResult r)
    {
        BondClock clock = r.Clock;
        yield return clock.FullVacuum is { } vacuum ? $"Full vacuum at the latest {Duration(vacuum)} after the first stir; aim for half of that." : "Full vacuum well within the working time on the label.";
        yield return r.Vacuum is { } level
            ? string.Create(CultureInfo.InvariantCulture, $"Hold {level / 1000:F0} kPa ({level / 3386.389:F1} inHg) below the air, as on your test strip: more can print the cells through.")
            : "Hold the vacuum that your test strip was bonded at: more can print the cells through, less leaves gaps.";
        yield return clock.Unbag is { } unbag ? $"Out of the bag not before {Duration(unbag)} of vacuum." : "Out of the bag when the label says so.";
        yield return $"Trim and sand when the leftover in the cup sands to dust{(clock.FullCure is { } cure ? $"; cured through after {Duration(cure)}: heat and strings not before" : ", not before the label's cure time")}.";
        yield return PlanBonds.ClockRule;
    }

    /// <summary>The witness in words.</summary>
    /// <param name="r">The plan.</param>
    /// <param name="units">In which it is written.</param>
    /// <returns>A line.</returns>
    public static string Witness(BondResult r, UnitSystem units)
    {
        WitnessRow w = r.Witness;
        string Mass(double m) => Display.Text(m, Shown.Mass, units);
        string board = w is { Wood: { } wood, WaterPerPercent: { } water }
            ? string.Create(CultureInfo.InvariantCulture, $" One percent less moisture in the {Mass(wood)} of wood is {Mass(water)}, {100 * water / r.OneBondLine.Kept.Value:F0} % of what a bond keeps.")
            : "";
        return string.Create(CultureInfo.InvariantCulture, $"Witness: put wood without glue, {Mass(w.LeastMass)} or more, through the same bag and weigh it before and after; {100 * w.Change:0.#} % of moisture then shows as one step of the scale ({w.ScaleStep * 1000:0.###} g).{board}");
    }

    private static string Capital(string words) => char.ToUpperInvariant(words[0]) + words[1..];

    private static string Mix(BondResult r, UnitSystem units)
    {
        string Mass(double m) => Display.Text(m, Shown.Mass, units);
        BondLineRow one = r.OneBondLine;
        string parts = one is { Resin: { } resin, Hardener: { } hardener } && r.PartsByMass is { } p
            ? string.Create(CultureInfo.InvariantCulture, $": resin {Mass(resin.Mass)} and hardener {Mass(hardener.Mass)} ({p[0]:G4} : {p[1]:G4} by mass){Volumes(resin, hardener)}")
            : "";
        string bead = one is { BeadLines: { } lines, BeadLineLength: { } length }
            ? string.Create(CultureInfo.InvariantCulture, $" As bead: {lines:F1} lines of {Display.Text(length, Shown.Length, units)}.") : "";
        return $"Mixed {Mass(one.Mixed)}{parts}.{bead}";
    }

    private static string Volumes(PartRow resin, PartRow hardener) => resin.Volume is { } rv && hardener.Volume is { } hv
        ? string.Create(CultureInfo.InvariantCulture, $", or {rv * 1e6:F1} ml and {hv * 1e6:F1} ml by volume") : "";

    private static string Duration(double s) => s < 2 * Hour
        ? string.Create(CultureInfo.InvariantCulture, $"{Math.Floor(s / Minute):F0} min")
        : s < 48 * Hour
            ? string.Create(CultureInfo.InvariantCulture, $"{Math.Ceiling(s / Hour):F0} h")
            : string.Create(CultureInfo.InvariantCulture, $"{Math.Ceiling(s / Hour / 24):F0} days");
}
