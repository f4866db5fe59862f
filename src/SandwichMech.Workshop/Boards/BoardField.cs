namespace SandwichMech.Workshop.Boards;

/// <summary>A table of the board file.</summary>
/// <param name="Name">Its name between brackets; empty for the lines before the first table.</param>
/// <param name="Help">What it holds, one line.</param>
public sealed record BoardTable(string Name, string Help)
{
    /// <summary>True for the lines before the first table.</summary>
    public bool IsTop => Name.Length == 0;

    /// <summary>Whether a board may have several of it, each under its own double brackets.</summary>
    public bool IsList { get; init; }

    /// <summary>Its header as it stands in a file: "[outer]", "[[let_in]]".</summary>
    public string Header => IsList ? $"[[{Name}]]" : $"[{Name}]";
}

/// <summary>A field of the board file. Parsing, the schema, the text that `new` writes and the help all come from here.</summary>
/// <param name="Table">Where it stands.</param>
/// <param name="Key">Its name before the '='.</param>
/// <param name="Kind">What may stand in it.</param>
/// <param name="Help">What it is, one line.</param>
/// <param name="Example">A value that could stand in it.</param>
public sealed record BoardField(BoardTable Table, string Key, FieldKind Kind, string Help, string Example)
{
    /// <summary>Whether a board is incomplete without it.</summary>
    public bool Required { get; init; }

    /// <summary>Fields from any of which this one follows, so that it may be left out although it is required.</summary>
    public IReadOnlyList<BoardField> Unless { get; init; } = [];

    /// <summary>What is taken, as typed, when it is not given; null where nothing is taken or where <see cref="Help"/> says what.</summary>
    public string? Default { get; init; }

    /// <summary>What `new` asks; null where it does not ask.</summary>
    public string? Question { get; init; }

    /// <summary>The answer that Enter takes.</summary>
    public string Offered => Default ?? Example;

    /// <summary>The field in the user's words: "outer.thickness".</summary>
    public string Name => Table.IsTop ? Key : $"{Table.Name}.{Key}";
}

/// <summary>The fields of a skin.</summary>
/// <param name="Wood">Its wood.</param>
/// <param name="Thickness">Its thickness.</param>
/// <param name="Grain">Its grain angle.</param>
/// <param name="BookMatched">Whether its halves mirror each other.</param>
public sealed record SkinFields(BoardField Wood, BoardField Thickness, BoardField Grain, BoardField BookMatched);
