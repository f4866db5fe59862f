using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates.Meshing;

/// <summary>Puts vertices inside the parts of the board until no triangle is too large.</summary>
/// <remarks>
/// The triangle with the largest circumcircle for its place gets a vertex: on the line from its shortest side to its
/// circumcentre, as far as makes a triangle of the wanted size on that side (Rebay 1993; Üngör 2004). Where that would come
/// close to an edge nothing is added: a narrow band is filled by triangles from side to side.
/// </remarks>
internal sealed class InteriorPoints
{
    // Circumradius over size that is let be; of an equilateral triangle it is 0.577.
    private const double Large = 0.72;
    // How close to an edge a vertex may come, in sizes.
    private const double Room = 0.45;

    private readonly CurvedMesh _mesh;
    private readonly SizeField _size;
    private readonly List<(int A, int B, int C, double Excess)> _known = [];
    private readonly (Point A, Point B)[] _chords;

    private InteriorPoints(CurvedMesh mesh, SizeField size)
    {
        (_mesh, _size) = (mesh, size);
        _chords = [.. mesh.Edges.Select(e => (e.At(0), e.At(1)))];
    }

    internal static void Add(CurvedMesh mesh, SizeField size)
    {
        var points = new InteriorPoints(mesh, size);
        while (points.Worst() is { } h) { points.Place(h); }
    }

    private int? Worst()
    {
        int? worst = null;
        double most = Large;
        for (int h = 0; h < _mesh.Sides.HalfEdges; h += 3)
        {
            if (h / 3 >= _known.Count) { _known.Add((-1, -1, -1, 0)); }
            if (!_mesh.InBoard(h)) { continue; }
            (int a, int b, int c) = Corners(h);
            var known = _known[h / 3];
            if ((known.A, known.B, known.C) != (a, b, c)) { known = _known[h / 3] = (a, b, c, Excess(h)); }
            if (known.Excess > most) { (worst, most) = (h, known.Excess); }
        }

        return worst;
    }

    private (int, int, int) Corners(int h) => (_mesh.Sides.Origin(h), _mesh.Sides.Target(h), _mesh.Sides.Apex(h));

    private double Excess(int h)
    {
        (Point centre, double radius) = Circle(h);
        Point middle = _mesh.Middle(h);
        return radius / _size.At((centre - middle).Norm < radius ? middle + 0.5 * (centre - middle) : middle);
    }

    private (Point Centre, double Radius) Circle(int h)
    {
        (int a, int b, int c) = Corners(h);
        Point p = _mesh.Sides.Points[a], u = _mesh.Sides.Points[b] - p, v = _mesh.Sides.Points[c] - p;
        Point r = 1 / (2 * u.Cross(v)) * new Point(v.Y * u.Dot(u) - u.Y * v.Dot(v), u.X * v.Dot(v) - v.X * u.Dot(u));
        return (p + r, r.Norm);
    }

    private void Place(int h)
    {
        (Point centre, double radius) = Circle(h);
        int side = Enumerable.Range(h, 3).MinBy(Length);
        double l = Length(side);
        Point middle = 0.5 * (_mesh.Sides.Points[_mesh.Sides.Origin(side)] + _mesh.Sides.Points[_mesh.Sides.Target(side)]);
        double wanted = Math.Clamp(_size.At(middle) / Math.Sqrt(3), l / 2, radius);
        Point inward = centre - middle;
        double reach = wanted + Math.Sqrt(Math.Max(0, wanted * wanted - l * l / 4));
        Point off = inward.Norm > reach ? middle + reach / inward.Norm * inward : centre;
        if (!Inserted(h, off) && (off == centre || !Inserted(h, centre))) { _known[h / 3] = _known[h / 3] with { Excess = 0 }; }
    }

    private bool Inserted(int h, Point p)
    {
        int before = _mesh.Sides.Points.Count;
        return Fits(h, p) && _mesh.Sides.Insert(p) == before;
    }

    private double Length(int h) => (_mesh.Sides.Points[_mesh.Sides.Target(h)] - _mesh.Sides.Points[_mesh.Sides.Origin(h)]).Norm;

    private bool Fits(int h, Point p)
    {
        double room = Room * _size.At(p);
        return Sees(h, p) && Array.TrueForAll(_chords, c => Distance(p, c.A, c.B) >= room);
    }

    // Whether the way from a triangle to a point meets no edge.
    private bool Sees(int h, Point p)
    {
        int from = -1;
        for (int steps = 0; steps < _mesh.Sides.HalfEdges; steps++)
        {
            int leave = -1;
            for (int k = 0; k < 3 && leave < 0; k++, h = Triangulation.Next(h))
            {
                Point a = _mesh.Sides.Points[_mesh.Sides.Origin(h)], b = _mesh.Sides.Points[_mesh.Sides.Target(h)];
                if (h != from && (b - a).Cross(p - a) < 0) { leave = h; }
            }

            if (leave < 0) { return true; }
            if (_mesh.Sides.Mark(leave) >= 0) { return false; }
            h = from = _mesh.Sides.Twin(leave);
        }

        return false;
    }

    private static double Distance(Point p, Point a, Point b)
    {
        Point d = b - a;
        double along = Math.Clamp((p - a).Dot(d) / d.Dot(d), 0, 1);
        return (p - a - along * d).Norm;
    }
}
