using System.Text;
using System.Xml;
using System.Xml.Linq;
using SandwichMech.Figures.Drawing;
using SandwichMech.Workshop;

namespace SandwichMech.Figures.Pages;

/// <summary>A sheet to print for the bench: one file that needs no other, well-formed as XML too.</summary>
public sealed class Page
{
    // A4 is 210 mm wide and Letter 279 mm high: with these margins a page that fits 194 mm by 265 mm fits both.
    // It lies on the bench and is read at arm's length: nothing below 12 points, what is weighed 18 and more.
    private const string Style = $$"""
        @page { margin: 7mm 8mm; }
        * { box-sizing: border-box; }
        body { font: 12pt/1.13 Arial, Helvetica, "Liberation Sans", sans-serif; color: {{Palette.Ink}}; background: #ffffff; max-width: 194mm; margin: 0 auto; }
        h1 { font-size: 16pt; margin: 0 0 0.5mm; white-space: nowrap; overflow: hidden; text-overflow: ellipsis; }
        h2 { font-size: 12.5pt; margin: 1.4mm 0 0.5mm; border-bottom: 0.4mm solid {{Palette.Ink}}; break-after: avoid; }
        p { margin: 0 0 0.5mm; }
        ul { margin: 0; padding: 0; list-style: none; }
        li { margin: 0 0 0.3mm; padding-left: 5mm; text-indent: -5mm; break-inside: avoid; }
        table { width: 100%; border-collapse: collapse; break-inside: avoid; }
        th { text-align: left; font-weight: bold; vertical-align: bottom; line-height: 1; border-bottom: 0.3mm solid {{Palette.Frame}}; }
        td, th { padding: 0.3mm 1mm; }
        td { vertical-align: middle; border-bottom: 0.2mm solid {{Palette.Grid}}; }
        .big td { padding: 0.6mm 1mm; border-bottom: 0.3mm solid {{Palette.Frame}}; }
        .big th { text-align: center; }
        .big .do { font-size: 18pt; line-height: 1; }
        .big .reads { font-size: 30pt; line-height: 1; font-weight: bold; text-align: right; white-space: nowrap; font-variant-numeric: tabular-nums; }
        .box { display: inline-block; width: 4mm; height: 4mm; border: 0.4mm solid {{Palette.Ink}}; vertical-align: -0.5mm; text-indent: 0; }
        .big .box { width: 8mm; height: 8mm; }
        .blank { display: inline-block; width: 100%; height: 6.5mm; border-bottom: 0.3mm solid {{Palette.Ink}}; }
        .cautions { border: 0.6mm solid {{Palette.Ink}}; padding: 0.8mm 2mm; margin: 1.5mm 0 0; line-height: 1.08; break-inside: avoid; }
        .cautions li { margin: 0; }
        .small { color: {{Palette.Muted}}; }
        @media screen { body { padding: 8mm; } }
        """;

    private readonly string _title;
    private readonly List<XElement> _body = [];

    internal Page(string title)
    {
        _title = Clean(title);
        _body.Add(Element("h1", title));
    }

    /// <summary>Refuses a name that no sheet can have, before anything is done.</summary>
    /// <param name="path">The name.</param>
    /// <param name="option">What named it.</param>
    /// <exception cref="InputException">It does not end in .html, or there is no such folder.</exception>
    public static void CheckName(string path, string option)
    {
        if (Path.GetExtension(path).ToUpperInvariant() is not (".HTML" or ".HTM"))
        {
            throw new InputException(option, $"{path}: a sheet is written as a page for the browser: give a name that ends in .html");
        }

        WholeFile.CheckPlace(path, option);
    }

    /// <summary>Writes the page whole or not at all.</summary>
    /// <param name="path">The file; replaced where it is there already.</param>
    /// <exception cref="IOException">It cannot be written; the message says why.</exception>
    public void Save(string path) => WholeFile.Write(path, Encoding.UTF8.GetBytes(Html()), "the sheet");

    internal void Heading(string text) => _body.Add(Element("h2", text));

    internal void Line(string text) => _body.Add(Element("p", text));

    internal void Small(string text) => _body.Add(Element("p", text, "small"));

    /// <summary>Steps with a number each that is read at arm's length, and boxes to tick.</summary>
    internal void Big(IEnumerable<(string Do, string Reads)> steps, params string[] ticks) => _body.Add(new XElement("table",
        new XAttribute("class", "big"),
        new XElement("tr", Element("th", ""), Element("th", ""), ticks.Select(t => Element("th", t))),
        steps.Select(s => new XElement("tr", Element("td", s.Do, "do"), Element("td", s.Reads, "reads"), ticks.Select(_ => new XElement("td", Box()))))));

    /// <summary>A table; an empty cell is a line to write on.</summary>
    internal void Table(IReadOnlyList<string> header, IEnumerable<IReadOnlyList<string>> rows) => _body.Add(new XElement("table",
        new XElement("tr", header.Select(h => Element("th", h))),
        rows.Select(row => new XElement("tr", row.Select(cell => cell.Length == 0 ? new XElement("td", Element("span", "", "blank")) : Element("td", cell))))));

    internal void Ticks(IEnumerable<string> things) => _body.Add(new XElement("ul", things.Select(t => new XElement("li", Box(), " " + Clean(t)))));

    internal void Cautions(string title, IEnumerable<string> cautions) => _body.Add(new XElement("div",
        new XAttribute("class", "cautions"), new XElement("b", Clean(title)), new XElement("ul", cautions.Select(c => Element("li", "! " + c)))));

    internal string Html()
    {
        XNamespace xhtml = "http://www.w3.org/1999/xhtml";
        var html = new XElement("html",
            new XAttribute("lang", "en"),
            new XElement("head", new XElement("meta", new XAttribute("charset", "utf-8")), new XElement("title", _title), new XElement("style", Style)),
            new XElement("body", _body));
        foreach (XElement e in html.DescendantsAndSelf()) { e.Name = xhtml + e.Name.LocalName; }
        return "<!DOCTYPE html>\n" + html + "\n";
    }

    private static XElement Box() => Element("span", "", "box");

    // An empty text makes a start and an end tag, which a browser needs.
    private static XElement Element(string name, string text, string? style = null) =>
        new(name, style is null ? null : new XAttribute("class", style), Clean(text));

    // XML has no way to write a control character; a percent sign stays on the line of its number.
    private static string Clean(string text) => string.Concat(text.Replace(" %", "\u00A0%", StringComparison.Ordinal).Select((c, i) =>
        XmlConvert.IsXmlChar(c) || (char.IsHighSurrogate(c) && i + 1 < text.Length && char.IsLowSurrogate(text[i + 1])) || (char.IsLowSurrogate(c) && i > 0 && char.IsHighSurrogate(text[i - 1]))
            ? c : '\uFFFD'));
}
