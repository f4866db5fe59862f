using System.Globalization;
using System.Text;

namespace SandwichMech.Workshop.Units;

/// <summary>Typed text on one line, and quoted back in messages.</summary>
internal static class TypedText
{
    private const int LongestQuote = 60;

    /// <summary>
    /// The text on one line with single plain spaces; other minus signs, fraction strokes and ways to write ± made plain.
    /// </summary>
    internal static string OneLine(string text)
    {
        var line = new StringBuilder(text.Length);
        foreach (var character in text)
        {
            var plain = character switch
            {
                '\u2212' or '\uFF0D' => '-',
                '\u2044' or '\u2215' => '/',
                _ when char.IsWhiteSpace(character) || char.IsControl(character)
                    || char.GetUnicodeCategory(character) == UnicodeCategory.Format => ' ',
                _ => character,
            };
            if (plain != ' ' || (line.Length > 0 && line[^1] != ' '))
            {
                line.Append(plain);
            }
        }

        return line.ToString().TrimEnd()
            .Replace("+/-", "±", StringComparison.Ordinal)
            .Replace("+-", "±", StringComparison.Ordinal);
    }

    /// <summary>A text as messages show it: no more of it than fits a line.</summary>
    internal static string Short(string oneLine)
    {
        if (oneLine.Length <= LongestQuote)
        {
            return oneLine;
        }

        var end = char.IsHighSurrogate(oneLine[LongestQuote - 1]) ? LongestQuote - 1 : LongestQuote;
        return string.Concat(oneLine.AsSpan(0, end), "…");
    }

    /// <summary>A text in quotation marks.</summary>
    internal static string Quote(string oneLine) => $"'{Short(oneLine)}'";

    /// <summary>A number for a message, to so many significant digits, without an exponent where that is readable.</summary>
    internal static string Number(double value, int significant)
    {
        var text = value.ToString("G" + significant.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
        return text.Contains('E', StringComparison.Ordinal) && Math.Abs(value) is >= 1 and < 1e9
            ? value.ToString("F0", CultureInfo.InvariantCulture)
            : text;
    }
}
