namespace SandwichMech.Core.Outlines;

/// <summary>Where two gentle pieces meet.</summary>
internal static class PieceMeeting
{
    // Inner stations at which two graphs must agree before they are taken as one: more than two cubics can agree at by chance.
    private static readonly double[] Stations = [0.5, 0.1, 0.9, 0.3, 0.7];

    private const int NewtonSteps = 30;
    private const int RootSteps = 60;

    internal static void Find(GentlePiece p, GentlePiece q, double near, List<Contact> found)
    {
        if (!p.Hull.Near(q.Hull, near)) { return; }
        Point chordP = p.Part.P3 - p.Part.P0, chordQ = q.Part.P3 - q.Part.P0;
        double angle = Math.Abs(chordP.AngleTo(chordQ));
        bool opposite = angle > Math.PI / 2;
        if (opposite) { angle = Math.PI - angle; }
        if (angle > p.Spread + q.Spread + 0.01 && p.Length > near && q.Length > near)
        {
            if (Crossing(p, q, near) is { } crossing) { found.Add(crossing); }
            return;
        }

        Point sum = 1 / Math.Max(p.Length, double.Epsilon) * chordP + (opposite ? -1 : 1) / Math.Max(q.Length, double.Epsilon) * chordQ;
        Alike(p, q, 1 / sum.Norm * sum, near, found);
    }

    // One meeting at most: Newton on p(u) = q(v), then held to the pieces' ends.
    private static Contact? Crossing(GentlePiece p, GentlePiece q, double near)
    {
        double u = 0.5, v = 0.5;
        for (int step = 0; step < NewtonSteps; step++)
        {
            Point gap = q.Part.At(v) - p.Part.At(u), dp = p.Part.Derivative(u), dq = q.Part.Derivative(v);
            double det = dp.Cross(dq);
            if (det == 0) { break; }
            double du = gap.Cross(dq) / det, dv = gap.Cross(dp) / det;
            (double u0, double v0) = (u, v);
            u = Math.Clamp(u + du, -0.25, 1.25);
            v = Math.Clamp(v + dv, -0.25, 1.25);
            if (Math.Abs(u - u0) + Math.Abs(v - v0) < 1e-15) { break; }
        }

        if (u is < 0 or > 1)
        {
            u = Math.Clamp(u, 0, 1);
            v = q.Part.Nearest(p.Part.At(u)).T;
        }

        if (v is < 0 or > 1)
        {
            v = Math.Clamp(v, 0, 1);
            u = p.Part.Nearest(q.Part.At(v)).T;
        }

        double distance = (q.Part.At(v) - p.Part.At(u)).Norm;
        return distance <= near ? new(p.On(u), q.On(v), distance) : null;
    }

    private static void Alike(GentlePiece p, GentlePiece q, Point axis, double near, List<Contact> found)
    {
        Graph a = new(p.Part, axis), b = new(q.Part, axis);
        double lo = Math.Max(a.Lo, b.Lo), hi = Math.Min(a.Hi, b.Hi);
        if (hi < lo - near || a.MinY - b.MaxY > near || b.MinY - a.MaxY > near) { return; }
        if (hi <= lo)
        {
            // End to end.
            double u = a.At((lo + hi) / 2), v = b.At((lo + hi) / 2);
            double gap = (q.Part.At(v) - p.Part.At(u)).Norm;
            if (gap <= near) { found.Add(new(p.On(u), q.On(v), gap)); }
            return;
        }

        double g0 = Gap(a, b, lo), g1 = Gap(a, b, hi);
        if (Math.Abs(g0) <= near && Math.Abs(g1) <= near
            && Array.TrueForAll(Stations, s => Math.Abs(Gap(a, b, lo + s * (hi - lo))) <= near))
        {
            double best = g0 * g1 < 0 ? lo + g0 / (g0 - g1) * (hi - lo) : Math.Abs(g0) < Math.Abs(g1) ? lo : hi;
            found.Add(Made(p, q, a, b, lo, hi, best));
            return;
        }

        double fine = near / 4;
        if (p.Flatness <= fine && q.Flatness <= fine)
        {
            Leaf(p, q, a, b, (lo, g0), (hi, g1), near, found);
            return;
        }

        // Halve what is longer, or bent where the other is straight.
        bool halveP = p.Flatness > fine && (p.Length >= q.Length || q.Flatness <= fine);
        (GentlePiece first, GentlePiece second) = (halveP ? p : q).Halves();
        foreach (GentlePiece half in (GentlePiece[])[first, second])
        {
            Find(halveP ? half : p, halveP ? q : half, near, found);
        }
    }

