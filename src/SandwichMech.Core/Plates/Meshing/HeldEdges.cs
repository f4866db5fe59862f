namespace SandwichMech.Core.Plates.Meshing;

/// <summary>Puts straight sides between given vertices into a triangulation (Sloan 1993: flip what crosses until nothing does).</summary>
internal static class HeldEdges
{
    /// <summary>Makes a side from one vertex to another and marks it.</summary>
    /// <returns>Whether it was possible: not where another marked side crosses or another vertex lies on the way.</returns>
    internal static bool Hold(Triangulation mesh, int from, int to, int mark)
    {
        int side = mesh.Between(from, to);
        if (side < 0)
        {
            if (Crossed(mesh, from, to) is not { } crossed) { return false; }
            // Each flip moves one side out of the way or turns it; far more than needed is a sign of a fault, not of work.
            for (int left = 50 + crossed.Count * crossed.Count * 10; crossed.Count > 0; left--)
            {
                if (left == 0) { return false; }
                (int a, int b) = crossed.Dequeue();
                int h = mesh.Between(a, b);
                if (h < 0) { continue; }
                if (!mesh.CanFlip(h))
                {
                    crossed.Enqueue((a, b));
                    continue;
                }

                (int c, int d) = (mesh.Apex(h), mesh.Apex(mesh.Twin(h)));
                mesh.Flip(h);
                if (c != from && c != to && d != from && d != to && mesh.Side(from, to, c) * mesh.Side(from, to, d) < 0) { crossed.Enqueue((c, d)); }
            }

            side = mesh.Between(from, to);
            if (side < 0) { return false; }
        }

        if (mesh.Mark(side) >= 0) { return false; }
        mesh.SetMark(side, mark);
        return true;
    }

    // The sides that the straight line crosses, by their ends; nothing where one of them is marked or a vertex lies on the line.
    private static Queue<(int, int)>? Crossed(Triangulation mesh, int from, int to)
    {
        int h = -1;
        foreach (int s in mesh.Star(from))
        {
            if (mesh.Side(from, to, mesh.Target(s)) < 0 && mesh.Side(from, to, mesh.Apex(s)) > 0) { h = Triangulation.Next(s); }
        }

        if (h < 0) { return null; }
        var crossed = new Queue<(int, int)>();
        while (true)
        {
            if (mesh.Mark(h) >= 0) { return null; }
            crossed.Enqueue((mesh.Origin(h), mesh.Target(h)));
            int g = mesh.Twin(h), apex = mesh.Apex(g);
            if (apex == to) { return crossed; }
            int side = mesh.Side(from, to, apex);
            if (side == 0) { return null; }
            // g runs the other way: its origin lies left, its target right of the line.
            h = side > 0 ? Triangulation.Next(g) : Triangulation.Before(g);
        }
    }
}
