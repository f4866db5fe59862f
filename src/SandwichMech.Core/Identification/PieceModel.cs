using MathNet.Numerics.LinearAlgebra;

namespace SandwichMech.Core.Identification;

/// <summary>What readings of a piece would be for any values of all that is uncertain about it, with their slopes.</summary>
/// <remarks>Parameters are the shifts of the inputs, in their order, and last what all tones are off by alike.</remarks>
internal sealed class PieceModel
{
    private const double Step = 1e-4;
    private readonly PieceBefore _before;

    internal PieceModel(PieceBefore before, Observation[] plain)
    {
        (_before, Plain) = (before, plain);
        double[] spreads = [.. before.Inputs.Select(i => i.Spread), Observations.Root(Observations.ToneBias, before.Sizes)];
        // What has no spread stays where it is.
        Precision = Matrix<double>.Build.DenseDiagonal(spreads.Length, spreads.Length, i => 1 / Math.Pow(Math.Max(spreads[i], 1e-9), 2));
    }

    /// <summary>Readings other than tones.</summary>
    internal Observation[] Plain { get; }
    /// <summary>Of the parameters beforehand; their means are 0.</summary>
    internal Matrix<double> Precision { get; }
    /// <summary>Number of parameters.</summary>
    internal int Count => _before.Inputs.Count + 1;

    /// <summary>The piece at some values.</summary>
    internal Sample At(double[] p)
    {
        Sample s = _before.Start;
        for (int i = 0; i < _before.Inputs.Count; i++) { s = _before.Inputs[i].Shift(s, p[i]); }
        return s;
    }

    /// <summary>Slopes of the logarithms of figures of the piece: [figure, parameter].</summary>
    internal double[,] Slopes(double[] p, params IReadOnlyList<Func<Sample, double>> figures) =>
        Slopes(p, figures.Count, 0, (less, more) => [.. figures.Select(f => Math.Log(f(more) / f(less)))]);

    /// <summary>Slopes of the logarithms of modes' frequencies as a tap reads them.</summary>
    internal double[,] Slopes(TappedPlate plate, double[] p, IReadOnlyList<TapMode> modes) =>
        Slopes(p, modes.Count, 1, (less, more) => plate.Changes(modes, less, more));

    /// <summary>Readings other than tones.</summary>
    internal ModelValues WithoutTones(double[] p)
    {
        Sample s = At(p);
        return new([.. Plain.Select(o => Math.Log(o.Of!(s)))], Slopes(p, [.. Plain.Select(o => o.Of!)]));
    }

    /// <summary>Readings, and tones of the modes whose shapes are most like given ones.</summary>
    internal ModelValues WithTones(TappedPlate plate, double[][] shapes, double[] p)
    {
        ModelValues first = WithoutTones(p);
        IReadOnlyList<TapMode> all = plate.Solve(At(p));
        var taken = new List<int>();
        foreach (double[] shape in shapes) { taken.Add(plate.MostLike(shape, all, taken)); }
        TapMode[] modes = [.. taken.Select(m => all[m])];
        double[,] ofTones = Slopes(plate, p, modes), slopes = new double[Plain.Length + modes.Length, Count];
        Array.Copy(first.Slopes, slopes, first.Slopes.Length);
        Array.Copy(ofTones, 0, slopes, first.Slopes.Length, ofTones.Length);
        return new([.. first.Values, .. modes.Select(m => Math.Log(m.Frequency) + p[^1])], slopes);
    }

    // Central differences over the inputs, each of two pieces that serve all figures; tones alone follow the last parameter.
    private double[,] Slopes(double[] p, int figures, double ofLast, Func<Sample, Sample, double[]> differences)
    {
        double[,] slopes = new double[figures, Count];
        double[] shifted = [.. p];
        for (int j = 0; j < _before.Inputs.Count; j++)
        {
            if (_before.Inputs[j].Spread == 0) { continue; }
            shifted[j] = p[j] + Step;
            Sample more = At(shifted);
            shifted[j] = p[j] - Step;
            Sample less = At(shifted);
            shifted[j] = p[j];
            double[] difference = differences(less, more);
            for (int f = 0; f < figures; f++) { slopes[f, j] = difference[f] / (2 * Step); }
        }

        for (int f = 0; f < figures; f++) { slopes[f, Count - 1] = ofLast; }
        return slopes;
    }
}
