using SandwichMech.Core.Numerics;
using Lanes = System.Numerics.Vector<double>;

namespace SandwichMech.Core.Plates.Reduced;

/// <summary>The fixed matrices of all coefficients, projected on a growing set of vectors.</summary>
/// <remarks>
/// K = Σ C_ij ∫ w (s_i s_jᵀ + s_j s_iᵀ) dA over stations and pairs of strains i &lt; j (once for i = j), s the strains of the vectors and w the station's weight; the
/// mass likewise with motions in place of strains. Pairs that always go together share one matrix: Σ over them of its part (<see cref="Spanning"/>).
/// The quadrature is the elements' own.
/// </remarks>
internal sealed class ProjectedTerms
{
    private readonly PlateSystem _system;
    private readonly StationField _field;
    private readonly Part[] _stiffness, _inertia;
    private readonly int[][] _elementsByPart;
    private readonly double[][] _places;
    private readonly List<double[]> _vectors = [];

    // One pair of strains (or motions) of one station, and what it adds to each of the kept matrices.
    private sealed record Part(int Station, int First, int Second, (int Kept, double Weight)[] Adds);

    internal ProjectedTerms(PlateSystem system, StationField field, CoefficientTerms terms, Spanning stiffness, Spanning inertia)
    {
        (_system, _field) = (system, field);
        _stiffness = Parts(terms.Stiffness, stiffness);
        _inertia = Parts(terms.Inertia, inertia);
        Stiffness = [.. stiffness.Chosen.Select(_ => Array.Empty<double>())];
        Inertia = [.. inertia.Chosen.Select(_ => Array.Empty<double>())];
        Rim = [.. terms.Stiffness.Select((t, i) => (t, i)).Where(x => x.t.Station == CoefficientTerms.OfRim).SelectMany(x => Adds(stiffness.Weights[x.i]))];
        // Elements whose places ask for the same stations are done together.
        _elementsByPart = [.. Enumerable.Range(0, system.Elements.Length)
            .GroupBy(e => string.Join(' ', StationsOf(e)) + (system.PlacesOf(e).Length == 1 ? "" : "*")).Select(g => g.ToArray())];
        _places = [.. system.Mesh.Basis.Points.Select(p => TriangleBasis.Of(2).At(p.R, p.S).N)];
    }

    /// <summary>Number of vectors.</summary>
    internal int Count => _vectors.Count;
    /// <summary>The vectors.</summary>
    internal IReadOnlyList<double[]> Vectors => _vectors;
    /// <summary>Matrices of the kept stiffness coefficients, [row · count + column], symmetric.</summary>
    internal double[][] Stiffness { get; private set; }
    /// <summary>Matrices of the kept inertia coefficients.</summary>
    internal double[][] Inertia { get; private set; }

    // What the rim's spring adds to each kept matrix.
    private (int Kept, double Weight)[] Rim { get; }

    /// <summary>Adds vectors.</summary>
    /// <param name="vectors">On the system's unknowns.</param>
    /// <param name="rim">The system's own spring per metre, for vectors of a plate on a rim.</param>
    internal void Append(IReadOnlyList<double[]> vectors, double rim)
    {
        int before = Count, all = before + vectors.Count, added = vectors.Count;
        _vectors.AddRange(vectors);
        double[][] stiffness = [.. Stiffness.Select(_ => new double[all * added])], inertia = [.. Inertia.Select(_ => new double[all * added])];
        foreach (int[] elements in _elementsByPart)
        {
            int[] stations = StationsOf(elements[0]);
            Part[] strains = [.. _stiffness.Where(p => stations.Contains(p.Station))], motions = [.. _inertia.Where(p => stations.Contains(p.Station))];
            double[][] ofStrains = [.. strains.Select(_ => new double[all * added])], ofMotions = [.. motions.Select(_ => new double[all * added])];
            foreach (int e in elements)
            {
                (double[][] s, double[][] m, double[] weights) = Fields(e, all);
                for (int i = 0; i < strains.Length; i++) { Multiply(strains[i], s, Weighted(e, strains[i].Station, weights), all, before, ofStrains[i]); }
                for (int i = 0; i < motions.Length; i++) { Multiply(motions[i], m, Weighted(e, motions[i].Station, weights), all, before, ofMotions[i]); }
            }

            Fold(strains, ofStrains, stiffness);
            Fold(motions, ofMotions, inertia);
        }

        if (Rim.Length > 0) { AddSprings(rim, before, stiffness); }
        Stiffness = [.. Stiffness.Select((old, i) => Grown(old, stiffness[i], before, all))];
        Inertia = [.. Inertia.Select((old, i) => Grown(old, inertia[i], before, all))];
    }