    // Both are straight as far as the tolerance sees: the gap between them is linear.
    private static void Leaf(GentlePiece p, GentlePiece q, Graph a, Graph b, (double X, double G) lo, (double X, double G) hi, double near, List<Contact> found)
    {
        double slope = (hi.G - lo.G) / (hi.X - lo.X);
        double x0 = lo.X, x1 = hi.X;
        if (slope != 0)
        {
            double r = lo.X + (near - lo.G) / slope, s = lo.X + (-near - lo.G) / slope;
            x0 = Math.Max(x0, Math.Min(r, s));
            x1 = Math.Min(x1, Math.Max(r, s));
        }
        else if (Math.Abs(lo.G) > near)
        {
            return;
        }

        if (x0 > x1) { return; }
        double best = slope != 0 ? Math.Clamp(lo.X - lo.G / slope, x0, x1) : (x0 + x1) / 2;
        Contact made = Made(p, q, a, b, x0, x1, best);
        if (lo.G * hi.G < 0 && Crossing(p, q, near) is { } exact && exact.A >= made.StartA - 1e-9 && exact.A <= made.EndA + 1e-9)
        {
            made = made with { A = exact.A, B = exact.B, Gap = 0 };
        }

        found.Add(made);
    }

    private static Contact Made(GentlePiece p, GentlePiece q, Graph a, Graph b, double x0, double x1, double best)
    {
        double u0 = a.At(x0), u1 = a.At(x1), v0 = b.At(x0), v1 = b.At(x1);
        if (u0 > u1) { (u0, u1, v0, v1) = (u1, u0, v1, v0); }
        return new(p.On(a.At(best)), q.On(b.At(best)), Gap(a, b, best), true, p.On(u0), p.On(u1), q.On(v0), q.On(v1));
    }

    private static double Gap(Graph a, Graph b, double x) => b.Height(x) - a.Height(x);

    /// <summary>A gentle piece as heights over an axis.</summary>
    private readonly struct Graph
    {
        private readonly Bezier _turned;

        internal Graph(Bezier part, Point axis)
        {
            Bezier turned = new(On(part.P0), On(part.P1), On(part.P2), On(part.P3));
            _turned = turned;
            (Lo, Hi) = (Math.Min(turned.P0.X, turned.P3.X), Math.Max(turned.P0.X, turned.P3.X));
            Box hull = turned.Hull;
            (MinY, MaxY) = (hull.MinY, hull.MaxY);

            Point On(Point p) => new(axis.Dot(p), axis.Cross(p));
        }

        internal double Lo { get; }
        internal double Hi { get; }
        internal double MinY { get; }
        internal double MaxY { get; }

        internal double Height(double x) => _turned.At(At(x)).Y;

        // t at x: x is monotone in t; Newton, bisecting where it would leave the bracket.
        internal double At(double x)
        {
            double sign = _turned.P3.X >= _turned.P0.X ? 1 : -1, t0 = 0, t1 = 1;
            if (x <= Lo) { return sign > 0 ? 0 : 1; }
            if (x >= Hi) { return sign > 0 ? 1 : 0; }
            double t = (x - _turned.P0.X) / (_turned.P3.X - _turned.P0.X);
            for (int step = 0; step < RootSteps; step++)
            {
                double off = sign * (_turned.At(t).X - x);
                if (off < 0) { t0 = t; }
                else { t1 = t; }
                double next = t - off / (sign * _turned.Derivative(t).X);
                if (!(next > t0 && next < t1)) { next = (t0 + t1) / 2; }
                if (Math.Abs(next - t) < 1e-14) { break; }
                t = next;
            }

            return t;
        }
    }
}
