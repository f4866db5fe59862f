using MathNet.Numerics.LinearAlgebra;

namespace SandwichMech.Core.Identification;

/// <summary>Which mode each tone is.</summary>
/// <param name="Modes">For each tone, the number of its mode; −1 where it is none of them.</param>
/// <param name="Cost">−2 ln of how likely the tones are if this is so, up to a constant.</param>
public sealed record Assignment(IReadOnlyList<int> Modes, double Cost);

/// <summary>Finds the likeliest ways of taking tones for modes.</summary>
/// <remarks>
/// Tones are taken one after the other; each that is taken for a mode narrows what is known of the piece, and so of the other modes (a Kalman update in the
/// logarithms, linear about one set of modes), and its likelihood is that of the misfit under what was known before. The best hypotheses are followed, the others left
/// (multiple-hypothesis tracking, Reid 1979, IEEE Trans. Autom. Control 24, 843). A tone may be none of the modes: handling, a loose part, the room.
/// </remarks>
public static class ToneAssignment
{
    private const int Followed = 300;
    // How often a mode is heard, how often a tone is none; a stray tone lies anywhere in some three octaves. Judgement, no source.
    private const double Heard = 0.7, Stray = 0.03, StrayRange = 2.1;
    // Misfits beyond so many standard deviations are not followed.
    private const double Gate = 6;

    private sealed record Path(int[] Modes, double Cost, Vector<double> Mean, Matrix<double> Covariance);

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
        List<Path> paths = [new([], 0, mean, covariance)];
        for (int t = 0; t < tones.Length; t++)
        {
            var next = new List<Path>();
            foreach (Path path in paths)
            {
                next.Add(path with { Modes = [.. path.Modes, -1], Cost = path.Cost - 2 * Math.Log(Stray / StrayRange) });
                for (int m = 0; m < modes.Length; m++)
                {
                    if (path.Modes.Contains(m) || !allowed(t, m)) { continue; }
                    Vector<double> row = g.Row(m), gain = path.Covariance * row;
                    double variance = row * gain + deviations[t] * deviations[t], misfit = tones[t] - modes[m] - row * path.Mean;
                    if (misfit * misfit > Gate * Gate * variance) { continue; }
                    next.Add(new(
                        [.. path.Modes, m],
                        path.Cost + misfit * misfit / variance + Math.Log(2 * Math.PI * variance) - 2 * Math.Log(1 - Stray),
                        path.Mean + gain * (misfit / variance),
                        path.Covariance - gain.OuterProduct(gain) / variance));
                }
            }

            paths = [.. next.OrderBy(p => p.Cost).Take(Followed)];
        }

        return [.. paths.Select(p => new Assignment(p.Modes, p.Cost + Unheard(p, modes, g))).OrderBy(a => a.Cost).Take(wanted)];
    }

    // Modes below the highest tone that was taken for one are heard or not.
    private static double Unheard(Path path, double[] modes, Matrix<double> g)
    {
        double[] now = [.. modes.Select((f, m) => f + g.Row(m) * path.Mean)];
        int[] heard = [.. path.Modes.Where(m => m >= 0)];
        if (heard.Length == 0) { return 0; }
        double highest = heard.Max(m => now[m]);
        int below = Enumerable.Range(0, modes.Length).Count(m => !heard.Contains(m) && now[m] < highest);
        return -2 * (below * Math.Log(1 - Heard) + heard.Length * Math.Log(Heard));
    }
}
