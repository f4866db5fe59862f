namespace SandwichMech.Core.Uncertainty;

/// <summary>How much of a figure's variance one input brings (Sobol' 1993).</summary>
/// <param name="Input">The input's name.</param>
/// <param name="First">V[E(y | input)]/V[y]: the share that goes, on average, once the input is known.</param>
/// <param name="Total">E[V(y | all others)]/V[y]: the share that stays, on average, once all others are known; above <paramref name="First"/> where inputs act together.</param>
/// <param name="FirstError">Standard error of <paramref name="First"/> from the number of draws.</param>
/// <param name="TotalError">Standard error of <paramref name="Total"/>.</param>
public sealed record SobolIndex(string Input, double First, double Total, double FirstError, double TotalError);

/// <summary>First-order and total Sobol' indices from two independent sets of draws and, for each input, the first set with that input taken from the second.</summary>
/// <remarks>
/// First order by Saltelli et al. 2010, table 2 (b): V_i = mean of f(B)·(f(A_B^i) − f(A)), values counted from their mean, which leaves the estimate as it is and takes noise away.
/// Total by Jansen 1999 (table 2 (f) there): half the mean square of f(A) − f(A_B^i).
/// </remarks>
public static class SobolIndices
{
    /// <summary>Estimates the indices of one input.</summary>
    /// <param name="input">Its name.</param>
    /// <param name="a">The figure at the first set of draws.</param>
    /// <param name="b">At the second set.</param>
    /// <param name="exchanged">At the first set with this input from the second.</param>
    /// <returns>Both indices, 0 where nothing varies; estimates may lie a little outside 0 to 1.</returns>
    public static SobolIndex Of(string input, IReadOnlyList<double> a, IReadOnlyList<double> b, IReadOnlyList<double> exchanged)
    {
        int n = a.Count;
        double mean = 0, variance = 0;
        for (int j = 0; j < n; j++) { mean += (a[j] + b[j]) / (2 * n); }
        for (int j = 0; j < n; j++) { variance += ((a[j] - mean) * (a[j] - mean) + (b[j] - mean) * (b[j] - mean)) / (2 * n); }
        if (!(variance > 0)) { return new(input, 0, 0, 0, 0); }
        (double first, double firstError) = Mean(j => (b[j] - mean) * (exchanged[j] - a[j]));
        (double total, double totalError) = Mean(j => (a[j] - exchanged[j]) * (a[j] - exchanged[j]) / 2);
        return new(input, first / variance, total / variance, firstError / variance, totalError / variance);

        (double Mean, double Error) Mean(Func<int, double> term)
        {
            double sum = 0, squares = 0;
            for (int j = 0; j < n; j++)
            {
                double t = term(j);
                sum += t;
                squares += t * t;
            }

            double middle = sum / n;
            return (middle, Math.Sqrt(Math.Max(0, squares / n - middle * middle) / n));
        }
    }
}
