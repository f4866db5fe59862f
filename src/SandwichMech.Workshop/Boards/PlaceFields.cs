using SandwichMech.Core.Outlines;

namespace SandwichMech.Workshop.Boards;

/// <summary>Where a region lies: a rectangle, a circle, a polygon, a curve of the outline's drawing or of a drawing of its own; once, or on both sides of the centre line.</summary>
internal sealed class PlaceFields
{
    private readonly BoardField _points, _file, _part, _unit, _along, _across, _diameter, _at, _aside, _mirrored;

    internal PlaceFields(BoardTable table, string along, string across, string at, string aside)
    {
        const string Possible = "1 mm to 3 m", Usual = "5 mm to 1 m";
        _along = FieldForms.Length(table, "along", "an extent along", Possible, Usual, "Extent along the grain of a rectangle; with across and at.", along);
        _across = FieldForms.Length(table, "across", "an extent across", Possible, Usual, "Its extent across.", across);
        _diameter = FieldForms.Length(table, "diameter", "a diameter", Possible, Usual, "In place of along and across: the diameter of a circle.", across);
        _at = FieldForms.Length(table, "at", "the distance from the lower end", "-2 m to 3 m", "0 mm to 1 m", "From the board's lower end to its middle.", at);
        _aside = FieldForms.Length(table, "aside", "the distance from the centre line", "-1 m to 1 m", "-30 cm to 30 cm", "From the centre line to its middle, to the left positive (seen from outside, lower end at the foot).", aside) with { Default = "0 mm" };
        _points = new(table, "points", new PlacesKind(3, WithThickness: false),
            "In place of a rectangle: corners, each from the lower end and from the centre line (to the left positive), as [\"12 mm, 30 mm\", …].", "40 mm, 20 mm; 40 mm, -20 mm; 90 mm, 0 mm");
        _file = new(table, "file", new FileKind(),
            "In place of a rectangle: a drawing of its own in the coordinates of the outline's drawing, seen from this file; its closed line is the border.", "patch.svg");
        _part = new(table, "part", new TextKind(200, ManyLines: false), "In place of a rectangle: id or layer of a closed curve in the outline's drawing, or in that of file.", "patch");
        _unit = DrawnShape.Unit(table) with { Example = "cm" };
        _mirrored = FieldForms.YesNo(table, "mirrored", "Whether the same lies on the other side of the centre line too.");
        All = [_along, _across, _diameter, _at, _aside, _points, _file, _part, _unit, _mirrored];
        Ways = [_diameter, _points, _file, _part];
    }

    /// <summary>The fields, in the order of the file.</summary>
    internal IReadOnlyList<BoardField> All { get; }

    /// <summary>Those that stand in the place of a rectangle.</summary>
    internal IReadOnlyList<BoardField> Ways { get; }

    /// <summary>Those whose examples exclude those of others.</summary>
    internal IReadOnlyList<BoardField> Excluded => [.. Ways, _unit];

    /// <summary>The field that a wrong place is reported at.</summary>
    internal BoardField Place(ReadFields item) => new[] { _points, _file, _part, _at }.FirstOrDefault(item.IsGiven) ?? _at;

    /// <summary>The closed curves, one or two; none where it is not well given, which <see cref="Check"/> reports.</summary>
    internal IReadOnlyList<Curve> Curves(ReadFields item, ReadFields board)
    {
        if (One(item, board) is not { } one) { return []; }
        return item.Reading(_mirrored)?.Name == "yes" ? [one, one.Mapped(p => new(p.X, -p.Y)).Reversed()] : [one];
    }