    private static Part[] Parts(IReadOnlyList<CoefficientTerm> terms, Spanning spanning) =>
        [.. terms.Select((t, i) => new Part(t.Station, t.First, t.Second, Adds(spanning.Weights[i]))).Where(p => p.Station != CoefficientTerms.OfRim)];

    private static (int, double)[] Adds(double[] weights) => [.. weights.Select((w, k) => (k, w)).Where(a => a.w != 0)];

    private int[] StationsOf(int e) => [.. _system.PlacesOf(e).SelectMany(p => _field.Of[p].Select(s => s.Station)).Distinct().Order()];

    // The quadrature's weights times the station's weight at the points.
    private double[] Weighted(int e, int station, double[] weights)
    {
        int[] places = _system.PlacesOf(e);
        if (places.Length == 1) { return weights; }
        double[] at = [.. places.Select(p => _field.Of[p].Where(s => s.Station == station).Sum(s => s.Weight))];
        return [.. weights.Select((w, p) => w * at.Zip(_places[p], (a, n) => a * n).Sum())];
    }

    // Strains and motions of all vectors at the points: [strain][point · count + vector].
    private (double[][] Strains, double[][] Motions, double[] Weights) Fields(int e, int all)
    {
        int n = _system.Mesh.Basis.Count, q = _system.Mesh.Basis.Points.Length;
        int stride = _system.Mesh.Basis.Stride;
        double[] values = new double[3 * n * stride];
        double[] weights = _system.Mesh.Operators(e, values);
        int[] dofs = _system.Elements[e], motions = _system.MotionsOf(e);
        double[][] strains = [.. Enumerable.Range(0, PlateStrains.Count).Select(_ => Array.Empty<double>())];
        double[][] moved = [.. Enumerable.Range(0, PlateStrains.Motions).Select(_ => Array.Empty<double>())];
        double[] local = new double[n * all];
        for (int a = 0; a < motions.Length; a++)
        {
            for (int i = 0; i < n; i++)
            {
                int dof = dofs[i * motions.Length + a];
                for (int c = 0; c < all; c++) { local[i * all + c] = dof < 0 ? 0 : _vectors[c][dof]; }
            }

            double[]?[] under = new double[3][];
            moved[motions[a]] = under[PlateStrains.Op1] = Under(values, stride, PlateStrains.Op1, n, q, local, all);
            for (int strain = 0; strain < strains.Length; strain++)
            {
                foreach ((int motion, int op, double factor) in _system.Strains.Terms[strain])
                {
                    if (motion != motions[a]) { continue; }
                    double[] field = under[op] ??= Under(values, stride, op, n, q, local, all);
                    if (strains[strain].Length == 0) { strains[strain] = new double[q * all]; }
                    DenseRows.Add(strains[strain], factor, field);
                }
            }
        }

        return (strains, moved, weights);
    }

    private static double[] Under(double[] values, int stride, int op, int n, int q, double[] local, int all)
    {
        double[] field = new double[q * all];
        for (int p = 0; p < q; p++)
        {
            for (int i = 0; i < n; i++) { DenseRows.Add(field.AsSpan(p * all, all), values[(op * n + i) * stride + p], local.AsSpan(i * all, all)); }
        }

        return field;
    }

