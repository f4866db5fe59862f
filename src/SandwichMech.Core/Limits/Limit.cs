using SandwichMech.Core.Outlines;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Limits;

/// <summary>What a limit's load and resistance are.</summary>
public enum LimitKind
{
    /// <summary>Stresses, Pa.</summary>
    Stress,
    /// <summary>Forces per width, N/m.</summary>
    LineForce,
    /// <summary>Deflections, m.</summary>
    Depth,
}

/// <summary>One way in which a board can fail or be spoiled, and how far it is from it.</summary>
/// <param name="Name">In the maker's words.</param>
/// <param name="Kind">What load and resistance are.</param>
/// <param name="Governing">Where and in which direction it is nearest.</param>
/// <param name="At">Where on the board; nothing where it is everywhere or not known.</param>
/// <param name="Load">What it has to bear, positive; nothing where none was given or none acts this way.</param>
/// <param name="Resistance">What it bears; nothing where no source gives it.</param>
/// <param name="Margin">Resistance over load; nothing where either is missing.</param>
/// <param name="ChanceExceeded">Chance that the margin is below 1, log-normal.</param>
/// <param name="KnockDown">Factor on the theory's perfect value that the resistance holds; 1 where it is a measured strength.</param>
/// <param name="Source">Where the formula and the strength come from.</param>
/// <param name="Notes">What to know: validity, judgement, what is missing.</param>
public sealed record Limit(
    string Name, LimitKind Kind, string Governing, Point? At, Prediction? Load, Prediction? Resistance, Prediction? Margin, double? ChanceExceeded,
    double KnockDown, string Source, IReadOnlyList<string> Notes);

/// <summary>All limits of a board.</summary>
/// <param name="Limits">In the order of building: press first, then strings.</param>
public sealed record LimitReport(IReadOnlyList<Limit> Limits)
{
    /// <summary>The limit that is likeliest to be passed; nothing where none is known. What is not known stays outside, and has to be said beside it.</summary>
    public Limit? Governing => Limits.Where(l => l.ChanceExceeded is not null).OrderByDescending(l => l.ChanceExceeded).ThenBy(l => l.Margin!.Value).FirstOrDefault();

    /// <summary>Limits whose resistance no source gives.</summary>
    public IReadOnlyList<Limit> NotKnown => [.. Limits.Where(l => l.Resistance is null)];
}
