using SandwichMech.Core.Numerics;

namespace SandwichMech.Core.Plates.Reduced;

/// <summary>The fixed matrices of all coefficients, projected on a growing set of vectors.</summary>
/// <remarks>
/// K = Σ C_ij ∫ w (s_i s_jᵀ + s_j s_iᵀ) dA over stations and pairs of strains i &lt; j (once for i = j), s the strains of the vectors and w the station's weight; the
/// mass likewise with motions in place of strains. Pairs that always go together share one matrix (<see cref="SpannedTerms"/>). For each term of a station, K v of
/// the new vectors v on the plate's own unknowns first, where elements of the same stations lie: one product with all vectors then gives its new columns.
/// The quadrature is the elements' own.
/// </remarks>
internal sealed class ProjectedTerms
{
    private readonly PlateSystem _system;
    private readonly StationField _field;
    private readonly ElementGroup[] _groups;
    private readonly double[][] _places;
    private readonly List<double[]> _vectors = [];

    // Elements whose places ask for the same stations, with the unknowns that they touch.
    private sealed record ElementGroup(int[] Elements, int[] Stations, int[] Unknowns, Dictionary<int, int> Row, StationTerm[] Stiffness, StationTerm[] Inertia);

    // An element's operators at its points, and what the new vectors are there: [point · padded count + vector].
    private sealed record Fields(double[][] Operators, double[][] Strains, double[][] Motions, double[][] Weights);

    internal ProjectedTerms(PlateSystem system, StationField field, SpannedTerms stiffness, SpannedTerms inertia)
    {
        (_system, _field) = (system, field);
        Stiffness = [.. stiffness.Chosen.Select(_ => Array.Empty<double>())];
        Inertia = [.. inertia.Chosen.Select(_ => Array.Empty<double>())];
        Rim = [.. stiffness.Own.Where(t => t.Station == CoefficientTerms.OfRim).SelectMany(t => t.Adds)];
        ILookup<int, StationTerm> ofStiffness = stiffness.Own.ToLookup(t => t.Station), ofInertia = inertia.Own.ToLookup(t => t.Station);
        _groups = [.. Enumerable.Range(0, system.Elements.Length)
            .GroupBy(e => string.Join(' ', StationsOf(e)) + (system.PlacesOf(e).Length == 1 ? "" : "*"))
            .Select(g => Group([.. g], ofStiffness, ofInertia))];
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
        int before = Count, all = before + vectors.Count, rows = DenseProduct.Padded(all), columns = DenseProduct.Padded(vectors.Count);
        _vectors.AddRange(vectors);
        double[][] stiffness = [.. Stiffness.Select(_ => new double[rows * columns])], inertia = [.. Inertia.Select(_ => new double[rows * columns])];
        foreach (ElementGroup group in _groups)
        {
            double[][] ofStiffness = [.. group.Stiffness.Select(_ => new double[group.Unknowns.Length * columns])];
            double[][] ofInertia = [.. group.Inertia.Select(_ => new double[group.Unknowns.Length * columns])];
            foreach (int e in group.Elements)
            {
                Fields fields = FieldsOf(e, group, vectors, columns);
                for (int k = 0; k < ofStiffness.Length; k++) { AddStiffness(e, group, group.Stiffness[k], fields, columns, ofStiffness[k]); }
                for (int k = 0; k < ofInertia.Length; k++) { AddInertia(e, group, group.Inertia[k], fields, columns, ofInertia[k]); }
            }

            double[] touched = Rows(group.Unknowns, _vectors, rows), product = new double[rows * columns];
            Fold(group.Stiffness, ofStiffness, stiffness);
            Fold(group.Inertia, ofInertia, inertia);

            void Fold(StationTerm[] terms, double[][] images, double[][] kept)
            {
                for (int k = 0; k < terms.Length; k++)
                {
                    Array.Clear(product);
                    DenseProduct.AddTransposed(touched, rows, images[k], columns, group.Unknowns.Length, product);
                    foreach ((int to, double weight) in terms[k].Adds) { DenseRows.Add(kept[to], weight, product); }
                }
            }
        }

        if (Rim.Length > 0) { AddSprings(rim, before, stiffness); }
        Stiffness = [.. Stiffness.Select((old, i) => Grown(old, stiffness[i], before, all))];
        Inertia = [.. Inertia.Select((old, i) => Grown(old, inertia[i], before, all))];
    }

