using System.Text.Json.Serialization;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Workshop.UseCases;

/// <summary>Where bending waves pass the speed of sound, or whether they do; an end that is missing is one at which shear keeps them slower.</summary>
public sealed record CriticalRow(
    [property: JsonPropertyName("value_hz")] double? Value,
    [property: JsonPropertyName("low50_hz")] double? Low50,
    [property: JsonPropertyName("high50_hz")] double? High50,
    [property: JsonPropertyName("low90_hz")] double? Low90,
    [property: JsonPropertyName("high90_hz")] double? High90);

/// <summary>A layup as bending waves find it.</summary>
/// <param name="Layup">"board" or "solid top".</param>
/// <param name="RadiationAlong">√(12 D/m³), the radiation ratio of a solid plate's material.</param>
/// <param name="RadiationAcross">Across.</param>
/// <param name="CriticalAlong">Where waves along pass the speed of sound.</param>
/// <param name="CriticalAcross">Across.</param>
/// <param name="SofteningAlong">Above which shear takes more than a tenth of the stiffness along.</param>
/// <param name="SofteningAcross">Across.</param>
public sealed record WaveRow(
    string Layup,
    [property: JsonPropertyName("radiation_ratio_along_m4_per_kg_s")] Prediction RadiationAlong,
    [property: JsonPropertyName("radiation_ratio_across_m4_per_kg_s")] Prediction RadiationAcross,
    [property: JsonPropertyName("critical_frequency_along")] CriticalRow CriticalAlong,
    [property: JsonPropertyName("critical_frequency_across")] CriticalRow CriticalAcross,
    [property: JsonPropertyName("softening_frequency_along_hz")] Prediction SofteningAlong,
    [property: JsonPropertyName("softening_frequency_across_hz")] Prediction SofteningAcross);

/// <summary>Part of a mode's loss factor.</summary>
public sealed record LossRow(string Kind, double LossFactor);

/// <summary>A mode as it sounds.</summary>
/// <param name="Number">From 1.</param>
/// <param name="Frequency">Hz, in air.</param>
/// <param name="Volume">What it moves at unit modal mass.</param>
/// <param name="LossFactor">One over Q.</param>
/// <param name="Losses">By kind, at the medians.</param>
public sealed record SoundModeRow(
    int Number,
    [property: JsonPropertyName("frequency_hz")] Prediction Frequency,
    [property: JsonPropertyName("volume_m2_per_sqrt_kg")] Prediction Volume,
    Prediction LossFactor,
    IReadOnlyList<LossRow> Losses);

/// <summary>A point of a curve, with half and nine tenths of drawn boards.</summary>
public sealed record MobilityBand(
    [property: JsonPropertyName("frequency_hz")] double Frequency,
    [property: JsonPropertyName("magnitude_s_per_kg")] double Magnitude,
    [property: JsonPropertyName("low50_s_per_kg")] double Low50,
    [property: JsonPropertyName("high50_s_per_kg")] double High50,
    [property: JsonPropertyName("low90_s_per_kg")] double Low90,
    [property: JsonPropertyName("high90_s_per_kg")] double High90);

/// <summary>The same of the level above the solid top.</summary>
public sealed record LevelBand(
    [property: JsonPropertyName("frequency_hz")] double Frequency,
    [property: JsonPropertyName("level_db")] double Level,
    [property: JsonPropertyName("low50_db")] double Low50,
    [property: JsonPropertyName("high50_db")] double High50,
    [property: JsonPropertyName("low90_db")] double Low90,
    [property: JsonPropertyName("high90_db")] double High90);

/// <summary>One board on the frame.</summary>
/// <param name="Name">"board" or "solid top".</param>
/// <param name="SteadyVolume">That a newton at the bridge pushes aside, m³/N.</param>
/// <param name="TypicalMobility">Geometric mean of the mobility at the bridge over the curve.</param>
/// <param name="TypicalVolumeVelocity">Geometric mean of the volume velocity for a newton at the bridge, up to where it tells loudness.</param>
/// <param name="Modes">Lowest first.</param>
/// <param name="Mobility">At the bridge, over frequency.</param>
public sealed record SoundingRow(
    string Name,
    [property: JsonPropertyName("steady_volume_m3_per_n")] Prediction SteadyVolume,
    [property: JsonPropertyName("typical_mobility_s_per_kg")] Prediction TypicalMobility,
    [property: JsonPropertyName("typical_volume_velocity_m3_per_n_s")] Prediction TypicalVolumeVelocity,
    IReadOnlyList<SoundModeRow> Modes,
    IReadOnlyList<MobilityBand> Mobility);

