using System.Xml;
using System.Xml.Linq;
using SandwichMech.Core.Outlines;

namespace SandwichMech.Workshop.Drawings;

/// <summary>Reads SVG: shapes and paths with their transforms, named by their ids and groups.</summary>
internal sealed class SvgDrawing
{
    private const int MostDepth = 60;
    private static readonly HashSet<string> Silent = ["defs", "symbol", "clipPath", "mask", "pattern", "marker", "metadata", "title", "desc", "style", "namedview", "script", "linearGradient", "radialGradient", "filter"];
    private readonly Sketch _sketch;
    private readonly Dictionary<string, XElement> _byId = [];

    private SvgDrawing(Sketch sketch) => _sketch = sketch;

    /// <summary>Reads an SVG file.</summary>
    /// <param name="path">The file, as the user knows it.</param>
    /// <param name="bytes">Its content.</param>
    /// <param name="unitGiven">Whether the user says the unit: then the numbers count as they stand, whatever size the page has.</param>
    internal static Sketch Read(string path, byte[] bytes, bool unitGiven)
    {
        var sketch = new Sketch(path) { Format = "SVG" };
        XElement root = Document(sketch, bytes).Root!;
        if (root.Name.LocalName != "svg") { throw sketch.Bad(Line(root), $"is XML, but its first element is <{root.Name.LocalName}> and not <svg>: export the drawing as SVG"); }
        var drawing = new SvgDrawing(sketch);
        foreach (XElement e in root.DescendantsAndSelf())
        {
            if ((string?)e.Attribute("id") is { } id) { drawing._byId.TryAdd(id, e); }
        }

        // y points down on the page.
        Affine page = Affine.Scale(1, -1);
        drawing.Guarded(root, () => page = unitGiven ? page : page.After(SvgView.Inside(root)));
        drawing.Guarded(root, () => drawing.SayUnit(root));
        sketch.Numbers = page.Inverse();
        drawing.Children(root, page, "", 0);
        return sketch;
    }

    private void SayUnit(XElement root)
    {
        _sketch.Unit = 0.0254 / SvgView.PerInch;
        double? width = SvgView.Length(root, "width", out string unit), height = SvgView.Length(root, "height", out string other);
        bool physical = (width is not null && unit is not ("" or "px")) || (height is not null && other is not ("" or "px"));
        _sketch.UnitSaid = physical
            ? $"the page's own size ({(string?)root.Attribute("width")} × {(string?)root.Attribute("height")})"
            : "px of 1/96 in, as SVG has it where the page has no size in mm or in";
        if (((string?)root.Attribute("preserveAspectRatio"))?.Contains("none", StringComparison.Ordinal) == true)
        {
            _sketch.Note("preserveAspectRatio=\"none\" stretches the page to its size in both directions");
        }
    }

    private static XDocument Document(Sketch sketch, byte[] bytes)
    {
        // A document type may stand there, but nothing that it declares is read, and no other file is ever opened.
        var settings = new XmlReaderSettings { DtdProcessing = DtdProcessing.Ignore, XmlResolver = null, IgnoreComments = true, IgnoreProcessingInstructions = true };
        try
        {
            using var reader = XmlReader.Create(new MemoryStream(bytes), settings);
            Depth(sketch, bytes, settings);
            return XDocument.Load(reader, LoadOptions.SetLineInfo);
        }
        catch (XmlException wrong)
        {
            // The reader quotes the sign it stumbled on, a line break too.
            string said = Units.TypedText.OneLine(wrong.Message.Split(" Line ")[0]).TrimEnd('.');
            throw sketch.Bad(wrong.LineNumber > 0 ? wrong.LineNumber : null, wrong.Message.Contains("entity", StringComparison.OrdinalIgnoreCase)
                ? $"uses an entity that only a document type could declare, which is not read for safety ({said}): export the drawing as plain SVG"
                : $"is not XML as SVG has to be ({said}): export the drawing as plain SVG anew");
        }
    }

    // A tree is only built where it is not so deep that walking it could exhaust the stack.
    private static void Depth(Sketch sketch, byte[] bytes, XmlReaderSettings settings)
    {
        using var reader = XmlReader.Create(new MemoryStream(bytes), settings);
        while (reader.Read())
        {
            if (reader.Depth > 4 * MostDepth) { throw sketch.Bad((reader as IXmlLineInfo)?.LineNumber, "nests its elements too deep for a drawing: export it as plain SVG"); }
        }
    }

    private static int? Line(XElement e) => e is IXmlLineInfo info && info.HasLineInfo() ? info.LineNumber : null;

    private void Guarded(XElement e, Action read)
    {
        try
        {
            read();
        }
        catch (SvgSyntaxException wrong)
        {
            throw _sketch.Bad(Line(e), $"<{e.Name.LocalName}>{((string?)e.Attribute("id") is { } id ? $" '{id}'" : "")}: {wrong.Message}");
        }
    }

    private void Children(XElement parent, Affine map, string group, int depth)
    {
        foreach (XElement e in parent.Elements()) { Read(e, map, group, depth); }
    }

