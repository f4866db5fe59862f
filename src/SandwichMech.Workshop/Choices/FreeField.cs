using System.Globalization;
using System.Text.RegularExpressions;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Pieces;
using SandwichMech.Workshop.Tables;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Choices;

/// <summary>A value that a field of the board file may take.</summary>
/// <param name="Text">As it would stand in the file.</param>
/// <param name="Value">In SI, of a number with a unit.</param>
internal sealed record FreeValue(string Text, double? Value);

/// <summary>A field of the board file that is to be chosen.</summary>
/// <param name="Field">Which.</param>
/// <param name="Values">What it may be.</param>
internal sealed partial record FreeField(BoardField Field, IReadOnlyList<FreeValue> Values)
{
    internal const string HowToWrite =
        "write for example \"outer.thickness 0.5 mm to 1 mm by 0.05 mm\", \"core.height 1.5 mm, 2 mm, 3 mm\", \"outer.wood western redcedar, piece 3\", \"inner.wood in stock\" or \"core.ribbon along, across\"";

    /// <summary>The words that stand for all pieces of the log, and rows of the stock file.</summary>
    internal const string InStock = "in stock";

    private const int MostValues = 400;

    internal static bool IsSkin(BoardField field) => field == BoardFields.Outer.Thickness || field == BoardFields.Inner.Thickness;

    /// <summary>Whether another value makes another shape in the plane, which needs a mesh of its own.</summary>
    internal bool ChangesShape => Field.Table.Name is not ("outer" or "inner" or "core" or "adhesive" or "solid");

    /// <summary>Reads it.</summary>
    /// <param name="text">As typed: a field and its values.</param>
    /// <param name="tables">Where names of materials are looked up.</param>
    /// <param name="stock">What "in stock" stands for.</param>
    /// <exception cref="InputException">It cannot be read; the message says how to write it.</exception>
    internal static FreeField Read(string text, MaterialTables tables, ChoiceStock stock)
    {
        string[] words = text.Split(' ', 2, StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        if (words.Length < 2) { throw Refuse(text, $"names no values; {HowToWrite}"); }
        BoardField field = BoardFields.Named(words[0])
            ?? throw Refuse(text, Nearest.Name(words[0], BoardFields.All.Where(f => !f.Table.IsList).Select(f => f.Name)) is { } near ? $"the board file has no field '{words[0]}'; did you mean '{near}'?" : $"the board file has no field '{words[0]}'; {HowToWrite}");
        if (field.Table.IsList || field.Table.IsTop || field.Kind is FolderKind or FileKind or TextKind or PlacesKind)
        {
            throw Refuse(text, $"'{field.Name}' is nothing to choose among; {HowToWrite}");
        }

        return field.Kind is NameKind kind && words[1].Trim() == InStock ? new(field, stock.Of(kind.Of, text)) : new(field, Listed(text, field, words[1], tables));
    }

    private static FreeValue[] Listed(string text, BoardField field, string typed, MaterialTables tables)
    {
        if (field.Kind is TypedKind kind && Range().Match(typed) is { Success: true } range) { return Steps(text, field, kind, range, tables); }
        string[] parts = typed.Split([", ", "; "], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        FreeValue[] values = [.. parts.Select(p => Value(text, field, p, tables))];
        return values.Select(v => (v.Value, v.Value is null ? v.Text : "")).Distinct().Count() == values.Length ? values
            : throw Refuse(text, "names one value twice");
    }

    private static FreeValue Value(string text, BoardField field, string typed, MaterialTables tables)
    {
        FieldReading read = FieldReader.Read(field, typed, tables);
        return read.Problem is { } problem ? throw Refuse(text, problem) : new(read.Piece is null ? read.Name ?? typed : PieceMaterials.NameOf(PieceMaterials.Number(typed)!.Value), read.Value?.Value);
    }

    private static FreeValue[] Steps(string text, BoardField field, TypedKind kind, Match range, MaterialTables tables)
    {
        double low = End("low"), high = End("high");
        if (high <= low) { throw Refuse(text, "the second value has to be larger than the first"); }
        if (!range.Groups["by"].Success) { throw Refuse(text, "names no step: write the step of your shop behind it, as \"by 0.05 mm\" or \"by 1 thou\""); }
        ReadResult by = TypedValues.Read(range.Groups["by"].Value, kind.Dimension);
        if (by.Value is not { Value: > 0 } step) { throw Refuse(text, by.Problem ?? "the step has to be more than 0"); }
        int count = (int)Math.Min(MostValues + 1, Math.Floor((high - low) / step.Value + 1e-6) + 1);
        if (count is < 2 or > MostValues) { throw Refuse(text, $"that makes {(count < 2 ? "fewer than 2" : $"more than {MostValues}")} values: choose another step"); }
        // In the unit of the step, so that adopting a board writes what the maker would.
        string unit = UnitOf().Match(range.Groups["by"].Value.Trim()).Value.Trim();
        double factor = TypedValues.Read($"1 {unit}", kind.Dimension).Value?.Value ?? throw Refuse(text, HowToWrite);
        return [.. Enumerable.Range(0, count).Select(i => Of(low + i * step.Value))];

        double End(string name) => Value(text, field, range.Groups[name].Value.Trim(), tables).Value!.Value;

        FreeValue Of(double si) => new($"{Math.Round(si / factor, 5).ToString("0.#####", CultureInfo.InvariantCulture)} {unit}", si);
    }

    internal static InputException Refuse(string text, string why) => new([new("--free", null, $"'{text}'", why)]);

    [GeneratedRegex(@"^(?<low>.+?) to (?<high>.+?)( by (?<by>.+))?$")]
    private static partial Regex Range();

    [GeneratedRegex(@"[^0-9\s.,/½¼¾]+$")]
    private static partial Regex UnitOf();
}