/// <summary>How much louder the board is than the solid top over a band, for the same force.</summary>
public sealed record LevelRow(
    [property: JsonPropertyName("low_hz")] double Low,
    [property: JsonPropertyName("high_hz")] double High,
    [property: JsonPropertyName("level_db")] Prediction Level);

/// <summary>The board beside the solid top, measured by how much two that are built alike differ.</summary>
/// <param name="Level">Of the board above the solid top up to the limit of the volume velocity, dB.</param>
/// <param name="LevelScatter">Standard deviation of that difference among drawn pairs, dB.</param>
/// <param name="FirstTone">First tone of the board over the solid top's, less one.</param>
/// <param name="FirstToneScatter">Standard deviation of that.</param>
/// <param name="Words">Whether either is larger than what the maker's own scatter brings.</param>
public sealed record ScatterRow(
    [property: JsonPropertyName("level_db")] double Level,
    [property: JsonPropertyName("level_scatter_db")] double LevelScatter,
    [property: JsonPropertyName("first_tone_relative")] double FirstTone,
    [property: JsonPropertyName("first_tone_scatter_relative")] double FirstToneScatter,
    string Words);

/// <summary>First mode and air of a box.</summary>
/// <param name="Volume">Of the box, m³: outline times depth.</param>
/// <param name="Helmholtz">Air and hole with a rigid top, Hz; 0 without a hole.</param>
/// <param name="HoleShut">The top on the box's air, hole shut, Hz.</param>
/// <param name="Lower">Both together, the lower, Hz.</param>
/// <param name="Upper">The upper, Hz.</param>
public sealed record BoxRow(
    [property: JsonPropertyName("volume_m3")] double Volume,
    [property: JsonPropertyName("helmholtz_hz")] Prediction Helmholtz,
    [property: JsonPropertyName("hole_shut_hz")] Prediction HoleShut,
    [property: JsonPropertyName("lower_hz")] Prediction Lower,
    [property: JsonPropertyName("upper_hz")] Prediction Upper);

/// <summary>What is heard in the files, and from when.</summary>
public sealed record HeardRow([property: JsonPropertyName("from_s")] double From, [property: JsonPropertyName("to_s")] double To, string Heard);

/// <summary>What `sound` answers.</summary>
public sealed record SoundResult
{
    /// <summary>The board's name.</summary>
    public required string Board { get; init; }
    /// <summary>How the edge is held.</summary>
    public required string Edge { get; init; }
    /// <summary>What is in the figures and what is judgement.</summary>
    public required string Means { get; init; }
    /// <summary>How the intervals were found.</summary>
    public required string Intervals { get; init; }
    /// <summary>What they say nothing about.</summary>
    public required string CannotTell { get; init; }
    /// <summary>Up to where volume velocity alone says how loud a board is, Hz.</summary>
    [JsonPropertyName("volume_velocity_limit_hz")] public required double Limit { get; init; }
    /// <summary>Thickness of the solid top, m; nothing where none equals the board.</summary>
    [JsonPropertyName("solid_thickness_m")] public required double? SolidThickness { get; init; }
    /// <summary>Where that thickness is from.</summary>
    public required string SolidFrom { get; init; }
    /// <summary>Layups: the board, and the solid top where there is one.</summary>
    public required IReadOnlyList<WaveRow> Layups { get; init; }
    /// <summary>The same on the frame.</summary>
    public required IReadOnlyList<SoundingRow> Boards { get; init; }
    /// <summary>Levels above the solid top; empty without one.</summary>
    public required IReadOnlyList<LevelRow> Levels { get; init; }
    /// <summary>Level above the solid top over frequency; empty without one.</summary>
    public required IReadOnlyList<LevelBand> LevelCurve { get; init; }
    /// <summary>The difference beside the scatter; nothing without a solid top.</summary>
    public required ScatterRow? Scatter { get; init; }
    /// <summary>With a box, where its depth is given.</summary>
    public required BoxRow? Box { get; init; }
    /// <summary>What is heard when in the sounds; empty where none were wanted.</summary>
    public required IReadOnlyList<HeardRow> Heard { get; init; }
    /// <summary>Boards drawn for the intervals.</summary>
    public required int DrawnBoards { get; init; }
    /// <summary>Which boards were drawn.</summary>
    public required int Seed { get; init; }
    /// <summary>What is unusual in the board file.</summary>
    public required IReadOnlyList<string> Warnings { get; init; }
    /// <summary>How typed spreads were read.</summary>
    public required IReadOnlyList<string> ReadBack { get; init; }
}
