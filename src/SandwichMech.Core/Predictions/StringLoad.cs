namespace SandwichMech.Core.Predictions;

/// <summary>What all strings together do to the bridge.</summary>
/// <remarks>
/// Tied to the bridge they pull it towards the nut with their tension, at their height above the board; what the saddle presses down the tie pulls up.
/// Led over it to a tailpiece, with a break angle α and level in front, they press with T sin α and pull with T (1 − cos α) only.
/// </remarks>
/// <param name="Tension">T: sum over the strings, N.</param>
/// <param name="Height">Of the strings above the board's outer face at the bridge, m.</param>
/// <param name="BreakAngle">α, rad; nothing where the strings are tied to the bridge.</param>
public sealed record StringLoad(double Tension, double Height, double? BreakAngle)
{
    /// <summary>Force towards the nut, N.</summary>
    public double Pull => BreakAngle is { } a ? Tension * (1 - Math.Cos(a)) : Tension;

    /// <summary>Force onto the board, N.</summary>
    public double Down => BreakAngle is { } a ? Tension * Math.Sin(a) : 0;
}
