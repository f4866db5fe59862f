using SandwichMech.Core.Layups;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Choosing;

/// <summary>What is to be chosen.</summary>
public sealed record ChoiceWish
{
    /// <summary>The kinds that can be chosen among, with their thicknesses.</summary>
    public required IReadOnlyList<ChoiceVariant> Variants { get; init; }
    /// <summary>What the board has to reach; none: the lightest at all.</summary>
    public required IReadOnlyList<ChoiceTarget> Targets { get; init; }
    /// <summary>Chance with which all bounds have to hold together.</summary>
    public required double Sure { get; init; }
    /// <summary>The same seed draws the same numbers.</summary>
    public int Seed { get; init; }
    /// <summary>What plates are asked for; nothing where no target needs one.</summary>
    public PlateWish? Plate { get; init; }
    /// <summary>Points wanted of the front.</summary>
    public int FrontPoints { get; init; } = 9;
}

/// <summary>How a board stands to one target.</summary>
/// <param name="Target">The target.</param>
/// <param name="Figure">The board's figure, in its unit or times the solid top's, with intervals and sources.</param>
/// <param name="Chance">Chance of this target alone; of an aim, to fall within its tolerance.</param>
public sealed record TargetOutcome(ChoiceTarget Target, Prediction Figure, double Chance);

/// <summary>A board that was looked at.</summary>
/// <param name="At">Which.</param>
/// <param name="Board">The board.</param>
/// <param name="Mass">kg at the medians.</param>
/// <param name="Chance">Chance to meet all bounds together.</param>
/// <param name="Outcomes">One a target.</param>
/// <param name="Solved">Whether its own plate was solved; false where figures are told from a solved board near it.</param>
public sealed record ChosenBoard(Candidate At, Board Board, double Mass, double Chance, IReadOnlyList<TargetOutcome> Outcomes, bool Solved);

/// <summary>A target that stands in the way: what the others allow of it.</summary>
/// <param name="Target">Number of the target.</param>
/// <param name="Bound">Bound, in its unit or times the solid top's, with which a board that meets all others would do.</param>
/// <param name="IsLeast">Whether it is the lower bound that has to give way.</param>
/// <param name="With">That board.</param>
public sealed record Obstacle(int Target, double Bound, bool IsLeast, ChosenBoard With);

/// <summary>What was chosen.</summary>
/// <param name="Best">The lightest board that meets all; nothing where none does.</param>
/// <param name="Others">The lightest of other kinds that meet all, lightest first; told from solved boards where plates are needed.</param>
/// <param name="Front">Boards than which none is both lighter and stiffer, of those that meet all targets but the stiffnesses; lightest first.</param>
/// <param name="Obstacles">Where none meets all: which target would have to give way, and how far, the least first.</param>
/// <param name="Nearest">Where none meets all: the board that is likeliest to.</param>
/// <param name="Tolerances">Which thickness of the best matters how much; nothing without one.</param>
/// <param name="Boards">How many there were to choose among.</param>
/// <param name="Solves">Plates solved.</param>
public sealed record Choice(
    ChosenBoard? Best, IReadOnlyList<ChosenBoard> Others, IReadOnlyList<FrontPoint> Front, IReadOnlyList<Obstacle> Obstacles, ChosenBoard? Nearest, Tolerances? Tolerances, int Boards, int Solves);

/// <summary>Chooses the lightest board that meets its targets.</summary>
/// <remarks>
/// Boards are gone through from the lightest on, so that the first one that meets all targets is the answer, on the maker's own steps: no rounding of an optimum between them. Layups are cheap and looked at
/// one and all. A plate is solved only where what is told from a solved board near (<see cref="PlateFigures"/>) leaves it open whether the board meets
/// its targets, and never is a board taken that was not solved itself.
/// </remarks>
public static class Choose
{
    /// <summary>Chooses.</summary>
    /// <param name="wish">Among what, and for what.</param>
    /// <param name="progress">Told in words what is done, and its share.</param>
    /// <returns>The best board, what else there is, or what stands in the way.</returns>
    public static Choice Among(ChoiceWish wish, Action<string, double>? progress = null)
    {
        var search = new ChoiceSearch(wish, progress ?? ((_, _) => { }));
        ChosenBoard? best = search.Lightest();
        IReadOnlyList<ChosenBoard> others = best is null ? [] : search.OfOtherKinds(best);
        IReadOnlyList<FrontPoint> front = best is null ? [] : new ChoiceFront(search).Of(best);
        (IReadOnlyList<Obstacle> obstacles, ChosenBoard? nearest) = best is null ? new ChoiceObstacles(search).Find() : ([], null);
        Tolerances? tolerances = best is null ? null : Tolerances.Of(search, best.Board, search.Solve(best.At));
        return new(best, others, front, obstacles, nearest, tolerances, search.Space.Count, search.Solves);
    }

    /// <summary>All boards of a wish, each with its own plate, in the order of variants and thicknesses.</summary>
    /// <param name="wish">Few boards: a plate is solved for each where a target needs one.</param>
    /// <param name="progress">Told in words what is done, and its share.</param>
    /// <returns>How each stands to the targets.</returns>
    public static IReadOnlyList<ChosenBoard> Each(ChoiceWish wish, Action<string, double>? progress = null)
    {
        var search = new ChoiceSearch(wish, progress ?? ((_, _) => { }));
        return [.. Enumerable.Range(0, search.Space.Count).Select(i =>
        {
            progress?.Invoke("boards looked at", (double)i / search.Space.Count);
            return search.Shown(search.Space.At(i), search.Solve(search.Space.At(i)), solved: true);
        })];
    }

    /// <summary>The stiffness that mass is traded for: of the first target that speaks of one, else along.</summary>
    /// <param name="targets">The targets.</param>
    /// <returns>Which.</returns>
    public static ChoiceFigure Traded(IReadOnlyList<ChoiceTarget> targets) => targets.FirstOrDefault(t => t.IsStiffness)?.Figure ?? ChoiceFigure.StiffnessAlong;

    /// <summary>A layup's stiffness.</summary>
    /// <param name="laminate">The layup.</param>
    /// <param name="which">Along, across or twist.</param>
    /// <returns>N·m.</returns>
    public static double Traded(Laminate laminate, ChoiceFigure which) => which switch
    {
        ChoiceFigure.StiffnessAcross => laminate.Bending.M22,
        ChoiceFigure.StiffnessTwist => laminate.Bending.M66,
        _ => laminate.Bending.M11,
    };
}
