using System.Numerics;
using System.Runtime.CompilerServices;
using MathNet.Numerics.Integration;
using SandwichMech.Core.Numerics;
using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates;

/// <summary>The air's kinetic energy as a quadratic form of the plate's deflections: T = ½ ρ Σ V_ij q̇_i q̇_j.</summary>
/// <remarks>
/// <para>Incompressible air on both faces of a plane plate that moves with ẇ(x) along its normal: 2T = ρ ∫ φ ∂φ/∂n dS (Lamb 1932, Hydrodynamics,
/// art. 44). Both cases below become integrals over the directions θ of the plane and over s = x·e(θ) without any singular kernel, once a function on
/// the plate is replaced by its integrals along straight lines, Rf(s, θ) = ∫ f over the line x·e(θ) = s (Radon transform). For the Fourier transform of Rf
/// along s is that of f on the ray k e(θ) (projection theorem; Natterer 1986, The Mathematics of Computerized Tomography, II.1),
/// and in the plane's Fourier space 1/r is 2π/k.</para>
/// <para>(a) Infinite rigid baffle: on one face φ(x) = (1/2π) ∫ ẇ(x')/|x − x'| dA', so that both faces have 2T = (ρ/π) ∫∫ ẇ ẇ'/r dA dA'. In
/// polar coordinates about x, ∫∫ f g'/r dA dA' = ∫₀^π dθ ∫ Rf Rg ds. A piston of radius a has Rw = 2√(a² − s²) and 2T = 16/3 ρ a³ ẇ². A hole in the
/// plate is taken as shut by a lid at rest, part of the baffle, as the two-oscillator model of plate and air in the box
/// supposes. Air that can flow through an open hole carries less.</para>
/// <para>(b) No baffle: φ is odd across the plane and zero in it outside the plate, its holes included. Its jump μ over the plate is a double
/// layer that vanishes at every edge, with N μ = ẇ and ⟨N μ, ν⟩ = (1/4π) ∫∫ ∇μ·∇'ν'/r dA dA' (the screen problem; Nedelec 1982; Stephan 1987, Integral
/// Equations Oper. Theory 10, 236). N is k/2 in Fourier space, hence ⟨N μ, ν⟩ = (1/4π) ∫₀^π dθ ∫ ∂ₛRμ ∂ₛRν ds, and 2T = ρ ∫ μ ẇ dA. A disc in heave
/// has μ = (4/π) √(a² − r²) ẇ, Rμ = 2 (a² − s²) ẇ, 2T = 8/3 ρ a³ ẇ². Here μ is ψ (<see cref="AirPoints"/>) times a polynomial, by Galerkin's method.</para>
/// <para>Where the plate covers a stretch 2σ, ∫ ds is a sum over waves k = πn/(2σ) (Parseval). Waves beyond the cut-off K see only the edges. There μ = √d c, d
/// the distance from the edge, has the transform √(slope) Γ(3/2) (ik)^(−3/2) C(k), where C is c's mean over depths d = t/(ik) with Laguerre's weight
/// √t e^(−t): c is a polynomial and is read there at two complex depths. All edges together add ∮ ∫_K^∞ |C|² k^(−2) dk ds / 8 to
/// ⟨N μ, μ⟩. A deflection w at a free edge in a baffle adds ∮ w² ds / K² to ∫∫ ww'/r. What is then left falls with K², on a disc with K³.</para>
/// <para>Measured as <see cref="AirDetail.Usual"/>, in V: disc 0.02 %, square 0.1 %, rectangle of 1 : 10 0.2 %, disc with a hole of 0.15 of its radius 0.1 %;
/// waves of six radians along and five across a radius 0.02 %, of nine and eight 0.6 % (the degree; the first 40 modes of a board are longer waves). A frequency is
/// off by some twentieth of that.</para>
/// <para>Valid for plates without flow or sound radiated: waves in the air much longer than the plate. A framed board also radiates above some 200 to 300 Hz.</para>
/// </remarks>
internal static class AirVolume
{
    // Gauss–Laguerre for √t e^(−t), weights adding up to 1: the roots of t² − 5t + 15/4; exact for polynomials up to t³.
    private static readonly double Root10 = Math.Sqrt(10);
    private static readonly (double Depth, double Weight)[] Depths =
        [((5 - Root10) / 2, (Root10 + 2) / (2 * Root10)), ((5 + Root10) / 2, (Root10 - 2) / (2 * Root10))];

