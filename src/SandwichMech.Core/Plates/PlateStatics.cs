using SandwichMech.Core.Numerics;

namespace SandwichMech.Core.Plates;

/// <summary>Nothing keeps the plate from moving as a whole: a steady load has no answer.</summary>
public sealed class UnsupportedPlateException()
    : Exception("Nothing holds the plate against moving or turning as a whole, so a steady load has no answer: hold its edge.");

/// <summary>A load and how the plate moves under it. Sums and multiples of them are loads again.</summary>
public sealed class PlateResponse
{
    internal PlateResponse(double[] load, double[] motion) => (Load, Motion) = (load, motion);

    internal double[] Load { get; }

    internal double[] Motion { get; }

    /// <summary>A multiple of the load.</summary>
    /// <param name="size">Factor.</param>
    /// <returns>The load and its response.</returns>
    public PlateResponse Times(double size) => new([.. Load.Select(f => size * f)], [.. Motion.Select(x => size * x)]);

    /// <summary>Both loads at once.</summary>
    /// <param name="other">On the same plate.</param>
    /// <returns>The load and its response.</returns>
    public PlateResponse Plus(PlateResponse other) =>
        new([.. Load.Zip(other.Load, (a, b) => a + b)], [.. Motion.Zip(other.Motion, (a, b) => a + b)]);
}

/// <summary>A plate under steady loads at one order: K x = f, linear.</summary>
/// <remarks>
/// First-order shear theory without change of shape: deflections small against the thickness where an edge is held in its plane. An action b
/// loads with f = F b and measures b·x, so the compliance b_iᵀK⁻¹b_j is symmetric, and its derivative to any change of the sections is
/// −x_iᵀ dK x_j, exactly.
/// </remarks>
public sealed partial class PlateStatics
{
    private readonly PlateProblem _problem;
    private readonly PlateSystem _system;
    private readonly FrontalFactor _factor;

    private PlateStatics(PlateProblem problem, PlateSystem system, FrontalFactor factor)
    {
        (_problem, _system, _factor) = (problem, system, factor);
        Field = ShapeField.Of(system, problem.Mesh);
    }

    /// <summary>The nodes at which deflections are given, and the small triangles that they span.</summary>
    public ShapeField Field { get; }
    /// <summary>Number of unknowns.</summary>
    public int Unknowns => _system.Unknowns;
    /// <summary>Number of triangles.</summary>
    public int Triangles => _system.Elements.Length;

    /// <summary>Prepares a plate for loads.</summary>
    /// <param name="problem">The plate on its mesh.</param>
    /// <param name="order">Order of the elements, 2 to 7.</param>
    /// <returns>The plate, its stiffness factorised.</returns>
    /// <exception cref="UnsupportedPlateException">Nothing holds it.</exception>
    public static PlateStatics Of(PlateProblem problem, int order)
    {
        var system = new PlateSystem(problem, order);
        return RigidMotions.AreHeld(system, problem.Dome) && system.Factor(0) is { NegativePivots: 0 } factor
            ? new(problem, system, factor)
            : throw new UnsupportedPlateException();
    }

    /// <summary>Responses to unit loads.</summary>
    /// <param name="actions">The loads.</param>
    /// <returns>One response each, in their order.</returns>
    /// <exception cref="InvalidOperationException">The mesh does not follow a patch's border.</exception>
    public IReadOnlyList<PlateResponse> Respond(IReadOnlyList<PlateAction> actions) =>
        Solve([.. actions.Select(a => PatchWeights.Of(_system, _problem.Mesh, a))]);

    /// <summary>Response to a unit force along z on a node, by whose load the deflection of that node is read.</summary>
    /// <param name="node">Number of the node in <see cref="Field"/>.</param>
    /// <returns>The response.</returns>
    public PlateResponse RespondAt(int node) => Solve([PatchWeights.AtNode(_system, node)])[0];

    /// <summary>The movement that one action measures under the load of another; the same the other way round.</summary>
    /// <param name="measured">Whose weights.</param>
    /// <param name="under">Whose motion.</param>
    /// <returns>m/N, rad/N and so on, times both sizes.</returns>
    public static double Movement(PlateResponse measured, PlateResponse under)
    {
        double sum = 0;
        for (int i = 0; i < measured.Load.Length; i++) { sum += measured.Load[i] * under.Motion[i]; }
        return sum;
    }

    /// <summary>Change of that movement for a change of the sections, to first order.</summary>
    /// <param name="measured">Whose weights.</param>
    /// <param name="under">Whose load.</param>
    /// <returns>A function of changed sections, those before taken as the plate's own.</returns>
    public Func<IReadOnlyList<PlateSection>, double> Change(PlateResponse measured, PlateResponse under)
    {
        // xᵀ dK y of the quadratic forms of x + y and x − y.
        IReadOnlyList<RegionShare> sum = Products(measured.Plus(under)), difference = Products(measured.Plus(under.Times(-1)));
        double Of(int r, in PlateSection s) => (sum[r].Stiffness(s) - difference[r].Stiffness(s)) / 4;
        double[] before = [.. _problem.Sections.Select((s, r) => Of(r, s))];
        return after =>
        {
            double change = 0;
            for (int r = 0; r < before.Length; r++)
            {
                if (after[r] != _problem.Sections[r]) { change += before[r] - Of(r, after[r]); }
            }

            return change;
        };
    }

    /// <summary>The part of a movement that edge springs of a common factor bring: its change for a change of their logarithm is minus this.</summary>
    /// <param name="measured">Whose weights.</param>
    /// <param name="under">Whose load.</param>
    /// <returns>Its part, in the movement's unit.</returns>
    public double EdgeEnergy(PlateResponse measured, PlateResponse under) =>
        // Change to sections of nothing is the whole of what the sections bring.
        Movement(measured, under) - Change(measured, under)([.. _problem.Sections.Select(_ => default(PlateSection))]);

    /// <summary>Strain products of a response by section: their sum with the sections is twice the strain energy, less what edge springs hold.</summary>
    /// <param name="response">The response.</param>
    /// <returns>One share a section.</returns>
    public IReadOnlyList<RegionShare> Products(PlateResponse response) => PlateSolution.Shares(_system, _problem, response.Motion);

    /// <summary>Deflection w at the nodes, m, positive outwards.</summary>
    /// <param name="response">The load.</param>
    /// <returns>One value a node.</returns>
    public double[] Deflection(PlateResponse response) => _system.Deflection(response.Motion);

    private PlateResponse[] Solve(double[][] loads) => [.. loads.Zip(_factor.Solve(loads), (load, motion) => new PlateResponse(load, motion))];
}
