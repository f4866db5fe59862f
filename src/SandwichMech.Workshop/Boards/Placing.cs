using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Boards;

/// <summary>A field that the file gives, and the entry that gives it.</summary>
/// <param name="Field">The field.</param>
/// <param name="Entry">Where it stands.</param>
internal sealed record GivenField(BoardField Field, TomlEntry Entry);

/// <summary>What the file gives.</summary>
/// <param name="Given">Its fields; those of a list know by their entry's header which one they belong to.</param>
/// <param name="Items">The headers of lists, one an item, in the order of the file.</param>
internal sealed record PlacedFields(IReadOnlyCollection<GivenField> Given, IReadOnlyList<ListItem> Items);

/// <summary>One of several, as each [[let_in]].</summary>
/// <param name="Table">The list.</param>
/// <param name="Header">Its header.</param>
internal sealed record ListItem(BoardTable Table, TomlHeader Header);

/// <summary>Which field each entry of the file gives. What stands in the wrong place is reported, and read all the same, so that nothing is reported as missing too.</summary>
internal sealed class Placing
{
    private readonly TomlSource _source;
    private readonly Action<int?, string?, string> _report;
    private readonly string[] _lines;
    private readonly Dictionary<TomlHeader, BoardTable?> _tables = [];
    private readonly Dictionary<BoardTable, int> _tableLines = [];
    private readonly Dictionary<string, GivenField> _given = [];
    private readonly List<ListItem> _items = [];
    // Tables in which a key may hide behind something that could not be read.
    private readonly HashSet<BoardTable> _doubtful = [];
    private bool _anyDoubtful;

    private Placing(TomlSource source, string text, Action<int?, string?, string> report) =>
        (_source, _lines, _report) = (source, text.Split('\n'), report);

    /// <summary>Places all entries.</summary>
    /// <param name="source">The file taken apart.</param>
    /// <param name="text">Its text.</param>
    /// <param name="report">Takes each mistake: line, field, message.</param>
    /// <returns>The fields that the file gives.</returns>
    internal static PlacedFields Of(TomlSource source, string text, Action<int?, string?, string> report)
    {
        var placing = new Placing(source, text, report);
        placing.PlaceTables();
        placing.PlaceEntries();
        placing.ReportLinesWithoutEntry();
        placing.ReportMissing();
        return new(placing._given.Values, placing._items);
    }

    private static IEnumerable<BoardTable> NamedTables => BoardFields.Tables.Where(table => !table.IsTop);

    private static BoardTable Top => BoardFields.Tables.First(table => table.IsTop);

    private void PlaceTables()
    {
        foreach (TomlHeader header in _source.Headers)
        {
            BoardTable? table = NamedTables.FirstOrDefault(t => t.Name == header.Name);
            if (_source.BrokenLines.Contains(header.Line))
            {
                table ??= Near(header.Name);
                _anyDoubtful |= table is null;
                Report(header.Line, table?.Name, BrokenLine.Words(_lines[header.Line - 1], null));
                // What stands behind the bracket may be a key of this table.
                Doubt(table, _lines[header.Line - 1].Contains('=', StringComparison.Ordinal));
            }
            else if (table is null)
            {
                table = Near(header.Name);
                Report(header.Line, Plain(header.Name), $"there is no table of this name{(table is null ? "" : $"; did you mean {table.Header}?")} (tables: {string.Join(", ", NamedTables.Select(t => t.Name))})");
            }
            else if (header.IsList && !table.IsList)
            {
                Report(header.Line, table.Name, $"double brackets make a list, and a board has this but once: write [{table.Name}]");
            }
            else if (table.IsList && !header.IsList)
            {
                Report(header.Line, table.Name, $"a board may have several of these, so double brackets are wanted: write {table.Header}");
            }

            _tables[header] = table;
            if (table is { IsList: true })
            {
                _items.Add(new(table, header));
            }
            else if (table is not null && !_tableLines.TryAdd(table, header.Line))
            {
                Report(header.Line, table.Name, $"this table is already in line {_tableLines[table]}: keep its keys together under one [{table.Name}]");
            }
        }

        static BoardTable? Near(string typed) => Nearest.Name(typed, NamedTables.Select(t => t.Name)) is { } near
            ? NamedTables.First(t => t.Name == near)
            : null;
    }

    private void PlaceEntries()
    {
        var misplaced = new List<GivenField>();
        foreach (TomlEntry entry in _source.Entries)
        {
            BoardTable? table = entry.Header is null ? Top : _tables[entry.Header];
            if (table is null)
            {
                continue;
            }

            BoardField? exact = BoardFields.In(table).FirstOrDefault(f => f.Key == entry.Key);
            BoardField? meant = exact ?? (entry.Value is null ? Broken(table, entry) : Misplaced(table, entry));
            if (exact is null)
            {
                misplaced.AddRange(meant is null ? [] : [new(meant, entry)]);
                continue;
            }

            if (entry.Value is null)
            {
                Report(entry.Line, exact.Name, BrokenLine.Words(_lines[entry.Line - 1], exact));
            }

            if (!_given.TryAdd(Name(exact, entry), new(exact, entry)))
            {
                Report(entry.Line, exact.Name, $"is already given in line {_given[Name(exact, entry)].Entry.Line}: keep one of the two");
            }
        }

        // What is given in its right place counts before what only seems to be meant.
        foreach (GivenField given in misplaced.Where(g => !g.Field.Table.IsList || g.Entry.Header is { } header && _tables[header] == g.Field.Table))
        {
            _given.TryAdd(Name(given.Field, given.Entry), given);
        }
    }

