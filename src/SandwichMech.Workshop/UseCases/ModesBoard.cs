using System.Text.Json.Serialization;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Predictions;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Workshop.Boards;

namespace SandwichMech.Workshop.UseCases;

/// <summary>Shares of a mode's strain energy by kind.</summary>
public sealed record EnergyRow(double BendingAlong, double BendingAcross, double Twist, double Shear, double Membrane, double Bars);

/// <summary>What a small change does to a mode.</summary>
public sealed record SensitivityRow(string Input, string Change, double RelativeFrequencyChange);

/// <summary>One mode on the outline.</summary>
public sealed record PlateModeRow(
    int Number,
    string? NodalLines,
    [property: JsonPropertyName("frequency_hz")] Prediction Frequency,
    double RelativeNumericalError,
    EnergyRow Energy,
    IReadOnlyList<SensitivityRow> Sensitivities);

/// <summary>What `modes` answers.</summary>
public sealed record ModesResult
{
    /// <summary>The board's name.</summary>
    public required string Board { get; init; }
    /// <summary>How the edge is held.</summary>
    public required string Edge { get; init; }
    /// <summary>What is in the model and what is not.</summary>
    public required string Means { get; init; }
    /// <summary>Area of the outline less the hole, m².</summary>
    [JsonPropertyName("area_m2")] public required double Area { get; init; }
    /// <summary>Mass with let-in wood, kg, at the medians.</summary>
    [JsonPropertyName("mass_kg")] public required double Mass { get; init; }
    /// <summary>Mass by region, kg: the sandwich, then each let-in wood.</summary>
    public required IReadOnlyList<RegionMass> Regions { get; init; }
    /// <summary>Rigid-body modes that were found and left out.</summary>
    public required int RigidModes { get; init; }
    /// <summary>Triangles of the mesh.</summary>
    public required int Triangles { get; init; }
    /// <summary>Unknowns.</summary>
    public required int Unknowns { get; init; }
    /// <summary>Flexible modes, lowest first.</summary>
    public required IReadOnlyList<PlateModeRow> Modes { get; init; }
    /// <summary>What is unusual in the board file.</summary>
    public required IReadOnlyList<string> Warnings { get; init; }
    /// <summary>How typed spreads were read.</summary>
    public required IReadOnlyList<string> ReadBack { get; init; }
}

/// <summary>A region's part of the board.</summary>
public sealed record RegionMass(string Region, [property: JsonPropertyName("area_m2")] double Area, [property: JsonPropertyName("mass_kg")] double Mass);

/// <summary>The result and the plate that it came from, whose shapes pictures and files need.</summary>
/// <param name="Result">What is shown and written as JSON.</param>
/// <param name="Plate">Modes with their shapes.</param>
/// <param name="Shape">The board's outline and regions.</param>
public sealed record ModesAnswer(ModesResult Result, PlateSolution Plate, BoardShape Shape);

/// <summary>Solves a board on its outline.</summary>
public static class ModesBoard
{
    /// <summary>What the modes stand for.</summary>
    public const string Means =
        "first-order shear theory on the outline with hole and let-in wood, in vacuo: no air; air lowers a free board's first modes by a few per cent, a framed one's by more";

    /// <summary>Solves.</summary>
    /// <param name="file">The board as read.</param>
    /// <param name="count">Flexible modes wanted, 1 to 60.</param>
    /// <param name="accuracy">Wanted relative numerical error.</param>
    /// <returns>The modes and their shapes.</returns>
    /// <exception cref="InputException">The board has no outline, or one that cannot be meshed.</exception>
    public static ModesAnswer Run(BoardFile file, int count, double accuracy)
    {
        Board board = file.Board;
        if (board.Shape is not { } shape)
        {
            throw new InputException(file.Path, $"modes need an outline: add [{BoardFields.OutlineLower.Table.Name}] with lower, waist and upper, and size.length (`sandwichmech estimate` gives rough modes without it)");
        }

        BoardSolution solution;
        try
        {
            solution = BoardPlate.Solve(board, count, accuracy);
        }
        catch (DomainException e)
        {
            throw new InputException([.. e.Problems.Select(p => new Problem(file.Path, null, "outline", p.Message))]);
        }

        catch (InvalidOperationException e)
        {
            throw new ComputationException($"no modes were found for {file.Path}: {e.Message.TrimEnd('.')}; another --accuracy, or measures of outline, hole and let-in wood that come less close to each other, may help", e);
        }

        PlateSolution plate = solution.Plate;
        RegionMass[] regions = [.. shape.Parts.Select(p => new RegionMass(NameOf(shape, p), p.Area, board.MassOf(p)))];
        IReadOnlyList<Prediction> frequencies = BoardModes.Frequencies(board, solution);
        IReadOnlyList<IReadOnlyList<ModeSensitivity>> sensitivities = BoardModes.Sensitivities(board, solution);
        return new(new()
        {
            Board = board.Name,
            Edge = BoardFields.NameOf(shape.Edge),
            Means = Means,
            Area = regions.Sum(r => r.Area),
            Mass = regions.Sum(r => r.Mass),
            Regions = regions,
            RigidModes = plate.RigidModes,
            Triangles = plate.Triangles,
            Unknowns = plate.Unknowns,
            Modes = [.. plate.Modes.Select((m, i) => Row(plate, m, i, frequencies[i], sensitivities[i]))],
            Warnings = [.. file.Warnings.Select(w => w.ToString())],
            ReadBack = file.ReadBack,
        }, plate, shape);
    }

    private static string NameOf(BoardShape shape, BoardPart part) =>
        part.Regions.Count == 0 ? "sandwich" : string.Join(" + ", part.Regions.Select(r => shape.Regions[r].Name));

    private static PlateModeRow Row(PlateSolution plate, PlateMode mode, int i, Prediction frequency, IReadOnlyList<ModeSensitivity> sensitivities) => new(
        i + 1,
        plate.Field.NodalCounts(plate.Shape(i)) is { } counts ? $"{counts.Along} × {counts.Across}" : null,
        frequency,
        mode.Error,
        new(mode.Energy.Along, mode.Energy.Across, mode.Energy.Twist, mode.Energy.Shear, mode.Energy.Membrane, mode.Energy.Bars),
        [.. sensitivities.Select(s => new SensitivityRow(s.Input, s.Change, s.RelativeChange))]);
}
