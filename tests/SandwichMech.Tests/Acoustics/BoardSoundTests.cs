using SandwichMech.Core.Acoustics;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Taps;
using SandwichMech.Workshop.Recordings;

namespace SandwichMech.Tests.Acoustics;

/// <summary>Taps and plucked strings as sound, heard again by what hears recordings.</summary>
public class BoardSoundTests
{
    private static readonly double[] Frequencies = [101.3, 187.9, 254.4, 391.7], Losses = [0.021, 0.014, 0.017, 0.012];
    private static readonly ModalTransfer Volume = new(Frequencies, [3.1, 2.2, -1.7, 2.6], [0.13, -0.05, 0.04, 0.03], 0, Losses);
    private static readonly PluckedString String = new(196, 0.65, 9e-4, 0.2, 2e-3, 0.001);

    // The modes go in, partials come out: free decay at f √(1 − η²/4) and Q = π f/decay of that frequency.
    [Fact]
    [Trait("Check", "independent")]
    public void A_tap_is_heard_with_the_frequencies_and_decays_of_the_modes()
    {
        double[] sound = BoardSound.Pressure(Volume, BoardSound.Tap(0.02, 1e-3, 2.5, start: 0.4));
        TapReport report = TapListening.Of(new(BoardSound.UsualRate, sound), 40, 2000);
        Assert.Equal(Frequencies.Length, report.Partials.Count);
        foreach ((TapPartial p, int i) in report.Partials.Select((p, i) => (p, i)))
        {
            Checks.Near(Frequencies[i] * Math.Sqrt(1 - Losses[i] * Losses[i] / 4), p.Frequency, 1e-6, "frequency");
            Checks.Near(Math.PI * Losses[i] * Frequencies[i], p.Decay, 1e-4, "decay");
        }
    }

    // The same through a WAV of 16 bits, whose rounding is some 1e-5 of the peak.
    [Fact]
    [Trait("Check", "independent")]
    public void A_tap_is_heard_from_its_file()
    {
        double[] sound = BoardSound.Pressure(Volume, BoardSound.Tap(0.02, 1e-3, 2.5, start: 0.4));
        using var file = new MemoryStream(WavContent.Of(new(BoardSound.UsualRate, sound)));
        Recording read = WavFile.Read("tap.wav", file).Recording;
        Assert.Equal(BoardSound.UsualRate, read.SampleRate);
        Assert.Equal(sound.Length, read.Samples.Length);
        double scale = 0.7 / sound.Max(Math.Abs);
        Assert.All(read.Samples.Zip(sound), s => Checks.Close(scale * s.Second, s.First, 1e-4));
        TapReport report = TapListening.Of(read, 40, 2000);
        foreach ((double frequency, int i) in Frequencies.Select((f, i) => (f, i)))
        {
            TapPartial p = report.Partials.MinBy(p => Math.Abs(p.Frequency - frequency))!;
            Checks.Near(frequency, p.Frequency, 1e-3, "frequency");
            Checks.Near(1 / Losses[i], p.Q, 0.02, "Q");
        }
    }

    // A force that swings for long brings ρ/(2πr) ω|U| of the transfer itself; its loss is held in the frequency domain, the same but for η²/4 on resonance.
    [Theory]
    [Trait("Check", "independent")]
    [InlineData(40)]
    [InlineData(140)]
    [InlineData(254.4)]
    public void A_steady_force_sounds_as_the_transfer_says(double frequency)
    {
        const double rate = BoardSound.UsualRate;
        double[] sound = BoardSound.Pressure(Volume, [.. Enumerable.Range(0, (int)(3 * rate)).Select(n => Math.Cos(2 * Math.PI * frequency * n / rate))]);
        double exact = 1.2 / (2 * Math.PI) * 2 * Math.PI * frequency * Volume.At(frequency).Magnitude;
        Checks.Near(exact, sound[(int)(2.8 * rate)..].Max(Math.Abs), 0.02);
    }

    [Fact]
    [Trait("Check", "exact")]
    public void A_tap_has_its_impulse()
    {
        double[] force = BoardSound.Tap(0.03, 2e-3, 0.1, start: 0.01);
        Checks.Near(0.03, force.Sum() / BoardSound.UsualRate, 1e-3);
        Assert.Equal(0, force[400]);
    }

    // At rest a string pulled aside by h at pL pushes its end by T h/(pL), the slope; its partials hold the energy T h²/(2 p(1 − p)L) that pulling it took.
    [Fact]
    [Trait("Check", "exact")]
    public void A_strings_partials_are_its_shape()
    {
        double slope = String.Tension * String.Height / (String.PluckedAt * String.Length), energy = 0, force = 0;
        for (int n = 1; n <= 20_000; n++)
        {
            force += String.Force(n);
            energy += Energy(n);
        }

        Checks.Near(slope, force, 1e-3);
        Checks.Near(String.Tension * String.Height * String.Height / (2 * String.PluckedAt * (1 - String.PluckedAt) * String.Length), energy, 1e-4);
        Checks.Near(Math.Sqrt(String.Tension * String.LinearDensity), String.Impedance, 1e-12);
    }

    // What a partial loses is what the bridge takes, ½F² Re Y, and what the string takes, ω η E: energy falls at twice the amplitude's rate.
    [Theory]
    [Trait("Check", "independent")]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(7)]
    public void A_partial_decays_by_the_energy_that_leaves_it(int n)
    {
        ModalTransfer mobility = Volume with { Measured = Volume.Drive };
        double f = n * String.Frequency, e = Energy(n);
        double lost = 0.5 * Math.Pow(String.Force(n), 2) * mobility.At(f).Real + 2 * Math.PI * f * String.Loss * e;
        Checks.Near(lost / (2 * e), String.Decay(n, mobility), 1e-9);
    }

    [Fact]
    [Trait("Check", "independent")]
    public void A_plucked_note_is_heard_at_its_partials()
    {
        // Few partials, far from the modes, on a board that takes little.
        ModalTransfer stiff = Volume with { Measured = [.. Volume.Drive.Select(d => 0.1 * d)], Drive = [.. Volume.Drive.Select(d => 0.1 * d)] };
        double[] silence = new double[10_000], force = String.On(stiff, 3, 700);
        TapReport report = TapListening.Of(new(BoardSound.UsualRate, [.. silence, .. force.Select(f => f + String.Force(1) + String.Force(2) + String.Force(3))]), 150, 650);
        for (int n = 1; n <= 3; n++)
        {
            TapPartial p = report.Partials.MinBy(p => Math.Abs(p.Frequency - n * String.Frequency))!;
            Checks.Near(n * String.Frequency, p.Frequency, 1e-5);
            Checks.Near(String.Decay(n, stiff), p.Decay, 0.01);
        }

        // Let go from rest: the force begins where it was held.
        Assert.Equal(0, force[0], 1e-12);
    }

    // ¼ μ L ω² b², with b from the force that a partial of amplitude b brings.
    private static double Energy(int n)
    {
        double slope = n * Math.PI / String.Length, b = String.Force(n) / (String.Tension * slope), omega = 2 * Math.PI * n * String.Frequency;
        return 0.25 * String.LinearDensity * String.Length * omega * omega * b * b;
    }
}
