namespace SandwichMech.Core.Plates.Reduced;

/// <summary>Coefficients of all stations by few of them: those of each station by few of its own, and these by few of all.</summary>
/// <remarks>Within a station what goes together is plain (a bar's stretching stiffnesses, say), so that each coefficient is a sum of one or two; among stations it is not.</remarks>
/// <param name="Chosen">Numbers of the terms that all others are sums of.</param>
/// <param name="Own">For each station, its own few.</param>
internal sealed record SpannedTerms(int[] Chosen, IReadOnlyList<StationTerm> Own)
{
    /// <summary>Every term by itself.</summary>
    /// <param name="terms">All terms.</param>
    internal static SpannedTerms Each(IReadOnlyList<CoefficientTerm> terms) =>
        new([.. Enumerable.Range(0, terms.Count)], [.. terms.Select((t, k) => new StationTerm(t.Station, [new(t.First, t.Second, 1)], [(k, 1)]))]);

    /// <summary>Chooses.</summary>
    /// <param name="terms">All terms.</param>
    /// <param name="values">[term][design].</param>
    /// <param name="tolerance">What may be left of a term, in parts of its own norm.</param>
    internal static SpannedTerms Of(IReadOnlyList<CoefficientTerm> terms, IReadOnlyList<double[]> values, double tolerance)
    {
        var own = new List<(int Term, int Station, StationPart[] Parts)>();
        foreach (IGrouping<int, int> station in Enumerable.Range(0, terms.Count).GroupBy(t => terms[t].Station))
        {
            int[] members = [.. station];
            Spanning within = Spanning.Of([.. members.Select(t => values[t])], tolerance);
            for (int k = 0; k < within.Chosen.Length; k++)
            {
                StationPart[] parts = [.. members.Select((t, i) => new StationPart(terms[t].First, terms[t].Second, within.Weights[i][k])).Where(p => p.Weight != 0)];
                own.Add((members[within.Chosen[k]], station.Key, parts));
            }
        }

        Spanning among = Spanning.Of([.. own.Select(o => values[o.Term])], tolerance);
        return new(
            [.. among.Chosen.Select(c => own[c].Term)],
            [.. own.Select((o, i) => new StationTerm(o.Station, o.Parts, [.. among.Weights[i].Select((w, k) => (k, w)).Where(a => a.w != 0)]))]);
    }
}

/// <summary>A pair of strains, or of motions, with its part of a station's term.</summary>
/// <param name="First">The first.</param>
/// <param name="Second">The second.</param>
/// <param name="Weight">Its coefficient over the term's.</param>
internal sealed record StationPart(int First, int Second, double Weight);

/// <summary>A term of a station.</summary>
/// <param name="Station">Its number.</param>
/// <param name="Parts">The pairs that go with it.</param>
/// <param name="Adds">What it adds to each kept term's matrix.</param>
internal sealed record StationTerm(int Station, StationPart[] Parts, (int Kept, double Weight)[] Adds);
