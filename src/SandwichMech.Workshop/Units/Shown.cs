namespace SandwichMech.Workshop.Units;

/// <summary>A kind of value as people look at it; each has its unit and digits in either <see cref="UnitSystem"/>.</summary>
public enum Shown
{
    /// <summary>Thickness of a skin, a core, a film: m in SI; mm or in.</summary>
    Thickness,

    /// <summary>Length of a board, a span: m in SI; mm or in.</summary>
    Length,

    /// <summary>Area of a board: m² in SI; cm² or in².</summary>
    Area,

    /// <summary>Mass: kg in SI; g in both systems, as makers' scales show it.</summary>
    Mass,

    /// <summary>Mass per area: kg/m² in SI; g/m² or g/in².</summary>
    ArealDensity,

    /// <summary>Density: kg/m³ in SI; kg/m³ or lb/ft³.</summary>
    Density,

    /// <summary>Mass per length: kg/m in SI; g/m or g/in.</summary>
    LineDensity,

    /// <summary>Modulus of wood or adhesive: Pa in SI; GPa or Mpsi.</summary>
    Modulus,

    /// <summary>Stress, strength, or modulus of a core: Pa in SI; MPa or ksi.</summary>
    Stress,

    /// <summary>Pressure of a clamp or vacuum: Pa in SI; kPa or inHg.</summary>
    Pressure,

    /// <summary>Bending stiffness per width: N·m in SI; N·m or lbf·in.</summary>
    BendingStiffness,

    /// <summary>Shear stiffness per width: N/m in SI; kN/m or lbf/in.</summary>
    ShearStiffness,

    /// <summary>Frequency: Hz.</summary>
    Frequency,

    /// <summary>Angle: rad in SI; °.</summary>
    Angle,

    /// <summary>Ratio: 1 in SI; %.</summary>
    Percent,

    /// <summary>Force: N in SI; N or lbf.</summary>
    Force,

    /// <summary>Force per deflection: N/m in SI; N/mm or lbf/in.</summary>
    Stiffness,

    /// <summary>Temperature: K in SI; °C or °F.</summary>
    Temperature,
}
