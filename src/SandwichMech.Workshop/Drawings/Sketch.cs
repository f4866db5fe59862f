using SandwichMech.Core.Outlines;

namespace SandwichMech.Workshop.Drawings;

/// <summary>A curve as it stands in a drawing file, y upwards, in the drawing's unit.</summary>
/// <param name="Curve">Open or closed.</param>
/// <param name="Id">Its own name; nothing where it has none.</param>
/// <param name="Group">Its layer or group; empty where it has none. Only pieces of one group are joined.</param>
internal sealed record Stroke(Curve Curve, string? Id, string Group)
{
    internal string Called => Id ?? Group;
}

/// <summary>What a reader finds in a drawing file.</summary>
/// <param name="path">The file, as the user knows it.</param>
internal sealed class Sketch(string path)
{
    // More would take minutes to join and tell apart; an outline has some tens.
    private const int MostSegments = 10_000;

    private readonly SortedDictionary<string, int> _leftOut = new(StringComparer.Ordinal);
    private int _segments;

    internal string Path => path;

    /// <summary>"SVG", "DXF", "points" or "half-widths".</summary>
    internal required string Format { get; init; }

    internal List<Stroke> Strokes { get; } = [];

    /// <summary>Metres of one unit of the drawing; nothing where the file does not say.</summary>
    internal double? Unit { get; set; }

    /// <summary>Where the unit comes from, for notes.</summary>
    internal string UnitSaid { get; set; } = "";

    /// <summary>From the sketch's coordinates to the numbers in the file, for messages.</summary>
    internal Affine Numbers { get; set; } = Affine.Identity;

    internal List<string> Notes { get; } = [];

    /// <summary>What was met and not read, as "3 TEXT".</summary>
    internal IEnumerable<string> LeftOut => _leftOut.Select(kind => $"{kind.Value} {kind.Key}");

    internal void LeaveOut(string kind) => _leftOut[kind] = _leftOut.GetValueOrDefault(kind) + 1;

    internal void Note(string note)
    {
        if (!Notes.Contains(note)) { Notes.Add(note); }
    }

    /// <summary>Takes segments that follow on each other; none, or such as have no length, are passed over.</summary>
    internal void Add(IReadOnlyList<Bezier> segments, string? id, string group, int? line)
    {
        Bezier[] real = [.. segments.Where(s => s.Hull.Size > 0)];
        if (real.Length == 0) { return; }
        _segments += real.Length;
        if (_segments > MostSegments)
        {
            throw Bad(line, $"has more than {MostSegments} lines and curves: leave in the drawing only the outline and what belongs to it, or simplify it");
        }

        Curve curve;
        try
        {
            curve = new(real);
        }
        catch (ArgumentException)
        {
            throw Bad(line, "has coordinates that are too far out for a drawing: look for a wrong number or scale");
        }

        Strokes.Add(new(curve, id, group));
    }

    /// <summary>One problem of the file.</summary>
    internal InputException Bad(int? line, string message) => new([new(path, line, null, message)]);
}
