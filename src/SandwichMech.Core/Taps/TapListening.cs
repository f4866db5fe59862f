namespace SandwichMech.Core.Taps;

/// <summary>From a recording to the partials of what was tapped.</summary>
public static class TapListening
{
    private const int MostTurns = 4;

    internal static List<Tap> Taps(Recording recording, double low, double high, IReadOnlyList<double> hum)
    {
        SuddenSound[] sounds = [.. TapFinding.Of(recording).Sounds(recording.SampleRate)];
        var taps = new Tap?[sounds.Length];
        // The loudest from nothing; what it sounds like is where the others begin.
        int[] order = [.. Enumerable.Range(0, sounds.Length).OrderByDescending(i => sounds[i].Loudness)];
        foreach (int i in order.Take(1)) { taps[i] = OneTap(recording, sounds[i], low, high, hum, []); }
        double rate = recording.SampleRate;
        Pole[] known = [.. TapMerging.Of([.. order.Take(1).Select(i => taps[i]).OfType<Tap>()]).Select(p => new Pole(p.Decay / rate, 2 * Math.PI * p.Frequency / rate))];
        Parallel.ForEach(order.Skip(1), i => taps[i] = OneTap(recording, sounds[i], low, high, hum, known));
        return [.. taps.OfType<Tap>()];
    }

    internal static Tap? OneTap(Recording recording, SuddenSound sound, double low, double high, IReadOnlyList<double> hum, IReadOnlyList<Pole> known)
    {
        double rate = recording.SampleRate;
        int block = (int)(rate / 1000), begin = Math.Max(sound.Start, sound.Again);
        int safe = Math.Max(begin + 3 * block, Math.Min(sound.Top, begin + 12 * block) + 2 * block);
        TapFit? fit = Fit(recording, safe, sound.End, low, high, hum, known);
        int start = safe;
        for (int turn = 0; fit is not null && turn < MostTurns; turn++)
        {
            FittedPole[] lines = [.. fit.Lines.Where(l => l.Pole.Decay * 6 * block < 1)];
            int earlier = TapStart.CarriedBack(recording.Samples, rate, start, Math.Max(0, begin - 60 * block), lines, [.. fit.Steady]);
            if (earlier == start) { break; }
            fit = Fit(recording, earlier, sound.End, low, high, hum, [.. lines.Select(l => l.Pole)]);
            start = earlier;
        }

        if (fit is null) { return null; }
        TapPartial[] partials = [.. fit.Lines.Select(l => Partial(l, rate)).Where(p => p.Frequency >= low && p.Frequency <= high && p.Q > 3 && p.FrequencySd < 0.02 * p.Frequency && p.DecaySd < 0.5 * p.Decay).OrderBy(p => p.Frequency)];
        return new(start / rate, (sound.End - start) / rate, partials);
    }

    private static TapPartial Partial(FittedPole line, double rate)
    {
        (double decay, double frequency) = line.Pole.PerSecond(rate);
        return new(frequency, line.OmegaSd * rate / (2 * Math.PI), decay, line.DecaySd * rate, 20 * Math.Log10(line.Amplitude));
    }

    private static TapFit? Fit(Recording recording, int start, int end, double low, double high, IReadOnlyList<double> hum, IReadOnlyList<Pole> known)
    {
        double rate = recording.SampleRate, turn = 2 * Math.PI / rate;
        int usable = BandSpectrum.Usable(Math.Min(end, recording.Samples.Length) - start);
        if (usable < 0.04 * rate) { return null; }
        // Lines a little outside are found too, so that they do not disturb those inside.
        double top = Math.Min(1.25 * high, 0.49 * rate);
        BandSpectrum spectrum = BandSpectrum.Of(recording.Samples.AsSpan(start, usable), Math.Min(1.3 * high, 0.495 * rate) * turn);
        return new TapFit(spectrum, 0.6 * low * turn, top * turn, [.. hum.Select(h => h * turn)]).Find(known);
    }
}
