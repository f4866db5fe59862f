using System.Text.RegularExpressions;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Boards;

/// <summary>Says in plain words what is wrong with a line that the parser could not read.</summary>
internal static partial class BrokenLine
{
    private const string TypographicQuotes = "“”„‟‘’‚«»″";

    /// <summary>What is wrong, and what to write.</summary>
    /// <param name="line">The line as it stands.</param>
    /// <param name="field">The field that it seems to give, where one was recognised.</param>
    /// <returns>One line.</returns>
    internal static string Words(string line, BoardField? field)
    {
        if (line.TrimEnd('\r').Where(c => char.IsControl(c) && c != '\t').ToList() is [var control, ..])
        {
            return $"holds a character that cannot be shown (U+{(int)control:X4}): delete it";
        }

        string trimmed = TypedText.OneLine(line).Trim();
        if (ForeignComment().IsMatch(trimmed))
        {
            return "is not read: if it is a comment, begin it with #";
        }

        if (trimmed.StartsWith('['))
        {
            return Header(trimmed);
        }

        int equals = trimmed.IndexOf('=', StringComparison.Ordinal);
        return equals < 0
            ? WithoutEquals(trimmed, field)
            : Key(trimmed[..equals].Trim()) ?? Value(trimmed[..equals].Trim(), trimmed[(equals + 1)..].Trim(), field);
    }

