using MathNet.Numerics.LinearAlgebra;

namespace SandwichMech.Core.Identification;

/// <summary>What a model gives for some parameters.</summary>
/// <param name="Values">One a reading.</param>
/// <param name="Slopes">[reading, parameter].</param>
public sealed record ModelValues(double[] Values, double[,] Slopes);

/// <summary>Where a fit came to.</summary>
/// <param name="Parameters">The most likely ones.</param>
/// <param name="Covariance">Of the parameters.</param>
/// <param name="Misfits">Of each reading, in parts of its standard deviation.</param>
/// <param name="Values">What the model gives for each reading.</param>
/// <param name="Slopes">[reading, parameter] there.</param>
/// <param name="Steps">Steps taken.</param>
/// <param name="Settled">Whether the last step changed next to nothing.</param>
public sealed record FitResult(double[] Parameters, Matrix<double> Covariance, double[] Misfits, double[] Values, double[,] Slopes, int Steps, bool Settled)
{
    /// <summary>Σ of the squares of the misfits.</summary>
    public double SumOfSquares => Misfits.Sum(m => m * m);
}

/// <summary>Most likely parameters under what is known beforehand and readings with normal errors.</summary>
/// <remarks>
/// Least squares of Σ((y − g(θ))/σ)² + (θ − μ)ᵀΛ(θ − μ) by Gauss–Newton steps with Levenberg and Marquardt's damping (Nocedal &amp; Wright 2006, chapter 10; Tarantola
/// 2005, section 3.2). The covariance is (GᵀR⁻¹G + Λ)⁻¹ at the end. With Λ = 0 it is the plain regression of the textbooks.
/// </remarks>
public static class LogFit
{
    private const int MostSteps = 200;
    private const double FirstDamping = 1e-3, LeastDamping = 1e-12, MostDamping = 1e12;

    /// <summary>Fits.</summary>
    /// <param name="mean">μ: also where it begins, unless a start is given.</param>
    /// <param name="precision">Λ, positive semidefinite.</param>
    /// <param name="observed">y.</param>
    /// <param name="deviations">σ of each reading, positive.</param>
    /// <param name="model">g with its slopes.</param>
    /// <param name="start">Where it begins.</param>
    /// <param name="tolerance">Settled when a step changes the parameters by less than so many of their standard deviations.</param>
    /// <returns>The fit.</returns>
    public static FitResult Fit(
        double[] mean, Matrix<double> precision, double[] observed, double[] deviations, Func<double[], ModelValues> model, double[]? start = null, double tolerance = 1e-6)
    {
        double[] at = [.. start ?? mean];
        ModelValues now = model(at);
        double cost = Cost(at, now), damping = 0;
        for (int step = 1; ; step++)
        {
            (Matrix<double> normal, Vector<double> gradient) = Normal(at, now);
            Vector<double> change;
            double[] next;
            ModelValues then;
            double after;
            while (true)
            {
                Matrix<double> damped = normal + Matrix<double>.Build.DenseDiagonal(at.Length, at.Length, i => damping * normal[i, i]);
                change = damped.Solve(gradient);
                next = [.. at.Select((v, i) => v + change[i])];
                then = model(next);
                after = Cost(next, then);
                if (after <= cost * (1 + 1e-12) || damping > MostDamping) { break; }
                damping = damping == 0 ? FirstDamping : 10 * damping;
            }

            damping = damping < LeastDamping ? 0 : damping / 10;
            bool isSettled = change * (normal * change) < tolerance * tolerance;
            if (after <= cost * (1 + 1e-12)) { (at, now, cost) = (next, then, after); }
            if (isSettled || step == MostSteps || damping > MostDamping)
            {
                return new(at, Normal(at, now).Matrix.Inverse(), Misfits(now), now.Values, now.Slopes, step, isSettled);
            }
        }

        double[] Misfits(ModelValues v) => [.. observed.Select((y, i) => (y - v.Values[i]) / deviations[i])];

        double Cost(double[] p, ModelValues v)
        {
            Vector<double> off = Vector<double>.Build.Dense([.. p.Select((x, i) => x - mean[i])]);
            double sum = Misfits(v).Sum(m => m * m) + off * (precision * off);
            return double.IsNaN(sum) ? double.PositiveInfinity : sum;
        }

        (Matrix<double> Matrix, Vector<double> Gradient) Normal(double[] p, ModelValues v)
        {
            Vector<double> off = Vector<double>.Build.Dense([.. p.Select((x, i) => x - mean[i])]);
            if (observed.Length == 0) { return (precision, -(precision * off)); }
            Matrix<double> weighted = Matrix<double>.Build.DenseOfArray(v.Slopes);
            for (int i = 0; i < observed.Length; i++) { weighted.SetRow(i, weighted.Row(i) / deviations[i]); }
            Vector<double> misfits = Vector<double>.Build.Dense(Misfits(v));
            return (weighted.TransposeThisAndMultiply(weighted) + precision, weighted.TransposeThisAndMultiply(misfits) - precision * off);
        }
    }
}
