using SandwichMech.Core.Layups;

namespace SandwichMech.Core.Plates.Reduced;

/// <summary>One coefficient of the plate's matrices.</summary>
/// <param name="Station">Number of the station whose section gives it; −1 of what the rim's spring follows.</param>
/// <param name="First">Strain, or motion, i.</param>
/// <param name="Second">Strain, or motion, j ≥ i.</param>
public sealed record CoefficientTerm(int Station, int First, int Second);

/// <summary>Reads coefficients from a board: C_ij and inertia of the sections at a few stations, and the spring of a rim.</summary>
/// <param name="Stations">Where sections are asked for.</param>
/// <param name="Stiffness">Terms of the stiffness.</param>
/// <param name="Inertia">Terms of the mass.</param>
internal sealed record CoefficientTerms(IReadOnlyList<SectionPlace> Stations, IReadOnlyList<CoefficientTerm> Stiffness, IReadOnlyList<CoefficientTerm> Inertia)
{
    internal const int OfRim = -1;

    // Against the coefficients on the diagonal: what a turned ply leaves of a zero.
    private const double Negligible = 1e-13;

    /// <summary>All coefficients that are met in some of the designs.</summary>
    internal static CoefficientTerms MetIn(IReadOnlyList<SectionPlace> stations, IReadOnlyList<IReadOnlyList<PlateSection>> designs, bool hasRim)
    {
        var stiffness = new List<CoefficientTerm>();
        var inertia = new List<CoefficientTerm>();
        for (int s = 0; s < stations.Count; s++)
        {
            stiffness.AddRange(Met(s, PlateStrains.Count, [.. designs.Select(d => d[s].Stiffness())]));
            inertia.AddRange(Met(s, PlateStrains.Motions, [.. designs.Select(d => d[s].Inertia())]));
        }

        if (hasRim) { stiffness.Add(new(OfRim, 0, 0)); }
        return new(stations, stiffness, inertia);
    }

    /// <summary>Coefficients of sections at the stations.</summary>
    internal (double[] Stiffness, double[] Inertia) Of(IReadOnlyList<PlateSection> sections, double rim)
    {
        double[] stiffness = new double[Stiffness.Count], inertia = new double[Inertia.Count];
        double[,] c = new double[0, 0];
        for (int t = 0, at = OfRim; t < stiffness.Length; t++)
        {
            CoefficientTerm term = Stiffness[t];
            if (term.Station != OfRim && term.Station != at) { c = sections[at = term.Station].Stiffness(); }
            stiffness[t] = term.Station == OfRim ? rim : c[term.First, term.Second];
        }

        for (int t = 0, at = OfRim; t < inertia.Length; t++)
        {
            CoefficientTerm term = Inertia[t];
            if (term.Station != at) { c = sections[at = term.Station].Inertia(); }
            inertia[t] = c[term.First, term.Second];
        }

        return (stiffness, inertia);
    }

    /// <summary>What a rim's spring follows, N·m; 0 where none of the edge is on a rim.</summary>
    internal static double Rim(Board board) => HasRim(board.Shape!) ? BoardPlate.BendingBesideRim(board) : 0;

    /// <summary>Whether some of the edge is on a rim.</summary>
    internal static bool HasRim(BoardShape shape) => shape.IsHeld(EdgeHold.Rim, shape.Edge);

    private static IEnumerable<CoefficientTerm> Met(int station, int size, double[][,] designs)
    {
        for (int i = 0; i < size; i++)
        {
            for (int j = i; j < size; j++)
            {
                int first = i, second = j;
                if (designs.Any(c => Math.Abs(c[first, second]) > Negligible * Math.Sqrt(c[first, first] * c[second, second]))) { yield return new(station, i, j); }
            }
        }
    }
}
