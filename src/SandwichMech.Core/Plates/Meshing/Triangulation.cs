using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates.Meshing;

/// <summary>A constrained Delaunay triangulation that can be changed place by place.</summary>
/// <remarks>
/// Half-edges: the sides of triangle t are 3t, 3t + 1, 3t + 2, anticlockwise. Every decision is an exact one (<see cref="GridPoints"/>).
/// The first three vertices span a triangle around everything.
/// </remarks>
internal sealed class Triangulation
{
    private readonly GridPoints _points;
    private readonly List<int> _origin = [];
    private readonly List<int> _twin = [];
    private readonly List<int> _mark = [];
    private readonly List<int> _out = [];
    private readonly List<int> _part = [-1];
    private readonly Stack<int> _doubtful = [];
    private int _last;

    internal Triangulation(IReadOnlyList<Point> points)
    {
        Box box = points.Aggregate(Box.Empty, (b, p) => b.With(p));
        _points = new(box);
        double far = 3 * box.Size;
        Add(box.Middle + new Point(-far, -far / 2));
        Add(box.Middle + new Point(far, -far / 2));
        Add(box.Middle + new Point(0, far));
        _origin.AddRange([0, 1, 2]);
        _twin.AddRange([-1, -1, -1]);
        _mark.AddRange([-1, -1, -1]);
        for (int i = 0; i < 3; i++) { _out[i] = i; }
        foreach (Point p in points) { Insert(p); }
    }

    /// <summary>Number of vertices around everything that are not part of the mesh; they come first.</summary>
    internal const int Frame = 3;

    internal IReadOnlyList<Point> Points => _points.Places;
    internal int HalfEdges => _origin.Count;
    internal int Origin(int h) => _origin[h];
    internal int Target(int h) => _origin[Next(h)];
    internal int Apex(int h) => _origin[Before(h)];
    internal int Twin(int h) => _twin[h];

    /// <summary>Number of the edge that holds this side, −1 where it is free.</summary>
    internal int Mark(int h) => _mark[h];

    /// <summary>Number of the part of the board that a side's triangle belongs to, −1 outside; marked sides keep parts apart.</summary>
    internal int Part(int h) => _part[h / 3];

    /// <summary>Gives a side's triangle to a part.</summary>
    internal void SetPart(int h, int part) => _part[h / 3] = part;

    internal static int Next(int h) => h % 3 == 2 ? h - 2 : h + 1;
    internal static int Before(int h) => h % 3 == 0 ? h + 2 : h - 1;

    /// <summary>The half-edges that leave a vertex inside the frame, anticlockwise.</summary>
    internal IEnumerable<int> Star(int vertex)
    {
        int first = _out[vertex], h = first;
        do
        {
            yield return h;
            h = _twin[Before(h)];
        }
        while (h != first && h >= 0);
    }

    /// <summary>The half-edge from one vertex to another, −1 where there is none.</summary>
    internal int Between(int from, int to)
    {
        foreach (int h in Star(from))
        {
            if (Target(h) == to) { return h; }
        }

        return -1;
    }

    /// <summary>1 where c lies to the left of a → b, −1 to the right, 0 on the line; exact.</summary>
    internal int Side(int a, int b, int c) => _points.Side(a, b, c);

    /// <summary>Whether a side may be turned into the other diagonal of its two triangles.</summary>
    internal bool CanFlip(int h)
    {
        int g = _twin[h];
        if (g < 0 || _mark[h] >= 0) { return false; }
        int a = _origin[h], b = _origin[g], c = Apex(h), d = Apex(g);
        return Side(d, c, a) > 0 && Side(c, d, b) > 0;
    }

    /// <summary>Turns a side into the other diagonal; the two triangles keep their numbers.</summary>
    internal void Flip(int h)
    {
        int g = _twin[h], h1 = Next(h), h2 = Before(h), g1 = Next(g), g2 = Before(g);
        int a = _origin[h], b = _origin[g], c = _origin[h2], d = _origin[g2];
        (int bc, int ca, int ad, int db) = (_twin[h1], _twin[h2], _twin[g1], _twin[g2]);
        (int markBc, int markCa, int markAd, int markDb) = (_mark[h1], _mark[h2], _mark[g1], _mark[g2]);
        int t = h / 3 * 3, u = g / 3 * 3;
        Set(t, a, ad, markAd);
        Set(t + 1, d, u + 2, -1);
        Set(t + 2, c, ca, markCa);
        Set(u, d, db, markDb);
        Set(u + 1, b, bc, markBc);
        Set(u + 2, c, t + 1, -1);
    }

