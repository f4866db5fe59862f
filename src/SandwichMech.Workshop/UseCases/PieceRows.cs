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
    [property: JsonPropertyName("density_kg_m3")] Estimate? Density,
    GradingRow? Grading)
{
    /// <summary>The row of some readings.</summary>
    /// <param name="figures">The figures.</param>
    /// <returns>The row.</returns>
    public static FiguresRow Of(PieceFigures figures) => new(
        figures.Mass, figures.Length, figures.Width, figures.Thickness?.Mean, figures.Thickness?.OverPlaces, figures.Thickness?.Least,
        figures.Thickness?.Most, figures.Thickness?.Places ?? 0, figures.Density, GradingRow.Of(figures));
}

/// <summary>Which way a piece gets thinner, from a map of its thickness.</summary>
public sealed record GradingRow
{
    /// <summary>Rows along.</summary>
    public required int Rows { get; init; }
    /// <summary>Places across, in each row.</summary>
    public required int Places { get; init; }
    /// <summary>Change from the lower end to the upper, m.</summary>
    [JsonPropertyName("along_m")] public required double Along { get; init; }
    /// <summary>Its standard deviation, m.</summary>
    [JsonPropertyName("along_sd_m")] public required double AlongSd { get; init; }
    /// <summary>Change from the left to the right, seen from outside, m.</summary>
    [JsonPropertyName("across_m")] public required double Across { get; init; }
    /// <summary>Its standard deviation, m.</summary>
    [JsonPropertyName("across_sd_m")] public required double AcrossSd { get; init; }
    /// <summary>Change along by length; nothing while the length is not known.</summary>
    [JsonPropertyName("along_m_per_m")] public required double? AlongSlope { get; init; }
    /// <summary>Change across by length; nothing while the width is not known.</summary>
    [JsonPropertyName("across_m_per_m")] public required double? AcrossSlope { get; init; }
    /// <summary>Standard deviation of the places about the even grading, m.</summary>
    [JsonPropertyName("scatter_m")] public required double Scatter { get; init; }
    /// <summary>How much thicker the inner fields are than those at the edge, m; nothing where there are none within.</summary>
    [JsonPropertyName("middle_less_edge_m")] public required double? MiddleLessEdge { get; init; }
    /// <summary>Row of the thinnest place, from 1 at the lower end.</summary>
    public required int ThinnestRow { get; init; }
    /// <summary>Its place in the row, from 1 at the left.</summary>
    public required int ThinnestPlace { get; init; }
    /// <summary>Of the thinnest place from the lower end, m.</summary>
    [JsonPropertyName("thinnest_from_lower_end_m")] public required double? ThinnestAlong { get; init; }
    /// <summary>From the left, m.</summary>
    [JsonPropertyName("thinnest_from_left_m")] public required double? ThinnestAcross { get; init; }
    /// <summary>The map, rows from the lower end up, m.</summary>
    [JsonPropertyName("map_m")] public required IReadOnlyList<IReadOnlyList<double>> Map { get; init; }

    internal static GradingRow? Of(PieceFigures f) => f is not { Map: { } map, MapRows: { } rows } ? null : new()
    {
        Rows = rows.Count,
        Places = rows[0].Count,
        Along = map.Along.Whole,
        AlongSd = map.Along.Deviation,
        Across = map.Across.Whole,
        AcrossSd = map.Across.Deviation,
        AlongSlope = map.Along.Whole / f.Length?.Value,
        AcrossSlope = map.Across.Whole / f.Width?.Value,
        Scatter = map.Scatter,
        MiddleLessEdge = map.MiddleLessEdge,
        ThinnestRow = map.ThinRow + 1,
        ThinnestPlace = map.ThinPlace + 1,
        ThinnestAlong = f.Length?.Value * (ThicknessMap.Middle(map.ThinRow, rows.Count) + 0.5),
        ThinnestAcross = f.Width?.Value * (ThicknessMap.Middle(map.ThinPlace, rows[0].Count) + 0.5),
        Map = rows,
    };
}
