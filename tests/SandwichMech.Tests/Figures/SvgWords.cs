using System.Globalization;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using SandwichMech.Figures;
using SkiaSharp;

namespace SandwichMech.Tests.Pictures;

/// <summary>One piece of text of an SVG, with the room it takes in the font of this machine.</summary>
internal sealed record SvgWord(string Text, double X, double Baseline, double Size, bool Bold, string Anchor, double Angle, double TurnX, double TurnY)
{
    /// <summary>Middle of the capitals.</summary>
    internal double Middle => Baseline - 0.36 * Size;

    /// <summary>Width in the font of this machine, or a usual guess without one.</summary>
    internal double Width { get; } = Measure(Text, Size, Bold);

    /// <summary>The four corners, from the top of the capitals to below the line, turned as the text is.</summary>
    internal (double X, double Y)[] Corners()
    {
        double left = X - Anchor switch { "start" => 0, "middle" => Width / 2, _ => Width };
        double top = Baseline - 0.75 * Size, bottom = Baseline + 0.22 * Size;
        (double sin, double cos) = Math.SinCos(Angle * Math.PI / 180);
        return [.. new[] { (left, top), (left + Width, top), (left + Width, bottom), (left, bottom) }.Select(p =>
            (TurnX + (p.Item1 - TurnX) * cos - (p.Item2 - TurnY) * sin, TurnY + (p.Item1 - TurnX) * sin + (p.Item2 - TurnY) * cos))];
    }

    /// <summary>Whether two turned rectangles overlap: none of their sides' directions parts them.</summary>
    internal bool Overlaps(SvgWord other)
    {
        (double X, double Y)[] a = Corners(), b = other.Corners();
        foreach ((double X, double Y)[] corners in new[] { a, b })
        {
            foreach (int i in new[] { 0, 1 })
            {
                double nx = corners[i + 1].X - corners[i].X, ny = corners[i + 1].Y - corners[i].Y;
                double Along((double X, double Y) p) => p.X * nx + p.Y * ny;
                if (a.Max(Along) <= b.Min(Along) || b.Max(Along) <= a.Min(Along))
                {
                    return false;
                }
            }
        }

        return true;
    }

    private static double Measure(string text, double size, bool bold)
    {
        using SKTypeface? face = Figures.Drawing.Fonts.Find(Figures.Drawing.Fonts.OfThisMachine, bold);
        if (face is null)
        {
            return text.Length * size * 0.6;
        }

        using var font = new SKFont(face, (float)size) { Subpixel = true, Hinting = SKFontHinting.None };
        return font.MeasureText(text);
    }
}

/// <summary>Reads the text of an SVG.</summary>
internal static partial class SvgWords
{
    internal static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    internal static IReadOnlyList<SvgWord> Of(Picture picture) => Of(picture.Svg());

    internal static IReadOnlyList<SvgWord> Of(string svg) => [.. XDocument.Parse(svg).Descendants(Svg + "text").Select(t =>
    {
        double Number(string name) => double.Parse(t.Attribute(name)!.Value, CultureInfo.InvariantCulture);
        double[] turn = t.Attribute("transform") is { } transform
            ? [.. Turn().Match(transform.Value).Groups.Values.Skip(1).Select(g => double.Parse(g.Value, CultureInfo.InvariantCulture))]
            : [0, 0, 0];
        return new SvgWord(
            t.Value, Number("x"), Number("y"), Number("font-size"), t.Attribute("font-weight")!.Value == "bold", t.Attribute("text-anchor")!.Value, turn[0], turn[1], turn[2]);
    })];

    [GeneratedRegex(@"^rotate\((\S+) (\S+) (\S+)\)$")]
    private static partial Regex Turn();
}
