namespace SandwichMech.Core.Taps;

/// <summary>From a recording to the partials of what was tapped.</summary>
public static class TapListening
{
    // So many lines beside stronger ones are the room's or the recorder's.
    private const int FewCrowded = 4;

    /// <summary>Listens.</summary>
    /// <param name="recording">The recording.</param>
    /// <param name="low">Lowest frequency wanted, Hz.</param>
    /// <param name="high">Highest, Hz, below half the sample rate.</param>
    /// <returns>Partials, taps and notes; no taps where there are none.</returns>
    public static TapReport Of(Recording recording, double low, double high)
    {
        TapFinding finding = TapFinding.Of(recording);
        SuddenSound[] sounds = [.. finding.Sounds(recording.SampleRate)];
        List<SteadyTone> steady = SteadyTones.In(recording, sounds, high);
        double noise = 10 * Math.Log10(finding.Floor + 1e-20);
        var one = new OneTap(recording, low, high, [.. steady.Select(t => t.Frequency)], Clipping.In(recording.Samples));
        var heard = new HeardTap?[sounds.Length];
        // The loudest from nothing; what it sounds like is where the others begin.
        int[] order = [.. Enumerable.Range(0, sounds.Length).OrderByDescending(i => sounds[i].Loudness)];
        if (order.Length > 0) { heard[order[0]] = one.Hear(sounds[order[0]], []); }
        double rate = recording.SampleRate;
        Pole[] known = order.Length > 0 && heard[order[0]] is { } first ? [.. first.Tap.Partials.Select(p => new Pole(p.Decay / rate, 2 * Math.PI * p.Frequency / rate))] : [];
        Parallel.ForEach(order.Skip(1), i => heard[i] = one.Hear(sounds[i], known));
        HeardTap[] all = [.. heard.OfType<HeardTap>().Where(h => h.Tap.Partials.Count > 0)], taps = Alike(all);
        List<TapPartial> partials = TapMerging.Of([.. taps.Select(t => t.Tap)]);
        double? gain = GainControl.Change(recording, taps);
        int crowded = TapMerging.Crowded(partials);
        bool isBlurred = crowded >= Math.Max(FewCrowded, partials.Count / 4);
        if (gain is not null || isBlurred) { partials = TapMerging.Thinned(partials); }
        double? other = sounds.Where(s => !taps.Any(t => t.Sound == s)).Select(s => (double?)s.Start / rate).FirstOrDefault();
        return new(partials, [.. taps.Select(t => t.Tap)], [.. ListeningNotes.Of(recording, steady, taps, partials, sounds.Length - taps.Length, other), .. ListeningNotes.OfDecay(gain, isBlurred ? crowded : 0)], noise);
    }

    // The taps that share partials with the one which shares most with the others; the rest is handling, speech, a door.
    private static HeardTap[] Alike(HeardTap[] all)
    {
        if (all.Length < 3) { return all; }
        double[,] shared = new double[all.Length, all.Length];
        for (int a = 0; a < all.Length; a++)
        {
            for (int b = 0; b < all.Length; b++) { shared[a, b] = Shared(all[a].Tap, all[b].Tap); }
        }

        int centre = Enumerable.Range(0, all.Length).MaxBy(a => Enumerable.Range(0, all.Length).Sum(b => shared[a, b]));
        return [.. all.Where((_, i) => shared[centre, i] > 0.2)];
    }

    // Share of the partials of the poorer tap that the other has too.
    private static double Shared(Tap a, Tap b)
    {
        (Tap poor, Tap rich) = a.Partials.Count <= b.Partials.Count ? (a, b) : (b, a);
        return (double)poor.Partials.Count(p => rich.Partials.Any(o => Math.Abs(o.Frequency - p.Frequency) < Math.Max(3 * Math.Max(o.FrequencySd, p.FrequencySd), 0.004 * p.Frequency))) / poor.Partials.Count;
    }
}
