using System.Globalization;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Materials;
using SandwichMech.Core.Outlines;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Boards;

/// <summary>Bridge and braces of the board file: their fields, their feet on the board, and what can be wrong with them.</summary>
internal static class GluedBars
{
    private const double HalfOfTaper = 0.5;

    // In the order of BarTop.
    private static readonly string[] TopWords = ["flat", "rounded", "gabled"];

    private static readonly BoardTable
        BridgeTable = new("bridge", "The bridge, glued on the outer face."),
        FanTable = new("fan_braces", "Braces on the inner face below the hole, spread like a fan, mirrored at the centre line."),
        LowerTable = new("lower_bar", "A bar across the board on the inner face, below the hole."),
        UpperTable = new("upper_bar", "A bar across the board on the inner face, above the hole.");

    private static readonly BoardField
        BridgeAlong = Length(BridgeTable, "along", "a bridge's extent along", "5 mm", "10 cm", "2 cm", "5 cm", "Its extent along the grain of the board.", "29 mm"),
        BridgeAcross = Length(BridgeTable, "across", "a bridge's extent across", "2 cm", "50 cm", "10 cm", "25 cm", "Its extent across, along its own grain.", "185 mm"),
        BridgeAt = Length(BridgeTable, "at", "the bridge's distance from the lower end", "1 cm", "2 m", "8 cm", "30 cm", "From the board's lower end to its centre.", "150 mm"),
        BridgeHeight = Height(BridgeTable, "8 mm"),
        BridgeWood = Wood(BridgeTable, "Its wood, grain across the board.", "Douglas-fir"),
        FanNumber = new(FanTable, "number", new ChoiceKind("number of braces", [.. Enumerable.Range(1, 9).Select(i => i.ToString(CultureInfo.InvariantCulture))]), "How many.", "5"),
        FanFrom = Length(FanTable, "from", "the braces' lower ends", "1 cm", "2 m", "2 cm", "15 cm", "From the board's lower end to their lower ends.", "55 mm"),
        FanTo = Length(FanTable, "to", "the braces' upper ends", "2 cm", "2 m", "15 cm", "40 cm", "From the board's lower end to their upper ends.", "270 mm"),
        FanApartLower = Length(FanTable, "apart_lower", "the distance between neighbours at their lower ends", "1 mm", "30 cm", "2 cm", "8 cm", "Distance between neighbours' middles at their lower ends.", "48 mm"),
        FanApartUpper = Length(FanTable, "apart_upper", "the distance between neighbours at their upper ends", "1 mm", "30 cm", "1 cm", "8 cm", "The same at their upper ends.", "34 mm"),
        FanWidth = Width(FanTable, "6 mm"),
        FanHeight = Height(FanTable, "4.5 mm"),
        FanTaper = Length(FanTable, "taper", "the length of the tapered ends", "5 mm", "1 m", "1 cm", "10 cm", "Length over which both ends fall to end_height.", "40 mm"),
        FanEndHeight = Height(FanTable, "end_height", "an end's height", "Height of the tapered ends, at least a fifth of the full height.", "2 mm"),
        FanWood = Wood(FanTable, "Its wood, grain along the brace, rings upright; the outer skin's when left out.", "Sitka spruce");

    private static readonly TopFields FanTop = Tops(FanTable);
    private static readonly BarFields Lower = Across(LowerTable, "275 mm"), Upper = Across(UpperTable, "385 mm");

    private sealed record BarFields(BoardField At, BoardField Across, BoardField Width, BoardField Height, BoardField Wood, TopFields Top);

    /// <summary>The upper side of a bar and the height of its sides below it.</summary>
    private sealed record TopFields(BoardField Top, BoardField Sides);

    /// <summary>A bar's foot by the middles of its ends, and what stands on it.</summary>
    private sealed record Foot(string Name, BoardField Place, Face Face, Point From, Point To, double Width, BoardField Height, BoardField Wood, double Taper, double EndShare)
    {
        internal BarTop Top { get; init; }
        // In parts of the height.
        internal double Sides { get; init; } = 1;
        internal Point Run => 1 / (To - From).Norm * (To - From);
        internal Point Side => Width / 2 * new Point(-Run.Y, Run.X);
        internal Curve Border => Shapes.Polygon([From - Side, To - Side, To + Side, From + Side]);
        internal Curve Cut(Point at) => Shapes.Polygon([at - Side, at + Side], closed: false);
    }

    /// <summary>The fields, in the order of the file.</summary>
    internal static IReadOnlyList<BoardField> Fields { get; } =
    [
        BridgeAlong, BridgeAcross, BridgeAt, BridgeHeight, BridgeWood,
        FanNumber, FanFrom, FanTo, FanApartLower, FanApartUpper, FanWidth, FanHeight, FanTaper, FanEndHeight, FanTop.Top, FanTop.Sides, FanWood,
        Lower.At, Lower.Across, Lower.Width, Lower.Height, Lower.Top.Top, Lower.Top.Sides, Lower.Wood,
        Upper.At, Upper.Across, Upper.Width, Upper.Height, Upper.Top.Top, Upper.Top.Sides, Upper.Wood,
    ];

