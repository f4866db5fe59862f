using SandwichMech.Core.Numerics;
using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates;

public sealed partial class PlateSolution
{
    // Shift at which the compliance is taken, in parts of the first ω²: small against the modes left out, not so small that rigid motions swamp them.
    private const double ResidualShift = 0.01;

    /// <summary>Mass by the mesh's own integrals, kg.</summary>
    public double Mass => Moment(_ => 1);

    /// <summary>Area by the mesh's own integrals, m².</summary>
    public double Area => Moment(_ => 1, _ => 1);

    /// <summary>Centre of mass, m.</summary>
    public Point CentreOfMass => new(Moment(p => p.X) / Mass, Moment(p => p.Y) / Mass);

    /// <summary>Movement of each flexible mode in vacuo by an action's weights, 1/√kg: its modal mass there is one over its square.</summary>
    /// <param name="action">Where and what is looked at: the mean deflection of a bridge's foot.</param>
    /// <returns>One value a mode, those beyond the wanted ones too.</returns>
    public IReadOnlyList<double> At(PlateAction action) => AllAt(action)[_result.Rigid..];

    /// <summary>The same of a mode in air.</summary>
    /// <param name="action">Where and what is looked at.</param>
    /// <param name="mode">The mode.</param>
    /// <returns>1/√kg; the modal mass holds the air's.</returns>
    public double At(PlateAction action, AirMode mode)
    {
        double[] all = AllAt(action), parts = [.. mode.RigidParts, .. mode.Parts];
        return all.Zip(parts, (a, p) => a * p).Sum();
    }

    /// <summary>What the modes that were not solved for add to the compliance: the static residual.</summary>
    /// <param name="action">Where and what is looked at.</param>
    /// <param name="measured">What is looked at where another action drives; nothing: the same.</param>
    /// <returns>m/N for a force.</returns>
    /// <remarks>
    /// bᵀ(K − σM)⁻¹b less the part of every mode that is known, at a small negative σ, so that a board which nothing holds has one too. The modes left
    /// out lie far above: what σ changes in them is below σ over their ω².
    /// </remarks>
    public double Residual(PlateAction action, PlateAction? measured = null)
    {
        double shift = -ResidualShift * _result.Values[_result.Rigid];
        double[] weights = PatchWeights.Of(_system, _problem.Mesh, action);
        FrontalFactor factor = _system.Factor(shift) ?? throw new InvalidOperationException("The shifted stiffness has no factor.");
        double[] x = factor.Solve([weights])[0];
        double[] seen = measured is null ? weights : PatchWeights.Of(_system, _problem.Mesh, measured);
        double compliance = 0;
        for (int i = 0; i < weights.Length; i++) { compliance += seen[i] * x[i]; }
        double[] all = AllAt(action), other = measured is null ? all : AllAt(measured);
        for (int j = 0; j < all.Length; j++)
        {
            compliance -= all[j] * other[j] / ((j < _result.Rigid ? 0 : _result.Values[j]) - shift);
        }

        return compliance;
    }

    private double[] AllAt(PlateAction action)
    {
        double[] weights = PatchWeights.Of(_system, _problem.Mesh, action);
        return [.. _result.Vectors.Select(v =>
        {
            double sum = 0;
            for (int i = 0; i < weights.Length; i++) { sum += weights[i] * v[i]; }
            return sum;
        })];
    }

    // ∫ m f dA, or of another density; a straight f is what its values at the nodes say, on curved triangles too.
    private double Moment(Func<Point, double> f) => Moment(f, s => s.WholeMass);

    private double Moment(Func<Point, double> f, Func<PlateSection, double> density)
    {
        int n = _system.Mesh.Basis.Count, m = 3 * n;
        double sum = 0;
        for (int e = 0; e < _system.Elements.Length; e++)
        {
            int[] places = _system.PlacesOf(e);
            double[] values = [.. _system.Mesh.Nodes[e].Select(i => f(_system.Mesh.Points[i]))];
            for (int p = 0; p < places.Length; p++)
            {
                double[] g = _system.IntegralsOf(e, p);
                double mass = density(_problem.Sections[places[p]]);
                for (int i = 0; i < n; i++)
                {
                    for (int j = 0; j < n; j++) { sum += mass * g[(PlateStrains.Op1 * n + i) * m + PlateStrains.Op1 * n + j] * values[j]; }
                }
            }
        }

        return sum;
    }
}
