using SandwichMech.Core.Building;

namespace SandwichMech.Workshop.UseCases;

/// <summary>Stages, quantities and verdicts of a build in the maker's words, and what to take care of.</summary>
internal static class BuildWords
{
    private static readonly string[] Stages = ["skins", "first bond", "levelled", "second bond", "sanded", "cut out", "braced", "on the rim", "lacquered", "strung"];

    private static readonly (string Word, string Unit)[] Quantities =
    [
        ("outer skin", "kg"), ("outer skin's thickness", "m"), ("core", "kg"), ("core's height", "m"), ("let-in wood", "kg"), ("let-in wood's height", "m"), ("inner skin", "kg"), ("inner skin's thickness", "m"),
        ("adhesive mixed", "kg"), ("board", "kg"), ("board's thickness", "m"), ("witness piece before the bag", "kg"), ("witness piece after it", "kg"), ("humidity", ""), ("temperature", "K"), ("tap tones", "Hz"), ("finish when dry", "kg"), ("bent along, down", "m"), ("bent across, down", "m"),
    ];

    internal static string Of(BuildStage stage) => Stages[(int)stage];

    internal static string Of(BuildQuantity quantity) => Quantities[(int)quantity].Word;

    /// <summary>SI unit of a quantity; empty for a share.</summary>
    internal static string Unit(BuildQuantity quantity) => Quantities[(int)quantity].Unit;

    internal static string Of(Verdict verdict) => verdict switch { Verdict.Go => "go", Verdict.LookAgain => "look again", _ => "stop" };

    /// <summary>What to weigh and measure at a stage.</summary>
    internal static IReadOnlyList<string> ToRead(BuildStage stage) => stage switch
    {
        BuildStage.Skins => ["weigh outer skin, core, let-in wood and inner skin, each as it will be bonded", "measure the thickness of skins and core at five places or more, and the let-in wood's height", "weigh an unglued witness piece of the same wood"],
        BuildStage.FirstBond => ["weigh the adhesive that you mix", "weigh the board when it is out of the bag and cured", "weigh the witness piece again"],
        BuildStage.Levelled => ["weigh the board", "tap it lying on foam, or bend it over two supports: it is the last evidence before the last choice"],
        BuildStage.SecondBond => ["weigh the adhesive that you mix", "weigh the board and the witness piece after it", "measure the board's thickness"],
        BuildStage.Sanded => ["weigh the board and measure its thickness"],
        BuildStage.CutOut => ["weigh the board", "tap it lying on foam"],
        BuildStage.Braced => ["weigh the board", "tap it lying on foam"],
        BuildStage.OnRim => ["tap it on the rim"],
        BuildStage.Lacquered => ["weigh the finish: what the top, or the whole instrument, weighs more when it is dry", "tap it again: finish adds mass and stiffens"],
        _ => ["tap it under its strings, muted"],
    };

    /// <summary>What to take care of at a stage.</summary>
    internal static IReadOnlyList<string> Cautions(BuildStage stage) => stage switch
    {
        BuildStage.Skins or BuildStage.Levelled or BuildStage.Sanded => ["Dust of wood, and more so of half-cured adhesive, harms lungs: extraction and a mask that fits. Keep hands away from belts and cutters. The machine's instructions and local codes come first."],
        BuildStage.FirstBond or BuildStage.SecondBond => ["Resin and hardener can sensitise skin for life: gloves, fresh air, nothing heated in the cup. No heat gun near solvents. Vacuum lines and bags can let go: eye protection. The product's safety data sheet and local codes come first."],
        BuildStage.CutOut => ["Cutters and dust: extraction, mask, both hands away from the blade. The machine's instructions come first."],
        BuildStage.Lacquered => ["Solvents burn and harm: fresh air, no flame, no spark. The product's safety data sheet comes first."],
        BuildStage.Strung => ["Bring a new top up to pitch in steps, with eye protection and nobody's face in line with the strings."],
        _ => [],
    };
}
