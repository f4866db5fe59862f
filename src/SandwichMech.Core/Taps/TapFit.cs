using System.Numerics;

namespace SandwichMech.Core.Taps;

/// <summary>All damped sinusoids of the sound after one tap.</summary>
/// <remarks>
/// Lines are taken from the spectrum one after the other, the strongest first. A new one is fitted together with those that it overlaps, all others taken off, and is kept
/// where it lowers the sum of squares by more than chance does: with m numbers in the band, four more unknowns lower S/σ² by about 4 on the average,
/// by more than 4 ln m seldom (Schwarz 1978, information criterion; <see cref="Margin"/> for the choice of the best of many places is added). In the end each
/// group of overlapping lines is fitted again in a wide band, in turn, until the joint minimum is reached.
/// </remarks>
internal sealed class TapFit
{
    private const int MostLines = 60, MostTogether = 5, MostRounds = 12, Sweeps = 2;
    private const double Margin = 12, Strong = 30;

    // Half the band, in decays: within 7 the loss of precision on the frequency of one line is below 8 %, within 14 below 3 %.
    private const double Narrow = 7, Wide = 16;

    // And never more than this share of the frequency.
    private const double NarrowShare = 0.1, WideShare = 0.3;

    // −60 dB of all: below lies what makes strong lines differ from true exponentials.
    private const double Faintest = 1e-6;

    private readonly BandSpectrum _spectrum;
    private readonly Complex[] _rest;
    private readonly List<SpectrumLine> _lines = [], _steady = [];
    private readonly int _from, _to;
    private readonly double _energy;
    private readonly HashSet<int> _tried = [];
    private double[] _floor = [];

    /// <summary>Sets the problem.</summary>
    /// <param name="spectrum">Of the samples after the tap.</param>
    /// <param name="low">Lowest frequency looked for, radians a sample.</param>
    /// <param name="high">Highest.</param>
    /// <param name="steady">Tones that were there before, radians a sample.</param>
    internal TapFit(BandSpectrum spectrum, double low, double high, IReadOnlyList<double> steady)
    {
        (_spectrum, _rest) = (spectrum, (Complex[])spectrum.Bins.Clone());
        (_from, _to) = (spectrum.Nearest(low), spectrum.Nearest(high));
        foreach (double omega in steady.Where(o => spectrum.Nearest(o) + 4 < _rest.Length)) { _steady.Add(new(new(new(1e-7 / spectrum.Length, omega), 0, 0, 0, 0))); }
        for (int k = _from; k <= _to; k++) { _energy += 2 * SpectrumFloor.Power(_rest[k]) / spectrum.Length; }
        foreach (SpectrumLine line in _steady)
        {
            int at = spectrum.Nearest(line.Pole.Omega), first = Math.Max(1, at - 3), last = at + 3;
            if (Problem(first, last, [], out _).From([]) is { } fit) { SetSteady(first, last, fit); }
        }
    }

    /// <summary>The spectrum without all lines.</summary>
    internal Complex[] Rest => _rest;

    internal IEnumerable<FittedPole> Lines => _lines.Select(l => l.Fitted);

    internal IEnumerable<FittedPole> Steady => _steady.Select(l => l.Fitted);

    /// <summary>Finds lines until nothing stands out.</summary>
    /// <param name="known">Poles from another tap of the same piece, or another stretch of this tap, to begin with.</param>
    internal TapFit Find(IReadOnlyList<Pole> known)
    {
        if (known.Count > 0) { Adopt(known); }
        for (int round = 0; round < MostRounds && _lines.Count < MostLines; round++)
        {
            int before = _lines.Count;
            foreach (int peak in SpectrumFloor.Peaks(_rest, _floor = SpectrumFloor.Of(_rest), _from, _to, 0.02))
            {
                if (_lines.Count < MostLines && _tried.Add(peak) && SpectrumFloor.Power(_rest[peak]) > 0) { TryAt(peak); }
            }

            if (_lines.Count == before) { break; }
            Refit(Narrow);
        }

        return this;
    }

    /// <summary>Brings all lines to the joint minimum, and leaves out what is too faint.</summary>
    internal TapFit Finished()
    {
        for (int sweep = 0; sweep < Sweeps; sweep++) { Refit(Wide); }
        foreach (SpectrumLine line in _lines.Where(l => Energy(l.Fitted) < Faintest * _energy).ToArray())
        {
            Drop(line);
        }

        return this;
    }

