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

    /// <summary>Speed of sound at 20 °C, m/s.</summary>
    /// <remarks>343.2 √(T/293.15 K) (ISO 9613-1:1993; from memory): 0.17 % more a degree, and some 0.1 to 0.2 % more in moist air.</remarks>
    public const double SoundSpeed = 343.2;
}
