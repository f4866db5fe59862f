namespace SandwichMech.Workshop.Units;

/// <summary>The units in which values are shown. What is typed may be in either at any time.</summary>
public enum UnitSystem
{
    /// <summary>Millimetres, grams, kg/m³.</summary>
    Metric,

    /// <summary>Inches, grams, lb/ft³.</summary>
    Inch,
}
