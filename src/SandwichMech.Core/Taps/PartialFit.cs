using SandwichMech.Core.Numerics;

namespace SandwichMech.Core.Taps;

/// <summary>A pole that was fitted, with its amplitudes and the standard deviations that the noise in its band allows.</summary>
/// <param name="Pole">Decay and frequency.</param>
/// <param name="P">Amplitude of the cosine at the first sample.</param>
/// <param name="Q">Amplitude of the sine.</param>
/// <param name="DecaySd">Of the decay, for one sample.</param>
/// <param name="OmegaSd">Of the frequency, radians a sample.</param>
internal sealed record FittedPole(Pole Pole, double P, double Q, double DecaySd, double OmegaSd)
{
    /// <summary>Amplitude at the first sample.</summary>
    internal double Amplitude => Math.Sqrt(P * P + Q * Q);
}

/// <summary>Damped sinusoids fitted together to the bins of one band.</summary>
/// <param name="Poles">What was fitted.</param>
/// <param name="Rest">Sum of squares that is left.</param>
/// <param name="Variance">Mean square of one number of the rest, by the degrees of freedom left.</param>
/// <param name="Rows">Numbers fitted: two a bin.</param>
/// <param name="Steady">Amplitudes of the steady tones, cosine and sine in turn.</param>
internal sealed record PartialFit(FittedPole[] Poles, double Rest, double Variance, int Rows, double[] Steady);

/// <summary>Maximum likelihood of decays and frequencies with the amplitudes eliminated.</summary>
/// <remarks>
/// In white Gaussian noise the likelihood is greatest where the sum of squares is least. For given poles the amplitudes are a linear problem:
/// what is left is r = (I − ΦΦ⁺) y, a function of the poles alone (Golub &amp; Pereyra 1973, variable projection). Its derivative is taken
/// without the term that lies in the span of Φ (Kaufman 1975), which does not move the minimum; steps are Levenberg's and Marquardt's.
/// The matrix JᵀJ of the projected derivatives over the variance of the noise is Fisher's information on decays and frequencies
/// with all amplitudes unknown; its inverse gives the standard deviations (Kay 1993, chapter 3; from memory).
/// </remarks>
internal sealed class ProjectedFit
{
    private const int MostSteps = 40;

    // A step that promises less than this share of a square's mean moves nothing by more than some thousandths of its standard deviation.
    private const double Fine = 1e-6, Coarse = 1e-2;
    private readonly BandSpectrum _spectrum;
    private readonly int _first, _rows;
    private readonly double[] _data;
    private readonly double[][] _steady;

    /// <summary>Sets a problem.</summary>
    /// <param name="spectrum">Whose bins.</param>
    /// <param name="first">First bin of the band.</param>
    /// <param name="data">Real and imaginary parts in turn.</param>
    /// <param name="steady">Shapes of tones that go on steadily (hum): their amplitudes are free too.</param>
    internal ProjectedFit(BandSpectrum spectrum, int first, double[] data, IReadOnlyList<double[]> steady) =>
        (_spectrum, _first, _data, _rows, _steady) = (spectrum, first, data, data.Length, [.. steady]);

    /// <summary>Fits from a start.</summary>
    /// <param name="start">As many poles as are wanted.</param>
    /// <param name="coarse">Whether some tenths of a standard deviation are near enough.</param>
    /// <returns>The fit, or nothing where poles fall together or leave the band.</returns>
    internal PartialFit? From(IReadOnlyList<Pole> start, bool coarse = false)
    {
        Pole[] poles = [.. start];
        State? now = Evaluate(poles);
        double damping = 1e-3;
        for (int step = 0; now is not null && step < MostSteps; step++)
        {
            double[,] j = now.Normal;
            double[]? change = Solve(j, now.Gradient, damping);
            if (change is null) { return null; }
            double expected = Expected(j, now.Gradient, change);
            if (!(expected > (coarse ? Coarse : Fine) * now.Rest / _rows) || damping > 1e8) { break; }
            Pole[] next = [.. poles.Select((p, i) => new Pole(p.Decay + change[2 * i], p.Omega + change[2 * i + 1]))];
            State? there = next.All(IsInside) ? Evaluate(next) : null;
            if (there is not null && there.Rest < now.Rest)
            {
                (poles, now, damping) = (next, there, Math.Max(damping / 10, 1e-12));
            }
            else
            {
                damping *= damping < 1e-6 ? 1e3 : 5;
            }
        }

        return now is null ? null : Result(poles, now);
    }

    private bool IsInside(Pole pole) =>
        pole.Decay > 1e-3 / _spectrum.Length && pole.Omega > 0
        && pole.Omega > _spectrum.Omega(_first) - pole.Decay && pole.Omega < _spectrum.Omega(_first + _rows / 2) + pole.Decay;

    private sealed record State(double Rest, double[] P, double[] Q, double[] Steady, double[,] Normal, double[] Gradient);

