using MathNet.Numerics.LinearAlgebra;

namespace SandwichMech.Core.Plates;

/// <summary>Whether anything keeps a plate from moving as a whole.</summary>
/// <remarks>
/// A plate's stiffness is singular just where some rigid motion r, taken away at what is held, has no energy. So the energies between
/// the three motions out of the plane (and the three within it) are looked at, in the elements with a held motion or a spring, each relative to what its
/// parts would take alone there.
/// </remarks>
internal static class RigidMotions
{
    // Rounding is some 1e-15; the softest spring that is one, 1e-8.
    private const double Nothing = 1e-12;

    internal static bool AreHeld(PlateSystem system, Dome dome) => Free(system, dome) == 0;

    /// <summary>How many motions as a whole nothing keeps the plate from: 0 where it is held.</summary>
    internal static int Free(PlateSystem system, Dome dome)
    {
        double[][] motions = [.. All(system, dome)];
        double[,] energy = new double[motions.Length, motions.Length];
        double[] apart = new double[motions.Length];
        double[] k = new double[system.Elements.Max(e => e.Length * e.Length)];
        for (int e = 0; e < system.Elements.Length; e++)
        {
            int[] dofs = system.Elements[e];
            // Where nothing is held a rigid motion takes no energy.
            if (!system.IsHeld(e)) { continue; }
            system.Matrix(e, 0, k);
            int size = dofs.Length;
            double[][] local = [.. motions.Select(r => dofs.Select(i => i < 0 ? 0 : r[i]).ToArray())];
            for (int a = 0; a < motions.Length; a++)
            {
                for (int i = 0; i < size; i++) { apart[a] += k[i * size + i] * local[a][i] * local[a][i]; }
                double[] force = Times(k, size, local[a]);
                for (int b = 0; b <= a; b++)
                {
                    for (int i = 0; i < size; i++) { energy[a, b] += force[i] * local[b][i]; }
                }
            }
        }

        var relative = Matrix<double>.Build.Dense(motions.Length, motions.Length,
            (a, b) => apart[a] > 0 && apart[b] > 0 ? energy[Math.Max(a, b), Math.Min(a, b)] / Math.Sqrt(apart[a] * apart[b]) : 0);
        return relative.Evd(Symmetricity.Symmetric).EigenValues.Count(v => v.Real <= Nothing);
    }

    // w = 1, x, y with the turns that go with them, a bar's own too, and on a shallow dome the slide that keeps εx = u,x + w/Rx and its like at nothing; then
    // u = 1, v = 1, and the turn in the plane.
    private static IEnumerable<double[]> All(PlateSystem system, Dome dome)
    {
        Outlines.Point[] points = system.Mesh.Points;
        double x0 = points.Average(p => p.X), y0 = points.Average(p => p.Y), a = dome.Along, b = dome.Across;
        Outlines.Point From(Outlines.Point p) => new(p.X - x0, p.Y - y0);
        double[] Of(Func<Outlines.Point, (double U, double V, double W, double TurnX, double TurnY)> at) => Motion(system, (p, m) =>
        {
            (double u, double v, double w, double turnX, double turnY) = at(From(p));
            return m switch { 0 => u, 1 => v, 2 => w, _ => m % 2 == 1 ? turnX : turnY };
        });
        yield return Of(p => (-a * p.X, -b * p.Y, 1, 0, 0));
        yield return Of(p => ((b * p.Y * p.Y - a * p.X * p.X) / 2, -b * p.X * p.Y, p.X, -1, 0));
        yield return Of(p => (-a * p.X * p.Y, (a * p.X * p.X - b * p.Y * p.Y) / 2, p.Y, 0, -1));
        if (system.Motions.Contains(0))
        {
            yield return Of(_ => (1, 0, 0, 0, 0));
            yield return Of(_ => (0, 1, 0, 0, 0));
            yield return Of(p => (-p.Y, p.X, 0, 0, 0));
        }
    }

    private static double[] Motion(PlateSystem system, Func<Outlines.Point, int, double> value)
    {
        double[] motion = new double[system.Unknowns];
        int d = system.Motions.Length;
        for (int i = 0; i < system.Numbers.Length; i++)
        {
            if (system.Numbers[i] >= 0) { motion[system.Numbers[i]] = value(system.Mesh.Points[i / d], system.Motions[i % d]); }
        }

        return motion;
    }

    // The lower triangle is filled.
    private static double[] Times(double[] k, int size, double[] x)
    {
        double[] y = new double[size];
        for (int i = 0; i < size; i++)
        {
            double sum = k[i * size + i] * x[i];
            for (int j = 0; j < i; j++)
            {
                sum += k[i * size + j] * x[j];
                y[j] += k[i * size + j] * x[i];
            }

            y[i] += sum;
        }

        return y;
    }
}
