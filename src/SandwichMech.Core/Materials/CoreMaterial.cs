using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Materials;

/// <summary>A core as its data sheet gives it: light, stiff through its height and in transverse shear, weak in its plane.</summary>
public sealed record CoreMaterial
{
    /// <summary>Name as the maker types it.</summary>
    public required string Name { get; init; }
    /// <summary>honeycomb, balsa or foam.</summary>
    public required string Kind { get; init; }
    /// <summary>Cell size across the flats, m; none for foam and balsa.</summary>
    public double? CellSize { get; init; }
    /// <summary>Density of the sheet, kg/m³.</summary>
    public required Estimate Density { get; init; }
    /// <summary>Transverse shear modulus in the ribbon (L) direction, Pa.</summary>
    public required Estimate ShearRibbon { get; init; }
    /// <summary>Transverse shear modulus across the ribbon (W), Pa.</summary>
    public required Estimate ShearAcross { get; init; }
    /// <summary>Compressive strength through the height, Pa, typical, where known.</summary>
    public double? CompressionStrength { get; init; }
    /// <summary>Compressive strength through the height, Pa, least that the sheet promises, where known.</summary>
    public double? CompressionStrengthMinimum { get; init; }
    /// <summary>Compressive strength of the bare sheet, no skins that hold the cell walls, Pa, typical, where known.</summary>
    public Estimate? BareStrength { get; init; }
    /// <summary>The least of it that the sheet promises, Pa, where known.</summary>
    public double? BareStrengthMinimum { get; init; }
    /// <summary>Transverse shear strength in the ribbon direction, Pa, typical, where known.</summary>
    public Estimate? ShearStrengthRibbon { get; init; }
    /// <summary>Transverse shear strength across the ribbon, Pa, typical, where known.</summary>
    public Estimate? ShearStrengthAcross { get; init; }
    /// <summary>Compressive modulus through the height, Pa, where known.</summary>
    public Estimate? CompressionModulus { get; init; }
    /// <summary>Young's modulus in the plane, Pa; 0 for honeycomb, whose walls fold.</summary>
    public required double InPlaneModulus { get; init; }
    /// <summary>Heights that are sold, m.</summary>
    public IReadOnlyList<double> Heights { get; init; } = [];
}
