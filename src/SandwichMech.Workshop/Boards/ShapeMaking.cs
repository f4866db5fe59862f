using SandwichMech.Core.Layups;
using SandwichMech.Core.Materials;
using SandwichMech.Core.Outlines;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Workshop.Tables;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Boards;

/// <summary>A shape and where its regions stand in the file.</summary>
/// <param name="Shape">The shape.</param>
/// <param name="Filed">Its regions, in its order.</param>
internal sealed record MadeShape(BoardShape Shape, IReadOnlyList<FiledRegion> Filed);

/// <summary>Makes the board's shape from its fields, and checks what only the whole outline shows.</summary>
internal static class ShapeMaking
{
    private const double OffsetTolerance = 1e-5;
    private const double AreaAgreement = 0.02;

    /// <summary>Name of the wood let in under the bridge.</summary>
    internal const string BridgePatch = "bridge patch";

    private static readonly BoardField[] OutlineFields = [BoardFields.OutlineLower, BoardFields.OutlineWaist, BoardFields.OutlineUpper];

    /// <summary>The shape; nothing where no outline is given. All that no mesh is needed to see was reported by <see cref="Check"/>.</summary>
    /// <exception cref="InputException">A region lies beside the board, or the curves cannot be meshed.</exception>
    internal static MadeShape? Of(ReadFields fields, MaterialTables tables, Wood outer, Func<BoardField, FieldReading> given, Func<BoardField, Estimate> thickness, Findings findings)
    {
        if (Outline(fields) is not { } outline)
        {
            return null;
        }

        Curve? hole = Hole(fields);
        Curve[] holes = [.. hole is null ? [] : (Curve[])[hole], .. ExtraHoles.Of(fields)];
        IReadOnlyList<FiledRegion> filed = RegionChecks.OnBoard([.. Regions(fields, outline, hole, holes, WoodOf, f => WoodOf(fields, f) ?? outer, thickness)], outline, holes, findings);
        findings.ThrowIfWrong();
        IReadOnlyList<BoardPart> parts = RegionChecks.Parts(outline, holes, filed, findings.Path);
        filed = [.. filed.Select((f, i) => RegionChecks.Weighed(f, parts.Where(p => p.Regions.Contains(i)).Sum(p => p.Area)))];
        return new(
            new()
            {
                Outline = outline,
                Holes = holes,
                Regions = [.. filed.Select(f => f.Region)],
                Parts = parts,
                DomeAlong = 1 / Value(fields, BoardFields.DomeAlong) ?? 0,
                DomeAcross = 1 / Value(fields, BoardFields.DomeAcross) ?? 0,
                Edge = BoardFields.HoldOf(given(BoardFields.EdgeHeld).Name!),
                Stretches = EdgeStretches.Of(fields, outline),
            },
            filed);

        Wood? WoodOf(ReadFields of, BoardField field) => of.Reading(field)?.Name is { } name ? MaterialTables.Find(tables.Woods, name)!.Item : null;
    }

