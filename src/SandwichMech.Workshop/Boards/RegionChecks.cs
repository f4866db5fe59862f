using SandwichMech.Core.Layups;
using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Boards;

/// <summary>Checks what only all regions together show: what covers nothing, what lies hidden, bars that cross, channels that cut too deep.</summary>
internal static class RegionChecks
{
    private const int Halves = 8;

    /// <summary>The regions with the borders that lie on the board; one that lies beside it is reported.</summary>
    internal static IReadOnlyList<FiledRegion> OnBoard(IReadOnlyList<FiledRegion> filed, Curve outline, IReadOnlyList<Curve> holes, Findings findings)
    {
        var on = new List<FiledRegion>();
        foreach (FiledRegion one in filed)
        {
            if (!one.IsListed)
            {
                on.Add(one);
                continue;
            }

            Curve[] borders = [.. one.Region.Border.Where(b => Crosses(b, outline, holes))];
            if (borders.Length == 0 && !one.Region.Inside(Middle(outline, holes)))
            {
                findings.Report(one.Line, one.Field, $"the {one.Region.Name} lies beside the board or in a hole and covers nothing: move it");
            }

            on.Add(one with { Region = one.Region with { Border = borders } });
        }

        return on;
    }

    /// <summary>The parts of the board.</summary>
    /// <exception cref="InputException">The curves cannot be meshed: with the line of the region that is in the way.</exception>
    internal static IReadOnlyList<BoardPart> Parts(Curve outline, IReadOnlyList<Curve> holes, IReadOnlyList<FiledRegion> filed, string path)
    {
        try
        {
            return BoardPlate.Parts(outline, holes, [.. filed.Select(f => f.Region)]);
        }
        catch (DomainException wrong)
        {
            FiledRegion[] byBorder = [.. filed.SelectMany(f => f.Region.Border.Select(_ => f))];
            throw new InputException([.. wrong.Problems.Select(p => p.Curve - holes.Count - 1 is >= 0 and var border && border < byBorder.Length
                ? new Problem(path, byBorder[border].Line, byBorder[border].Field, p.Message.Replace($"border {border + 1}", $"the border of {byBorder[border].Region.Name}", StringComparison.OrdinalIgnoreCase))
                : new Problem(path, null, BoardFields.OutlineLower.Table.Name, p.Message))]);
        }
    }

    /// <summary>A region whose whole mass is known, with its mass per area.</summary>
    /// <param name="filed">The region.</param>
    /// <param name="area">What of the board it covers, m².</param>
    internal static FiledRegion Weighed(FiledRegion filed, double area) => filed.Whole is { } whole && area > 0
        ? filed with { Region = filed.Region with { Change = new AddedMass(whole.Times(1 / area)) } }
        : filed;

    /// <summary>Reports and warns of what the whole board shows, and shows back what the lists cover.</summary>
    internal static void Together(Board board, IReadOnlyList<FiledRegion> filed, Findings findings)
    {
        IReadOnlyList<BoardPart> parts = board.Shape!.Parts;
        var shown = new List<string>();
        for (int i = 0; i < filed.Count; i++)
        {
            FiledRegion one = filed[i];
            BoardPart[] covered = [.. parts.Where(p => p.Regions.Contains(i))];
            if (covered.Length == 0)
            {
                findings.Report(one.Line, one.Field, $"the {one.Region.Name} covers nothing of the board: move it, or take it away");
                continue;
            }

            if (IsReplaced(one.Region.Change) && covered.All(p => p.Regions.Any(j => j > i && Replaces(filed[j].Region.Change, one.Region.Change))))
            {
                findings.Warn(one.Line ?? 1, one.Field, $"nothing of the {one.Region.Name} is left, since what comes later covers it: take it away, or change the order");
            }

            if (one.IsListed)
            {
                shown.Add($"{one.Region.Name} {Display.Text(covered.Sum(p => p.Area), Shown.Area, UnitSystem.Metric)}");
            }

            if (one.Region.Change is FilledChannel channel && TooDeep(board, one.Region.Name, channel, covered) is { } problem)
            {
                findings.Report(one.Line, one.Field, problem);
            }
        }

        if (shown.Count > 0) { findings.Show($"on the board lie: {string.Join(", ", shown)}"); }
        WarnOfCrossing(board.Shape.Regions, filed, parts, findings);
    }

