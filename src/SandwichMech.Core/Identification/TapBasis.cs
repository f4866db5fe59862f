using MathNet.Numerics.LinearAlgebra;
using SandwichMech.Core.Numerics;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Plates.Reduced;

namespace SandwichMech.Core.Identification;

/// <summary>The modes in air of one free plate for any section, as sums of a few motions: those of modes that were solved for on its mesh.</summary>
/// <remarks>
/// Rayleigh and Ritz: on these motions the matrix of each coefficient is small and fixed (<see cref="ProjectedTerms"/>), and so is the air's, which asks for the
/// outline alone (<see cref="AirVolume"/>). What remains is (K − ω²(M + A)) q = 0 of some dozens of unknowns. Rigid motions have no stiffness; with their
/// part of M + A taken out, that of the others is positive definite. The motions that are left out make frequencies too high,
/// by the square of what is missing in a shape; how much is seen by <see cref="Prove"/>.
/// </remarks>
internal sealed class TapBasis
{
    // Modes beyond those looked at, so that the last ones settle too.
    private const int Guard = 4;
    // Of the accuracy, in ω²: what iteration leaves, and what may be dropped of a new mode.
    private const double Settled = 0.3, Negligible = 0.1;
    private const double ShiftShare = 0.5;

    private readonly PlateSystem _system;
    private readonly CoefficientTerms _terms;
    private readonly ProjectedTerms _projected;
    private readonly ReducedBasis _basis;
    private readonly Func<IReadOnlyList<double[]>, double[,]> _airOf;
    private readonly int _rigid;
    private double[][] _deflections = [];
    private double[,] _air = new double[0, 0];

    /// <summary>Begins with the modes of one section.</summary>
    /// <param name="solution">They, and some beyond.</param>
    /// <param name="accuracy">Of the frequencies.</param>
    /// <param name="airOf">The air's volume for deflections at the nodes.</param>
    internal TapBasis(PlateSolution solution, double accuracy, Func<IReadOnlyList<double[]>, double[,]> airOf)
    {
        (_system, _airOf, _rigid, Accuracy) = (solution.System, airOf, solution.RigidModes, accuracy);
        _terms = TermsOf(_system.Problem.Sections[0]);
        _projected = new(_system, new([0], [[(0, 1)]]), SpannedTerms.Each(_terms.Stiffness), SpannedTerms.Each(_terms.Inertia));
        _basis = new(_system, -ShiftShare * solution.Result.Values[_rigid]);
        Add(solution.Result.Vectors[_rigid..], solution.Result.Vectors[.._rigid]);
    }

    /// <summary>Relative error of the frequencies that is let pass.</summary>
    internal double Accuracy { get; }

    /// <summary>Whether the motions can be those of a section: it has no coefficient that theirs has not, as of coupling between bending and stretching.</summary>
    internal bool Holds(in PlateSection section)
    {
        CoefficientTerms own = TermsOf(section);
        bool isCoupled = (_system.Problem with { Sections = [section] }).HasCoupling;
        return (!isCoupled || _system.Problem.HasCoupling) && !own.Stiffness.Except(_terms.Stiffness).Any() && !own.Inertia.Except(_terms.Inertia).Any();
    }

    /// <summary>Modes of the plate with a section.</summary>
    /// <param name="section">The section.</param>
    /// <param name="count">How many flexible modes, lowest first.</param>
    /// <param name="airDensity">kg/m³.</param>
    /// <returns>The modes; their numerical error is that of the motions on their mesh, and told elsewhere.</returns>
    internal IReadOnlyList<TapMode> Modes(PlateSection section, int count, double airDensity)
    {
        (double[] values, double[][] parts) = Solve(section, count, airDensity);
        return [.. parts.Select((p, i) => Mode(section, values[i], p))];
    }

    /// <summary>Solves the plate with a section on its mesh. Where the motions gave frequencies that were off, the modes join them.</summary>
    /// <param name="section">The section.</param>
    /// <param name="count">Modes that are looked at.</param>
    /// <returns>How far off the worst frequency in vacuo was, relative: at most <see cref="Accuracy"/> where nothing was to be learnt.</returns>
    internal double Prove(PlateSection section, int count)
    {
        (double[] values, double[][] parts) = Solve(section, Math.Min(count + Guard, _projected.Count - _rigid), 0);
        PlateSystem system = _system.With([section]);
        var near = new PlateModes.Result(
            [.. new double[_rigid], .. values], [.. _projected.Vectors.Take(_rigid), .. parts.Select(p => Sum(p, _projected.Vectors))], _rigid);
        PlateModes.Result exact = PlateModes.Settled(system, near, system.Problem, count, Settled * Accuracy);
        double worst = 0;
        for (int i = 0; i < count; i++) { worst = Math.Max(worst, Math.Abs(Math.Sqrt(values[i] / exact.Values[_rigid + i]) - 1)); }
        if (!(worst <= Accuracy)) { Add(exact.Vectors[_rigid..]); }
        return worst;
    }

