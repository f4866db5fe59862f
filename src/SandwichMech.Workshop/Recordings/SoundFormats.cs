namespace SandwichMech.Workshop.Recordings;

/// <summary>Names sound files that are no WAV, by their first bytes.</summary>
internal static class SoundFormats
{
    /// <summary>What a file is, as words behind "is"; nothing where its first bytes say nothing.</summary>
    internal static string? Named(ReadOnlySpan<byte> head)
    {
        if (head.StartsWith("OggS"u8)) { return "an Ogg file"; }
        if (head.StartsWith("fLaC"u8)) { return "a FLAC"; }
        if (head.StartsWith("caff"u8)) { return "a CAF"; }
        if (head.StartsWith("FORM"u8)) { return "an AIFF"; }
        if (head.StartsWith("#!AMR"u8)) { return "an AMR"; }
        if (head.StartsWith("MThd"u8)) { return "a MIDI file, which holds notes and no sound"; }
        if (head.StartsWith((ReadOnlySpan<byte>)[0x1A, 0x45, 0xDF, 0xA3])) { return "a WebM or Matroska file"; }
        if (head.StartsWith((ReadOnlySpan<byte>)[0x30, 0x26, 0xB2, 0x75])) { return "a WMA"; }
        if (head.Length > 8 && head[4..].StartsWith("ftyp"u8)) { return head[8..].StartsWith("M4A"u8) ? "an M4A" : "an M4A or MP4 file"; }
        if (head.StartsWith("RIFF"u8) && head.Length >= 12 && !head[8..].StartsWith("WAVE"u8)) { return "a RIFF file that holds no sound (an AVI, say)"; }
        if (head.StartsWith("ID3"u8)) { return "an MP3"; }
        // An MPEG frame: eleven bits set; layer 0 there is AAC.
        if (head.Length > 1 && head[0] == 0xFF && (head[1] & 0xE0) == 0xE0) { return (head[1] & 0x06) == 0 ? "an AAC" : "an MP3"; }
        if (head.StartsWith("PK"u8)) { return "a ZIP"; }
        return null;
    }
}