    private ElementGroup Group(int[] elements, ILookup<int, StationTerm> stiffness, ILookup<int, StationTerm> inertia)
    {
        int[] stations = StationsOf(elements[0]), unknowns = [.. elements.SelectMany(e => _system.Elements[e]).Where(dof => dof >= 0).Distinct().Order()];
        return new(
            elements, stations, unknowns, unknowns.Select((dof, row) => (dof, row)).ToDictionary(u => u.dof, u => u.row),
            [.. stations.SelectMany(s => stiffness[s])], [.. stations.SelectMany(s => inertia[s])]);
    }

    private int[] StationsOf(int e) => [.. _system.PlacesOf(e).SelectMany(p => _field.Of[p].Select(s => s.Station)).Distinct().Order()];

    // The quadrature's weights times the station's weight at the points.
    private double[] Weighted(int e, int station, double[] weights)
    {
        int[] places = _system.PlacesOf(e);
        if (places.Length == 1) { return weights; }
        double[] at = [.. places.Select(p => _field.Of[p].Where(s => s.Station == station).Sum(s => s.Weight))];
        return [.. weights.Select((w, p) => w * at.Zip(_places[p], (a, n) => a * n).Sum())];
    }

    // Some unknowns of vectors side by side: [unknown · columns + vector].
    private static double[] Rows(ReadOnlySpan<int> unknowns, IReadOnlyList<double[]> vectors, int columns)
    {
        double[] rows = new double[unknowns.Length * columns];
        for (int c = 0; c < vectors.Count; c++)
        {
            double[] vector = vectors[c];
            for (int i = 0; i < unknowns.Length; i++) { rows[i * columns + c] = unknowns[i] < 0 ? 0 : vector[unknowns[i]]; }
        }

        return rows;
    }

    private Fields FieldsOf(int e, ElementGroup group, IReadOnlyList<double[]> vectors, int columns)
    {
        int n = _system.Mesh.Basis.Count, stride = _system.Mesh.Basis.Stride;
        double[] values = new double[3 * n * stride];
        double[] weights = _system.Mesh.Operators(e, values);
        int[] dofs = _system.Elements[e], motions = _system.MotionsOf(e);
        double[][] strains = None(PlateStrains.Count), moved = None(PlateStrains.Motions);
        for (int a = 0; a < motions.Length; a++)
        {
            double[] local = Rows([.. Enumerable.Range(0, n).Select(i => dofs[i * motions.Length + a])], vectors, columns);
            double[]?[] under = new double[3][];
            moved[motions[a]] = Under(PlateStrains.Op1);
            for (int strain = 0; strain < strains.Length; strain++)
            {
                foreach ((int motion, int op, double factor) in _system.Strains.Terms[strain])
                {
                    if (motion == motions[a]) { DenseRows.Add(Made(strains, strain, stride * columns), factor, Under(op)); }
                }
            }

            double[] Under(int op)
            {
                if (under[op] is { } known) { return known; }
                double[] field = under[op] = new double[stride * columns];
                // The operator's points lie side by side: its columns.
                DenseProduct.AddTransposed(values.AsSpan(op * n * stride), stride, local, columns, n, field);
                return field;
            }
        }

        return new([.. Enumerable.Range(0, 3).Select(Turned)], strains, moved, [.. group.Stations.Select(s => Weighted(e, s, weights))]);

        // [point · padded nodes + node].
        double[] Turned(int op)
        {
            int padded = DenseProduct.Padded(n);
            double[] turned = new double[stride * padded];
            for (int i = 0; i < n; i++)
            {
                for (int p = 0; p < weights.Length; p++) { turned[p * padded + i] = values[(op * n + i) * stride + p]; }
            }

            return turned;
        }
    }

