using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates;

/// <summary>A straight piece of a nodal line, m.</summary>
/// <param name="A">One end.</param>
/// <param name="B">Other end.</param>
public readonly record struct LinePiece(Point A, Point B);

/// <summary>Values at the nodes of a plate, on the small straight triangles that the nodes span: for pictures, nodal lines and counts.</summary>
/// <param name="Nodes">Positions, m.</param>
/// <param name="Cells">Corners of the small triangles, three numbers of nodes each.</param>
/// <param name="Regions">Region of each small triangle.</param>
public sealed record ShapeField(IReadOnlyList<Point> Nodes, IReadOnlyList<(int A, int B, int C)> Cells, IReadOnlyList<int> Regions)
{
    // Below this share of the largest value a sign means nothing.
    private const double Noise = 0.03;
    private static readonly double[] Lines = [0.15, 0.27, 0.38, 0.5, 0.62, 0.73, 0.85];

    // Points of a picture lie no farther apart than this part of the plate's size, or at least so many to a side of a triangle as Coarsest: then
    // straight lines between them look smooth, also where two nodal lines cross and the shape bends the most between points.
    private const double Step = 1.0 / 250;
    private const int Coarsest = 8, Finest = 24;

    // Ends of pieces that are one: they come from the same two values, but for rounding.
    private const double SamePlace = 1e-7;

    /// <summary>Nodes of each curved triangle, in the order of its shape functions; nothing for a field by hand.</summary>
    internal IReadOnlyList<int[]> Triangles { get; init; } = [];
    /// <summary>Their shape functions.</summary>
    internal TriangleBasis? Basis { get; init; }

    /// <summary>The same plate on many more points, with the shape functions between the nodes: for pictures, where straight lines from node to node would show.</summary>
    /// <returns>The finer field, and what makes values at its points from values at the nodes.</returns>
    public (ShapeField Field, Func<IReadOnlyList<double>, double[]> Values) Finer()
    {
        if (Basis is not { } basis) { return (this, values => [.. values]); }
        Box box = Nodes.Aggregate(Box.Empty, (b, p) => b.With(p));
        double area = Cells.Sum(c => Math.Abs((Nodes[c.B] - Nodes[c.A]).Cross(Nodes[c.C] - Nodes[c.A]))) / 2;
        // An even triangle has 0.43 side².
        int parts = (int)Math.Clamp(Math.Ceiling(Math.Sqrt(area / (0.43 * Triangles.Count)) / (Step * box.Size)), Coarsest, Finest);
        ((double R, double S)[] places, (int A, int B, int C)[] small) = Lattice(parts);
        double[][] shapes = [.. places.Select(p => basis.At(p.R, p.S).N)];
        Point[] points = [.. Triangles.SelectMany(nodes => shapes.Select(n => At(n, nodes)))];
        int perTriangle = Cells.Count / Triangles.Count;
        var field = new ShapeField(
            points,
            [.. Enumerable.Range(0, Triangles.Count).SelectMany(t => small.Select(c => (t * shapes.Length + c.A, t * shapes.Length + c.B, t * shapes.Length + c.C)))],
            [.. Enumerable.Range(0, Triangles.Count).SelectMany(t => Enumerable.Repeat(Regions[t * perTriangle], small.Length))]);
        return (field, values => [.. Triangles.SelectMany(nodes => shapes.Select(n => n.Select((by, i) => by * values[nodes[i]]).Sum()))]);

        Point At(double[] n, int[] nodes)
        {
            Point sum = default;
            for (int i = 0; i < n.Length; i++) { sum += n[i] * Nodes[nodes[i]]; }
            return sum;
        }
    }

    // The unit triangle cut into parts² small ones: their corners, row by row, and who they are.
    private static ((double R, double S)[] Places, (int A, int B, int C)[] Small) Lattice(int parts)
    {
        var places = new List<(double, double)>();
        var small = new List<(int, int, int)>();
        for (int row = 0, first = 0; row <= parts; row++)
        {
            int count = parts - row + 1;
            for (int i = 0; i < count; i++)
            {
                places.Add(((double)i / parts, (double)row / parts));
                if (i < count - 1) { small.Add((first + i, first + i + 1, first + count + i)); }
                if (i < count - 2) { small.Add((first + i + 1, first + count + i + 1, first + count + i)); }
            }

            first += count;
        }

        return ([.. places], [.. small]);
    }

