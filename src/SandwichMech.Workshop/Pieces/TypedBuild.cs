using SandwichMech.Core.Building;
using SandwichMech.Core.Identification;
using SandwichMech.Workshop.Log;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Pieces;

/// <summary>Reads what is typed of a build: a stage, and readings as "outer 61.2 g" or "core 1.82 mm, 1.79 mm".</summary>
public static class TypedBuild
{
    private const double Scale = 0.1e-3 / 3.4641016151377544, Callipers = 0.02e-3 / 1.7320508075688772;
    private const string HowToWrite = "write for example \"outer 61.2 g\", \"outer 0.72 mm, 0.70 mm\", \"mixed 36 g\", \"board 145 g\", \"witness 128.0 g to 127.2 g\", \"humidity 45 %\", \"tones 62 Hz, 88.4 Hz\" or \"bend along, span 400 mm, load 50 g, down 3.1 mm\"";

    private static readonly (BuildStage Stage, string[] Words)[] Stages =
    [
        (BuildStage.Skins, ["skins", "s"]),
        (BuildStage.FirstBond, ["bond1", "b1", "first bond"]),
        (BuildStage.Levelled, ["level", "l", "levelled"]),
        (BuildStage.SecondBond, ["bond2", "b2", "second bond"]),
        (BuildStage.Sanded, ["sand", "sanded"]),
        (BuildStage.CutOut, ["cut", "c", "cut out"]),
        (BuildStage.Braced, ["brace", "braced"]),
        (BuildStage.OnRim, ["rim", "r", "on the rim"]),
        (BuildStage.Lacquered, ["lacquer", "lacquered"]),
        (BuildStage.Strung, ["string", "strung"]),
    ];

    private sealed record Part(string Word, BuildQuantity? Mass, BuildQuantity? Thickness);

    private static readonly Part[] Parts =
    [
        new("outer", BuildQuantity.OuterMass, BuildQuantity.OuterThickness),
        new("core", BuildQuantity.CoreMass, BuildQuantity.CoreHeight),
        new("let-in", BuildQuantity.LetInMass, BuildQuantity.LetInHeight),
        new("inner", BuildQuantity.InnerMass, BuildQuantity.InnerThickness),
        new("board", BuildQuantity.BoardMass, BuildQuantity.BoardThickness),
        new("mixed", BuildQuantity.AdhesiveMixed, null),
        new("finish", BuildQuantity.FinishMass, null),
    ];

    private static readonly string[] Words = [.. Parts.Select(p => p.Word), "witness", "humidity", "temperature", "tones", "bend"];

    /// <summary>The words for the stages, short ones first.</summary>
    public static IReadOnlyList<string> StageWords => [.. Stages.Select(s => s.Words[0])];

    /// <summary>Reads a stage.</summary>
    /// <param name="text">As typed.</param>
    /// <returns>The stage.</returns>
    /// <exception cref="InputException">There is none of that name.</exception>
    public static BuildStage Stage(string text)
    {
        string typed = text.Trim();
        foreach ((BuildStage stage, string[] words) in Stages)
        {
            if (words.Contains(typed, StringComparer.OrdinalIgnoreCase)) { return stage; }
        }

        string? near = Nearest.Name(typed, Stages.SelectMany(s => s.Words).Where(w => w.Length > 2));
        throw new InputException("stage", $"there is no stage '{TypedText.Short(TypedText.OneLine(text))}'{(near is null ? "" : $"; did you mean '{near}'?")} (stages are {string.Join(", ", StageWords)})");
    }

