using static System.FormattableString;
using SandwichMech.Core.Taps;

namespace SandwichMech.Workshop.UseCases;

/// <summary>Notes on a recording in plain words.</summary>
internal static class ListeningWords
{
    private const double SpeedOfSound = 343;

    internal static string Of(ListeningNote note, TapReport report) => note.Kind switch
    {
        NoteKind.Hum => Invariant($"Mains hum of {note.Value:0} Hz and its multiples ({note.Level:0} dB) lies under the taps; it was taken off."),
        NoteKind.SteadyTone => Invariant($"A steady tone of {note.Value:0.0} Hz ({note.Level:0} dB) sounds on between the taps; it was taken off."),
        NoteKind.Clipped => Invariant($"{Taps(note, report)} too loud for the recorder: the tops are cut off. Used from {note.Value * 1000:0} ms on at the latest; record with less gain."),
        NoteKind.DoubleHit => Invariant($"{Taps(note, report)} {(note.Taps.Count == 1 ? "a double one" : "double ones")}: touched twice, {note.Value * 1000:0} ms apart; used after the last touch."),
        NoteKind.Echo => Invariant($"An echo comes {note.Value * 1000:0} ms after the taps ({note.Level:0} dB), as from a wall {note.Value * SpeedOfSound / 2:0.0} m away; used after it where it is strong."),
        NoteKind.Reverberation => Invariant($"{note.Value:0} lines lie close beside stronger ones, as where a room sounds on: the weak ones were left out, and damping is less sure than it says. Go nearer, or into a room with soft walls."),
        NoteKind.GainControl => Invariant($"The recorder turned its gain down by {note.Value:0} dB with the taps and up again (automatic gain): frequencies are kept, damping is not used. Switch automatic gain off."),
        NoteKind.NotTaps => Invariant($"{note.Level:0} {(note.Level == 1 ? "other sound" : "other sounds")} (the first at {note.Value:0.0} s) shared nothing with the taps and {(note.Level == 1 ? "was" : "were")} left out."),
        NoteKind.OneTap => "There is only one tap: how much taps differ is not known. Some five are better.",
        NoteKind.ClosePair => Invariant($"{note.Value:0.0} and {note.Level:0.0} Hz lie nearer to each other than they are wide: they were told apart, but their decays hang together."),
        _ => throw new ArgumentOutOfRangeException(nameof(note)),
    };

    private static string Taps(ListeningNote note, TapReport report) => note.Taps.Count == report.Taps.Count
        ? report.Taps.Count == 1 ? "The tap was" : "All taps were"
        : note.Taps.Count == 1 ? Invariant($"Tap {note.Taps[0]} was") : $"Taps {string.Join(", ", note.Taps.SkipLast(1))} and {note.Taps[^1]} were";
}
