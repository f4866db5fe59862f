using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates;

/// <summary>An action's weights on the unknowns: b with b·x the movement, and F b the load of size F.</summary>
internal static class PatchWeights
{
    // The patch by its own curve and by the triangles in it.
    private const double AreaAgreement = 1e-6;
    private const int W = 2;

    internal static double[] Of(PlateSystem system, PlateMesh mesh, PlateAction action)
    {
        if (action.Corner is { } corner) { return AtCorner(system, mesh, corner); }
        int[] elements = [.. Enumerable.Range(0, mesh.Triangles.Count).Where(e => action.Patch?.Contains(Centre(mesh, e)) ?? true)];
        Moments m = Gather(system.Mesh, elements);
        if (action.Patch is { } patch && !(Math.Abs(m.Area - Math.Abs(patch.SignedArea)) <= AreaAgreement * Math.Abs(patch.SignedArea)))
        {
            throw new InvalidOperationException("The mesh does not follow the border of a loaded patch, or the patch reaches beyond the plate.");
        }

        double[] weights = new double[system.Unknowns];
        (int motion, Func<Point, double> density) = Density(action.Push, m);
        if (system.Motions.Contains(motion)) { Add(system, elements, motion, density, weights); }
        return weights;
    }

    // ∫ 1, x, y and the second moments about the centre.
    private sealed record Moments(double Area, Point Centre, double XX, double XY, double YY);

    private static (int Motion, Func<Point, double> Density) Density(PlatePush push, Moments m)
    {
        double det = m.XX * m.YY - m.XY * m.XY;
        return push switch
        {
            PlatePush.Deflect => (W, _ => 1 / m.Area),
            // Least squares: the slopes s of w = c + s·(x − centre) solve [XX XY; XY YY] s = ∫ w (x − centre).
            PlatePush.TiltAlong => (W, p => -(m.YY * (p - m.Centre).X - m.XY * (p - m.Centre).Y) / det),
            PlatePush.TiltAcross => (W, p => -(m.XX * (p - m.Centre).Y - m.XY * (p - m.Centre).X) / det),
            PlatePush.TurnAlong => (3, _ => 1 / m.Area),
            PlatePush.TurnAcross => (4, _ => 1 / m.Area),
            PlatePush.SlideAlong => (0, _ => 1 / m.Area),
            _ => (1, _ => 1 / m.Area),
        };
    }

    private static Moments Gather(NodalMesh nodes, int[] elements)
    {
        double area = 0, xx = 0, xy = 0, yy = 0;
        Point first = default;
        foreach ((Point p, double weight, int _, int _) in elements.SelectMany(e => Points(nodes, e)))
        {
            area += weight;
            first += weight * p;
            xx += weight * p.X * p.X;
            xy += weight * p.X * p.Y;
            yy += weight * p.Y * p.Y;
        }

        Point centre = 1 / area * first;
        return new(area, centre, xx - area * centre.X * centre.X, xy - area * centre.X * centre.Y, yy - area * centre.Y * centre.Y);
    }

    private static void Add(PlateSystem system, int[] elements, int motion, Func<Point, double> density, double[] weights)
    {
        int n = system.Mesh.Basis.Count, q = system.Mesh.Basis.Points.Length;
        foreach ((Point p, double weight, int element, int point) in elements.SelectMany(e => Points(system.Mesh, e)))
        {
            int[] motions = system.MotionsOf(element);
            int d = motions.Length, at = Array.IndexOf(motions, motion);
            double load = weight * density(p);
            for (int i = 0; i < n; i++)
            {
                int dof = system.Elements[element][i * d + at];
                if (dof >= 0) { weights[dof] += load * system.Mesh.Basis.N[i * q + point]; }
            }
        }
    }

    // Quadrature points of a triangle with the area each stands for.
    private static IEnumerable<(Point At, double Weight, int Element, int Number)> Points(NodalMesh nodes, int element)
    {
        int n = nodes.Basis.Count, q = nodes.Basis.Points.Length;
        double[] weights = nodes.Operators(element, new double[3 * n * nodes.Basis.Stride]);
        for (int p = 0; p < q; p++)
        {
            Point at = default;
            for (int i = 0; i < n; i++) { at += nodes.Basis.N[i * q + p] * nodes.Points[nodes.Nodes[element][i]]; }
            yield return (at, weights[p], element, p);
        }
    }

    private static double[] AtCorner(PlateSystem system, PlateMesh mesh, Point corner)
    {
        int vertex = Enumerable.Range(0, mesh.Vertices.Count).MinBy(v => (mesh.Vertices[v] - corner).Norm);
        double size = (system.Mesh.Points[mesh.Triangles[0].B] - system.Mesh.Points[mesh.Triangles[0].A]).Norm;
        return (mesh.Vertices[vertex] - corner).Norm <= 1e-6 * size
            ? AtNode(system, vertex)
            : throw new InvalidOperationException("A force acts on a point that is no corner of the mesh.");
    }

    /// <summary>A unit force on a node.</summary>
    internal static double[] AtNode(PlateSystem system, int node)
    {
        double[] weights = new double[system.Unknowns];
        int dof = system.Numbers[node * system.Motions.Length + Array.IndexOf(system.Motions, W)];
        if (dof >= 0) { weights[dof] = 1; }
        return weights;
    }

    private static Point Centre(PlateMesh mesh, int e) => 1.0 / 3 *
        (mesh.Vertices[mesh.Triangles[e].A] + mesh.Vertices[mesh.Triangles[e].B] + mesh.Vertices[mesh.Triangles[e].C]);
}
