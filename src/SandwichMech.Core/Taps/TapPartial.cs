namespace SandwichMech.Core.Taps;

/// <summary>A partial of a piece's sound: a sinusoid that decays.</summary>
/// <param name="Frequency">Hz: that of the decaying oscillation.</param>
/// <param name="FrequencySd">Standard deviation of it, Hz.</param>
/// <param name="Decay">a of e^(−a t), 1/s.</param>
/// <param name="DecaySd">Standard deviation of it, 1/s.</param>
/// <param name="Level">Amplitude where free vibration begins, dB of full scale.</param>
/// <remarks>
/// For light damping a = π f/Q, and the sound has fallen by 60 dB when e^(−a t) = 10⁻³: T60 = 3 ln 10/a = 6.907755/(π f η), η = 1/Q.
/// </remarks>
public sealed record TapPartial(double Frequency, double FrequencySd, double Decay, double DecaySd, double Level)
{
    /// <summary>In how many taps it was found.</summary>
    public int Taps { get; init; } = 1;

    /// <summary>Quality factor π f/a.</summary>
    public double Q => Math.PI * Frequency / Decay;

    /// <summary>Standard deviation of Q; the frequency's own is far smaller than the decay's.</summary>
    public double QSd => Q * DecaySd / Decay;

    /// <summary>Loss factor 1/Q.</summary>
    public double LossFactor => 1 / Q;

    /// <summary>Time in which the level falls by 60 dB, s.</summary>
    public double T60 => 3 * Math.Log(10) / Decay;

    /// <summary>Standard deviation of it, s.</summary>
    public double T60Sd => T60 * DecaySd / Decay;
}

/// <summary>One tap and what it sounded like.</summary>
/// <param name="Time">When free vibration begins, s from the beginning of the recording.</param>
/// <param name="Length">How much of it was analysed, s.</param>
/// <param name="Partials">Its partials, rising.</param>
public sealed record Tap(double Time, double Length, IReadOnlyList<TapPartial> Partials);
