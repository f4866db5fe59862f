namespace SandwichMech.Core.Outlines;

/// <summary>Where curves meet.</summary>
/// <remarks>
/// Both curves are cut into pieces that turn little (<see cref="GentlePiece"/>). Two pieces whose directions can never agree meet
/// once at most: Newton. Two that may run alike are graphs over one axis: they are told apart by their slabs, halved, and in the
/// end taken where the graphs are closer than the tolerance (<see cref="PieceMeeting"/>); stretches found so are joined up.
/// </remarks>
public static class Crossings
{
    /// <summary>What counts as touching where nothing else is said, in parts of the larger curve's size.</summary>
    public const double Tolerance = 1e-8;

    // Contacts no further apart than this many tolerances are one; a curve that meets itself within so many along its way does not.
    private const double Joint = 1.5, SamePlace = 4, LeastSine = 0.005;

    /// <summary>Where two curves meet, in order along the first.</summary>
    /// <param name="a">First curve.</param>
    /// <param name="b">Second curve.</param>
    /// <param name="tolerance">Distance at which they touch, m; by default 1e-8 of the larger one's size.</param>
    /// <param name="shared">Length from which a stretch within the tolerance is a common stretch, not a touch, m; by default what
    /// two curves that touch and bend apart as slowly as their size allows can stay together.</param>
    public static IReadOnlyList<Meeting> Between(Curve a, Curve b, double? tolerance = null, double? shared = null)
    {
        double size = Math.Max(a.Size, b.Size), near = tolerance ?? Tolerance * size;
        var found = new List<Contact>();
        List<GentlePiece> pieces = GentlePiece.Of(b);
        foreach (GentlePiece p in GentlePiece.Of(a))
        {
            foreach (GentlePiece q in pieces) { PieceMeeting.Find(p, q, near, found); }
        }

        return Joined(a, b, found, near, shared ?? Stretch(near, size));
    }

    /// <summary>Where a curve meets itself away from its joints, each place once, in order of its first passage.</summary>
    /// <param name="curve">Open or closed.</param>
    /// <param name="tolerance">Distance at which it touches itself, m; by default 1e-8 of its size.</param>
    /// <param name="shared">As in <see cref="Between"/>.</param>
    public static IReadOnlyList<Meeting> Within(Curve curve, double? tolerance = null, double? shared = null)
    {
        double near = tolerance ?? Tolerance * curve.Size, stretch = shared ?? Stretch(near, curve.Size);
        List<GentlePiece> pieces = GentlePiece.Of(curve);
        List<Contact> found = [], fresh = [];
        for (int i = 0; i < pieces.Count; i++)
        {
            for (int j = i + 1; j < pieces.Count; j++)
            {
                PieceMeeting.Find(pieces[i], pieces[j], near, fresh);
                if (fresh.Count == 0) { continue; }
                bool wraps = i == 0 && j == pieces.Count - 1 && curve.IsClosed;
                double forward = j == i + 1 ? JointReach(pieces[i], pieces[j], near) : SamePlace * near;
                double back = wraps ? JointReach(pieces[j], pieces[i], near) : SamePlace * near;
                found.AddRange(fresh.Where(c => !IsOnePlace(curve, c, forward, back) || IsFold(curve, c, stretch)));
                fresh.Clear();
            }
        }

        return Joined(curve, curve, found, near, stretch);
    }

    // Two arcs that touch and bend apart by 1/size stay within the tolerance for 2 √(2 tolerance size).
    private static double Stretch(double near, double size) => 4 * Math.Sqrt(2 * near * size);

    // How far along the curve two pieces that leave a joint can stay within the tolerance: the sharper the corner, the further.
    private static double JointReach(GentlePiece before, GentlePiece after, double near)
    {
        double open = Math.PI - Math.Abs(before.Part.Direction(1).AngleTo(after.Part.Direction(0)));
        return SamePlace * near / Math.Max(Math.Sin(Math.Min(open, Math.PI / 2)), 0.02);
    }

