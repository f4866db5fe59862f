using System.Globalization;
using SandwichMech.Core.Numerics;

namespace SandwichMech.Core.Plates;

/// <summary>The lowest modes of a plate at one order.</summary>
internal static class PlateModes
{
    // Beyond those wanted, so that the last ones wanted are settled and a gap for the count is found.
    private const int Beyond = 4;
    private const double Tolerance = 1e-6;
    private const int LargestBasis = 400;
    private const double RigidBelow = 1e-6;

    // S L²/D, some (L/h)²: rounding leaves about so many times 1e-16 in ω². A board is at 1e3 to 1e5.
    private const double Thinnest = 1e11;

    /// <summary>Modes with ω² up to the wanted number of flexible ones, mass-normalised.</summary>
    internal sealed record Result(double[] Values, double[][] Vectors, int Rigid);

    internal static Result Solve(PlateSystem system, PlateProblem problem, int wanted)
    {
        (double scale, double thinness) = Scale(problem);
        if (!(thinness < Thinnest))
        {
            throw new InvalidOperationException("The plate is so thin for its size, or a stiffness of it no number, that the arithmetic cannot tell its bending from its shear: check thicknesses, moduli and units.");
        }

        double shift = -scale;
        FrontalFactor factor = system.Factor(shift) ?? throw new InvalidOperationException("The shifted stiffness has no factor.");
        if (factor.NegativePivots > 0)
        {
            throw new InvalidOperationException("The plate's stiffness is not positive: a section is not possible.");
        }

        int free = RigidMotions.Free(system, problem.Dome);
        if (system.Unknowns < free + wanted)
        {
            throw new InvalidOperationException(
                string.Create(CultureInfo.InvariantCulture, $"{wanted} modes are wanted of a mesh with {system.Unknowns} unknowns: a finer mesh or a higher order is needed."));
        }

        int rigidAtMost = system.Motions.Length >= 5 ? 6 : 3;
        int asked = Math.Min(wanted + rigidAtMost + Beyond, system.Unknowns);
        BlockLanczos.Pairs pairs = BlockLanczos.Lowest(
            system.Unknowns, asked, shift, factor, system.Mass, Tolerance, LargestBasis, values => IsComplete(system, values, Rigid(values) + wanted));
        int rigid = Rigid(pairs.Values);
        // A motion as a whole has no energy; where arithmetic takes another for one, or one for a mode, the plate is out of its reach.
        if ((problem.Dome.IsFlat && rigid != free) || pairs.Values.Length < rigid + wanted || !pairs.Values.All(double.IsFinite))
        {
            throw new InvalidOperationException(
                string.Create(CultureInfo.InvariantCulture, $"{rigid} motions without energy were found where the supports leave {free}: so thin a plate, or so uneven stiffnesses, are beyond the arithmetic."));
        }

        return new(pairs.Values[..(rigid + wanted)], pairs.Vectors[..(rigid + wanted)], rigid);

        // Rigid bodies have ω² = 0 to rounding, many orders below the scale.
        int Rigid(double[] values) => values.TakeWhile(v => v < RigidBelow * scale).Count();
    }

    // The widest relative gap behind the last wanted value: there the count is safest.
    private static int Gap(double[] values, int from)
    {
        int best = from;
        for (int i = from; i < values.Length - 1; i++)
        {
            if (values[i] / values[i - 1] > values[best] / values[best - 1]) { best = i; }
        }

        return best;
    }

    // Sylvester: the negative pivots of K − σM are the eigenvalues below σ. A missed mode shows here.
    private static bool IsComplete(PlateSystem system, double[] values, int wanted)
    {
        int below = Gap(values, wanted);
        FrontalFactor? factor = system.Factor((values[below - 1] + values[below]) / 2);
        return factor is not null && factor.NegativePivots == below;
    }

    // Order of magnitude of the first ω²: a plate of the mean section and the same area.
    private static (double Scale, double Thinness) Scale(PlateProblem problem)
    {
        double area = 0, d = 0, m = 0, shear = 0;
        for (int i = 0; i < problem.Mesh.Triangles.Count; i++)
        {
            MeshTriangle t = problem.Mesh.Triangles[i];
            Outlines.Point a = problem.Mesh.Vertices[t.A], b = problem.Mesh.Vertices[t.B], c = problem.Mesh.Vertices[t.C];
            double part = (b - a).Cross(c - a) / 2;
            PlateSection s = problem.Sections[problem.PlacesOf(i)[0]];
            area += part;
            d += part * Math.Sqrt(s.D.M11 * s.D.M22);
            shear += part * Math.Max(s.S.Sx, s.S.Sy);
            m += part * s.WholeMass;
        }

        return (100 * d / (m * area * area), shear / d * area);
    }
}
