using System.Buffers.Binary;
using System.Globalization;
using SandwichMech.Core.Taps;

namespace SandwichMech.Workshop.Recordings;

/// <summary>A WAV that was read.</summary>
/// <param name="Recording">One channel of sound.</param>
/// <param name="Format">How it lay in the file.</param>
/// <param name="Notes">What is unusual about the file.</param>
public sealed record WavSound(Recording Recording, WavFormat Format, IReadOnlyList<string> Notes);

/// <summary>Reads recordings: WAV (RIFF), a block at a time, so that a large file does not fill the memory.</summary>
public static class WavFile
{
    /// <summary>Longest recording that is read, s.</summary>
    public const double Longest = 600;

    private const int BlockBytes = 1 << 16;
    private const long LargestFormat = 4096;

    // Samples of all channels together: what is kept of one takes four bytes.
    private const long Most = 60_000_000;
    private const double Quietest = 1e-5, Much = 0.3;

    /// <summary>Reads a file.</summary>
    /// <param name="path">The file; what it is, its first bytes say.</param>
    /// <exception cref="InputException">It cannot be read or used; what is wrong and how to mend it.</exception>
    public static WavSound Read(string path)
    {
        if (string.IsNullOrWhiteSpace(path)) { throw new InputException("recording", "no file is named: give the recording's path"); }
        if (Directory.Exists(path)) { throw new InputException(path, "is a folder: give the recording in it"); }
        if (!File.Exists(path)) { throw new InputException(path, "there is no such file: check the path of the recording"); }
        try
        {
            using FileStream stream = new(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite, BlockBytes);
            return Read(path, stream);
        }
        catch (UnauthorizedAccessException)
        {
            throw new InputException(path, "may not be read: the file belongs to somebody else, or its permissions forbid it");
        }
        catch (IOException)
        {
            throw new InputException(path, "cannot be read just now: see whether another program holds it, and whether the disk is there");
        }
    }

    /// <summary>Reads a stream.</summary>
    /// <param name="path">The file as it is to be called in messages.</param>
    /// <param name="stream">Its content, from the beginning to the end; it is not asked for its length.</param>
    /// <exception cref="InputException">It cannot be used; what is wrong and how to mend it.</exception>
    public static WavSound Read(string path, Stream stream)
    {
        var head = new byte[12];
        int got = stream.ReadAtLeast(head, head.Length, throwOnEndOfStream: false);
        if (got == 0) { throw new InputException(path, "is empty: record it again"); }
        if (!head.AsSpan(0, got).StartsWith("RIFF"u8) || got < 12 || !head.AsSpan(8).StartsWith("WAVE"u8)) { throw NoWav(path, head.AsSpan(0, got)); }
        WavFormat? format = null;
        var chunk = new byte[8];
        while (true)
        {
            int read = stream.ReadAtLeast(chunk, 8, throwOnEndOfStream: false);
            if (read < 8) { throw new InputException(path, format is null ? "is a WAV without a format and without sound: record or export it again" : "is a WAV without sound: record or export it again"); }
            long size = BinaryPrimitives.ReadUInt32LittleEndian(chunk.AsSpan(4));
            if (chunk.AsSpan().StartsWith("data"u8))
            {
                return format is null ? throw new InputException(path, "is a damaged WAV: the sound comes before its format; record or export it again") : Samples(path, stream, format, size);
            }

            if (chunk.AsSpan().StartsWith("fmt "u8))
            {
                if (size > LargestFormat) { throw new InputException(path, "is a damaged WAV: its format is far too long; record or export it again"); }
                var content = new byte[size];
                int there = stream.ReadAtLeast(content, content.Length, throwOnEndOfStream: false);
                format = WavFormat.Read(path, content.AsSpan(0, there));
                Skip(stream, size % 2);
            }
            else
            {
                // A chunk of an odd size is filled up by one byte.
                Skip(stream, size + size % 2);
            }
        }
    }

    private static InputException NoWav(string path, ReadOnlySpan<byte> head)
    {
        bool isCalledWav = Path.GetExtension(path).ToUpperInvariant() is ".WAV" or ".WAVE";
        if (head.StartsWith("RF64"u8) || head.StartsWith("BW64"u8)) { return new(path, "is a WAV of the long kind (RF64), for files of more than 4 GB: save the taps alone as a plain WAV"); }
        return SoundFormats.Named(head) is { } named
            ? new(path, $"{(isCalledWav ? "is called WAV, but this is" : "this is")} {named}: save it as WAV (PCM, 16 or 24 bit) in the program that recorded it, or in any sound editor")
            : new(path, "is no WAV: save the recording as WAV (PCM, 16 or 24 bit) in the program that recorded it, or in any sound editor");
    }

