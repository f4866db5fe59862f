using System.Numerics;
using MathNet.Numerics.LinearAlgebra;

namespace SandwichMech.Core.Taps;

/// <summary>Poles of a band to begin a fit with.</summary>
/// <remarks>
/// Matrix pencil (Hua &amp; Sarkar 1990): the bins of a band, shifted to zero and brought back into time, are a decimated complex signal
/// y_m = Σ c_i z_i^m. The right singular vectors of its Hankel matrix that belong to the largest K singular values hold all z_i: with V₁ and V₂ the
/// matrix of these vectors without its last and without its first row, z_i are the eigenvalues of V₁⁺V₂. Both ends of the pencil are cut to the same subspace at once, which makes
/// it the total least squares solution of it. The band is rounded off at its borders; the first samples, which ring all the same, are left out.
/// It only has to be near: <see cref="ProjectedFit"/> is exact.
/// </remarks>
internal static class MatrixPencil
{
    private const int LeftOut = 2, MostSamples = 40, MostColumns = 9;

    /// <summary>Finds poles.</summary>
    /// <param name="spectrum">Whose bins.</param>
    /// <param name="first">First bin of the band.</param>
    /// <param name="data">Real and imaginary parts of the band in turn.</param>
    /// <param name="count">How many poles.</param>
    /// <returns>As many, or fewer where some do not decay.</returns>
    internal static Pole[] Poles(BandSpectrum spectrum, int first, double[] data, int count)
    {
        int bins = data.Length / 2;
        Complex[] signal = Decimated(data);
        int used = Math.Min(bins - 2 * LeftOut, MostSamples), columns = Math.Min(used / 3 + 1, MostColumns + count), rows = used - columns + 1;
        if (columns <= count + 1) { return []; }
        Matrix<Complex> hankel = Matrix<Complex>.Build.Dense(rows, columns, (r, c) => signal[LeftOut + r + c]);
        // Hankel^H Hankel = V S² V^H: the square of the singular values is exact enough for a start.
        var pairs = hankel.ConjugateTransposeThisAndMultiply(hankel).Evd(Symmetricity.Hermitian);
        Matrix<Complex> v = pairs.EigenVectors.SubMatrix(0, columns, columns - count, count).Conjugate();
        Matrix<Complex> upper = v.SubMatrix(0, columns - 1, 0, count), lower = v.SubMatrix(1, columns - 1, 0, count);
        Matrix<Complex> turn = upper.ConjugateTransposeThisAndMultiply(upper).Inverse() * upper.ConjugateTransposeThisAndMultiply(lower);
        Complex[] values = count == 1 ? [turn[0, 0]] : [.. turn.Evd().EigenValues];
        double stride = (double)spectrum.Length / bins, middle = spectrum.Omega(first + bins / 2);
        return [.. values.Where(z => z.Magnitude is > 1e-6 and < 1).Select(z => new Pole(-Math.Log(z.Magnitude) / stride, middle + z.Phase / stride))];
    }

    private static Complex[] Decimated(double[] data)
    {
        int bins = data.Length / 2, middle = bins / 2, rim = Math.Max(1, bins / 6);
        var turned = new Complex[bins];
        for (int k = 0; k < bins; k++)
        {
            int edge = Math.Min(k + 1, bins - k);
            double weight = edge > rim ? 1 : 0.5 - 0.5 * Math.Cos(Math.PI * edge / (rim + 1));
            turned[(k - middle + bins) % bins] = weight * new Complex(data[2 * k], data[2 * k + 1]);
        }

        var signal = new Complex[Math.Min(bins, MostSamples + LeftOut)];
        for (int m = 0; m < signal.Length; m++)
        {
            Complex step = Complex.FromPolarCoordinates(1, 2 * Math.PI * m / bins), turn = 1;
            for (int k = 0; k < bins; k++)
            {
                signal[m] += turned[k] * turn;
                turn *= step;
            }
        }

        return signal;
    }
}
