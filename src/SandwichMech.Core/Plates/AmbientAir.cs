namespace SandwichMech.Core.Plates;

/// <summary>The air of a workshop.</summary>
public static class AmbientAir
{
    /// <summary>Density at 20 °C and 101.325 kPa, kg/m³.</summary>
    /// <remarks>
    /// CIPM-2007 (Picard, Davis, Glaser &amp; Fujii 2008, Metrologia 45, 149–155) gives 1.2046 for dry air and 1.1993 at 50 % humidity. Warm rooms
    /// and weather move it by some 3 %, and a frequency by some 0.2 %; at 1500 m of height it is 17 % less.
    /// </remarks>
    public const double Density = 1.2;
}
