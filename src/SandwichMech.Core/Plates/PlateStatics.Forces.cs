using SandwichMech.Core.Layups;
using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates;

/// <summary>Forces and moments per width at one point of a plate.</summary>
/// <param name="At">Where.</param>
/// <param name="Section">Number of its section.</param>
/// <param name="Force">N, N/m; nothing where the model leaves the plane's motion out.</param>
/// <param name="Moment">M about the reference plane that all sections share, N·m/m, positive where it stretches the outer face.</param>
/// <param name="ShearAlong">Vx, N/m.</param>
/// <param name="ShearAcross">Vy, N/m.</param>
public sealed record PlateForces(Point At, int Section, InPlane Force, InPlane Moment, double ShearAlong, double ShearAcross);

public sealed partial class PlateStatics
{
    private const int Strains = PlateStrains.InnerBar;

    /// <summary>Forces and moments per width at the quadrature points, N = Aε + Bκ, M = Bε + Dκ, V = Sγ, of triangles that one section without bars fills.</summary>
    /// <param name="response">The load.</param>
    /// <returns>One a point; of strains by the shape functions' own derivatives, one order less exact than deflections.</returns>
    public IReadOnlyList<PlateForces> Forces(PlateResponse response)
    {
        NodalMesh mesh = _system.Mesh;
        int n = mesh.Basis.Count, stride = mesh.Basis.Stride, points = mesh.Basis.Points.Length;
        double[] values = new double[3 * n * stride];
        var forces = new List<PlateForces>();
        for (int e = 0; e < Triangles; e++)
        {
            int[] places = _problem.PlacesOf(e);
            PlateSection section = _problem.Sections[places[0]];
            if (places.Length > 1 || section.Inner is not null || section.Outer is not null) { continue; }
            mesh.Operators(e, values);
            double[][] strains = StrainsOf(e, response.Motion, values);
            for (int p = 0; p < points; p++)
            {
                Point at = default;
                for (int i = 0; i < n; i++) { at += values[(PlateStrains.Op1 * n + i) * stride + p] * mesh.Points[mesh.Nodes[e][i]]; }
                InPlane stretch = Three(PlateStrains.Stretch), bend = Three(PlateStrains.Bend);
                double along = strains[PlateStrains.Shear][p], across = strains[PlateStrains.Shear + 1][p];
                forces.Add(new(
                    at, places[0], section.A * stretch + section.B * bend, section.B * stretch + section.D * bend,
                    section.S.Sx * along + section.S.Sxy * across, section.S.Sxy * along + section.S.Sy * across));

                InPlane Three(int first) => new(strains[first][p], strains[first + 1][p], strains[first + 2][p]);
            }
        }

        return forces;
    }

    // Each strain of the board itself at each point of a triangle.
    private double[][] StrainsOf(int e, double[] motion, double[] values)
    {
        int n = _system.Mesh.Basis.Count, stride = _system.Mesh.Basis.Stride, points = _system.Mesh.Basis.Points.Length;
        int[] motions = _system.MotionsOf(e), unknowns = _system.Elements[e];
        double[][] strains = [.. Enumerable.Range(0, Strains).Select(_ => new double[points])];
        for (int s = 0; s < Strains; s++)
        {
            foreach ((int of, int op, double factor) in _system.Strains.Terms[s])
            {
                int own = Array.IndexOf(motions, of);
                for (int i = 0; own >= 0 && i < n; i++)
                {
                    int unknown = unknowns[i * motions.Length + own];
                    for (int p = 0; unknown >= 0 && p < points; p++) { strains[s][p] += factor * motion[unknown] * values[(op * n + i) * stride + p]; }
                }
            }
        }

        return strains;
    }
}
