using MathNet.Numerics.Integration;
using MathNet.Numerics.LinearAlgebra;

namespace SandwichMech.Core.Plates;

/// <summary>Lagrange shape functions of one order on the unit triangle r, s ≥ 0, r + s ≤ 1, tabulated at a quadrature's points.</summary>
/// <remarks>
/// Nodes are the Lobatto triangle set (Blyth &amp; Pozrikidis 2006, IMA J. Appl. Math. 71, 153): Gauss–Lobatto points on the edges, so that
/// neighbours match, and well conditioned up to order 8 or so. Shape functions come from the orthonormal polynomials
/// of the triangle (Proriol 1957; Dubiner 1991) and their Vandermonde matrix. The quadrature is a Gauss–Legendre product on the
/// collapsed square, exact to degree 2·points − 2.
/// Node order: corners 0, 1, 2; then edges 0→1, 1→2, 2→0, each from its first corner; then the interior.
/// </remarks>
internal sealed class TriangleBasis
{
    private static readonly Dictionary<int, Lazy<TriangleBasis>> Known =
        Enumerable.Range(1, 8).ToDictionary(p => p, p => new Lazy<TriangleBasis>(() => new TriangleBasis(p)));

    private TriangleBasis(int order)
    {
        Order = order;
        _straight = new(() => new(this));
        Nodes = NodesOf(order, out double[] lobatto);
        EdgeParameters = lobatto[1..^1];
        int count = Nodes.Length;
        var vandermonde = Matrix<double>.Build.Dense(count, count);
        for (int i = 0; i < count; i++)
        {
            vandermonde.SetRow(i, Polynomials(order, Nodes[i].R, Nodes[i].S).Values);
        }

        _inverse = vandermonde.Inverse();
        (Points, Weights) = Quadrature(order + 2);
        N = new double[count * Points.Length];
        Dr = new double[N.Length];
        Ds = new double[N.Length];
        for (int q = 0; q < Points.Length; q++)
        {
            (double[] n, double[] dr, double[] ds) = At(Points[q].R, Points[q].S);
            for (int i = 0; i < count; i++)
            {
                N[i * Points.Length + q] = n[i];
                Dr[i * Points.Length + q] = dr[i];
                Ds[i * Points.Length + q] = ds[i];
            }
        }
    }

    private readonly Matrix<double> _inverse;
    private readonly Lazy<StraightTriangle> _straight;

    /// <summary>Order of the polynomials.</summary>
    internal int Order { get; }
    /// <summary>Nodes on the unit triangle.</summary>
    internal (double R, double S)[] Nodes { get; }
    /// <summary>Where an edge's inner nodes lie, 0 to 1 from its first corner.</summary>
    internal double[] EdgeParameters { get; }
    /// <summary>Quadrature points.</summary>
    internal (double R, double S)[] Points { get; }
    /// <summary>Quadrature weights; they add up to 1/2.</summary>
    internal double[] Weights { get; }
    /// <summary>Shape functions, [node, point] row by row.</summary>
    internal double[] N { get; }
    /// <summary>Their derivatives along r.</summary>
    internal double[] Dr { get; }
    /// <summary>Their derivatives along s.</summary>
    internal double[] Ds { get; }
    /// <summary>Integrals of triangles with straight sides.</summary>
    internal StraightTriangle Straight => _straight.Value;
    /// <summary>Length of a row of values at the points, in whole vector registers.</summary>
    internal int Stride => (Points.Length + 3) & ~3;
    /// <summary>Number of nodes, (p+1)(p+2)/2.</summary>
    internal int Count => Nodes.Length;

    /// <summary>The order² small triangles that the nodes span.</summary>
    internal (int A, int B, int C)[] SmallTriangles()
    {
        var at = new Dictionary<(int, int), int> { [(0, 0)] = 0, [(Order, 0)] = 1, [(0, Order)] = 2 };
        int next = 3;
        for (int i = 1; i < Order; i++) { at[(i, 0)] = next++; }
        for (int i = 1; i < Order; i++) { at[(Order - i, i)] = next++; }
        for (int i = 1; i < Order; i++) { at[(0, Order - i)] = next++; }
        for (int j = 1; j < Order; j++)
        {
            for (int i = 1; i + j < Order; i++) { at[(i, j)] = next++; }
        }

        var cells = new List<(int, int, int)>();
        for (int j = 0; j < Order; j++)
        {
            for (int i = 0; i + j < Order; i++)
            {
                cells.Add((at[(i, j)], at[(i + 1, j)], at[(i, j + 1)]));
                if (i + j < Order - 1) { cells.Add((at[(i + 1, j)], at[(i + 1, j + 1)], at[(i, j + 1)])); }
            }
        }

        return [.. cells];
    }

    /// <summary>The basis of an order, made once.</summary>
    internal static TriangleBasis Of(int order) => Known[order].Value;

    /// <summary>Shape functions and their derivatives at one point.</summary>
    internal (double[] N, double[] Dr, double[] Ds) At(double r, double s)
    {
        (double[] values, double[] dr, double[] ds) = Polynomials(Order, r, s);
        return (Times(values), Times(dr), Times(ds));

        double[] Times(double[] row)
        {
            double[] result = new double[row.Length];
            for (int k = 0; k < row.Length; k++)
            {
                for (int i = 0; i < result.Length; i++)
                {
                    result[i] += row[k] * _inverse[k, i];
                }
            }

            return result;
        }
    }

