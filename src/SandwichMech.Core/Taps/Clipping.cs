namespace SandwichMech.Core.Taps;

/// <summary>Where a recording was too loud for the microphone's input: tops that are cut off flat.</summary>
/// <remarks>
/// A flat top is four samples or more at the same greatest value, on the side of it where they stand. A sine that reaches the value once does not do that often: three of them make clipping,
/// or one at full scale.
/// </remarks>
internal static class Clipping
{
    private const int Flat = 4, Several = 3;

    /// <summary>First and last sample of each flat top.</summary>
    internal static List<(int From, int To)> In(double[] samples)
    {
        double high = 0, low = 0;
        foreach (double x in samples) { (high, low) = (Math.Max(high, x), Math.Min(low, x)); }
        List<(int From, int To)> all = [.. Tops(samples, high, 1), .. Tops(samples, low, -1)];
        all.Sort();
        return all;
    }

    private static List<(int From, int To)> Tops(double[] samples, double top, int sign)
    {
        var found = new List<(int From, int To)>();
        if (top == 0) { return found; }
        for (int i = 0; i < samples.Length; i++)
        {
            if (samples[i] != top) { continue; }
            int from = i;
            while (i + 1 < samples.Length && samples[i + 1] == top) { i++; }
            if (i - from + 1 >= Flat) { found.Add((from, i)); }
        }

        return found.Count >= Several || sign * top > 0.995 ? found : [];
    }
}
