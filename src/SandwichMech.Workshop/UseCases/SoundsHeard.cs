using System.Globalization;
using SandwichMech.Core.Acoustics;
using SandwichMech.Core.Taps;
using SandwichMech.Workshop.Recordings;

namespace SandwichMech.Workshop.UseCases;

/// <summary>Sounds one after the other: the board and the solid top as they are expected, then drawn ones in turn, so that the ear hears the scatter beside the difference.</summary>
public sealed class SoundsHeard
{
    private const double Sounding = 2.5, Pause = 0.5;
    private const int DrawnPairs = 3;

    private readonly IReadOnlyList<(string Name, BoardAcoustics Board)> _boards;
    private readonly double _note;

    internal SoundsHeard(SoundScatter scatter, double note)
    {
        _note = note;
        _boards =
        [
            .. Pair(scatter.Median, "as expected"),
            .. scatter.Drawn.Take(DrawnPairs).SelectMany((p, i) => Pair(p, string.Create(CultureInfo.InvariantCulture, $"drawn {i + 1}"))),
        ];
        Rows = [.. _boards.Select((b, i) => new HeardRow(i * (Sounding + Pause), i * (Sounding + Pause) + Sounding, b.Name))];

        static IEnumerable<(string, BoardAcoustics)> Pair(SoundingPair pair, string which)
        {
            yield return ($"board, {which}", pair.Board);
            if (pair.Solid is { } solid) { yield return ($"solid top, {which}", solid); }
        }
    }

    /// <summary>What is heard when.</summary>
    public IReadOnlyList<HeardRow> Rows { get; }

    /// <summary>WAV of taps on the bridge.</summary>
    /// <returns>The file's bytes.</returns>
    public byte[] Tap() => Wav(_ => BoardSound.UsualTap(Sounding));

    /// <summary>WAV of a plucked string.</summary>
    /// <returns>The file's bytes.</returns>
    public byte[] Pluck() => Wav(b => PluckedString.Invented(_note).On(b.Mobility, Sounding, b.Modes.Max(m => m.Frequency)));

    // One scale for all, so that louder boards are heard louder.
    private byte[] Wav(Func<BoardAcoustics, double[]> force)
    {
        double[] pause = new double[(int)(Pause * BoardSound.UsualRate)];
        double[][] sounds = [.. _boards.Select(b => BoardSound.Pressure(b.Board.Volume, force(b.Board)))];
        return WavContent.Of(new Recording(BoardSound.UsualRate, [.. sounds.SelectMany(s => Faded(s).Concat(pause))]));
    }

    // No click where a sound is cut off: its last twentieth of a second fades.
    private static IEnumerable<double> Faded(double[] sound)
    {
        int fade = (int)(0.05 * BoardSound.UsualRate);
        return sound.Select((s, n) => s * Math.Min(1, (sound.Length - 1 - n) / (double)fade));
    }
}
