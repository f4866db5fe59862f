using MathNet.Numerics.LinearAlgebra;
using SandwichMech.Core.Numerics;

namespace SandwichMech.Core.Plates.Reduced;

/// <summary>The growing basis: orthonormal in the energy of a reference plate, K − σM with σ below 0.</summary>
internal sealed class ReducedBasis
{
    private readonly PlateSystem _reference;
    private readonly double _shift;
    private readonly List<double[]> _images = [];
    private readonly List<double[]> _snapshots = [];

    internal ReducedBasis(PlateSystem reference, double shift) => (_reference, _shift) = (reference, shift);

    /// <summary>The vectors.</summary>
    internal List<double[]> Vectors { get; } = [];

    /// <summary>Adds what is new in some modes.</summary>
    /// <param name="modes">Flexible modes of one design.</param>
    /// <param name="negligible">Share of a mode's energy that may be left out.</param>
    /// <returns>The new vectors.</returns>
    internal IReadOnlyList<double[]> Add(IReadOnlyList<double[]> modes, double negligible)
    {
        int count = modes.Count, before = Vectors.Count;
        double[][] x = [.. modes.Select(v => (double[])v.Clone())], image = PlateProducts.Stiffness(_reference, _shift, x);
        double[][] parts = [.. x.Select(_ => new double[before])];
        for (int i = 0; i < count; i++)
        {
            double scale = 1 / Math.Sqrt(DenseRows.Dot(x[i], image[i]));
            Scale(x[i], scale);
            Scale(image[i], scale);
            // Twice, so that rounding leaves them orthogonal too.
            for (int pass = 0; pass < 2; pass++)
            {
                for (int k = 0; k < before; k++)
                {
                    double part = DenseRows.Dot(_images[k], x[i]);
                    parts[i][k] += part;
                    DenseRows.Add(x[i], -part, Vectors[k]);
                    DenseRows.Add(image[i], -part, _images[k]);
                }
            }
        }

        var gram = Matrix<double>.Build.Dense(count, count, (i, j) => (DenseRows.Dot(x[i], image[j]) + DenseRows.Dot(x[j], image[i])) / 2);
        var evd = gram.Evd(Symmetricity.Symmetric);
        int[] kept = [.. Enumerable.Range(0, count).Where(i => evd.EigenValues[i].Real > negligible).OrderByDescending(i => evd.EigenValues[i].Real)];
        foreach (int k in kept)
        {
            double scale = 1 / Math.Sqrt(evd.EigenValues[k].Real);
            Vectors.Add(Combined(x, evd.EigenVectors.Column(k), scale));
            _images.Add(Combined(image, evd.EigenVectors.Column(k), scale));
        }

        // A mode's parts along the new vectors, too.
        for (int i = 0; i < count; i++)
        {
            int mode = i;
            _snapshots.Add([.. parts[i], .. kept.Select(k => Math.Sqrt(evd.EigenValues[k].Real) * evd.EigenVectors[mode, k])]);
        }

        return Vectors[before..];
    }

    /// <summary>Turns the basis so that its first vectors hold most of all modes that were added (proper orthogonal decomposition).</summary>
    /// <returns>[old vector, new vector], orthogonal.</returns>
    internal Matrix<double> Principal()
    {
        int n = Vectors.Count;
        var sum = Matrix<double>.Build.Dense(n, n);
        foreach (double[] s in _snapshots)
        {
            for (int i = 0; i < s.Length; i++)
            {
                for (int j = 0; j < s.Length; j++) { sum[i, j] += s[i] * s[j]; }
            }
        }

        var evd = sum.Evd(Symmetricity.Symmetric);
        int[] order = [.. Enumerable.Range(0, n).OrderByDescending(i => evd.EigenValues[i].Real)];
        return Matrix<double>.Build.Dense(n, n, (i, j) => evd.EigenVectors[i, order[j]]);
    }

    private static double[] Combined(double[][] x, Vector<double> with, double scale)
    {
        double[] sum = new double[x[0].Length];
        for (int i = 0; i < x.Length; i++) { DenseRows.Add(sum, scale * with[i], x[i]); }
        return sum;
    }

    private static void Scale(double[] x, double s)
    {
        for (int i = 0; i < x.Length; i++) { x[i] *= s; }
    }
}
