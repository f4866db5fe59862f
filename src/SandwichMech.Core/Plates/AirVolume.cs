using SandwichMech.Core.Numerics;
using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates;

/// <summary>The air's kinetic energy as a quadratic form of the plate's deflections: T = ½ ρ Σ V_ij q̇_i q̇_j.</summary>
/// <remarks>
/// <para>Incompressible air on both faces of a plane plate whose points move with ẇ(x) along its normal (Lamb 1932, Hydrodynamics, art. 44:
/// 2T = −ρ ∫ φ ∂φ/∂n dS). Both cases become integrals over directions θ of the plane and over s = x·e(θ), without any singular kernel,
/// once the deflection is replaced by its line integrals Rf(s, θ) = ∫ f over the line x·e(θ) = s (Radon transform). The Fourier transform of Rf along s is that of f on the
/// ray k e(θ) (projection theorem; Natterer 1986, The Mathematics of Computerized Tomography, theorem II.1.1), and in the plane's
/// Fourier space 1/r is 2π/k.</para>
/// <para>(a) Infinite rigid baffle: φ(x) = −(1/2π) ∫ ẇ(x')/r dA' on one face, so 2T = (ρ/π) ∫∫ ẇẇ'/r dA dA' for both. In polar coordinates
/// about a point on each line, ∫∫ f g'/r dA dA' = ∫₀^π dθ ∫ Rf Rg ds. A piston of radius a has R = 2√(a² − s²): 2T = 16/3 ρ a³ ẇ². A hole in the plate is taken as closed
/// by a lid at rest, part of the baffle: the plate then carries the air that it carries with the hole shut, as the
/// two-oscillator model of plate and air in the box supposes. Open, it would carry less.</para>
/// <para>(b) No baffle: φ is odd across the plane and zero outside the plate, in its holes too. Its jump μ is a double layer with ∂φ/∂z = ẇ:
/// N μ = ẇ with ⟨N μ, ν⟩ = (1/4π) ∫∫ ∇μ·∇'ν'/r dA dA' (Nedelec 1982; Stephan 1987, Integral Equations Operator Theory 10, 236, the screen problem), so that N is k/2 in Fourier space and
/// ⟨N μ, ν⟩ = (1/4π) ∫₀^π dθ ∫ ∂ₛRμ ∂ₛRν ds. 2T = ρ ∫ μ ẇ dA. A disc of radius a in heave has μ = (4/π) √(a² − r²) ẇ,
/// Rμ = 2 (a² − s²) ẇ and 2T = 8/3 ρ a³ ẇ². μ is sought as ψ times polynomials (Galerkin); see <see cref="AirPoints"/> for ψ.</para>
/// <para>On the stretch 2σ that the plate covers in a direction, ∫ over s is a sum over waves of wavenumber k = πn/σ (Parseval), exact if all are
/// taken. Those beyond the cut-off K see only the edge: by their asymptotic transforms, μ = g √d at distance d adds ∮ g² ds /(8K) to ⟨N μ, μ⟩ (from |Γ(3/2) k^(−3/2)|²), and a deflection w
/// at a free edge in a baffle adds ∮ w² ds /K² to ∫∫ ww'/r. What is then left falls with the cube of K; on straight edges,
/// which meet one direction all along, more slowly.</para>
/// <para>Measured with twelve waves and degree twelve: disc 0.1 %, square 0.3 %, disc with a hole 0.15 of its radius 0.1 %, in
/// V; a frequency in air is off by some twentieth of that.</para>
/// </remarks>
internal static class AirVolume
{
    /// <summary>Degree of the polynomials that multiply ψ: enough for some seven half waves along the plate and as many across.</summary>
    internal const int Degree = 12;

    /// <summary>V for deflections given at the nodes.</summary>
    /// <param name="points">Quadrature of the plate.</param>
    /// <param name="shapes">Deflections at the nodes.</param>
    /// <param name="baffled">Whether the plate lies in an infinite rigid baffle.</param>
    /// <returns>V, m³ times the deflections' units, symmetric.</returns>
    internal static double[,] Of(AirPoints points, IReadOnlyList<double[]> shapes, bool baffled)
    {
        double[] columns = new double[AirWaves.Padded(shapes.Count) * points.X.Length];
        for (int i = 0; i < shapes.Count; i++) { points.At(shapes[i]).CopyTo(columns, i * points.X.Length); }
        return baffled ? Baffled(points, shapes, columns) : Free(points, shapes.Count, columns);
    }

    private static double[,] Baffled(AirPoints points, IReadOnlyList<double[]> shapes, double[] columns)
    {
        int count = AirWaves.Padded(shapes.Count);
        Multiply(columns, points.Weights, count);
        double[] sum = new double[count * count];
        AddWaves(points, columns, count, sum, (d, _) => d.Angle / (Math.PI * d.Half));
        AddMean(points, columns, count, sum);
        double[][] edge = [.. shapes.Select(points.OnEdge)];
        AddEdge(points, shapes.Count, count, sum, (i, p) => edge[i][p], (_, cutOff) => 1 / (Math.PI * cutOff * cutOff));
        return Symmetric(shapes.Count, (i, j) => sum[i * count + j]);
    }

