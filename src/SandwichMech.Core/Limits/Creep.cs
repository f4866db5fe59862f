namespace SandwichMech.Core.Limits;

/// <summary>How much more a board gives way under a load that stays: a factor on its deflection at first.</summary>
/// <remarks>
/// Wood: K_cr 1.5 for seasoned wood in dry use, 2.0 for wet (NDS); creep under a load that stays may equal the deflection at first (Wood Handbook,
/// FPL-GTR-282); both from memory. No source was found for any core.
/// </remarks>
public static class Creep
{
    /// <summary>Least factor on the deflection.</summary>
    public const double Least = 1.5;

    /// <summary>Usual largest factor.</summary>
    public const double Largest = 2;

    /// <summary>Where both come from, in words.</summary>
    public const string Source =
        "Wood Handbook FPL-GTR-282: creep under a load that stays may equal the deflection at first; NDS: 1.5 for seasoned wood in dry use (both from memory); no source for cores";
}
