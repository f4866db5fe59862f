namespace SandwichMech.Core.Plates.Reduced;

/// <summary>All numbers of a reduced model: what a cache keeps, and what <see cref="ReducedPlate"/> answers from.</summary>
public sealed record ReducedContent
{
    /// <summary>The boards that it answers for.</summary>
    public required BoardRange Range { get; init; }
    /// <summary>Flexible modes that it gives.</summary>
    public required int Modes { get; init; }
    /// <summary>Error that it was built for, relative.</summary>
    public required double Accuracy { get; init; }
    /// <summary>Error of a frequency over what the tail brings to it: one and a half times what held for 90 % of those that were tested.</summary>
    public required double ErrorPerTail { get; init; }
    /// <summary>Error of each mode that is the mesh's, relative.</summary>
    public required IReadOnlyList<double> MeshErrors { get; init; }
    /// <summary>Where sections are asked for.</summary>
    public required IReadOnlyList<SectionPlace> Stations { get; init; }
    /// <summary>Coefficients of the stiffness.</summary>
    public required IReadOnlyList<CoefficientTerm> Stiffness { get; init; }
    /// <summary>Coefficients of the mass.</summary>
    public required IReadOnlyList<CoefficientTerm> Inertia { get; init; }
    /// <summary>Motions that do not touch each other: all, or those even and those odd about the centre line of a board that is alike on both sides.</summary>
    public required IReadOnlyList<ReducedPart> Parts { get; init; }
    /// <summary>What it took to build.</summary>
    public required ReducedReport Report { get; init; }
}

/// <summary>Motions that are solved for by themselves.</summary>
public sealed record ReducedPart
{
    /// <summary>Flexible modes that are commonly wanted of it.</summary>
    public required int Modes { get; init; }
    /// <summary>Rigid-body motions: the first vectors of its basis.</summary>
    public required int Rigid { get; init; }
    /// <summary>Flexible vectors of its basis, those that matter most first.</summary>
    public required int Flexible { get; init; }
    /// <summary>The last of them, whose part in a mode tells its error.</summary>
    public required int Tail { get; init; }
    /// <summary>Matrix of each stiffness coefficient between the flexible vectors, as <see cref="ReducedSolver"/> takes it.</summary>
    public required IReadOnlyList<float[]> StiffnessMatrices { get; init; }
    /// <summary>Matrix of each inertia coefficient between all vectors.</summary>
    public required IReadOnlyList<float[]> InertiaMatrices { get; init; }
    /// <summary>Mass of air of unit density between all vectors, m³ times the vectors' squares.</summary>
    public required float[] Air { get; init; }
    /// <summary>Movement of each vector at each of the places that were asked for.</summary>
    public required IReadOnlyList<double[]> Movements { get; init; }
}

/// <summary>What it took to build a reduced model, and how good it was found.</summary>
/// <param name="Solves">Full solves.</param>
/// <param name="Unknowns">Unknowns of the full model.</param>
/// <param name="WorstError">Largest error of a frequency against the full model on the same mesh, among designs it was not built from.</param>
/// <param name="LastError">The same of the last design that joined, before it did.</param>
public sealed record ReducedReport(int Solves, int Unknowns, double WorstError, double LastError);