    // The wave of order 0, a constant on the stretch, is the same in every direction whose orders are whole.
    private static void AddMean(AirPoints points, double[] columns, int count, double[] sum)
    {
        double[] moved = new double[count];
        for (int i = 0; i < count; i++)
        {
            foreach (double value in columns.AsSpan(i * points.X.Length, points.X.Length)) { moved[i] += value; }
        }

        Square(moved, points.Waves.All.Where(d => d.FirstOrder == 1).Sum(d => d.Angle / (2 * Math.PI * d.Half)), sum);
    }

    private static double[,] Free(AirPoints points, int shapes, double[] columns)
    {
        int length = points.X.Length, layers = (Degree + 1) * (Degree + 2) / 2, count = AirWaves.Padded(layers), moved = AirWaves.Padded(shapes);
        double[] layer = new double[count * length];
        for (int p = 0; p < length; p++) { Polynomials(points.Waves, new(points.X[p], points.Y[p]), layer.AsSpan(p), length); }
        Multiply(layer, points.Psi, count);
        Multiply(layer, points.Weights, count);

        double[] sum = new double[count * count];
        AddWaves(points, layer, count, sum, (d, k) => d.Angle * k * k / (4 * Math.PI * d.Half));
        double[] edge = new double[layers * points.Edge.Length];
        for (int p = 0; p < points.Edge.Length; p++) { Polynomials(points.Waves, points.Edge[p].At, edge.AsSpan(p), points.Edge.Length); }
        AddEdge(points, layers, count, sum, (i, p) => edge[i * points.Edge.Length + p], (p, cutOff) => points.EdgeSlope[p] / (8 * cutOff));

        double[] right = new double[moved * count];
        AirWaves.Add(columns, length, moved, layer, length, count, length, right);
        return Solved(layers, shapes, (i, j) => sum[i * count + j], (i, j) => right[i * count + j]);
    }

    // Wᵀ N⁻¹ W: what the elimination of N leaves of the front [N W; Wᵀ 0], with the sign turned.
    private static double[,] Solved(int layers, int shapes, Func<int, int, double> n, Func<int, int, double> w)
    {
        int size = layers + shapes;
        double[] front = new double[size * size];
        for (int i = 0; i < size; i++)
        {
            for (int j = 0; j <= i && j < layers; j++) { front[i * size + j] = i < layers ? n(i, j) : w(i - layers, j); }
        }

        double[] work = new double[2 * (size + 4) * 36];
        if (DenseFront.Eliminate(front, size, size, layers, work) != 0)
        {
            throw new InvalidOperationException("The air's energy is not positive: the plate's mesh is too coarse for its shape.");
        }

        return Symmetric(shapes, (i, j) => -front[(layers + i) * size + layers + j]);
    }

    private static void AddWaves(AirPoints points, double[] columns, int count, double[] sum, Func<AirDirection, double, double> weight)
    {
        double[][] waves = points.Waves.Sums(points.X, points.Y, columns, count);
        for (int d = 0; d < waves.Length; d++)
        {
            AirDirection direction = points.Waves.All[d];
            for (int row = 0; row < 2 * AirWaves.Terms; row++)
            {
                double factor = weight(direction, Math.PI * (row / 2 + direction.FirstOrder) / direction.Half);
                Square(waves[d].AsSpan(row * count, count), factor, sum);
            }
        }
    }

    private static void AddEdge(AirPoints points, int used, int count, double[] sum, Func<int, int, double> value, Func<int, double, double> weight)
    {
        double[] row = new double[count];
        for (int p = 0; p < points.Edge.Length; p++)
        {
            for (int i = 0; i < used; i++) { row[i] = value(i, p); }
            Square(row, points.Edge[p].Length * weight(p, points.Waves.CutOff(points.Edge[p].Normal)), sum);
        }
    }

    // sum += factor · row rowᵀ, lower triangle.
    private static void Square(ReadOnlySpan<double> row, double factor, double[] sum)
    {
        for (int i = 0; i < row.Length; i++)
        {
            double scaled = factor * row[i];
            Span<double> target = sum.AsSpan(i * row.Length, i + 1);
            for (int j = 0; j < target.Length; j++) { target[j] += scaled * row[j]; }
        }
    }

    // Products of Legendre polynomials on the stretched plate up to a total degree, stride apart.
    private static void Polynomials(AirWaves waves, Point at, Span<double> values, int stride)
    {
        Point p = 1 / waves.Reach * waves.Stretched(at);
        Span<double> x = stackalloc double[Degree + 1], y = stackalloc double[Degree + 1];
        Legendre(p.X, x);
        Legendre(p.Y, y);
        int next = 0;
        for (int total = 0; total <= Degree; total++)
        {
            for (int i = 0; i <= total; i++) { values[next++ * stride] = x[i] * y[total - i]; }
        }
    }

    private static void Legendre(double x, Span<double> values)
    {
        (values[0], values[1]) = (1, x);
        for (int n = 2; n < values.Length; n++) { values[n] = ((2 * n - 1) * x * values[n - 1] - (n - 1) * values[n - 2]) / n; }
    }

    private static void Multiply(double[] columns, double[] by, int count)
    {
        for (int i = 0; i < count; i++)
        {
            Span<double> column = columns.AsSpan(i * by.Length, by.Length);
            for (int p = 0; p < by.Length; p++) { column[p] *= by[p]; }
        }
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
}
