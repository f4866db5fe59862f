namespace SandwichMech.Core.Plates.Reduced;

/// <summary>Few stations that stand for all places of a mesh's sections: every coefficient at a place is a sum of those at stations, in all designs.</summary>
/// <param name="Stations">Numbers of the places that are stations.</param>
/// <param name="Of">For each place, the stations with their weights.</param>
internal sealed record StationField(int[] Stations, (int Station, double Weight)[][] Of)
{
    // What interpolation may leave of a coefficient, in parts of itself: below what a frequency shows.
    private const double Tolerance = 1e-7;
    private const double Negligible = 1e-12;

    /// <summary>Chooses stations among the places of one combination of regions, for each of them.</summary>
    /// <param name="places">All places.</param>
    /// <param name="designs">Sections at all places, one row a design.</param>
    internal static StationField Among(IReadOnlyList<SectionPlace> places, IReadOnlyList<IReadOnlyList<PlateSection>> designs)
    {
        var stations = new List<int>();
        var of = new (int, double)[places.Count][];
        foreach (IGrouping<string, int> part in Enumerable.Range(0, places.Count).GroupBy(p => string.Join(' ', places[p].Regions)))
        {
            int[] members = [.. part];
            if (members.Length == 1)
            {
                of[members[0]] = [(stations.Count, 1)];
                stations.Add(members[0]);
                continue;
            }

            Spanning spanning = Spanning.Of(Scaled([.. members.Select(p => designs.SelectMany(d => Coefficients(d[p])).ToArray())]), Tolerance);
            for (int i = 0; i < members.Length; i++)
            {
                of[members[i]] = [.. spanning.Weights[i].Select((w, k) => (stations.Count + k, w)).Where(w => Math.Abs(w.w) > Negligible)];
            }

            stations.AddRange(spanning.Chosen.Select(c => members[c]));
        }

        return new([.. stations], of);
    }

    // Newtons per metre and newton metres weigh alike once each coefficient is taken in parts of the largest that is met.
    private static double[][] Scaled(double[][] rows)
    {
        for (int j = 0; j < rows[0].Length; j++)
        {
            double most = rows.Max(r => Math.Abs(r[j]));
            foreach (double[] row in rows) { row[j] = most > 0 ? row[j] / most : 0; }
        }

        return rows;
    }

    private static IEnumerable<double> Coefficients(PlateSection section) => [.. section.Stiffness().Cast<double>(), .. section.Inertia().Cast<double>()];
}
