using SandwichMech.Workshop.Units;
using Tomlyn.Syntax;

namespace SandwichMech.Workshop.Boards;

/// <summary>Says what to write where a value is not a text in quotes.</summary>
internal static class NotText
{
    /// <summary>What is wrong with a bare number, a truth value, a date, a list or a group.</summary>
    /// <param name="value">The value.</param>
    /// <param name="field">The field that it stands in.</param>
    /// <param name="text">The file's text.</param>
    /// <returns>One line.</returns>
    internal static string Words(ValueSyntax value, BoardField field, string text)
    {
        string raw = TypedText.Short(TypedText.OneLine(text[value.Span.Start.Offset..Math.Min(text.Length, value.Span.End.Offset + 1)]));
        string example = $"write for example {BoardText.Quoted(field.Example)}";
        return (value, field.Kind) switch
        {
            (ArraySyntax, PlacesKind) => $"each place of the list is a text in quotes: {example}",
            (ArraySyntax, _) => $"a list is not read here: {example}",
            (InlineTableSyntax, _) => $"a group in braces is not read here: {example}",
            (FloatValueSyntax { Value: double number }, _) when !double.IsFinite(number) => $"{raw} is no number that a board can have: {example}",
            (IntegerValueSyntax or FloatValueSyntax, TypedKind kind) => Slip.WithUnit(kind, raw) is { } withUnit
                ? $"{raw} needs a unit and quotes: write {BoardText.Quoted(withUnit)} if that is meant"
                : $"{raw} needs a unit and quotes: {example}",
            (_, TextKind) => $"{raw} needs quotes: write {BoardText.Quoted(raw)}",
            _ => $"{raw} is not a text in quotes: {example}",
        };
    }
}
