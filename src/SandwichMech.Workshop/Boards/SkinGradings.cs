using SandwichMech.Core.Layups;
using SandwichMech.Core.Outlines;

namespace SandwichMech.Workshop.Boards;

/// <summary>A skin whose thickness changes from place to place: thinned towards the edge, along or across evenly, or by readings on a grid.</summary>
internal sealed class SkinGradings
{
    private const double OffsetTolerance = 1e-5;
    private readonly BoardField _edge, _fall, _lower, _upper, _left, _right, _readings;

    private SkinGradings(string name, Face face)
    {
        Face = face;
        Table = new($"{name}_graduation", $"How the {name} skin's thickness changes from place to place, in one of four ways; even when left out. In a sweep of the skin's thickness it changes in proportion.");
        const string Places = "one of four ways";
        _edge = FieldForms.Thickness(Table, "edge", "Thickness at the edge, with fall: from the skin's own thickness it falls evenly towards the edge.", "0.6 mm");
        _fall = FieldForms.Length(Table, "fall", "the width of the fall", "2 mm to 50 cm", "1 cm to 15 cm", "Width of the fall, from the edge inward.", "60 mm");
        _lower = FieldForms.Thickness(Table, "lower", $"In place of edge and fall ({Places}): thickness at the lower end; with upper, even in between.", "0.8 mm");
        _upper = FieldForms.Thickness(Table, "upper", "Thickness at the upper end.", "0.7 mm");
        _left = FieldForms.Thickness(Table, "left", $"Or ({Places}): thickness at the left, seen from outside with the lower end at the foot; with right, even in between.", "0.8 mm");
        _right = FieldForms.Thickness(Table, "right", "Thickness at the right.", "0.7 mm");
        _readings = new(Table, "readings", new PlacesKind(4, WithThickness: true),
            $"Or ({Places}): thicknesses on a grid, each as \"along, across: thickness\"; between them in proportion, beyond them as at the nearest.",
            "9 cm, 9 cm: 1 mm; 9 cm, -9 cm: 1 mm; 40 cm, 9 cm: 1 mm; 40 cm, -9 cm: 1 mm");
        Own = [_edge, _fall, _lower, _upper, _left, _right, _readings];
        Alternatives = [_lower, _upper, _left, _right, _readings];
    }

    private BoardTable Table { get; }

    private Face Face { get; }

    private BoardField[] Own { get; }

    private BoardField[] Alternatives { get; }

    private static readonly SkinGradings[] Both = [new("outer", Face.Outer), new("inner", Face.Inner)];

    /// <summary>The fields, in the order of the file.</summary>
    internal static IReadOnlyList<BoardField> Fields { get; } = [.. Both.SelectMany(g => g.Own)];

    /// <summary>Those whose examples exclude those of the others.</summary>
    internal static IReadOnlyList<BoardField> Excluded { get; } = [.. Both.SelectMany(g => g.Alternatives)];

    /// <summary>Reports what is missing or too much.</summary>
    internal static void Check(ReadFields fields, Curve? outline, Findings findings)
    {
        foreach (SkinGradings one in Both) { one.CheckOne(fields, outline, findings); }
    }

    /// <summary>The gradings as regions of the board.</summary>
    internal static IEnumerable<FiledRegion> Of(ReadFields fields, Curve outline, Func<Face, double> thickness)
    {
        foreach (SkinGradings one in Both)
        {
            if (one.Own.FirstOrDefault(fields.IsGiven) is not { } first) { continue; }
            (Curve[] borders, Func<Point, bool> inside, Func<Point, double> at) = one.Thickness(fields, outline, thickness(one.Face));
            double whole = thickness(one.Face);
            var change = new GradedSkin(one.Face, Remembered.Of(p => at(p) / whole));
            yield return new(new($"graduated {(one.Face == Face.Outer ? "outer" : "inner")} skin", borders, inside, change) { IsPart = false }, fields.LineOrNull(first), first.Name);
        }
    }

    private (Curve[] Borders, Func<Point, bool> Inside, Func<Point, double> At) Thickness(ReadFields fields, Curve outline, double middle)
    {
        Box box = outline.Bounds();
        if (Value(_edge) is { } edge && Value(_fall) is { } fall)
        {
            // Only where it falls: a section that is the same everywhere is solved faster.
            Curve[] ends = [.. Offset.Inward(outline, fall, OffsetTolerance)];
            return (ends, p => !ends.Any(c => c.Contains(p)), p => edge + (middle - edge) * Math.Min(1, outline.Nearest(p).Distance / fall));
        }

        if (Value(_lower) is { } lower && Value(_upper) is { } upper)
        {
            return ([], _ => true, p => lower + (upper - lower) * (p.X - box.MinX) / (box.MaxX - box.MinX));
        }

        if (Value(_left) is { } left && Value(_right) is { } right)
        {
            return ([], _ => true, p => right + (left - right) * (p.Y - box.MinY) / (box.MaxY - box.MinY));
        }

        var grid = new ReadingGrid(fields.Reading(_readings)!.Places);
        return ([.. grid.Lines(box)], _ => true, grid.At);

        double? Value(BoardField field) => fields.Typed(field)?.Value;
    }

    private void CheckOne(ReadFields fields, Curve? outline, Findings findings)
    {
        BoardField[][] ways = [[_edge, _fall], [_lower, _upper], [_left, _right], [_readings]];
        BoardField[][] given = [.. ways.Where(way => way.Any(fields.IsGiven))];
        if (given.Length == 0) { return; }
        BoardField first = given[0].First(fields.IsGiven);
        if (given.Length > 1)
        {
            BoardField other = given[1].First(fields.IsGiven);
            Report(other, $"{first.Key} gives the thickness already: keep one of the two ways");
        }
        else if (given[0].FirstOrDefault(f => !fields.IsGiven(f)) is { } missing)
        {
            Report(first, $"needs {missing.Key} too: write {missing.Key} = {BoardText.Quoted(missing.Example)}, or what yours is, under {Table.Header}");
        }
        else if (outline is not null && fields.Typed(_fall)?.Value is { } fall && Offset.Inward(outline, fall, OffsetTolerance).Count == 0)
        {
            Report(_fall, "no place of the board is so far from its edge: write a narrower fall");
        }
        else if (fields.Reading(_readings)?.Places is { } places && ReadingGrid.Gap(places) is { } gap)
        {
            Report(_readings, gap);
        }

        void Report(BoardField field, string message) => findings.Report(fields.LineOrNull(field), field.Name, message);
    }
}
