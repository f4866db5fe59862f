namespace SandwichMech.Core.Taps;

/// <summary>What a picture of a recording shows.</summary>
/// <param name="Spectrum">Frequency Hz and level dB, the mean over the taps, 0 dB at the highest.</param>
/// <param name="Decay">Time s after the beginning of free vibration and level dB of full scale, of the loudest tap.</param>
/// <param name="Fitted">The same by the sum of the partials of that tap.</param>
/// <param name="DecayTap">Which tap that is, from 1.</param>
public sealed record TapCurves(IReadOnlyList<(double X, double Y)> Spectrum, IReadOnlyList<(double X, double Y)> Decay, IReadOnlyList<(double X, double Y)> Fitted, int DecayTap)
{
    private const int Points = 900;
    private const double Step = 0.01;

    /// <summary>Makes the curves.</summary>
    /// <param name="recording">The recording.</param>
    /// <param name="report">What was heard in it.</param>
    /// <param name="low">Lowest frequency, Hz.</param>
    /// <param name="high">Highest, Hz.</param>
    public static TapCurves Of(Recording recording, TapReport report, double low, double high)
    {
        int loudest = Enumerable.Range(0, report.Taps.Count).MaxBy(i => report.Taps[i].Partials.Count == 0 ? double.NegativeInfinity : report.Taps[i].Partials.Max(p => p.Level));
        Tap tap = report.Taps[loudest];
        int start = (int)Math.Round(tap.Time * recording.SampleRate), step = (int)(Step * recording.SampleRate), count = (int)(tap.Length * recording.SampleRate / step);
        var decay = new List<(double, double)>();
        var fitted = new List<(double, double)>();
        for (int i = 0; i < count && start + (i + 1) * step <= recording.Samples.Length; i++)
        {
            ReadOnlySpan<double> part = recording.Samples.AsSpan(start + i * step, step);
            double time = (i + 0.5) * Step, power = tap.Partials.Sum(p => 0.5 * Math.Pow(10, p.Level / 10) * Math.Exp(-2 * p.Decay * time));
            decay.Add((time, 10 * Math.Log10(Numerics.DenseRows.Dot(part, part) / step + 1e-20)));
            fitted.Add((time, 10 * Math.Log10(power + 1e-20)));
        }

        return new(Mean(recording, report, low, high), decay, fitted, loudest + 1);
    }

    // The highest bin of each of so many stretches that are alike on a logarithmic axis.
    private static List<(double X, double Y)> Mean(Recording recording, TapReport report, double low, double high)
    {
        var power = new double[Points];
        double perPoint = Math.Log(high / low) / Points;
        foreach (Tap tap in report.Taps)
        {
            int start = (int)Math.Round(tap.Time * recording.SampleRate), usable = BandSpectrum.Usable(Math.Min((int)(tap.Length * recording.SampleRate), recording.Samples.Length - start));
            BandSpectrum spectrum = BandSpectrum.Of(recording.Samples.AsSpan(start, usable), 2 * Math.PI * high / recording.SampleRate);
            double bin = recording.SampleRate / usable;
            for (int i = 0; i < Points; i++)
            {
                int from = (int)(low * Math.Exp(i * perPoint) / bin), to = Math.Max(from, (int)(low * Math.Exp((i + 1) * perPoint) / bin) - 1);
                double most = 0;
                for (int k = from; k <= Math.Min(to, spectrum.Bins.Length - 1); k++) { most = Math.Max(most, SpectrumFloor.Power(spectrum.Bins[k])); }
                power[i] += most;
            }
        }

        double top = power.Max();
        return [.. power.Select((p, i) => (low * Math.Exp((i + 0.5) * perPoint), 10 * Math.Log10(p / top + 1e-12)))];
    }
}
