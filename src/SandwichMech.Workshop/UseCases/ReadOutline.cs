using System.Text.Json.Serialization;
using SandwichMech.Core.Outlines;
using SandwichMech.Workshop.Drawings;

namespace SandwichMech.Workshop.UseCases;

/// <summary>A width and where it is.</summary>
public sealed record WidthRow(
    [property: JsonPropertyName("at_m")] double At,
    [property: JsonPropertyName("width_m")] double Width);

/// <summary>A curve inside the outline.</summary>
public sealed record InsideRow(
    string Name,
    string Layer,
    [property: JsonPropertyName("area_m2")] double Area,
    [property: JsonPropertyName("from_m")] double From,
    [property: JsonPropertyName("to_m")] double To,
    [property: JsonPropertyName("width_m")] double Width);

/// <summary>What `outline` answers. Distances along the board are from its lower end.</summary>
public sealed record OutlineResult
{
    /// <summary>The drawing's file name.</summary>
    public required string Drawing { get; init; }
    /// <summary>"SVG", "DXF", "points" or "half-widths".</summary>
    public required string Format { get; init; }
    /// <summary>The curve that was taken.</summary>
    public required string Outline { get; init; }
    /// <summary>Area within the outline, holes not taken off, m².</summary>
    [JsonPropertyName("area_m2")] public required double Area { get; init; }
    /// <summary>Along the grain, m.</summary>
    [JsonPropertyName("length_m")] public required double Length { get; init; }
    /// <summary>Largest width, m.</summary>
    [JsonPropertyName("width_m")] public required double Width { get; init; }
    /// <summary>All round, m.</summary>
    [JsonPropertyName("perimeter_m")] public required double Perimeter { get; init; }
    /// <summary>Widest place of the lower bout.</summary>
    public required WidthRow LowerBout { get; init; }
    /// <summary>Narrowest place; nothing where there is no waist.</summary>
    public required WidthRow? Waist { get; init; }
    /// <summary>Widest place of the upper bout; nothing where there is no waist.</summary>
    public required WidthRow? UpperBout { get; init; }
    /// <summary>Most that one side differs from the other one's mirror image, m.</summary>
    [JsonPropertyName("sides_differ_m")] public required double SidesDiffer { get; init; }
    /// <summary>Closed curves inside the outline.</summary>
    public required IReadOnlyList<InsideRow> Inside { get; init; }
    /// <summary>What was done to the drawing, and what is unusual about it.</summary>
    public required IReadOnlyList<string> Notes { get; init; }
}

/// <summary>The result and the curves that it came from, which the picture needs.</summary>
/// <param name="Result">What is shown and written as JSON.</param>
/// <param name="Drawn">The curves.</param>
public sealed record OutlineAnswer(OutlineResult Result, DrawnOutline Drawn);

/// <summary>Checks a drawing before a board uses it.</summary>
public static class ReadOutline
{
    /// <summary>Reads and measures.</summary>
    /// <param name="path">The drawing.</param>
    /// <param name="wishes">What the user says of it.</param>
    /// <exception cref="InputException">The drawing cannot be read or used.</exception>
    public static OutlineAnswer Run(string path, DrawingWishes wishes)
    {
        DrawnOutline drawn = DrawnOutline.Of(DrawingFiles.Read(path, wishes));
        OutlineMeasures m = drawn.Measures;
        return new(new()
        {
            Drawing = Path.GetFileName(path),
            Format = drawn.Drawing.Format,
            Outline = drawn.Name,
            Area = drawn.Area,
            Length = m.Length,
            Width = m.Width,
            Perimeter = drawn.Outline.TotalLength,
            LowerBout = new(m.LowerBout.At, m.LowerBout.Width),
            Waist = Row(m.Waist),
            UpperBout = Row(m.UpperBout),
            SidesDiffer = drawn.Unlikeness,
            Inside = [.. drawn.Inside.Select(Inside)],
            Notes = drawn.Notes,
        }, drawn);
    }

    private static WidthRow? Row(WidthAt? width) => width is null ? null : new(width.At, width.Width);

    private static InsideRow Inside(DrawnCurve c)
    {
        Box box = c.Curve.Bounds();
        return new(c.Name, c.Layer, c.Curve.SignedArea, box.MinX, box.MaxX, box.MaxY - box.MinY);
    }
}