    /// <summary>The bars as regions of the board.</summary>
    internal static IEnumerable<FiledRegion> Of(ReadFields fields, Func<BoardField, Wood> wood, Func<BoardField, Estimate> height)
    {
        foreach (Foot foot in Feet(fields))
        {
            Curve border = foot.Border;
            Point from = foot.From, run = foot.Run;
            double length = (foot.To - foot.From).Norm, taper = foot.Taper, end = foot.EndShare;
            Point[] cuts = taper > 0 ? [from + taper * run, from + HalfOfTaper * taper * run, foot.To - taper * run, foot.To - HalfOfTaper * taper * run] : [];
            double Along(Point p) => end + (1 - end) * Math.Clamp(Math.Min((p - from).Dot(run), length - (p - from).Dot(run)) / taper, 0, 1);
            yield return new(
                new(foot.Name, [border, .. cuts.Select(foot.Cut)], border.Contains,
                    new GluedBar(foot.Face, wood(foot.Wood), Math.Atan2(run.Y, run.X), height(foot.Height), foot.Top, foot.Sides, taper > 0 ? Along : null)),
                fields.LineOrNull(foot.Place), foot.Place.Name);
        }
    }

    /// <summary>Reports fields that miss others, and bars that leave the board or lie over a hole.</summary>
    internal static void Check(ReadFields fields, Curve? outline, IReadOnlyList<Curve> holes, Action<BoardField, string> report)
    {
        BoardField[] optional = [FanWood, Lower.Wood, Upper.Wood, FanTaper, FanEndHeight, .. Crowned.SelectMany(c => (BoardField[])[c.Top.Top, c.Top.Sides])];
        foreach (var table in Fields.GroupBy(f => f.Table))
        {
            if (table.FirstOrDefault(fields.IsGiven) is not { } one) { continue; }
            foreach (BoardField missing in table.Where(f => !optional.Contains(f) && !fields.IsGiven(f)))
            {
                report(one, $"needs {missing.Key} too: write {missing.Key} = {BoardText.Quoted(missing.Example)}, or what yours is, under [{missing.Table.Name}]");
            }

            if (outline is null)
            {
                report(one, "has its place only on an outline: add [outline], or take this away");
                return;
            }
        }

        foreach (CrownedBar bar in Crowned.Where(b => fields.IsGiven(b.Top.Sides)))
        {
            if (TopOf(fields, bar.Top) == BarTop.Flat)
            {
                report(bar.Top.Sides, "belongs to a rounded or gabled top: write top = \"rounded\" or top = \"gabled\", or take this away");
            }
            else if (fields.Typed(bar.Top.Sides)?.Value >= fields.Typed(bar.Height)?.Value)
            {
                report(bar.Top.Sides, "the sides are as high as the bar or higher, which leaves nothing for the top: write less than high");
            }
        }

        if (fields.IsGiven(FanTaper) != fields.IsGiven(FanEndHeight))
        {
            report(fields.IsGiven(FanTaper) ? FanTaper : FanEndHeight, $"{FanTaper.Key} and {FanEndHeight.Key} go together: write both, or none");
        }

        if (fields.Typed(FanFrom)?.Value >= fields.Typed(FanTo)?.Value)
        {
            report(FanTo, "the braces' upper ends must lie above their lower ends: write a larger distance from the lower end");
            return;
        }

        List<Foot> feet = outline is null ? [] : Feet(fields);
        foreach (Foot foot in feet)
        {
            if (2 * foot.Taper >= (foot.To - foot.From).Norm || foot.Taper > 0 && foot.EndShare is < 0.2 or > 1)
            {
                report(FanTaper, "the tapered ends must be shorter than half the brace, and end_height between a fifth of the height and all of it");
                return;
            }

            Curve border = foot.Border;
            if (border.Segments.Any(s => !outline!.Contains(s.P0)) || Crossings.Between(border, outline!).Count > 0)
            {
                report(foot.Place, $"the {foot.Name} leaves the board: make it shorter, or move it");
                return;
            }

            if (holes.Any(h => Crossings.Between(border, h).Count > 0 || h.Contains(0.5 * (foot.From + foot.To)) || border.Contains(h.At(0))))
            {
                report(foot.Place, $"the {foot.Name} reaches over {(holes.Count == 1 ? "the" : "a")} hole: make it shorter, or move it");
                return;
            }

            if (feet.Find(other => other != foot && other.Face == foot.Face && ShapeMaking.Covers(other.Border, border)) is { } over)
            {
                report(foot.Place, $"the {foot.Name} stands wholly on the foot of the {over.Name}: move one of them, or leave one out");
                return;
            }
        }
    }

