using System.Xml.Linq;

namespace SandwichMech.Workshop.Drawings;

/// <summary>Sizes, view boxes and transforms of SVG (SVG 1.1, sections 7.6 to 7.10); lengths in px of 1/96 in.</summary>
internal static class SvgView
{
    internal const double PerInch = 96;

    private static readonly Dictionary<string, double> Units = new(StringComparer.OrdinalIgnoreCase)
    {
        [""] = 1,
        ["px"] = 1,
        ["in"] = PerInch,
        ["cm"] = PerInch / 2.54,
        ["mm"] = PerInch / 25.4,
        ["q"] = PerInch / 101.6,
        ["pt"] = PerInch / 72,
        ["pc"] = PerInch / 6,
    };

    /// <summary>A length in px; nothing where it is left out or a share of something unknown.</summary>
    /// <exception cref="SvgSyntaxException">It is no length.</exception>
    internal static double? Length(XElement element, string attribute) => Length(element, attribute, out _);

    /// <summary>A length in px, and the unit written behind it.</summary>
    internal static double? Length(XElement element, string attribute, out string unit)
    {
        unit = "";
        if ((string?)element.Attribute(attribute) is not { } text || text.Trim() is "" or "auto") { return null; }
        text = text.Trim();
        int end = text.Length;
        while (end > 0 && !char.IsAsciiDigit(text[end - 1]) && text[end - 1] != '.') { end--; }
        unit = text[end..].Trim();
        if (unit == "%") { return null; }
        if (MachineNumber.Read(text.AsSpan(0, end)) is not { } number) { throw new SvgSyntaxException($"{attribute} = {Quoted(text)} is no length"); }
        if (!Units.TryGetValue(unit, out double px)) { throw new SvgSyntaxException($"{attribute} = {Quoted(text)} has a unit that is not read here: use mm, cm, in, pt or px"); }
        return number * px;
    }

    /// <summary>From the numbers inside an svg element to the place around it.</summary>
    /// <param name="svg">The element; its width and height are known or left out.</param>
    internal static Affine Inside(XElement svg)
    {
        if ((string?)svg.Attribute("viewBox") is not { } text) { return Affine.Identity; }
        var scan = new SvgScanner(text);
        double x = scan.Number(), y = scan.Number(), w = scan.Number(), h = scan.Number();
        if (!(w > 0 && h > 0)) { throw new SvgSyntaxException($"viewBox = {Quoted(text)} has no size: its last two numbers have to be greater than 0"); }
        double? width = Length(svg, "width"), height = Length(svg, "height");
        if (width is null && height is null) { return Affine.Move(-x, -y); }
        double sx = (width ?? height!.Value / h * w) / w, sy = (height ?? width!.Value / w * h) / h;
        if (!(sx > 0 && sy > 0)) { throw new SvgSyntaxException("width and height have to be greater than 0"); }
        string[] fit = ((string?)svg.Attribute("preserveAspectRatio") ?? "").Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        string align = fit.FirstOrDefault(word => word != "defer") ?? "xMidYMid";
        double dx = 0, dy = 0;
        if (align != "none")
        {
            double s = fit.Contains("slice") ? Math.Max(sx, sy) : Math.Min(sx, sy);
            dx = Share(align, 'x') * (sx - s) * w;
            dy = Share(align, 'Y') * (sy - s) * h;
            (sx, sy) = (s, s);
        }

        return Affine.Move(dx, dy).After(Affine.Scale(sx, sy)).After(Affine.Move(-x, -y));
    }

    // xMin, xMid or xMax, YMin, YMid or YMax.
    private static double Share(string align, char axis)
    {
        int at = align.IndexOf(axis, StringComparison.Ordinal);
        return (at >= 0 && at + 4 <= align.Length ? align.Substring(at + 1, 3) : "") switch { "Min" => 0, "Max" => 1, _ => 0.5 };
    }

    /// <summary>The map of a transform attribute: the last one written acts first.</summary>
    /// <exception cref="SvgSyntaxException">It cannot be read.</exception>
    internal static Affine Transform(string? text)
    {
        Affine map = Affine.Identity;
        if (string.IsNullOrWhiteSpace(text) || text.Trim() == "none") { return map; }
        var scan = new SvgScanner(text);
        while (!scan.AtEnd)
        {
            string name = scan.Function();
            var n = new List<double>();
            while (!scan.Closes()) { n.Add(scan.Number()); }
            map = map.After(One(name, n));
        }

        return map;
    }

    private static Affine One(string name, List<double> n) => (name, n.Count) switch
    {
        ("matrix", 6) => new(n[0], n[1], n[2], n[3], n[4], n[5]),
        ("translate", 1) => Affine.Move(n[0], 0),
        ("translate", 2) => Affine.Move(n[0], n[1]),
        ("scale", 1) => Affine.Scale(n[0], n[0]),
        ("scale", 2) => Affine.Scale(n[0], n[1]),
        ("rotate", 1) => Affine.Turn(n[0] * Math.PI / 180),
        ("rotate", 3) => Affine.Move(n[1], n[2]).After(Affine.Turn(n[0] * Math.PI / 180)).After(Affine.Move(-n[1], -n[2])),
        ("skewX", 1) => new(1, 0, Math.Tan(n[0] * Math.PI / 180), 1, 0, 0),
        ("skewY", 1) => new(1, Math.Tan(n[0] * Math.PI / 180), 0, 1, 0, 0),
        _ => throw new SvgSyntaxException($"the transform '{Workshop.Units.TypedText.Short(name)}' with {n.Count} numbers is none of SVG's"),
    };

    private static string Quoted(string text) => $"\"{Workshop.Units.TypedText.Short(Workshop.Units.TypedText.OneLine(text))}\"";
}
