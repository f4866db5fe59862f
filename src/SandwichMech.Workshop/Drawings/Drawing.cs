using SandwichMech.Core.Outlines;

namespace SandwichMech.Workshop.Drawings;

/// <summary>A closed curve of a drawing.</summary>
/// <param name="Name">Its own name, else its layer's or group's; unlike any other curve's of the drawing.</param>
/// <param name="Layer">Its layer or group; empty where it has none.</param>
/// <param name="Curve">Closed, anticlockwise, m, y upwards on the drawing.</param>
public sealed record DrawnCurve(string Name, string Layer, Curve Curve)
{
    /// <summary>Whether the user's word for a part means this curve.</summary>
    internal bool Is(string part) => string.Equals(Name, part, StringComparison.OrdinalIgnoreCase) || string.Equals(Layer, part, StringComparison.OrdinalIgnoreCase);
}

/// <summary>What is to be known of a drawing before it can be read.</summary>
public sealed record DrawingWishes
{
    /// <summary>The unit of its numbers, as "mm"; what the file says when left out.</summary>
    public string? Unit { get; init; }

    /// <summary>The unit where neither <see cref="Unit"/> nor the file says one.</summary>
    internal string? UnitIfSilent { get; init; }

    /// <summary>Whether it holds a region of a board, which may be small, and not its outline.</summary>
    internal bool IsOfRegion { get; init; }

    /// <summary>Layer or id of the outline; found by itself where the drawing leaves no choice.</summary>
    public string? Part { get; init; }

    /// <summary>Direction on the drawing from the lower end to the upper end, rad from x anticlockwise; found by itself where the outline tells.</summary>
    public double? Along { get; init; }

    /// <summary>Whether polygons are to become smooth curves through their points.</summary>
    public bool Smooth { get; init; }
}

/// <summary>A drawing as read: its closed curves, in metres.</summary>
/// <param name="Path">The file, as given.</param>
/// <param name="Format">"SVG", "DXF", "points" or "half-widths".</param>
/// <param name="Curves">Closed and named.</param>
/// <param name="Notes">What was done to it.</param>
public sealed record Drawing(string Path, string Format, IReadOnlyList<DrawnCurve> Curves, IReadOnlyList<string> Notes)
{
    /// <summary>What the reader was told.</summary>
    public required DrawingWishes Wishes { get; init; }

    /// <summary>Metres of one unit of the drawing's numbers.</summary>
    public required double Unit { get; init; }

    /// <summary>Pieces that do not close, m.</summary>
    internal IReadOnlyList<OpenPiece> Open { get; init; } = [];

    /// <summary>A place as the file's own numbers have it, for messages.</summary>
    internal Func<Point, Point> Numbers { get; init; } = p => p;
}