    private void Add(double[][] modes, params double[][] rigid)
    {
        _projected.Append([.. rigid, .. _basis.Add(modes, Negligible * Accuracy)], 0);
        _deflections = [.. _deflections, .. _projected.Vectors.Skip(_deflections.Length).Select(_system.Deflection)];
        _air = _airOf(_deflections);
    }

    // Values in ω² and each mode as a sum of all motions, qᵀ(M + A)q = 1.
    private (double[] Values, double[][] Parts) Solve(PlateSection section, int count, double airDensity)
    {
        (double[] c, double[] m) = _terms.Of([section], 0);
        int all = _projected.Count, n = all - _rigid;
        double[] stiffness = Added(c, _projected.Stiffness), mass = Added(m, _projected.Inertia);
        for (int i = 0; i < mass.Length; i++) { mass[i] += airDensity * _air[i / all, i % all]; }
        var rigid = Matrix<double>.Build.Dense(_rigid, _rigid, (i, j) => mass[i * all + j]);
        var between = Matrix<double>.Build.Dense(_rigid, n, (i, j) => mass[i * all + _rigid + j]);
        Matrix<double> follow = rigid.Cholesky().Solve(between), taken = between.TransposeThisAndMultiply(follow);
        double[] k = new double[n * (n + 1) / 2], own = new double[k.Length], values = new double[count], vectors = new double[count * n];
        for (int i = 0, at = 0; i < n; i++)
        {
            for (int j = 0; j <= i; j++, at++)
            {
                int from = (_rigid + i) * all + _rigid + j;
                (k[at], own[at]) = (stiffness[from], mass[from] - taken[i, j]);
            }
        }

        if (!new LowestPairs(n).Solve(k, own, values, vectors)) { throw new InvalidOperationException("The plate's stiffness is not positive: a section is not possible."); }
        return (values, [.. Enumerable.Range(0, count).Select(i =>
        {
            var y = Vector<double>.Build.Dense(vectors[(i * n)..((i + 1) * n)]);
            return (double[])[.. (-(follow * y)), .. y];
        })]);
    }

    // The shape that a mode has in air, at unit modal mass of the plate alone: in vacuo it would go faster by the root of the plate's share.
    private TapMode Mode(PlateSection section, double value, double[] parts)
    {
        RegionShare own = Products(parts);
        double share = own.Inertia(section), frequency = Math.Sqrt(value) / (2 * Math.PI);
        Scale(own.Strains, 1 / share);
        Scale(own.Motions, 1 / share);
        return new(frequency, null, Sum(parts, _deflections), PlateSolution.Mode([section], value / share, [own], Accuracy), share);
    }

    // A term's matrix is ∫ (s_i s_jᵀ + s_j s_iᵀ) for i < j, ∫ s_i s_iᵀ otherwise.
    private RegionShare Products(double[] parts)
    {
        return new(Of(_terms.Stiffness, _projected.Stiffness, PlateStrains.InnerBar), Of(_terms.Inertia, _projected.Inertia, PlateStrains.Motions));

        double[,] Of(IReadOnlyList<CoefficientTerm> terms, double[][] matrices, int size)
        {
            double[,] products = new double[size, size];
            for (int t = 0; t < matrices.Length; t++)
            {
                (int i, int j) = (terms[t].First, terms[t].Second);
                double whole = Quadratic(matrices[t], parts);
                products[i, j] = products[j, i] = i == j ? whole : whole / 2;
            }

            return products;
        }
    }

    private static double Quadratic(double[] matrix, double[] x)
    {
        double sum = 0;
        for (int i = 0; i < x.Length; i++) { sum += x[i] * DenseRows.Dot(matrix.AsSpan(i * x.Length, x.Length), x); }
        return sum;
    }

    private static double[] Added(double[] coefficients, double[][] matrices)
    {
        double[] sum = new double[matrices[0].Length];
        for (int t = 0; t < matrices.Length; t++) { DenseRows.Add(sum, coefficients[t], matrices[t]); }
        return sum;
    }

    private static double[] Sum(double[] parts, IReadOnlyList<double[]> vectors)
    {
        double[] sum = new double[vectors[0].Length];
        for (int i = 0; i < parts.Length; i++) { DenseRows.Add(sum, parts[i], vectors[i]); }
        return sum;
    }

    private static void Scale(double[,] a, double by)
    {
        for (int i = 0; i < a.GetLength(0); i++)
        {
            for (int j = 0; j < a.GetLength(1); j++) { a[i, j] *= by; }
        }
    }

    private static CoefficientTerms TermsOf(in PlateSection section) => CoefficientTerms.MetIn([new([0], default)], [[section]], false);
}
