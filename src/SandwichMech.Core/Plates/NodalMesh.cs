using System.Runtime.CompilerServices;
using MathNet.Numerics.Integration;
using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates;

/// <summary>The nodes of a mesh at one order: which belong to each triangle, and where they lie.</summary>
/// <remarks>
/// Isoparametric: a triangle's shape is its nodes' positions under its own shape functions. Nodes of a curved edge lie
/// on the curve; inside, the curve's departure from its chord at t = (1 + λb − λa)/2 is blended out with λaλb/(t(1 − t)),
/// a polynomial where the curve is one (Szabó &amp; Babuška 1991), which keeps the full rate of high orders.
/// </remarks>
internal sealed class NodalMesh
{
    private static readonly GaussLegendreRule EdgeRule = new(0, 1, 10);

    internal NodalMesh(PlateMesh mesh, int order)
    {
        Basis = TriangleBasis.Of(order);
        int inner = order - 1;
        var curves = mesh.Edges.ToDictionary(e => Key(e.A, e.B));
        var edgeStart = new Dictionary<(int, int), int>();
        var points = new List<Point>(mesh.Vertices);
        Nodes = new int[mesh.Triangles.Count][];
        _isStraight = new bool[Nodes.Length];
        for (int t = 0; t < Nodes.Length; t++)
        {
            MeshTriangle triangle = mesh.Triangles[t];
            int[] nodes = Nodes[t] = new int[Basis.Count];
            int[] corners = [triangle.A, triangle.B, triangle.C];
            corners.CopyTo(nodes, 0);
            int at = 3;
            _isStraight[t] = true;
            for (int side = 0; side < 3; side++)
            {
                int a = corners[side], b = corners[(side + 1) % 3];
                (int low, int high) = Key(a, b);
                _isStraight[t] &= !curves.ContainsKey((low, high));
                if (!edgeStart.TryGetValue((low, high), out int start))
                {
                    edgeStart[(low, high)] = start = points.Count;
                    points.AddRange(Basis.EdgeParameters.Select(t => OnEdge(mesh, curves, low, high, t)));
                }

                for (int i = 0; i < inner; i++)
                {
                    nodes[at++] = start + (a < b ? i : inner - 1 - i);
                }
            }

            for (; at < Basis.Count; at++)
            {
                nodes[at] = points.Count;
                points.Add(Inside(mesh, curves, corners, Basis.Nodes[at]));
            }
        }

        Points = [.. points];
    }

    private readonly bool[] _isStraight;

    /// <summary>Whether no side of a triangle lies on a curve.</summary>
    internal bool IsStraight(int triangle) => _isStraight[triangle];

    /// <summary>A corner of a triangle.</summary>
    internal Point Corner(int triangle, int corner) => Points[Nodes[triangle][corner]];

    /// <summary>Shape functions and quadrature.</summary>
    internal TriangleBasis Basis { get; }
    /// <summary>Nodes of each triangle in the basis's order.</summary>
    internal int[][] Nodes { get; }
    /// <summary>Position of each node.</summary>
    internal Point[] Points { get; }

    /// <summary>∂N/∂x, ∂N/∂y and N at the quadrature points, [operator · n + node, point] in rows of the basis's stride, and the weights with the Jacobian.</summary>
    /// <exception cref="InvalidOperationException">The triangle is folded over.</exception>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal double[] Operators(int triangle, double[] values)
    {
        int n = Basis.Count, q = Basis.Points.Length, stride = Basis.Stride;
        int[] nodes = Nodes[triangle];
        double[] dr = Basis.Dr, ds = Basis.Ds, weights = new double[q];
        double[] rx = new double[q], ry = new double[q], sx = new double[q], sy = new double[q];
        for (int i = 0; i < n; i++)
        {
            (double x, double y) = Points[nodes[i]];
            for (int p = 0, at = i * q; p < q; p++, at++)
            {
                rx[p] += dr[at] * x;
                ry[p] += dr[at] * y;
                sx[p] += ds[at] * x;
                sy[p] += ds[at] * y;
            }
        }

        for (int p = 0; p < q; p++)
        {
            double det = rx[p] * sy[p] - ry[p] * sx[p];
            if (!(det > 0))
            {
                throw new InvalidOperationException("A triangle of the mesh is folded over.");
            }

            weights[p] = Basis.Weights[p] * det;
            (rx[p], ry[p], sx[p], sy[p]) = (rx[p] / det, ry[p] / det, sx[p] / det, sy[p] / det);
        }

        for (int i = 0; i < n; i++)
        {
            for (int p = 0, at = i * q; p < q; p++, at++)
            {
                values[i * stride + p] = dr[at] * sy[p] - ds[at] * ry[p];
                values[(n + i) * stride + p] = ds[at] * rx[p] - dr[at] * sx[p];
            }

            Array.Copy(Basis.N, i * q, values, (2 * n + i) * stride, q);
        }

        return weights;
    }

