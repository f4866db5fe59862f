using System.Text;

namespace SandwichMech.Tests.Taps;

/// <summary>Writes WAVs of every kind, good and bad.</summary>
internal static class WavWriter
{
    internal static byte[] Of(double[][] channels, int rate, int bits, bool isFloat = false, bool extensible = false, bool extras = false, Action<byte[]>? spoil = null)
    {
        int width = (bits + 7) / 8, frames = channels[0].Length;
        using var memory = new MemoryStream();
        using var writer = new BinaryWriter(memory);
        writer.Write("RIFF"u8);
        writer.Write(0u);
        writer.Write("WAVE"u8);
        if (extras) { Chunk("LIST", [.. "INFOICMT"u8, 3, 0, 0, 0, .. "abc"u8]); }
        using var format = new MemoryStream();
        using var f = new BinaryWriter(format);
        f.Write((ushort)(extensible ? 0xFFFE : isFloat ? 3 : 1));
        f.Write((ushort)channels.Length);
        f.Write(rate);
        f.Write(rate * width * channels.Length);
        f.Write((ushort)(width * channels.Length));
        f.Write((ushort)bits);
        if (extensible)
        {
            f.Write((ushort)22);
            f.Write((ushort)bits);
            f.Write(3);
            f.Write((ushort)(isFloat ? 3 : 1));
            f.Write([0, 0, 0, 0, 0x10, 0, 0x80, 0, 0, 0xAA, 0, 0x38, 0x9B, 0x71]);
        }

        Chunk("fmt ", format.ToArray());
        if (extras) { Chunk("junk", [1, 2, 3, 4, 5]); }
        writer.Write("data"u8);
        writer.Write((uint)(frames * channels.Length * width));
        for (int n = 0; n < frames; n++)
        {
            foreach (double[] channel in channels) { Sample(channel[n]); }
        }

        byte[] all = memory.ToArray();
        BitConverter.TryWriteBytes(all.AsSpan(4), (uint)(all.Length - 8));
        spoil?.Invoke(all);
        return all;

        void Chunk(string name, byte[] content)
        {
            writer.Write(Encoding.ASCII.GetBytes(name));
            writer.Write((uint)content.Length);
            writer.Write(content);
            if (content.Length % 2 == 1) { writer.Write((byte)0); }
        }

        void Sample(double x)
        {
            if (isFloat && bits == 32) { writer.Write((float)x); }
            else if (isFloat) { writer.Write(x); }
            else if (width == 1) { writer.Write((byte)Math.Clamp(Math.Round(x * 128) + 128, 0, 255)); }
            else
            {
                // In the upper bits, as 12 or 20 bit lie in their bytes.
                double full = Math.Pow(2, bits - 1);
                long value = (long)Math.Clamp(Math.Round(x * full), -full, full - 1) << (8 * width - bits);
                for (int i = 0; i < width; i++) { writer.Write((byte)(value >> (8 * i))); }
            }
        }
    }
}
