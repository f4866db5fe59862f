using MathNet.Numerics.LinearAlgebra;

namespace SandwichMech.Tests.Taps;

/// <summary>A damped sinusoid A e^(−a t) cos(2π f t + φ) of an invented sound.</summary>
/// <param name="Amplitude">A.</param>
/// <param name="Frequency">f, Hz.</param>
/// <param name="Decay">a, 1/s.</param>
/// <param name="Phase">φ, rad.</param>
internal sealed record DampedSinusoid(double Amplitude, double Frequency, double Decay, double Phase)
{
    /// <summary>Its value at a time, 0 before it begins.</summary>
    internal double At(double t) => t < 0 ? 0 : Amplitude * Math.Exp(-Decay * t) * Math.Cos(2 * Math.PI * Frequency * t + Phase);
}

/// <summary>The least variance that any unbiased estimate of frequencies can have: the bound of Cramér and Rao.</summary>
/// <remarks>
/// Samples x_n = s(t_n; θ) + noise, white and Gaussian with variance σ². The logarithm of the likelihood is −Σ (x_n − s_n)²/(2σ²), so that Fisher's information is
/// F_ij = Σ_n (∂s_n/∂θ_i)(∂s_n/∂θ_j)/σ², and no unbiased estimate of θ_i has a variance below (F⁻¹)_ii (Kay 1993, chapter 3; from memory). θ holds amplitude, phase, decay and frequency
/// of every sinusoid: all are unknown.
/// <para>
/// One sinusoid that decays within the record, many periods long: the sums become integrals over e^(−2at), cos² and sin² one half. As a complex signal c e^(st) the derivatives are e^(st) and
/// c t e^(st); with ∫e^(−2at) = 1/(2a), ∫t e^(−2at) = 1/(4a²), ∫t² e^(−2at) = 1/(4a³), what of the second is not in the span of the first has the energy
/// |c|² (1/(4a³) − 1/(8a³)) = |c|²/(8a³). The real signal has half of it: F = (A²/2) f_s/(8a³σ²) for ω. With the signal-to-noise ratio ρ = A²/(2σ²) of the initial power
/// over the noise in the whole band, var ω ≥ 8a³/(ρ f_s) and var f ≥ 2a³/(π² ρ f_s). The same holds for the decay: var a ≥ 8a³/(ρ f_s).
/// Yao &amp; Pandit (1994, "Variance of least squares estimators for a damped sinusoidal process") treat the variances of the same estimate; only their abstract was seen, and the figures here are derived.
/// </para>
/// </remarks>
internal static class DampedBound
{
    /// <summary>Least variance of the frequency of one sinusoid that decays within the record, Hz².</summary>
    internal static double OfOne(double decay, double signalToNoise, double sampleRate) => 2 * Math.Pow(decay, 3) / (Math.PI * Math.PI * signalToNoise * sampleRate);

    /// <summary>Least variances of all frequencies, Hz², by the sums.</summary>
    internal static double[] Of(IReadOnlyList<DampedSinusoid> all, double variance, double sampleRate, int samples)
    {
        int count = 4 * all.Count;
        var information = Matrix<double>.Build.Dense(count, count);
        var slope = new double[count];
        for (int n = 0; n < samples; n++)
        {
            double t = n / sampleRate;
            for (int k = 0; k < all.Count; k++)
            {
                (double envelope, double turn) = (Math.Exp(-all[k].Decay * t), 2 * Math.PI * all[k].Frequency * t + all[k].Phase);
                (double cos, double sin) = (envelope * Math.Cos(turn), envelope * Math.Sin(turn) * all[k].Amplitude);
                (slope[4 * k], slope[4 * k + 1], slope[4 * k + 2], slope[4 * k + 3]) = (cos, -sin, -t * cos * all[k].Amplitude, -2 * Math.PI * t * sin);
            }

            for (int a = 0; a < count; a++)
            {
                for (int b = 0; b <= a; b++) { information[a, b] += slope[a] * slope[b] / variance; }
            }
        }

        for (int a = 0; a < count; a++)
        {
            for (int b = a + 1; b < count; b++) { information[a, b] = information[b, a]; }
        }

        // Scaled to a diagonal of one, since the unknowns differ in size by many powers of ten.
        double[] scale = [.. Enumerable.Range(0, count).Select(i => 1 / Math.Sqrt(information[i, i]))];
        Matrix<double> inverse = Matrix<double>.Build.Dense(count, count, (i, j) => information[i, j] * scale[i] * scale[j]).Inverse();
        return [.. Enumerable.Range(0, all.Count).Select(k => inverse[4 * k + 3, 4 * k + 3] * scale[4 * k + 3] * scale[4 * k + 3])];
    }
}
