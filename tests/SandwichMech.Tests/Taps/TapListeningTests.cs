using SandwichMech.Core.Taps;

namespace SandwichMech.Tests.Taps;

/// <summary>Partials of invented recordings whose truth is known, and what spoils a recording.</summary>
[Trait("Check", "exact")]
public class TapListeningTests
{
    // A lowest tone of Q 128 has lost 22 dB when the next tap comes: it rings, it is no hum.
    [Fact]
    public void Tones_that_still_ring_when_the_next_tap_comes_are_not_taken_for_steady_ones()
    {
        (double Frequency, double Q, double Level)[] tones = [(42.1, 128, 0.066), (74.2, 80, 0.066), (97.4, 55, 0.077), (117.9, 125, 0.066), (213.1, 54, 0.055), (284.6, 60, 0.033)];
        double[] x = InventedTaps.Sound([0.55, 3.05, 5.55, 8.05, 10.55], 13.2, tones: [(29.8, 62, 0.03), .. tones]);
        InventedTaps.AddNoise(x);
        for (int n = 0; n < x.Length; n++) { x[n] += 0.004 * Math.Sin(2 * Math.PI * 520.3 * n / InventedTaps.Rate); }
        TapReport report = InventedTaps.Heard(x);
        ListeningNote steady = Assert.Single(report.Notes, n => n.Kind == NoteKind.SteadyTone);
        Checks.Close(520.3, steady.Value, 0.05);
        Assert.Equal(tones.Length, report.Partials.Count);
        foreach ((TapPartial p, (double frequency, double q, _)) in report.Partials.Zip(tones))
        {
            Checks.Close(frequency, p.Frequency, Math.Max(5 * p.FrequencySd, 2e-4 * frequency));
            Checks.Near(q, p.Q, 0.05);
        }
    }

    [Fact]
    public void Without_noise_a_tap_gives_back_what_it_was_made_of()
    {
        DampedSinusoid[] truth = [new(0.3, 101.3, Math.PI * 101.3 / 45, 0.4), new(0.2, 102.9, Math.PI * 102.9 / 52, 2.9), new(0.1, 333.1, Math.PI * 333.1 / 70, 5.1)];
        var x = new double[72_000];
        for (int n = 0; n < x.Length; n++) { x[n] = truth.Sum(s => s.At(n / 48_000.0 - 0.25)); }
        TapReport report = TapListening.Of(new(48_000, x), 40, 2000);
        Assert.Equal(3, report.Partials.Count);
        foreach ((TapPartial p, DampedSinusoid s) in report.Partials.Zip(truth))
        {
            Checks.Near(s.Frequency, p.Frequency, 1e-9, "frequency");
            Checks.Near(s.Decay, p.Decay, 1e-7, "decay");
        }
    }

    // ASTM E1876 and the usual definitions; check value recomputed: f = 150 Hz, loss factor 0.008 -> T60 = 1.83234 s.
    [Fact]
    public void Quality_factor_loss_factor_and_decay_time_are_one_figure()
    {
        var p = new TapPartial(150, 0.1, Math.PI * 150 * 0.008, 0.01, -20);
        Checks.Near(125, p.Q, 1e-12, "Q");
        Checks.Near(0.008, p.LossFactor, 1e-12, "loss factor");
        Checks.Printed("1.83234", p.T60, 0.5, "T60");
        Checks.Near(6.907755 / (Math.PI * 150 * 0.008), p.T60, 1e-6, "T60");
    }

    [Fact]
    public void Some_taps_give_the_partials_with_honest_spreads()
    {
        double[] x = InventedTaps.Sound(InventedTaps.Times);
        InventedTaps.AddNoise(x);
        TapReport report = InventedTaps.Heard(x);
        Assert.Equal(InventedTaps.Times.Length, report.Taps.Count);
        InventedTaps.AllFound(report);
        Assert.Empty(report.Notes);
        Assert.All(report.Taps.Zip(InventedTaps.Times), t => Checks.Within(0, 0.004, t.First.Time - t.Second, "after the tap"));
    }

