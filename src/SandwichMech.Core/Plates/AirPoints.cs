using MathNet.Numerics.Integration;
using SandwichMech.Core.Numerics;
using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates;

/// <summary>A point of the quadrature along the boundary.</summary>
/// <param name="At">Where, m.</param>
/// <param name="Normal">Unit vector outwards.</param>
/// <param name="Length">Length of edge that it stands for, m.</param>
internal readonly record struct AirEdgePoint(Point At, Point Normal, double Length);

/// <summary>Points and weights over a plate and along its edges, and the function ψ that goes to zero at every edge as the pressure jump does.</summary>
/// <remarks>
/// ψ = √u with −Δu = 1 in the plate, u = 0 on its outline and holes (the torsion function, solved on the plate's own elements): it falls to
/// zero as the square root of the distance from an edge, is smooth inside, and on an ellipse √(1 − x²/a² − y²/b²) but for a factor.
/// Triangles take the more points the larger they are against the waves. The points are Gauss's on a square with one side drawn together to a corner. In a triangle
/// with a side on the boundary that is the corner across, and they crowd towards the side as the square (y = η²), which makes ψ smooth in η; in one that has only
/// a corner there it is this corner.
/// </remarks>
internal sealed class AirPoints
{
    private const int FewestPoints = 4, MostPoints = 20, AlongEdge = 6;
    private readonly NodalMesh _mesh;
    private readonly List<(int Triangle, Table Table, int From)> _triangles = [];
    private readonly List<(int Triangle, Table Table)> _sides = [];

    // Shape functions [point][node] at one set of points of the unit triangle.
    private sealed record Table(double[] Weights, double[][] N, double[][] Dr, double[][] Ds);

    /// <summary>Quadrature for a plate.</summary>
    /// <param name="mesh">Its nodes.</param>
    /// <param name="integrals">Integrals of each of its triangles (<see cref="PlateElements"/>).</param>
    /// <param name="detail">How finely the air is resolved.</param>
    internal AirPoints(NodalMesh mesh, Func<int, double[]> integrals, AirDetail detail)
    {
        (_mesh, Detail) = (mesh, detail);
        (int Triangle, int Side)[] boundary = Boundary();
        int[][] sides = [.. boundary.Select(s => mesh.NodesOfSide(s.Triangle, s.Side))];
        Waves = Around([.. sides.Select(nodes => nodes.Select(n => mesh.Points[n]).ToArray())]);
        Lay(boundary);
        Edge = [.. LayEdge(boundary)];
        double[] torsion = Torsion([.. sides.SelectMany(nodes => nodes)], integrals);
        Psi = [.. At(torsion).Select(u => Math.Sqrt(Math.Max(u, 0)))];
        EdgeSlope = [.. NormalSlope(torsion).Select(s => Math.Max(-s, 0))];
    }

    /// <summary>How finely the air is resolved.</summary>
    internal AirDetail Detail { get; }
    /// <summary>Plane waves that fit the plate.</summary>
    internal AirWaves Waves { get; }
    /// <summary>x of the points, m; their number is a multiple of 4, the last ones may have no weight.</summary>
    internal double[] X { get; private set; } = [];
    /// <summary>y of the points, m.</summary>
    internal double[] Y { get; private set; } = [];
    /// <summary>Area that each point stands for, m².</summary>
    internal double[] Weights { get; private set; } = [];
    /// <summary>ψ at the points, m.</summary>
    internal double[] Psi { get; }
    /// <summary>Points along the boundary.</summary>
    internal AirEdgePoint[] Edge { get; }
    /// <summary>Slope of u = ψ² inwards at the boundary's points, m: near there ψ² = slope · distance.</summary>
    internal double[] EdgeSlope { get; }

    /// <summary>A function given at the nodes, at the points.</summary>
    internal double[] At(double[] nodal)
    {
        double[] values = new double[X.Length];
        foreach ((int triangle, Table table, int from) in _triangles)
        {
            for (int p = 0; p < table.N.Length; p++) { values[from + p] = Dot(table.N[p], nodal, triangle); }
        }

        return values;
    }

    /// <summary>A function given at the nodes, at the boundary's points.</summary>
    internal double[] OnEdge(double[] nodal) => [.. _sides.SelectMany(s => s.Table.N.Select(n => Dot(n, nodal, s.Triangle)))];

    private double Dot(double[] shape, double[] nodal, int triangle)
    {
        int[] nodes = _mesh.Nodes[triangle];
        double sum = 0;
        for (int i = 0; i < shape.Length; i++) { sum += shape[i] * nodal[nodes[i]]; }
        return sum;
    }