    /// <summary>Adds a point in the plane; the triangulation stays Delaunay. A point on another one is not added again.</summary>
    /// <returns>Its number.</returns>
    internal int Insert(Point p)
    {
        int v = Add(p);
        int h = Locate(v);
        for (int k = 0; k < 3; k++, h = Next(h))
        {
            int a = _origin[h];
            if (_points.Same(a, v))
            {
                _points.RemoveLast();
                _out.RemoveAt(v);
                return a;
            }
        }

        for (int k = 0; k < 3; k++, h = Next(h))
        {
            if (Side(_origin[h], Target(h), v) == 0)
            {
                Split(h, v);
                Legalise();
                return v;
            }
        }

        int t = h / 3 * 3, n = _origin.Count;
        (int o0, int o1, int o2) = (_origin[t], _origin[t + 1], _origin[t + 2]);
        (int t1, int t2) = (_twin[t + 1], _twin[t + 2]);
        (int m1, int m2) = (_mark[t + 1], _mark[t + 2]);
        Grow(Part(t), 2);
        Set(t + 1, o1, n + 2, -1);
        Set(t + 2, v, n + 4, -1);
        Set(n, o1, t1, m1);
        Set(n + 1, o2, n + 5, -1);
        Set(n + 2, v, t + 1, -1);
        Set(n + 3, o2, t2, m2);
        Set(n + 4, o0, t + 2, -1);
        Set(n + 5, v, n + 1, -1);
        Push(t, n, n + 3);
        Legalise();
        return v;
    }

    /// <summary>Puts a vertex on a side, marked or not; both halves keep the mark. Nothing is flipped.</summary>
    /// <returns>The vertex.</returns>
    internal int SplitSide(int h, Point p)
    {
        int v = Add(p);
        Split(h, v);
        _doubtful.Clear();
        return v;
    }

    /// <summary>Marks a side and its twin with an edge's number.</summary>
    internal void SetMark(int h, int mark)
    {
        _mark[h] = mark;
        if (_twin[h] >= 0) { _mark[_twin[h]] = mark; }
    }

    /// <summary>Moves a vertex; the caller sees to it that its triangles stay right way round.</summary>
    internal void Move(int vertex, Point p) => _points.Move(vertex, p);

    /// <summary>Flips free sides until the triangulation is Delaunay as far as the marked sides allow.</summary>
    internal void LegaliseAll()
    {
        for (int h = 0; h < _origin.Count; h++) { _doubtful.Push(h); }
        Legalise();
    }

    /// <summary>A side of the triangle that holds a vertex's place.</summary>
    private int Locate(int v)
    {
        int h = _last < _origin.Count ? _last : 0;
        // The walk of a Delaunay triangulation ends; marked sides can make it circle, then every triangle is asked.
        for (int steps = 0; steps < 2 * _origin.Count + 10; steps++)
        {
            int k = 0;
            while (k < 3 && Side(_origin[h], Target(h), v) >= 0)
            {
                h = Next(h);
                k++;
            }

            if (k == 3) { return _last = h; }
            h = _twin[h];
        }

        for (h = 0; h < _origin.Count; h += 3)
        {
            if (Enumerable.Range(h, 3).All(k => Side(_origin[k], Target(k), v) >= 0)) { return _last = h; }
        }

        throw new InvalidOperationException("A point lies outside the triangulation.");
    }

    private void Split(int h, int v)
    {
        int g = _twin[h], mark = _mark[h];
        int h1 = Next(h), h2 = Before(h), a = _origin[h], b = _origin[h1], c = _origin[h2];
        int n = _origin.Count;
        Grow(Part(h), 1);
        // t = (a, b, c) becomes (a, v, c); (v, b, c) is new.
        Set(n, v, -1, mark);
        Set(n + 1, b, _twin[h1], _mark[h1]);
        Set(n + 2, c, h1, -1);
        Set(h1, v, n + 2, -1);
        Push(n + 1, h2);
        if (g >= 0)
        {
            // (b, a, d) becomes (b, v, d); (v, a, d) is new.
            int g1 = Next(g), g2 = Before(g), d = _origin[g2], m = n + 3;
            Grow(Part(g), 1);
            Set(m, v, h, mark);
            Set(m + 1, a, _twin[g1], _mark[g1]);
            Set(m + 2, d, g1, -1);
            Set(g1, v, m + 2, -1);
            _twin[h] = m;
            _twin[g] = n;
            _twin[n] = g;
            _out[b] = g;
            Push(m + 1, g2);
        }

        _out[a] = h;
    }

    private void Legalise()
    {
        while (_doubtful.TryPop(out int h))
        {
            int g = _twin[h];
            if (g < 0 || _mark[h] >= 0 || !_points.InCircle(_origin[h], Target(h), Apex(h), Apex(g)) || !CanFlip(h)) { continue; }
            Flip(h);
            int t = h / 3 * 3, u = g / 3 * 3;
            Push(t, t + 2, u, u + 1);
        }
    }

    private int Add(Point p)
    {
        _out.Add(-1);
        return _points.Add(p);
    }

    private void Grow(int part, int triangles)
    {
        for (int i = 0; i < 3 * triangles; i++)
        {
            _origin.Add(-1);
            _twin.Add(-1);
            _mark.Add(-1);
            if (i % 3 == 0) { _part.Add(part); }
        }
    }

    private void Set(int h, int origin, int twin, int mark)
    {
        _origin[h] = origin;
        _twin[h] = twin;
        _mark[h] = mark;
        _out[origin] = h;
        if (twin >= 0) { _twin[twin] = h; }
    }

    private void Push(params ReadOnlySpan<int> sides)
    {
        foreach (int h in sides) { _doubtful.Push(h); }
    }
}