    /// <summary>The field of a plate's nodes.</summary>
    internal static ShapeField Of(PlateSystem system, PlateMesh mesh)
    {
        (int A, int B, int C)[] small = system.Mesh.Basis.SmallTriangles();
        return new(
            system.Mesh.Points,
            [.. system.Mesh.Nodes.SelectMany(nodes => small.Select(c => (nodes[c.A], nodes[c.B], nodes[c.C])))],
            [.. mesh.Triangles.SelectMany(t => Enumerable.Repeat(t.Region, small.Length))])
        {
            Triangles = system.Mesh.Nodes,
            Basis = system.Mesh.Basis,
        };
    }

    /// <summary>Where the values are zero.</summary>
    /// <param name="values">One a node.</param>
    /// <returns>Straight pieces, one a crossed triangle.</returns>
    public IReadOnlyList<LinePiece> ZeroLines(IReadOnlyList<double> values)
    {
        var pieces = new List<LinePiece>();
        Span<Point> cut = stackalloc Point[3];
        foreach ((int a, int b, int c) in Cells)
        {
            int cuts = 0;
            Cut(a, b, values, cut, ref cuts);
            Cut(b, c, values, cut, ref cuts);
            Cut(c, a, values, cut, ref cuts);
            if (cuts == 2)
            {
                pieces.Add(new(cut[0], cut[1]));
            }
        }

        return pieces;
    }

    /// <summary>Where the values are zero, the pieces joined to lines.</summary>
    /// <param name="values">One a node.</param>
    /// <returns>The points of each line, m.</returns>
    public IReadOnlyList<IReadOnlyList<Point>> ZeroCurves(IReadOnlyList<double> values) =>
        LineChains.Of(ZeroLines(values), SamePlace * Nodes.Aggregate(Box.Empty, (b, p) => b.With(p)).Size);

    /// <summary>Values on a grid of points, row by row from the lowest y; not a number outside the plate.</summary>
    /// <param name="values">One a node.</param>
    /// <param name="box">The grid's extent.</param>
    /// <param name="columns">Points along x, 2 or more.</param>
    /// <param name="rows">Points along y, 2 or more.</param>
    /// <returns>[row, column].</returns>
    public double[,] OnGrid(IReadOnlyList<double> values, Box box, int columns, int rows)
    {
        FieldPlace?[,] places = PlacesOnGrid(box, columns, rows);
        double[,] grid = new double[rows, columns];
        for (int i = 0; i < rows; i++)
        {
            for (int j = 0; j < columns; j++) { grid[i, j] = places[i, j]?.Of(values) ?? double.NaN; }
        }

        return grid;
    }

    private FieldPlace?[,] PlacesOnGrid(Box box, int columns, int rows)
    {
        var grid = new FieldPlace?[rows, columns];
        double dx = (box.MaxX - box.MinX) / (columns - 1), dy = (box.MaxY - box.MinY) / (rows - 1);
        foreach ((int a, int b, int c) in Cells)
        {
            Point p = Nodes[a], q = Nodes[b], r = Nodes[c];
            double det = (q - p).Cross(r - p);
            if (det == 0)
            {
                continue;
            }

            int from = First(Math.Min(p.Y, Math.Min(q.Y, r.Y)), box.MinY, dy), to = Last(Math.Max(p.Y, Math.Max(q.Y, r.Y)), box.MinY, dy, rows);
            int left = First(Math.Min(p.X, Math.Min(q.X, r.X)), box.MinX, dx), right = Last(Math.Max(p.X, Math.Max(q.X, r.X)), box.MinX, dx, columns);
            for (int i = from; i <= to; i++)
            {
                for (int j = left; j <= right; j++)
                {
                    Point at = new(box.MinX + j * dx, box.MinY + i * dy);
                    double v = (at - p).Cross(r - p) / det, w = (q - p).Cross(at - p) / det;
                    if (v >= -1e-9 && w >= -1e-9 && v + w <= 1 + 1e-9) { grid[i, j] = new(a, b, c, v, w); }
                }
            }
        }

        return grid;

        static int First(double low, double origin, double step) => Math.Max(0, (int)Math.Ceiling((low - origin) / step - 1e-9));

        static int Last(double high, double origin, double step, int count) => Math.Min(count - 1, (int)Math.Floor((high - origin) / step + 1e-9));
    }

