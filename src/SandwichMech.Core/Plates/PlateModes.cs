using System.Globalization;
using SandwichMech.Core.Numerics;

namespace SandwichMech.Core.Plates;

/// <summary>The lowest modes of a plate at one order.</summary>
internal static class PlateModes
{
    // Beyond those wanted, so that the last ones wanted are settled and a gap for the count is found.
    private const int Beyond = 4;
    private const double Tolerance = 1e-6;
    // Values err by the square of it.
    private const double StartTolerance = 1e-3;
    private const int LargestBasis = 400;
    private const int MostSteps = 30;
    private const double RigidBelow = 1e-6;

    // A dome that tilts moves in its plane by squares of the coordinates, which curved triangles hold but nearly: ω² of that is 1e-5 of the first mode's at order 3
    // for the usual dome and 2e-3 for the tightest, 1e-6 at order 5.
    private const double NearlyRigid = 0.1;

    // S L²/D, some (L/h)²: rounding leaves about so many times 1e-16 in ω². A board is at 1e3 to 1e5.
    private const double Thinnest = 1e11;

    /// <summary>Modes with ω² up to the wanted number of flexible ones, mass-normalised.</summary>
    internal sealed record Result(double[] Values, double[][] Vectors, int Rigid)
    {
        /// <summary>Relative change of each ω² by the last step of <see cref="Raised"/>, or the bound on what steps to come bring where that ended it; nothing for others.</summary>
        internal double[] Changes { get; init; } = [];

        /// <summary>The rigid modes and so many flexible ones.</summary>
        internal Result First(int flexible) => this with { Values = Values[..(Rigid + flexible)], Vectors = Vectors[..(Rigid + flexible)] };
    }

    internal static Result Solve(PlateSystem system, PlateProblem problem, int wanted) => Lowest(system, problem, wanted, Beyond, Tolerance).First(wanted);

    /// <summary>The modes and some beyond, settled as far as a start for <see cref="Raised"/> needs; none is missed.</summary>
    internal static Result Start(PlateSystem system, PlateProblem problem, int wanted) => Lowest(system, problem, wanted, Beyond, StartTolerance, isStart: true);

    /// <summary>The same modes at a higher order, by inverse iteration from those of the lower.</summary>
    /// <remarks>
    /// Spaces are nested, so values fall, and no more of them lie below a bound than did before but by the fall: as long as the last value of the
    /// start, lowered by twice the largest fall, lies above the wanted ones, none can have come in from beyond. Otherwise they are counted.
    /// </remarks>
    /// <param name="from">The plate at the lower order.</param>
    /// <param name="start">Its modes.</param>
    /// <param name="to">The plate at the higher order.</param>
    /// <param name="problem">The plate.</param>
    /// <param name="wanted">Flexible modes wanted.</param>
    /// <param name="tolerance">Relative change of ω² by the last step, or bound on what is left.</param>
    /// <returns>As many modes as the start has.</returns>
    internal static Result Raised(PlateSystem from, Result start, PlateSystem to, PlateProblem problem, int wanted, double tolerance)
    {
        Result raised = Iterated(to, OrderRaise.Of(from, to, start.Vectors), start, problem, wanted, tolerance);
        double fall = Enumerable.Range(start.Rigid, wanted).Max(i => start.Values[i] / raised.Values[i] - 1);
        bool isSafe = start.Values[^1] / (1 + 2 * fall) > raised.Values[start.Rigid + wanted - 1];
        return isSafe || IsComplete(to, raised.Values, start.Rigid + wanted) ? raised : Lowest(to, problem, wanted, Beyond, Tolerance, isStart: true);
    }

    /// <summary>The modes of a plate from motions that are nearly they, as those of a few vectors by Rayleigh and Ritz are; they are counted, so that none is missed.</summary>
    /// <param name="system">The plate.</param>
    /// <param name="near">Its modes, nearly, and some beyond.</param>
    /// <param name="problem">The plate.</param>
    /// <param name="wanted">Flexible modes wanted.</param>
    /// <param name="tolerance">Relative change of ω² by the last step, or bound on what is left.</param>
    /// <returns>At least as many modes as are wanted.</returns>
    internal static Result Settled(PlateSystem system, Result near, PlateProblem problem, int wanted, double tolerance)
    {
        Result settled = Iterated(system, Panel.Of(near.Vectors), near, problem, wanted, tolerance);
        return IsComplete(system, settled.Values, near.Rigid + wanted) ? settled : Lowest(system, problem, wanted, Beyond, Tolerance, isStart: true);
    }

