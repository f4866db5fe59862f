using System.Text.Json.Serialization;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Predictions;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Workshop.Boards;

namespace SandwichMech.Workshop.UseCases;

/// <summary>A figure of each board, and of each but the first over that of the first.</summary>
/// <param name="Figure">"bending stiffness along".</param>
/// <param name="Unit">SI.</param>
/// <param name="Boards">One a board.</param>
/// <param name="OverFirst">One a board but the first; what both are made of moves them together.</param>
public sealed record BesideRow(string Figure, string Unit, IReadOnlyList<Prediction> Boards, IReadOnlyList<Prediction> OverFirst);

/// <summary>What `compare` answers of several boards.</summary>
/// <param name="Boards">Their names.</param>
/// <param name="Rows">Their figures.</param>
/// <param name="Solids">The solid top that each equals by its file's criterion.</param>
/// <param name="Means">How the ratios are meant.</param>
/// <param name="Warnings">What is unusual in the board files.</param>
public sealed record SideBySideResult(
    IReadOnlyList<string> Boards, IReadOnlyList<BesideRow> Rows, [property: JsonPropertyName("equal_solids")] IReadOnlyList<SolidRow> Solids, string Means, IReadOnlyList<string> Warnings);

/// <summary>Sets two or three boards side by side.</summary>
public static class SideBySide
{
    /// <summary>At most so many.</summary>
    public const int Most = 3;

    /// <summary>Compares.</summary>
    /// <param name="files">Two or three boards.</param>
    /// <returns>Figures and ratios.</returns>
    /// <exception cref="InputException">There are more.</exception>
    public static SideBySideResult Run(IReadOnlyList<BoardFile> files)
    {
        if (files.Count > Most) { throw new InputException("compare", $"{files.Count} boards are more than fit side by side: give at most {Most}"); }
        EstimateResult[] all = [.. files.Select(f => EstimateBoard.Run(f))];
        Board[] boards = [.. files.Select(f => f.Board.UnderWeight())];
        int modes = all.All(e => e.Outline is not null) ? all.Min(e => e.Outline!.Modes.Count) : 0;
        return new(
            [.. all.Select(e => e.Board)],
            [
                Row("bending stiffness along", "N·m", e => e.StiffnessAlong, f => f.Laminate.Bending.M11),
                Row("bending stiffness across", "N·m", e => e.StiffnessAcross, f => f.Laminate.Bending.M22),
                Row("twisting stiffness", "N·m", e => e.StiffnessTwist, f => f.Laminate.Bending.M66),
                Row("areal density", "kg/m²", e => e.ArealDensity, f => f.Laminate.ArealMass),
                Row("mass", "kg", e => e.Mass, f => f.Mass),
                Row("adhesive kept", "kg", e => e.AdhesiveKept, f => f.AdhesiveKept),
                .. Enumerable.Range(0, Math.Min(2, modes)).Select(m => new BesideRow($"mode {m + 1}, edge {all[0].Outline!.Edge}", "Hz", [.. all.Select(e => e.Outline!.Modes[m].Frequency)], [])),
            ],
            [.. all.Select(e => e.Solid)],
            $"ratios are over {all[0].Board}; where two boards name the same wood, core or adhesive it is taken as the same piece or tin, so that what is not known of it moves both together",
            [.. all.SelectMany(e => e.Warnings).Distinct()]);

        BesideRow Row(string name, string unit, Func<EstimateResult, Prediction> own, Func<BoardFigures, double> figure) =>
            new(name, unit, [.. all.Select(own)], [.. boards.Skip(1).Select(b => BoardRatio.Of(b, boards[0], figure))]);
    }
}
