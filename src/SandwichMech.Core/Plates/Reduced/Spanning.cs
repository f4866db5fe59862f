using SandwichMech.Core.Numerics;

namespace SandwichMech.Core.Plates.Reduced;

/// <summary>Rows of which few are chosen, and all others as sums of those.</summary>
/// <remarks>
/// The row that is left over most, against its own size, is chosen next, until nothing is left but rounding. Over the places of a part and many designs
/// this is the empirical interpolation of a coefficient field (Barrault, Maday, Nguyen &amp; Patera 2004, C. R. Acad. Sci. Paris I 339, 667): coefficients
/// are asked for at a few places only. Over the coefficients themselves it finds those that always go together.
/// </remarks>
/// <param name="Chosen">Numbers of the chosen rows.</param>
/// <param name="Weights">[row][k]: row = Σ weight · chosen row k.</param>
internal sealed record Spanning(int[] Chosen, double[][] Weights)
{
    private const double NegligibleShare = 0.01;

    /// <summary>Chooses.</summary>
    /// <param name="rows">All of one length.</param>
    /// <param name="tolerance">What may be left of a row, in parts of its own norm.</param>
    internal static Spanning Of(IReadOnlyList<double[]> rows, double tolerance)
    {
        double[] sizes = [.. rows.Select(Norm)];
        double[][] left = [.. rows.Select((r, i) => Array.ConvertAll(r, v => sizes[i] > 0 ? v / sizes[i] : 0))];
        var chosen = new List<int>();
        var directions = new List<double[]>();
        // parts[row][k]: component of the row, scaled to unit size, along direction k.
        List<double>[] parts = [.. rows.Select(_ => new List<double>())];
        while (chosen.Count < rows.Count)
        {
            int next = -1;
            double most = tolerance;
            for (int i = 0; i < left.Length; i++)
            {
                if (Norm(left[i]) is double n && n > most) { (most, next) = (n, i); }
            }

            if (next < 0) { break; }
            double[] direction = Orthogonal(left[next], directions);
            chosen.Add(next);
            directions.Add(direction);
            for (int i = 0; i < left.Length; i++)
            {
                double part = DenseRows.Dot(left[i], direction);
                parts[i].Add(part);
                for (int j = 0; j < direction.Length; j++) { left[i][j] -= part * direction[j]; }
            }
        }

        return new([.. chosen], [.. rows.Select((_, i) => Solve(i))]);

        // The chosen rows' parts are triangular: row k has none along later directions but rounding.
        double[] Solve(int row)
        {
            double[] w = [.. parts[row]];
            int at = chosen.IndexOf(row);
            if (at >= 0) { return [.. w.Select((_, k) => k == at ? 1.0 : 0)]; }
            for (int k = w.Length - 1; k >= 0; k--)
            {
                for (int l = k + 1; l < w.Length; l++) { w[k] -= w[l] * parts[chosen[l]][k]; }
                w[k] /= parts[chosen[k]][k];
            }

            // What a weight brings beside the tolerance is rounding.
            for (int k = 0; k < w.Length; k++) { w[k] = Math.Abs(w[k]) > NegligibleShare * tolerance ? w[k] * sizes[row] / sizes[chosen[k]] : 0; }
            return w;
        }
    }

    // Once more against what was chosen: classical Gram–Schmidt twice is enough.
    private static double[] Orthogonal(double[] row, List<double[]> directions)
    {
        double[] v = [.. row];
        foreach (double[] d in directions)
        {
            double part = DenseRows.Dot(v, d);
            for (int j = 0; j < v.Length; j++) { v[j] -= part * d[j]; }
        }

        double norm = Norm(v);
        return Array.ConvertAll(v, x => x / norm);
    }

    private static double Norm(double[] v) => Math.Sqrt(DenseRows.Dot(v, v));
}
