namespace SandwichMech.Core.Taps;

/// <summary>Where free vibration begins.</summary>
/// <remarks>
/// A fit from a safe place after the tap is carried back in time. Sample by sample it says how much likelier the decaying sinusoids m, in noise of variance σ² as there is later, are than
/// something else: silence, of which ln p differs by x²/(2σ²) − (x − m)²/(2σ²), or a sound of the tap's own, of any value up to the sinusoids' size s, by about
/// ln(s/σ) + ½ − (x − m)²/(2σ²). The lesser of the two is summed; free vibration begins where the sum is greatest (maximum likelihood of a change point).
/// While the finger or hammer still touches, x − m is far above the noise and the sum falls.
/// </remarks>
internal static class TapStart
{
    /// <summary>Carries a fit back.</summary>
    /// <param name="samples">The recording.</param>
    /// <param name="sampleRate">Hz.</param>
    /// <param name="safe">First sample of the fit.</param>
    /// <param name="earliest">As far back as it may go.</param>
    /// <param name="lines">Lines of the fit.</param>
    /// <param name="steady">Tones that were there before.</param>
    /// <returns>First sample of free vibration.</returns>
    internal static int CarriedBack(double[] samples, double sampleRate, int safe, int earliest, IReadOnlyList<FittedPole> lines, IReadOnlyList<FittedPole> steady)
    {
        int after = Math.Min((int)(0.004 * sampleRate), samples.Length - safe), block = Math.Max(4, (int)(0.0005 * sampleRate));
        double unlike = 0;
        for (int n = safe; n < safe + after; n++) { unlike += Square(samples[n] - At(lines, n - safe) - At(steady, n - safe)); }
        unlike = unlike / after + 1e-16;
        double size = 0;
        for (int n = 0; n < after; n++) { size += Square(At(lines, n)) / after; }
        double most = 0.5 * Math.Log(1 + size / unlike) + 0.5, gain = 0, best = 0, inBlock = 0;
        int start = safe;
        for (int n = safe - 1; n >= earliest; n--)
        {
            double x = samples[n] - At(steady, n - safe), difference = Square(x - At(lines, n - safe));
            gain += Math.Min(x * x / (2 * unlike), most) - difference / (2 * unlike);
            inBlock += difference;
            if (gain > best) { (best, start) = (gain, n); }
            if ((safe - n) % block == 0)
            {
                if (inBlock / block > 3 * unlike) { break; }
                inBlock = 0;
            }
        }

        return start;
    }

    private static double At(IReadOnlyList<FittedPole> lines, int n)
    {
        double sum = 0;
        foreach (FittedPole line in lines)
        {
            sum += Math.Exp(-line.Pole.Decay * n) * (line.P * Math.Cos(line.Pole.Omega * n) + line.Q * Math.Sin(line.Pole.Omega * n));
        }

        return sum;
    }

    private static double Square(double value) => value * value;
}
