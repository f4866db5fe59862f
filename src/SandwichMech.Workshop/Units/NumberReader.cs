using System.Globalization;

namespace SandwichMech.Workshop.Units;

/// <summary>A number at the beginning of a text.</summary>
/// <param name="Value">Its value; finite, and not 0 unless 0 was typed.</param>
/// <param name="Text">The number as typed.</param>
/// <param name="Rest">What follows it, without spaces around.</param>
/// <param name="Problem">Why it was not read; null when it was.</param>
internal readonly record struct NumberReading(double Value, string Text, string Rest, string? Problem)
{
    internal static NumberReading Refused(string problem) => new(0, "", "", problem);
}

/// <summary>
/// Reads the number with which a text begins: 0.7, 0,7, 1e-3, 3/32, 1 3/32, 1½.
/// </summary>
/// <remarks>
/// Point and comma both mark decimals, and nothing marks thousands, so whatever could be thousands is asked back.
/// double.Parse would read them by its culture or drop them without a word; it only ever sees digits, one point and an exponent here.
/// </remarks>
internal static class NumberReader
{
    private const string GroupMarks = " '’_";
    private const string VulgarFractions = "½¼¾⅛⅜⅝⅞⅓⅔";

    private static readonly (int Over, int Under)[] VulgarValues =
        [(1, 2), (1, 4), (3, 4), (1, 8), (3, 8), (5, 8), (7, 8), (1, 3), (2, 3)];

    /// <summary>True when a text begins as a number does, if a wrong one.</summary>
    internal static bool BeginsWithNumber(string text)
    {
        var at = SignEnd(text);
        return at < text.Length && (IsVulgar(text, at) || RunEnd(text, at, IsDigit) > at
            || (text[at] is '.' or ',' && RunEnd(text, at + 1, IsDigit) > at + 1));
    }

    /// <summary>Reads the number at the beginning of a text on one line that <see cref="BeginsWithNumber"/>.</summary>
    internal static NumberReading Read(string text)
    {
        var start = SignEnd(text);
        var reading = ReadMagnitude(text, start);
        if (reading.Problem is not null)
        {
            return reading;
        }

        if (!double.IsFinite(reading.Value))
        {
            return NumberReading.Refused($"{TypedText.Short(reading.Text)} is too large a number to be meant: check its digits and its exponent");
        }

        if (reading.Value == 0 && reading.Text.Split('e', 'E', '/')[0].Any(c => c is (>= '1' and <= '9')))
        {
            return NumberReading.Refused($"{TypedText.Short(reading.Text)} is too small a number to be meant: check its exponent");
        }

        return reading with { Value = text[0] == '-' ? -reading.Value : reading.Value };
    }

    private static NumberReading ReadMagnitude(string text, int start)
    {
        var tokenEnd = RunEnd(text, start, c => IsDigit(c) || c is '.' or ',');
        var token = text[start..tokenEnd];
        var next = SkipSpaces(text, tokenEnd);
        if (token.All(IsDigit))
        {
            if (IsVulgar(text, next))
            {
                return Vulgar(text, start, token, next);
            }

            if (FractionAt(text, start) is { } fractionEnd)
            {
                return Fraction(text, start, start, fractionEnd, whole: 0);
            }

            if (next > tokenEnd && FractionAt(text, next) is { } mixedEnd)
            {
                return Fraction(text, start, next, mixedEnd, whole: Parse(token));
            }
        }

        if (Malformed(text, start, token, tokenEnd) is { } problem)
        {
            return NumberReading.Refused(problem);
        }

        var end = ExponentEnd(text, tokenEnd);
        return BehindNumber(text, start, end, Parse(text[start..end].Replace(',', '.')));
    }

    /// <summary>What is wrong with a run of digits, points and commas, or null.</summary>
    private static string? Malformed(string text, int start, string token, int tokenEnd)
    {
        var sign = text[..start];
        var rest = text[tokenEnd..];
        if (token == "0" && tokenEnd < text.Length && text[tokenEnd] is 'x' or 'X')
        {
            return $"{TypedText.Quote(text)} looks hexadecimal: write the number in decimal digits";
        }

        if (Grouped(text, start, tokenEnd) is { } grouped)
        {
            return grouped;
        }

        var marks = token.Count(c => c is '.' or ',');
        if (marks > 1)
        {
            return $"{TypedText.Quote(sign + token)} has more than one decimal mark: write it with one, as 1500.5";
        }

        if (!IsDigit(token[^1]))
        {
            return $"{TypedText.Quote(sign + token)} ends in a decimal mark: write {sign}{TypedText.Short(token[..^1])}";
        }

        var comma = token.IndexOf(',', StringComparison.Ordinal);
        if (comma is >= 1 and <= 3 && token.Length == comma + 4 && token[0] != '0')
        {
            var decimals = token[(comma + 1)..].TrimEnd('0');
            var small = sign + token[..comma] + (decimals.Length > 0 ? "." + decimals : "") + rest;
            var large = sign + token.Remove(comma, 1) + rest;
            return $"{TypedText.Short(text)} can be read as {TypedText.Short(small)} or as {TypedText.Short(large)}: "
                + $"write {TypedText.Short(small)} or {TypedText.Short(large)}";
        }

        return null;
    }

