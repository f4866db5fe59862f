using SandwichMech.Core.Layups;

namespace SandwichMech.Core.Choosing;

/// <summary>A board of the front between mass and stiffness.</summary>
/// <param name="Board">The board.</param>
/// <param name="Mass">kg.</param>
/// <param name="Stiffness">Of what is traded (<see cref="Choose.Traded(IReadOnlyList{ChoiceTarget})"/>), N·m.</param>
/// <param name="Chance">Chance that all bounds hold together, whatever aims ask for.</param>
/// <param name="Level">Level that the way its layup goes makes of the chosen board's, dB above it.</param>
public sealed record FrontPoint(ChosenBoard Board, double Mass, double Stiffness, double Chance, double Level);

/// <summary>Finds what lightness costs in stiffness: boards than which none is both lighter and stiffer.</summary>
internal sealed class ChoiceFront(ChoiceSearch search)
{
    // So much heavier than the chosen board is far enough, and so much softer.
    private const double Heavier = 1.35, Softer = 0.6;
    private const int Chunk = 2048;

    internal IReadOnlyList<FrontPoint> Of(ChosenBoard best)
    {
        ChoiceFigure traded = Choose.Traded(search.Wish.Targets);
        double least = Softer * Stiffness(best.Board, traded), top = double.NegativeInfinity;
        var line = new List<(Candidate At, double Mass, double Stiffness)>();
        int[] order = [.. search.Space.Lightest.TakeWhile(n => search.Space.MassAt(search.Space.At(n)) <= Heavier * best.Mass)];
        for (int from = 0; from < order.Length; from += Chunk)
        {
            int[] some = order[from..Math.Min(order.Length, from + Chunk)];
            double[] stiffness = new double[some.Length];
            Parallel.For(0, some.Length, i => stiffness[i] = Stiffness(search.Space.BoardAt(search.Space.At(some[i])), traded));
            for (int i = 0; i < some.Length; i++)
            {
                Candidate at = search.Space.At(some[i]);
                if (stiffness[i] < least || stiffness[i] <= top * (1 + 1e-9) || !MeetsOthers(at)) { continue; }
                top = stiffness[i];
                line.Add((at, search.Space.MassAt(at), top));
            }

            search.Tell("front of mass and stiffness", (double)from / order.Length);
        }

        return [.. Thinned(line).Select(p => Point(best, p.At, p.Mass, p.Stiffness))];
    }

    private FrontPoint Point(ChosenBoard best, Candidate at, double mass, double stiffness)
    {
        (ChoiceValue[] values, bool solved) = search.Values(at)!.Value;
        ChosenBoard board = search.Shown(at, values, solved);
        return new(board, mass, stiffness, search.ChanceOfBounds(values), Way(board.Board) - Way(best.Board));
    }

    // Even steps of stiffness.
    private IEnumerable<(Candidate At, double Mass, double Stiffness)> Thinned(List<(Candidate At, double Mass, double Stiffness)> line)
    {
        int points = search.Wish.FrontPoints;
        if (line.Count <= points) { return line; }
        double low = Math.Log(line[0].Stiffness), step = (Math.Log(line[^1].Stiffness) - low) / (points - 1);
        return Enumerable.Range(0, points).Select(i => line.MinBy(p => Math.Abs(Math.Log(p.Stiffness) - low - i * step))).Distinct();
    }

    private bool MeetsOthers(Candidate at)
    {
        if (search.Values(at) is not var (values, _)) { return false; }
        return search.Wish.Targets.Zip(values, (t, v) => t.IsStiffness || (t.Aim is null ? JointChance.Alone(t, v) >= search.Wish.Sure : t.Off(v.Value) == 0)).All(x => x);
    }

    private static double Stiffness(Board board, ChoiceFigure which) => Choose.Traded(board.UnderWeight().Laminate(), which);

    private static double Way(Board board) => new LayupFigures([new(ChoiceFigure.Level)]).Nominal((board with { Solid = board.Solid with { Thickness = null } }).UnderWeight())[0];
}
