namespace SandwichMech.Workshop.Units;

/// <summary>
/// The one reader of values that people type: in board files, on the command line, at prompts, on the page, in tables.
/// </summary>
/// <remarks>
/// A value is a sign, a number (0.7, 0,7, 1e-3, 3/32, 1 3/32, 1½), a unit, and perhaps a spread
/// (± 0.05 mm, +/- 5 %, with 'sd' or 'k=2' behind it). It does not depend on the culture. What could be read in two ways,
/// as 1,500 mm, is refused with both readings. Every result is finite. Ranges are the caller's to check.
/// </remarks>
public static class TypedValues
{
    // Longer texts are no values; a limit also keeps the work for each small.
    private const int LongestText = 200;

    /// <summary>Reads a typed value.</summary>
    /// <param name="text">What was typed.</param>
    /// <param name="wanted">What it has to be a measure of.</param>
    /// <param name="fixedUnit">The unit shown beside the field or in the column's head; only with it may a number stand bare.
    /// "1" for a field that holds a plain number, such as a Poisson ratio.</param>
    /// <returns>The value and its standard deviation in SI, or a problem in one line.</returns>
    /// <exception cref="ArgumentException"><paramref name="fixedUnit"/> is no unit of <paramref name="wanted"/>.</exception>
    public static ReadResult Read(string text, Dimension wanted, string? fixedUnit = null)
    {
        ArgumentNullException.ThrowIfNull(text);
        var shown = fixedUnit is null ? null : FixedUnit(fixedUnit, wanted);
        var line = TypedText.OneLine(text);
        if (Unreadable(line) is { } unreadable)
        {
            return ReadResult.Refused($"{unreadable}: write for example {Wording.For(wanted).Example}");
        }

        var sides = line.Split('±', StringSplitOptions.TrimEntries);
        if (sides.Length > 2)
        {
            return ReadResult.Refused($"{TypedText.Quote(line)} has more than one ±: write one spread, as 0.76 mm ± 0.05 mm");
        }

        if (!NumberReader.BeginsWithNumber(sides[0]))
        {
            return ReadResult.Refused(NoNumber(sides, wanted));
        }

        var number = NumberReader.Read(sides[0]);
        if (number.Problem is not null)
        {
            return ReadResult.Refused(number.Problem);
        }

        return sides.Length == 1 ? WithoutSpread(number, wanted, shown) : WithSpread(number, Spread.Read(sides[1]), wanted, shown);
    }

    /// <summary>Reads a mixing ratio of two parts, such as 100:30.</summary>
    /// <param name="text">What was typed.</param>
    /// <returns>Both parts, positive and finite, or a problem in one line.</returns>
    public static PartsResult ReadParts(string text)
    {
        const string Example = "write two parts, as 100:30";
        ArgumentNullException.ThrowIfNull(text);
        var line = TypedText.OneLine(text);
        if (Unreadable(line) is { } unreadable)
        {
            return new(0, 0, $"{unreadable}: {Example}");
        }

        var sides = line.Split(':', StringSplitOptions.TrimEntries);
        if (sides.Length != 2)
        {
            return new(0, 0, $"{TypedText.Quote(line)} is no ratio of two parts: {Example}");
        }

        Span<double> parts = stackalloc double[2];
        for (var i = 0; i < 2; i++)
        {
            if (!NumberReader.BeginsWithNumber(sides[i]))
            {
                return new(0, 0, $"{TypedText.Quote(line)} lacks a number on one side of the colon: {Example}");
            }

            var number = NumberReader.Read(sides[i]);
            if (number.Problem is not null)
            {
                return new(0, 0, number.Problem);
            }

            if (number.Rest.Length > 0)
            {
                return new(0, 0, $"{TypedText.Quote(number.Rest)} behind {TypedText.Short(number.Text)} is not read: {Example}, without units");
            }

            if (number.Value <= 0)
            {
                return new(0, 0, $"the part {TypedText.Short(number.Text)} is not greater than 0: {Example}");
            }

            parts[i] = number.Value;
        }

        return new(parts[0], parts[1], null);
    }

    /// <summary>The units in which a dimension may be typed, the usual one first; for help texts and completions.</summary>
    /// <param name="dimension">The dimension.</param>
    /// <returns>Names that <see cref="Read"/> accepts behind a number.</returns>
    public static IReadOnlyList<string> UnitNames(Dimension dimension) =>
        [.. KnownUnits.Of(dimension).Select(unit => unit.Name)];

    private static Unit FixedUnit(string fixedUnit, Dimension wanted)
    {
        if (fixedUnit == KnownUnits.PlainNumber && wanted == Dimension.Ratio)
        {
            return KnownUnits.Plain;
        }

        return KnownUnits.Find(fixedUnit) is { } unit && unit.Dimension == wanted
            ? unit
            : throw new ArgumentException($"'{fixedUnit}' is no unit of {Wording.For(wanted).Is}", nameof(fixedUnit));
    }

    private static string? Unreadable(string line) => line switch
    {
        "" => "nothing is written here",
        { Length: > LongestText } => $"{TypedText.Quote(line)} is too long for a value",
        _ when line.Any(c => char.IsDigit(c) && !char.IsAsciiDigit(c)) =>
            $"the digits in {TypedText.Quote(line)} are not read, only 0 to 9 are",
        _ => null,
    };

