using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates.Meshing;

/// <summary>Makes the triangles better without changing their number: moves free vertices, flips free sides.</summary>
internal static class MeshImprovement
{
    private const int Rounds = 4;
    private const int Sweeps = 2;

    // What a change must gain, so that rounding cannot go to and fro.
    private const double Gain = 1e-6;

    internal static void Improve(CurvedMesh mesh)
    {
        for (int round = 0; round < Rounds; round++)
        {
            for (int sweep = 0; sweep < Sweeps; sweep++) { Smooth(mesh); }
            if (Flip(mesh) == 0) { break; }
        }

        Smooth(mesh);
    }

    // Shape below which a triangle is no triangle, whatever rounding says of its map.
    private const double Flat = 1e-4;

    /// <summary>How good a triangle is for the solver: its shape, or the evenness of its map where that is worse. One that is flat is as
    /// bad as a folded one.</summary>
    internal static double Score(TriangleQuality q) => Math.Min(q.Shape, q.Ratio) - (q.Shape < Flat ? 1 : 0);

    /// <summary>What flipping a side would make of the worse of its two triangles.</summary>
    internal static (double Now, double Then) Flipped(CurvedMesh mesh, int h)
    {
        Triangulation s = mesh.Sides;
        int g = s.Twin(h), h1 = Triangulation.Next(h), h2 = Triangulation.Before(h), g1 = Triangulation.Next(g), g2 = Triangulation.Before(g);
        int a = s.Origin(h), b = s.Origin(g), c = s.Origin(h2), d = s.Origin(g2);
        double now = Math.Min(Score(mesh.Quality(h)), Score(mesh.Quality(g)));
        double then = Math.Min(
            Score(mesh.Quality(a, d, c, s.Mark(g1), -1, s.Mark(h2))),
            Score(mesh.Quality(d, b, c, s.Mark(g2), s.Mark(h1), -1)));
        return (now, then);
    }

    private static int Flip(CurvedMesh mesh)
    {
        int flips = 0;
        for (int h = 0; h < mesh.Sides.HalfEdges; h++)
        {
            if (!mesh.InBoard(h) || h > mesh.Sides.Twin(h) || !mesh.Sides.CanFlip(h)) { continue; }
            (double now, double then) = Flipped(mesh, h);
            if (then <= now + Gain) { continue; }
            mesh.Sides.Flip(h);
            flips++;
        }

        return flips;
    }

    internal static void Smooth(CurvedMesh mesh)
    {
        for (int v = Triangulation.Frame; v < mesh.Sides.Points.Count; v++)
        {
            if (mesh.IsFree(v)) { Smooth(mesh, v); }
        }
    }

    // Towards the mean of the tips of equilateral triangles on the sides opposite; as far as it helps.
    internal static void Smooth(CurvedMesh mesh, int v)
    {
        int[] opposite = [.. mesh.Sides.Star(v).Select(Triangulation.Next)];
        Point sum = default, now = mesh.Sides.Points[v];
        foreach (int h in opposite)
        {
            Point a = mesh.Sides.Points[mesh.Sides.Origin(h)], b = mesh.Sides.Points[mesh.Sides.Target(h)];
            sum += 0.5 * (a + b) + Math.Sqrt(3) / 2 * (b - a).Left();
        }

        Point move = 1.0 / opposite.Length * sum - now;
        double cost = Cost(mesh, opposite, now);
        for (double step = 1; step > 0.2; step /= 2)
        {
            if (Cost(mesh, opposite, now + step * move) < cost - Gain)
            {
                mesh.Sides.Move(v, now + step * move);
                return;
            }
        }
    }

    // The sum of 1/score of the triangles around a vertex, were it at a point; beyond all bounds where one would fold.
    private static double Cost(CurvedMesh mesh, int[] opposite, Point at)
    {
        double cost = 0;
        foreach (int h in opposite)
        {
            double score = Score(mesh.Quality(mesh.Sides.Origin(h), mesh.Sides.Target(h), at, mesh.Sides.Mark(h)));
            cost += score > 1e-3 ? 1 / score : 1e6 * (1 - score);
        }

        return cost;
    }
}
