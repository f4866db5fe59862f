namespace SandwichMech.Core.Taps;

/// <summary>The same partials over several taps.</summary>
/// <remarks>
/// Each tap's value x_i has its own standard deviation s_i; from tap to tap it may also move by τ (the hand holds otherwise, the piece warms). τ² is what the weighted
/// sum of squares has above its number of degrees of freedom (DerSimonian &amp; Laird 1986); weights are 1/(s_i² + τ²) and the mean's variance is one over
/// their sum, so that taps that scatter more than their noise allows give a wider result.
/// </remarks>
internal static class TapMerging
{
    private const double FarBelow = 20, Weaker = 6, Widths = 2.5;

    internal static List<TapPartial> Of(IReadOnlyList<Tap> taps)
    {
        var groups = new List<List<(int Tap, TapPartial Partial)>>();
        // The surest first: they gather the others.
        foreach ((int tap, TapPartial partial) in taps.SelectMany((t, i) => t.Partials.Select(p => (Tap: i, Partial: p))).OrderByDescending(p => p.Partial.Level - 20 * Math.Log10(p.Partial.FrequencySd)))
        {
            List<(int Tap, TapPartial Partial)>? home = groups.Where(g => g.All(m => m.Tap != tap) && Distance(g, partial) < 1).MinBy(g => Distance(g, partial));
            if (home is null) { groups.Add(home = []); }
            home.Add((tap, partial));
        }

        // By chance a line may show up in one tap; in half of them it does not.
        TapPartial[] all = [.. groups.Where(g => 2 * g.Count >= taps.Count).Select(g => Mean([.. g.Select(m => m.Partial)])).OrderBy(p => p.Frequency)];
        return [.. all.Where(p => !all.Any(o => Shadows(o, p)))];
    }

    // A faint line close to a strong one is what the strong one is not quite: an exponential.
    private static bool Shadows(TapPartial strong, TapPartial faint) =>
        faint.Level < strong.Level - FarBelow && Math.Abs(faint.Frequency - strong.Frequency) < 2 * Math.Max(strong.Decay, faint.Decay) / Math.PI;

    // A third of the width at half power, or what the noise explains.
    private static double Distance(List<(int Tap, TapPartial Partial)> group, TapPartial partial)
    {
        double centre = group.Average(m => m.Partial.Frequency), sd = Math.Sqrt(group.Average(m => m.Partial.FrequencySd * m.Partial.FrequencySd) + partial.FrequencySd * partial.FrequencySd);
        double width = Math.Min(partial.Decay, group.Min(m => m.Partial.Decay)) / Math.PI;
        return Math.Abs(partial.Frequency - centre) / Math.Max(4 * sd, Math.Max(0.35 * width, 0.0015 * centre));
    }

    /// <summary>How many partials lie as near to a stronger one as sounds of a piece seldom do.</summary>
    internal static int Crowded(IReadOnlyList<TapPartial> all) => all.Count(p => all.Any(o => o.Level > p.Level && IsNear(o, p)));

    /// <summary>Without the weaker ones near a strong one: for recordings in which decays are no exponentials, so that each takes several lines.</summary>
    /// <remarks>What noise explains is then not all: a thirtieth of a line's width and a tenth of its decay are added to the standard deviations, by judgement.</remarks>
    internal static List<TapPartial> Thinned(IReadOnlyList<TapPartial> all) => [.. all.Where(p => !all.Any(o => o.Level > p.Level + Weaker && IsNear(o, p))).Select(p => p with
    {
        FrequencySd = Together(p.FrequencySd, p.Decay / Math.PI / 30),
        DecaySd = Together(p.DecaySd, p.Decay / 10),
    })];

    private static double Together(double a, double b) => Math.Sqrt(a * a + b * b);

    private static bool IsNear(TapPartial a, TapPartial b) => Math.Abs(a.Frequency - b.Frequency) < Widths * Math.Max(a.Decay, b.Decay) / Math.PI;

    private static TapPartial Mean(TapPartial[] all)
    {
        (double frequency, double frequencySd) = Weighted([.. all.Select(p => (p.Frequency, p.FrequencySd))]);
        (double decay, double decaySd) = Weighted([.. all.Select(p => (p.Decay, p.DecaySd))]);
        return new(frequency, frequencySd, decay, decaySd, all.Average(p => p.Level)) { Taps = all.Length };
    }

    internal static (double Mean, double Sd) Weighted((double Value, double Sd)[] values)
    {
        double[] w = [.. values.Select(v => 1 / Math.Max(v.Sd * v.Sd, 1e-24 * v.Value * v.Value + 1e-300))];
        double sum = w.Sum(), mean = values.Zip(w, (v, k) => v.Value * k).Sum() / sum;
        double scatter = values.Zip(w, (v, k) => k * (v.Value - mean) * (v.Value - mean)).Sum(), spare = sum - w.Sum(k => k * k) / sum;
        double between = values.Length > 1 && spare > 0 ? Math.Max(0, (scatter - (values.Length - 1)) / spare) : 0;
        double[] u = [.. w.Select(k => 1 / (1 / k + between))];
        return (values.Zip(u, (v, k) => v.Value * k).Sum() / u.Sum(), Math.Sqrt(1 / u.Sum()));
    }
}