    private static string NoNumber(string[] sides, Dimension wanted)
    {
        var example = $"write for example {Wording.For(wanted).Example}";
        return sides switch
        {
            ["", _] => $"the value before ± is missing: {example}",
            [var unit, ..] when KnownUnits.Find(unit) is not null => $"a number is missing before {TypedText.Quote(unit)}: {example}",
            _ => $"{TypedText.Quote(sides[0])} does not begin with a number: {example}",
        };
    }

    private static ReadResult WithoutSpread(NumberReading number, Dimension wanted, Unit? shown)
    {
        var (unit, problem) = UnitOf(number, number.Rest, wanted, shown);
        return unit is null ? ReadResult.Refused(problem) : Finite(number, unit.ToSi(number.Value), 0, null);
    }

    private static ReadResult WithSpread(NumberReading number, Spread spread, Dimension wanted, Unit? shown)
    {
        if (spread.Problem is not null)
        {
            return ReadResult.Refused(spread.Problem);
        }

        var percent = KnownUnits.Find(spread.UnitText) is { Dimension: Dimension.Ratio };
        // In '50 ± 5 %' of a ratio the per cent belongs to both; in '0.76 ± 5 %' of anything else it cannot.
        var ofTheValue = percent && (wanted != Dimension.Ratio || (number.Rest.Length == 0 && shown == KnownUnits.Plain));
        var bothInOne = number.Rest.Length == 0 && spread.UnitText.Length > 0 && !ofTheValue;
        var (unit, problem) = UnitOf(number, bothInOne ? spread.UnitText : number.Rest, wanted, shown);
        if (unit is null)
        {
            return ReadResult.Refused(problem);
        }

        if (ofTheValue)
        {
            return OfTheValue(number, unit, spread);
        }

        // A bare spread takes the field's unit, unless the value has another: then it could be either.
        var spreadShown = number.Rest.Length == 0 || unit == shown ? shown : null;
        if (spread.UnitText.Length == 0 && spreadShown is null)
        {
            return ReadResult.Refused($"the spread lacks a unit: write ± {unit.Behind(TypedText.Short(spread.Number.Text))} if that is meant");
        }

        var (spreadUnit, spreadProblem) = UnitOf(spread.Number, spread.UnitText, wanted, spreadShown);
        return spreadUnit is null ? ReadResult.Refused(spreadProblem) : InItsUnit(number, unit, spread, spreadUnit);
    }

    /// <summary>A spread in per cent of the value.</summary>
    private static ReadResult OfTheValue(NumberReading number, Unit unit, Spread spread)
    {
        var typed = $"± {TypedText.Short(spread.Number.Text)} %";
        if (unit.Dimension == Dimension.Temperature)
        {
            return ReadResult.Refused($"{typed} of a temperature means nothing: write for example ± 1 °C");
        }

        if (number.Value == 0)
        {
            return ReadResult.Refused($"{typed} of 0 is no spread: write it in {unit.Name}");
        }

        var deviation = Math.Abs(number.Value) * spread.Number.Value / 100 / spread.Kind.Divisor;
        return Finite(
            number,
            unit.ToSi(number.Value),
            unit.DifferenceToSi(deviation),
            $"{typed} of {unit.Behind(TypedText.Short(number.Text))} read as {spread.Kind.Words}: {(spread.Kind.Divisor == 1 ? "" : "standard deviation ")}{unit.Behind(TypedText.Number(deviation, 2))}");
    }

    private static ReadResult InItsUnit(NumberReading number, Unit unit, Spread spread, Unit spreadUnit)
    {
        var half = spread.Number.Value;
        var deviation = half / spread.Kind.Divisor;
        // Per cent of a ratio could be taken for a part of it, so the ends are shown.
        var ends = spreadUnit == KnownUnits.Named("%") && unit == spreadUnit
            ? $" ({TypedText.Number(number.Value - half, 6)} % to {TypedText.Number(number.Value + half, 6)} %)"
            : "";
        return Finite(
            number,
            unit.ToSi(number.Value),
            spreadUnit.DifferenceToSi(deviation),
            $"± {spreadUnit.Behind(TypedText.Short(spread.Number.Text))}{ends} read as {spread.Kind.Words}"
                + (spread.Kind.Divisor == 1 ? "" : $": standard deviation {spreadUnit.Behind(TypedText.Number(deviation, 2))}"));
    }

    /// <summary>The unit of a number, typed or shown beside the field; or a problem.</summary>
    private static (Unit? Unit, string Problem) UnitOf(NumberReading number, string typed, Dimension wanted, Unit? shown)
    {
        if (typed.Length == 0)
        {
            return shown is null ? (null, Wording.MissingUnit(number, wanted)) : (shown, "");
        }

        return KnownUnits.Find(typed) switch
        {
            null => (null, Wording.UnknownUnit(number, typed, wanted)),
            var unit when unit.Dimension != wanted => (null, Wording.WrongDimension(number, unit, wanted)),
            var unit => (unit, ""),
        };
    }

    /// <summary>The value, unless it or its spread leaves the range of a double in SI.</summary>
    private static ReadResult Finite(NumberReading number, double value, double deviation, string? reading)
    {
        if (!double.IsFinite(value) || !double.IsFinite(deviation))
        {
            return ReadResult.Refused($"{TypedText.Short(number.Text)} or its spread is too large a number to be meant: check digits and exponent");
        }

        return (value == 0 && number.Value != 0) || (reading is not null && deviation == 0)
            ? ReadResult.Refused($"{TypedText.Short(number.Text)} or its spread is too small a number to be meant: check digits and exponent")
            : ReadResult.Read(new TypedValue(value, deviation, reading));
    }
}
