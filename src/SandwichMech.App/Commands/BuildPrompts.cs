using System.Globalization;
using SandwichMech.App.Terminal;
using SandwichMech.Core.Building;
using SandwichMech.Workshop;
using SandwichMech.Workshop.Log;
using SandwichMech.Workshop.Pieces;

namespace SandwichMech.App.Commands;

/// <summary>What the commands of a build ask for when it was not typed with them.</summary>
internal sealed class BuildPrompts(ConsoleStreams console, ShopLog log)
{
    private const string Outer = "outer", Core = "core", LetIn = "let-in", Inner = "inner", Board = "board", Mixed = "mixed", Witness = "witness", Tones = "tones", Finish = "finish", Bend = "bend";

    private readonly Asking _asking = new(console);

    // What is asked, the word before its value, and an example of the value.
    private sealed record Question(string Words, string Word, string Example);

    /// <summary>A board of the log.</summary>
    /// <returns>Its number: as answered, or the newest.</returns>
    /// <exception cref="InputException">There is none, or nobody answers.</exception>
    internal int Which()
    {
        if (log.NewestBoards(1) is not [var newest]) { throw new InputException("board", "the log holds no board yet: `sandwichmech log start BOARD.toml` begins one"); }
        if (!console.CanAsk) { throw new InputException("board", string.Create(CultureInfo.InvariantCulture, $"which? Give its number; the newest is {newest.Number} ({newest.Start.Name})")); }
        string? typed = _asking.Answer(string.Create(CultureInfo.InvariantCulture, $"Board, by its number [{newest.Number}, {newest.Start.Name}]:"), line => log.Board(Number(line)));
        return typed is null ? newest.Number : Number(typed);

        static int Number(string line) => int.TryParse(line.Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out int number) ? number : throw new InputException("board", $"'{line.Trim()}' is no number of a board: write it in digits, as 1");
    }

    /// <summary>A stage: as answered, or the next one.</summary>
    /// <param name="board">The board's number.</param>
    internal string Stage(int board)
    {
        BuildStage? reached = log.BuildReadings(board).Select(e => (BuildStage?)e.Built!.Stage).Max();
        string next = TypedBuild.StageWords[(int)(reached is null ? BuildStage.Skins : reached < BuildStage.Strung ? reached.Value + 1 : BuildStage.Strung)];
        return _asking.Answer($"Stage ({string.Join(", ", TypedBuild.StageWords)}) [{next}]:", line => TypedBuild.Stage(line)) ?? next;
    }

    /// <summary>All that is read at a stage and is not in the log yet.</summary>
    /// <param name="board">The board's number.</param>
    /// <param name="stage">The stage, as typed.</param>
    /// <returns>Readings as they would have been typed; nothing is written before all are answered.</returns>
    internal IReadOnlyList<string> Readings(int board, string stage)
    {
        BuildStage when = TypedBuild.Stage(stage);
        HashSet<BuildQuantity> known = [.. log.BuildReadings(board).Where(e => e.Built!.Stage == when).Select(e => e.Built!.Quantity)];
        _asking.Say($"At '{TypedBuild.StageWords[(int)when]}'. Enter passes over what you have not read; nothing is written before the last question.");
        var readings = new List<string>();
        foreach (Question q in Questions(when))
        {
            if (TypedBuild.Read(when, $"{q.Word} {q.Example}").All(r => known.Contains(r.Reading.Quantity))) { continue; }
            if (_asking.Answer($"{q.Words}, as {q.Example}:", line => TypedBuild.Read(when, $"{q.Word} {line.Trim()}")) is { } answer) { readings.Add($"{q.Word} {answer}"); }
        }

        return readings;
    }

    private static Question[] Questions(BuildStage stage) => stage switch
    {
        BuildStage.Skins =>
        [
            new("Outer skin's weight", Outer, "42.4 g"), new("Its thickness at some places", Outer, "0.75 mm, 0.77 mm, 0.76 mm"),
            new("Core's weight", Core, "5.7 g"), new("Its height at some places", Core, "1.80 mm, 1.82 mm"),
            new("Weight of all let-in wood", LetIn, "31.5 g"), new("Its height at some places", LetIn, "1.85 mm, 1.86 mm"),
            new("Inner skin's weight, if it is chosen", Inner, "41.2 g"), new("Its thickness at some places", Inner, "0.60 mm, 0.62 mm"),
            new("Unglued witness piece", Witness, "128.0 g"), Humidity,
        ],
        BuildStage.FirstBond => [new("Adhesive mixed", Mixed, "36 g"), new("Board out of the bag", Board, "96.2 g"), AfterBag, Humidity],
        BuildStage.Levelled => [new("Board, let-in wood levelled", Board, "95.5 g"), Tapped, Bent],
        BuildStage.SecondBond =>
        [
            new("Inner skin's weight", Inner, "41.2 g"), new("Its thickness at some places", Inner, "0.60 mm, 0.62 mm"), new("Adhesive mixed", Mixed, "36 g"),
            new("Board out of the bag", Board, "153.1 g"), new("Its thickness at some places", Board, "3.32 mm, 3.30 mm"), AfterBag, Tapped,
        ],
        BuildStage.Sanded => [new("Board sanded", Board, "152.0 g"), new("Its thickness at some places", Board, "3.28 mm, 3.27 mm"), Tapped],
        BuildStage.CutOut => [new("Board cut out", Board, "124.0 g"), Tapped],
        BuildStage.Braced => [new("Board with bridge and braces", Board, "154 g"), Tapped],
        BuildStage.OnRim => [Held],
        BuildStage.Lacquered => [new("Finish when dry", Finish, "9 g"), Held],
        _ => [Held],
    };

    private static readonly Question
        Humidity = new("Humidity of the room", "humidity", "45 %"),
        AfterBag = new("Witness piece after the bag", Witness, "127.2 g"),
        Tapped = new("Tap tones, lying free on foam", Tones, "36.5 Hz, 52.1 Hz, 71 Hz"),
        Bent = new("Bent over two supports under its middle", Bend, "along, span 400 mm, load 50 g, down 3.1 mm"),
        Held = new("Tap tones on the rim, strings muted", Tones, "82 Hz, 165 Hz");
}
