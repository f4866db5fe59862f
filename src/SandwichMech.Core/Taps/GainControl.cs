namespace SandwichMech.Core.Taps;

/// <summary>Looks for a recorder that changes its gain while a piece sounds, as telephones do.</summary>
/// <remarks>
/// Noise beneath a tap cannot be less than before it unless the gain is: where the noise far above the partials lies lower in the tap than before it, in most taps, the gain went down
/// with the tap; it comes back while the piece sounds, and decays come out too slow. Sixth differences leave that noise: they take a partial of 2 kHz at 48 kHz down by 100 dB against it.
/// </remarks>
internal static class GainControl
{
    // The mean square of 50 ms of noise scatters by a tenth of this.
    private const double Decibels = 2, Window = 0.05, After = 0.03, Lead = 0.25, LowestRate = 22_000;

    /// <summary>By how many dB the gain went down; nothing where it did not.</summary>
    internal static double? Change(Recording recording, HeardTap[] taps)
    {
        if (recording.SampleRate < LowestRate) { return null; }
        var changes = new List<double>();
        foreach (SuddenSound sound in taps.Select(t => t.Sound))
        {
            int window = (int)(Window * recording.SampleRate), lead = sound.Start - (int)(Lead * recording.SampleRate);
            if (lead < 0) { continue; }
            double before = Noise(recording.Samples, lead, sound.Start - window / 2), least = double.PositiveInfinity;
            for (int from = sound.Start + (int)(After * recording.SampleRate); from + window <= sound.End; from += window) { least = Math.Min(least, Noise(recording.Samples, from, from + window)); }
            if (before > 0 && double.IsFinite(least)) { changes.Add(10 * Math.Log10(least / before + 1e-12)); }
        }

        if (changes.Count == 0) { return null; }
        changes.Sort();
        double middle = changes[changes.Count / 2];
        return middle < -Decibels ? -middle : null;
    }

    private static double Noise(double[] x, int from, int to)
    {
        double sum = 0;
        for (int n = from + 6; n < to; n++)
        {
            double d = x[n] + x[n - 6] - 6 * (x[n - 1] + x[n - 5]) + 15 * (x[n - 2] + x[n - 4]) - 20 * x[n - 3];
            sum += d * d;
        }

        return sum / (to - from - 6);
    }
}
