using MathNet.Numerics.LinearAlgebra;

namespace SandwichMech.Core.Identification;

/// <summary>Which mode each tone is.</summary>
/// <param name="Modes">For each tone, the number of its mode; −1 where it is none of them.</param>
/// <param name="Cost">−2 ln of how likely the tones are if this is so, up to a constant.</param>
public sealed record Assignment(IReadOnlyList<int> Modes, double Cost);

/// <summary>Finds the likeliest ways of taking tones for modes.</summary>
/// <remarks>
/// Tones are taken one after the other; each that is taken for a mode narrows what is known of the piece, and so of the other modes (a Kalman update in the
/// logarithms of the modes' frequencies, linear about one set of modes), and its likelihood is that of the misfit under what was known before. The best hypotheses are followed, the others left
/// (multiple-hypothesis tracking, Reid 1979, IEEE Trans. Autom. Control 24, 843). A tone may be none of the modes: handling, a loose part, the room.
/// </remarks>
public static class ToneAssignment
{
    private const int Followed = 300;
    // How often a mode is heard, how often a tone is none; a stray tone lies anywhere in some three octaves. Judgement, no source.
    private const double Heard = 0.7, Stray = 0.03, StrayRange = 2.1;
    private static readonly double CostOfNone = -2 * Math.Log(Stray / StrayRange), CostOfOne = -2 * Math.Log(1 - Stray);
    // Misfits beyond so many standard deviations are not followed.
    private const double Gate = 6;

    // Tones so far; what is known of all modes then: logarithms of their frequencies and their covariance, row by row.
    private sealed record Path(int[] Modes, double Cost, double[] Mean, double[] Covariance);

    // One more tone for a path: the mode, or −1; its misfit and what that varies by.
    private sealed record Turn(Path Before, int Mode, double Cost, double Misfit, double Variance);

    /// <summary>Finds the likeliest ways.</summary>
    /// <param name="tones">Logarithms of their frequencies.</param>
    /// <param name="deviations">Standard deviation of each, of reading and model.</param>
    /// <param name="allowed">Whether a tone (number) may be a mode (number): what the maker knows of it.</param>
    /// <param name="modes">Logarithms of the modes' frequencies.</param>
    /// <param name="slopes">[mode, parameter].</param>
    /// <param name="mean">Parameters as known before, from those that the modes were found with.</param>
    /// <param name="covariance">Their covariance.</param>
    /// <param name="wanted">How many.</param>
    /// <returns>Likeliest first.</returns>
    public static IReadOnlyList<Assignment> Likeliest(
        double[] tones, double[] deviations, Func<int, int, bool> allowed, double[] modes, double[,] slopes, Vector<double> mean, Matrix<double> covariance, int wanted)
    {
        Matrix<double> g = Matrix<double>.Build.DenseOfArray(slopes);
        int count = modes.Length;
        List<Path> paths = [new([], 0, [.. (g * mean).Select((f, m) => modes[m] + f)], (g * covariance * g.Transpose()).ToRowMajorArray())];
        for (int t = 0; t < tones.Length; t++)
        {
            var turns = new List<Turn>();
            foreach (Path path in paths)
            {
                turns.Add(new(path, -1, path.Cost + CostOfNone, 0, 1));
                for (int m = 0; m < count; m++)
                {
                    double variance = path.Covariance[m * count + m] + deviations[t] * deviations[t], misfit = tones[t] - path.Mean[m];
                    if (misfit * misfit > Gate * Gate * variance || path.Modes.Contains(m) || !allowed(t, m)) { continue; }
                    turns.Add(new(path, m, path.Cost + misfit * misfit / variance + Math.Log(2 * Math.PI * variance) + CostOfOne, misfit, variance));
                }
            }

            paths = [.. turns.OrderBy(turn => turn.Cost).Take(Followed).Select(Taken)];
        }

        return [.. paths.Select(p => new Assignment(p.Modes, p.Cost + CostOfUnheard(p.Modes, p.Mean))).OrderBy(a => a.Cost).Take(wanted)];
    }

    // A mode that is known to be a tone tells of all others.
    private static Path Taken(Turn turn)
    {
        (Path before, int mode, double cost, double misfit, double variance) = turn;
        if (mode < 0) { return before with { Modes = [.. before.Modes, mode], Cost = cost }; }
        int count = before.Mean.Length;
        double[] mean = [.. before.Mean], covariance = [.. before.Covariance];
        ReadOnlySpan<double> gain = before.Covariance.AsSpan(mode * count, count);
        for (int i = 0; i < count; i++)
        {
            mean[i] += gain[i] * misfit / variance;
            for (int j = 0; j < count; j++) { covariance[i * count + j] -= gain[i] * gain[j] / variance; }
        }

        return new([.. before.Modes, mode], cost, mean, covariance);
    }

    /// <summary>−2 ln of how likely it is that just these modes are heard, and the other tones are none.</summary>
    /// <param name="way">For each tone, the number of its mode; −1 where it is none.</param>
    /// <param name="modes">The modes' frequencies, in any rising measure.</param>
    internal static double CostOfHearing(IReadOnlyList<int> way, double[] modes) => way.Sum(m => m < 0 ? CostOfNone : CostOfOne) + CostOfUnheard(way, modes);

    // Modes below the highest tone that was taken for one are heard or not.
    private static double CostOfUnheard(IReadOnlyList<int> way, double[] modes)
    {
        int[] heard = [.. way.Where(m => m >= 0)];
        if (heard.Length == 0) { return 0; }
        double highest = heard.Max(m => modes[m]);
        int below = Enumerable.Range(0, modes.Length).Count(m => !heard.Contains(m) && modes[m] < highest);
        return -2 * (below * Math.Log(1 - Heard) + heard.Length * Math.Log(Heard));
    }
}
