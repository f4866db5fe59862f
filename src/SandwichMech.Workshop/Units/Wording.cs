namespace SandwichMech.Workshop.Units;

/// <summary>What messages call a dimension.</summary>
/// <param name="Is">What a unit of it measures: 'a mass'.</param>
/// <param name="Wanted">What a field asks for.</param>
/// <param name="Many">The plural, at the beginning of a clause.</param>
/// <param name="Example">A value that could be meant.</param>
internal sealed record Words(string Is, string Wanted, string Many, string Example);

/// <summary>The wording of problems about units.</summary>
internal static class Wording
{
    internal static Words For(Dimension dimension) => dimension switch
    {
        Dimension.Length => new("a length", "a thickness or length", "lengths", "0.7 mm"),
        Dimension.Area => new("an area", "an area", "areas", "1400 cm²"),
        Dimension.Mass => new("a mass", "a mass", "masses", "12.5 g"),
        Dimension.ArealDensity => new("a mass per area", "a mass per area", "masses per area", "50 g/m²"),
        Dimension.Density => new("a density", "a density", "densities", "400 kg/m³"),
        Dimension.LineDensity => new("a mass per length", "a mass per length", "masses per length", "5 g/m"),
        Dimension.Pressure => new("a pressure or modulus", "a pressure or modulus", "pressures and moduli", "10 GPa or 80 kPa"),
        Dimension.Angle => new("an angle", "an angle", "angles", "45°"),
        Dimension.Ratio => new("a percentage", "a percentage", "ratios", "50 %"),
        Dimension.Frequency => new("a frequency", "a frequency", "frequencies", "180 Hz"),
        Dimension.Force => new("a force", "a force", "forces", "10 N"),
        Dimension.Temperature => new("a temperature", "a temperature", "temperatures", "20 °C"),
        Dimension.Duration => new("a time", "a time", "times", "30 min"),
        _ => throw new ArgumentOutOfRangeException(nameof(dimension), dimension, "no such dimension"),
    };

    /// <summary>A unit is missing: the number given back with units that could be meant.</summary>
    internal static string MissingUnit(NumberReading number, Dimension wanted)
    {
        var typed = number.Text;
        return "a unit is missing: write " + TypedText.Short(wanted switch
        {
            // So small a number, or a fraction, is more likely in inches than in millimetres; both are offered all the same.
            Dimension.Length when Math.Abs(number.Value) < 0.2 || typed.Contains('/', StringComparison.Ordinal) => Either(number, "in", "mm"),
            Dimension.Length => Either(number, "mm", "in"),
            Dimension.Area => Either(number, "cm²", "in²"),
            Dimension.Mass => Either(number, "g", "oz"),
            Dimension.ArealDensity => Either(number, "g/m²", "g/in²"),
            Dimension.Density => Either(number, "kg/m³", "lb/ft³"),
            Dimension.LineDensity => Either(number, "g/m", "g/in"),
            Dimension.Pressure => $"{typed} GPa or {typed} MPa for a modulus, {typed} kPa for a pressure",
            Dimension.Angle => $"{typed}° or {typed} deg",
            Dimension.Ratio when Math.Abs(number.Value) is > 0 and <= 1 =>
                $"{TypedText.Number(number.Value * 100, 6)} % or {typed} %, whichever is meant",
            Dimension.Ratio => $"{typed} %",
            Dimension.Frequency => $"{typed} Hz",
            Dimension.Force => Either(number, "N", "lbf"),
            Dimension.Temperature => Either(number, "°C", "°F"),
            Dimension.Duration => Either(number, "min", "h"),
            _ => throw new ArgumentOutOfRangeException(nameof(wanted), wanted, "no such dimension"),
        });
    }

    /// <summary>A known unit of another dimension than the wanted one.</summary>
    internal static string WrongDimension(NumberReading number, Unit typed, Dimension wanted) =>
        $"{typed.Behind(TypedText.Short(number.Text))} is {For(typed.Dimension).Is}; {For(wanted).Wanted} is wanted: write "
        + (ForceForMass(typed, wanted) is { } meant ? meant.Behind(TypedText.Short(number.Text)) : "for example " + For(wanted).Example);

    /// <summary>A text behind a number that is no known unit.</summary>
    internal static string UnknownUnit(NumberReading number, string typed, Dimension wanted)
    {
        if (KnownUnits.Find(typed, out var otherPrefix) is null && otherPrefix is not null)
        {
            return $"{TypedText.Quote(typed)} is not read, since m is a thousandth and M a million: write {otherPrefix.Name} if that is meant";
        }

        if (AfterFirstUnit(typed) is { } split)
        {
            var first = $"{TypedText.Short(number.Text)} {split.First}";
            return KnownUnits.Find(split.Left) is not null
                ? $"{TypedText.Quote($"{number.Text} {typed}")} has two units, {split.First} and {TypedText.Short(split.Left)}: write one, as {first}"
                : $"{TypedText.Quote(split.Left)} behind {first} is not understood: write one number and one unit, as {first}";
        }

        var units = KnownUnits.Of(wanted).ToList();
        var likely = Nearest.Name(typed, [.. units.Select(unit => unit.Name), .. units.SelectMany(unit => unit.Aliases ?? [])]);
        return $"{TypedText.Quote(typed)} is no unit that is known here; {For(wanted).Many} are written in "
            + string.Join(", ", units.Where(unit => unit.Listed).Select(unit => unit.Name))
            + (likely is null ? "" : $" (did you mean {likely}?)");
    }

    private static string Either(NumberReading number, string asTyped, string converted)
    {
        var first = KnownUnits.Named(asTyped);
        var second = KnownUnits.Named(converted);
        var same = second.FromSi(first.ToSi(number.Value));
        return $"{first.Behind(number.Text)} or {second.Behind(TypedText.Number(same, 3))}";
    }

    /// <summary>Scales show g and lb where gf and lbf are meant.</summary>
    private static Unit? ForceForMass(Unit typed, Dimension wanted) => (typed.Dimension, wanted) switch
    {
        (Dimension.Mass, Dimension.Force) => KnownUnits.Find(typed.Name + "f"),
        (Dimension.Force, Dimension.Mass) => KnownUnits.Find(typed.Name.TrimEnd('f')) is { Dimension: Dimension.Mass } mass ? mass : null,
        _ => null,
    };

    /// <summary>A known unit with which a text begins, and the words behind it; null when it begins with none.</summary>
    private static (string First, string Left)? AfterFirstUnit(string typed)
    {
        for (var space = typed.LastIndexOf(' '); space > 0; space = typed.LastIndexOf(' ', space - 1))
        {
            if (KnownUnits.Find(typed[..space]) is { } unit)
            {
                return (unit.Name, typed[(space + 1)..]);
            }
        }

        return null;
    }
}