    private static string Header(string line)
    {
        Match match = HeaderParts().Match(line);
        string typed = match.Groups["name"].Value;
        string name = typed.Length == 0 ? BoardFields.Outer.Wood.Table.Name : Nearest.Name(typed, TableNames) ?? typed;
        string behind = match.Groups["behind"].Value;
        string header = BoardFields.Tables.FirstOrDefault(t => t.Name == name)?.Header ?? $"[{name}]";
        return typed.Length == 0 ? $"the table's name is missing: write it as [{name}]"
            : !match.Groups["close"].Success ? $"the closing ] is missing: write {header}"
            : behind.Length > 0 && !behind.StartsWith(']') ? $"{header} stands on a line of its own: put what follows it on the next line"
            : $"a table's name stands between {(header.StartsWith("[[", StringComparison.Ordinal) ? "two [ and two ]" : "one [ and one ]")}: write {header}";
    }

    private static string WithoutEquals(string line, BoardField? field)
    {
        if (IsTableName(line, out string name))
        {
            return $"a table's name stands in brackets: write {BoardFields.Tables.First(t => t.Name == name).Header}";
        }

        if (field is null)
        {
            return $"{TypedText.Quote(line)} is not understood: write a key, = and a value in quotes; begin a comment with #";
        }

        string rest = line[field.Key.Length..].TrimStart(' ', '\t', ':');
        return line.Contains(':', StringComparison.Ordinal)
            ? $"= is wanted, not a colon: write {Line(field.Key, Unquoted(rest, field))}"
            : $"the = is missing: write {Line(field.Key, Unquoted(rest, field))}";
    }

    private static string? Key(string key)
    {
        if (key.Length == 0)
        {
            return "the key before = is missing: write one, or delete the line";
        }

        if (BareKey().IsMatch(key))
        {
            return null;
        }

        string joined = key.Replace(' ', '_');
        string? near = Nearest.Name(joined, BoardFields.All.Select(field => field.Key).Distinct());
        string quoted = TypedText.Quote(key);
        return near is not null ? $"{quoted} cannot be a key: write {near} if that is meant"
            : $"{quoted} cannot be a key: a key is letters a to z, digits, _ and -, without spaces";
    }

    private static string Value(string key, string value, BoardField? field)
    {
        if (value.Length == 0 || value[0] == '#')
        {
            return $"the value behind = is missing: write {Line(key, field?.Example ?? "…")}, or delete the line";
        }

        if (value[0] == '=')
        {
            return $"one = is enough: write {Line(key, Unquoted(value.TrimStart('=', ' '), field))}";
        }

        if (TypographicQuotes.Contains(value[0], StringComparison.Ordinal))
        {
            return $"the quotes are not straight ones: write {Line(key, Unquoted(value, field))}";
        }

        return value[0] switch
        {
            '"' or '\'' => Quoted(key, value, field),
            '[' or '{' => $"a list or a group is not read here: write one value, as {Line(key, field?.Example ?? "…")}",
            _ => $"the value stands without quotes: write {Line(key, Unquoted(value, field))}",
        };
    }

    private static string Quoted(string key, string value, BoardField? field)
    {
        char quote = value[0];
        if (value.StartsWith(new string(quote, 3), StringComparison.Ordinal))
        {
            return $"the closing {new string(quote, 3)} is missing: close the text with it, or write it on one line in single quotes";
        }

        int close = Close(value, quote);
        if (close > 0)
        {
            string inside = value[1..close];
            string behind = value[(close + 1)..].Trim();
            if (behind.Length == 0 || behind[0] == '#')
            {
                return $"a backslash has a meaning of its own in double quotes: write {Line(key, inside)}, or / for \\";
            }

            return Behind(key, inside, behind);
        }

        string open = value[1..];
        int other = open.IndexOf(quote == '"' ? '\'' : '"', StringComparison.Ordinal);
        string content = (other >= 0 ? open[..other] : open.Split('#')[0]).Trim();
        return other >= 0
            ? $"the quotes do not match, one is {quote} and one is {open[other]}: write {Line(key, content)}"
            : $"the closing quote is missing: write {Line(key, content)}";
    }

    private static string Behind(string key, string inside, string behind)
    {
        string bare = behind.Split('#')[0].Trim();
        bool isNumber = NumberReader.BeginsWithNumber(inside) && NumberReader.Read(inside) is { Problem: null, Rest: "" };
        return bare switch
        {
            "," or ";" => $"nothing may follow the value: delete the {bare}",
            "\"" or "'" when isNumber => $"write inches as in: {Line(key, inside + " in")}",
            _ when isNumber && KnownUnits.Find(bare) is not null => $"the unit belongs inside of the quotes: write {Line(key, $"{inside} {bare}")}",
            _ when bare[0] is '"' or '\'' => $"a second text stands behind the value: keep one, as {Line(key, inside)}",
            _ => $"{TypedText.Quote(bare)} behind the value is not understood: delete it, or write # before it if it is a comment",
        };
    }

    /// <summary>Where the closing quote of a one-line text stands; -1 where there is none.</summary>
    private static int Close(string value, char quote)
    {
        for (int i = 1; i < value.Length; i++)
        {
            if (value[i] == quote)
            {
                return i;
            }

            if (value[i] == '\\' && quote == '"')
            {
                i++;
            }
        }

        return -1;
    }

    /// <summary>What an unquoted value seems to mean: its comment cut off, quotes taken off, the likely unit added to a bare number.</summary>
    private static string Unquoted(string value, BoardField? field)
    {
        string text = value.Split('#')[0].Trim().Trim('"', '\'', ',', ';').Trim([.. TypographicQuotes]).Trim();
        return field?.Kind switch
        {
            _ when text.Length == 0 => field?.Example ?? "…",
            TypedKind kind when Slip.WithUnit(kind, text) is { } withUnit => withUnit,
            TypedKind kind when !kind.Words.ContainsKey(text) && !TypedValues.Read(text, kind.Dimension).IsRead => field.Example,
            _ => text,
        };
    }

    private static string Line(string key, string value) => $"{key} = {BoardText.Quoted(TypedText.Short(value))}";

    /// <summary>Whether a line is a table's name without its brackets.</summary>
    /// <param name="line">The line.</param>
    /// <param name="name">The table's name.</param>
    internal static bool IsTableName(string line, out string name)
    {
        name = line.Trim().TrimEnd(':').TrimEnd().ToLowerInvariant();
        return TableNames.Contains(name);
    }

    private static IEnumerable<string> TableNames => BoardFields.Tables.Where(table => !table.IsTop).Select(table => table.Name);

    [GeneratedRegex(@"^(//|/\*|;|--|\*|%|!|<!--|\u2014|\u2013)")]
    private static partial Regex ForeignComment();

    [GeneratedRegex(@"^\[+\s*(?<name>[^\]\s#=]*)\s*(?<close>\])?\s*(?<behind>[^#]*)")]
    private static partial Regex HeaderParts();

    [GeneratedRegex("^[A-Za-z0-9_.-]+$|^\"[^\"]*\"$|^'[^']*'$")]
    private static partial Regex BareKey();
}
