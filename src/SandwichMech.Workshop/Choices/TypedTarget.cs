using System.Globalization;
using System.Text.RegularExpressions;
using SandwichMech.Core.Choosing;
using SandwichMech.Core.Layups;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Choices;

/// <summary>Reads a target as it is typed: "along at least solid", "mode 1 free 58 Hz to 64 Hz", "mass at most 130 g".</summary>
internal static partial class TypedTarget
{
    internal const string HowToWrite =
        "write for example \"along equal solid\", \"across at least 1.1 solid\", \"mode 1 free 58 Hz to 64 Hz\", \"mass at most 130 g\", \"ratio 8 to 12\", \"margin at least 1.5\" or \"level at least 1 dB\"";

    private const double SmallestTolerance = 1e-3, LargestTolerance = 1;

    private sealed record Kind(string Word, ChoiceFigure Figure, Dimension? Dimension, string Units, double Times, string Means);

    private static readonly Kind[] Kinds =
    [
        new("along", ChoiceFigure.StiffnessAlong, null, "N·m|Nm|N m", 1, "bending stiffness along"),
        new("across", ChoiceFigure.StiffnessAcross, null, "N·m|Nm|N m", 1, "bending stiffness across"),
        new("twist", ChoiceFigure.StiffnessTwist, null, "N·m|Nm|N m", 1, "twisting stiffness"),
        new("ratio", ChoiceFigure.StiffnessRatio, null, "", 1, "stiffness along over across"),
        new("density", ChoiceFigure.ArealDensity, Dimension.ArealDensity, "", 1, "areal density"),
        new("mass", ChoiceFigure.Mass, Dimension.Mass, "", 1, "mass"),
        new("mode", ChoiceFigure.Mode, Dimension.Frequency, "", 1, "mode"),
        new("mobility", ChoiceFigure.Mobility, null, "s/kg", 1, "mobility at the bridge"),
        new("level", ChoiceFigure.Level, null, "dB", 1, "level above the solid top"),
        new("margin", ChoiceFigure.Margin, null, "", 1, "smallest known margin"),
    ];

