using SandwichMech.Workshop;
using SandwichMech.Workshop.Recordings;

namespace SandwichMech.Tests.Taps;

/// <summary>Every kind of WAV comes back as it was written; every bad file is told in one line that says how to mend it.</summary>
[Trait("Check", "exact")]
public class WavFileTests
{
    // Not a whole number of anything, no mean.
    private static readonly double[] Sound = [.. Enumerable.Range(0, 2001).Select(n => 0.7 * Math.Sin(2 * Math.PI * n * 7 / 2001.0) + 0.2 * Math.Sin(2 * Math.PI * n * 31 / 2001.0 + 1))];

    [Theory]
    [InlineData(8, false)]
    [InlineData(12, false)]
    [InlineData(16, false)]
    [InlineData(20, false)]
    [InlineData(24, false)]
    [InlineData(32, false)]
    [InlineData(32, true)]
    [InlineData(64, true)]
    public void A_sample_comes_back_to_its_last_bit(int bits, bool isFloat)
    {
        double step = isFloat ? 0 : Math.Pow(2, 1 - bits);
        foreach (bool extensible in (bool[])[false, true])
        {
            WavSound read = Read(WavWriter.Of([Sound], 44_100, bits, isFloat, extensible, extras: extensible));
            Assert.Equal(44_100, read.Recording.SampleRate);
            Assert.Equal(Sound.Length, read.Recording.Samples.Length);
            // Half a step of rounding, the mean of it, and single precision.
            Assert.All(read.Recording.Samples.Zip(Sound), s => Checks.Close(s.Second, s.First, 0.6 * step + 2e-7));
        }
    }

    [Theory]
    [InlineData(8000)]
    [InlineData(192_000)]
    public void Rates_from_8_to_192_kHz_are_read(int rate) => Assert.Equal(rate, Read(WavWriter.Of([Sound], rate, 16)).Recording.SampleRate);

