using System.Text;

namespace SandwichMech.Workshop.Units;

/// <summary>One spelling for the many in which a unit is typed.</summary>
internal static class UnitText
{
    // A space behind or before one of these separates nothing. All other spaces count: 'm in' is not 'min'.
    private const string JoinsTheNext = "/^°º˚";
    private const string JoinsTheLast = "/^²³";

    private static readonly (string From, string To)[] Spellings =
    [
        ("²", "2"), ("³", "3"), ("^", ""),
        ("µ", "u"), ("μ", "u"),
        ("″", "\""), ("”", "\""), ("“", "\""), ("''", "\""),
        ("º", "°"), ("˚", "°"), ("℃", "°C"), ("℉", "°F"),
        ("square ", "sq "), ("sq. ", "sq "), ("sq.", "sq "),
    ];

    /// <summary>The spelling under which a unit is filed: in2 for in², in^2 and sq in. Case is kept.</summary>
    internal static string Key(string typed)
    {
        var text = WithoutJoiningSpaces(typed.Trim().Replace(" per ", "/", StringComparison.Ordinal));
        foreach (var (from, to) in Spellings)
        {
            text = text.Replace(from, to, StringComparison.Ordinal);
        }

        var key = text.Contains("sq ", StringComparison.OrdinalIgnoreCase) ? string.Join('/', text.Split('/').Select(Squared)) : text;
        // A full stop after an abbreviation: 'in.', 'oz.'.
        return key.Length > 1 && key[^1] == '.' ? key[..^1] : key;
    }

    private static string Squared(string part) =>
        part.StartsWith("sq ", StringComparison.OrdinalIgnoreCase)
            ? part[3..].TrimEnd('.') switch { "inch" or "inches" => "in", "feet" or "foot" => "ft", var unit => unit } + "2"
            : part;

    private static string WithoutJoiningSpaces(string text)
    {
        var kept = new StringBuilder(text.Length);
        for (var i = 0; i < text.Length; i++)
        {
            var joins = text[i] == ' '
                && ((kept.Length > 0 && JoinsTheNext.Contains(kept[^1], StringComparison.Ordinal))
                    || (i + 1 < text.Length && JoinsTheLast.Contains(text[i + 1], StringComparison.Ordinal)));
            if (!joins)
            {
                kept.Append(text[i]);
            }
        }

        return kept.ToString();
    }
}
