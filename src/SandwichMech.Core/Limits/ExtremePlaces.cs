using SandwichMech.Core.Layups;

namespace SandwichMech.Core.Limits;

/// <summary>Of many loaded places those at which some limit of a board may govern.</summary>
internal static class ExtremePlaces
{
    /// <summary>Places that are largest in some stress or force, each direction for itself; what is resisted alike everywhere governs at one of them.</summary>
    /// <param name="board">The board.</param>
    /// <param name="places">All places.</param>
    /// <param name="directions">In which buckling is looked at, rad.</param>
    internal static IReadOnlyList<LoadedPlace> Of(Board board, IReadOnlyList<LoadedPlace> places, IReadOnlyList<double> directions)
    {
        if (places.Count <= directions.Count) { return places; }
        Laminate laminate = board.Laminate();
        var kept = new SortedSet<int>();
        double[][] measures = [.. places.Select(p => Measures(board, laminate, p, directions))];
        for (int m = 0; m < measures[0].Length; m++)
        {
            int most = 0;
            for (int i = 1; i < measures.Length; i++) { most = measures[i][m] > measures[most][m] ? i : most; }
            kept.Add(most);
        }

        return [.. kept.Select(i => places[i])];
    }

    private static double[] Measures(Board board, Laminate laminate, LoadedPlace place, IReadOnlyList<double> directions)
    {
        var state = LaminateState.Under(laminate, place.Force, place.Moment);
        double ribbon = board.Core.RibbonAngle, c = Math.Cos(ribbon), s = Math.Sin(ribbon);
        int outer = laminate.Plies.Count - 1;
        InPlane inside = state.Stress(0, 0.5).SeenFrom(-board.Inner.GrainAngle), outside = state.Stress(outer, 0.5).SeenFrom(-board.Outer.GrainAngle);
        InPlane[] faces = [state.Stress(0, 0), state.Stress(0, 1), state.Stress(outer, 0), state.Stress(outer, 1)];
        return
        [
            .. directions.SelectMany(d => new[] { -inside.SeenFrom(d).X, -outside.SeenFrom(d).X, -place.Force.SeenFrom(d).X }),
            .. faces.SelectMany(f => new[] { f.X, -f.X, f.Y, -f.Y }),
            Math.Abs(place.ShearAlong * c + place.ShearAcross * s),
            Math.Abs(place.ShearAcross * c - place.ShearAlong * s),
        ];
    }
}
