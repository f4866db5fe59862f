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
    /// <summary>Rigid-body motions: the first vectors of the basis.</summary>
    public required int Rigid { get; init; }
    /// <summary>Flexible vectors of the basis, those that matter most first.</summary>
    public required int Flexible { get; init; }
    /// <summary>The last of them, whose part in a mode tells its error.</summary>
    public required int Tail { get; init; }
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
    /// <summary>Matrix of each stiffness coefficient between the flexible vectors: lower triangle, row by row.</summary>
    public required IReadOnlyList<double[]> StiffnessMatrices { get; init; }
    /// <summary>Matrix of each inertia coefficient between all vectors: lower triangle, row by row.</summary>
    public required IReadOnlyList<double[]> InertiaMatrices { get; init; }
    /// <summary>Mass of air of unit density between all vectors, m³ times the vectors' squares: lower triangle, row by row.</summary>
    public required double[] Air { get; init; }
    /// <summary>Movement of each vector at each of the places that were asked for.</summary>
    public required IReadOnlyList<double[]> Movements { get; init; }
    /// <summary>What it took to build.</summary>
    public required ReducedReport Report { get; init; }
}

/// <summary>What it took to build a reduced model, and how good it was found.</summary>
/// <param name="Solves">Full solves.</param>
/// <param name="Unknowns">Unknowns of the full model.</param>
/// <param name="WorstError">Largest error of a frequency against the full model on the same mesh, among designs it was not built from.</param>
/// <param name="WorstEstimate">Largest estimate of the error by residuals among the designs that stand for the range.</param>
public sealed record ReducedReport(int Solves, int Unknowns, double WorstError, double WorstEstimate);