    private State? Evaluate(Pole[] poles)
    {
        int count = poles.Length, columns = 2 * count;
        var basis = new double[columns + _steady.Length][];
        var slopesOf = new double[count][];
        for (int s = 0; s < _steady.Length; s++) { basis[s] = (double[])_steady[s].Clone(); }
        for (int i = 0; i < count; i++)
        {
            double[] p = new double[_rows], q = new double[_rows];
            DampedLine.Shapes(_spectrum, _first, poles[i], p, q, slopesOf[i] = new double[2 * _rows]);
            (basis[_steady.Length + 2 * i], basis[_steady.Length + 2 * i + 1]) = (p, q);
        }

        double[,]? triangle = Orthogonalise(basis);
        if (triangle is null) { return null; }
        double[] rest = (double[])_data.Clone();
        var shares = new double[basis.Length];
        for (int pass = 0; pass < 2; pass++)
        {
            for (int c = 0; c < basis.Length; c++)
            {
                double share = DenseRows.Dot(basis[c], rest);
                shares[c] += share;
                DenseRows.Add(rest, -share, basis[c]);
            }
        }

        double[] amplitudes = BackSubstitute(triangle, shares);
        var slopes = new double[columns][];
        double[] ps = new double[count], qs = new double[count];
        for (int i = 0; i < count; i++)
        {
            (ps[i], qs[i]) = (amplitudes[_steady.Length + 2 * i], amplitudes[_steady.Length + 2 * i + 1]);
            double[] decay = new double[_rows], omega = new double[_rows];
            DampedLine.Derivatives(slopesOf[i], ps[i], qs[i], decay, omega);
            (slopes[2 * i], slopes[2 * i + 1]) = (decay, omega);
        }

        var normal = new double[columns, columns];
        var gradient = new double[columns];
        for (int a = 0; a < columns; a++)
        {
            for (int c = 0; c < basis.Length; c++) { DenseRows.Add(slopes[a], -DenseRows.Dot(basis[c], slopes[a]), basis[c]); }
            gradient[a] = DenseRows.Dot(slopes[a], rest);
            for (int b = 0; b <= a; b++) { normal[a, b] = normal[b, a] = DenseRows.Dot(slopes[a], slopes[b]); }
        }

        return new(DenseRows.Dot(rest, rest), ps, qs, amplitudes[.._steady.Length], normal, gradient);
    }

    private PartialFit Result(Pole[] poles, State state)
    {
        int columns = 2 * poles.Length;
        double variance = state.Rest / Math.Max(1, _rows - 2 * columns - _steady.Length);
        var fitted = new FittedPole[poles.Length];
        for (int i = 0; i < poles.Length; i++)
        {
            fitted[i] = new(poles[i], state.P[i], state.Q[i], Sd(2 * i), Sd(2 * i + 1));
        }

        return new(fitted, state.Rest, variance, _rows, state.Steady);

        double Sd(int column)
        {
            var unit = new double[columns];
            unit[column] = 1;
            return Solve(state.Normal, unit, 0) is { } x && x[column] > 0 ? Math.Sqrt(variance * x[column]) : double.PositiveInfinity;
        }
    }

    // Gram and Schmidt, twice; columns that hang together make an end of it.
    private static double[,]? Orthogonalise(double[][] basis)
    {
        var triangle = new double[basis.Length, basis.Length];
        for (int c = 0; c < basis.Length; c++)
        {
            double before = Math.Sqrt(DenseRows.Dot(basis[c], basis[c]));
            for (int pass = 0; pass < 2; pass++)
            {
                for (int b = 0; b < c; b++)
                {
                    double share = DenseRows.Dot(basis[b], basis[c]);
                    triangle[b, c] += share;
                    DenseRows.Add(basis[c], -share, basis[b]);
                }
            }

            double length = Math.Sqrt(DenseRows.Dot(basis[c], basis[c]));
            if (!(length > 1e-9 * before)) { return null; }
            triangle[c, c] = length;
            for (int i = 0; i < basis[c].Length; i++) { basis[c][i] /= length; }
        }

        return triangle;
    }

    private static double[] BackSubstitute(double[,] triangle, double[] right)
    {
        double[] x = (double[])right.Clone();
        for (int i = x.Length - 1; i >= 0; i--)
        {
            for (int k = i + 1; k < x.Length; k++) { x[i] -= triangle[i, k] * x[k]; }
            x[i] /= triangle[i, i];
        }

        return x;
    }

    // (A + damping · diag A) x = b by Cholesky, scaled to a diagonal of one.
    internal static double[]? Solve(double[,] a, double[] b, double damping)
    {
        int n = b.Length;
        double[] scale = [.. Enumerable.Range(0, n).Select(i => 1 / Math.Sqrt(a[i, i]))];
        var l = new double[n, n];
        for (int i = 0; i < n; i++)
        {
            for (int k = 0; k <= i; k++)
            {
                double value = a[i, k] * scale[i] * scale[k] * (i == k ? 1 + damping : 1);
                for (int m = 0; m < k; m++) { value -= l[i, m] * l[k, m]; }
                if (k < i) { l[i, k] = value / l[k, k]; }
                else if (value > 1e-14) { l[i, i] = Math.Sqrt(value); }
                else { return null; }
            }
        }

        var x = new double[n];
        for (int i = 0; i < n; i++)
        {
            x[i] = b[i] * scale[i];
            for (int m = 0; m < i; m++) { x[i] -= l[i, m] * x[m]; }
            x[i] /= l[i, i];
        }

        for (int i = n - 1; i >= 0; i--)
        {
            for (int m = i + 1; m < n; m++) { x[i] -= l[m, i] * x[m]; }
            x[i] /= l[i, i];
        }

        for (int i = 0; i < n; i++) { x[i] *= scale[i]; }
        return x;
    }

    // How far the sum of squares would fall if it were a quadratic.
    private static double Expected(double[,] a, double[] gradient, double[] change)
    {
        double sum = 0;
        for (int i = 0; i < change.Length; i++)
        {
            sum += 2 * gradient[i] * change[i];
            for (int k = 0; k < change.Length; k++) { sum -= change[i] * a[i, k] * change[k]; }
        }

        return sum;
    }
}