    private static Result Iterated(PlateSystem to, double[][] panels, Result start, PlateProblem problem, int wanted, double tolerance)
    {
        double shift = -Scale(problem).Scale;
        var iteration = new SubspaceIteration(Factor(to, shift), to.MassOfPanel, shift, panels, start.Vectors.Length);
        int rigid = start.Rigid;
        double[] before = start.Values, changes = [];
        for (int step = 0; step < MostSteps; step++)
        {
            iteration.Step();
            changes = [.. before.Zip(iteration.Values, (b, now) => Math.Abs(b / now - 1))];
            before = iteration.Values;
            if (changes[rigid..(rigid + wanted)].Max() <= tolerance) { break; }
            // The first step's change holds the whole fall from order to order: whether the step was enough, the bound tells. It is no less than what a
            // further step would bring.
            if (iteration.Left[rigid..(rigid + wanted)].Max() <= tolerance)
            {
                changes = iteration.Left;
                break;
            }
        }

        return new(before, [.. Enumerable.Range(0, before.Length).Select(i => Panel.Vector(iteration.Vectors, i))], rigid) { Changes = changes };
    }

    private static FrontalFactor Factor(PlateSystem system, double shift)
    {
        FrontalFactor factor = system.Factor(shift) ?? throw new InvalidOperationException("The shifted stiffness has no factor.");
        return factor.NegativePivots == 0 ? factor : throw new InvalidOperationException("The plate's stiffness is not positive: a section is not possible.");
    }

    private static Result Lowest(PlateSystem system, PlateProblem problem, int wanted, int beyond, double tolerance, bool isStart = false)
    {
        (double scale, double thinness) = Scale(problem);
        if (!(thinness < Thinnest))
        {
            throw new InvalidOperationException("The plate is so thin for its size, or a stiffness of it no number, that the arithmetic cannot tell its bending from its shear: check thicknesses, moduli and units.");
        }

        int free = RigidMotions.Free(system, problem.Dome);
        bool isFlat = problem.Dome.IsFlat;
        if (system.Unknowns < free + wanted)
        {
            throw new InvalidOperationException(
                string.Create(CultureInfo.InvariantCulture, $"{wanted} modes are wanted of a mesh with {system.Unknowns} unknowns: a finer mesh or a higher order is needed."));
        }

        int asked = wanted + free + beyond;
        // A start fills its last panel: it costs nothing there, and vectors settle the faster the more lie between them and the first one left out.
        if (isStart) { asked += (Panel.Width - asked % Panel.Width) % Panel.Width; }
        asked = Math.Min(asked, system.Unknowns);
        BlockLanczos.Pairs pairs = BlockLanczos.Lowest(
            system.Unknowns, asked, -scale, Factor(system, -scale), system.MassOfPanel, tolerance, LargestBasis, values => IsComplete(system, values, Rigid(values) + wanted));
        int rigid = Rigid(pairs.Values);
        // A motion as a whole has no energy; where arithmetic takes another for one, or one for a mode, the plate is out of its reach.
        int without = WithoutEnergy(pairs.Values);
        bool agree = isFlat ? without == free : without <= free && (free == 0 || pairs.Values.Length <= free || pairs.Values[free - 1] < NearlyRigid * pairs.Values[free]);
        if (!agree || pairs.Values.Length < rigid + wanted || !pairs.Values.All(double.IsFinite))
        {
            throw new InvalidOperationException(
                string.Create(CultureInfo.InvariantCulture, $"{without} motions without energy were found where the supports leave {free}: so thin a plate, or so uneven stiffnesses, are beyond the arithmetic."));
        }

        return new(pairs.Values, pairs.Vectors, rigid);

        // On a dome the supports say how many they are, and that they lie far below what comes next is asked for.
        int Rigid(double[] values) => isFlat ? WithoutEnergy(values) : free;

        // Rigid bodies have ω² = 0 to rounding and to the tolerance, many orders below the scale.
        int WithoutEnergy(double[] values) => values.TakeWhile(v => v < Math.Max(RigidBelow, 20 * tolerance * tolerance) * scale).Count();
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
        // All there are, or too few to tell; the caller sees to it.
        if (wanted >= values.Length) { return true; }
        int below = Gap(values, wanted);
        return system.CountBelow((values[below - 1] + values[below]) / 2) == below;
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
