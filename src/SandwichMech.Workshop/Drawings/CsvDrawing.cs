using SandwichMech.Core.Outlines;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Drawings;

/// <summary>Reads points round the outline (x, y), or half-widths at stations along the centre line, as CSV.</summary>
/// <remarks>
/// A head line names the columns with their unit: "x_mm,y_mm", "station (in); half-width (in)"; "width" takes whole widths, a
/// third column "part" the name of each curve. Without a head line the columns are x and y. Lines that begin with # are passed over.
/// </remarks>
internal sealed class CsvDrawing
{
    // A closing line longer than this part of the size and twice any other was not meant.
    private const double LongClosing = 0.25;

    private readonly Sketch _sketch;
    private readonly char[]? _delimiters;
    private readonly Dictionary<string, List<Point>> _parts = [];
    private bool _stations, _wholeWidths, _named;

    private CsvDrawing(string path, string[] lines)
    {
        string first = lines.First(IsContent);
        _delimiters = first.Contains(';', StringComparison.Ordinal) ? [';'] : first.Contains('\t', StringComparison.Ordinal) ? ['\t'] : first.Contains(',', StringComparison.Ordinal) ? [','] : null;
        bool head = Number(Cells(first)[0]) is null;
        string[] columns = head ? Cells(first) : ["x", "y"];
        _stations = columns.Length > 1 && columns[1].Contains("width", StringComparison.OrdinalIgnoreCase);
        _wholeWidths = _stations && !columns[1].Contains("half", StringComparison.OrdinalIgnoreCase);
        _named = columns.Length > 2 && columns[2] is "part" or "name" or "layer";
        _sketch = new(path) { Format = _stations ? "half-widths" : "points" };
        int line = Array.IndexOf(lines, first) + 1;
        if (columns.Length < 2) { throw _sketch.Bad(line, "needs two columns, divided by commas, semicolons or tabs: x and y, or station and half-width; a head line such as x_mm,y_mm names them with their unit"); }
        if (head) { ReadUnit(columns, line); }
        for (int i = head ? line : line - 1; i < lines.Length; i++)
        {
            if (IsContent(lines[i])) { ReadRow(Cells(lines[i]), i + 1); }
        }
    }

    internal static Sketch Read(string path, string text)
    {
        string[] lines = text.Split('\n');
        if (!lines.Any(IsContent)) { throw new InputException(path, "holds no points: write a head line such as x_mm,y_mm and below it a point a line"); }
        var csv = new CsvDrawing(path, lines);
        if (csv._parts.Count == 0) { throw new InputException(path, "holds no points below its head line: write a point a line, x and y as numbers"); }
        foreach ((string part, List<Point> points) in csv._parts) { csv.Close(part, points); }
        return csv._sketch;
    }

    private static bool IsContent(string line) => !string.IsNullOrWhiteSpace(line) && !line.TrimStart().StartsWith('#');

    private string[] Cells(string line) => [.. line.Trim().TrimStart('\uFEFF').Split(_delimiters, _delimiters is null ? StringSplitOptions.RemoveEmptyEntries : StringSplitOptions.None).Select(cell => cell.Trim().Trim('"').Trim())];

    // Where commas do not divide the columns, they may mark decimals.
    private double? Number(string cell) => MachineNumber.Read(_delimiters is [','] ? cell : cell.Replace(',', '.'));

    private void ReadUnit(string[] columns, int line)
    {
        string?[] units = [UnitOf(columns[0]), UnitOf(columns[1])];
        if (units[0] is null && units[1] is null) { return; }
        if (units[0] != units[1]) { throw _sketch.Bad(line, $"names the unit of one column only, or two units ('{TypedText.Short(columns[0])}', '{TypedText.Short(columns[1])}'): write one unit in both, as x_mm,y_mm"); }
        _sketch.Unit = DrawingUnit.Metres(units[0]!) ?? throw _sketch.Bad(line, $"'{TypedText.Short(units[0]!)}' is no unit of length: write {DrawingUnit.Offered}, as x_mm,y_mm");
        _sketch.UnitSaid = "its head line";
    }

    // What stands behind the last "_" or blank, or in brackets: x_mm, "x mm", "x (mm)".
    private static string? UnitOf(string column)
    {
        string plain = column.TrimEnd(')', ']', ' ');
        int at = plain.LastIndexOfAny(['_', ' ', '(', '[']);
        string tail = plain[(at + 1)..].Trim();
        return at < 0 || tail is "" or "width" or "widths" or "half" ? null : tail;
    }

    private void ReadRow(string[] cells, int line)
    {
        if (cells.Length < 2 || Number(cells[0]) is not { } x || Number(cells[1]) is not { } y)
        {
            throw _sketch.Bad(line, $"'{TypedText.Short(TypedText.OneLine(string.Join(' ', cells)))}' is no row of two numbers: write {(_stations ? "a station and its half-width" : "x and y")}, with a point for decimals and without units");
        }

        string part = _named && cells.Length > 2 ? cells[2] : "";
        if (!_parts.TryGetValue(part, out List<Point>? points)) { _parts[part] = points = []; }
        if (_stations && points.Count > 0 && !(x > points[^1].X)) { throw _sketch.Bad(line, $"the station {MachineNumber.Show(x)} does not lie beyond the one before it, {MachineNumber.Show(points[^1].X)}: write the stations in rising order, each once"); }
        if (_stations && y < 0) { throw _sketch.Bad(line, $"a half-width of {MachineNumber.Show(y)} is less than 0: write what lies between centre line and edge"); }
        points.Add(new(x, _wholeWidths ? y / 2 : y));
    }

    private void Close(string part, List<Point> points)
    {
        if (points.Count < 3) { throw _sketch.Bad(null, $"has only {points.Count} {(_stations ? "stations" : "points")}{(part.Length > 0 ? $" of '{part}'" : "")}: three or more make an outline"); }
        List<Point> round = points;
        if (_stations)
        {
            round = [.. points.Select(p => p with { Y = -p.Y }), .. points.AsEnumerable().Reverse().Where(p => p.Y > 0)];
            if (!points.Exists(p => p.Y > 0)) { throw _sketch.Bad(null, "has no half-width greater than 0: write what lies between centre line and edge at each station"); }
        }

        round = [.. round.Where((p, i) => i == 0 || p != round[i - 1])];
        if (round.Count > 1 && round[^1] == round[0]) { round.RemoveAt(round.Count - 1); }
        double[] steps = [.. round.Select((p, i) => (round[(i + 1) % round.Count] - p).Norm)];
        double size = round.Aggregate(Box.Empty, (b, p) => b.With(p)).Size;
        if (!_stations && steps[^1] > LongClosing * size && steps[^1] > 2 * steps.SkipLast(1).Max())
        {
            throw _sketch.Bad(null, $"is open: from the last point to the first it is {MachineNumber.Show(steps[^1])}, more than twice any other step; give the points all round, or repeat the first point at the end if a straight line is meant");
        }

        _sketch.Add([.. round.Select((p, i) => Bezier.Line(p, round[(i + 1) % round.Count]))], null, part, null);
    }
}
