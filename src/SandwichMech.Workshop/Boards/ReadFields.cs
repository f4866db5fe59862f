using SandwichMech.Workshop.Tables;
using SandwichMech.Workshop.Units;
using Tomlyn.Syntax;

namespace SandwichMech.Workshop.Boards;

/// <summary>The fields that a board file gives, each read on its own.</summary>
internal sealed class ReadFields
{
    private readonly Findings _findings;
    private readonly string _text;
    private readonly Dictionary<string, ReadField> _read = [];
    private readonly HashSet<string> _given = [];
    private readonly List<ReadFields> _items = [];

    private ReadFields(string text, MaterialTables tables, Findings findings) => (_text, Tables, _findings) = (text, tables, findings);

    /// <summary>Where names are looked up: the given tables, with the maker's own where the file names their folder and the pieces that it names.</summary>
    internal MaterialTables Tables { get; private set; }

    /// <summary>The outline from a drawing, where the file names one that could be read.</summary>
    internal Drawings.DrawnOutline? Drawn { get; set; }

    /// <summary>The border from a drawing of its own, of one of a list that names such a drawing and where it could be read.</summary>
    internal Core.Outlines.Curve? OwnBorder { get; set; }

    /// <summary>The list that this is one of, and its header's line; nothing for the file as a whole.</summary>
    internal ListItem? Item { get; private init; }

    /// <summary>Reads every field; what is wrong goes to the findings.</summary>
    internal static ReadFields Of(string text, MaterialTables tables, Findings findings)
    {
        var fields = new ReadFields(text, tables, findings);
        PlacedFields placed = Placing.Of(TomlSource.Parse(text), text, findings.Report);
        IReadOnlyCollection<GivenField> given = placed.Given;
        bool tablesAreRead = given.FirstOrDefault(g => g.Field == BoardFields.OwnTables) is not { } own || fields.ReadOwnTables(own);
        foreach (GivenField one in given.Where(g => g.Field != BoardFields.OwnTables))
        {
            if (!one.Field.Table.IsList)
            {
                fields._given.Add(one.Field.Name);
                fields.Read(one, tablesAreRead);
            }
        }

        foreach (ListItem item in placed.Items)
        {
            var alone = new ReadFields(text, fields.Tables, findings) { Item = item };
            foreach (GivenField one in given.Where(g => g.Field.Table.IsList && g.Entry.Header == item.Header))
            {
                alone._given.Add(one.Field.Name);
                alone.Read(one, tablesAreRead);
            }

            // A piece that it names is found in the file's tables too.
            fields.Tables = alone.Tables;
            fields._items.Add(alone);
        }

        return fields;
    }

    /// <summary>What the file gives of a list, in its order; each knows its own fields alone.</summary>
    internal IEnumerable<ReadFields> Items(BoardTable table) => _items.Where(i => i.Item!.Table == table);

    /// <summary>Whether the file gives a field, be it rightly or wrongly.</summary>
    internal bool IsGiven(BoardField field) => _given.Contains(field.Name);

    /// <summary>What was read; null where the field is not given or wrong.</summary>
    internal FieldReading? Reading(BoardField field) => _read.TryGetValue(field.Name, out var read) ? read.Reading : null;

    /// <summary>The number that was read; null where the field is not given or wrong.</summary>
    internal TypedValue? Typed(BoardField field) => Reading(field)?.Value;

    /// <summary>The line of a field that was read.</summary>
    internal int Line(BoardField field) => _read[field.Name].Line;

    /// <summary>The line of a field, where it was read; else that of the list's header.</summary>
    internal int? LineOrNull(BoardField field) => _read.TryGetValue(field.Name, out var read) ? read.Line : Item?.Header.Line;

    private sealed record ReadField(FieldReading Reading, int Line);

    private void Read(GivenField given, bool tablesAreRead)
    {
        var (field, entry) = given;
        switch (Reading(given))
        {
            case null:
            // A name may be one of the maker's own, whose tables could not be read.
            case { Problem: not null } when field.Kind is NameKind && !tablesAreRead:
                break;
            case { Problem: { } problem }:
                _findings.Report(entry.Line, field.Name, problem);
                break;
            case var reading:
                _read[field.Name] = new(reading, entry.Line);
                Tables = reading.Piece is { } piece ? Tables.With(piece) : Tables;
                if (reading.Warning is { } warning)
                {
                    _findings.Warn(entry.Line, field.Name, warning);
                }

                break;
        }
    }

    /// <summary>What an entry gives; null where its line could not be read, which is reported already.</summary>
    private FieldReading? Reading(GivenField given) => given.Entry.Value switch
    {
        null => null,
        ArraySyntax list when given.Field.Kind is PlacesKind && TypedPlaces.Texts(list) is { } texts => FieldReader.Read(given.Field, texts, Tables) with { Typed = texts },
        StringValueSyntax { Value: { } text } => FieldReader.Read(given.Field, text, Tables) with { Typed = text },
        var other => FieldReading.Refused(NotText.Words(other, given.Field, _text)),
    };

    private bool ReadOwnTables(GivenField own)
    {
        if (Reading(own) is not { } reading)
        {
            return false;
        }

        if (reading.Problem is { } problem)
        {
            _findings.Report(own.Entry.Line, own.Field.Name, problem);
            return false;
        }

        if (OwnTables.Read(Tables, own, reading.Name!, _findings) is not { } together)
        {
            return false;
        }

        Tables = together;
        _read[own.Field.Name] = new(reading, own.Entry.Line);
        return true;
    }
}