    /// <summary>Area of a triangle with its curved sides, m².</summary>
    internal double AreaOf(int triangle) => Operators(triangle, new double[3 * Basis.Count * Basis.Stride]).Sum();

    /// <summary>Quadrature points of a triangle, each with the area that it stands for.</summary>
    internal IEnumerable<Layups.PartSample> Samples(int triangle)
    {
        int q = Basis.Points.Length;
        double[] weights = Operators(triangle, new double[3 * Basis.Count * Basis.Stride]);
        for (int p = 0; p < q; p++)
        {
            Point at = default;
            for (int i = 0; i < Basis.Count; i++) { at += Basis.N[i * q + p] * Points[Nodes[triangle][i]]; }
            yield return new(at, weights[p]);
        }
    }

    /// <summary>The nodes on one side of a triangle, its corners included.</summary>
    internal int[] NodesOfSide(int triangle, int side)
    {
        int inner = Basis.Order - 1;
        int[] nodes = Nodes[triangle];
        return [nodes[side], .. nodes[(3 + side * inner)..(3 + (side + 1) * inner)], nodes[(side + 1) % 3]];
    }

    /// <summary>Shape functions along one side, the length that each point stands for, and the side's direction there.</summary>
    internal IEnumerable<(double[] Shape, double Length, Point Direction)> SideQuadrature(int triangle, int side)
    {
        (double R, double S)[] corner = [(0, 0), (1, 0), (0, 1)];
        (double R, double S) from = corner[side], to = corner[(side + 1) % 3];
        for (int p = 0; p < EdgeRule.Order; p++)
        {
            double t = EdgeRule.Abscissas[p];
            (double[] shape, double[] dr, double[] ds) = Basis.At(from.R + t * (to.R - from.R), from.S + t * (to.S - from.S));
            Point tangent = default;
            for (int i = 0; i < shape.Length; i++)
            {
                tangent += (dr[i] * (to.R - from.R) + ds[i] * (to.S - from.S)) * Points[Nodes[triangle][i]];
            }

            yield return (shape, EdgeRule.Weights[p] * tangent.Norm, 1 / tangent.Norm * tangent);
        }
    }

    private static (int, int) Key(int a, int b) => a < b ? (a, b) : (b, a);

    private static Point OnEdge(PlateMesh mesh, Dictionary<(int, int), CurvedEdge> curves, int a, int b, double t) =>
        curves.TryGetValue((a, b), out CurvedEdge? edge)
            ? edge.At(edge.A == a ? t : 1 - t)
            : (1 - t) * mesh.Vertices[a] + t * mesh.Vertices[b];

    private static Point Inside(PlateMesh mesh, Dictionary<(int, int), CurvedEdge> curves, int[] corners, (double R, double S) at)
    {
        double[] l = [1 - at.R - at.S, at.R, at.S];
        Point p = l[0] * mesh.Vertices[corners[0]] + l[1] * mesh.Vertices[corners[1]] + l[2] * mesh.Vertices[corners[2]];
        for (int a = 0; a < 3; a++)
        {
            int b = (a + 1) % 3;
            (int low, int high) = Key(corners[a], corners[b]);
            if (curves.ContainsKey((low, high)))
            {
                double lowPart = corners[a] == low ? l[a] : l[b], highPart = corners[a] == low ? l[b] : l[a];
                double t = (1 + highPart - lowPart) / 2;
                Point chord = (1 - t) * mesh.Vertices[low] + t * mesh.Vertices[high];
                p += l[a] * l[b] / (t * (1 - t)) * (OnEdge(mesh, curves, low, high, t) - chord);
            }
        }

        return p;
    }
}
