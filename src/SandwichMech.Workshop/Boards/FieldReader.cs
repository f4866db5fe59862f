using SandwichMech.Workshop.Pieces;
using SandwichMech.Workshop.Tables;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Boards;

/// <summary>What a field's text was read as. One of the first two is given unless there is a problem.</summary>
/// <param name="Value">The value of a number with a unit.</param>
/// <param name="Name">The text of a free text, folder or file; a choice's own word; the table's own name of a material.</param>
/// <param name="Problem">Why it cannot be used and what to write; null when it can.</param>
/// <param name="Warning">What is unusual about it, or null.</param>
public sealed record FieldReading(TypedValue? Value, string? Name, string? Problem, string? Warning)
{
    /// <summary>The places of a list of places.</summary>
    public IReadOnlyList<TypedPlace> Places { get; init; } = [];

    /// <summary>The piece of the log that was named, to be added to the tables.</summary>
    internal PieceMaterial? Piece { get; init; }

    /// <summary>What was typed, where it came from a file.</summary>
    internal string? Typed { get; init; }

    internal static FieldReading Refused(string problem) => new(null, null, problem, null);

    internal static FieldReading Of(string name) => new(null, name, null, null);

    internal static FieldReading Of(TypedValue value, string? warning = null) => new(value, null, null, warning);
}

/// <summary>Reads what stands in one field; the prompts of `new` use it too.</summary>
public static class FieldReader
{
    private const int LongestName = 100, LongestFolder = 1000;

    /// <summary>Reads the text of a field.</summary>
    /// <param name="field">The field.</param>
    /// <param name="text">What was typed.</param>
    /// <param name="tables">Where names of materials are looked up.</param>
    /// <returns>The value, or what is wrong with it.</returns>
    public static FieldReading Read(BoardField field, string text, MaterialTables tables)
    {
        if (ControlCharacter(text, field.Kind) is { } control)
        {
            return FieldReading.Refused($"holds a character that cannot be shown (U+{(int)control:X4}): "
                + (control == '\t' ? "a tab, or \\t in double quotes; write a space, or single quotes around a text with backslashes" : "delete it"));
        }

        return field.Kind switch
        {
            TypedKind kind => Typed(field, kind, text),
            _ when string.IsNullOrWhiteSpace(text) => FieldReading.Refused($"nothing is written here: write for example {BoardText.Quoted(field.Example)}, or delete the line"),
            NameKind kind => Length(text, LongestName) ?? Name(kind.Of, text, tables, field),
            PlacesKind kind => TypedPlaces.Read(kind, text),
            ChoiceKind kind => Length(text, LongestName) ?? Choice(kind, text),
            TextKind kind => Length(text, kind.Longest) ?? FieldReading.Of(text.Trim()),
            _ => Length(text, LongestFolder) ?? FieldReading.Of(text),
        };
    }

    private static char? ControlCharacter(string text, FieldKind kind)
    {
        bool manyLines = kind is TextKind { ManyLines: true };
        foreach (char c in text)
        {
            if (char.IsControl(c) && !(manyLines && c is '\n' or '\r' or '\t') && !(kind is TypedKind && char.IsWhiteSpace(c)))
            {
                return c;
            }
        }

        return null;
    }

    private static FieldReading? Length(string text, int longest) => text.Length <= longest
        ? null
        : FieldReading.Refused($"is {text.Length} characters long: write at most {longest}");

    private static FieldReading Typed(BoardField field, TypedKind kind, string text)
    {
        if (kind.Words.TryGetValue(text.Trim(), out double meant))
        {
            return FieldReading.Of(new TypedValue(meant, 0, null));
        }

        ReadResult read = TypedValues.Read(text, kind.Dimension);
        if (!read.IsRead)
        {
            return FieldReading.Refused(Unread(field, kind, text, read.Problem));
        }

        TypedValue value = read.Value;
        string typed = TypedText.Short(TypedText.OneLine(text));
        string meantInstead = Slip.Of(kind, text) is { } slip ? $"; did you mean {slip}?" : "";
        if (!kind.Possible.Contains(value.Value))
        {
            return FieldReading.Refused(kind.Possible.LowSi > 0 && value.Value <= 0
                ? $"{typed} cannot be {kind.Of}, which is more than 0: write {kind.Possible}"
                : $"{typed} is too {(value.Value < kind.Possible.LowSi ? "small" : "large")} for {kind.Of}: {kind.Possible} is possible{meantInstead}");
        }

        if (kind.TakesSpread && value.StandardDeviation * Math.Sqrt(3) >= value.Value)
        {
            return FieldReading.Refused($"{typed}: the spread reaches down to nothing; write a spread that is smaller than the value, or leave it out");
        }

        return FieldReading.Of(value, !kind.Usual.Contains(value.Value)
            ? $"{typed} is unusual for {kind.Of} (usual: {kind.Usual}){meantInstead}"
            : value.StandardDeviation > 0 && !kind.TakesSpread
                ? $"{typed}: the spread of {kind.Of} is not used; the value is taken as exact"
                : null);
    }

