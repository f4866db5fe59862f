namespace SandwichMech.Workshop.Units;

/// <summary>What a typed value is a measure of. The SI unit that is handed on stands beside each.</summary>
public enum Dimension
{
    /// <summary>Length or thickness, m.</summary>
    Length,

    /// <summary>Area, m².</summary>
    Area,

    /// <summary>Mass, kg.</summary>
    Mass,

    /// <summary>Mass per area, kg/m².</summary>
    ArealDensity,

    /// <summary>Mass per volume, kg/m³.</summary>
    Density,

    /// <summary>Mass per length, kg/m.</summary>
    LineDensity,

    /// <summary>Pressure, stress, strength or modulus, Pa.</summary>
    Pressure,

    /// <summary>Angle, rad.</summary>
    Angle,

    /// <summary>Ratio, 1; typed in percent.</summary>
    Ratio,

    /// <summary>Frequency, Hz.</summary>
    Frequency,

    /// <summary>Force, N.</summary>
    Force,

    /// <summary>Temperature, K; its standard deviation is a difference, K.</summary>
    Temperature,

    /// <summary>Duration, s.</summary>
    Duration,
}
