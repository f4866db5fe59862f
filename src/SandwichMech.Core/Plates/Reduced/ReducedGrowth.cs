using MathNet.Numerics.LinearAlgebra;
using SandwichMech.Core.Numerics;

namespace SandwichMech.Core.Plates.Reduced;

/// <summary>One part of a reduced model while it grows: its basis and the matrices on it.</summary>
internal sealed class ReducedGrowth
{
    private readonly PlateSystem _reference;
    private readonly double _rim;
    private readonly ProjectedTerms _projected;
    private readonly ReducedBasis _basis;

    internal ReducedGrowth(PlateSystem reference, double shift, double rim, ProjectedTerms projected)
    {
        (_reference, _rim, _projected, _basis) = (reference, rim, projected, new(reference, shift));
    }

    /// <summary>Rigid motions: the first vectors.</summary>
    internal int Rigid { get; private set; }
    /// <summary>Flexible vectors.</summary>
    internal int Flexible => _basis.Vectors.Count;
    /// <summary>Most modes of this part that were among the wanted ones of a design.</summary>
    internal int Most { get; private set; } = 1;

    /// <summary>Begins with the rigid motions.</summary>
    internal void Begin(IReadOnlyList<double[]> rigid)
    {
        Rigid = rigid.Count;
        _projected.Append(rigid, _rim);
    }

    /// <summary>Adds what is new in a design's modes.</summary>
    /// <param name="modes">Flexible modes of this part.</param>
    /// <param name="wanted">How many of them are among the wanted ones.</param>
    /// <param name="negligible">Share of a mode's energy that may be left out.</param>
    internal void Add(IReadOnlyList<double[]> modes, int wanted, double negligible)
    {
        Most = Math.Max(Most, wanted);
        if (modes.Count > 0) { _projected.Append(_basis.Add(modes, negligible), _rim); }
    }

    /// <summary>The part as it stands, its vectors as they were added: the last ones came last.</summary>
    internal ReducedPart AsAdded() => new ReducedMatrices(Rigid, _projected.Stiffness, _projected.Inertia, _projected.Vectors).With(Flexible, Most);

    /// <summary>The matrices, with vectors turned so that the first hold most of all modes; how many of them are taken is left open.</summary>
    internal ReducedMatrices Turned()
    {
        var turn = Matrix<double>.Build.DenseIdentity(_projected.Count);
        turn.SetSubMatrix(Rigid, Rigid, _basis.Principal());
        return new(Rigid, [.. _projected.Stiffness.Select(m => Between(m, turn))], [.. _projected.Inertia.Select(m => Between(m, turn))], [.. turn.EnumerateColumns().Select(Combined)]);
    }

    private double[] Between(double[] m, Matrix<double> turn) =>
        (turn.Transpose() * Matrix<double>.Build.Dense(_projected.Count, _projected.Count, m) * turn).ToColumnMajorArray();

    private double[] Combined(Vector<double> with)
    {
        double[] sum = new double[_reference.Unknowns];
        for (int k = 0; k < with.Count; k++)
        {
            if (with[k] != 0) { DenseRows.Add(sum, with[k], _projected.Vectors[k]); }
        }

        return sum;
    }
}

/// <summary>Matrices of all coefficients on all vectors of a part: [row · count + column].</summary>
/// <param name="Rigid">Rigid motions: the first vectors.</param>
/// <param name="Stiffness">Of each stiffness coefficient.</param>
/// <param name="Inertia">Of each inertia coefficient.</param>
/// <param name="Vectors">On the plate's unknowns.</param>
internal sealed record ReducedMatrices(int Rigid, IReadOnlyList<double[]> Stiffness, IReadOnlyList<double[]> Inertia, IReadOnlyList<double[]> Vectors)
{
    /// <summary>All flexible vectors.</summary>
    internal int Flexible => Vectors.Count - Rigid;

    /// <summary>A part of a model with the first flexible vectors alone; the tail is one quarter of them.</summary>
    internal ReducedPart With(int flexible, int modes) => new()
    {
        Modes = modes,
        Rigid = Rigid,
        Flexible = flexible,
        Tail = Math.Max(1, flexible / 4),
        StiffnessMatrices = [.. Stiffness.Select(m => ReducedSolver.Laid(m, 0, Rigid, flexible))],
        InertiaMatrices = [.. Inertia.Select(m => ReducedSolver.Laid(m, Rigid, Rigid, flexible))],
        Air = [],
        Movements = [],
    };
}