    /// <summary>Area that each node stands for, m².</summary>
    /// <returns>One a node.</returns>
    public double[] Areas()
    {
        double[] areas = new double[Nodes.Count];
        foreach ((int a, int b, int c) in Cells)
        {
            double third = Math.Abs((Nodes[b] - Nodes[a]).Cross(Nodes[c] - Nodes[a])) / 6;
            areas[a] += third;
            areas[b] += third;
            areas[c] += third;
        }

        return areas;
    }

    /// <summary>Number of the shape that is most like a given one: with the largest product over the plate, each at unit size.</summary>
    /// <param name="shape">Deflection at the nodes.</param>
    /// <param name="shapes">Others on the same nodes.</param>
    /// <param name="areas">Area that each node stands for.</param>
    /// <param name="taken">Numbers that are not to be given.</param>
    internal static int MostLike(double[] shape, IReadOnlyList<double[]> shapes, double[] areas, IReadOnlyCollection<int>? taken = null)
    {
        return Enumerable.Range(0, shapes.Count).Where(i => taken is null || !taken.Contains(i)).MaxBy(i => Math.Abs(Product(shape, shapes[i])) / Math.Sqrt(Product(shapes[i], shapes[i])));

        double Product(double[] a, double[] b)
        {
            double sum = 0;
            for (int i = 0; i < a.Length; i++) { sum += areas[i] * a[i] * b[i]; }
            return sum;
        }
    }

    /// <summary>Nodal lines met when going along the board and when going across it: the name of a mode where its shape is that simple.</summary>
    /// <param name="values">One a node.</param>
    /// <returns>The count that most of several lines in each direction agree on, or nothing where they do not.</returns>
    public (int Along, int Across)? NodalCounts(IReadOnlyList<double> values) => NodalCounter()(values);

    /// <summary><see cref="NodalCounts"/> for many shapes: where its lines run is found once.</summary>
    /// <returns>The counts of values at the nodes.</returns>
    internal Func<IReadOnlyList<double>, (int Along, int Across)?> NodalCounter()
    {
        const int points = 120;
        FieldPlace?[,] grid = PlacesOnGrid(Nodes.Aggregate(Box.Empty, (b, p) => b.With(p)), points, points);
        FieldPlace[][] along = OnLines((line, i) => grid[line, i]), across = OnLines((line, i) => grid[i, line]);
        return values =>
        {
            double noise = Noise * values.Max(Math.Abs);
            return Agreed(along, values, noise) is { } m && Agreed(across, values, noise) is { } n ? (m, n) : null;
        };

        static FieldPlace[][] OnLines(Func<int, int, FieldPlace?> at) =>
            [.. Lines.Select(line => Enumerable.Range(0, points).Select(i => at((int)(line * (points - 1)), i)).OfType<FieldPlace>().ToArray())];
    }

    private static int? Agreed(FieldPlace[][] lines, IReadOnlyList<double> values, double noise)
    {
        var votes = lines.GroupBy(line => Changes(line.Select(place => place.Of(values)), noise)).MaxBy(g => g.Count())!;
        return 2 * votes.Count() > lines.Length ? votes.Key : null;
    }

    private static int Changes(IEnumerable<double> values, double noise)
    {
        int changes = 0;
        double before = 0;
        foreach (double v in values.Where(v => Math.Abs(v) > noise))
        {
            changes += v * before < 0 ? 1 : 0;
            before = v;
        }

        return changes;
    }

    private void Cut(int a, int b, IReadOnlyList<double> values, Span<Point> cut, ref int cuts)
    {
        // Zero counts as positive, so that a line through a node is met once.
        if (values[a] >= 0 != values[b] >= 0)
        {
            double t = values[a] / (values[a] - values[b]);
            cut[cuts++] = (1 - t) * Nodes[a] + t * Nodes[b];
        }
    }
}

/// <summary>A place in a small triangle of a field.</summary>
/// <param name="A">A corner's node.</param>
/// <param name="B">The next.</param>
/// <param name="C">The last.</param>
/// <param name="V">Weight of the second corner.</param>
/// <param name="W">Weight of the last.</param>
internal sealed record FieldPlace(int A, int B, int C, double V, double W)
{
    /// <summary>The value there of values at the nodes.</summary>
    internal double Of(IReadOnlyList<double> values) => values[A] * (1 - V - W) + values[B] * V + values[C] * W;
}