    // Amplitudes of all at once, by least squares; what is not there is not taken.
    private void Adopt(IReadOnlyList<Pole> known)
    {
        Pole[] poles = [.. known, .. _steady.Select(l => l.Pole)];
        foreach (SpectrumLine line in _steady) { line.PutBack(_rest); }
        int rows = 2 * (_to - _from + 1), count = 2 * poles.Length;
        var shapes = new double[count][];
        for (int i = 0; i < poles.Length; i++) { DampedLine.Shapes(_spectrum, _from, poles[i], shapes[2 * i] = new double[rows], shapes[2 * i + 1] = new double[rows], []); }
        double[] data = Data(_from, _to), right = new double[count];
        var normal = new double[count, count];
        for (int a = 0; a < count; a++)
        {
            right[a] = Numerics.DenseRows.Dot(shapes[a], data);
            for (int b = 0; b <= a; b++) { normal[a, b] = normal[b, a] = Numerics.DenseRows.Dot(shapes[a], shapes[b]); }
        }

        if (ProjectedFit.Solve(normal, right, 0) is not { } amplitudes) { return; }
        for (int i = 0; i < _steady.Count; i++) { _steady[i].Become(_steady[i].Fitted with { P = amplitudes[2 * (known.Count + i)], Q = amplitudes[2 * (known.Count + i) + 1] }, _spectrum, _rest); }
        FittedPole[] lines = [.. known.Select((pole, i) => new FittedPole(pole, amplitudes[2 * i], amplitudes[2 * i + 1], 0, 0))];
        foreach (FittedPole line in lines.Where(l => Energy(l) > Faintest * _energy)) { Take(line); }
        double[] floor = SpectrumFloor.Of(_rest);
        foreach (SpectrumLine line in _lines.Where(l => !IsThere(l.Fitted)).ToArray()) { Drop(line); }
        Refit(Narrow);

        // Energy of a line's own sinusoid over that of the noise.
        bool IsThere(FittedPole line) => Energy(line) * _spectrum.Length > 12 * floor[_spectrum.Nearest(line.Pole.Omega)];
    }

    // Sum of the squares of all its samples.
    private static double Energy(FittedPole line) => line.Amplitude * line.Amplitude / (4 * line.Pole.Decay);

    private void Drop(SpectrumLine line)
    {
        line.PutBack(_rest);
        _lines.Remove(line);
    }

    private void TryAt(int peak)
    {
        double omega = _spectrum.Omega(peak), width = WidthAt(peak);
        SpectrumLine[] near = [.. _lines.Where(l => Math.Abs(l.Pole.Omega - omega) < 3 * Math.Max(l.Pole.Decay, width)).OrderBy(l => Math.Abs(l.Pole.Omega - omega)).Take(MostTogether - 1)];
        double decay = near.Select(l => l.Pole.Decay).Append(width).Max();
        (int first, int last) = Band([.. near.Select(l => l.Pole.Omega), omega], Math.Min(Narrow * decay, NarrowShare * omega));
        ProjectedFit problem = Problem(first, last, near, out double[] data);
        Pole[] old = [.. near.Select(l => l.Pole)];
        PartialFit? without = problem.From(old, coarse: true);
        double restWithout = without?.Rest ?? double.PositiveInfinity;
        PartialFit? best = null;
        foreach (Pole[] start in Starts())
        {
            if (start.Length == near.Length + 1 && problem.From(start, coarse: true) is { } fit && (best is null || fit.Rest < best.Rest)) { best = fit; }
        }

        if (!IsBetter(best, 4))
        {
            // Two that nearly cancel each other are nothing like one.
            if (SpectrumFloor.Power(_rest[peak]) < Strong * _floor[peak]) { return; }
            best = MatrixPencil.Poles(_spectrum, first, data, near.Length + 2) is var start && start.Length == near.Length + 2 ? problem.From(start, coarse: true) : null;
            if (!IsBetter(best, 8)) { return; }
        }

        foreach (SpectrumLine line in near) { Drop(line); }
        foreach (FittedPole pole in best!.Poles) { Take(pole); }
        SetSteady(first, last, best);

        bool IsBetter(PartialFit? fit, int unknowns) => fit is not null && restWithout - fit.Rest > (unknowns * Math.Log(fit.Rows) + Margin) * fit.Variance;

        IEnumerable<Pole[]> Starts()
        {
            yield return MatrixPencil.Poles(_spectrum, first, data, near.Length + 1);
            yield return [.. (without?.Poles.Select(p => p.Pole) ?? old), new(width, omega)];
            if (near.Length == 1)
            {
                Pole one = without?.Poles[0].Pole ?? old[0];
                yield return [one with { Omega = one.Omega - one.Decay / 2 }, one with { Omega = one.Omega + one.Decay / 2 }];
            }
        }
    }

