using System.Numerics;

namespace SandwichMech.Core.Taps;

/// <summary>A decay and a frequency: the pole of a damped sinusoid.</summary>
/// <param name="Decay">a of e^(−a n), for one sample.</param>
/// <param name="Omega">Radians a sample.</param>
internal sealed record Pole(double Decay, double Omega)
{
    /// <summary>The same in two numbers a second: decay 1/s and frequency Hz.</summary>
    internal (double Decay, double Frequency) PerSecond(double sampleRate) => (Decay * sampleRate, Omega * sampleRate / (2 * Math.PI));
}

/// <summary>What a damped sinusoid looks like in the bins of a <see cref="BandSpectrum"/>, in closed form.</summary>
/// <remarks>
/// x_n = e^(−a n)(p cos ωn + q sin ωn) = Re((p − iq) z^n), z = e^(−a+iω). With G(z) = Σ_n z^n w^n = (1 − z^N)/(1 − z w), w = e^(−2πi k/N)
/// (w^N = 1, a geometric series), X_k = p (G(z) + G(z̄))/2 − q i (G(z) − G(z̄))/2.
/// dG/ds of s = ln z is (G z w − N z^N)/(1 − z w).
/// </remarks>
internal static class DampedLine
{
    /// <summary>Writes the shapes of p and q, real part and imaginary part of each bin in turn.</summary>
    /// <param name="spectrum">Whose bins.</param>
    /// <param name="first">First bin.</param>
    /// <param name="pole">The pole.</param>
    /// <param name="p">Twice as many as there are bins.</param>
    /// <param name="q">The same.</param>
    /// <param name="slopes">dG/ds of z and of z̄, four numbers a bin; empty where they are not wanted.</param>
    internal static void Shapes(BandSpectrum spectrum, int first, Pole pole, Span<double> p, Span<double> q, Span<double> slopes)
    {
        Complex z = Complex.Exp(new(-pole.Decay, pole.Omega)), zN = Complex.Exp(new Complex(-pole.Decay, pole.Omega) * spectrum.Length);
        double zr = z.Real, zi = z.Imaginary, nr = 1 - zN.Real, ni = -zN.Imaginary, length = spectrum.Length;
        for (int i = 0, k = first; i < p.Length; i += 2, k++)
        {
            double wr = spectrum.Turns[k].Real, wi = spectrum.Turns[k].Imaginary;
            // z w and z̄ w, one over (1 − z w), G; written out, since division of complex numbers is slow.
            double ar = zr * wr - zi * wi, ai = zr * wi + zi * wr, br = zr * wr + zi * wi, bi = zr * wi - zi * wr;
            double da = 1 / ((1 - ar) * (1 - ar) + ai * ai), db = 1 / ((1 - br) * (1 - br) + bi * bi);
            double ir = (1 - ar) * da, ii = ai * da, jr = (1 - br) * db, ji = bi * db;
            double gr = nr * ir - ni * ii, gi = nr * ii + ni * ir, hr = nr * jr + ni * ji, hi = nr * ji - ni * jr;
            (p[i], p[i + 1], q[i], q[i + 1]) = (0.5 * (gr + hr), 0.5 * (gi + hi), 0.5 * (gi - hi), 0.5 * (hr - gr));
            if (slopes.Length == 0) { continue; }
            // (G z w − N zᴺ)/(1 − z w), and the same of z̄.
            double ur = gr * ar - gi * ai - length * (1 - nr), ui = gr * ai + gi * ar + length * ni;
            double vr = hr * br - hi * bi - length * (1 - nr), vi = hr * bi + hi * br - length * ni;
            slopes[2 * i] = ur * ir - ui * ii;
            slopes[2 * i + 1] = ur * ii + ui * ir;
            slopes[2 * i + 2] = vr * jr - vi * ji;
            slopes[2 * i + 3] = vr * ji + vi * jr;
        }
    }

    /// <summary>Writes what a change of decay and of frequency does.</summary>
    /// <param name="slopes">From <see cref="Shapes"/>.</param>
    /// <param name="amplitudeP">Amplitude of the cosine.</param>
    /// <param name="amplitudeQ">Amplitude of the sine.</param>
    /// <param name="decay">dX/da.</param>
    /// <param name="omega">dX/dω.</param>
    internal static void Derivatives(ReadOnlySpan<double> slopes, double amplitudeP, double amplitudeQ, Span<double> decay, Span<double> omega)
    {
        double hp = 0.5 * amplitudeP, hq = -0.5 * amplitudeQ;
        for (int i = 0; i < decay.Length; i += 2)
        {
            double ar = hp * slopes[2 * i] - hq * slopes[2 * i + 1], ai = hp * slopes[2 * i + 1] + hq * slopes[2 * i];
            double br = hp * slopes[2 * i + 2] + hq * slopes[2 * i + 3], bi = hp * slopes[2 * i + 3] - hq * slopes[2 * i + 2];
            (decay[i], decay[i + 1], omega[i], omega[i + 1]) = (-ar - br, -ai - bi, bi - ai, ar - br);
        }
    }
}
