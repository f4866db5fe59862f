using System.Numerics;
using SandwichMech.Core.Plates;

namespace SandwichMech.Core.Acoustics;

/// <summary>What a board sounds like under a force: each mode a damped oscillator, its volume acceleration as pressure.</summary>
/// <remarks>
/// q'' + ηω q' + ω² q = d F, p = ρ/(2πr) Σ V q'' (a small source in a baffle). With s = −ηω/2 + iω√(1 − η²/4), z' = s z + F: q = d Im z/Im s, so q'' = d (Im s²z/Im s + F); each sample's force
/// is a blow F Δt, so that frequencies and decays are exact and only the force's own shape is sampled. Modes left out, the box, the room and the hearing are not in it, and above the
/// limit of <see cref="Radiation.MonopoleLimit"/> loudness is wrong: it lets modes be heard, not tone be judged.
/// </remarks>
public static class BoardSound
{
    /// <summary>Samples a second that players know.</summary>
    public const double UsualRate = 44_100;

    // Modes nearer than this to half the rate are left out.
    private const double Highest = 0.45;

    /// <summary>Sound pressure.</summary>
    /// <param name="volume">The board's volume velocity per force at the place that is driven; its residual is not used.</param>
    /// <param name="force">Samples, N.</param>
    /// <param name="rate">Samples a second.</param>
    /// <param name="distance">m.</param>
    /// <param name="airDensity">kg/m³.</param>
    /// <returns>Pa, as many samples; the way through the air is not counted.</returns>
    public static double[] Pressure(ModalTransfer volume, IReadOnlyList<double> force, double rate = UsualRate, double distance = 1, double airDensity = AmbientAir.Density)
    {
        double[] sound = new double[force.Count];
        for (int m = 0; m < volume.Frequencies.Count; m++)
        {
            if (volume.Frequencies[m] > Highest * rate) { continue; }
            double omega = 2 * Math.PI * volume.Frequencies[m], loss = volume.Losses[m];
            var s = new Complex(-loss * omega / 2, omega * Math.Sqrt(1 - loss * loss / 4));
            Complex turn = Complex.Exp(s / rate), accelerated = s * s / s.Imaginary, z = 0;
            double size = airDensity / (2 * Math.PI * distance) * volume.Drive[m] * volume.Measured[m];
            for (int n = 0; n < sound.Length; n++)
            {
                z = z * turn + force[n] / rate;
                sound[n] += size * ((accelerated * z).Imaginary + force[n]);
            }
        }

        return sound;
    }

    /// <summary>A tap with a soft knuckle: 0.02 N·s within 1.5 ms, 0.3 s after the beginning. Judgement; how loud it is goes lost in a WAV, how long it touches says which modes it reaches.</summary>
    /// <param name="seconds">Length of the sound.</param>
    /// <returns>Force, N.</returns>
    public static double[] UsualTap(double seconds) => Tap(0.02, 1.5e-3, seconds, start: 0.3);

    /// <summary>A tap: half a sine.</summary>
    /// <param name="impulse">N·s.</param>
    /// <param name="contact">How long it touches, s; a soft knuckle some 2 ms, a hard one less (judgement).</param>
    /// <param name="seconds">Length of the sound.</param>
    /// <param name="start">When it touches, s.</param>
    /// <param name="rate">Samples a second.</param>
    /// <returns>Force, N.</returns>
    public static double[] Tap(double impulse, double contact, double seconds, double start = 0, double rate = UsualRate) =>
    [
        .. Enumerable.Range(0, (int)(seconds * rate)).Select(n => n / rate - start)
            .Select(t => t < 0 || t > contact ? 0 : impulse * Math.PI / (2 * contact) * Math.Sin(Math.PI * t / contact)),
    ];
}

/// <summary>A string that is plucked and let go, as a force on the bridge.</summary>
/// <remarks>
/// Pulled aside by h at the share p of its length it holds partials b_n = 2h sin(nπp)/(n²π²p(1 − p)), which push the bridge by T nπ/L b_n (Fletcher &amp; Rossing 1998, The Physics of Musical
/// Instruments, §2.8; from memory, algebra checked). The bridge takes energy of each at the amplitude's rate 2 f₀ Z Re Y(f_n), Z = √(Tμ): small end mobility, |ZY| ≪ 1. So the string hears the board in its
/// decay alone: no pull on its pitch, no double decay, no stiffness, one plane.
/// </remarks>
/// <param name="Frequency">f₀, Hz.</param>
/// <param name="Length">L, m.</param>
/// <param name="LinearDensity">μ, kg/m.</param>
/// <param name="PluckedAt">p, share of the length from the bridge, between 0 and 1.</param>
/// <param name="Height">h, m.</param>
/// <param name="Loss">Loss factor of the string by itself, air included. Judgement: 0.001 for nylon.</param>
public sealed record PluckedString(double Frequency, double Length, double LinearDensity, double PluckedAt, double Height, double Loss)
{
    /// <summary>
    /// A nylon string of an invented guitar: 650 mm as is usual for its kind (common practice), 0.9 g/m, which at 196 Hz pulls with 58 N as such strings do (common practice), plucked by 2 mm at a fifth of its length
    /// from the bridge, loss factor 0.001. All of it judgement; another string changes both boards alike.
    /// </summary>
    /// <param name="frequency">Its pitch, Hz.</param>
    /// <returns>The string.</returns>
    public static PluckedString Invented(double frequency) => new(frequency, 0.65, 9e-4, 0.2, 2e-3, 1e-3);

    /// <summary>T = μ(2Lf₀)², N.</summary>
    public double Tension => LinearDensity * Math.Pow(2 * Length * Frequency, 2);
    /// <summary>Z = √(Tμ), kg/s.</summary>
    public double Impedance => 2 * Length * Frequency * LinearDensity;

    /// <summary>Force of a partial on the bridge when it is let go.</summary>
    /// <param name="number">n, from 1.</param>
    /// <returns>N.</returns>
    public double Force(int number) =>
        2 * Tension * Height / (number * Math.PI * PluckedAt * (1 - PluckedAt) * Length) * Math.Sin(number * Math.PI * PluckedAt);

    /// <summary>Rate at which a partial's amplitude falls.</summary>
    /// <param name="number">n, from 1.</param>
    /// <param name="mobility">Of the board at the bridge.</param>
    /// <returns>1/s.</returns>
    public double Decay(int number, ModalTransfer mobility) =>
        Math.PI * number * Frequency * Loss + 2 * Frequency * Impedance * Math.Max(0, mobility.At(number * Frequency).Real);

    /// <summary>Force on the bridge, less what it was while the string was held.</summary>
    /// <param name="mobility">Of the board at the bridge.</param>
    /// <param name="seconds">Length of the sound.</param>
    /// <param name="highest">Partials above it are left out, Hz: the board's highest mode.</param>
    /// <param name="rate">Samples a second.</param>
    /// <returns>N.</returns>
    public double[] On(ModalTransfer mobility, double seconds, double highest, double rate = BoardSound.UsualRate)
    {
        double[] force = new double[(int)(seconds * rate)];
        for (int n = 1; n * Frequency <= Math.Min(highest, 0.45 * rate); n++)
        {
            double start = Force(n);
            Complex turn = Complex.Exp(new Complex(-Decay(n, mobility), 2 * Math.PI * n * Frequency) / rate), z = 1;
            for (int i = 0; i < force.Length; i++)
            {
                force[i] += start * (z.Real - 1);
                z *= turn;
            }
        }

        return force;
    }
}
