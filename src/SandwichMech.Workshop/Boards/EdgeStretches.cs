using SandwichMech.Core.Layups;
using SandwichMech.Core.Outlines;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Boards;

/// <summary>Stretches of the edge that are held otherwise than the rest, as by a neck block: their fields, where they lie, and what can be wrong with them.</summary>
internal static class EdgeStretches
{
    private static readonly BoardTable
        UpperTable = new("edge_upper_end", "The edge at the upper end, where it is held otherwise than the rest: by a neck block, say."),
        LowerTable = new("edge_lower_end", "The edge at the lower end, where it is held otherwise than the rest: by a tail block, say."),
        SidesTable = new("edge_sides", "The edge on both sides between two places, where it is held otherwise than the rest.");

    private static readonly BoardField
        UpperAcross = Across(UpperTable, "80 mm"), UpperHeld = Held(UpperTable, "clamped"),
        LowerAcross = Across(LowerTable, "70 mm"), LowerHeld = Held(LowerTable, "clamped"),
        SidesFrom = Along(SidesTable, "from", "From the board's lower end to where it begins.", "200 mm"),
        SidesTo = Along(SidesTable, "to", "From the board's lower end to where it ends.", "320 mm"),
        SidesHeld = Held(SidesTable, "hinged");

    /// <summary>The fields, in the order of the file.</summary>
    internal static IReadOnlyList<BoardField> Fields { get; } = [UpperAcross, UpperHeld, LowerAcross, LowerHeld, SidesFrom, SidesTo, SidesHeld];

    /// <summary>The stretches; all that could be wrong was reported by <see cref="Check"/>.</summary>
    internal static IReadOnlyList<EdgeStretch> Of(ReadFields fields, Curve outline)
    {
        double middle = outline.Bounds().Middle.X;
        var stretches = new List<EdgeStretch>();
        if (fields.Typed(SidesFrom)?.Value is { } from && fields.Typed(SidesTo)?.Value is { } to && Hold(SidesHeld) is { } sides)
        {
            stretches.Add(new("at the sides", sides, p => p.X >= from && p.X <= to, [.. AcrossAt(outline, from), .. AcrossAt(outline, to)]));
        }

        if (fields.Typed(LowerAcross)?.Value is { } low && Hold(LowerHeld) is { } lower)
        {
            stretches.Add(new("at the lower end", lower, p => p.X < middle && Math.Abs(p.Y) <= low / 2, Ends(outline, low, upper: false)));
        }

        if (fields.Typed(UpperAcross)?.Value is { } high && Hold(UpperHeld) is { } held)
        {
            stretches.Add(new("at the upper end", held, p => p.X > middle && Math.Abs(p.Y) <= high / 2, Ends(outline, high, upper: true)));
        }

        return stretches;

        EdgeHold? Hold(BoardField field) => fields.Reading(field)?.Name is { } words ? BoardFields.HoldOf(words) : null;
    }

    /// <summary>Reports fields that miss others, and stretches that are not on the outline.</summary>
    internal static void Check(ReadFields fields, Curve? outline, Action<BoardField, string> report)
    {
        foreach (IGrouping<BoardTable, BoardField> table in Fields.GroupBy(f => f.Table))
        {
            if (table.FirstOrDefault(fields.IsGiven) is not { } given) { continue; }
            foreach (BoardField missing in table.Where(f => !fields.IsGiven(f)))
            {
                report(given, $"needs {missing.Key} too: write {missing.Key} = {BoardText.Quoted(missing.Example)}, or what yours is, under [{missing.Table.Name}]");
            }
        }

        if (fields.Typed(SidesFrom)?.Value is { } from && fields.Typed(SidesTo)?.Value is { } to && from >= to)
        {
            report(SidesTo, $"{Show(to)} must lie above from, {Show(from)}: mend one of them");
        }

        if (outline is null) { return; }
        double length = outline.Bounds().MaxX;
        foreach (BoardField field in (BoardField[])[SidesFrom, SidesTo])
        {
            if (fields.Typed(field)?.Value is { } at && at >= length)
            {
                report(field, $"{Show(at)} lies beyond the upper end, {Show(length)}: write less");
            }
        }

        Fits(UpperAcross, upper: true);
        Fits(LowerAcross, upper: false);

        void Fits(BoardField field, bool upper)
        {
            // Two ends each side of the centre line, or the stretch runs on along the sides.
            if (fields.Typed(field)?.Value is { } across && Ends(outline, across, upper) is var ends && !(ends.Any(p => p.Y > 0) && ends.Any(p => p.Y < 0)))
            {
                report(field, $"{Show(across)} is wider than the board there: write less, or say how the whole edge is held under [{BoardFields.EdgeHeld.Table.Name}]");
            }
        }
    }

    private static Point[] Ends(Curve outline, double across, bool upper)
    {
        Box box = outline.Bounds();
        double middle = box.Middle.X, beyond = box.Size;
        return [.. new[] { -across / 2, across / 2 }
            .SelectMany(y => Crossings.Between(Shapes.Polygon([new(box.MinX - beyond, y), new(box.MaxX + beyond, y)], closed: false), outline))
            .Select(m => m.At).Where(p => p.X > middle == upper)];
    }

    private static IEnumerable<Point> AcrossAt(Curve outline, double x)
    {
        Box box = outline.Bounds();
        double beyond = box.Size;
        return Crossings.Between(Shapes.Polygon([new(x, box.MinY - beyond), new(x, box.MaxY + beyond)], closed: false), outline).Select(m => m.At);
    }

    private static BoardField Across(BoardTable table, string example) =>
        Length(table, "across", "the width of a block", "5 mm", "50 cm", "4 cm", "12 cm", "Its extent across the board, half to each side of the centre line.", example);

    private static BoardField Along(BoardTable table, string key, string help, string example) =>
        Length(table, key, "a place along the board", "1 mm", "2 m", "1 cm", "60 cm", help, example);

    private static BoardField Held(BoardTable table, string example) => new(table, "held", EdgeHolds.Kind, "How it is held there: free, hinged, clamped or rim.", example);

    private static BoardField Length(BoardTable table, string key, string of, string low, string high, string usualLow, string usualHigh, string help, string example) =>
        new(table, key, new TypedKind(Dimension.Length, of, new(Dimension.Length, low, high), new(Dimension.Length, usualLow, usualHigh), ["mm", "in", "cm"]), help, example);

    private static string Show(double si) => Display.Text(si, Shown.Length, UnitSystem.Metric);
}