    // Neighbours meet at their joint, which says nothing; they may meet again elsewhere.
    private static bool IsOnePlace(Curve curve, Contact c, double forward, double back)
    {
        double n = curve.Segments.Count, apart = curve.Length(c.A, c.B);
        return apart <= forward || (curve.IsClosed && curve.Length(c.B, n) + curve.Length(0, c.A) <= back);
    }

    // A curve that turns back on itself runs beside itself from the turn on, which is a joint of its pieces: what tells it from a
    // joint, or a cusp, is that it does so for a stretch.
    private static bool IsFold(Curve curve, Contact c, double stretch)
    {
        // On a closed curve both ends may be joints; the middle then is none.
        return c.EndA > c.StartA && curve.Length(c.StartA, c.EndA) >= stretch
            && (Apart(c.StartA, c.StartB) >= stretch || Apart(c.EndA, c.EndB) >= stretch || Apart((c.StartA + c.EndA) / 2, (c.StartB + c.EndB) / 2) >= stretch);

        double Apart(double t0, double t1)
        {
            double way = curve.Length(Math.Min(t0, t1), Math.Max(t0, t1));
            return curve.IsClosed ? Math.Min(way, curve.TotalLength - way) : way;
        }
    }

    private static List<Meeting> Joined(Curve a, Curve b, List<Contact> found, double near, double shared)
    {
        found.Sort((x, y) => (x.StartA, x.EndA).CompareTo((y.StartA, y.EndA)));
        var groups = new List<Contact>();
        foreach (Contact c in found)
        {
            double reach = Reach(a, b, c, near);
            int k = groups.FindLastIndex(g => Continues(a, b, g, c, reach));
            if (k < 0) { groups.Add(c); }
            else { groups[k] = groups[k].With(c); }
        }

        // A closed curve may have been cut in the middle of a meeting.
        if (a.IsClosed && groups.Count > 1)
        {
            double reach = Reach(a, b, groups[0], near);
            int k = groups.FindIndex(1, g => Continues(a, b, g, groups[0], reach));
            if (k > 0 && (a.At(groups[k].EndA) - a.At(groups[0].StartA)).Norm <= reach)
            {
                groups[k] = groups[k].Before(groups[0], a.Segments.Count);
                groups.RemoveAt(0);
            }
        }

        var meetings = groups.ConvertAll(c => c.Reported(a, b, shared));
        meetings.Sort((x, y) => x.A.CompareTo(y.A));
        return meetings;
    }

    // Curves that cross at a small angle stay within the tolerance for long on both sides, where the next piece may begin. Two crossings that lie nearer to each other
    // than this are apart by less than the tolerance in between: a touch.
    private static double Reach(Curve a, Curve b, Contact c, double near)
    {
        Point along = a.Derivative(c.StartA), beside = b.Derivative(c.StartB);
        double sine = Math.Abs(along.Cross(beside)) / (along.Norm * beside.Norm);
        return Joint * near / (sine > LeastSine ? sine : LeastSine);
    }

    // Whether a contact lies in a stretch or follows on its end, on both curves.
    private static bool Continues(Curve a, Curve b, Contact g, Contact c, double near)
    {
        (double low, double high) = g.StartB < g.EndB ? (g.StartB, g.EndB) : (g.EndB, g.StartB);
        if (c.StartA >= g.StartA && c.EndA <= g.EndA && c.StartB >= low && c.StartB <= high) { return true; }
        bool follows = (a.At(g.EndA) - a.At(c.StartA)).Norm <= near || (c.StartA <= g.EndA && g.StartA <= c.StartA);
        return follows && (Gap(b, g.EndB, c.StartB) <= near || Gap(b, g.EndB, c.EndB) <= near || Gap(b, g.StartB, c.StartB) <= near || Gap(b, g.StartB, c.EndB) <= near);
    }

    private static double Gap(Curve b, double t0, double t1) => (b.At(t0) - b.At(t1)).Norm;
}
