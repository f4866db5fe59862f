using System.Text.Json.Serialization;
using SandwichMech.Core.Identification;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Workshop.Log;

namespace SandwichMech.Workshop.UseCases;

/// <summary>A piece in a result.</summary>
public sealed record PieceRow(
    int Number, string Kind, string Material, string Name, string? OuterWood, string? InnerWood, string? Adhesive)
{
    /// <summary>The row of a piece.</summary>
    /// <param name="p">The piece.</param>
    /// <returns>The row.</returns>
    public static PieceRow Of(Piece p) => new(p.Number, ShopLog.Word(p.Kind), p.Material, p.Name, p.OuterWood, p.InnerWood, p.Adhesive);
}

/// <summary>An entry of the log in a result.</summary>
public sealed record EntryRow(
    long Entry, string Kind, DateTimeOffset AtUtc, DateTimeOffset RecordedUtc, string AsTyped, Reading? Reading, PieceText? Text, long? Corrects, long? CorrectedBy)
{
    /// <summary>Whether the later entry takes it back instead of replacing it.</summary>
    public required bool IsWithdrawn { get; init; }

    /// <summary>The rows of a piece's entries.</summary>
    /// <param name="entries">All of them.</param>
    /// <returns>The rows.</returns>
    public static IReadOnlyList<EntryRow> Of(IReadOnlyList<LogEntry> entries) =>
    [
        .. entries.Select(e => new EntryRow(e.Number, e.Kind, e.At, e.Recorded, e.AsTyped, e.Reading, e.Text, e.Corrects, e.CorrectedBy)
        {
            IsWithdrawn = entries.Any(w => w.Corrects == e.Number && w.Kind == EntryKind.Withdrawn),
        }),
    ];
}

/// <summary>What weighing and measuring say of a piece.</summary>
public sealed record FiguresRow(
    [property: JsonPropertyName("mass_kg")] Estimate? Mass,
    [property: JsonPropertyName("length_m")] Estimate? Length,
    [property: JsonPropertyName("width_m")] Estimate? Width,
    [property: JsonPropertyName("mean_thickness_m")] Estimate? MeanThickness,
    [property: JsonPropertyName("thickness_over_places_m")] double? ThicknessOverPlaces,
    [property: JsonPropertyName("least_thickness_m")] double? LeastThickness,
    [property: JsonPropertyName("most_thickness_m")] double? MostThickness,
    int Places,
    [property: JsonPropertyName("density_kg_m3")] Estimate? Density)
{
    /// <summary>The row of some readings.</summary>
    /// <param name="figures">The figures.</param>
    /// <returns>The row.</returns>
    public static FiguresRow Of(PieceFigures figures) => new(
        figures.Mass, figures.Length, figures.Width, figures.Thickness?.Mean, figures.Thickness?.OverPlaces, figures.Thickness?.Least,
        figures.Thickness?.Most, figures.Thickness?.Places ?? 0, figures.Density);
}
