using SandwichMech.Core.Plates;

namespace SandwichMech.Core.Identification;

/// <summary>One mode of a tapped plate in air.</summary>
/// <param name="Frequency">Hz.</param>
/// <param name="Lines">Nodal lines met going along and going across, where they were counted and the shape has a plain count.</param>
/// <param name="Shape">Deflection at the nodes.</param>
/// <param name="Mode">The same shape with its products, for derivatives.</param>
/// <param name="PlateShare">The plate's share of the mass that moves, where the products are in vacuo; the air has the rest.</param>
public sealed record TapMode(double Frequency, (int Along, int Across)? Lines, double[] Shape, PlateMode Mode, double PlateShare);

/// <summary>A plate whose modes in air are wanted again and again with other values of what is uncertain about it, on one mesh.</summary>
public abstract class TappedPlate
{
    private protected TappedPlate()
    {
    }

    /// <summary>Area that each node stands for, m².</summary>
    private protected abstract double[] Areas { get; }

    /// <summary>The modes of the sample with other values.</summary>
    /// <param name="sample">The sample.</param>
    /// <returns>Lowest first; their nodal lines are not counted.</returns>
    public abstract IReadOnlyList<TapMode> Solve(Sample sample);

    /// <summary>The same with their nodal lines.</summary>
    /// <param name="sample">The sample.</param>
    /// <returns>Lowest first.</returns>
    public IReadOnlyList<TapMode> Counted(Sample sample) => Counted(Solve(sample));

    /// <summary>Modes with their nodal lines.</summary>
    /// <param name="modes">The modes.</param>
    internal IReadOnlyList<TapMode> Counted(IReadOnlyList<TapMode> modes) => [.. modes.Select(m => m.Lines is null ? m with { Lines = LinesOf(m.Shape) } : m)];

    /// <summary>Nodal lines of a shape.</summary>
    /// <param name="shape">The shape.</param>
    internal abstract (int Along, int Across)? LinesOf(double[] shape);

    /// <summary>Sees how good <see cref="Solve"/> is for a sample; where it is not good enough, it is afterwards.</summary>
    /// <param name="sample">The sample.</param>
    /// <returns>Whether it was good enough before.</returns>
    public abstract bool Prove(Sample sample);

    /// <summary>Relative changes of modes' frequencies from one sample to another near them, to first order: the air's mass stays.</summary>
    /// <param name="modes">The modes.</param>
    /// <param name="less">From.</param>
    /// <param name="more">To.</param>
    /// <returns>df/f of each.</returns>
    public abstract double[] Changes(IReadOnlyList<TapMode> modes, Sample less, Sample more);

    /// <summary>Number of the mode whose shape is most like a given one, on the same mesh.</summary>
    /// <param name="shape">The shape.</param>
    /// <param name="modes">The modes.</param>
    /// <param name="taken">Numbers that are not to be given again.</param>
    public int MostLike(double[] shape, IReadOnlyList<TapMode> modes, IReadOnlyCollection<int>? taken = null) =>
        ShapeField.MostLike(shape, [.. modes.Select(m => m.Shape)], Areas, taken);
}
