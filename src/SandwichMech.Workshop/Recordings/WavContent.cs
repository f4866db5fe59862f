using System.Buffers.Binary;
using SandwichMech.Core.Taps;

namespace SandwichMech.Workshop.Recordings;

/// <summary>The content of a WAV file: RIFF, one channel of 16 bits.</summary>
public static class WavContent
{
    private const int HeadBytes = 44, Full = short.MaxValue;

    /// <summary>Makes it.</summary>
    /// <param name="sound">Samples of any size, a whole number of them a second.</param>
    /// <param name="peak">Where the largest sample comes to lie, in parts of the full scale, 0 to 1; how loud the sound is goes lost.</param>
    /// <returns>Bytes of the file.</returns>
    public static byte[] Of(Recording sound, double peak = 0.7)
    {
        int rate = (int)sound.SampleRate, bytes = 2 * sound.Samples.Length;
        double largest = sound.Samples.Select(Math.Abs).DefaultIfEmpty(0).Max(), scale = largest > 0 ? peak * Full / largest : 0;
        byte[] file = new byte[HeadBytes + bytes];
        Span<byte> at = file;
        "RIFF"u8.CopyTo(at);
        BinaryPrimitives.WriteInt32LittleEndian(at[4..], HeadBytes - 8 + bytes);
        "WAVEfmt "u8.CopyTo(at[8..]);
        BinaryPrimitives.WriteInt32LittleEndian(at[16..], 16);
        BinaryPrimitives.WriteInt16LittleEndian(at[20..], 1);
        BinaryPrimitives.WriteInt16LittleEndian(at[22..], 1);
        BinaryPrimitives.WriteInt32LittleEndian(at[24..], rate);
        BinaryPrimitives.WriteInt32LittleEndian(at[28..], 2 * rate);
        BinaryPrimitives.WriteInt16LittleEndian(at[32..], 2);
        BinaryPrimitives.WriteInt16LittleEndian(at[34..], 16);
        "data"u8.CopyTo(at[36..]);
        BinaryPrimitives.WriteInt32LittleEndian(at[40..], bytes);
        for (int n = 0; n < sound.Samples.Length; n++)
        {
            BinaryPrimitives.WriteInt16LittleEndian(at[(HeadBytes + 2 * n)..], (short)Math.Round(scale * sound.Samples[n]));
        }

        return file;
    }
}