    /// <summary>Reports what is missing or too much, and a curve that cannot be a region; true where nothing is wrong.</summary>
    internal bool Check(ReadFields item, ReadFields board, Findings findings)
    {
        bool isRight = true;
        BoardField[] box = [_along, _across], ways = [.. Ways.Where(item.IsGiven)];
        BoardField? way = ways.FirstOrDefault() ?? box.FirstOrDefault(item.IsGiven);
        if (way is null)
        {
            Report(_along, $"where it lies is missing: write along, across and at, or diameter and at, or points, or part, or file below this {_along.Table.Header}");
            return false;
        }

        BoardField[] apart = way == _diameter ? [.. box, _points, _file, _part] : way == _file ? [.. box, _at, _aside]
            : way == _points || way == _part ? [.. box, _diameter, _at, _aside, _points, _file, _part] : [];
        if (apart.FirstOrDefault(f => f != way && item.IsGiven(f)) is { } other)
        {
            Report(other, $"{way.Key} says already where it lies: take one of the two away");
            return false;
        }

        foreach (BoardField missing in (way == _diameter ? [_at] : way == _along || way == _across ? (BoardField[])[_along, _across, _at] : []).Where(f => !item.IsGiven(f)))
        {
            Report(way, $"needs {missing.Key} too: write {missing.Key} = {BoardText.Quoted(missing.Example)}, or what yours is, below this {missing.Table.Header}");
        }

        if (item.IsGiven(_unit) && way != _file)
        {
            Report(_unit, $"is the unit of a drawing of its own, and none is named: write {_file.Key} = {BoardText.Quoted(_file.Example)} too, or take this away");
        }

        if (way == _file)
        {
            CheckFile();
        }
        else if (item.Reading(_part)?.Name is { } part)
        {
            CheckPart(part);
        }
        else if (item.Reading(_points) is not null)
        {
            if (Polygon(item) is not { } polygon) { Report(_points, "the corners lie on one place or one line: write three or more that enclose something"); }
            else if (Crossings.Within(polygon).Count > 0) { Report(_points, "the sides cross each other: write the corners in the order in which they follow each other round the edge"); }
        }

        return isRight;

        void CheckFile()
        {
            if (item.Reading(_file)?.Name is not { } file || Ways.Append(_unit).Any(f => item.IsGiven(f) && item.Reading(f) is null)) { isRight = false; return; }
            if (board.Drawn is null)
            {
                isRight = false;
                if (!board.IsGiven(BoardFields.OutlineFile)) { Report(_file, $"lies over the outline's drawing, and none is named: write {BoardFields.OutlineFile.Key} under {BoardFields.OutlineFile.Table.Header}, or points or along, across and at here"); }
                return;
            }

            try
            {
                item.OwnBorder = DrawnShape.Over(board.Drawn, findings, file, item.Reading(_part)?.Name, item.Reading(_unit)?.Name);
            }
            catch (InputException wrong)
            {
                Report(_file, string.Join("; ", wrong.Problems.Select(p => $"{Path.GetFileName(file)}{(p.Line is { } line ? $", line {line}" : "")}: {p.Message}")));
            }
        }

        void CheckPart(string name)
        {
            if (board.Drawn is null)
            {
                if (!board.IsGiven(BoardFields.OutlineFile)) { Report(_part, $"is a curve of a drawing, and none is named: write {BoardFields.OutlineFile.Key} under {BoardFields.OutlineFile.Table.Header}, or points or along, across and at here"); }
                return;
            }

            try
            {
                board.Drawn.InsideCurve(name);
            }
            catch (InputException wrong)
            {
                Report(_part, string.Join("; ", wrong.Problems.Select(p => p.Message)));
            }
        }

        void Report(BoardField field, string message)
        {
            isRight = false;
            findings.Report(item.LineOrNull(field), field.Name, message);
        }
    }

    private Curve? One(ReadFields item, ReadFields board)
    {
        if (item.IsGiven(_file)) { return item.OwnBorder; }
        if (item.Reading(_part)?.Name is { } part) { return board.Drawn?.InsideCurve(part).Curve; }
        if (item.Reading(_points) is not null) { return Polygon(item); }
        if (Value(_at) is not { } at) { return null; }
        double aside = Value(_aside) ?? 0;
        return Value(_diameter) is { } diameter ? Shapes.Circle(new(at, aside), diameter / 2)
            : Value(_along) is { } along && Value(_across) is { } across ? Shapes.Rectangle(new(at - along / 2, aside - across / 2, at + along / 2, aside + across / 2))
            : null;

        double? Value(BoardField field) => item.Typed(field)?.Value;
    }

    // Anticlockwise, as everything here is.
    private Curve? Polygon(ReadFields item)
    {
        const double Flat = 1e-8;
        Point[] corners = [.. item.Reading(_points)!.Places.Select(p => p.At)];
        if (corners.Distinct().Count() < 3) { return null; }
        Curve polygon = Shapes.Polygon(corners);
        return Math.Abs(polygon.SignedArea) < Flat ? null : polygon.SignedArea > 0 ? polygon : polygon.Reversed();
    }
}
