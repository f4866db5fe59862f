using System.Globalization;

namespace SandwichMech.Workshop.Drawings;

/// <summary>Numbers as programs write them into drawings: a point, no thousands, perhaps an exponent.</summary>
/// <remarks>People's numbers, with units, commas and fractions, are read in <see cref="Units"/>; a drawing's formats define their own.</remarks>
internal static class MachineNumber
{
    // Beyond this the squares in areas and distances would overflow, and no drawing goes so far.
    private const double Largest = 1e12;

    /// <summary>The number; nothing where the text is none, is not finite, or is too large for a drawing.</summary>
    internal static double? Read(ReadOnlySpan<char> text) =>
        double.TryParse(text.Trim(), NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent, CultureInfo.InvariantCulture, out double value)
            && Math.Abs(value) <= Largest ? value : null;

    /// <summary>A whole number; nothing where the text is none.</summary>
    internal static int? Whole(ReadOnlySpan<char> text) =>
        int.TryParse(text.Trim(), NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out int value) ? value : null;

    /// <summary>A number for a message.</summary>
    internal static string Show(double value) => value.ToString("G6", CultureInfo.InvariantCulture);
}
