using System.Numerics;

namespace SandwichMech.Core.Taps;

/// <summary>A tone that goes on while nothing is tapped.</summary>
/// <param name="Frequency">Hz.</param>
/// <param name="Level">Amplitude, dB of full scale.</param>
/// <param name="Mains">50 or 60 where it is a harmonic of the mains, else 0.</param>
public sealed record SteadyTone(double Frequency, double Level, int Mains);

/// <summary>Finds hum and other steady tones in the quiet between the taps.</summary>
/// <remarks>
/// Peaks of the spectrum of the longest quiet stretch in a Hann window: with r = |X(k+1)|/|X(k)| of a peak's two highest bins a steady tone lies (2 r − 1)/(r + 1) bins above
/// bin k, exactly for the window's main lobe (from memory). Harmonics of the mains share one fundamental.
/// </remarks>
internal static class SteadyTones
{
    private const double Shortest = 0.3, Longest = 4;
    private const int Most = 24;
    // What is left of a tone in the second half of the quiet: below so much of the first, and so many standard deviations of their ratio below 1, it rings and dies.
    private const double Dying = 0.8, Certain = 1.5;

    internal static List<SteadyTone> In(Recording recording, IReadOnlyList<SuddenSound> sounds, double high)
    {
        (int from, int to) = Quietest(recording, sounds);
        double rate = recording.SampleRate;
        int usable = BandSpectrum.Usable(Math.Min(to - from, (int)(Longest * rate)));
        if (usable < Shortest * rate) { return []; }
        Complex[] bins = BandSpectrum.Of(recording.Samples.AsSpan(to - usable, usable), Math.Min(1.3 * high, 0.495 * rate) * 2 * Math.PI / rate).Bins;
        var hann = new Complex[bins.Length];
        for (int k = 1; k < bins.Length - 1; k++) { hann[k] = 0.5 * bins[k] - 0.25 * (bins[k - 1] + bins[k + 1]); }
        double[] floor = SpectrumFloor.Of(hann);
        var found = new List<(double Frequency, double Amplitude, double OverFloor)>();
        for (int k = 2; k < hann.Length - 2; k++)
        {
            double here = hann[k].Magnitude, left = hann[k - 1].Magnitude, right = hann[k + 1].Magnitude;
            if (!(here >= left && here > right && here * here > (Math.Log(hann.Length) + 12) * floor[k])) { continue; }
            (double ratio, double sign) = right >= left ? (right / here, 1.0) : (left / here, -1.0);
            double offset = (2 * ratio - 1) / (ratio + 1);
            // A line narrower than the window allows is none: noise.
            if (offset is < -0.3 or > 0.7) { continue; }
            double lobe = Math.Abs(offset) < 1e-9 ? 1 : Math.Sin(Math.PI * offset) / (Math.PI * offset) / (1 - offset * offset);
            found.Add(((k + sign * offset) * rate / usable, 4 * here / lobe / usable, here * here / floor[k]));
        }

        int half = usable / 2;
        double[] window = [.. Enumerable.Range(0, half).Select(n => 1 - Math.Cos(2 * Math.PI * (n + 0.5) / half))];
        return Named(
            [.. found.OrderByDescending(f => f.Amplitude).Take(Most).Where(f => !Dies(recording, to - usable, window, f.OverFloor, 2 * Math.PI * f.Frequency / rate)).Select(f => (f.Frequency, f.Amplitude))],
            rate / usable);
    }

    // A tap's lowest tone may ring for seconds and still sound in the quiet: noise moves the ratio of the two halves by √(2 / power over the floor).
    private static bool Dies(Recording recording, int from, double[] window, double overFloor, double turn)
    {
        double ratio = Amplitude(recording.Samples.AsSpan(from + window.Length), window, turn) / Amplitude(recording.Samples.AsSpan(from), window, turn);
        return ratio < Math.Min(Dying, 1 - Certain * Math.Sqrt(2 / overFloor));
    }

    private static double Amplitude(ReadOnlySpan<double> x, double[] window, double turn)
    {
        Complex sum = 0, at = 1, step = Complex.FromPolarCoordinates(1, -turn);
        for (int n = 0; n < window.Length; n++, at *= step) { sum += window[n] * x[n] * at; }
        return sum.Magnitude;
    }

    private static List<SteadyTone> Named(IReadOnlyList<(double Frequency, double Amplitude)> found, double bin)
    {
        int mains = 0;
        double fundamental = 0, most = 0;
        foreach (int candidate in (int[])[50, 60])
        {
            (double Frequency, double Amplitude)[] own = [.. found.Where(f => IsHarmonic(f.Frequency, candidate, bin))];
            double power = own.Sum(f => f.Amplitude * f.Amplitude);
            if (power > most)
            {
                (mains, most) = (candidate, power);
                fundamental = own.Sum(f => f.Amplitude * f.Frequency * Harmonic(f.Frequency, candidate)) / own.Sum(f => f.Amplitude * Math.Pow(Harmonic(f.Frequency, candidate), 2));
            }
        }

        return [.. found.Select(f => mains > 0 && IsHarmonic(f.Frequency, mains, bin)
            ? new SteadyTone(fundamental * Harmonic(f.Frequency, mains), Decibel(f.Amplitude), mains)
            : new SteadyTone(f.Frequency, Decibel(f.Amplitude), 0)).OrderBy(t => t.Frequency)];

        static double Harmonic(double frequency, int mains) => Math.Round(frequency / mains);
        static double Decibel(double amplitude) => 20 * Math.Log10(amplitude);
    }

    // The mains keep within 0.4 % of their frequency.
    private static bool IsHarmonic(double frequency, int mains, double bin) =>
        Math.Round(frequency / mains) is >= 1 and var h && Math.Abs(frequency - h * mains) < Math.Max(0.3 * bin, 0.004 * frequency);

    private static (int From, int To) Quietest(Recording recording, IReadOnlyList<SuddenSound> sounds)
    {
        (int From, int To) best = (0, 0);
        int from = 0, margin = (int)(0.02 * recording.SampleRate);
        foreach (SuddenSound sound in sounds)
        {
            Consider(from, sound.Start - margin);
            from = Math.Max(from, sound.End);
        }

        Consider(from, recording.Samples.Length);
        return best;

        void Consider(int start, int end)
        {
            if (end - start > best.To - best.From) { best = (start, end); }
        }
    }
}