    private void Read(XElement e, Affine outer, string group, int depth)
    {
        string kind = e.Name.LocalName;
        if (Silent.Contains(kind) || IsHidden(e)) { return; }
        if (depth > MostDepth) { throw _sketch.Bad(Line(e), "nests or uses its elements in a circle: export the drawing as plain SVG"); }
        Affine map = outer;
        Guarded(e, () =>
        {
            if (((string?)e.Attribute("style"))?.Contains("transform", StringComparison.OrdinalIgnoreCase) == true) { throw new SvgSyntaxException("its transform stands in a style, which is not read: export as plain SVG, or apply the transform in the drawing program"); }
            map = outer.After(SvgView.Transform((string?)e.Attribute("transform")));
        });
        switch (kind)
        {
            case "g" or "a" or "switch":
                Children(e, map, GroupName(e) ?? group, depth + 1);
                break;
            case "svg":
                Guarded(e, () => map = map.After(Affine.Move(Of(e, "x"), Of(e, "y"))).After(SvgView.Inside(e)));
                Children(e, map, group, depth + 1);
                break;
            case "use":
                Use(e, map, group, depth);
                break;
            default:
                Guarded(e, () => Shape(e, kind, map, group));
                break;
        }
    }

    private void Use(XElement e, Affine map, string group, int depth)
    {
        string target = (string?)e.Attributes().FirstOrDefault(a => a.Name.LocalName == "href") ?? "";
        if (!target.StartsWith('#') || !_byId.TryGetValue(target[1..], out XElement? used))
        {
            throw _sketch.Bad(Line(e), $"<use> points to '{Units.TypedText.Short(target)}', which is not in this file: other files are never read; export as plain SVG");
        }

        Guarded(e, () => map = map.After(Affine.Move(Of(e, "x"), Of(e, "y"))));
        string named = (string?)e.Attribute("id") ?? group;
        if (used.Name.LocalName == "symbol") { Children(used, map, named, depth + 1); }
        else { Read(used, map, named, depth + 1); }
    }

    private void Shape(XElement e, string kind, Affine map, string group)
    {
        string? id = (string?)e.Attribute("id");
        switch (kind)
        {
            case "path":
                foreach (List<Bezier> stroke in SvgPath.Read((string?)e.Attribute("d") ?? "")) { Add(stroke); }
                break;
            case "rect":
                Add(Rectangle(e));
                break;
            case "circle" when Of(e, "r") is > 0 and var r:
                Add(Shapes.Circle(new(Of(e, "cx"), Of(e, "cy")), r).Segments);
                break;
            case "ellipse" when Of(e, "rx") is > 0 and var rx && Of(e, "ry") is > 0 and var ry:
                Add(Shapes.Ellipse(new(Of(e, "cx"), Of(e, "cy")), rx, ry, 0).Segments);
                break;
            case "line":
                Add([Bezier.Line(new(Of(e, "x1"), Of(e, "y1")), new(Of(e, "x2"), Of(e, "y2")))]);
                break;
            case "polygon":
                Add(Points(e, closed: true));
                break;
            case "polyline":
                Add(Points(e, closed: false));
                break;
            case "text" or "image" or "tspan" or "flowRoot" or "foreignObject":
                _sketch.LeaveOut(kind);
                break;
            default:
                // What belongs to a drawing program, and circles of no size.
                break;
        }

        void Add(IReadOnlyList<Bezier> segments) => _sketch.Add([.. segments.Select(map.Of)], id, group, Line(e));
    }

    private static Bezier[] Points(XElement e, bool closed)
    {
        var scan = new SvgScanner((string?)e.Attribute("points") ?? "");
        var points = new List<Point>();
        while (!scan.AtEnd) { points.Add(new(scan.Number(), scan.Number())); }
        int n = points.Count < 2 ? 0 : closed ? points.Count : points.Count - 1;
        return [.. Enumerable.Range(0, n).Select(i => Bezier.Line(points[i], points[(i + 1) % points.Count])).Where(s => s.P0 != s.P3)];
    }

    private static List<Bezier> Rectangle(XElement e)
    {
        double x = Of(e, "x"), y = Of(e, "y"), w = Of(e, "width"), h = Of(e, "height");
        if (!(w > 0 && h > 0)) { return []; }
        double? typedX = SvgView.Length(e, "rx"), typedY = SvgView.Length(e, "ry");
        double rx = Math.Min(typedX ?? typedY ?? 0, w / 2), ry = Math.Min(typedY ?? typedX ?? 0, h / 2);
        if (!(rx > 0 && ry > 0)) { return [.. Shapes.Rectangle(new(x, y, x + w, y + h)).Segments]; }
        var round = new List<Bezier>();
        (Point Centre, double From)[] corners = [(new(x + rx, y + ry), Math.PI), (new(x + w - rx, y + ry), 1.5 * Math.PI), (new(x + w - rx, y + h - ry), 0), (new(x + rx, y + h - ry), 0.5 * Math.PI)];
        foreach ((Point centre, double from) in corners)
        {
            IReadOnlyList<Bezier> arc = Shapes.EllipseArc(centre, new(rx, 0), new(0, ry), from, Math.PI / 2).Segments;
            if (round.Count > 0) { round.Add(Bezier.Line(round[^1].P3, arc[0].P0)); }
            round.AddRange(arc);
        }

        round.Add(Bezier.Line(round[^1].P3, round[0].P0));
        // Where the rounding takes a whole side, its line has no length.
        return round;
    }

    private static double Of(XElement e, string attribute) => SvgView.Length(e, attribute) ?? 0;

    private static string? GroupName(XElement e) =>
        (string?)e.Attributes().FirstOrDefault(a => a.Name.LocalName == "label") ?? (string?)e.Attribute("id");

    private static bool IsHidden(XElement e)
    {
        string style = ((string?)e.Attribute("style") ?? "").Replace(" ", "", StringComparison.Ordinal);
        return (string?)e.Attribute("display") == "none" || (string?)e.Attribute("visibility") == "hidden"
            || style.Contains("display:none", StringComparison.Ordinal) || style.Contains("visibility:hidden", StringComparison.Ordinal);
    }
}
