using SandwichMech.Core.Identification;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Taps;

/// <summary>Something about a recording that its maker should know.</summary>
public enum NoteKind
{
    /// <summary>Hum of the mains: level dB.</summary>
    Hum,
    /// <summary>A steady tone of something else: value Hz, level dB.</summary>
    SteadyTone,
    /// <summary>Taps that were too loud: value s of sound left out of the first of them.</summary>
    Clipped,
    /// <summary>Taps that touched twice: value s between.</summary>
    DoubleHit,
    /// <summary>An echo: value s after the tap, level dB below it.</summary>
    Echo,
    /// <summary>The sound after a tap is no sum of a few decaying partials, as in a room that sounds on: lines beside stronger ones (value).</summary>
    Reverberation,
    /// <summary>The recorder's gain moved: value dB.</summary>
    GainControl,
    /// <summary>Sounds that are no taps on this piece: value s, when the first was.</summary>
    NotTaps,
    /// <summary>Only one tap: nothing says how taps differ.</summary>
    OneTap,
    /// <summary>Partials nearer to each other than they are wide.</summary>
    ClosePair,
}

/// <summary>A note.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Taps">Which taps, from 1; none for all.</param>
/// <param name="Value">A number, by the kind.</param>
/// <param name="Level">A level, dB, by the kind.</param>
public sealed record ListeningNote(NoteKind Kind, IReadOnlyList<int> Taps, double Value, double Level);

/// <summary>What a recording of taps gave.</summary>
/// <param name="Partials">Partials of the piece, over all taps, rising.</param>
/// <param name="Taps">The taps.</param>
/// <param name="Notes">What is to be known about the recording.</param>
/// <param name="Noise">Level between the taps, dB of full scale, root mean square.</param>
public sealed record TapReport(IReadOnlyList<TapPartial> Partials, IReadOnlyList<Tap> Taps, IReadOnlyList<ListeningNote> Notes, double Noise)
{
    /// <summary>Whether decays may be believed: not where the recorder changed its gain.</summary>
    public bool DampingUsable => Notes.All(n => n.Kind != NoteKind.GainControl);

    // Higher ones say little of a piece that the lower ones do not.
    private const int MostTones = 12;

    /// <summary>The partials as tap tones: the strongest of those that half of the taps have, with their damping where it may be believed.</summary>
    /// <returns>The tones, rising; none where each tap had its own.</returns>
    public IReadOnlyList<Tone> Tones() =>
    [
        .. Partials.Where(p => 2 * p.Taps >= Taps.Count).OrderByDescending(p => p.Level).Take(MostTones).OrderBy(p => p.Frequency).Select(p => new Tone(
            Estimate.FromSd(p.Frequency, p.FrequencySd),
            Loss: DampingUsable ? Estimate.FromSd(p.LossFactor, p.LossFactor * p.DecaySd / p.Decay) : null)),
    ];
}