    /// <summary>Reads it.</summary>
    /// <param name="text">As typed.</param>
    /// <returns>The target.</returns>
    /// <exception cref="InputException">It cannot be read; the message says how to write it.</exception>
    internal static ChoiceTarget Read(string text)
    {
        string[] words = text.Split(' ', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        if (words.Length < 2) { throw Refuse(text, HowToWrite); }
        Kind kind = Kinds.FirstOrDefault(k => string.Equals(k.Word, words[0], StringComparison.OrdinalIgnoreCase))
            ?? throw Refuse(text, Nearest.Name(words[0], Kinds.Select(k => k.Word)) is { } near ? $"'{words[0]}' is no target; did you mean '{near}'?"
                : $"'{words[0]}' is no target; {string.Join(", ", Kinds.Select(k => k.Word))} are; {HowToWrite}");
        var target = new ChoiceTarget(kind.Figure);
        int at = 1;
        if (kind.Figure == ChoiceFigure.Mode)
        {
            target = target with
            {
                Mode = int.TryParse(words[1], NumberStyles.None, CultureInfo.InvariantCulture, out int number) && number is >= 1 and <= 12 ? number
                    : throw Refuse(text, $"'{words[1]}' is no number of a mode from 1 to 12: write for example \"mode 1 free 58 Hz to 64 Hz\""),
            };
            at = 2;
        }

        if (kind.Figure is ChoiceFigure.Mode or ChoiceFigure.Mobility or ChoiceFigure.Level && at < words.Length && EdgeHolds.Kind.Words.Contains(words[at]))
        {
            target = target with { Edge = EdgeHolds.Of(words[at++]) };
            if (kind.Figure != ChoiceFigure.Mode && target.Edge == EdgeHold.Free) { throw Refuse(text, "a board that lies free has no mobility or level under its strings: write rim, hinged or clamped"); }
        }

        return Bounds(text, kind, target, string.Join(' ', words[at..]));
    }

    private static ChoiceTarget Bounds(string text, Kind kind, ChoiceTarget target, string rest)
    {
        if (After(rest, "at least") is { } least)
        {
            (double value, bool solid) = Value(text, kind, least);
            return target with { Least = value, OfSolid = solid };
        }

        if (After(rest, "at most") is { } most)
        {
            (double value, bool solid) = Value(text, kind, most);
            return target with { Most = value, OfSolid = solid };
        }

        if ((After(rest, "equal to") ?? After(rest, "equal")) is { } aim)
        {
            string[] sides = aim.Split('±', 2, StringSplitOptions.TrimEntries);
            (double value, bool solid) = Value(text, kind, sides[0]);
            target = target with { Aim = value, OfSolid = solid, Tolerance = kind.Figure == ChoiceFigure.Level ? 0.5 : target.Tolerance };
            return sides.Length == 1 ? target : target with { Tolerance = Tolerance(text, kind, sides[1], value) };
        }

        string[] ends = (After(rest, "between") ?? rest).Split([" to ", " and "], 2, StringSplitOptions.TrimEntries);
        if (ends.Length != 2) { throw Refuse(text, $"says neither 'at least', 'at most', 'equal' nor FROM to TO; {HowToWrite}"); }
        ((double low, bool lowSolid), (double high, bool highSolid)) = (Value(text, kind, ends[0]), Value(text, kind, ends[1]));
        return lowSolid != highSolid ? throw Refuse(text, "give both ends in the same way, as \"along 0.9 solid to 1.1 solid\"")
            : low >= high ? throw Refuse(text, "the second value has to be larger than the first")
            : target with { Least = low, Most = high, OfSolid = lowSolid };
    }

    private static (double Value, bool Solid) Value(string text, Kind kind, string typed)
    {
        if (Solid().Match(typed) is { Success: true } solid)
        {
            if (kind.Figure is not (ChoiceFigure.StiffnessAlong or ChoiceFigure.StiffnessAcross or ChoiceFigure.StiffnessTwist or ChoiceFigure.StiffnessRatio or ChoiceFigure.ArealDensity))
            {
                throw Refuse(text, $"'solid' stands for the solid top's stiffness or areal density, and {kind.Means} has to be given as a value");
            }

            return (solid.Groups["times"].Value is { Length: > 0 } times ? Positive(text, kind, TypedValues.Read(times.TrimEnd('×', 'x', ' '), Dimension.Ratio, "1")) : 1, true);
        }

        if (kind.Dimension is { } dimension) { return (Positive(text, kind, TypedValues.Read(typed, dimension)), false); }
        string number = typed;
        if (kind.Units.Length > 0)
        {
            string? unit = kind.Units.Split('|').FirstOrDefault(u => typed.EndsWith(u, StringComparison.OrdinalIgnoreCase));
            number = unit is null ? throw Refuse(text, $"'{typed}' lacks its unit: write it in {kind.Units.Split('|')[0]}{(target(kind) ? ", or as times the solid top's (\"1.1 solid\")" : "")}") : typed[..^unit.Length].TrimEnd();
        }

        ReadResult read = TypedValues.Read(number, Dimension.Ratio, "1");
        return (kind.Figure == ChoiceFigure.Level ? read.Value?.Value ?? throw Refuse(text, read.Problem!) : Positive(text, kind, read), false);

        static bool target(Kind k) => k.Units.StartsWith("N·m", StringComparison.Ordinal);
    }

    private static double Positive(string text, Kind kind, ReadResult read) =>
        read.Value is not { } value ? throw Refuse(text, read.Problem!)
        : value.StandardDeviation > 0 ? throw Refuse(text, "takes ± behind 'equal' alone: write for example \"along equal solid ± 5 %\"")
        : value.Value > 0 && double.IsFinite(value.Value) ? value.Value
        : throw Refuse(text, $"{kind.Means} is more than 0");

    private static double Tolerance(string text, Kind kind, string typed, double aim)
    {
        if (kind.Figure == ChoiceFigure.Level)
        {
            (double db, _) = Value(text, kind, typed);
            return db > 0 ? db : throw Refuse(text, "the tolerance has to be more than 0");
        }

        ReadResult share = TypedValues.Read(typed, Dimension.Ratio);
        double tolerance = share.Value?.Value ?? (kind.Dimension is { } dimension && TypedValues.Read(typed, dimension).Value is { } own ? own.Value / aim : throw Refuse(text, share.Problem!));
        return tolerance is >= SmallestTolerance and <= LargestTolerance ? tolerance
            : throw Refuse(text, $"± {typed} is no tolerance that makes sense: between 0.1 % and 100 % is possible");
    }

    /// <summary>A target in words: "mode 1 free at least 58.0 Hz".</summary>
    internal static string Words(ChoiceTarget t, UnitSystem units) => $"{Name(t)} {Bound(t, units)}";

    /// <summary>What it speaks of: "mode 1 free".</summary>
    internal static string Name(ChoiceTarget t) =>
        string.Join(' ', new[] { Kinds.First(k => k.Figure == t.Figure).Word, t.Figure == ChoiceFigure.Mode ? t.Mode.ToString(CultureInfo.InvariantCulture) : null, t.Edge is { } e ? EdgeHolds.Name(e) : null }.OfType<string>());

    /// <summary>The same at length: "bending stiffness along".</summary>
    internal static string Means(ChoiceTarget t) => Kinds.First(k => k.Figure == t.Figure).Means;

    private static string Bound(ChoiceTarget t, UnitSystem units) =>
        t.Aim is { } aim ? $"equal {Figure(t, aim, units)} ± {(t.Figure == ChoiceFigure.Level ? $"{Plain(t.Tolerance)} dB" : $"{Plain(t.Tolerance * 100)} %")}"
        : t is { Least: { } low, Most: { } high } ? $"{Figure(t, low, units)} to {Figure(t, high, units)}"
        : t.Least is { } least ? $"at least {Figure(t, least, units)}"
        : $"at most {Figure(t, t.Most ?? double.NaN, units)}";

    /// <summary>A figure of a target with its unit.</summary>
    internal static string Figure(ChoiceTarget t, double value, UnitSystem units) => Shown(Unit(t), value, units) is var (number, unit) && unit.Length > 0 ? $"{number} {unit}" : number;

    /// <summary>The unit of a target's figure: SI, or "solid" for times the solid top's.</summary>
    internal static string Unit(ChoiceTarget t) => t.OfSolid ? OfSolid : t.Figure switch
    {
        ChoiceFigure.StiffnessAlong or ChoiceFigure.StiffnessAcross or ChoiceFigure.StiffnessTwist => Stiffness,
        ChoiceFigure.ArealDensity => Density,
        ChoiceFigure.Mass => Mass,
        ChoiceFigure.Mode => Frequency,
        ChoiceFigure.Mobility => "s/kg",
        ChoiceFigure.Level => Decibel,
        _ => "",
    };

    /// <summary>A figure of such a unit in the units that are shown.</summary>
    internal static (string Number, string Unit) Shown(string unit, double value, UnitSystem units)
    {
        Units.Shown? kind = unit switch { Stiffness => Units.Shown.BendingStiffness, Density => Units.Shown.ArealDensity, Mass => Units.Shown.Mass, Frequency => Units.Shown.Frequency, _ => null };
        return kind is { } k ? (Display.Number(value, k, units), Display.Unit(k, units))
            : unit == Decibel ? (value.ToString("+0.0;-0.0;0.0", CultureInfo.InvariantCulture), unit)
            : unit == OfSolid ? (Plain(value), unit)
            : (value.ToString("G3", CultureInfo.InvariantCulture), unit);
    }

    private const string OfSolid = "solid", Stiffness = "N·m", Density = "kg/m²", Mass = "kg", Frequency = "Hz", Decibel = "dB";

    private static string Plain(double value) => Math.Round(value, 3 - (int)Math.Ceiling(Math.Log10(Math.Abs(value) + 1e-12))).ToString("0.######", CultureInfo.InvariantCulture);

    private static string? After(string text, string words) => text.StartsWith(words + " ", StringComparison.OrdinalIgnoreCase) ? text[(words.Length + 1)..].Trim() : null;

    internal static InputException Refuse(string text, string why) => new([new("--target", null, $"'{text}'", why)]);

    [GeneratedRegex(@"^(?<times>[0-9][0-9.,]*\s*[×x]?\s+)?solid$", RegexOptions.IgnoreCase)]
    private static partial Regex Solid();
}