    private static readonly GaussLegendreRule Short = new(0, 1, 2);

    /// <summary>V for deflections given at the nodes.</summary>
    /// <param name="points">Quadrature of the plate.</param>
    /// <param name="shapes">Deflections at the nodes.</param>
    /// <param name="baffled">Whether the plate lies in an infinite rigid baffle.</param>
    /// <returns>V, m³ times the square of the deflections' unit; symmetric.</returns>
    internal static double[,] Of(AirPoints points, IReadOnlyList<double[]> shapes, bool baffled) => baffled ? Baffled(points, shapes, Moved(points, shapes)) : Unbaffled(points)(shapes);

    private static double[] Moved(AirPoints points, IReadOnlyList<double[]> shapes)
    {
        double[] moved = new double[AirWaves.Padded(shapes.Count) * points.X.Length];
        for (int i = 0; i < shapes.Count; i++) { points.At(shapes[i]).CopyTo(moved, i * points.X.Length); }
        return moved;
    }

    private static double[,] Baffled(AirPoints points, IReadOnlyList<double[]> shapes, double[] moved)
    {
        var sum = new SquareSum(AirWaves.Padded(shapes.Count));
        Multiply(moved, points.Weights);
        AddWaves(points, moved, sum, (d, _) => d.Angle / (2 * Math.PI * d.Half));
        AddMean(points, moved, sum);
        double[][] edge = [.. shapes.Select(points.OnEdge)];
        double[] row = new double[sum.Size];
        for (int p = 0; p < points.Edge.Length; p++)
        {
            for (int i = 0; i < edge.Length; i++) { row[i] = edge[i][p]; }
            sum.Add(row, points.Edge[p].Length / (Math.PI * Math.Pow(points.Waves.CutOff(points.Edge[p].Normal), 2)));
        }

        return Symmetric(shapes.Count, (i, j) => sum[i, j]);
    }

    // The wave of order 0: the whole integral, the same in every direction, and half the weight, having no sine.
    private static void AddMean(AirPoints points, double[] columns, SquareSum sum)
    {
        double[] whole = new double[sum.Size];
        for (int i = 0; i < sum.Size; i++)
        {
            foreach (double value in columns.AsSpan(i * points.X.Length, points.X.Length)) { whole[i] += value; }
        }

        sum.Add(whole, points.Waves.All.Sum(d => d.Angle / (4 * Math.PI * d.Half)));
    }

    /// <summary>V without a baffle for any deflections: all that does not ask for them is done once.</summary>
    /// <param name="points">Quadrature of the plate.</param>
    /// <returns>V of deflections given at the nodes.</returns>
    internal static Func<IReadOnlyList<double[]>, double[,]> Unbaffled(AirPoints points)
    {
        int length = points.X.Length, layers = (points.Detail.Degree + 1) * (points.Detail.Degree + 2) / 2;
        var sum = new SquareSum(AirWaves.Padded(layers));
        double[] layer = new double[sum.Size * length];
        var values = new Complex[layers];
        for (int p = 0; p < length; p++)
        {
            Point at = OnDisc(points.Waves, new(points.X[p], points.Y[p]));
            Polynomials(at.X, at.Y, points.Detail.Degree, values);
            for (int i = 0; i < layers; i++) { layer[i * length + p] = values[i].Real * points.Psi[p] * points.Weights[p]; }
        }

        AddWaves(points, layer, sum, (d, k) => d.Angle * k * k / (8 * Math.PI * d.Half));
        AddTail(points, layers, sum);
        return shapes =>
        {
            int rows = AirWaves.Padded(shapes.Count);
            double[] right = new double[rows * sum.Size];
            AirWaves.AddProducts(Moved(points, shapes), length, rows, layer, length, sum.Size, length, right);
            return Solved(layers, shapes.Count, sum, (i, j) => right[i * sum.Size + j]);
        };
    }

    // Wᵀ N⁻¹ W: what the elimination of N leaves of the front [N W; Wᵀ 0], with the sign turned.
    private static double[,] Solved(int layers, int shapes, SquareSum n, Func<int, int, double> w)
    {
        int size = layers + shapes, stride = DenseFront.Stride(size);
        double[] front = new double[size * stride];
        for (int i = 0; i < layers; i++)
        {
            for (int j = i; j < size; j++) { front[i * stride + j] = j < layers ? n[j, i] : w(j - layers, i); }
        }

        if (DenseFront.Eliminate(front, size, stride, layers) != 0)
        {
            throw new InvalidOperationException("The energy of the air about the plate is not positive: its mesh is too coarse for its outline.");
        }

        return Symmetric(shapes, (i, j) => -front[(layers + Math.Min(i, j)) * stride + layers + Math.Max(i, j)]);
    }

