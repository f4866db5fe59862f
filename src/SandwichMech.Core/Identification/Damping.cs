using MathNet.Numerics.LinearAlgebra;
using SandwichMech.Core.Materials;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Identification;

/// <summary>A loss factor before and after the tones.</summary>
/// <param name="Name">In the maker's words.</param>
/// <param name="Symbol">Of the literature.</param>
/// <param name="Table">What the table says; of twist, that across with a wide spread.</param>
/// <param name="Found">What the tones say.</param>
public sealed record LossFound(string Name, string Symbol, Estimate Table, Estimate Found);

/// <summary>Loss factors of a wood from those of its tones: each mode loses in parts of its energy that bends along, bends across, and shears.</summary>
/// <remarks>η of a mode is Σ (energy share · η of the kind) (McIntyre &amp; Woodhouse 1988; Ungar &amp; Kerwin 1962, J. Acoust. Soc. Am. 34, 954).</remarks>
public static class Damping
{
    // Spread of the loss in twist beforehand; what foam, fingers and radiation bring to each tone, in the logarithm. Judgement, no source.
    private const double TwistSpread = 0.5, ToneScatter = 0.12;

    /// <summary>Fits.</summary>
    /// <param name="wood">With its tabulated losses.</param>
    /// <param name="tones">Loss factor of each tone, and its mode.</param>
    /// <returns>Along, across, twist; nothing where the table has no losses or no tone has one.</returns>
    public static IReadOnlyList<LossFound> Of(Wood wood, IReadOnlyList<(Estimate Loss, PlateMode Mode)> tones)
    {
        if (tones.Count == 0 || wood.LossAlong is not { } along || wood.LossAcross is not { } across) { return []; }
        Estimate[] before = [along, across, across with { Spread = TwistSpread }];
        double[][] shares = [.. tones.Select(t => new[] { t.Mode.Energy.Along, t.Mode.Energy.Across, t.Mode.Energy.Twist + t.Mode.Energy.Shear })];
        FitResult fit = LogFit.Fit(
            [.. before.Select(e => Math.Log(e.Value))], Matrix<double>.Build.DenseDiagonal(3, 3, i => 1 / Math.Pow(before[i].Spread, 2)),
            [.. tones.Select(t => Math.Log(t.Loss.Value))], [.. tones.Select(t => Observations.Root(t.Loss.Spread, ToneScatter))], Model);
        string[] names = ["damping of bending along", "damping of bending across", "damping of twist"], symbols = ["eta_L", "eta_R", "eta_G"];
        return [.. before.Select((e, i) => new LossFound(names[i], symbols[i], e, new(Math.Exp(fit.Parameters[i]), Math.Sqrt(fit.Covariance[i, i]))))];

        ModelValues Model(double[] logs)
        {
            double[] values = new double[shares.Length];
            double[,] slopes = new double[shares.Length, 3];
            for (int t = 0; t < shares.Length; t++)
            {
                double sum = 0;
                for (int k = 0; k < 3; k++) { sum += shares[t][k] * Math.Exp(logs[k]); }
                values[t] = Math.Log(sum);
                for (int k = 0; k < 3; k++) { slopes[t, k] = shares[t][k] * Math.Exp(logs[k]) / sum; }
            }

            return new(values, slopes);
        }
    }
}