    private Point Position(double[] shape, int triangle)
    {
        int[] nodes = _mesh.Nodes[triangle];
        Point sum = default;
        for (int i = 0; i < shape.Length; i++) { sum += shape[i] * _mesh.Points[nodes[i]]; }
        return sum;
    }

    // Sides that belong to one triangle only.
    private (int Triangle, int Side)[] Boundary()
    {
        var open = new Dictionary<(int, int), (int, int)>();
        for (int e = 0; e < _mesh.Nodes.Length; e++)
        {
            for (int side = 0; side < 3; side++)
            {
                int a = _mesh.Nodes[e][side], b = _mesh.Nodes[e][(side + 1) % 3];
                if (!open.Remove((b, a))) { open[(a, b)] = (e, side); }
            }
        }

        return [.. open.Values];
    }

    // Centre and second moments of the straight triangles: near enough, since they only shape the set of directions.
    private AirWaves Around(Point[][] sides)
    {
        double area = 0, xx = 0, xy = 0, yy = 0;
        Point first = default;
        foreach (int[] nodes in _mesh.Nodes)
        {
            Point a = _mesh.Points[nodes[0]], b = _mesh.Points[nodes[1]], c = _mesh.Points[nodes[2]], sum = a + b + c;
            double part = (b - a).Cross(c - a) / 2;
            area += part;
            first += part / 3 * sum;
            xx += part / 12 * (a.X * a.X + b.X * b.X + c.X * c.X + sum.X * sum.X);
            xy += part / 12 * (a.X * a.Y + b.X * b.Y + c.X * c.Y + sum.X * sum.Y);
            yy += part / 12 * (a.Y * a.Y + b.Y * b.Y + c.Y * c.Y + sum.Y * sum.Y);
        }

        Point centre = 1 / area * first;
        return new(Detail, centre, xx / area - centre.X * centre.X, xy / area - centre.X * centre.Y, yy / area - centre.Y * centre.Y, sides);
    }

    private void Lay((int Triangle, int Side)[] boundary)
    {
        int[] sideOf = new int[_mesh.Nodes.Length];
        Array.Fill(sideOf, -1);
        bool[] onEdge = new bool[_mesh.Points.Length];
        foreach ((int triangle, int side) in boundary)
        {
            sideOf[triangle] = side;
            onEdge[_mesh.Nodes[triangle][side]] = onEdge[_mesh.Nodes[triangle][(side + 1) % 3]] = true;
        }

        var tables = new Dictionary<(int, int, bool), Table>();
        int count = 0;
        for (int e = 0; e < sideOf.Length; e++)
        {
            int points = PointsFor(e), corner = Math.Max(0, Array.FindIndex(_mesh.Nodes[e], 0, 3, n => onEdge[n]));
            bool crowded = sideOf[e] >= 0;
            int apex = crowded ? (sideOf[e] + 2) % 3 : corner;
            if (!tables.TryGetValue((points, apex, crowded), out Table? table)) { tables[(points, apex, crowded)] = table = Inside(points, apex, crowded); }
            _triangles.Add((e, table, count));
            count += table.N.Length;
        }

        count = AirWaves.Padded(count);
        (X, Y, Weights) = (new double[count], new double[count], new double[count]);
        foreach ((int e, Table table, int from) in _triangles)
        {
            for (int p = 0; p < table.N.Length; p++)
            {
                Point at = Position(table.N[p], e);
                (X[from + p], Y[from + p]) = (at.X, at.Y);
                Weights[from + p] = table.Weights[p] * Position(table.Dr[p], e).Cross(Position(table.Ds[p], e));
            }
        }
    }

    // Gauss points a direction for the fastest wave over the longest side.
    private int PointsFor(int triangle)
    {
        int[] nodes = _mesh.Nodes[triangle];
        double phase = Enumerable.Range(0, 3).Max(i => Waves.Phase(_mesh.Points[nodes[(i + 1) % 3]] - _mesh.Points[nodes[i]]));
        return Math.Clamp((int)Math.Ceiling(1.5 + 0.45 * phase), FewestPoints, MostPoints);
    }

    // y = 1 at the apex, 0 on the side across.
    private Table Inside(int n, int apex, bool crowded)
    {
        var rule = new GaussLegendreRule(0, 1, n);
        var points = new List<(double Weight, double R, double S)>();
        double[] corner = new double[3];
        for (int j = 0; j < n; j++)
        {
            double eta = rule.Abscissas[j];
            (double y, double dy) = crowded ? (eta * eta, 2 * eta) : (eta, 1);
            for (int i = 0; i < n; i++)
            {
                double x = rule.Abscissas[i];
                (corner[apex], corner[(apex + 1) % 3], corner[(apex + 2) % 3]) = (y, (1 - x) * (1 - y), x * (1 - y));
                points.Add((rule.Weights[i] * rule.Weights[j] * dy * (1 - y), corner[1], corner[2]));
            }
        }

        return Tabulate(points);
    }

