using System.Numerics;
using MathNet.Numerics.IntegralTransforms;

namespace SandwichMech.Core.Taps;

/// <summary>The lowest bins of the discrete Fourier transform of a stretch of samples, without a window and without filling up by zeros.</summary>
/// <remarks>
/// X_k = Σ_n x_n e^(−2πi k n/N), n = 0 to N−1. Because nothing is windowed, white noise of variance σ² stays white: real and imaginary part of each
/// bin 0 &lt; k &lt; N/2 are independent with variance N σ²/2, and a damped sinusoid has a closed form in every bin
/// (<see cref="DampedLine"/>). A band of bins is therefore a decimated, complex demodulated signal that has lost nothing to a filter.
/// N = D L with L a power of two: the transforms of the D decimated sequences, two real ones in each complex transform, are put together for the wanted bins alone.
/// </remarks>
internal sealed class BandSpectrum
{
    private BandSpectrum(int length, Complex[] bins)
    {
        (Length, Bins) = (length, bins);
        Turns = new Complex[bins.Length];
        for (int k = 0; k < bins.Length; k++) { Turns[k] = Complex.FromPolarCoordinates(1, -Omega(k)); }
    }

    /// <summary>Samples, N.</summary>
    internal int Length { get; }

    /// <summary>Bins from 0 upwards.</summary>
    internal Complex[] Bins { get; }

    /// <summary>e^(−iω) of each bin.</summary>
    internal Complex[] Turns { get; }

    /// <summary>Frequency of a bin, radians a sample.</summary>
    internal double Omega(int bin) => 2 * Math.PI * bin / Length;

    /// <summary>The bin that lies nearest to a frequency, inside what is kept.</summary>
    /// <param name="omega">Radians a sample.</param>
    internal int Nearest(double omega) => Math.Clamp((int)Math.Round(omega * Length / (2 * Math.PI)), 1, Bins.Length - 1);

    /// <summary>How many samples of those that are there a spectrum can use.</summary>
    /// <param name="samples">Samples there.</param>
    internal static int Usable(int samples) => samples - samples % Block(samples);

    /// <summary>Transforms a stretch.</summary>
    /// <param name="samples">As many as <see cref="Usable"/> says.</param>
    /// <param name="highest">Highest frequency that is wanted, radians a sample, below π.</param>
    internal static BandSpectrum Of(ReadOnlySpan<double> samples, double highest)
    {
        int length = samples.Length, block = Block(length), parts = length / block;
        var bins = new Complex[Math.Min((int)Math.Ceiling(highest * length / (2 * Math.PI)) + 1, (length + 1) / 2)];
        var two = new Complex[block];
        for (int p = 0; p < parts; p += 2)
        {
            bool both = p + 1 < parts;
            for (int l = 0; l < block; l++) { two[l] = new(samples[l * parts + p], both ? samples[l * parts + p + 1] : 0); }
            Fourier.Forward(two, FourierOptions.NoScaling);
            Gather(bins, two, p, both, length);
        }

        return new(length, bins);
    }

    // Of a + ib the transform of a is the half that mirrors itself, that of b the other.
    private static void Gather(Complex[] bins, Complex[] two, int part, bool both, int length)
    {
        int block = two.Length, mask = block - 1;
        Complex step = Complex.FromPolarCoordinates(1, -2 * Math.PI / length);
        Complex turn = Complex.One, perBin = Complex.FromPolarCoordinates(1, -2 * Math.PI * part / length), next = Complex.One;
        for (int k = 0; k < bins.Length; k++)
        {
            // Turned by multiplication, set right every 64 bins.
            if ((k & 63) == 0)
            {
                turn = Complex.FromPolarCoordinates(1, -2 * Math.PI * ((long)part * k % length) / length);
                next = Complex.FromPolarCoordinates(1, -2 * Math.PI * k / length);
            }

            Complex here = two[k & mask], mirrored = Complex.Conjugate(two[(block - k) & mask]);
            Complex sum = (here + mirrored) / 2;
            if (both)
            {
                Complex half = here - mirrored;
                sum += next * new Complex(half.Imaginary / 2, -half.Real / 2);
            }

            bins[k] += turn * sum;
            turn *= perBin;
            next *= step;
        }
    }

    // At least sixteen blocks, so that little is cut off at the end.
    private static int Block(int samples) => Math.Max(1, (int)BitOperations.RoundUpToPowerOf2((uint)Math.Max(1, samples / 32 + 1)));
}
