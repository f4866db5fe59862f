using System.Numerics;

namespace SandwichMech.Core.Plates;

/// <summary>A point of a mobility's curve.</summary>
/// <param name="Frequency">Hz.</param>
/// <param name="Value">Velocity per force, s/kg.</param>
public sealed record MobilityAt(double Frequency, Complex Value);

/// <summary>A mobility over the first modes.</summary>
/// <param name="Typical">Geometric mean of its magnitude over the curve, s/kg.</param>
/// <param name="Points">Rising frequency: even steps of its logarithm, and every resonance.</param>
public sealed record MobilityCurve(double Typical, IReadOnlyList<MobilityAt> Points)
{
    private const int Steps = 160;

    /// <summary>The curve from half the first mode to short of the last one wanted.</summary>
    /// <param name="mobility">The mobility.</param>
    /// <param name="count">Modes wanted; those beyond are in the curve but not shown.</param>
    /// <returns>The curve, a resonance in it even where it is narrower than the step.</returns>
    public static MobilityCurve Of(PointMobility mobility, int count)
    {
        double first = mobility.Frequencies[0], low = 0.5 * first, high = Math.Max(0.95 * mobility.Frequencies[count - 1], 1.5 * first);
        MobilityAt[] points = [.. Enumerable.Range(0, Steps).Select(i => low * Math.Pow(high / low, i / (Steps - 1.0)))
            .Concat(mobility.Frequencies.Where(f => f <= high)).Order().Select(f => new MobilityAt(f, mobility.At(f)))];
        return new(Math.Exp(points.Average(p => Math.Log(p.Value.Magnitude))), points);
    }
}

/// <summary>Modal masses of shapes of unit modal mass.</summary>
public static class ModalMass
{
    // A mode that rests at a place has no mass there worth showing: more than so many boards.
    private const double MostBoards = 1e4;

    /// <summary>Seen where the mode moves most.</summary>
    /// <param name="shape">Its deflection, 1/√kg.</param>
    /// <returns>kg.</returns>
    public static double AtAntinode(IReadOnlyList<double> shape) => 1 / Math.Pow(shape.Max(Math.Abs), 2);

    /// <summary>Seen at a place.</summary>
    /// <param name="movement">The mode's movement there, 1/√kg.</param>
    /// <param name="board">Mass of the plate, kg.</param>
    /// <returns>kg; nothing where the mode rests there.</returns>
    public static double? At(double movement, double board) => 1 / (movement * movement) is var m && m < MostBoards * board ? m : null;
}
