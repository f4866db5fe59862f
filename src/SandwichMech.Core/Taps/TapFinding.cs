namespace SandwichMech.Core.Taps;

/// <summary>A sudden sound: its beginning and what follows.</summary>
/// <param name="Start">Sample at which the sound rises.</param>
/// <param name="Top">Sample of the loudest millisecond.</param>
/// <param name="End">Sample up to which it may be analysed: the next sound, or twice as long as it stands above the noise.</param>
/// <param name="Loudness">Mean square of the loudest millisecond.</param>
/// <param name="Again">Sample at which it rises once more soon after (a second touch, or an echo); 0 where it does not.</param>
internal sealed record SuddenSound(int Start, int Top, int End, double Loudness, int Again);

/// <summary>Finds taps by the energy in a millisecond.</summary>
internal sealed class TapFinding
{
    // A rise by 7 dB over all of the last 40 ms (beats of low partials rise as far, but were as loud before); what rises again within 60 ms belongs to the same tap.
    private const double Rise = 5, Before = 0.040, Together = 0.060, Longest = 2.0;

    // Two partials that lie near each other may cancel each other for a while and come back: this long that is no new tap, and no end of the old one.
    private const double Beat = 0.5;

    private readonly double[] _energies;

    private TapFinding(double[] energies, int block, double floor) => (_energies, BlockLength, Floor) = (energies, block, floor);

    /// <summary>Samples of a block.</summary>
    internal int BlockLength { get; }

    /// <summary>Mean square of what is there between the taps.</summary>
    internal double Floor { get; }

    /// <summary>Mean square of the block that holds a sample.</summary>
    internal double EnergyAt(int sample) => _energies[Math.Clamp(sample / BlockLength, 0, _energies.Length - 1)];

    internal static TapFinding Of(Recording recording)
    {
        int block = Math.Max(8, (int)Math.Round(recording.SampleRate / 1000)), count = recording.Samples.Length / block;
        var energies = new double[count];
        for (int b = 0; b < count; b++)
        {
            ReadOnlySpan<double> part = recording.Samples.AsSpan(b * block, block);
            energies[b] = Numerics.DenseRows.Dot(part, part) / block;
        }

        // The quietest tenth of stretches of 20 ms.
        double[] stretches = [.. energies.Chunk(20).Where(c => c.Length == 20 || energies.Length < 20).Select(c => c.Average()).Order()];
        return new(energies, block, stretches.Length == 0 ? 0 : stretches[stretches.Length / 10]);
    }

    internal List<SuddenSound> Sounds(double sampleRate)
    {
        double blocksPerSecond = sampleRate / BlockLength;
        int before = (int)(Before * blocksPerSecond), together = (int)(Together * blocksPerSecond), gap = (int)(Beat / 2 * blocksPerSecond), longest = (int)(Longest * blocksPerSecond);
        var rises = new List<int>();
        int soft = 0;
        for (int b = 0; b < _energies.Length; b++)
        {
            double past = Floor, slow = 0;
            for (int i = Math.Max(0, b - before); i < b; i++) { (past, slow) = (Math.Max(past, _energies[i]), slow + _energies[i]); }
            // Two partials that cancel each other at first rise slowly: out of quiet, by 6 dB over 40 ms.
            bool isLoud = b >= before && slow > 4 * before * Floor, risesSoftly = isLoud && soft > 2 * before;
            soft = isLoud ? 0 : slow < 2 * before * Floor ? soft + 1 : soft;
            if (_energies[b] > 0 && (_energies[b] > Rise * past || (risesSoftly && !(rises.Count > 0 && b - rises[^1] < longest)))) { rises.Add(b); }
        }

        var sounds = new List<SuddenSound>();
        for (int i = 0; i < rises.Count;)
        {
            int first = rises[i], last = i;
            while (last + 1 < rises.Count && rises[last + 1] - first <= together) { last++; }
            int next = last + 1 < rises.Count ? rises[last + 1] - 2 : _energies.Length;
            sounds.Add(Sound(first, rises[last], next, longest, before, gap));
            i = last + 1;
        }

        return sounds;
    }

    private SuddenSound Sound(int first, int again, int next, int longest, int before, int gap)
    {
        int top = first;
        for (int b = first; b < Math.Min(first + before, next); b++) { top = _energies[b] > _energies[top] ? b : top; }
        int quiet = first;
        for (int b = first; b < Math.Min(next, first + longest); b++)
        {
            if (_energies[b] > 2 * Floor) { quiet = b; }
            if (b - quiet > gap) { break; }
        }

        int end = Math.Min(Math.Min(next, first + longest), first + Math.Max(2 * (quiet - first), 4 * gap));
        // The rise itself may take some blocks; what comes more than 6 ms later is another.
        return new(first * BlockLength, top * BlockLength, end * BlockLength, _energies[top], again - first > 6 ? again * BlockLength : 0);
    }
}