    private static (double R, double S)[] NodesOf(int p, out double[] lobatto)
    {
        double[] v = lobatto = Lobatto(p);
        var nodes = new List<(double, double)> { (0, 0), (1, 0), (0, 1) };
        for (int i = 1; i < p; i++) { nodes.Add((v[i], 0)); }
        for (int i = 1; i < p; i++) { nodes.Add((1 - v[i], v[i])); }
        for (int i = 1; i < p; i++) { nodes.Add((0, 1 - v[i])); }
        for (int j = 1; j < p; j++)
        {
            for (int i = 1; i + j < p; i++)
            {
                int k = p - i - j;
                nodes.Add(((1 + 2 * v[i] - v[j] - v[k]) / 3, (1 + 2 * v[j] - v[i] - v[k]) / 3));
            }
        }

        return [.. nodes];
    }

    // Gauss–Lobatto points on [0, 1]: ends and the roots of P'_p, by Newton from Chebyshev's points.
    private static double[] Lobatto(int p)
    {
        double[] v = new double[p + 1];
        v[p] = 1;
        for (int i = 1; i < p; i++)
        {
            double x = -Math.Cos(Math.PI * i / p);
            for (int step = 0; step < 50; step++)
            {
                (double value, double d1) = Legendre(p, x);
                double d2 = (2 * x * d1 - p * (p + 1) * value) / (1 - x * x);
                double move = d1 / d2;
                x -= move;
                if (Math.Abs(move) < 1e-15) { break; }
            }

            v[i] = (1 + x) / 2;
        }

        return v;
    }

    private static (double Value, double Derivative) Legendre(int n, double x)
    {
        double a = 1, b = x;
        for (int k = 2; k <= n; k++) { (a, b) = (b, ((2 * k - 1) * x * b - (k - 1) * a) / k); }
        return n == 0 ? (1, 0) : (b, n * (a - x * b) / (1 - x * x));
    }

    // Σ over i + j ≤ p of Q_i(r, s) P_j^{(2i+1,0)}(2s−1) up to normalisation; Q_i is the homogenised Legendre polynomial,
    // by its recurrence, so that nothing is singular at the corner s = 1.
    private static (double[] Values, double[] Dr, double[] Ds) Polynomials(int p, double r, double s)
    {
        int count = (p + 1) * (p + 2) / 2;
        double[] v = new double[count], vr = new double[count], vs = new double[count];
        double x = 2 * r + s - 1, t = 1 - s;                 // x/t in [−1, 1]; dx = (2, 1), dt = (0, −1)
        double q0 = 0, q0r = 0, q0s = 0, q1 = 1, q1r = 0, q1s = 0;
        int at = 0;
        for (int i = 0; i <= p; i++)
        {
            double a = 2 * i + 1, y = 2 * s - 1;
            double j0 = 0, j0s = 0, j1 = 1, j1s = 0;
            for (int j = 0; i + j <= p; j++)
            {
                double norm = Math.Sqrt((2 * i + 1) * 2 * (i + j + 1));
                v[at] = norm * q1 * j1;
                vr[at] = norm * q1r * j1;
                vs[at] = norm * (q1s * j1 + q1 * j1s);
                at++;
                // Jacobi recurrence for P_{j+1}^{(a,0)}(y).
                double n = j + 1, c = 2 * n + a;
                double a1 = 2 * n * (n + a) * (c - 2), a2 = (c - 1) * a * a, a3 = (c - 2) * (c - 1) * c, a4 = 2 * (n + a - 1) * (n - 1) * c;
                double next, nextS;
                if (j == 0)
                {
                    next = ((a + 2) * y + a) / 2;
                    nextS = a + 2;
                }
                else
                {
                    next = ((a2 + a3 * y) * j1 - a4 * j0) / a1;
                    nextS = ((a2 + a3 * y) * j1s + 2 * a3 * j1 - a4 * j0s) / a1;
                }

                (j0, j0s, j1, j1s) = (j1, j1s, next, nextS);
            }

            // (i+1) Q_{i+1} = (2i+1) x Q_i − i t² Q_{i−1}.
            double b = 2 * i + 1, m = i + 1;
            double nq = (b * x * q1 - i * t * t * q0) / m;
            double nqr = (b * (2 * q1 + x * q1r) - i * t * t * q0r) / m;
            double nqs = (b * (q1 + x * q1s) - i * (t * t * q0s - 2 * t * q0)) / m;
            (q0, q0r, q0s, q1, q1r, q1s) = (q1, q1r, q1s, nq, nqr, nqs);
        }

        return (v, vr, vs);
    }

    private static ((double R, double S)[] Points, double[] Weights) Quadrature(int n)
    {
        var rule = new GaussLegendreRule(0, 1, n);
        var points = new (double, double)[n * n];
        double[] weights = new double[n * n];
        for (int j = 0; j < n; j++)
        {
            double s = rule.Abscissas[j];
            for (int i = 0; i < n; i++)
            {
                points[j * n + i] = (rule.Abscissas[i] * (1 - s), s);
                weights[j * n + i] = rule.Weights[i] * rule.Weights[j] * (1 - s);
            }
        }

        return (points, weights);
    }
}