    // sum[row, added column] += ∫ w (s_i s_jᵀ + s_j s_iᵀ).
    private static void Multiply(Part part, double[][] fields, double[] weights, int all, int before, double[] sum)
    {
        double[] first = fields[part.First], second = fields[part.Second];
        // A strain without any motion here: an element beside, of a board without that bar.
        if (first.Length == 0 || second.Length == 0) { return; }
        Multiply(first, second, weights, all, before, sum);
        if (part.First != part.Second) { Multiply(second, first, weights, all, before, sum); }
    }

    private static void Multiply(double[] left, double[] right, double[] weights, int all, int before, double[] sum)
    {
        int added = all - before, q = weights.Length, w = Lanes.Count;
        double[] weighted = new double[q * added];
        for (int p = 0; p < q; p++)
        {
            for (int c = 0; c < added; c++) { weighted[p * added + c] = weights[p] * right[p * all + before + c]; }
        }

        for (int row = 0; row < all; row++)
        {
            int p = 0, at = row * added;
            for (; p + 3 < q; p += 4)
            {
                double l0 = left[p * all + row], l1 = left[(p + 1) * all + row], l2 = left[(p + 2) * all + row], l3 = left[(p + 3) * all + row];
                Lanes v0 = new(l0), v1 = new(l1), v2 = new(l2), v3 = new(l3);
                int from = p * added, c = 0;
                for (; c <= added - w; c += w)
                {
                    Lanes value = new(sum, at + c);
                    value += v0 * new Lanes(weighted, from + c) + v1 * new Lanes(weighted, from + added + c);
                    value += v2 * new Lanes(weighted, from + 2 * added + c) + v3 * new Lanes(weighted, from + 3 * added + c);
                    value.CopyTo(sum, at + c);
                }

                for (; c < added; c++)
                {
                    sum[at + c] += l0 * weighted[from + c] + l1 * weighted[from + added + c] + l2 * weighted[from + 2 * added + c] + l3 * weighted[from + 3 * added + c];
                }
            }

            for (; p < q; p++) { DenseRows.Add(sum.AsSpan(at, added), left[p * all + row], weighted.AsSpan(p * added, added)); }
        }
    }

    private static void Fold(Part[] parts, double[][] sums, double[][] kept)
    {
        for (int i = 0; i < parts.Length; i++)
        {
            foreach ((int k, double weight) in parts[i].Adds) { DenseRows.Add(kept[k], weight, sums[i]); }
        }
    }

    // The system's springs belong to its own coefficient: the matrix is theirs over it.
    private void AddSprings(double rim, int before, double[][] stiffness)
    {
        int all = Count, added = all - before;
        double[] sum = new double[all * added];
        for (int e = 0; e < _system.Elements.Length; e++)
        {
            if (_system.SpringsOf(e) is not { } spring) { continue; }
            int[] dofs = _system.Elements[e];
            int size = dofs.Length;
            for (int i = 0; i < size; i++)
            {
                for (int j = 0; j < size; j++)
                {
                    double k = spring[Math.Max(i, j) * size + Math.Min(i, j)] / rim;
                    if (k == 0 || dofs[i] < 0 || dofs[j] < 0) { continue; }
                    for (int row = 0; row < all; row++)
                    {
                        double left = k * _vectors[row][dofs[i]];
                        for (int c = 0; c < added; c++) { sum[row * added + c] += left * _vectors[before + c][dofs[j]]; }
                    }
                }
            }
        }

        foreach ((int k, double weight) in Rim) { DenseRows.Add(stiffness[k], weight, sum); }
    }

    private static double[] Grown(double[] old, double[] columns, int before, int all)
    {
        int added = all - before;
        double[] grown = new double[all * all];
        for (int i = 0; i < all; i++)
        {
            if (i < before) { Array.Copy(old, i * before, grown, i * all, before); }
            for (int c = 0; c < added; c++) { grown[i * all + before + c] = grown[(before + c) * all + i] = columns[i * added + c]; }
        }

        return grown;
    }
}