    [Fact]
    public void Hum_is_named_and_taken_off()
    {
        double[] x = InventedTaps.Sound(InventedTaps.Times);
        InventedTaps.AddNoise(x);
        for (int n = 0; n < x.Length; n++) { x[n] += 0.004 * Math.Sin(2 * Math.PI * 49.98 * n / InventedTaps.Rate) + 0.002 * Math.Sin(2 * Math.PI * 149.94 * n / InventedTaps.Rate + 1); }
        TapReport report = InventedTaps.Heard(x);
        InventedTaps.AllFound(report, 1e-4);
        Assert.Contains(report.Notes, n => n.Kind == NoteKind.Hum && n.Value == 50);
    }

    [Fact]
    public void Clipped_tops_are_left_out()
    {
        double[] x = InventedTaps.Sound(InventedTaps.Times);
        InventedTaps.AddNoise(x);
        double most = 0.5 * x.Max();
        for (int n = 0; n < x.Length; n++) { x[n] = Math.Clamp(x[n], -most, most); }
        TapReport report = InventedTaps.Heard(x);
        InventedTaps.AllFound(report);
        Assert.Contains(report.Notes, n => n.Kind == NoteKind.Clipped);
    }

    [Fact]
    public void A_second_touch_is_seen_and_the_tap_used_after_it()
    {
        double[] x = InventedTaps.Sound([.. InventedTaps.Times, InventedTaps.Times[1] + 0.034]);
        InventedTaps.AddNoise(x);
        TapReport report = InventedTaps.Heard(x);
        InventedTaps.AllFound(report);
        ListeningNote note = Assert.Single(report.Notes, n => n.Kind == NoteKind.DoubleHit);
        Assert.Equal([2], note.Taps);
        Checks.Close(0.034, note.Value, 0.004, "between the touches");
    }

    [Fact]
    public void An_echo_comes_after_each_tap_alike()
    {
        double[] dry = InventedTaps.Sound(InventedTaps.Times), x = (double[])dry.Clone();
        int late = (int)(0.029 * InventedTaps.Rate);
        for (int n = late; n < x.Length; n++) { x[n] += 0.4 * dry[n - late]; }
        InventedTaps.AddNoise(x, 1e-4);
        TapReport report = InventedTaps.Heard(x);
        InventedTaps.AllFound(report);
        ListeningNote note = Assert.Single(report.Notes, n => n.Kind == NoteKind.Echo);
        Checks.Close(0.029, note.Value, 0.004, "echo");
    }

    [Fact]
    public void Automatic_gain_is_seen_and_damping_not_used()
    {
        double[] x = InventedTaps.Sound(InventedTaps.Times);
        InventedTaps.AddNoise(x);
        double gain = 1;
        for (int n = 0; n < x.Length; n++)
        {
            double wanted = Math.Abs(x[n]) > 0.02 ? 0.02 / Math.Abs(x[n]) : 1;
            gain = wanted < gain ? gain + 0.02 * (wanted - gain) : Math.Min(1, gain * (1 + 2.5 / InventedTaps.Rate));
            x[n] *= gain;
        }

        TapReport report = InventedTaps.Heard(x);
        Assert.Contains(report.Notes, n => n.Kind == NoteKind.GainControl);
        Assert.False(report.DampingUsable);
        Assert.All(InventedTaps.Tones, t => Assert.Contains(report.Partials, p => Math.Abs(p.Frequency / t.Frequency - 1) < 0.003));
    }

    [Fact]
    public void Handling_noise_is_no_tap()
    {
        double[] x = InventedTaps.Sound(InventedTaps.Times);
        InventedTaps.AddNoise(x);
        var rustle = new double[(int)(0.2 * InventedTaps.Rate)];
        InventedTaps.AddNoise(rustle, 0.03, 77);
        for (int n = 0; n < rustle.Length; n++) { x[(int)(0.2 * InventedTaps.Rate) + n] += rustle[n] * Math.Sin(Math.PI * n / rustle.Length); }
        TapReport report = InventedTaps.Heard(x);
        InventedTaps.AllFound(report);
        Assert.Equal(InventedTaps.Times.Length, report.Taps.Count);
    }

    [Fact]
    public void Noise_alone_holds_no_partial()
    {
        var x = new double[96_000];
        InventedTaps.AddNoise(x, 0.01);
        Assert.Empty(InventedTaps.Heard(x).Partials);
    }
}
