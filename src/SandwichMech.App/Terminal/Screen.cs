using SandwichMech.Core.Uncertainty;
using SandwichMech.Workshop.Units;

namespace SandwichMech.App.Terminal;

/// <summary>Writes results for a person: headings, tables, wrapped lines, values in the units asked for.</summary>
internal sealed class Screen(TextWriter writer, bool color, UnitSystem units)
{
    private const int Width = 100;
    private const double WorthNaming = 0.1;

    internal UnitSystem Units => units;

    internal void Heading(string text)
    {
        writer.WriteLine();
        writer.WriteLine(Bold(text));
    }

    internal void Title(string text) => writer.WriteLine(Bold(text));

    internal void Table(TextTable table)
    {
        foreach (string line in table.Lines(s => color ? $"\e[2m{s}\e[0m" : s))
        {
            writer.WriteLine(line);
        }
    }

    internal void Line(string text = "")
    {
        foreach (string line in Wrap(text))
        {
            writer.WriteLine(line);
        }
    }

    internal void Warnings(IEnumerable<string> warnings)
    {
        foreach (string w in warnings)
        {
            Line($"Note: {w}");
        }
    }

    internal string Text(double si, Shown kind) => Display.Text(si, kind, units);

    internal string Number(double si, Shown kind) => Display.Number(si, kind, units);

    internal string Unit(Shown kind) => Display.Unit(kind, units);

    internal string Range(Prediction p, Shown kind) =>
        p.High90 > p.Low90 ? $"{Number(p.Low90, kind)} to {Number(p.High90, kind)}" : "";

    /// <summary>The 50 % interval.</summary>
    internal string Likely(Prediction p, Shown kind) =>
        p.High50 > p.Low50 ? $"{Number(p.Low50, kind)} to {Number(p.High50, kind)}" : "";

    /// <summary>The one largest source, for tables that have no room for two.</summary>
    internal static string MostFrom(Prediction p) => MostlyFrom(p with { MostlyFrom = [.. p.MostlyFrom.Take(1)] });

    internal static string MostlyFrom(Prediction p) =>
        string.Join(", ", p.MostlyFrom.Where(s => s.Share >= WorthNaming).Take(2).Select(s => $"{s.Input} {s.Share * 100:F0} %"));

    private string Bold(string text) => color ? $"\e[1m{text}\e[0m" : text;

    private static IEnumerable<string> Wrap(string text)
    {
        while (text.Length > Width && text.LastIndexOf(' ', Width) is var cut and > 0)
        {
            yield return text[..cut];
            text = "  " + text[(cut + 1)..];
        }

        yield return text;
    }
}
