using SandwichMech.Core.Choosing;
using SandwichMech.Core.Layups;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.UseCases;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Choices;

/// <summary>What is wrong with targets before anything is searched: they need what the board lacks, contradict each other, or lie outside what any of the boards reaches.</summary>
internal static class ChoiceChecks
{
    private const int MostCorners = 20_000;

    /// <summary>Checks.</summary>
    /// <exception cref="InputException">All that is wrong, each with the nearest that can be had.</exception>
    internal static void Of(BoardFile file, IReadOnlyList<ChoiceTarget> targets, IReadOnlyList<BoardKind> kinds, UnitSystem units)
    {
        Problem[] lacking = [.. targets.Select(t => Lacking(file, t)).OfType<string>().Distinct().Select(m => new Problem("--target", null, null, m))];
        if (lacking.Length > 0) { throw new InputException(lacking); }
        Problem[] wrong = [.. Contradictions(targets, units), .. targets.Select(t => OutOfReach(t, kinds, units)).OfType<Problem>()];
        if (wrong.Length > 0) { throw new InputException(wrong); }
    }

    private static string? Lacking(BoardFile file, ChoiceTarget t)
    {
        bool solid = file.Board.Solid.Thickness is not null;
        return t.NeedsPlate && file.Board.Shape is null && t.Figure != ChoiceFigure.Margin ? $"'{TypedTarget.Name(t)}' needs the board's outline: add [outline] with lower, waist and upper, and size.length"
            : t.OfSolid && !solid ? $"'solid' needs the solid top's thickness: add {BoardFields.SolidThickness.Name} to {file.Path}"
            : t.Figure == ChoiceFigure.Level && !solid ? $"a level is above the solid top's, so that needs its thickness: add {BoardFields.SolidThickness.Name} to {file.Path}"
            : t.Figure is ChoiceFigure.Mobility or ChoiceFigure.Level && OutlineSolving.Bridge(file.Board.Shape!) is null ? $"'{TypedTarget.Name(t)}' needs the place where the strings push: add [bridge_patch] with along, across and at, or a bridge"
            : null;
    }

    private static IEnumerable<Problem> Contradictions(IReadOnlyList<ChoiceTarget> targets, UnitSystem units)
    {
        for (int i = 0; i < targets.Count; i++)
        {
            for (int j = i + 1; j < targets.Count; j++)
            {
                (ChoiceTarget a, ChoiceTarget b) = (targets[i], targets[j]);
                if ((a.Figure, a.Mode, a.Edge, a.OfSolid) != (b.Figure, b.Mode, b.Edge, b.OfSolid)) { continue; }
                ((double aLow, double aHigh), (double bLow, double bHigh)) = (Ends(a), Ends(b));
                if (aLow > bHigh || bLow > aHigh)
                {
                    yield return new("--target", null, null, $"'{TypedTarget.Words(a, units)}' and '{TypedTarget.Words(b, units)}' contradict each other: no board can be both; take one of them away, or loosen it");
                }
            }
        }

        static (double Low, double High) Ends(ChoiceTarget t) => t.Aim is { } aim ? (aim, aim) : (t.Least ?? double.NegativeInfinity, t.Most ?? double.PositiveInfinity);
    }

    // At the medians, of layups only: what plates reach is found by the search.
    private static Problem? OutOfReach(ChoiceTarget target, IReadOnlyList<BoardKind> kinds, UnitSystem units)
    {
        if (target.NeedsPlate) { return null; }
        double[] figures = [.. Corners(kinds, target).Select(b => LayupReach.Of(target, b))];
        (double low, double high) = (figures.Min(), figures.Max());
        (double least, double most) = target.Aim is { } aim ? (aim / (1 + target.Tolerance), aim * (1 + target.Tolerance)) : (target.Least ?? 0, target.Most ?? double.PositiveInfinity);
        return high < least ? Say($"none of these boards has more than {TypedTarget.Figure(target, high, units)}")
            : low > most ? Say($"none of these boards has less than {TypedTarget.Figure(target, low, units)}")
            : null;

        Problem Say(string nearest) => new("--target", null, null, $"'{TypedTarget.Words(target, units)}' is out of reach: {nearest}; allow {(high < least ? "thicker" : "thinner")} parts or other woods, or loosen it");
    }

    // Stiffness and mass rise with each thickness, so that the ends of the ranges hold the extremes; a ratio may have its own between.
    private static IEnumerable<Board> Corners(IReadOnlyList<BoardKind> kinds, ChoiceTarget target)
    {
        bool all = target.Figure == ChoiceFigure.StiffnessRatio && kinds.Sum(k => k.Outer.Count * k.Inner.Count) <= MostCorners;
        return kinds.SelectMany(k => Some(k.Variant.Outer).SelectMany(o => Some(k.Variant.Inner).Select(i => k.Variant.Board with
        {
            Outer = k.Variant.Board.Outer with { Thickness = k.Variant.Board.Outer.Thickness.MovedTo(o) },
            Inner = k.Variant.Board.Inner with { Thickness = k.Variant.Board.Inner.Thickness.MovedTo(i) },
        })));

        IEnumerable<double> Some(IReadOnlyList<double> values) => all || values.Count < 3 ? values : [values[0], values[^1]];
    }
}
