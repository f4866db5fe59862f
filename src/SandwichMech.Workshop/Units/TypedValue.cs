namespace SandwichMech.Workshop.Units;

/// <summary>A value as a person typed it, in SI.</summary>
/// <param name="Value">The value in the SI unit of its <see cref="Dimension"/>; finite. Its range is not checked here.</param>
/// <param name="StandardDeviation">Standard deviation in the same SI unit; finite; 0 when no spread was typed.</param>
/// <param name="SpreadReading">How the typed spread was read, to be shown back, as
/// "± 0.05 mm read as limits: standard deviation 0.029 mm"; null when none was typed.</param>
public sealed record TypedValue(double Value, double StandardDeviation, string? SpreadReading);
