namespace SandwichMech.Core.Taps;

/// <summary>Looks for a recorder that changes its gain while a piece sounds, as telephones do.</summary>
/// <remarks>
/// Noise beneath a tap cannot be less than before it unless the gain is: where what cannot be foretold (<see cref="Knocks"/>) lies lower in the tap than before it, in most taps, the gain went down
/// with the tap; decays then come out too slow. Three decibels in the middle of the taps are taken as a sign: the mean square of 50 blocks of 2 ms scatters by far less.
/// </remarks>
internal static class GainControl
{
    private const double Decibels = 3;
    private const int Window = 25;

    /// <summary>By how many dB the gain went down; nothing where it did not.</summary>
    internal static double? Change(Recording recording, HeardTap[] taps)
    {
        var changes = new List<double>();
        foreach (Knocks knocks in taps.Select(t => t.Knocks).Where(k => k.Before > 0 && k.Unforetold.Length >= 2 * Window))
        {
            double least = double.PositiveInfinity;
            for (int b = Window / 2; b + Window <= knocks.Unforetold.Length; b += Window / 5)
            {
                least = Math.Min(least, knocks.Unforetold.AsSpan(b, Window).ToArray().Average());
            }

            changes.Add(10 * Math.Log10(least / knocks.Before + 1e-12));
        }

        if (changes.Count == 0) { return null; }
        changes.Sort();
        double middle = changes[changes.Count / 2];
        return middle < -Decibels ? -middle : null;
    }
}