    /// <summary>Asks back about digits in groups of three: 1 500, 1'500, 1,500,000, 1.500,5.</summary>
    private static string? Grouped(string text, int start, int tokenEnd)
    {
        var end = tokenEnd;
        while (end + 1 < text.Length && GroupMarks.Contains(text[end], StringComparison.Ordinal) && IsDigit(text[end + 1]))
        {
            end = RunEnd(text, end + 1, c => IsDigit(c) || c is '.' or ',');
        }

        var run = text[start..end];
        var groups = run.Split([.. GroupMarks, '.', ',']);
        if (groups.Length < 2)
        {
            return null;
        }

        // The last mark is a decimal mark when the marks before it are others; then its digits are free in number.
        var marks = run.Where(c => !IsDigit(c)).ToArray();
        var decimals = marks[^1] is '.' or ',' && marks.Length > 1 && !marks.AsSpan(..^1).Contains(marks[^1]);
        var whole = decimals ? groups[..^1] : groups;
        var separators = decimals ? marks[..^1] : marks;
        var isGrouped = separators.Length > 0 && separators.All(c => c == separators[0])
            && whole[0].Length is >= 1 and <= 3 && whole[1..].All(group => group.Length == 3)
            && groups[^1].Length > 0;
        // One comma or point alone is a decimal mark, or is asked about as such.
        if (!isGrouped || (marks.Length == 1 && marks[0] is '.' or ','))
        {
            return null;
        }

        var joined = text[..start] + string.Concat(whole) + (decimals ? "." + groups[^1] : "") + text[end..];
        return $"{TypedText.Short(text)} looks as if its digits were in groups: write {TypedText.Short(joined)} if that is meant";
    }

    private static NumberReading Vulgar(string text, int start, string whole, int at)
    {
        var (over, under) = VulgarValues[VulgarFractions.IndexOf(text[at], StringComparison.Ordinal)];
        return BehindNumber(text, start, at + 1, (whole.Length > 0 ? Parse(whole) : 0) + ((double)over / under));
    }

    private static NumberReading Fraction(string text, int start, int fraction, int end, double whole)
    {
        var parts = text[fraction..end].Split('/');
        var over = Parse(parts[0].Trim());
        var under = Parse(parts[1].Trim());
        var typed = TypedText.Short(text[..end]);
        if (end < text.Length && text[end] is '.' or ',' or '/')
        {
            return NumberReading.Refused($"{TypedText.Quote(text)} is no number that is read here: write a fraction of two whole numbers, as 3/32");
        }

        if (under == 0)
        {
            return NumberReading.Refused($"{typed} divides by 0: write a fraction as 3/32");
        }

        if (fraction > start && over >= under)
        {
            return NumberReading.Refused($"{typed} has a fraction that is not less than 1: write one as 1 3/32");
        }

        return BehindNumber(text, start, end, whole + (over / under));
    }

    /// <summary>The reading, unless what follows the number is another number.</summary>
    private static NumberReading BehindNumber(string text, int start, int end, double value)
    {
        var rest = text[end..].Trim();
        var number = text[..end];
        if (rest.Length == 0)
        {
            return new(value, number, rest, null);
        }

        var dash = rest[0] is '-' or '–' or '—' ? 1
            : rest.StartsWith("to ", StringComparison.OrdinalIgnoreCase) ? 3
            : 0;
        var second = rest[dash..].TrimStart();
        if (!BeginsWithNumber(second) || second[0] is '+' or '-')
        {
            return new(value, number, rest, null);
        }

        return NumberReading.Refused(dash == 0
            ? $"{TypedText.Quote(text)} has two numbers where one is wanted: write one number and its unit"
            : NotARange(text, value, number, second, mayBeMixed: IsDigit(text[end - 1]) && text[start..end].All(IsDigit)));
    }

    private static string NotARange(string text, double low, string number, string second, bool mayBeMixed)
    {
        var high = Read(second);
        if (high.Problem is not null)
        {
            return high.Problem;
        }

        if (mayBeMixed && high.Text.Contains('/', StringComparison.Ordinal) && high.Value < 1)
        {
            return $"{TypedText.Quote(text)} is not read: write a mixed number with a space, {TypedText.Short($"{number} {second}")}";
        }

        var middle = TypedText.Number((low + high.Value) / 2, 6);
        var half = TypedText.Number(Math.Abs(high.Value - low) / 2, 6);
        return $"{TypedText.Quote(text)} looks like a range: write its middle and its limits, {TypedText.Short($"{middle} ± {half} {high.Rest}".TrimEnd())}";
    }

    /// <summary>Where a fraction of whole numbers that starts here ends, or null.</summary>
    private static int? FractionAt(string text, int start)
    {
        var over = RunEnd(text, start, IsDigit);
        var stroke = SkipSpaces(text, over);
        if (over == start || stroke >= text.Length || text[stroke] != '/')
        {
            return null;
        }

        var under = SkipSpaces(text, stroke + 1);
        var end = RunEnd(text, under, IsDigit);
        return end > under ? end : null;
    }

    private static int ExponentEnd(string text, int at)
    {
        if (at >= text.Length || text[at] is not ('e' or 'E'))
        {
            return at;
        }

        var digits = at + 1 < text.Length && text[at + 1] is '+' or '-' ? at + 2 : at + 1;
        var end = RunEnd(text, digits, IsDigit);
        return end > digits ? end : at;
    }

    private static double Parse(string digits) =>
        double.Parse(digits, NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent, CultureInfo.InvariantCulture);

    private static bool IsDigit(char c) => char.IsAsciiDigit(c);

    private static bool IsVulgar(string text, int at) =>
        at < text.Length && VulgarFractions.Contains(text[at], StringComparison.Ordinal);

    private static int SignEnd(string text) => text.Length > 0 && text[0] is '+' or '-' ? 1 : 0;

    private static int SkipSpaces(string text, int at) => RunEnd(text, at, c => c == ' ');

    private static int RunEnd(string text, int at, Func<char, bool> belongs)
    {
        while (at < text.Length && belongs(text[at]))
        {
            at++;
        }

        return at;
    }
}
