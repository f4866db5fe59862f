using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Boards;

/// <summary>Forms of fields that several tables have.</summary>
internal static class FieldForms
{
    /// <summary>Words that stand for an angle.</summary>
    internal static Dictionary<string, double> Directions { get; } =
        new(StringComparer.OrdinalIgnoreCase) { ["along"] = 0, ["across"] = Math.PI / 2 };

    /// <summary>A length.</summary>
    internal static BoardField Length(BoardTable table, string key, string of, string possible, string usual, string help, string example) => new(table, key,
        new TypedKind(Dimension.Length, of, Range(Dimension.Length, possible), Range(Dimension.Length, usual), ["mm", "in", "cm"]), help, example);

    /// <summary>A thickness of a skin.</summary>
    internal static BoardField Thickness(BoardTable table, string key, string help, string example) => new(table, key,
        new TypedKind(Dimension.Length, "a skin's thickness", Range(Dimension.Length, "0.1 mm to 10 mm"), Range(Dimension.Length, "0.3 mm to 2 mm"), ["mm", "in", "thou"]), help, example);

    /// <summary>A grain or ribbon angle.</summary>
    internal static BoardField Angle(BoardTable table, string key, string help, string example) => new(table, key,
        new TypedKind(Dimension.Angle, "an angle", Range(Dimension.Angle, "-90° to 90°"), Range(Dimension.Angle, "-90° to 90°"), ["°"]) { Words = Directions }, help, example);

    /// <summary>A wood.</summary>
    internal static BoardField Wood(BoardTable table, string help, string example) => new(table, "wood", new NameKind(MaterialKind.Wood), help, example);

    /// <summary>What one of a list is called.</summary>
    internal static BoardField Name(BoardTable table, string example) =>
        new(table, "name", new TextKind(60, ManyLines: false), "What it is called in results; its kind and number when left out.", example);

    /// <summary>Yes or no.</summary>
    internal static BoardField YesNo(BoardTable table, string key, string help) => new(table, key, new ChoiceKind("answer", ["no", "yes"]), help, "no") { Default = "no" };

    /// <summary>A range written "low to high".</summary>
    internal static TypedRange Range(Dimension dimension, string text)
    {
        string[] ends = text.Split(" to ");
        return new(dimension, ends[0], ends[1]);
    }
}