    private Table Tabulate(List<(double Weight, double R, double S)> points)
    {
        var at = points.Select(p => _mesh.Basis.At(p.R, p.S)).ToArray();
        return new([.. points.Select(p => p.Weight)], [.. at.Select(a => a.N)], [.. at.Select(a => a.Dr)], [.. at.Select(a => a.Ds)]);
    }

    private IEnumerable<AirEdgePoint> LayEdge((int Triangle, int Side)[] boundary)
    {
        var rule = new GaussLegendreRule(0, 1, AlongEdge);
        (double R, double S)[] corner = [(0, 0), (1, 0), (0, 1)];
        Table[] tables = [.. Enumerable.Range(0, 3).Select(side => Tabulate([.. Enumerable.Range(0, AlongEdge).Select(p =>
        {
            (double R, double S) a = corner[side], b = corner[(side + 1) % 3];
            double t = rule.Abscissas[p];
            return (rule.Weights[p], a.R + t * (b.R - a.R), a.S + t * (b.S - a.S));
        })]))];
        foreach ((int triangle, int side) in boundary)
        {
            Table table = tables[side];
            (double R, double S) a = corner[side], b = corner[(side + 1) % 3];
            _sides.Add((triangle, table));
            for (int p = 0; p < AlongEdge; p++)
            {
                Point tangent = (b.R - a.R) * Position(table.Dr[p], triangle) + (b.S - a.S) * Position(table.Ds[p], triangle);
                yield return new(Position(table.N[p], triangle), -1 / tangent.Norm * tangent.Left(), tangent.Norm * table.Weights[p]);
            }
        }
    }

    private double[] Torsion(int[] edgeNodes, Func<int, double[]> integrals)
    {
        int n = _mesh.Basis.Count, m = 3 * n, unknowns = 0;
        int[] number = new int[_mesh.Points.Length];
        foreach (int node in edgeNodes) { number[node] = -1; }
        for (int i = 0; i < number.Length; i++) { number[i] = number[i] < 0 ? -1 : unknowns++; }
        int[][] elements = [.. _mesh.Nodes.Select(nodes => nodes.Select(node => number[node]).ToArray())];
        double[] load = new double[unknowns];
        for (int e = 0; e < elements.Length; e++)
        {
            double[] g = integrals(e);
            for (int i = 0; i < n; i++)
            {
                if (elements[e][i] < 0) { continue; }
                int row = (PlateStrains.Op1 * n + i) * m + PlateStrains.Op1 * n;
                // The shape functions add up to 1.
                for (int j = 0; j < n; j++) { load[elements[e][i]] += g[row + j]; }
            }
        }

        var centres = _mesh.Nodes.Select(c => 1.0 / 3 * (_mesh.Points[c[0]] + _mesh.Points[c[1]] + _mesh.Points[c[2]])).Select(p => (p.X, p.Y)).ToArray();
        FrontalFactor factor = FrontalFactor.Of(FrontalTree.Of(elements, centres, unknowns), elements, (e, k) =>
        {
            double[] g = integrals(e);
            for (int i = 0; i < n; i++)
            {
                int alongX = (PlateStrains.OpX * n + i) * m + PlateStrains.OpX * n, alongY = (PlateStrains.OpY * n + i) * m + PlateStrains.OpY * n;
                for (int j = 0; j <= i; j++) { k[i * n + j] = g[alongX + j] + g[alongY + j]; }
            }
        }) ?? throw new InvalidOperationException("The plate's mesh has a part without an edge.");
        double[] x = factor.Solve([load])[0];
        return [.. number.Select(i => i < 0 ? 0 : x[i])];
    }

    // Derivative along the normal outwards at the boundary's points of a function given at the nodes.
    private IEnumerable<double> NormalSlope(double[] nodal)
    {
        int at = 0;
        foreach ((int triangle, Table table) in _sides)
        {
            for (int p = 0; p < AlongEdge; p++)
            {
                Point alongR = Position(table.Dr[p], triangle), alongS = Position(table.Ds[p], triangle);
                double dr = Dot(table.Dr[p], nodal, triangle), ds = Dot(table.Ds[p], nodal, triangle), det = alongR.Cross(alongS);
                yield return new Point((dr * alongS.Y - ds * alongR.Y) / det, (ds * alongR.X - dr * alongS.X) / det).Dot(Edge[at++].Normal);
            }
        }
    }
}
