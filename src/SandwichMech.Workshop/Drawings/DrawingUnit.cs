using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Drawings;

/// <summary>Units that a drawing may be in, and which of them would make an outline of sensible size.</summary>
public static class DrawingUnit
{
    /// <summary>Shortest and longest board that is possible, m, as for a typed length.</summary>
    internal const double Shortest = 0.1, Longest = 3;

    // Common practice, no source: boards of the guitar family.
    private const double UsualShort = 0.3, UsualLong = 0.7;
    private static readonly string[] Likely = ["mm", "cm", "in", "m", "pt", "px", "thou", "ft", "µm"];

    internal static string Offered => "mm, cm, in, m, pt or px";

    /// <summary>Metres of a unit; nothing where it is no unit of length.</summary>
    /// <param name="unit">As "mm"; px is 1/96 in and pt 1/72 in.</param>
    public static double? Metres(string unit) => unit.Trim().ToUpperInvariant() switch
    {
        "PX" => 0.0254 / 96,
        "PT" => 0.0254 / 72,
        "PC" => 0.0254 / 6,
        _ => KnownUnits.Find(unit.Trim()) is { Dimension: Dimension.Length } known ? known.ToSi(1) : null,
    };

    /// <summary>The unit in which so many units are a usual board, or else a possible one; nothing where none is.</summary>
    /// <param name="length">In the drawing's numbers.</param>
    internal static string? Sensible(double length) =>
        Likely.FirstOrDefault(u => length * Metres(u)!.Value is >= UsualShort and <= UsualLong)
        ?? Likely.FirstOrDefault(u => length * Metres(u)!.Value is >= Shortest and <= Longest);

    internal static bool IsUsual(double metres) => metres is >= UsualShort and <= UsualLong;

    /// <summary>How a unit is told, in a board file and to the command.</summary>
    internal static string Told(string unit) => $"unit = \"{unit}\" in the board file, or --unit {unit}";
}
