using System.Text.RegularExpressions;
using Tomlyn;
using Tomlyn.Parsing;
using Tomlyn.Syntax;

namespace SandwichMech.Workshop.Boards;

/// <summary>A table header as it stands in the text.</summary>
/// <param name="Name">What stands between the brackets; empty where that could not be read.</param>
/// <param name="Line">Its line, from 1.</param>
/// <param name="IsList">True for [[name]].</param>
/// <param name="End">Offset behind the closing bracket.</param>
internal sealed record TomlHeader(string Name, int Line, bool IsList, int End);

/// <summary>A key and its value as they stand in the text.</summary>
/// <param name="Header">The table header above it; null at the top.</param>
/// <param name="Key">The key; its parts joined by dots.</param>
/// <param name="Line">Its line, from 1.</param>
/// <param name="Value">The value; null where the line could not be read.</param>
internal sealed record TomlEntry(TomlHeader? Header, string Key, int Line, ValueSyntax? Value);

/// <summary>A TOML text taken apart, with the lines that could not be read set aside so that all others still can.</summary>
/// <remarks>
/// The parser stumbles on: one missing quote swallows the lines behind it. So the first line that it complains about is put
/// aside, a harmless line with the same key takes its place, and the text is parsed again until nothing is left to complain about.
/// </remarks>
internal sealed partial class TomlSource
{
    // Each costs one more parse; nobody mends more in one go.
    private const int MostBrokenLines = 40;

    private TomlSource(DocumentSyntax document, List<int> broken, int? unreadFrom)
    {
        BrokenLines = broken;
        UnreadFrom = unreadFrom;
        var headers = new List<TomlHeader>();
        var entries = new List<TomlEntry>();
        entries.AddRange(document.KeyValues.Select(pair => Entry(null, pair)));
        foreach (TableSyntaxBase table in document.Tables)
        {
            string name = Unreadable(table.Name) ? "" : Name(table.Name);
            var header = new TomlHeader(name, table.Span.Start.Line + 1, table is TableArraySyntax, table.CloseBracket!.Span.End.Offset + 1);
            headers.Add(header);
            entries.AddRange(table.Items.OfType<KeyValueSyntax>().Select(pair => Entry(header, pair)));
        }

        Headers = headers;
        Entries = [.. entries.Where(entry => entry.Key != PlaceHolder)];

        TomlEntry Entry(TomlHeader? header, KeyValueSyntax pair)
        {
            int line = pair.Span.Start.Line + 1;
            return new(header, Name(pair.Key), line, broken.Contains(line) ? null : pair.Value);
        }

        static bool Unreadable(KeySyntax? name) => Name(name) == PlaceHolder;
    }

    /// <summary>Lines that could not be read, from 1. A table or key that could be guessed still has its header or entry.</summary>
    internal List<int> BrokenLines { get; }

    /// <summary>The line from which on nothing could be read; null where all was.</summary>
    internal int? UnreadFrom { get; }

    /// <summary>All table headers.</summary>
    internal IReadOnlyList<TomlHeader> Headers { get; }

    /// <summary>All keys with their values.</summary>
    internal IReadOnlyList<TomlEntry> Entries { get; }

    private const string PlaceHolder = "?";

    /// <summary>Takes a text apart.</summary>
    /// <param name="text">TOML, perhaps with mistakes; no byte order mark.</param>
    /// <returns>What could be read.</returns>
    internal static TomlSource Parse(string text)
    {
        string[] lines = text.Split('\n');
        var broken = new List<int>();
        while (true)
        {
            var (document, first) = Stumble(lines);
            if (first is not { } line)
            {
                return new(document, broken, null);
            }

            if (broken.Count == MostBrokenLines || broken.Contains(line + 1))
            {
                return new(Stumble(lines[..line]).Document, broken, line + 1);
            }

            broken.Add(line + 1);
            SetAside(lines, line);
        }
    }

