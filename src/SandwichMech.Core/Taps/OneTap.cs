namespace SandwichMech.Core.Taps;

/// <summary>A tap with what was seen on the way to it.</summary>
/// <param name="Tap">The tap.</param>
/// <param name="Sound">Where it is in the recording.</param>
/// <param name="Lines">All lines of the fit, those outside the wanted range too.</param>
/// <param name="Start">First sample of the fit.</param>
/// <param name="LeftOut">Samples left out at the beginning since they were clipped.</param>
/// <param name="Knocks">What the sound after it was excited by.</param>
internal sealed record HeardTap(Tap Tap, SuddenSound Sound, IReadOnlyList<FittedPole> Lines, int Start, int LeftOut, Knocks Knocks);

/// <summary>Hears one tap: where free vibration begins and what it holds.</summary>
internal sealed class OneTap(Recording recording, double low, double high, IReadOnlyList<double> steady, List<(int From, int To)> clipped)
{
    private const int MostTurns = 4;
    private const double Shortest = 0.04;

    private readonly double _rate = recording.SampleRate;
    private readonly int _block = Math.Max(1, (int)(recording.SampleRate / 1000));

    /// <summary>Hears it.</summary>
    /// <param name="sound">Where it is.</param>
    /// <param name="known">Poles of another tap of the same piece.</param>
    /// <returns>The tap, or nothing where too little of it is left.</returns>
    internal HeardTap? Hear(SuddenSound sound, IReadOnlyList<Pole> known)
    {
        Knocks knocks = Knocks.In(recording, sound, high);
        int begin = Math.Max(sound.Start, knocks.LastOf(sound));
        int safe = Math.Max(begin + 3 * _block, Math.Min(Math.Max(sound.Top, begin), begin + 12 * _block) + 2 * _block);
        int earliest = Math.Max(0, begin - (begin > sound.Start ? _block : 60 * _block)), leftOut = 0;
        foreach ((int from, int to) in clipped)
        {
            if (from >= sound.Start - _block && from < sound.End) { (earliest, leftOut) = (Math.Max(earliest, to + 1), to + 1 - sound.Start); }
        }

        safe = Math.Max(safe, earliest);
        TapFit? fit = Fit(safe, sound.End, known);
        int start = safe;
        for (int turn = 0; fit is not null && turn < MostTurns; turn++)
        {
            // What has died away within 6 ms cannot be carried back.
            FittedPole[] lines = [.. fit.Lines.Where(l => l.Pole.Decay * 6 * _block < 1)];
            int earlier = TapStart.CarriedBack(recording.Samples, _rate, start, earliest, lines, [.. fit.Steady]);
            if (earlier == start) { break; }
            fit = Fit(earlier, sound.End, [.. lines.Select(l => l.Pole)]) ?? fit;
            start = earlier;
        }

        if (fit?.Finished() is null) { return null; }
        TapPartial[] partials = [.. fit.Lines.Select(Partial).Where(IsSound).OrderBy(p => p.Frequency)];
        return new(new(start / _rate, (sound.End - start) / _rate, partials), sound, [.. fit.Lines], start, leftOut, knocks);
    }

    // A line that is no more than noise, or that dies before it has swung thrice, is none.
    private bool IsSound(TapPartial p) => p.Frequency >= low && p.Frequency <= high && p.Q > 3 && p.FrequencySd < 0.02 * p.Frequency && p.DecaySd < 0.5 * p.Decay;

    private TapPartial Partial(FittedPole line)
    {
        (double decay, double frequency) = line.Pole.PerSecond(_rate);
        return new(frequency, line.OmegaSd * _rate / (2 * Math.PI), decay, line.DecaySd * _rate, 20 * Math.Log10(line.Amplitude));
    }

    private TapFit? Fit(int start, int end, IReadOnlyList<Pole> known)
    {
        double turn = 2 * Math.PI / _rate;
        int usable = BandSpectrum.Usable(Math.Max(0, Math.Min(end, recording.Samples.Length) - start));
        if (usable < Shortest * _rate) { return null; }
        // Lines a little outside are found too, so that they do not disturb those inside.
        double top = Math.Min(1.25 * high, 0.49 * _rate);
        BandSpectrum spectrum = BandSpectrum.Of(recording.Samples.AsSpan(start, usable), Math.Min(1.3 * high, 0.495 * _rate) * turn);
        return new TapFit(spectrum, 0.6 * low * turn, top * turn, [.. steady.Select(h => h * turn)]).Find(known);
    }
}