    // The order is that in which regions hold: where two change the same thing, the later one.
    private static IEnumerable<FiledRegion> Regions(
        ReadFields fields, Curve outline, Curve? hole, Curve[] holes, Func<ReadFields, BoardField, Wood?> named, Func<BoardField, Wood> wood, Func<BoardField, Estimate> thickness)
    {
        var taken = new RegionLists.Taken(named, Thickness);
        foreach (FiledRegion sheet in RegionLists.Of("core sheet", fields, taken)) { yield return sheet; }
        if (Value(fields, BoardFields.EdgeBandWidth) is { } band)
        {
            IReadOnlyList<Curve> inner = Offset.Inward(outline, band, OffsetTolerance);
            yield return Filed(new("edge band", inner, p => !inner.Any(c => c.Contains(p)), new LetInWood(wood(BoardFields.EdgeBandWood))), BoardFields.EdgeBandWidth);
        }

        if (hole is not null && Value(fields, BoardFields.HoleRingWidth) is { } ring)
        {
            Curve rim = Rim(fields, hole, ring);
            yield return Filed(new("hole ring", [rim], rim.Contains, new LetInWood(wood(BoardFields.HoleRingWood))), BoardFields.HoleRingWidth);
        }

        if (Patch(fields) is { } patch)
        {
            yield return Filed(new(BridgePatch, [patch], patch.Contains, new LetInWood(wood(BoardFields.BridgePatchWood))), BoardFields.BridgePatchAt);
        }

        foreach (FiledRegion wooden in RegionLists.Of("let-in wood", fields, taken)) { yield return wooden; }
        foreach (FiledRegion half in BookMatching.Of(fields, outline)) { yield return half; }
        foreach (FiledRegion graded in SkinGradings.Of(fields, outline, Thickness)) { yield return graded; }
        foreach (FiledRegion part in RegionLists.Of("skin part", fields, taken)) { yield return part; }
        foreach (FiledRegion channel in Channels.Of(fields, outline, hole, named)) { yield return channel; }
        foreach (FiledRegion joint in Joints.Of(fields, outline, holes)) { yield return joint; }
        foreach (FiledRegion mass in RegionLists.Of("added mass", fields, taken)) { yield return mass; }
        foreach (FiledRegion bar in GluedBars.Of(fields, wood, thickness)) { yield return bar; }

        double Thickness(Face face) => Value(fields, (face == Face.Outer ? BoardFields.Outer : BoardFields.Inner).Thickness)!.Value;

        FiledRegion Filed(BoardRegion region, BoardField field) => new(region, fields.LineOrNull(field), field.Name);
    }

    /// <summary>Reports what does not fit together.</summary>
    internal static void Check(ReadFields fields, Findings findings)
    {
        BoardField[] given = [.. OutlineFields.Where(fields.IsGiven)];
        foreach (BoardField missing in given.Length == 0 ? [] : OutlineFields.Append(BoardFields.Length).Where(f => !fields.IsGiven(f)))
        {
            findings.Report(fields.LineOrNull(given[0]), missing.Name,
                $"the outline needs it too: write {missing.Key} = {BoardText.Quoted(missing.Example)}, or what yours is, under [{missing.Table.Name}]");
        }

        Together(BoardFields.HoleDiameter, BoardFields.HoleAt);
        Together(BoardFields.HoleAt, BoardFields.HoleDiameter);
        Together(BoardFields.EdgeBandWood, BoardFields.EdgeBandWidth);
        Together(BoardFields.HoleRingWood, BoardFields.HoleRingWidth);
        if (!fields.IsGiven(BoardFields.HolePart)) { Together(BoardFields.HoleRingWidth, BoardFields.HoleDiameter); }
        BoardField[] patch = [BoardFields.BridgePatchAlong, BoardFields.BridgePatchAcross, BoardFields.BridgePatchAt];
        if (patch.FirstOrDefault(fields.IsGiven) is { } one)
        {
            Array.ForEach(patch, other => Together(one, other));
        }

        if (given.Length == 0 && !fields.IsGiven(BoardFields.OutlineFile) && NeedingOutline(fields) is { } homeless)
        {
            findings.Report(homeless.Line, homeless.Field, $"has its place only in an outline: add [{BoardFields.OutlineLower.Table.Name}] with {string.Join(", ", OutlineFields.Select(f => f.Key))}, or with {BoardFields.OutlineFile.Key}, or take this away");
            return;
        }

        if (Value(fields, BoardFields.OutlineWaist) is { } waist
            && Value(fields, BoardFields.OutlineLower) is { } lower && Value(fields, BoardFields.OutlineUpper) is { } upper && waist > Math.Min(lower, upper))
        {
            Report(BoardFields.OutlineWaist, $"{Show(waist)} is wider than the {(lower < upper ? "lower" : "upper")} bout, {Show(Math.Min(lower, upper))}: mend one of them");
            return;
        }

        Curve? made = Outline(fields), hole = Hole(fields);
        EdgeStretches.Check(fields, made, Report);
        RegionLists.Check(fields, findings);
        BookMatching.Check(fields, findings);
        SkinGradings.Check(fields, made, findings);
        Channels.Check(fields, made, hole, findings);
        IReadOnlyList<Curve> further = ExtraHoles.Check(fields, made, hole, findings);
        GluedBars.Check(fields, made, [.. hole is null ? [] : (Curve[])[hole], .. further], Report);
        if (made is { } outline)
        {
            Joints.Check(fields, outline, findings);
            CheckInside(fields, findings, outline);
        }

        void Together(BoardField one, BoardField other)
        {
            if (fields.IsGiven(one) && !fields.IsGiven(other))
            {
                Report(one, $"needs {other.Key} too: write {other.Key} = {BoardText.Quoted(other.Example)}, or what yours is, under [{other.Table.Name}]");
            }
        }

        void Report(BoardField field, string message) => findings.Report(fields.LineOrNull(field), field.Name, message);
    }

