using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates;

/// <summary>Lines made of the straight pieces that meet at their ends.</summary>
internal static class LineChains
{
    /// <summary>Joins pieces end to end; where several go on, the straightest does.</summary>
    /// <param name="pieces">The pieces, m.</param>
    /// <param name="near">Ends closer than this are one, m; shorter pieces are left out.</param>
    /// <returns>The points of each line, its first point again at the end where it is closed.</returns>
    internal static IReadOnlyList<IReadOnlyList<Point>> Of(IReadOnlyList<LinePiece> pieces, double near)
    {
        LinePiece[] all = [.. pieces.Where(p => (p.B - p.A).Norm > near)];
        var ends = new Dictionary<(long, long), List<int>>();
        for (int i = 0; i < all.Length; i++)
        {
            Add(all[i].A, i);
            Add(all[i].B, i);
        }

        bool[] isUsed = new bool[all.Length];
        var chains = new List<IReadOnlyList<Point>>();
        for (int i = 0; i < all.Length; i++)
        {
            if (isUsed[i]) { continue; }
            isUsed[i] = true;
            List<Point> forward = Followed(all[i].A, all[i].B), back = Followed(all[i].B, all[i].A);
            back.Reverse();
            chains.Add([.. back, .. forward]);
        }

        return chains;

        List<Point> Followed(Point before, Point at)
        {
            List<Point> points = [at];
            while (Next(before, at) is { } next)
            {
                (before, at) = (at, next);
                points.Add(at);
            }

            return points;
        }

        Point? Next(Point before, Point at)
        {
            (int Piece, Point To, double Straight)? best = null;
            foreach (int i in Around(at).Where(i => !isUsed[i]))
            {
                LinePiece p = all[i];
                Point to = (p.A - at).Norm <= near ? p.B : (p.B - at).Norm <= near ? p.A : at;
                if (to == at) { continue; }
                double straight = (at - before).Dot(to - at) / ((at - before).Norm * (to - at).Norm);
                if (best is null || straight > best.Value.Straight) { best = (i, to, straight); }
            }

            if (best is not { } found) { return null; }
            isUsed[found.Piece] = true;
            return found.To;
        }

        void Add(Point p, int piece)
        {
            if (!ends.TryGetValue(Cell(p), out List<int>? here)) { ends[Cell(p)] = here = []; }
            here.Add(piece);
        }

        // Ends that are one may lie in neighbouring cells.
        IEnumerable<int> Around(Point p)
        {
            (long x, long y) = Cell(p);
            for (long i = x - 1; i <= x + 1; i++)
            {
                for (long j = y - 1; j <= y + 1; j++)
                {
                    foreach (int piece in ends.GetValueOrDefault((i, j)) ?? []) { yield return piece; }
                }
            }
        }

        (long, long) Cell(Point p) => ((long)Math.Round(p.X / near), (long)Math.Round(p.Y / near));
    }
}