    /// <summary>The reader's problem in the light of the field: what is usual in it tells the unit, and its example is one of its own.</summary>
    private static string Unread(BoardField field, TypedKind kind, string text, string problem)
    {
        if (Slip.WithUnit(kind, text) is { } likely)
        {
            return $"a unit is missing: write {likely} if that is meant";
        }

        return kind.Words.Count > 0
            ? $"{problem}; {string.Join(" or ", kind.Words.Keys.Select(word => $"'{word}'"))} may be written too"
            : problem.Replace($"for example {Wording.For(kind.Dimension).Example}", $"for example {field.Example}", StringComparison.Ordinal);
    }

    private static FieldReading Name(MaterialKind kind, string text, MaterialTables tables, BoardField field)
    {
        if (Known(kind, text, tables) is { } known)
        {
            return FieldReading.Of(known);
        }

        if (PieceMaterials.Number(text) is { } number)
        {
            return Piece(kind, number, tables, field);
        }

        foreach (MaterialKind other in Enum.GetValues<MaterialKind>())
        {
            if (other != kind && Known(other, text, tables) is { } elsewhere)
            {
                return FieldReading.Refused($"'{elsewhere}' is {Called(other)}; {Called(kind)} is wanted: write for example {BoardText.Quoted(field.Example)}");
            }
        }

        string typed = TypedText.OneLine(text);
        return FieldReading.Refused(kind switch
        {
            MaterialKind.Wood => MaterialTables.Unknown(tables.Woods, typed, "wood"),
            MaterialKind.Core => MaterialTables.Unknown(tables.Cores, typed, "core"),
            _ => MaterialTables.Unknown(tables.Adhesives, typed, "adhesive"),
        });
    }

    private static FieldReading Piece(MaterialKind kind, int number, MaterialTables tables, BoardField field)
    {
        string example = $"write for example {BoardText.Quoted(field.Example)}";
        if (kind == MaterialKind.Adhesive || tables.Pieces is null)
        {
            return FieldReading.Refused(kind == MaterialKind.Adhesive ? $"a piece is no adhesive: {example}" : $"no log of pieces is at hand here: {example}");
        }

        PieceMaterial found = PieceMaterial.In(number, tables) ?? tables.Pieces(number, tables);
        MaterialKind? what = found.Wood is not null ? MaterialKind.Wood : found.Core is not null ? MaterialKind.Core : null;
        return what == kind ? FieldReading.Of(found.Name) with { Piece = found }
            : FieldReading.Refused(what is { } other ? $"{found.Name} is {Called(other)}; {Called(kind)} is wanted: {example}, or a piece that is one (`sandwichmech piece list`)" : found.Problem!);
    }

    private static string? Known(MaterialKind kind, string text, MaterialTables tables) => kind switch
    {
        MaterialKind.Wood => MaterialTables.Find(tables.Woods, text)?.Name,
        MaterialKind.Core => MaterialTables.Find(tables.Cores, text)?.Name,
        _ => MaterialTables.Find(tables.Adhesives, text)?.Name,
    };

    private static string Called(MaterialKind kind) => kind switch
    {
        MaterialKind.Wood => "a wood",
        MaterialKind.Core => "a core",
        _ => "an adhesive",
    };

    private static FieldReading Choice(ChoiceKind kind, string text)
    {
        string typed = TypedText.OneLine(text).Trim();
        if (kind.Words.FirstOrDefault(word => string.Equals(word, typed, StringComparison.OrdinalIgnoreCase)) is { } word)
        {
            return FieldReading.Of(word);
        }

        string? near = Nearest.Name(typed, kind.Words);
        return FieldReading.Refused($"'{typed}' is no {kind.Called}{(near is null ? "" : $"; did you mean '{near}'?")} (write one of: {string.Join(", ", kind.Words)})");
    }
}
