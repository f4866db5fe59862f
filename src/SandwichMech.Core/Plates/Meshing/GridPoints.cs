using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates.Meshing;

/// <summary>Points with exact tests of orientation and circles.</summary>
/// <remarks>
/// Tests are made on coordinates rounded to a grid of 2⁻²⁶ of the extent (some nanometres), in whole numbers, so that no test can
/// contradict another; the points themselves keep their places. Within four times the extent differences stay below 2³⁰, products of
/// two below 2⁶¹ and those of four below 2¹²⁴.
/// </remarks>
internal sealed class GridPoints
{
    private const double Steps = 1 << 26;

    private readonly List<Point> _places = [];
    private readonly List<long> _x = [];
    private readonly List<long> _y = [];
    private readonly Point _middle;
    private readonly double _scale;

    internal GridPoints(Box box) => (_middle, _scale) = (box.Middle, Steps / box.Size);

    internal IReadOnlyList<Point> Places => _places;

    /// <summary>Adds a point; its number.</summary>
    internal int Add(Point p)
    {
        (long x, long y) = Rounded(p);
        _places.Add(p);
        _x.Add(x);
        _y.Add(y);
        return _places.Count - 1;
    }

    internal void RemoveLast()
    {
        int last = _places.Count - 1;
        _places.RemoveAt(last);
        _x.RemoveAt(last);
        _y.RemoveAt(last);
    }

    internal void Move(int point, Point to)
    {
        _places[point] = to;
        (_x[point], _y[point]) = Rounded(to);
    }

    /// <summary>Whether two points fall on one place of the grid.</summary>
    internal bool Same(int a, int b) => _x[a] == _x[b] && _y[a] == _y[b];

    /// <summary>1 where c lies to the left of a → b, −1 to the right, 0 on the line.</summary>
    internal int Side(int a, int b, int c) => Math.Sign((_x[b] - _x[a]) * (_y[c] - _y[a]) - (_y[b] - _y[a]) * (_x[c] - _x[a]));

    /// <summary>Whether d lies inside the circle through a, b, c (anticlockwise).</summary>
    internal bool InCircle(int a, int b, int c, int d)
    {
        long ax = _x[a] - _x[d], ay = _y[a] - _y[d], bx = _x[b] - _x[d], by = _y[b] - _y[d], cx = _x[c] - _x[d], cy = _y[c] - _y[d];
        Int128 det = Times(ax * ax + ay * ay, bx * cy - by * cx) + Times(bx * bx + by * by, cx * ay - cy * ax) + Times(cx * cx + cy * cy, ax * by - ay * bx);
        return det > 0;
    }

    private static Int128 Times(long a, long b)
    {
        long high = Math.BigMul(a, b, out long low);
        return new Int128((ulong)high, (ulong)low);
    }

    private (long X, long Y) Rounded(Point p)
    {
        Point q = _scale * (p - _middle);
        return ((long)Math.Round(q.X), (long)Math.Round(q.Y));
    }
}