    // Read to get past, since not every stream can be set to a place.
    private static void Skip(Stream stream, long bytes)
    {
        var some = new byte[BlockBytes];
        while (bytes > 0)
        {
            int n = stream.Read(some, 0, (int)Math.Min(bytes, some.Length));
            if (n == 0) { return; }
            bytes -= n;
        }
    }

    private static WavSound Samples(string path, Stream stream, WavFormat format, long size)
    {
        // What is written while it is recorded says 0 or the largest number until it is closed.
        bool isOpenEnded = size is 0 or >= 0xFFFFFF00;
        int frame = format.BytesPerFrame;
        long most = Math.Min((long)(Longest * format.SampleRate), Most / format.Channels);
        if (!isOpenEnded && size / frame > most) { throw TooLong(path, (double)most / format.SampleRate); }
        var channels = new List<float>[format.Channels];
        for (int c = 0; c < channels.Length; c++) { channels[c] = []; }
        var block = new byte[Math.Max(frame, BlockBytes / frame * frame)];
        long left = isOpenEnded ? long.MaxValue : size;
        int over = 0;
        long bad = 0;
        while (left > 0)
        {
            int n = stream.ReadAtLeast(block.AsSpan(0, (int)Math.Min(block.Length, left)), (int)Math.Min(block.Length, left), throwOnEndOfStream: false);
            for (int at = 0; at + frame <= n; at += frame)
            {
                for (int c = 0; c < channels.Length; c++)
                {
                    double value = format.Sample(block.AsSpan(at + c * format.BytesPerSample));
                    if (!double.IsFinite(value)) { (value, bad) = (0, bad + 1); }
                    channels[c].Add((float)value);
                }
            }

            if (channels[0].Count > most) { throw TooLong(path, (double)most / format.SampleRate); }
            left -= n;
            over = n % frame;
            if (n < block.Length) { break; }
        }

        var notes = new List<string>();
        if (bad > 0) { throw new InputException(path, $"has {bad} samples that are no numbers: export it again as WAV with 16 or 24 bit"); }
        if (channels[0].Count == 0) { throw new InputException(path, "is a WAV without a single sample: record it again"); }
        if (isOpenEnded) { notes.Add("the file was not closed when it was recorded; it was read to its end"); }
        else if (left > 0 || over > 0) { notes.Add(string.Create(CultureInfo.InvariantCulture, $"the file is cut off: it says {size / frame / (double)format.SampleRate:0.0} s and holds {channels[0].Count / (double)format.SampleRate:0.0} s, which were read")); }
        return new(new(format.SampleRate, One(path, channels, notes)), format, notes);
    }

    // Where channels sound alike their mean has less noise; one that is silent or tells something else is left out.
    private static double[] One(string path, List<float>[] channels, List<string> notes)
    {
        foreach (List<float> channel in channels) { TakeOffMean(channel); }
        double[] powers = [.. channels.Select(c => Likeness(c, c))];
        int loudest = Array.IndexOf(powers, powers.Max());
        double peak = channels[loudest].Max(Math.Abs);
        if (peak < Quietest) { throw new InputException(path, "is silent: see whether the right microphone was chosen and not switched off"); }
        if (channels.Length == 1) { return [.. channels[0].Select(x => (double)x)]; }
        int[] alike = [.. Enumerable.Range(0, channels.Length).Where(c => powers[c] > 0.01 * powers[loudest] && Likeness(channels[c], channels[loudest]) > Much * Math.Sqrt(powers[c] * powers[loudest]))];
        notes.Add(alike.Length == channels.Length ? $"{channels.Length} channels, taken together" : $"{channels.Length} channels, of which {(alike.Length == 1 ? $"channel {loudest + 1}, the loudest, was" : $"{alike.Length} that sound alike were")} taken");
        var sum = new double[channels[0].Count];
        foreach (int c in alike)
        {
            for (int i = 0; i < sum.Length; i++) { sum[i] += channels[c][i] / alike.Length; }
        }

        return sum;
    }

    private static double Likeness(List<float> a, List<float> b)
    {
        double sum = 0;
        for (int i = 0; i < a.Count; i++) { sum += (double)a[i] * b[i]; }
        return sum / a.Count;
    }

    private static void TakeOffMean(List<float> channel)
    {
        float mean = (float)channel.Average(x => (double)x);
        for (int i = 0; i < channel.Count; i++) { channel[i] -= mean; }
    }

    private static InputException TooLong(string path, double seconds) =>
        new(path, string.Create(CultureInfo.InvariantCulture, $"is longer than the {seconds / 60:0.#} minutes that are read: a minute with some ten taps is enough; cut them out and save them as a WAV of their own"));
}