    private static void AddWaves(AirPoints points, double[] columns, SquareSum sum, Func<AirDirection, double, double> weight)
    {
        double[][] waves = points.Waves.Sums(points.X, points.Y, columns, sum.Size);
        for (int d = 0; d < waves.Length; d++)
        {
            AirDirection direction = points.Waves.All[d];
            for (int row = 0; row < 2 * points.Waves.Count; row++)
            {
                int order = row / 2 + 1;
                double share = order == points.Waves.Count ? 0.5 : 1;
                sum.Add(waves[d].AsSpan(row * sum.Size, sum.Size), share * weight(direction, direction.Wavenumber(order)));
            }
        }
    }

    // ∮ ∫_K^∞ |C|² k^(−2) dk ds / 8, with 1/k for the variable.
    private static void AddTail(AirPoints points, int layers, SquareSum sum)
    {
        double[] real = new double[sum.Size], imaginary = new double[sum.Size];
        var values = new Complex[layers];
        for (int p = 0; p < points.Edge.Length; p++)
        {
            AirEdgePoint edge = points.Edge[p];
            double cutOff = points.Waves.CutOff(edge.Normal);
            Point at = OnDisc(points.Waves, edge.At), inward = at - OnDisc(points.Waves, edge.At + edge.Normal);
            for (int q = 0; q < Short.Order; q++)
            {
                Array.Clear(real);
                Array.Clear(imaginary);
                foreach ((double depth, double weight) in Depths)
                {
                    Complex inside = new(0, -depth * Short.Abscissas[q] / cutOff);
                    Polynomials(at.X + inside * inward.X, at.Y + inside * inward.Y, points.Detail.Degree, values);
                    for (int i = 0; i < layers; i++)
                    {
                        real[i] += weight * values[i].Real;
                        imaginary[i] += weight * values[i].Imaginary;
                    }
                }

                double factor = edge.Length * points.EdgeSlope[p] * Short.Weights[q] / (8 * cutOff);
                sum.Add(real, factor);
                sum.Add(imaginary, factor);
            }
        }
    }

    private static Point OnDisc(AirWaves waves, Point p) => 1 / waves.Reach * waves.Stretched(p);

    // Products of Legendre polynomials up to a total degree; the plate lies in the unit disc.
    private static void Polynomials(Complex x, Complex y, int degree, Complex[] values)
    {
        Span<Complex> alongX = stackalloc Complex[degree + 1], alongY = stackalloc Complex[degree + 1];
        Legendre(x, alongX);
        Legendre(y, alongY);
        int next = 0;
        for (int total = 0; total <= degree; total++)
        {
            for (int i = 0; i <= total; i++) { values[next++] = alongX[i] * alongY[total - i]; }
        }
    }

    private static void Legendre(Complex x, Span<Complex> values)
    {
        (values[0], values[1]) = (1, x);
        for (int n = 2; n < values.Length; n++) { values[n] = (2 - 1.0 / n) * x * values[n - 1] - (1 - 1.0 / n) * values[n - 2]; }
    }

    private static void Multiply(double[] columns, double[] by)
    {
        for (int i = 0; i < columns.Length; i++) { columns[i] *= by[i % by.Length]; }
    }

    private static double[,] Symmetric(int n, Func<int, int, double> lower)
    {
        double[,] full = new double[n, n];
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j <= i; j++) { full[i, j] = full[j, i] = lower(i, j); }
        }

        return full;
    }

    /// <summary>Σ factor · row rowᵀ, lower triangle.</summary>
    private sealed class SquareSum(int size)
    {
        private readonly double[] _sum = new double[size * size];

        internal int Size => size;

        internal double this[int i, int j] => _sum[i * size + j];

        [MethodImpl(MethodImplOptions.AggressiveOptimization)]
        internal void Add(ReadOnlySpan<double> row, double factor)
        {
            for (int i = 0; i < row.Length; i++)
            {
                double scaled = factor * row[i];
                Span<double> target = _sum.AsSpan(i * size, i + 1);
                for (int j = 0; j < target.Length; j++) { target[j] += scaled * row[j]; }
            }
        }
    }
}
