namespace SandwichMech.Core.Outlines;

/// <summary>Where two curves, or two stretches of one, meet: in a point, or along a stretch on which they are one.</summary>
/// <param name="A">Place on the first curve; where they run together, the place where they are nearest.</param>
/// <param name="B">Place on the second curve.</param>
/// <param name="At">The point.</param>
/// <param name="Tangential">Whether the curves run the same way there: a touch, a grazing crossing or a common stretch.</param>
/// <param name="StartA">Where the common stretch begins on the first curve; <see cref="A"/> for a mere point.</param>
/// <param name="EndA">Where it ends there.</param>
/// <param name="StartB">The place on the second curve that belongs to <see cref="StartA"/>.</param>
/// <param name="EndB">The place on the second curve that belongs to <see cref="EndA"/>.</param>
public sealed record Meeting(double A, double B, Point At, bool Tangential, double StartA, double EndA, double StartB, double EndB)
{
    /// <summary>Whether the curves run together for a stretch.</summary>
    public bool IsShared => EndA > StartA;
}
