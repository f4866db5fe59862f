using SandwichMech.Core.Outlines;
using SandwichMech.Workshop.Drawings;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Boards;

/// <summary>The outline and the soundhole of a board that come from a drawing: their fields, their reading, what is said of them.</summary>
internal static class DrawnShape
{
    // A typed measure that differs from the drawing by more is worth a word.
    private const double Agreement = 0.01;
    private static readonly Dictionary<string, double> Directions = new(StringComparer.OrdinalIgnoreCase) { ["up"] = Math.PI / 2, ["down"] = -Math.PI / 2, ["left"] = Math.PI, ["right"] = 0 };

    /// <summary>Which way the grain runs on a drawing: from the lower end to the upper.</summary>
    internal static TypedKind AlongKind { get; } = new(Dimension.Angle, "a direction on the drawing",
        new(Dimension.Angle, "-360°", "360°"), new(Dimension.Angle, "-360°", "360°"), ["°"])
    { Words = Directions };

    internal static BoardField File(BoardTable table) => new(table, "file", new FileKind(),
        "A drawing of the outline, seen from this file: SVG, ASCII DXF, or CSV of points or half-widths; `sandwichmech outline` checks it.", "outline.svg");

    internal static BoardField Part(BoardTable table) => new(table, "part", new TextKind(200, ManyLines: false),
        "Id or layer of the outline in the drawing, where it holds several curves that could be it.", "edge");

    internal static BoardField Unit(BoardTable table) => new(table, "unit", new ChoiceKind("unit of a drawing", ["mm", "cm", "in", "m", "pt", "px"]),
        "Unit of the drawing's numbers, where the file does not say it or says it wrongly.", "mm");

    internal static BoardField Along(BoardTable table) => new(table, "along", AlongKind,
        "Which way the grain runs on the drawing, from the lower end to the upper: up, down, left, right, or an angle anticlockwise from right; found by itself when left out.", "up");

    internal static BoardField Smooth(BoardTable table) => new(table, "smooth", new ChoiceKind("answer", ["no", "yes"]),
        "Whether an outline of straight lines becomes a smooth curve through their ends.", "no")
    { Default = "no" };

    internal static BoardField HolePart(BoardTable table) => new(table, "part", new TextKind(200, ManyLines: false),
        "Id or layer of the soundhole in the outline's drawing, in place of diameter and at.", "soundhole");

    /// <summary>Reads the drawing that a board file names; what is wrong goes to the findings.</summary>
    internal static void Read(ReadFields fields, Findings findings)
    {
        BoardField[] extras = [BoardFields.OutlinePart, BoardFields.OutlineUnit, BoardFields.OutlineAlong, BoardFields.OutlineSmooth, BoardFields.HolePart];
        if (!fields.IsGiven(BoardFields.OutlineFile))
        {
            foreach (BoardField field in extras.Where(fields.IsGiven))
            {
                Report(field, $"says something of a drawing, and none is named: write {BoardFields.OutlineFile.Key} = {BoardText.Quoted(BoardFields.OutlineFile.Example)} under [{BoardFields.OutlineFile.Table.Name}], or take this away");
            }

            return;
        }

        foreach (BoardField field in new[] { BoardFields.OutlineLower, BoardFields.OutlineWaist, BoardFields.OutlineUpper }.Where(fields.IsGiven))
        {
            Report(field, $"the outline comes from {BoardFields.OutlineFile.Key}, which has its own widths: take one of the two away");
        }

        foreach (BoardField field in new[] { BoardFields.HoleDiameter, BoardFields.HoleAt }.Where(f => fields.IsGiven(f) && fields.IsGiven(BoardFields.HolePart)))
        {
            Report(field, $"the hole comes from the drawing ({BoardFields.HolePart.Name}): take one of the two away");
        }

        if (fields.Reading(BoardFields.OutlineFile)?.Name is not { } file || extras.Any(f => fields.IsGiven(f) && fields.Reading(f) is null)) { return; }
        try
        {
            fields.Drawn = DrawnOutline.Of(DrawingFiles.Read(PathOf(findings, file), new()
            {
                Part = fields.Reading(BoardFields.OutlinePart)?.Name,
                Unit = fields.Reading(BoardFields.OutlineUnit)?.Name,
                Along = fields.Typed(BoardFields.OutlineAlong)?.Value,
                Smooth = fields.Reading(BoardFields.OutlineSmooth)?.Name == "yes",
            }));
            if (fields.Reading(BoardFields.HolePart)?.Name is { } part) { fields.Drawn.InsideCurve(part); }
        }
        catch (InputException wrong)
        {
            fields.Drawn = null;
            foreach (Problem p in wrong.Problems) { findings.Report(p); }
            return;
        }

        Compare(BoardFields.Length, fields.Drawn.Measures.Length);
        Compare(BoardFields.Width, fields.Drawn.Measures.Width);

        void Compare(BoardField field, double drawn)
        {
            if (fields.Typed(field)?.Value is { } typed && Math.Abs(typed - drawn) > Agreement * drawn)
            {
                findings.Warn(fields.Line(field), field.Name, $"{Show(typed)} typed, {Show(drawn)} by the drawing: the drawing's is taken");
            }
        }

        void Report(BoardField field, string message) => findings.Report(fields.LineOrNull(field), field.Name, message);
    }

    /// <summary>A closed line of a drawing of its own, over the outline's.</summary>
    /// <exception cref="InputException">It cannot be had; what is wrong and how to mend it.</exception>
    internal static Curve Over(DrawnOutline outline, Findings findings, string file, string? part, string? unit) =>
        OverlaidCurve.Of(outline, PathOf(findings, file), part, unit);

    /// <summary>The hole from the drawing; nothing where the board's hole is not from there.</summary>
    internal static Curve? Hole(ReadFields fields) =>
        fields.Drawn is { } drawn && fields.Reading(BoardFields.HolePart)?.Name is { } part ? drawn.InsideCurve(part).Curve : null;

    /// <summary>Says what was taken from the drawing.</summary>
    internal static void Show(ReadFields fields, Findings findings)
    {
        if (fields.Drawn is not { } drawn) { return; }
        OutlineMeasures m = drawn.Measures;
        findings.Show($"outline '{drawn.Name}' from {Path.GetFileName(drawn.Drawing.Path)}: {Show(m.Length)} long, {Show(m.LowerBout.Width)} at the widest below"
            + (m.Waist is null ? "" : $", waist {Show(m.Waist.Width)}, {Show(m.UpperBout!.Width)} above"));
        foreach (string note in drawn.Notes) { findings.Show($"drawing: {note}"); }
        if (!fields.IsGiven(BoardFields.HolePart) && !fields.IsGiven(BoardFields.HoleDiameter)
            && drawn.Inside.FirstOrDefault(c => c.Is("soundhole") || c.Is("hole")) is { } hole)
        {
            findings.Show($"drawing: '{hole.Name}' is not cut out: [{BoardFields.HolePart.Table.Name}] with {BoardFields.HolePart.Key} = {BoardText.Quoted(hole.Name)} would");
        }
    }

    private static string PathOf(Findings findings, string file) => Path.Combine(Path.GetDirectoryName(findings.Path) ?? "", file);

    private static string Show(double si) => Display.Text(si, Shown.Length, UnitSystem.Metric);
}
