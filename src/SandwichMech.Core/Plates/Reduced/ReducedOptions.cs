namespace SandwichMech.Core.Plates.Reduced;

/// <summary>What a reduced model is to give.</summary>
public sealed record ReducedOptions
{
    /// <summary>Flexible modes, lowest first.</summary>
    public int Modes { get; init; } = 20;
    /// <summary>Error of a frequency that is wanted, relative; each answer states its own, with a margin (<see cref="ReducedPlate.MostStated"/>).</summary>
    public double Accuracy { get; init; } = 1e-3;
    /// <summary>Full solves at most, those that test it among them.</summary>
    public int MostSolves { get; init; } = 60;
    /// <summary>Designs that stand for the range while it is built.</summary>
    public int Designs { get; init; } = 48;
    /// <summary>Designs that it is tested on, which it was not built from.</summary>
    public int Tests { get; init; } = 6;
    /// <summary>Movements that are wanted of each mode: of the bridge's foot, say. The mesh follows their patches.</summary>
    public IReadOnlyList<PlateAction> Actions { get; init; } = [];
    /// <summary>Seed of the designs, not zero.</summary>
    public ulong Seed { get; init; } = 20;
}

/// <summary>How far the building of a reduced model has come.</summary>
/// <param name="Solves">Full solves done.</param>
/// <param name="Basis">Vectors of the basis.</param>
/// <param name="WorstError">Largest error as estimated, relative; infinite before there is an estimate.</param>
/// <param name="Fraction">0 to 1, roughly.</param>
public sealed record ReducedProgress(int Solves, int Basis, double WorstError, double Fraction);
