using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates;

/// <summary>What may be wrong with a domain.</summary>
public enum DomainFault
{
    /// <summary>The outline or a hole is not closed.</summary>
    Open,
    /// <summary>The outline or a hole crosses or touches itself.</summary>
    SelfCrossing,
    /// <summary>The outline or a hole encloses next to nothing.</summary>
    Tiny,
    /// <summary>A hole lies outside the outline.</summary>
    HoleOutside,
    /// <summary>A hole reaches the outline or another hole.</summary>
    HoleAtEdge,
    /// <summary>Holes cut the board in two.</summary>
    CutInTwo,
    /// <summary>A border lies wholly outside the board.</summary>
    BorderOutside,
    /// <summary>The mesh size is out of reach.</summary>
    Size,
    /// <summary>Curves come so close or bend so sharply that no sound triangle fits.</summary>
    TooTight,
}

/// <summary>One thing that is wrong with a domain.</summary>
/// <param name="Fault">What kind.</param>
/// <param name="Curve">Which curve, as numbered by <see cref="MeshDomain.Curves"/>.</param>
/// <param name="Where">A place to look at.</param>
/// <param name="Message">One plain line: what, where, why, how to mend it.</param>
public sealed record DomainProblem(DomainFault Fault, int Curve, Point Where, string Message);

/// <summary>A domain that cannot be meshed.</summary>
public sealed class DomainException : Exception
{
    /// <summary>Reports problems.</summary>
    /// <param name="problems">One or more.</param>
    public DomainException(IReadOnlyList<DomainProblem> problems)
        : base(string.Join(" ", problems.Select(p => p.Message))) => Problems = problems;

    /// <summary>All that was found.</summary>
    public IReadOnlyList<DomainProblem> Problems { get; }
}
