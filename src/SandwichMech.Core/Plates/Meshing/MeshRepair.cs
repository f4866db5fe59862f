using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates.Meshing;

/// <summary>Mends triangles that are too bad, one after the other: by a flip, or by a vertex on one of the sides.</summary>
internal static class MeshRepair
{
    /// <summary>Score below which a triangle is mended if it can be.</summary>
    internal const double Wanted = 0.22;

    // Evenness of the map below which edges are cut even where the first cut does not help yet.
    private const double Needed = 0.15;

    // What a vertex more must gain.
    private const double Price = 0.02;

    // Edges are not halved below this part of the wanted size.
    private const double Least = 0.02;

    internal static void Repair(CurvedMesh mesh, Func<Point, double> size)
    {
        var given = new HashSet<(int, int, int)>();
        int most = 100 + mesh.Sides.HalfEdges;
        for (int i = 0; i < most; i++)
        {
            (int h, double score) = Worst(mesh, given);
            if (h < 0) { return; }
            if (!Mend(mesh, h, score, size)) { given.Add(Corners(mesh, h)); }
        }
    }

    private static (int, int, int) Corners(CurvedMesh mesh, int h)
    {
        int[] c = [mesh.Sides.Origin(h), mesh.Sides.Target(h), mesh.Sides.Apex(h)];
        Array.Sort(c);
        return (c[0], c[1], c[2]);
    }

    private static (int H, double Score) Worst(CurvedMesh mesh, HashSet<(int, int, int)> given)
    {
        (int worst, double least) = (-1, Wanted);
        for (int h = 0; h < mesh.Sides.HalfEdges; h += 3)
        {
            if (!mesh.InBoard(h)) { continue; }
            double score = MeshImprovement.Score(mesh.Quality(h));
            if (score < least && (given.Count == 0 || !given.Contains(Corners(mesh, h)))) { (worst, least) = (h, score); }
        }

        return (worst, least);
    }

    private static bool Mend(CurvedMesh mesh, int triangle, double score, Func<Point, double> size)
    {
        (double Score, int Side, bool Flip) best = (score + Price, -1, false);
        for (int h = triangle; h < triangle + 3; h++)
        {
            if (mesh.Sides.CanFlip(h) && MeshImprovement.Flipped(mesh, h) is var (now, then) && then > Math.Max(best.Score, now + Price))
            {
                best = (then, h, true);
            }

            double split = Halved(mesh, h, size) - Price;
            if (split > best.Score) { best = (split, h, false); }
        }

        if (best.Side < 0) { best = (0, mesh.Quality(triangle).Ratio < Needed ? LongestEdge(mesh, triangle, size) : -1, false); }
        if (best.Side < 0) { return false; }
        if (best.Flip)
        {
            mesh.Sides.Flip(best.Side);
            return true;
        }

        int v = Halve(mesh, best.Side);
        // Around the new vertex: flips first, then free neighbours and the vertex itself move.
        Settle(mesh, v);
        return true;
    }

    private static int LongestEdge(CurvedMesh mesh, int triangle, Func<Point, double> size) => Enumerable.Range(triangle, 3)
        .Where(h => mesh.Sides.Mark(h) >= 0 && mesh.Edges[mesh.Sides.Mark(h)].Length >= 2 * Least * size(Middle(mesh, h)))
        .OrderByDescending(h => mesh.Edges[mesh.Sides.Mark(h)].Length).FirstOrDefault(-1);

    private static int Halve(CurvedMesh mesh, int h) =>
        mesh.Sides.Mark(h) >= 0 ? mesh.Halve(h) : mesh.Sides.SplitSide(h, Middle(mesh, h));

    private static Point Middle(CurvedMesh mesh, int h) => 0.5 * (mesh.Sides.Points[mesh.Sides.Origin(h)] + mesh.Sides.Points[mesh.Sides.Target(h)]);

    private static void Settle(CurvedMesh mesh, int v)
    {
        foreach (int h in mesh.Sides.Star(v).Select(Triangulation.Next).ToArray())
        {
            if (mesh.InBoard(h) && mesh.Sides.CanFlip(h) && MeshImprovement.Flipped(mesh, h) is var (now, then) && then > now + Price) { mesh.Sides.Flip(h); }
        }

        int[] around = [v, .. mesh.Sides.Star(v).Select(mesh.Sides.Target)];
        foreach (int w in around)
        {
            if (w >= Triangulation.Frame && mesh.IsFree(w)) { MeshImprovement.Smooth(mesh, w); }
        }
    }

    // The worst of the triangles that a vertex in the middle of a side would make, less where it stands for nothing.
    private static double Halved(CurvedMesh mesh, int h, Func<Point, double> size)
    {
        Triangulation s = mesh.Sides;
        int mark = s.Mark(h);
        double worst = double.PositiveInfinity;
        CurveEdge? first = null, second = null;
        Point middle = Middle(mesh, h);
        if (mark >= 0)
        {
            CurveEdge e = mesh.Edges[mark];
            middle = e.At(0.5);
            if (e.Length < Least * size(middle)) { return double.NegativeInfinity; }
            (first, second) = (e.Part(0, 0.5, 0, 1), e.Part(0.5, 1, 1, 2));
        }

        foreach (int side in (int[])[h, s.Twin(h)])
        {
            if (!mesh.InBoard(side)) { continue; }
            int n = Triangulation.Next(side), b = Triangulation.Before(side);
            Point p = s.Points[s.Origin(side)], q = s.Points[s.Origin(n)], r = s.Points[s.Origin(b)];
            ReadOnlySpan<Point> before = [], after = [];
            if (first is not null && second is not null)
            {
                bool along = s.Origin(side) == mesh.Edges[mark].A + Triangulation.Frame;
                before = along ? first.Bend(0) : second.Bend(2);
                after = along ? second.Bend(1) : first.Bend(1);
            }

            worst = Math.Min(worst, MeshImprovement.Score(CurvedTriangle.Quality(p, middle, r, before, [], mesh.BendOf(b))));
            worst = Math.Min(worst, MeshImprovement.Score(CurvedTriangle.Quality(middle, q, r, after, mesh.BendOf(n), [])));
        }

        return worst;
    }
}
