namespace SandwichMech.Workshop.Units;

/// <summary>A unit that may be typed. SI value = number · <paramref name="Times"/> / <paramref name="Over"/> + <paramref name="Offset"/>.</summary>
/// <remarks>Two factors, since 0.7 / 1000 is the double nearest to 0.0007, and 0.7 · 0.001 need not be.</remarks>
/// <param name="Name">The name that is shown.</param>
/// <param name="Dimension">What it measures.</param>
/// <param name="Times">Factor above the line.</param>
/// <param name="Over">Factor below the line.</param>
/// <param name="Offset">SI value at 0 (temperatures only).</param>
/// <param name="Aliases">Further spellings, lower case; the letters ² ³ ^ µ need none.</param>
/// <param name="PrefixCaseMatters">True when its first letter, m or M, would be another prefix in the other case.</param>
/// <param name="Listed">False when it is known but not offered in messages.</param>
internal sealed record Unit(
    string Name,
    Dimension Dimension,
    double Times,
    double Over = 1,
    double Offset = 0,
    string[]? Aliases = null,
    bool PrefixCaseMatters = false,
    bool Listed = true)
{
    internal double ToSi(double number) => (number * Times / Over) + Offset;

    internal double FromSi(double si) => (si - Offset) * Over / Times;

    /// <summary>SI size of a difference, such as a spread: no offset.</summary>
    internal double DifferenceToSi(double number) => number * Times / Over;

    internal double DifferenceFromSi(double si) => si * Over / Times;

    /// <summary>The unit written behind a number.</summary>
    internal string Behind(string number) => Behind(number, Name);

    /// <summary>A unit written behind a number: a space between, but none before the degree of an angle.</summary>
    internal static string Behind(string number, string unit) => unit switch
    {
        KnownUnits.PlainNumber => number,
        "°" => number + unit,
        _ => number + " " + unit,
    };
}
