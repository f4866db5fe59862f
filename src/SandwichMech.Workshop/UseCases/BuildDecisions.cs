using SandwichMech.Core.Building;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.UseCases;

/// <summary>A field that stands otherwise in the board file than in the log.</summary>
/// <param name="Field">"inner.thickness".</param>
/// <param name="InLog">Its value as the build goes by it; empty where it is left out.</param>
/// <param name="InFile">As it stands in the file now.</param>
/// <param name="IsOpen">Whether it can still be decided.</param>
public sealed record FileChangeRow(string Field, string InLog, string InFile, bool IsOpen);

/// <summary>What of a board file can still be decided while it is built.</summary>
internal static class BuildDecisions
{
    private const string HowToWrite = "write a field of the board file and its value, as \"inner.thickness 0.55 mm\" or \"inner.wood Engelmann spruce\"";
    private static readonly string[] FirstBonded = ["outer", "core", "adhesive"];

    /// <summary>Reads a decision.</summary>
    internal static (BoardField Field, string Value) Read(string typed)
    {
        string[] words = typed.Split(' ', 2, StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        BoardField? field = words.Length == 2 ? BoardFields.Named(words[0]) : null;
        return field is null || field.Table.IsList || field.Table.IsTop
            ? throw new InputException("field", $"'{typed}': {(words.Length == 2 && Nearest.Name(words[0], BoardFields.All.Where(f => !f.Table.IsList).Select(f => f.Name)) is { } near ? $"did you mean '{near}'? " : "")}{HowToWrite}")
            : (field, words[1]);
    }

    /// <summary>Whether a field can still be decided at a stage: each skin until it is bonded, with it the core and the adhesive; the solid top always.</summary>
    internal static bool IsOpen(BoardField field, BuildStage? reached) => field.Table.Name switch
    {
        "inner" => reached is null or < BuildStage.SecondBond,
        "solid" => true,
        var table when FirstBonded.Contains(table) => reached is null or < BuildStage.FirstBond,
        _ => false,
    };

    /// <summary>Says why a field can no longer be decided.</summary>
    internal static InputException Closed(BoardField field, BuildStage? reached) => new(field.Name, FirstBonded.Contains(field.Table.Name) || field.Table.Name == "inner"
        ? $"is bonded already ('{BuildWords.Of(reached!.Value)}' was read), so nothing was written: {(field.Table.Name == "inner" || reached >= BuildStage.SecondBond ? "nothing of the layup is open any more" : "of the layup the inner skin alone is still open")}"
        : "is no part of the layup: what its outline holds was settled when the build began; `sandwichmech log start` begins another board");

    /// <summary>What stands otherwise in the board's file now.</summary>
    /// <param name="build">The build.</param>
    /// <param name="reached">Last stage that was read.</param>
    internal static IReadOnlyList<FileChangeRow> Since(LoggedBuild build, BuildStage? reached)
    {
        // A file that was moved away changes nothing: the log has the text.
        if (!File.Exists(build.Start.File)) { return []; }
        string now = BoardFiles.Text(build.Start.File);
        HashSet<string> since = [.. BoardText.Changes(build.AsBegun, now).Select(c => c.Field)];
        return [.. BoardText.Changes(build.Start.Text, now).Where(c => since.Contains(c.Field)).Select(c => new FileChangeRow(c.Field, c.Before, c.After, BoardFields.Named(c.Field) is { } field && !field.Table.IsTop && IsOpen(field, reached)))];
    }
}