    [Fact]
    public void Channels_alike_are_taken_together_and_a_silent_one_left_out()
    {
        double[] half = [.. Sound.Select(x => x / 2)], silent = new double[Sound.Length];
        WavSound both = Read(WavWriter.Of([Sound, half], 48_000, 24)), one = Read(WavWriter.Of([silent, Sound, silent], 48_000, 24));
        Assert.All(both.Recording.Samples.Zip(Sound), s => Checks.Close(0.75 * s.Second, s.First, 1e-6));
        Assert.All(one.Recording.Samples.Zip(Sound), s => Checks.Close(s.Second, s.First, 1e-6));
        Assert.Contains("channel 2", Assert.Single(one.Notes), StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_that_is_cut_off_is_read_as_far_as_it_goes_and_says_so()
    {
        byte[] whole = WavWriter.Of([Sound], 48_000, 16);
        WavSound read = Read(whole[..^1001]);
        Assert.Equal(Sound.Length - 501, read.Recording.Samples.Length);
        Assert.Contains("cut off", Assert.Single(read.Notes), StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_that_was_never_closed_is_read_to_its_end()
    {
        byte[] open = WavWriter.Of([Sound], 48_000, 16, spoil: all => all.AsSpan(40, 4).Fill(0xFF));
        WavSound read = Read(open);
        Assert.Equal(Sound.Length, read.Recording.Samples.Length);
        Assert.Contains("not closed", Assert.Single(read.Notes), StringComparison.Ordinal);
    }

    public static TheoryData<string, byte[], string> Others() => new()
    {
        { "a.mp3", [.. "ID3"u8, 4, 0, 0, 0, 0, 0, 0, 0, 0, 0], "this is an MP3: save it as WAV" },
        { "a.mp3", [0xFF, 0xFB, 0x90, 0x64, 0, 0, 0, 0, 0, 0, 0, 0], "this is an MP3: save it as WAV" },
        { "a.wav", [0xFF, 0xFB, 0x90, 0x64, 0, 0, 0, 0, 0, 0, 0, 0], "is called WAV, but this is an MP3" },
        { "a.aac", [0xFF, 0xF1, 0x50, 0x80, 0, 0, 0, 0, 0, 0, 0, 0], "this is an AAC" },
        { "a.m4a", [0, 0, 0, 32, .. "ftypM4A "u8], "this is an M4A" },
        { "a.mp4", [0, 0, 0, 32, .. "ftypisom"u8], "this is an M4A or MP4" },
        { "a.ogg", [.. "OggS"u8, 0, 2, 0, 0, 0, 0, 0, 0], "this is an Ogg" },
        { "a.flac", [.. "fLaC"u8, 0, 0, 0, 34, 0, 0, 0, 0], "this is a FLAC" },
        { "a.aif", [.. "FORM"u8, 0, 0, 0, 0, .. "AIFF"u8], "this is an AIFF" },
        { "a.caf", [.. "caff"u8, 0, 1, 0, 0, 0, 0, 0, 0], "this is a CAF" },
        { "a.webm", [0x1A, 0x45, 0xDF, 0xA3, 0, 0, 0, 0, 0, 0, 0, 0], "this is a WebM" },
        { "a.wav", [.. "RF64"u8, 0xFF, 0xFF, 0xFF, 0xFF, .. "WAVE"u8], "RF64" },
        { "a.wav", [.. "RIFF"u8, 0, 0, 0, 0, .. "AVI "u8], "holds no sound" },
        { "a.wav", [], "is empty" },
        { "a.wav", [.. "RIFF"u8], "is no WAV" },
        { "a.wav", [.. "RIFF"u8, 4, 0, 0, 0, .. "WAVE"u8], "without a format" },
        { "a.wav", [.. "nothing of the kind"u8], "is no WAV" },
        { "a.wav", WavWriter.Of([Sound], 48_000, 16)[..36], "without sound" },
        { "a.wav", WavWriter.Of([Sound], 48_000, 16)[..44], "without a single sample" },
        { "a.wav", WavWriter.Of([new double[2000]], 48_000, 16), "is silent" },
        { "a.wav", WavWriter.Of([Sound], 4000, 16), "8000 to 192000" },
        { "a.wav", WavWriter.Of([Sound], 48_000, 16, spoil: all => all[20] = 7), "compressed" },
        { "a.wav", WavWriter.Of([Sound], 48_000, 16, spoil: all => all[22] = 0), "no channel" },
        { "a.wav", WavWriter.Of([Sound], 48_000, 16, spoil: all => all[32] = 7), "damaged" },
        { "a.wav", WavWriter.Of([Sound], 48_000, 64, isFloat: true, spoil: all => all[20] = 1), "64 bit" },
        { "a.wav", WavWriter.Of([[.. Sound, double.NaN]], 48_000, 32, isFloat: true), "no numbers" },
        { "a.wav", WavWriter.Of([Sound], 8000, 8, spoil: all => BitConverter.TryWriteBytes(all.AsSpan(40), 8_000_000)), "longer than the 10 minutes" },
    };

    [Theory]
    [MemberData(nameof(Others))]
    public void What_cannot_be_used_is_named(string name, byte[] content, string says)
    {
        var thrown = Assert.Throws<InputException>(() => WavFile.Read(name, new MemoryStream(content)));
        Problem problem = Assert.Single(thrown.Problems);
        Assert.Contains(says, problem.Message, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', problem.Message);
    }

    // Endless sound in a file that does not say how long it is: given up once it is too long, not read to its end.
    [Fact]
    public void A_recording_without_end_is_given_up()
    {
        using var endless = new Endless(WavWriter.Of([Sound], 8000, 8, spoil: all => all.AsSpan(40, 4).Fill(0xFF)));
        Assert.Throws<InputException>(() => WavFile.Read("a.wav", endless));
        Checks.Within(0, 6e6, endless.Given, "bytes read");
    }

    private static WavSound Read(byte[] content) => WavFile.Read("a.wav", new MemoryStream(content));

    private sealed class Endless(byte[] head) : MemoryStream(head)
    {
        internal long Given { get; private set; }

        public override int Read(Span<byte> buffer)
        {
            int n = base.Read(buffer);
            if (n == 0)
            {
                buffer.Fill(0x90);
                n = buffer.Length;
            }

            Given += n;
            return n;
        }
    }
}
