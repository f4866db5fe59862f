using System.Text.Json.Serialization;
using SandwichMech.Core.Building;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Workshop.UseCases;

/// <summary>One mass in the course of a build: a part that is bonded, or the board at a stage.</summary>
/// <param name="Stage">At which stage it is weighed.</param>
/// <param name="What">What lies on the scale.</param>
/// <param name="IsPart">A part that is bonded to what is there; otherwise the board itself.</param>
/// <param name="StartsAt">Of a part, what is there already when it comes on, kg; 0 of the board.</param>
/// <param name="Expected">Before it was weighed; of what is still to come, from all that is known now. kg.</param>
/// <param name="Read">As weighed, kg.</param>
/// <param name="Deviation">Standard deviation of the scale, kg.</param>
/// <param name="Verdict">Of the reading: go, look again or stop.</param>
/// <param name="IsToCome">Whether its stage is still to come.</param>
public sealed record CourseRow(
    string Stage,
    string What,
    bool IsPart,
    [property: JsonPropertyName("starts_at_kg")] double StartsAt,
    [property: JsonPropertyName("expected_kg")] Prediction? Expected,
    [property: JsonPropertyName("read_kg")] double? Read,
    [property: JsonPropertyName("read_deviation_kg")] double? Deviation,
    string? Verdict,
    bool IsToCome);

/// <summary>The mass of a board through its build, in the order in which parts come on and wood comes off.</summary>
public static class BuildCourse
{
    private static readonly BuildQuantity[] FirstParts = [BuildQuantity.OuterMass, BuildQuantity.CoreMass, BuildQuantity.LetInMass];

    /// <summary>The course.</summary>
    /// <param name="board">As wished and decided.</param>
    /// <param name="areas">Its areas.</param>
    /// <param name="readings">In force.</param>
    /// <returns>Parts of the first bond, the board after it, the inner skin before the second bond, the board from then on; stages at which nothing can be said are left out.</returns>
    public static IReadOnlyList<CourseRow> Of(Board board, BlankAreas areas, IReadOnlyList<BuildReading> readings)
    {
        BuildStage? reached = readings.Count == 0 ? null : readings.Max(r => r.Stage);
        var rows = new List<CourseRow>();
        foreach (BuildQuantity part in FirstParts) { Add(BuildStage.Skins, part); }
        foreach (BuildStage stage in Enum.GetValues<BuildStage>().Where(s => s > BuildStage.Skins))
        {
            // The inner skin is weighed with the others or when it is made, and comes on with the second bond.
            if (stage == BuildStage.SecondBond) { Add(readings.Any(r => r is { Stage: BuildStage.Skins, Quantity: BuildQuantity.InnerMass }) ? BuildStage.Skins : stage, BuildQuantity.InnerMass); }
            Add(stage, BuildQuantity.BoardMass);
        }

        return rows;

        void Add(BuildStage stage, BuildQuantity quantity)
        {
            BuildReading? read = readings.LastOrDefault(r => r.Stage == stage && r.Quantity == quantity);
            BuildReading[] known = [.. readings.Where(r => r != read && (r.Stage <= stage || (read is null && stage > reached)))];
            var masses = new BuildMasses(board, areas, known);
            bool isPart = quantity != BuildQuantity.BoardMass;
            Prediction? expected = masses.Expected(isPart ? BuildStage.Skins : stage).FirstOrDefault(e => e.Quantity == quantity)?.Reading;
            if (expected is null && read is null) { return; }
            string? verdict = read is null ? null : BuildWords.Of(BuildVerdicts.Of(masses, known, read).Verdict);
            rows.Add(new(BuildWords.Of(stage), BuildWords.Of(quantity), isPart, isPart ? Reached(rows) : 0, expected, read?.Mean, read?.Deviation, verdict, read is null && (reached is null || stage > reached)));
        }
    }

    /// <summary>Mass that is there after the rows so far, kg: as weighed, else as expected.</summary>
    private static double Reached(List<CourseRow> rows) => rows is [.., var last] ? last.StartsAt + (last.Read ?? last.Expected!.Value) : 0;
}