    // In a list the same field stands in each item.
    private static string Name(BoardField field, TomlEntry entry) => Name(field, entry.Header);

    private static string Name(BoardField field, TomlHeader? header) => field.Table.IsList ? $"{field.Name} {header!.Line}" : field.Name;

    /// <summary>Reports a line that could not be read and whose key is not one of its table; gives the field that seems to be meant.</summary>
    private BoardField? Broken(BoardTable table, TomlEntry entry)
    {
        BoardField? field = Elsewhere(entry.Key) is [var only] ? only : null;
        Report(entry.Line, Named(table, entry.Key), BrokenLine.Words(_lines[entry.Line - 1], field));
        Doubt(table, field is null);
        return field;
    }

    /// <summary>Reports a key that is not one of its table; gives the field that seems to be meant.</summary>
    private BoardField? Misplaced(BoardTable table, TomlEntry entry)
    {
        string name = Named(table, entry.Key);
        if (table.IsTop && NamedTables.FirstOrDefault(t => t.Name == entry.Key) is { } asValue)
        {
            Report(entry.Line, name, $"this is a table: write {asValue.Header} on a line of its own and below it "
                + string.Join(", ", BoardFields.In(asValue).Where(f => f.Required).DefaultIfEmpty(BoardFields.In(asValue).First()).Select(f => $"{f.Key} = {BoardText.Quoted(f.Example)}")));
            _doubtful.Add(asValue);
            return null;
        }

        if (table.IsTop && BoardFields.Named(entry.Key) is { } dotted)
        {
            Report(entry.Line, dotted.Name, $"a key with a dot is not read: write {dotted.Table.Header} on a line of its own and below it {dotted.Key} = …");
            return dotted;
        }

        BoardField[] elsewhere = Elsewhere(entry.Key);
        if (elsewhere.Length > 0)
        {
            string places = elsewhere[0].Table.IsTop
                ? "at the top, before the first table"
                : "under " + string.Join(" or ", elsewhere.Select(f => f.Table.Header));
            Report(entry.Line, name, $"{entry.Key} does not belong {(table.IsTop ? "before the first table" : $"under {table.Header}")}: write it {places}");
            return elsewhere is [var only] ? only : null;
        }

        string? here = Nearest.Name(entry.Key, BoardFields.In(table).Select(f => f.Key));
        string? there = here is null ? Nearest.Name(entry.Key, BoardFields.All.Select(f => f.Key).Distinct()) : null;
        Report(entry.Line, name, "there is no key of this name"
            + (here is not null ? $"; did you mean {here}?"
                : there is not null ? $"; did you mean {string.Join(" or ", Elsewhere(there).Select(f => f.Table.IsTop ? $"{there} at the top" : $"{there} under {f.Table.Header}"))}?"
                : "")
            + $" (keys {(table.IsTop ? "before the first table" : $"of {table.Header}")}: {string.Join(", ", BoardFields.In(table).Select(f => f.Key))})");
        return here is not null ? BoardFields.In(table).First(f => f.Key == here) : null;
    }

    private static BoardField[] Elsewhere(string key) => [.. BoardFields.All.Where(f => f.Key == key)];

    private void ReportLinesWithoutEntry()
    {
        foreach (int line in _source.BrokenLines)
        {
            if (_source.Headers.Any(h => h.Line == line) || _source.Entries.Any(e => e.Line == line))
            {
                continue;
            }

            TomlHeader? header = _source.Headers.LastOrDefault(h => h.Line < line);
            BoardTable? table = header is null ? Top : _tables[header];
            Report(line, table is { IsTop: false } ? table.Name : null, BrokenLine.Words(_lines[line - 1], null));
            Doubt(table, true);
        }

        if (_source.UnreadFrom is { } from)
        {
            _anyDoubtful = true;
            Report(from, null, "from here on nothing could be read: mend the other mistakes first");
        }
    }

    private void Doubt(BoardTable? table, bool doubtful)
    {
        if (doubtful && table is not null)
        {
            _doubtful.Add(table);
        }
    }

    private void ReportMissing()
    {
        foreach (BoardField field in BoardFields.All.Where(f => f.Required && !f.Table.IsList && !IsGivenOrMayBe(f) && !f.Unless.Any(IsGivenOrMayBe)))
        {
            bool hasTable = _tableLines.TryGetValue(field.Table, out int line);
            if (hasTable || !_anyDoubtful)
            {
                Report(hasTable ? line : null, field.Name,
                    $"is missing: write {field.Key} = {BoardText.Quoted(field.Example)}, or what yours is, under [{field.Table.Name}]"
                    + string.Concat(field.Unless.Select(instead => $"; or {instead.Key} under [{instead.Table.Name}]")));
            }
        }

        foreach (ListItem item in _items)
        {
            foreach (BoardField field in BoardFields.In(item.Table).Where(f => f.Required && !_given.ContainsKey(Name(f, item.Header)) && !_doubtful.Contains(item.Table)))
            {
                Report(item.Header.Line, field.Name, $"is missing: write {field.Key} = {BoardText.Quoted(field.Example)}, or what yours is, below this {item.Table.Header}");
            }
        }

        bool IsGivenOrMayBe(BoardField field) => _given.ContainsKey(field.Name) || _doubtful.Contains(field.Table);
    }

    private void Report(int? line, string? field, string message) => _report(line, field, message);

    private static string Named(BoardTable table, string key) => table.IsTop ? Plain(key) : $"{table.Name}.{Plain(key)}";

    /// <summary>A name from the file, safe to print.</summary>
    private static string Plain(string name) => TypedText.Short(TypedText.OneLine(name));
}