    /// <summary>Reads a reading.</summary>
    /// <param name="stage">At which stage.</param>
    /// <param name="text">As typed.</param>
    /// <returns>One reading, or two of a witness piece before and after.</returns>
    /// <exception cref="InputException">It cannot be read; what was typed is shown back.</exception>
    public static IReadOnlyList<TypedBuildReading> Read(BuildStage stage, string text)
    {
        string[] words = text.Split(' ', 2, StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        if (words.Length < 2) { throw Refuse(text, HowToWrite); }
        string word = words[0].ToLowerInvariant(), rest = words[1];
        if (word == "witness")
        {
            string[] ends = rest.Split(" to ", 2, StringSplitOptions.TrimEntries);
            return ends.Length == 2
                ? [new(Of(BuildQuantity.WitnessBefore, [Value(text, ends[0], Dimension.Mass, 1e-4, 5)], Scale), text), new(Of(BuildQuantity.WitnessAfter, [Value(text, ends[1], Dimension.Mass, 1e-4, 5)], Scale), text)]
                : [new(Of(stage == BuildStage.Skins ? BuildQuantity.WitnessBefore : BuildQuantity.WitnessAfter, [Value(text, rest, Dimension.Mass, 1e-4, 5)], Scale), text)];
        }

        if (word == "humidity") { return [new(Of(BuildQuantity.Humidity, [Value(text, rest, Dimension.Ratio, 0.01, 1)], 0.03), text)]; }
        if (word == "temperature") { return [new(Of(BuildQuantity.Temperature, [Value(text, rest, Dimension.Temperature, 263.15, 333.15)], 0.5), text)]; }
        if (word == "tones") { return [new(Of(BuildQuantity.Tones, [.. Each(rest).Select(t => Value(text, t, Dimension.Frequency, 5, 5000)).Order()], 0.3), text)]; }
        if (word == "bend") { return [Bend(stage, text, rest)]; }
        if (Parts.FirstOrDefault(p => p.Word == word) is not { } part)
        {
            throw Refuse(text, Nearest.Name(word, Words) is { } near ? $"'{words[0]}' is nothing that is read; did you mean '{near}'?" : $"'{words[0]}' is nothing that is read: {string.Join(", ", Words)} are; {HowToWrite}");
        }

        string[] values = [.. Each(rest)];
        ReadResult asMass = TypedValues.Read(values[0], Dimension.Mass), asThickness = TypedValues.Read(values[0], Dimension.Length);
        if (part.Mass is { } mass && asMass.IsRead)
        {
            return values.Length == 1 ? [new(Of(mass, [Value(text, rest, Dimension.Mass, 1e-4, 5)], Scale), text)] : throw Refuse(text, "has more than one mass: weigh it once, or type the last weighing alone");
        }

        if (part.Thickness is { } thickness && asThickness.IsRead) { return [new(Of(thickness, [.. values.Select(v => Value(text, v, Dimension.Length, 0.1e-3, 0.05))], Callipers), text)]; }
        throw Refuse(text, part.Thickness is null ? asMass.Problem! : $"{asMass.Problem}, or a thickness as 0.72 mm");

        BuildReading Of(BuildQuantity quantity, IReadOnlyList<double> all, double deviation) => new(stage, quantity, all, deviation);
    }

    private static TypedBuildReading Bend(BuildStage stage, string text, string test)
    {
        if (stage is BuildStage.Skins or > BuildStage.Braced) { throw Refuse(text, "a skin is bent as a piece (`sandwichmech piece read`), and what is on its rim is not bent over two supports"); }
        try
        {
            var bending = (BendingReading)TypedTests.Bend(test).Reading.Reading;
            return new(new(stage, bending.Across ? BuildQuantity.BendingAcross : BuildQuantity.BendingAlong, [bending.Deflection.Value], bending.Deflection.Value * bending.Deflection.Spread) { Bending = bending }, text);
        }
        catch (InputException e)
        {
            throw Refuse(text, e.Problems[0].Message);
        }
    }

    private static string[] Each(string text) => text.Split([", ", "; "], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);

    private static double Value(string whole, string typed, Dimension dimension, double low, double high)
    {
        ReadResult read = TypedValues.Read(typed, dimension);
        return read.Value is not { } value ? throw Refuse(whole, read.Problem!)
            : value.Value >= low && value.Value <= high ? value.Value
            : throw Refuse(whole, $"{typed} is outside what is possible here");
    }

    private static InputException Refuse(string text, string why) => new([new("reading", null, $"'{TypedText.OneLine(text)}'", $"{why.TrimEnd('.')}; nothing was written, so type all of this line again")]);
}