    /// <summary>The first of what has no place without an outline.</summary>
    private static FiledPlace? NeedingOutline(ReadFields fields)
    {
        BoardTable[] own = [BoardFields.HoleDiameter.Table, BoardFields.EdgeBandWidth.Table, BoardFields.HoleRingWidth.Table, BoardFields.BridgePatchAt.Table, BoardFields.EdgeHeld.Table, BoardFields.DomeAlong.Table];
        BoardField[] others = [.. EdgeStretches.Fields, .. SkinGradings.Fields, .. Channels.Fields, BoardFields.Outer.BookMatched, BoardFields.Inner.BookMatched];
        if (BoardFields.All.FirstOrDefault(f => fields.IsGiven(f) && (own.Contains(f.Table) || others.Contains(f))) is { } field) { return new(fields.LineOrNull(field), field.Name); }
        return BoardFields.Tables.Where(t => t.IsList).SelectMany(fields.Items).FirstOrDefault() is { Item: { } item } ? new(item.Header.Line, item.Table.Name) : null;
    }

    private sealed record FiledPlace(int? Line, string Field);

    private static void CheckInside(ReadFields fields, Findings findings, Curve outline)
    {
        void Report(BoardField field, string message) => findings.Report(fields.LineOrNull(field), field.Name, message);
        if (Value(fields, BoardFields.EdgeBandWidth) is { } band
            && (2 * band >= (fields.Drawn is { } drawn ? drawn.Measures.Waist?.Width ?? drawn.Measures.Width : Value(fields, BoardFields.OutlineWaist)!.Value) || Offset.Inward(outline, band, OffsetTolerance).Count != 1))
        {
            Report(BoardFields.EdgeBandWidth, $"{Show(band)} leaves no core at the waist: write a narrower band");
        }

        if (Hole(fields) is { } hole)
        {
            BoardField place = fields.IsGiven(BoardFields.HolePart) ? BoardFields.HolePart : BoardFields.HoleAt;
            Box box = hole.Bounds();
            if (!outline.Contains(box.Middle) || Crossings.Between(hole, outline).Count > 0 || hole.Contains(outline.At(0)))
            {
                Report(place, "there the hole reaches the outline: move it, or make it smaller");
            }
            else if (Value(fields, BoardFields.HoleRingWidth) is { } ring && Rim(fields, hole, ring) is var rim && (Crossings.Between(rim, outline).Count > 0 || !outline.Contains(rim.At(0))))
            {
                Report(BoardFields.HoleRingWidth, $"{Show(ring)} reaches the outline: write a narrower ring");
            }
            else if (Band(fields, outline) is { } inner && Crossings.Between(hole, inner).Count > 0)
            {
                Report(place, "there the hole cuts into the edge band: move it, make it smaller, or write a narrower band");
            }
            else if (fields.Typed(BoardFields.HoleRingWidth)?.Value is { } wide && Patch(fields) is { } inRing && Covers(Rim(fields, hole, wide), inRing))
            {
                Report(BoardFields.BridgePatchAt, "the bridge patch lies wholly in the hole ring: move it, or leave one of them out");
            }
            else if (Patch(fields) is { } near && near.Bounds() is var under && (Crossings.Between(near, hole).Count > 0 || hole.Contains(under.Middle) || near.Contains(box.Middle)))
            {
                Report(BoardFields.BridgePatchAt, "there the bridge patch reaches the hole: move one of them");
            }
        }

        if (Patch(fields) is { } patch)
        {
            if (patch.Segments.Any(s => !outline.Contains(s.P0)) || Crossings.Between(patch, outline).Count > 0)
            {
                Report(BoardFields.BridgePatchAcross, "the bridge patch reaches beyond the outline: make it smaller, or move it");
            }
            else if (Band(fields, outline) is { } inner && Crossings.Between(patch, inner).Count == 0 && !inner.Contains(patch.At(0)))
            {
                Report(BoardFields.BridgePatchAt, "the bridge patch lies wholly in the edge band: move it, or leave one of them out");
            }
        }

        double area = Math.Abs(outline.SignedArea) - (Hole(fields) is { } open ? Math.Abs(open.SignedArea) : 0);
        if (Value(fields, BoardFields.Area) is { } typed && Math.Abs(typed - area) > AreaAgreement * area)
        {
            findings.Warn(fields.Line(BoardFields.Area), BoardFields.Area.Name,
                $"{Display.Text(typed, Shown.Area, UnitSystem.Metric)} typed, {Display.Text(area, Shown.Area, UnitSystem.Metric)} by the outline less the hole: the outline's is taken");
        }
    }