    private static void WarnOfCrossing(IReadOnlyList<BoardRegion> regions, IReadOnlyList<FiledRegion> filed, IReadOnlyList<BoardPart> parts, Findings findings)
    {
        var said = new HashSet<string>();
        foreach (BoardPart part in parts)
        {
            int[] bars = [.. part.Regions.Where(i => regions[i].Change is GluedBar)];
            foreach (int later in bars)
            {
                foreach (int earlier in bars.Where(i => i < later && ((GluedBar)regions[i].Change).Face == ((GluedBar)regions[later].Change).Face))
                {
                    string words = $"{regions[later].Name} crosses {regions[earlier].Name}: where they cross, {regions[later].Name} is taken alone, as if {regions[earlier].Name} were notched";
                    if (said.Add(words)) { findings.Warn(filed[later].Line ?? 1, filed[later].Field, words); }
                }
            }
        }
    }

    // A channel cuts the outer skin; what lies below it has to be solid wood before it may be cut too.
    private static string? TooDeep(Board board, string name, FilledChannel channel, BoardPart[] covered)
    {
        double thinnest = double.PositiveInfinity;
        bool cutsThrough = false;
        foreach (BoardPart part in covered)
        {
            int[] without = [.. part.Regions.Where(i => board.Shape!.Regions[i].Change is not FilledChannel)];
            bool isSolid = without.Any(i => board.Shape!.Regions[i].Change is LetInWood);
            foreach (PartSample sample in part.Samples)
            {
                IReadOnlyList<Ply> plies = LocalLayup.Of(board, without, sample.At).Plies;
                double skin = plies[^1].Thickness;
                if (!isSolid && channel.Depth > skin * (1 + 1e-9)) { thinnest = Math.Min(thinnest, skin); }
                cutsThrough |= isSolid && channel.Depth > plies.Skip(2).Sum(p => p.Thickness);
            }
        }

        return double.IsFinite(thinnest)
            ? $"{Show(channel.Depth)} is deeper than the outer skin, {Show(thinnest)}, and reaches the core: let in solid wood under all of the {name} ({(name == "rosette" ? "hole_ring" : "edge_band")} or let_in), or write a smaller depth"
            : cutsThrough ? $"{Show(channel.Depth)} reaches the inner skin: write a smaller depth" : null;
    }

    // Two of these in one place: the later one holds alone.
    private static bool Replaces(RegionChange later, RegionChange earlier) => (later, earlier) switch
    {
        (LetInWood, LetInWood) or (LetInWood, TurnedCore) or (TurnedCore, TurnedCore) or (FilledChannel, FilledChannel) => true,
        (SkinPart a, SkinPart b) => a.Face == b.Face && (a.Wood is not null || b.Wood is null) && (a.Factor is not null || b.Factor is null) && (a.GrainAngle is not null || b.GrainAngle is null),
        _ => false,
    };

    private static bool IsReplaced(RegionChange change) => change is LetInWood or TurnedCore or SkinPart or FilledChannel;

    private static bool Crosses(Curve border, Curve outline, IReadOnlyList<Curve> holes) =>
        Enumerable.Range(0, border.Segments.Count * Halves).Select(i => border.At((double)i / Halves)).Any(p => outline.Contains(p) && !holes.Any(h => h.Contains(p)))
        || Crossings.Between(border, outline).Count > 1;

    // Some place on the board.
    private static Point Middle(Curve outline, IReadOnlyList<Curve> holes)
    {
        Box box = outline.Bounds();
        const int Steps = 40;
        return Enumerable.Range(1, Steps - 1).Select(i => new Point(box.MinX + (box.MaxX - box.MinX) * i / Steps, box.Middle.Y))
            .FirstOrDefault(p => outline.Contains(p) && !holes.Any(h => h.Contains(p)), box.Middle);
    }

    private static string Show(double si) => Display.Text(si, Shown.Thickness, UnitSystem.Metric);
}
