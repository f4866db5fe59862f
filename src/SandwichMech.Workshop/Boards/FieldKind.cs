using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Boards;

/// <summary>What may stand in a field.</summary>
public abstract record FieldKind;

/// <summary>A number with a unit.</summary>
/// <param name="Dimension">What it measures.</param>
/// <param name="Of">What has this size, for messages: "a skin's thickness".</param>
/// <param name="Possible">Outside of this it is an error.</param>
/// <param name="Usual">Outside of this it is worth a warning.</param>
/// <param name="Units">Units in which makers write it, the likeliest first; a slip is looked for among these.</param>
public sealed record TypedKind(
    Dimension Dimension, string Of, TypedRange Possible, TypedRange Usual, IReadOnlyList<string> Units) : FieldKind
{
    /// <summary>Whether a typed spread (± …) enters the results.</summary>
    public bool TakesSpread { get; init; }

    /// <summary>Words that stand for a value, and that value in SI.</summary>
    public IReadOnlyDictionary<string, double> Words { get; init; } = new Dictionary<string, double>();
}

/// <summary>A closed range, written as a person would type its ends.</summary>
/// <param name="Dimension">What it measures.</param>
/// <param name="Low">Low end with its unit.</param>
/// <param name="High">High end with its unit.</param>
public sealed record TypedRange(Dimension Dimension, string Low, string High)
{
    // An end typed in another unit may miss it by a rounding in the last digit.
    private const double Rounding = 1e-9;

    /// <summary>Low end, SI.</summary>
    public double LowSi { get; } = TypedValues.Read(Low, Dimension).Value!.Value;

    /// <summary>High end, SI.</summary>
    public double HighSi { get; } = TypedValues.Read(High, Dimension).Value!.Value;

    /// <summary>Whether a value lies in the range, ends included.</summary>
    /// <param name="si">The value in SI.</param>
    /// <returns>True inside.</returns>
    public bool Contains(double si) =>
        si >= LowSi - (Rounding * Math.Abs(LowSi)) && si <= HighSi + (Rounding * Math.Abs(HighSi));

    /// <summary>As messages show it.</summary>
    public override string ToString() => $"{Low} to {High}";
}

/// <summary>Which material table a name is looked up in.</summary>
public enum MaterialKind
{
    /// <summary>Woods.</summary>
    Wood,

    /// <summary>Core sheets.</summary>
    Core,

    /// <summary>Adhesives.</summary>
    Adhesive,
}

/// <summary>The name of a material.</summary>
/// <param name="Of">Which table it stands in.</param>
public sealed record NameKind(MaterialKind Of) : FieldKind;

/// <summary>One of a few words.</summary>
/// <param name="Called">What it is, for messages: "criterion".</param>
/// <param name="Words">The words, as they are shown.</param>
public sealed record ChoiceKind(string Called, IReadOnlyList<string> Words) : FieldKind;

/// <summary>Free text.</summary>
/// <param name="Longest">Most characters.</param>
/// <param name="ManyLines">Whether it may run over several lines.</param>
public sealed record TextKind(int Longest, bool ManyLines) : FieldKind;

/// <summary>Places on the board, each as "along, across": a list of texts, or one text with ; between them.</summary>
/// <param name="Fewest">How many are needed.</param>
/// <param name="WithThickness">Whether a thickness follows each place, behind a colon.</param>
public sealed record PlacesKind(int Fewest, bool WithThickness) : FieldKind;

/// <summary>A folder, relative to the board file or absolute.</summary>
public sealed record FolderKind : FieldKind;

/// <summary>A file, relative to the board file or absolute.</summary>
public sealed record FileKind : FieldKind;
