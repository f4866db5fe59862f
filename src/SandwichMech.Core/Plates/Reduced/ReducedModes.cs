using SandwichMech.Core.Layups;

namespace SandwichMech.Core.Plates.Reduced;

/// <summary>The lowest modes of one board by a reduced model.</summary>
/// <param name="Frequencies">Flexible modes, Hz, lowest first; none where the board lies outside the model.</param>
/// <param name="Errors">Relative error of each that is to be reckoned with, the mesh's part included.</param>
/// <param name="Movements">For each of the model's actions, the movement of each mode, 1/√kg: its modal mass there is one over its square.</param>
/// <param name="WhyNot">Why it is not to be relied on, in plain words; nothing where it is. Then the full model has to be asked.</param>
public sealed record ReducedModes(IReadOnlyList<double> Frequencies, IReadOnlyList<double> Errors, IReadOnlyList<IReadOnlyList<double>> Movements, string? WhyNot)
{
    /// <summary>The same by the full model.</summary>
    /// <param name="board">The board; its shape is given.</param>
    /// <param name="count">Flexible modes wanted.</param>
    /// <param name="accuracy">Wanted relative error.</param>
    /// <param name="airDensity">kg/m³, 0 in vacuo.</param>
    /// <returns>The modes, without movements.</returns>
    /// <exception cref="DomainException">The outline, holes and regions cannot be meshed.</exception>
    public static ReducedModes InFull(Board board, int count, double accuracy, double airDensity)
    {
        PlateSolution plate = BoardPlate.Solve(board, count, accuracy, airDensity > 0 ? PlateSolver.BeyondForAir : 0).Plate;
        if (airDensity == 0) { return new([.. plate.Modes.Select(m => m.Frequency)], [.. plate.Modes.Select(m => m.Error)], [], null); }
        IReadOnlyList<AirMode> modes = plate.InAir(board.Shape!.Edge != EdgeHold.Free, airDensity, count).Modes;
        return new([.. modes.Select(m => m.Frequency)], [.. plate.InAir(modes).Select(m => m.Error)], [], null);
    }
}