    private static Curve? Outline(ReadFields fields) => fields.Drawn?.Outline
        ?? (Value(fields, BoardFields.Length) is { } length && Value(fields, BoardFields.OutlineLower) is { } lower
            && Value(fields, BoardFields.OutlineWaist) is { } waist && Value(fields, BoardFields.OutlineUpper) is { } upper && waist <= Math.Min(lower, upper)
            ? OutlineFamily.Of(length, lower, waist, upper)
            : null);

    private static Curve? Hole(ReadFields fields) => DrawnShape.Hole(fields)
        ?? (Value(fields, BoardFields.HoleDiameter) is { } diameter && Value(fields, BoardFields.HoleAt) is not null
            ? Shapes.Circle(Centre(fields, BoardFields.HoleAt), diameter / 2)
            : null);

    // Round a circle a circle; round a drawn hole what keeps the distance from it.
    private static Curve Rim(ReadFields fields, Curve hole, double ring) => DrawnShape.Hole(fields) is null
        ? Shapes.Circle(Centre(fields, BoardFields.HoleAt), Value(fields, BoardFields.HoleDiameter)!.Value / 2 + ring)
        : Offset.Inward(hole, -ring, OffsetTolerance)[0];

    private static Curve? Patch(ReadFields fields) =>
        Value(fields, BoardFields.BridgePatchAlong) is { } along && Value(fields, BoardFields.BridgePatchAcross) is { } across && Value(fields, BoardFields.BridgePatchAt) is { } at
            ? Shapes.Rectangle(new(at - along / 2, -across / 2, at + along / 2, across / 2))
            : null;

    // Inner border of the edge band, where there is one that leaves a core.
    private static Curve? Band(ReadFields fields, Curve outline) =>
        Value(fields, BoardFields.EdgeBandWidth) is { } band && Offset.Inward(outline, band, OffsetTolerance) is [var inner] ? inner : null;

    /// <summary>Whether a curve lies within another, to a hair.</summary>
    internal static bool Covers(Curve outer, Curve inner)
    {
        const double hair = 1e-3;
        Point middle = inner.Bounds().Middle;
        return inner.Segments.All(s => new[] { s.P0, s.At(0.5) }.All(p => outer.Contains(p + hair * (middle - p))));
    }

    private static Point Centre(ReadFields fields, BoardField at) => new(Value(fields, at)!.Value, 0);

    private static double? Value(ReadFields fields, BoardField field) => fields.Typed(field)?.Value;

    private static string Show(double si) => Display.Text(si, Shown.Length, UnitSystem.Metric);
}