    private void Take(FittedPole pole)
    {
        var line = new SpectrumLine(pole);
        _lines.Add(line);
        line.Become(pole, _spectrum, _rest);
    }

    private void Refit(double wide)
    {
        foreach (SpectrumLine[] group in Groups())
        {
            (int first, int last) = Band([.. group.Select(l => l.Pole.Omega)], Math.Min(wide * group.Max(l => l.Pole.Decay), (wide == Wide ? WideShare : NarrowShare) * group[^1].Pole.Omega));
            ProjectedFit problem = Problem(first, last, group, out _);
            if (problem.From([.. group.Select(l => l.Pole)], wide == Narrow) is { } fit)
            {
                for (int i = 0; i < group.Length; i++) { group[i].Become(fit.Poles[i], _spectrum, _rest); }
                SetSteady(first, last, fit);
            }
            else
            {
                // They have fallen together: the strongest stays.
                foreach (SpectrumLine line in group.OrderByDescending(l => l.Fitted.Amplitude).Skip(1)) { Drop(line); }
            }
        }
    }

    // Lines that overlap, in groups of what can be fitted together.
    private List<SpectrumLine[]> Groups()
    {
        var groups = new List<SpectrumLine[]>();
        List<SpectrumLine> group = [];
        foreach (SpectrumLine line in _lines.OrderBy(l => l.Pole.Omega))
        {
            if (group.Count > 0 && (group.Count == MostTogether || line.Pole.Omega - group[^1].Pole.Omega > 3 * Math.Max(line.Pole.Decay, group[^1].Pole.Decay)))
            {
                groups.Add([.. group]);
                group = [];
            }

            group.Add(line);
        }

        if (group.Count > 0) { groups.Add([.. group]); }
        return groups;
    }

    private (int First, int Last) Band(IReadOnlyList<double> omegas, double half)
    {
        int first = _spectrum.Nearest(omegas.Min() - half), last = _spectrum.Nearest(omegas.Max() + half);
        int least = 12 + 6 * omegas.Count, more = Math.Max(0, least - (last - first + 1) + 1) / 2;
        return (Math.Max(1, first - more), Math.Min(_rest.Length - 1, last + more));
    }

    private ProjectedFit Problem(int first, int last, IReadOnlyList<SpectrumLine> own, out double[] data)
    {
        data = Data(first, last);
        foreach (SpectrumLine line in own) { line.AddTo(data, first); }
        var shapes = new List<double[]>();
        foreach (SpectrumLine line in SteadyIn(first, last))
        {
            line.AddTo(data, first);
            double[] p = new double[data.Length], q = new double[data.Length];
            DampedLine.Shapes(_spectrum, first, line.Pole, p, q, []);
            shapes.Add(p);
            shapes.Add(q);
        }

        return new(_spectrum, first, data, shapes);
    }

    private double[] Data(int first, int last)
    {
        var data = new double[2 * (last - first + 1)];
        for (int k = first; k <= last; k++) { (data[2 * (k - first)], data[2 * (k - first) + 1]) = (_rest[k].Real, _rest[k].Imaginary); }
        return data;
    }

    private IEnumerable<SpectrumLine> SteadyIn(int first, int last) =>
        _steady.Where(l => _spectrum.Nearest(l.Pole.Omega) is int at && at >= first + 1 && at <= last - 1);

    private void SetSteady(int first, int last, PartialFit fit)
    {
        int i = 0;
        foreach (SpectrumLine line in SteadyIn(first, last).ToArray())
        {
            line.Become(line.Fitted with { P = fit.Steady[i], Q = fit.Steady[i + 1] }, _spectrum, _rest);
            i += 2;
        }
    }

    // Decay that the width of a peak at half its power stands for, at least that of one bin.
    private double WidthAt(int peak)
    {
        double half = SpectrumFloor.Power(_rest[peak]) / 2;
        int low = peak, high = peak;
        while (low > 1 && peak - low < peak / 8 && SpectrumFloor.Power(_rest[low - 1]) > half) { low--; }
        while (high < _rest.Length - 1 && high - peak < peak / 8 && SpectrumFloor.Power(_rest[high + 1]) > half) { high++; }
        return Math.Min(Math.PI * (high - low + 1) / _spectrum.Length, 0.05 * _spectrum.Omega(peak));
    }
}
