namespace SandwichMech.Core.Taps;

/// <summary>What is to be known about a recording.</summary>
internal static class ListeningNotes
{
    // An echo comes after the same time in each tap; a second touch does not.
    private const double SameTime = 0.003;

    internal static List<ListeningNote> Of(Recording recording, IReadOnlyList<SteadyTone> steady, HeardTap[] taps, IReadOnlyList<TapPartial> partials, int others, double? firstOther)
    {
        var notes = new List<ListeningNote>();
        SteadyTone[] mains = [.. steady.Where(t => t.Mains > 0)];
        if (mains.Length > 0) { notes.Add(new(NoteKind.Hum, [], mains[0].Mains, 10 * Math.Log10(mains.Sum(t => Math.Pow(10, t.Level / 10))))); }
        foreach (SteadyTone tone in steady.Where(t => t.Mains == 0).OrderByDescending(t => t.Level).Take(3)) { notes.Add(new(NoteKind.SteadyTone, [], tone.Frequency, tone.Level)); }
        int[] clipped = Numbers(taps, t => t.LeftOut > 0);
        if (clipped.Length > 0) { notes.Add(new(NoteKind.Clipped, clipped, taps.Max(t => t.LeftOut) / recording.SampleRate, 0)); }
        Pushes(taps, notes);
        if (others > 0 && firstOther is { } when) { notes.Add(new(NoteKind.NotTaps, [], when, others)); }
        for (int i = 1; i < partials.Count; i++)
        {
            if (partials[i].Frequency - partials[i - 1].Frequency < Math.Max(partials[i].Decay, partials[i - 1].Decay) / Math.PI) { notes.Add(new(NoteKind.ClosePair, [], partials[i - 1].Frequency, partials[i].Frequency)); }
        }

        if (taps.Length == 1) { notes.Add(new(NoteKind.OneTap, [], 0, 0)); }
        return notes;
    }

    /// <summary>What makes decays something else than exponentials.</summary>
    /// <param name="gain">Decibels that the recorder's gain went down by; nothing where it did not.</param>
    /// <param name="crowded">Lines beside stronger ones, where they are many.</param>
    internal static IEnumerable<ListeningNote> OfDecay(double? gain, int crowded)
    {
        if (gain is { } change) { yield return new(NoteKind.GainControl, [], change, 0); }
        else if (crowded > 0) { yield return new(NoteKind.Reverberation, [], crowded, 0); }
    }

    private static void Pushes(HeardTap[] taps, List<ListeningNote> notes)
    {
        var all = taps.SelectMany((t, i) => t.Knocks.Others.Select(k => (Tap: i + 1, Knock: k))).ToList();
        while (all.Count > 0)
        {
            (_, Knock first) = all.MaxBy(k => k.Knock.Level);
            var same = all.Where(k => Math.Abs(k.Knock.After - first.After) <= SameTime).ToList();
            int[] numbers = [.. same.Select(k => k.Tap).Distinct()];
            bool isEcho = numbers.Length >= Math.Max(3, (taps.Length + 2) / 3);
            notes.Add(new(isEcho ? NoteKind.Echo : NoteKind.DoubleHit, isEcho ? [] : numbers, same.Average(k => k.Knock.After), same.Average(k => k.Knock.Level)));
            all.RemoveAll(same.Contains);
        }
    }

    private static int[] Numbers(HeardTap[] taps, Func<HeardTap, bool> which) => [.. Enumerable.Range(0, taps.Length).Where(i => which(taps[i])).Select(i => i + 1)];
}
