namespace SandwichMech.Workshop.Units;

/// <summary>How a typed spread is meant.</summary>
/// <param name="Divisor">What its half-width is divided by to give the standard deviation.</param>
/// <param name="Words">How it was read, for the user.</param>
internal readonly record struct SpreadKind(double Divisor, string Words)
{
    /// <summary>No word behind it: limits, all values between them equally likely; sigma = a/√3 (JCGM 100:2008, 4.3.7).</summary>
    internal static readonly SpreadKind Limits = new(Math.Sqrt(3), "limits");

    /// <summary>'sd' behind it: a standard deviation.</summary>
    internal static readonly SpreadKind Standard = new(1, "a standard deviation");

    /// <summary>'k=2' behind it: an expanded uncertainty (JCGM 100:2008, 6.2.1).</summary>
    internal static SpreadKind Expanded(NumberReading k) => new(k.Value, $"expanded with k = {k.Text}");
}

/// <summary>The part of a typed value behind its ±: a number, mostly a unit, perhaps 'sd' or 'k=2'.</summary>
/// <param name="Number">The half-width.</param>
/// <param name="UnitText">The unit as typed; empty when there was none.</param>
/// <param name="Kind">How the half-width is meant.</param>
/// <param name="Problem">Why it was not read; null when it was.</param>
internal readonly record struct Spread(NumberReading Number, string UnitText, SpreadKind Kind, string? Problem)
{
    /// <summary>Reads a spread.</summary>
    /// <param name="text">What stands behind ±, on one line.</param>
    internal static Spread Read(string text)
    {
        var (body, kind, problem) = SplitKind(text);
        if (problem is not null)
        {
            return Refused(problem);
        }

        if (!NumberReader.BeginsWithNumber(body))
        {
            return Refused("a number is missing behind ±: write for example ± 0.05 mm or ± 5 %");
        }

        var number = NumberReader.Read(body);
        if (number.Problem is not null)
        {
            return Refused(number.Problem);
        }

        return number.Value > 0
            ? new(number, number.Rest, kind, null)
            : Refused($"a spread of {TypedText.Short(number.Text)} is not greater than 0: write for example ± 0.05 mm, or leave it out");
    }

    private static Spread Refused(string problem) => new(default, "", default, problem);

    /// <summary>Takes 'sd' or 'k=2', also in brackets, from the end.</summary>
    private static (string Body, SpreadKind Kind, string? Problem) SplitKind(string text)
    {
        var bare = text.EndsWith(')') && text.LastIndexOf('(') is >= 0 and var bracket
            ? text[..bracket] + " " + text[(bracket + 1)..^1].Trim()
            : text;
        if (bare.EndsWith("sd", StringComparison.OrdinalIgnoreCase) && IsWord(bare, bare.Length - 2))
        {
            return (bare[..^2].Trim(), SpreadKind.Standard, null);
        }

        var equals = bare.LastIndexOf('=');
        var k = equals < 0 ? -1 : bare[..equals].TrimEnd().Length - 1;
        if (k < 0 || bare[k] is not ('k' or 'K') || !IsWord(bare, k))
        {
            return (text, SpreadKind.Limits, null);
        }

        var factor = bare[(equals + 1)..].Trim();
        var number = NumberReader.BeginsWithNumber(factor) ? NumberReader.Read(factor) : NumberReading.Refused("");
        return number is { Problem: null, Rest: "", Value: > 0 }
            ? (bare[..k].Trim(), SpreadKind.Expanded(number), null)
            : ("", default, $"{TypedText.Quote(bare[k..])} is no coverage factor: write for example k=2 at the end");
    }

    private static bool IsWord(string text, int start) => start == 0 || !char.IsLetter(text[start - 1]);
}
