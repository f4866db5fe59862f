using SandwichMech.Core.Outlines;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Boards;

/// <summary>Readings on a grid: in each mesh of the grid t = a + bx + cy + dxy through its four corners, beyond the grid as on its edge.</summary>
internal sealed class ReadingGrid
{
    private readonly double[] _x, _y;
    private readonly double[,] _t;

    /// <summary>Makes the grid from readings that have no <see cref="Gap"/>.</summary>
    internal ReadingGrid(IReadOnlyList<TypedPlace> readings)
    {
        _x = [.. readings.Select(r => r.At.X).Distinct().Order()];
        _y = [.. readings.Select(r => r.At.Y).Distinct().Order()];
        _t = new double[_x.Length, _y.Length];
        foreach (TypedPlace r in readings) { _t[Array.IndexOf(_x, r.At.X), Array.IndexOf(_y, r.At.Y)] = r.Thickness; }
    }

    /// <summary>What keeps readings from being a grid; null where nothing does.</summary>
    internal static string? Gap(IReadOnlyList<TypedPlace> readings)
    {
        double[] x = [.. readings.Select(r => r.At.X).Distinct().Order()], y = [.. readings.Select(r => r.At.Y).Distinct().Order()];
        if (x.Length < 2 || y.Length < 2) { return "the readings lie on one line: write two or more places along, each with two or more across"; }
        if (readings.GroupBy(r => r.At).FirstOrDefault(g => g.Count() > 1) is { } twice) { return $"the place {Show(twice.Key)} is read twice: keep one"; }
        Point? missing = x.SelectMany(a => y.Select(b => new Point(a, b))).Cast<Point?>().FirstOrDefault(p => !readings.Any(r => r.At == p));
        return missing is { } gap ? $"the readings make no full grid, {Show(gap)} is missing: read all places across at each place along" : null;
    }

    /// <summary>Thickness at a place, m.</summary>
    internal double At(Point p)
    {
        (int i, double u) = Cell(_x, p.X);
        (int j, double v) = Cell(_y, p.Y);
        return (1 - u) * ((1 - v) * _t[i, j] + v * _t[i, j + 1]) + u * ((1 - v) * _t[i + 1, j] + v * _t[i + 1, j + 1]);
    }

    /// <summary>The grid's lines over a box, where the thickness has its kinks.</summary>
    internal IEnumerable<Curve> Lines(Box box) =>
    [
        .. _x.Where(x => x > box.MinX && x < box.MaxX).Select(x => Shapes.Polygon([new(x, box.MinY), new(x, box.MaxY)], closed: false)),
        .. _y.Where(y => y > box.MinY && y < box.MaxY).Select(y => Shapes.Polygon([new(box.MinX, y), new(box.MaxX, y)], closed: false)),
    ];

    private static (int Index, double Share) Cell(double[] at, double x)
    {
        int i = Math.Clamp(Array.FindLastIndex(at, a => a <= x), 0, at.Length - 2);
        return (i, Math.Clamp((x - at[i]) / (at[i + 1] - at[i]), 0, 1));
    }

    private static string Show(Point p) => $"{Display.Text(p.X, Shown.Length, UnitSystem.Metric)}, {Display.Text(p.Y, Shown.Length, UnitSystem.Metric)}";
}
