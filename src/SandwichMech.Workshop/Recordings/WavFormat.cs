using System.Buffers.Binary;

namespace SandwichMech.Workshop.Recordings;

/// <summary>How samples lie in a WAV.</summary>
/// <param name="Channels">1 or more, side by side.</param>
/// <param name="SampleRate">Hz.</param>
/// <param name="Bits">Of one sample as it is stored.</param>
/// <param name="IsFloat">Whether a sample is a floating-point number; else a whole one.</param>
public sealed record WavFormat(int Channels, int SampleRate, int Bits, bool IsFloat)
{
    private const int Pcm = 1, Float = 3, ALaw = 6, MuLaw = 7, Mpeg = 0x55, Extensible = 0xFFFE;

    internal int BytesPerSample => (Bits + 7) / 8;

    internal int BytesPerFrame => BytesPerSample * Channels;

    /// <summary>Reads a format chunk.</summary>
    /// <param name="path">The file, for messages.</param>
    /// <param name="chunk">Its content.</param>
    /// <exception cref="InputException">A format that is not read.</exception>
    internal static WavFormat Read(string path, ReadOnlySpan<byte> chunk)
    {
        if (chunk.Length < 16) { throw new InputException(path, "is a damaged WAV: its format is cut short; record or export it again"); }
        int tag = BinaryPrimitives.ReadUInt16LittleEndian(chunk), channels = BinaryPrimitives.ReadUInt16LittleEndian(chunk[2..]);
        long rate = BinaryPrimitives.ReadUInt32LittleEndian(chunk[4..]);
        int align = BinaryPrimitives.ReadUInt16LittleEndian(chunk[12..]), bits = BinaryPrimitives.ReadUInt16LittleEndian(chunk[14..]);
        // The first two bytes of the sub-format's GUID are the old tag.
        if (tag == Extensible && chunk.Length >= 26) { tag = BinaryPrimitives.ReadUInt16LittleEndian(chunk[24..]); }
        string? coded = tag switch { Pcm or Float => null, ALaw => "A-law", MuLaw => "µ-law", Mpeg => "MP3", 2 or 0x11 => "ADPCM", _ => $"format {tag}" };
        if (coded is not null) { throw new InputException(path, $"is a WAV with compressed sound ({coded}): save it as WAV with plain samples (PCM), 16 or 24 bit"); }
        if (channels == 0) { throw new InputException(path, "is a damaged WAV: it says that it has no channel; record or export it again"); }
        if (rate is < 8000 or > 192_000) { throw new InputException(path, $"has {rate} samples a second; 8000 to 192000 are read: save it with 44100 or 48000"); }
        bool isFloat = tag == Float;
        if (isFloat ? bits is not (32 or 64) : bits is < 8 or > 32) { throw new InputException(path, $"has samples of {bits} bit{(isFloat ? " (floating point)" : "")}; whole numbers of 8 to 32 bit and floating point of 32 or 64 are read: save it as WAV with 16 or 24 bit"); }
        var format = new WavFormat(channels, (int)rate, bits, isFloat);
        return align == format.BytesPerFrame ? format
            : throw new InputException(path, $"is a damaged WAV: {channels} channels of {bits} bit are {format.BytesPerFrame} bytes and not the {align} that it says; record or export it again");
    }

    /// <summary>One sample, full scale at 1.</summary>
    internal double Sample(ReadOnlySpan<byte> at) => IsFloat
        ? Bits == 32 ? BinaryPrimitives.ReadSingleLittleEndian(at) : BinaryPrimitives.ReadDoubleLittleEndian(at)
        : BytesPerSample switch
        {
            // Eight bits are counted from zero; more are signed, the sound in the upper bits.
            1 => (at[0] - 128) / 128.0,
            2 => BinaryPrimitives.ReadInt16LittleEndian(at) / 32768.0,
            3 => ((at[0] | (at[1] << 8) | (at[2] << 16)) << 8) / 2147483648.0,
            _ => BinaryPrimitives.ReadInt32LittleEndian(at) / 2147483648.0,
        };
}