    // image += K v of this element for one kept matrix.
    private void AddStiffness(int e, ElementGroup group, StationTerm term, Fields fields, int columns, double[] image)
    {
        double[][] stresses = Stresses(group, term, fields.Strains, fields.Weights, columns);
        int[] motions = _system.MotionsOf(e);
        for (int a = 0; a < motions.Length; a++)
        {
            double[][] under = None(3);
            for (int strain = 0; strain < stresses.Length; strain++)
            {
                if (stresses[strain].Length == 0) { continue; }
                foreach ((int motion, int op, double factor) in _system.Strains.Terms[strain])
                {
                    if (motion == motions[a]) { DenseRows.Add(Made(under, op, stresses[strain].Length), factor, stresses[strain]); }
                }
            }

            AddForces(e, group, a, under, fields, columns, image);
        }
    }

    private void AddInertia(int e, ElementGroup group, StationTerm term, Fields fields, int columns, double[] image)
    {
        double[][] momenta = Stresses(group, term, fields.Motions, fields.Weights, columns);
        int[] motions = _system.MotionsOf(e);
        for (int a = 0; a < motions.Length; a++)
        {
            double[][] under = None(3);
            under[PlateStrains.Op1] = momenta[motions[a]];
            AddForces(e, group, a, under, fields, columns, image);
        }
    }

    // Σ over the parts of w (s_j at i, s_i at j).
    private static double[][] Stresses(ElementGroup group, StationTerm term, double[][] strains, double[][] weights, int columns)
    {
        double[][] stresses = None(strains.Length);
        double[] weight = weights[Array.IndexOf(group.Stations, term.Station)];
        foreach (StationPart part in term.Parts)
        {
            Add(part.First, part.Second);
            if (part.First != part.Second) { Add(part.Second, part.First); }

            void Add(int at, int of)
            {
                double[] strain = strains[of];
                // A strain without any motion here: an element beside, of a board without that bar.
                if (strain.Length == 0) { return; }
                double[] stress = Made(stresses, at, strain.Length);
                for (int p = 0; p < weight.Length; p++) { DenseRows.Add(stress.AsSpan(p * columns, columns), part.Weight * weight[p], strain.AsSpan(p * columns, columns)); }
            }
        }

        return stresses;
    }

    // What stresses under the operators do to the nodes, in one motion.
    private void AddForces(int e, ElementGroup group, int a, double[][] under, Fields fields, int columns, double[] image)
    {
        int n = _system.Mesh.Basis.Count, padded = DenseProduct.Padded(n), count = _system.MotionsOf(e).Length;
        if (under.All(u => u.Length == 0)) { return; }
        double[] forces = new double[padded * columns];
        for (int op = 0; op < under.Length; op++)
        {
            if (under[op].Length > 0) { DenseProduct.AddTransposed(fields.Operators[op], padded, under[op], columns, under[op].Length / columns, forces); }
        }

        for (int i = 0; i < n; i++)
        {
            int dof = _system.Elements[e][i * count + a];
            if (dof >= 0) { DenseRows.Add(image.AsSpan(group.Row[dof] * columns, columns), 1, forces.AsSpan(i * columns, columns)); }
        }
    }

    private static double[][] None(int count) => [.. Enumerable.Range(0, count).Select(_ => Array.Empty<double>())];

    private static double[] Made(double[][] fields, int at, int length) => fields[at].Length > 0 ? fields[at] : fields[at] = new double[length];

    // The system's springs belong to its own coefficient: the matrix is theirs over it.
    private void AddSprings(double rim, int before, double[][] stiffness)
    {
        int all = Count, added = all - before, padded = DenseProduct.Padded(added);
        double[] sum = new double[DenseProduct.Padded(all) * padded];
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
                        for (int c = 0; c < added; c++) { sum[row * padded + c] += left * _vectors[before + c][dofs[j]]; }
                    }
                }
            }
        }

        foreach ((int k, double weight) in Rim) { DenseRows.Add(stiffness[k], weight, sum); }
    }

    private static double[] Grown(double[] old, double[] columns, int before, int all)
    {
        int added = all - before, padded = DenseProduct.Padded(added);
        double[] grown = new double[all * all];
        for (int i = 0; i < all; i++)
        {
            if (i < before) { Array.Copy(old, i * before, grown, i * all, before); }
            for (int c = 0; c < added; c++) { grown[i * all + before + c] = grown[(before + c) * all + i] = columns[i * padded + c]; }
        }

        return grown;
    }
}
