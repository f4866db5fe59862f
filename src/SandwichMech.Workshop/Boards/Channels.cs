using SandwichMech.Core.Layups;
using SandwichMech.Core.Materials;
using SandwichMech.Core.Outlines;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Boards;

/// <summary>Channels cut into the outer face and filled: binding and purfling along the edge, a rosette round the hole.</summary>
internal sealed class Channels
{
    private const double OffsetTolerance = 1e-5;

    private Channels(string name, string help, string? away, string width, string depth, bool roundHole)
    {
        Table = new(name, help);
        RoundHole = roundHole;
        string from = roundHole ? "the hole's edge" : "the board's edge";
        Away = away is null ? null : FieldForms.Length(Table, "away", "a channel's distance", "0.2 mm to 20 cm", "0.5 mm to 3 cm", $"From {from} to the channel.", away);
        Width = FieldForms.Length(Table, "width", "a channel's width", "0.5 mm to 10 cm", "1 mm to 4 cm", "Its width.", width);
        Depth = FieldForms.Length(Table, "depth", "a channel's depth", "0.05 mm to 2 cm", "0.3 mm to 8 mm", "Its depth from the outer face; deeper than the outer skin only over solid wood.", depth);
        Wood = FieldForms.Wood(Table, "Wood that fills it, grain along it.", "sugar maple");
        Density = new(Table, "density", new TypedKind(Dimension.Density, "a filling's density", FieldForms.Range(Dimension.Density, "50 kg/m³ to 9000 kg/m³"), FieldForms.Range(Dimension.Density, "300 kg/m³ to 2000 kg/m³"), ["kg/m³", "g/cm³"]),
            "In place of wood: density of what fills it, which then weighs and carries nothing.", "1200 kg/m³");
        Own = Away is null ? [Width, Depth, Wood, Density] : [Away, Width, Depth, Wood, Density];
    }

    private static readonly Channels[] All =
    [
        new("purfling", "A channel along the edge, inside the binding.", "2 mm", "1.5 mm", "0.5 mm", roundHole: false),
        new("binding", "The channel at the edge.", null, "2 mm", "0.6 mm", roundHole: false),
        new("rosette", "The channel round the soundhole.", "4 mm", "12 mm", "0.6 mm", roundHole: true),
    ];

    private BoardTable Table { get; }
    private bool RoundHole { get; }
    private BoardField? Away { get; }
    private BoardField Width { get; }
    private BoardField Depth { get; }
    private BoardField Wood { get; }
    private BoardField Density { get; }
    private BoardField[] Own { get; }

    /// <summary>The fields, in the order of the file.</summary>
    internal static IReadOnlyList<BoardField> Fields { get; } = [.. All.SelectMany(c => c.Own)];

    /// <summary>Those whose examples exclude those of others.</summary>
    internal static IReadOnlyList<BoardField> Excluded { get; } = [.. All.Select(c => c.Density)];

    /// <summary>Reports what is missing or too much.</summary>
    internal static void Check(ReadFields fields, Curve? outline, Curve? hole, Findings findings)
    {
        foreach (Channels channel in All.Where(c => c.Own.Any(fields.IsGiven))) { channel.CheckOne(fields, outline, hole, findings); }
    }

    /// <summary>The channels as regions of the board.</summary>
    internal static IEnumerable<FiledRegion> Of(ReadFields fields, Curve outline, Curve? hole, Func<ReadFields, BoardField, Wood?> wood)
    {
        foreach (Channels channel in All)
        {
            if (fields.Typed(channel.Width)?.Value is not { } width || fields.Typed(channel.Depth)?.Value is not { } depth) { continue; }
            Curve along = channel.RoundHole ? hole! : outline;
            double away = channel.Away is null ? 0 : fields.Typed(channel.Away)?.Value ?? 0, side = channel.RoundHole ? -1 : 1;
            IReadOnlyList<Curve> near = away > 0 ? Offset.Inward(along, side * away, OffsetTolerance) : [], far = Offset.Inward(along, side * (away + width), OffsetTolerance);
            bool Inside(Point p) => channel.RoundHole
                ? far.Any(c => c.Contains(p)) && !near.Any(c => c.Contains(p))
                : !far.Any(c => c.Contains(p)) && (near.Count == 0 || near.Any(c => c.Contains(p)));
            yield return new(new(channel.Table.Name, [.. near, .. far], Inside,
                new FilledChannel(depth, wood(fields, channel.Wood), fields.Typed(channel.Density)?.Value ?? 0, Remembered.Of(p => Direction(along, p)))), fields.LineOrNull(channel.Depth), channel.Depth.Name);
        }
    }

    private static double Direction(Curve along, Point p)
    {
        double t = along.Nearest(p).T;
        int i = Math.Clamp((int)Math.Floor(t), 0, along.Segments.Count - 1);
        Point run = along.Segments[i].Direction(t - i);
        return Math.Atan2(run.Y, run.X);
    }

    private void CheckOne(ReadFields fields, Curve? outline, Curve? hole, Findings findings)
    {
        BoardField one = Own.First(fields.IsGiven);
        foreach (BoardField missing in Own.Where(f => f != Wood && f != Density && !fields.IsGiven(f)))
        {
            Report(one, $"needs {missing.Key} too: write {missing.Key} = {BoardText.Quoted(missing.Example)}, or what yours is, under {Table.Header}");
        }

        if (fields.IsGiven(Wood) == fields.IsGiven(Density))
        {
            Report(fields.IsGiven(Wood) ? Density : one, fields.IsGiven(Wood)
                ? "wood says already what fills the channel: take one of the two away"
                : $"what fills it is missing: write wood = {BoardText.Quoted(Wood.Example)} or density = {BoardText.Quoted(Density.Example)} under {Table.Header}");
        }

        if (RoundHole && hole is null && outline is not null && !fields.IsGiven(BoardFields.HoleDiameter) && !fields.IsGiven(BoardFields.HolePart))
        {
            Report(one, $"lies round the soundhole, and there is none: add [{BoardFields.HoleAt.Table.Name}]");
        }
        else if (outline is not null && fields.Typed(Width)?.Value is { } width && (Away is null ? 0 : fields.Typed(Away)?.Value) is { } away && (!RoundHole || hole is not null))
        {
            IReadOnlyList<Curve> far = RoundHole ? Offset.Inward(hole!, -(away + width), OffsetTolerance) : Offset.Inward(outline, away + width, OffsetTolerance);
            if (far.Count != 1 || RoundHole && (Crossings.Between(far[0], outline).Count > 0 || !outline.Contains(far[0].At(0))))
            {
                Report(Width, $"the {Table.Name} does not fit on the board: make it narrower, or lay it nearer to the edge");
            }
        }

        void Report(BoardField field, string message) => findings.Report(fields.LineOrNull(field), field.Name, message);
    }
}
