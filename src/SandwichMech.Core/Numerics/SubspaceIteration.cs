using MathNet.Numerics.LinearAlgebra;

namespace SandwichMech.Core.Numerics;

/// <summary>Eigenpairs of K x = λ M x from vectors that are nearly theirs: inverse iteration of the whole block with Rayleigh–Ritz (Bathe &amp; Wilson 1972).</summary>
internal sealed class SubspaceIteration
{
    private readonly FrontalFactor _factor;
    private readonly Action<double[], double[]> _mass;
    private readonly double _shift;
    private readonly int _count;
    // Large arrays that every step uses again.
    private readonly double[] _wide;
    private readonly double[][] _massed, _solved, _solvedMassed;
    private bool _isOrthonormal;

    /// <summary>Begins.</summary>
    /// <param name="factor">Factor of K − σM.</param>
    /// <param name="mass">y = M x of a <see cref="Panel"/>.</param>
    /// <param name="shift">σ, below all values.</param>
    /// <param name="start">The vectors, in panels that the iteration takes over.</param>
    /// <param name="count">How many.</param>
    internal SubspaceIteration(FrontalFactor factor, Action<double[], double[]> mass, double shift, double[][] start, int count)
    {
        (_factor, _mass, _shift, _count) = (factor, mass, shift, count);
        Vectors = start;
        (_massed, _solved, _solvedMassed) = (Like(start), Like(start), Like(start));
        _wide = new double[start.Length * start[0].Length];
        Mass(start, _massed);
    }

    /// <summary>Values, rising.</summary>
    internal double[] Values { get; private set; } = [];

    /// <summary>How far each value may lie above its limit, relative to the limit: its residual squared over the gap to what the vectors leave out.</summary>
    /// <remarks>
    /// Kato and Temple (Parlett 1980, The Symmetric Eigenvalue Problem, chapters 10 and 11): θ − λ ≤ ρ²/(μ − θ), where μ lies below all values that the
    /// vectors leave out. Those are no lower than any value within, and each of these no lower than θ − ρ. As (K − σM) x = M v was solved, the
    /// residual of y = X c is M (V c − θ y), whose length in the norm of M⁻¹ is ρ² = cᵀ(VᵀMV)c − θ².
    /// </remarks>
    internal double[] Left { get; private set; } = [];

    /// <summary>Vectors in panels, M-orthonormal after a step.</summary>
    internal double[][] Vectors { get; }

    /// <summary>One step.</summary>
    /// <exception cref="InvalidOperationException">The vectors do not span as many directions as they are.</exception>
    internal void Step()
    {
        // All at once, so that the factor is read once for all.
        Panel.SideBySide(_massed, _wide);
        _factor.Solve(_wide, Panel.Width * _massed.Length);
        Panel.Apart(_wide, _solved);
        Mass(_solved, _solvedMassed);
        // (K − σM) x = M v is what was solved, so xᵀ(K − σM)x needs no product with K.
        Matrix<double> k = Symmetric(Panel.Products(_solved, _massed)), m = Symmetric(Panel.Products(_solved, _solvedMassed));
        Matrix<double> scale = Matrix<double>.Build.DenseDiagonal(_count, _count, i => 1 / Math.Sqrt(m[i, i]));
        Matrix<double> lower = (scale * m * scale).Cholesky().Factor;
        Matrix<double> inverse = scale * lower.Transpose().Inverse();
        var evd = Symmetric(inverse.Transpose() * k * inverse).Evd(Symmetricity.Symmetric);
        Matrix<double> c = inverse * evd.EigenVectors;
        double[] shifted = [.. evd.EigenValues.Select(v => v.Real)];
        Values = [.. shifted.Select(v => v + _shift)];
        Matrix<double> before = _isOrthonormal ? c : Symmetric(Panel.Products(Vectors, _massed)) * c;
        double[] residuals = [.. shifted.Select((v, i) => Math.Sqrt(Math.Max(0, c.Column(i).DotProduct(before.Column(i)) - v * v)))];
        double outside = shifted.Zip(residuals, (v, r) => v - r).Max();
        Left = [.. shifted.Zip(residuals, (v, r) => outside > v && v + _shift > 0 ? r * r / (outside - v) / (v + _shift) : double.PositiveInfinity)];
        _isOrthonormal = true;
        Panel.Combine(_solved, c, Vectors);
        Panel.Combine(_solvedMassed, c, _massed);
    }

    private static double[][] Like(double[][] panels) => [.. panels.Select(p => new double[p.Length])];

    private void Mass(double[][] x, double[][] y)
    {
        for (int i = 0; i < x.Length; i++) { _mass(x[i], y[i]); }
    }

    private Matrix<double> Symmetric(Matrix<double> a)
    {
        Matrix<double> part = a.SubMatrix(0, _count, 0, _count);
        return (part + part.Transpose()) / 2;
    }
}