    private static List<Foot> Feet(ReadFields fields)
    {
        double? V(BoardField f) => fields.Typed(f)?.Value;
        var feet = new List<Foot>();
        if (V(FanFrom) is { } from && V(FanTo) is { } to && V(FanApartLower) is { } low && V(FanApartUpper) is { } high && V(FanWidth) is { } width
            && V(FanHeight) is { } height && fields.Reading(FanNumber)?.Name is { } number && from < to)
        {
            int count = int.Parse(number, CultureInfo.InvariantCulture);
            for (int i = 0; i < count; i++)
            {
                double place = i - (count - 1) / 2.0;
                feet.Add(new($"fan brace {i + 1}", FanTo, Face.Inner, new(from, place * low), new(to, place * high), width, FanHeight, FanWood,
                    V(FanTaper) ?? 0, (V(FanEndHeight) ?? height) / height)
                { Top = TopOf(fields, FanTop), Sides = SidesOf(fields, FanTop, height, width) });
            }
        }

        AddAcross("lower bar", Lower);
        AddAcross("upper bar", Upper);
        if (V(BridgeAlong) is { } along && V(BridgeAcross) is { } across && V(BridgeAt) is { } at && V(BridgeHeight) is not null)
        {
            feet.Add(new("bridge", BridgeAt, Face.Outer, new(at, -across / 2), new(at, across / 2), along, BridgeHeight, BridgeWood, 0, 1));
        }

        return feet;

        void AddAcross(string name, BarFields bar)
        {
            if (V(bar.At) is { } where && V(bar.Across) is { } length && V(bar.Width) is { } wide && V(bar.Height) is { } high)
            {
                feet.Add(new(name, bar.At, Face.Inner, new(where, -length / 2), new(where, length / 2), wide, bar.Height, bar.Wood, 0, 1)
                { Top = TopOf(fields, bar.Top), Sides = SidesOf(fields, bar.Top, high, wide) });
            }
        }
    }

    private static BarFields Across(BoardTable table, string at) => new(
        Length(table, "at", "the bar's distance from the lower end", "1 cm", "2 m", "10 cm", "50 cm", "From the board's lower end to its middle.", at),
        Length(table, "across", "a bar's length", "2 cm", "1 m", "10 cm", "40 cm", "Its length across the board.", "210 mm"),
        Width(table, "8 mm"),
        Height(table, "14 mm"),
        Wood(table, "Its wood, grain along the bar, rings upright; the outer skin's when left out.", "Sitka spruce"),
        Tops(table));

    private static TopFields Tops(BoardTable table) => new(
        new(table, "top", new ChoiceKind("top of a brace", [.. TopWords]), "flat, rounded (half an ellipse) or gabled (a triangle); flat when left out.", "rounded"),
        Length(table, "sides", "the height of a brace's sides", "0.1 mm", "8 cm", "0.5 mm", "25 mm", "Height of the straight sides under a rounded or gabled top; when left out, the top is half as high as the brace is wide.", "2.5 mm"));

    private static CrownedBar[] Crowned => [new(FanTop, FanHeight), new(Lower.Top, Lower.Height), new(Upper.Top, Upper.Height)];

    private sealed record CrownedBar(TopFields Top, BoardField Height);

    private static BarTop TopOf(ReadFields fields, TopFields top) => (BarTop)Math.Max(0, Array.IndexOf(TopWords, fields.Reading(top.Top)?.Name));

    private static double SidesOf(ReadFields fields, TopFields top, double height, double width) =>
        TopOf(fields, top) == BarTop.Flat ? 1 : fields.Typed(top.Sides)?.Value / height ?? Math.Max(0, 1 - width / 2 / height);

    private static BoardField Width(BoardTable table, string example) =>
        Length(table, "width", "a brace's width", "1 mm", "5 cm", "3 mm", "15 mm", "Width of its foot.", example);

    private static BoardField Height(BoardTable table, string example) => Height(table, "high", "a bar's height", "Its height above the board; a spread may follow.", example);

    private static BoardField Height(BoardTable table, string key, string of, string help, string example) => new(table, key,
        new TypedKind(Dimension.Length, of, new(Dimension.Length, "0.5 mm", "8 cm"), new(Dimension.Length, "1 mm", "25 mm"), ["mm", "in"]) { TakesSpread = true }, help, example);

    private static BoardField Wood(BoardTable table, string help, string example) => new(table, "wood", new NameKind(MaterialKind.Wood), help, example);

    private static BoardField Length(BoardTable table, string key, string of, string low, string high, string usualLow, string usualHigh, string help, string example) =>
        new(table, key, new TypedKind(Dimension.Length, of, new(Dimension.Length, low, high), new(Dimension.Length, usualLow, usualHigh), ["mm", "in", "cm"]), help, example);
}