    /// <summary>Parses, and finds the first line that is wrong, from 0.</summary>
    private static (DocumentSyntax Document, int? Line) Stumble(string[] lines)
    {
        if (Document(lines) is not { } document)
        {
            // All lines up to and with this one make the parser give up, and without it they do not.
            int good = 0, bad = lines.Length;
            while (bad - good > 1)
            {
                int middle = (good + bad) / 2;
                (good, bad) = Document(lines[..middle]) is null ? (good, middle) : (middle, bad);
            }

            return (new DocumentSyntax(), bad - 1);
        }

        DiagnosticMessage? first = First(document.Diagnostics);
        return (document, first is null ? null : Culprit(document, first.Span.Start, lines.Length));
    }

    /// <summary>The syntax tree; null where the parser gives up.</summary>
    private static DocumentSyntax? Document(string[] lines)
    {
        try
        {
            // With a line end, since a backslash as the very last character is more than the parser bears.
            return SyntaxParser.Parse(string.Join('\n', lines) + "\n", validate: false);
        }
        catch (Exception wrong) when (wrong is TomlException or ArgumentOutOfRangeException)
        {
            // Brackets nested too deep, or half of a character behind a backslash.
            return null;
        }
    }

    private static DiagnosticMessage? First(DiagnosticsBag found)
    {
        DiagnosticMessage? first = null;
        foreach (DiagnosticMessage message in found)
        {
            first = first is null || message.Span.Start.Offset < first.Span.Start.Offset ? message : first;
        }

        return first;
    }

    /// <summary>A value that runs over several lines begins where its key stands, however late the parser noticed.</summary>
    private static int Culprit(DocumentSyntax document, TextPosition noticed, int lines)
    {
        foreach (KeyValueSyntax pair in document.KeyValues.Concat(document.Tables.SelectMany(table => table.Items).OfType<KeyValueSyntax>()))
        {
            if (pair.Span.Start.Offset <= noticed.Offset && noticed.Offset <= pair.Span.End.Offset)
            {
                return pair.Span.Start.Line;
            }
        }

        return Math.Min(noticed.Line, lines - 1);
    }

    private static void SetAside(string[] lines, int at)
    {
        string line = lines[at];
        if (HeaderName().Match(line) is { Success: true } header)
        {
            lines[at] = $"[{(header.Groups["name"] is { Success: true } name ? name.Value : $"\"{PlaceHolder}\"")}]";
            return;
        }

        if (BrokenLine.IsTableName(line, out string table))
        {
            lines[at] = $"[{table}]";
            return;
        }

        lines[at] = KeyName().Match(line) is { Success: true } key ? $"{key.Groups["key"].Value.Replace(' ', '_')} = 0" : "";
        if (OpensManyLines().IsMatch(line))
        {
            // Its other lines mean nothing without it.
            for (int i = at + 1; i < lines.Length && !StartsAfresh().IsMatch(lines[i]); i++)
            {
                lines[i] = "";
            }
        }
    }

    private static string Name(KeySyntax? key) => key?.Key is null
        ? PlaceHolder
        : string.Join('.', key.DotKeys.Select(dotted => dotted.Key).Prepend(key.Key).Select(Part));

    private static string Part(BareKeyOrStringValueSyntax? part) => part switch
    {
        StringValueSyntax quoted => quoted.Value ?? "",
        BareKeySyntax bare => bare.Key?.Text ?? "",
        _ => "",
    };

    [GeneratedRegex(@"^\s*\[+\s*(?<name>[A-Za-z0-9_-]+)?")]
    private static partial Regex HeaderName();

    // A key of two words is one with an underscore.
    [GeneratedRegex(@"^\s*(?<key>[A-Za-z0-9_-]+( [A-Za-z0-9_-]+)?)\s*(=|$)|^\s*(?<key>[A-Za-z0-9_-]+)\s*[:""']")]
    private static partial Regex KeyName();

    [GeneratedRegex(@"=\s*(\[|\{|""""""|''')")]
    private static partial Regex OpensManyLines();

    [GeneratedRegex(@"^\s*($|#|\[\s*[A-Za-z]|[A-Za-z0-9_-]+\s*=)")]
    private static partial Regex StartsAfresh();
}
