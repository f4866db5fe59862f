using System.Text;
using Tomlyn.Syntax;

namespace SandwichMech.Workshop.Boards;

/// <summary>Writes board files: a new one from answers, or one value of an existing one.</summary>
public static class BoardText
{
    private const int LineWidth = 100;

    /// <summary>A complete, commented board file.</summary>
    /// <param name="answers">What was answered, by the field's name as "outer.thickness". A field without an answer stands in the file as a comment, with its default or an example.</param>
    /// <returns>TOML.</returns>
    /// <exception cref="ArgumentException">An answer is for a field that does not exist.</exception>
    public static string New(IReadOnlyDictionary<string, string> answers)
    {
        if (answers.Keys.FirstOrDefault(name => BoardFields.Named(name) is null) is { } unknown)
        {
            throw new ArgumentException($"there is no field '{unknown}'", nameof(answers));
        }

        var text = new StringBuilder();
        Comment(text, "A sandwich soundboard, for `sandwichmech`. Every value stands in quotes with its unit: mm, cm, in, thou; cm², in²; g/m², g/in²; %, °. "
            + "Fractions (1 3/32 in) and decimals with point or comma are read alike. A spread may follow a thickness: ± 0.05 mm means limits, ± 0.03 mm sd a standard deviation. "
            + "A line that begins with # is a comment: take the # away to use it. Of what stands in [[double brackets]] there may be several.");
        foreach (BoardTable table in BoardFields.Tables)
        {
            text.Append('\n');
            Comment(text, table.Help);
            text.Append(table.IsTop ? "" : $"{(table.IsList ? "# " : "")}{table.Header}\n");
            foreach (BoardField field in BoardFields.In(table))
            {
                Comment(text, field.Help + (field.Default is null ? "" : $" Taken when left out: {field.Default}."));
                text.Append(answers.TryGetValue(field.Name, out string? answer)
                    ? $"{field.Key} = {Quoted(answer)}\n"
                    : $"# {field.Key} = {Quoted(field.Offered)}\n");
            }
        }

        return text.ToString();
    }

    /// <summary>Fields whose values differ between two texts of a board file, comments and order aside.</summary>
    /// <param name="before">One text.</param>
    /// <param name="after">The other.</param>
    /// <returns>The field as "inner.thickness", with its value in either; empty where it does not stand there. Of a list's items the number follows.</returns>
    public static IReadOnlyList<(string Field, string Before, string After)> Changes(string before, string after)
    {
        Dictionary<string, string> was = Values(before), now = Values(after);
        return [.. was.Keys.Union(now.Keys).Where(f => was.GetValueOrDefault(f) != now.GetValueOrDefault(f)).Select(f => (f, was.GetValueOrDefault(f, ""), now.GetValueOrDefault(f, "")))];
    }

    private static Dictionary<string, string> Values(string text)
    {
        var values = new Dictionary<string, string>(StringComparer.Ordinal);
        var source = TomlSource.Parse(text.TrimStart('\uFEFF'));
        foreach (TomlEntry e in source.Entries)
        {
            int item = e.Header is { IsList: true } own ? source.Headers.Count(h => h.Name == own.Name && h.Line <= own.Line) : 0;
            string name = e.Header is { } header ? $"{header.Name}{(item > 0 ? $" {item}" : "")}.{e.Key}" : e.Key;
            values[name] = e.Value?.ToString().Trim().Trim('"', '\'') ?? "";
        }

        return values;
    }

    /// <summary>The same text with one value changed or added; comments, layout and line ends stay.</summary>
    /// <param name="text">A board file.</param>
    /// <param name="table">The table's name; empty for the lines before the first table.</param>
    /// <param name="key">The key.</param>
    /// <param name="value">The new value, as typed, without quotes.</param>
    /// <returns>The new text.</returns>
    /// <exception cref="ArgumentException">There is no such field.</exception>
    /// <exception cref="InputException">The text cannot be read as TOML, so that it cannot be known where the value belongs.</exception>
    public static string WithValue(string text, string table, string key, string value)
    {
        BoardField field = BoardFields.All.FirstOrDefault(f => f.Table.Name == table && f.Key == key)
            ?? throw new ArgumentException($"there is no field '{key}' in [{table}]", nameof(key));
        if (text.StartsWith('\uFEFF'))
        {
            return '\uFEFF' + WithValue(text[1..], table, key, value);
        }

        TomlSource source = TomlSource.Parse(text);
        if (source.BrokenLines.Count > 0)
        {
            throw new InputException([new("board file", source.BrokenLines.Min(), null, "cannot be read: mend this line first")]);
        }

        TomlEntry? entry = source.Entries.LastOrDefault(e => (e.Header?.Name ?? "") == table && e.Key == key);
        if (entry?.Value is { } old)
        {
            return string.Concat(text.AsSpan(0, old.Span.Start.Offset), Quoted(value), text.AsSpan(old.Span.End.Offset + 1));
        }

        string newLine = text.Contains("\r\n", StringComparison.Ordinal) ? "\r\n" : "\n";
        string line = $"{key} = {Quoted(value)}";
        TomlHeader? header = source.Headers.FirstOrDefault(h => h.Name == table);
        if (!field.Table.IsTop && header is null)
        {
            string gap = text.Length == 0 || text.EndsWith('\n') ? "" : newLine;
            return $"{text}{gap}{newLine}{field.Table.Header}{newLine}{line}{newLine}";
        }

        // Behind the last value of its table, else below the header, else at the very top.
        int? behind = source.Entries.LastOrDefault(e => (e.Header?.Name ?? "") == table)?.Value?.Span.End.Offset + 1 ?? header?.End;
        if (behind is not { } at)
        {
            return $"{line}{newLine}{text}";
        }

        int end = text.IndexOf('\n', Math.Min(at, text.Length));
        return end < 0 ? $"{text}{newLine}{line}{newLine}" : text.Insert(end + 1, line + newLine);
    }

    /// <summary>The spread that stands behind a field's value: "± 0.05 mm".</summary>
    /// <param name="text">A board file.</param>
    /// <param name="field">The field.</param>
    /// <returns>The spread as typed; nothing where none stands there.</returns>
    internal static string? SpreadOf(string text, BoardField field)
    {
        string? value = (TomlSource.Parse(text).Entries.LastOrDefault(e => (e.Header?.Name ?? "") == field.Table.Name && e.Key == field.Key)?.Value as StringValueSyntax)?.Value;
        int at = value?.IndexOfAny(['±', '+']) ?? -1;
        return at > 0 ? value![at..].Trim() : null;
    }

    /// <summary>A text as a TOML value: in double quotes, or in single ones where that saves escapes.</summary>
    /// <param name="value">Any text.</param>
    /// <returns>The value with its quotes.</returns>
    public static string Quoted(string value)
    {
        bool needsEscapes = value.Any(c => c is '"' or '\\' || char.IsControl(c));
        if (!needsEscapes)
        {
            return $"\"{value}\"";
        }

        if (!value.Any(c => c is '\'' || char.IsControl(c)))
        {
            return $"'{value}'";
        }

        var escaped = new StringBuilder("\"");
        foreach (char c in value)
        {
            escaped.Append(c switch
            {
                '"' => "\\\"",
                '\\' => "\\\\",
                _ when char.IsControl(c) => $"\\u{(int)c:X4}",
                _ => c.ToString(),
            });
        }

        return escaped.Append('"').ToString();
    }

    private static void Comment(StringBuilder text, string words)
    {
        int column = 0;
        foreach (string word in words.Split(' '))
        {
            if (column == 0 || column + word.Length + 1 > LineWidth)
            {
                text.Append(column == 0 ? "# " : "\n# ").Append(word);
                column = 2 + word.Length;
            }
            else
            {
                text.Append(' ').Append(word);
                column += word.Length + 1;
            }
        }

        text.Append('\n');
    }
}
