using MathNet.Numerics.LinearAlgebra;

namespace SandwichMech.Core.Numerics;

/// <summary>Eigenpairs of K x = λ M x from vectors that are nearly theirs: inverse iteration of the whole block with Rayleigh–Ritz (Bathe &amp; Wilson 1972).</summary>
internal sealed class SubspaceIteration
{
    private readonly FrontalFactor _factor;
    private readonly Action<double[], double[]> _mass;
    private readonly double _shift;
    private readonly int _count;
    private double[][] _massed;

    /// <summary>Begins.</summary>
    /// <param name="factor">Factor of K − σM.</param>
    /// <param name="mass">y = M x of a <see cref="Panel"/>.</param>
    /// <param name="shift">σ, below all values.</param>
    /// <param name="start">The vectors, in panels.</param>
    /// <param name="count">How many.</param>
    internal SubspaceIteration(FrontalFactor factor, Action<double[], double[]> mass, double shift, double[][] start, int count)
    {
        (_factor, _mass, _shift, _count) = (factor, mass, shift, count);
        Vectors = start;
        _massed = Massed(start);
    }

    /// <summary>Values, rising.</summary>
    internal double[] Values { get; private set; } = [];

    /// <summary>Vectors in panels, M-orthonormal after a step.</summary>
    internal double[][] Vectors { get; private set; }

    /// <summary>One step.</summary>
    /// <exception cref="InvalidOperationException">The vectors do not span as many directions as they are.</exception>
    internal void Step()
    {
        // All at once, so that the factor is read once for all.
        double[] wide = Panel.SideBySide(_massed);
        _factor.Solve(wide, Panel.Width * _massed.Length);
        double[][] x = Panel.Apart(wide, _massed.Length);
        double[][] mx = Massed(x);
        // (K − σM) x = M v is what was solved, so xᵀ(K − σM)x needs no product with K.
        Matrix<double> k = Symmetric(Panel.Products(x, _massed)), m = Symmetric(Panel.Products(x, mx));
        Matrix<double> scale = Matrix<double>.Build.DenseDiagonal(_count, _count, i => 1 / Math.Sqrt(m[i, i]));
        Matrix<double> lower = (scale * m * scale).Cholesky().Factor;
        Matrix<double> inverse = scale * lower.Transpose().Inverse();
        var evd = Symmetric(inverse.Transpose() * k * inverse).Evd(Symmetricity.Symmetric);
        Matrix<double> c = inverse * evd.EigenVectors;
        Values = [.. evd.EigenValues.Select(v => v.Real + _shift)];
        Vectors = Panel.Combine(x, c, x.Length);
        _massed = Panel.Combine(mx, c, x.Length);
    }

    private Matrix<double> Symmetric(Matrix<double> a)
    {
        Matrix<double> part = a.SubMatrix(0, _count, 0, _count);
        return (part + part.Transpose()) / 2;
    }

    private double[][] Massed(double[][] x) => [.. x.Select(panel =>
    {
        double[] m = new double[panel.Length];
        _mass(panel, m);
        return m;
    })];
}
