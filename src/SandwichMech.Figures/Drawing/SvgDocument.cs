using System.Globalization;
using System.Security;
using System.Text;
using System.Text.RegularExpressions;

namespace SandwichMech.Figures.Drawing;

/// <summary>Puts words into an SVG of shapes.</summary>
/// <remarks>
/// The words are written here and not by Skia: on a machine without fonts Skia leaves them out, and elsewhere it nails
/// every letter to the widths of the font that it found.
/// </remarks>
internal static partial class SvgDocument
{
    /// <summary>The shapes with the words on top.</summary>
    /// <param name="shapes">An SVG document.</param>
    /// <param name="title">Title for screen readers.</param>
    /// <param name="words">Words, drawn in order.</param>
    /// <returns>The document; the same for the same input, whatever was drawn before.</returns>
    internal static string Write(string shapes, string title, IEnumerable<Words> words)
    {
        string body = Renumbered(shapes);
        int end = body.LastIndexOf("</svg>", StringComparison.Ordinal);
        int afterRoot = body.IndexOf('>', body.IndexOf("<svg", StringComparison.Ordinal)) + 1;
        return new StringBuilder()
            .Append(body, 0, afterRoot)
            .Append("\n\t<title>").Append(Escaped(title)).Append("</title>")
            .Append(body, afterRoot, end - afterRoot)
            .AppendJoin("", words.Select(Element))
            .Append("</svg>\n")
            .ToString();
    }

    /// <summary>Clip paths numbered from 1 within the document: Skia counts them through the life of the process.</summary>
    private static string Renumbered(string svg)
    {
        var ids = new Dictionary<string, string>();
        return ClipId().Replace(svg, m =>
        {
            if (!ids.TryGetValue(m.Value, out string? id))
            {
                ids.Add(m.Value, id = string.Create(CultureInfo.InvariantCulture, $"clip{ids.Count + 1}"));
            }

            return id;
        });
    }

    private static string Element(Words w)
    {
        string anchor = w.Anchor switch { Anchor.Start => "start", Anchor.Middle => "middle", _ => "end" };
        string families = string.Join(", ", Fonts.Names.Append("sans-serif"));
        double baseline = w.Y + Words.CapitalMiddle * w.Size;
        string turn = w.Angle == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $" transform=\"rotate({w.Angle:0.##} {w.X:0.##} {w.Y:0.##})\"");
        string halo = w.Halo ? string.Create(CultureInfo.InvariantCulture, $" stroke=\"white\" stroke-width=\"{HaloWidth(w):0.##}\" stroke-linejoin=\"round\" paint-order=\"stroke\"") : "";
        return string.Create(
            CultureInfo.InvariantCulture,
            $"\t<text x=\"{w.X:0.##}\" y=\"{baseline:0.##}\" font-size=\"{w.Size:0.##}\" font-family=\"{families}\" font-weight=\"{(w.Bold ? "bold" : "normal")}\" fill=\"{w.Colour}\" text-anchor=\"{anchor}\"{halo}{turn}>{Escaped(w.Text)}</text>\n");
    }

    /// <summary>Width of the rim around words, pixels; half of it lies under the letters.</summary>
    internal static double HaloWidth(Words w) => w.Size * 0.3;

    private static string Escaped(string text) => SecurityElement.Escape(text);

    [GeneratedRegex(@"\bcl_[0-9a-f]+\b")]
    private static partial Regex ClipId();
}
