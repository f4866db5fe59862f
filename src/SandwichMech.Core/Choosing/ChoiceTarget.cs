using SandwichMech.Core.Layups;

namespace SandwichMech.Core.Choosing;

/// <summary>What a target speaks of.</summary>
public enum ChoiceFigure
{
    /// <summary>D11 of D − BA⁻¹B, N·m.</summary>
    StiffnessAlong,
    /// <summary>D22, N·m.</summary>
    StiffnessAcross,
    /// <summary>D66, N·m.</summary>
    StiffnessTwist,
    /// <summary>D11/D22.</summary>
    StiffnessRatio,
    /// <summary>Of the sandwich, kg/m².</summary>
    ArealDensity,
    /// <summary>Of the whole board, kg.</summary>
    Mass,
    /// <summary>Frequency of a mode in air, Hz, modes in the order of their frequencies.</summary>
    Mode,
    /// <summary>Geometric mean of the mobility at the bridge over its curve, s/kg.</summary>
    Mobility,
    /// <summary>Level of the air that it moves above that of the solid top in the same frame, dB.</summary>
    Level,
    /// <summary>The smallest of the known margins.</summary>
    Margin,
}

/// <summary>What a board has to reach. Least and most have to hold with the wanted chance; an aim holds at the median, since no spread fits into a tolerance.</summary>
/// <param name="Figure">Of what.</param>
public sealed record ChoiceTarget(ChoiceFigure Figure)
{
    /// <summary>Number of the mode, from 1.</summary>
    public int Mode { get; init; } = 1;
    /// <summary>How the edge is held for modes, mobility and level; nothing: as the board's, a rim for the last two where that is free.</summary>
    public EdgeHold? Edge { get; init; }
    /// <summary>Whether the bounds are times the solid top's own figure.</summary>
    public bool OfSolid { get; init; }
    /// <summary>At least, in the figure's unit, or times the solid top's.</summary>
    public double? Least { get; init; }
    /// <summary>At most.</summary>
    public double? Most { get; init; }
    /// <summary>Equal to.</summary>
    public double? Aim { get; init; }
    /// <summary>How near an aim is near enough: a share of it, or dB of a level.</summary>
    public double Tolerance { get; init; } = 0.03;

    /// <summary>Whether the plate has to be solved for it.</summary>
    public bool NeedsPlate => Figure >= ChoiceFigure.Mode;

    /// <summary>Whether it is one of the bending stiffnesses, which mass is traded for.</summary>
    public bool IsStiffness => Figure is ChoiceFigure.StiffnessAlong or ChoiceFigure.StiffnessAcross or ChoiceFigure.StiffnessTwist;

    /// <summary>A figure in the scale in which its spread is normal: its logarithm, or the decibels themselves.</summary>
    /// <param name="figure">In its unit.</param>
    /// <returns>The scaled figure.</returns>
    public double Scaled(double figure) => Figure == ChoiceFigure.Level ? figure : Math.Log(figure);

    /// <summary>The other way.</summary>
    /// <param name="scaled">A scaled figure.</param>
    /// <returns>In its unit.</returns>
    public double Figured(double scaled) => Figure == ChoiceFigure.Level ? scaled : Math.Exp(scaled);

    internal double Low => Least is { } least ? Scaled(least) : double.NegativeInfinity;

    internal double High => Most is { } most ? Scaled(most) : double.PositiveInfinity;

    internal double Nearness => Figure == ChoiceFigure.Level ? Tolerance : Math.Log(1 + Tolerance);

    /// <summary>How far a scaled figure is outside what the target allows at the median: 0 inside.</summary>
    internal double Off(double scaled) => Aim is { } aim
        ? Math.Max(0, Math.Abs(scaled - Scaled(aim)) - Nearness)
        : Math.Max(0, Math.Max(Low - scaled, scaled - High));

    /// <summary>The figure within an error of a scaled one that serves the target best.</summary>
    internal double Kindest(double scaled, double error) => Aim is { } aim
        ? Math.Clamp(Scaled(aim), scaled - error, scaled + error)
        : Least is null ? scaled - error
        : Most is null ? scaled + error
        : Math.Clamp((Low + High) / 2, scaled - error, scaled + error);
}

/// <summary>A figure of one board for one target, with what one standard deviation of each of the board's inputs does to it.</summary>
/// <param name="Value">Scaled (<see cref="ChoiceTarget.Scaled"/>).</param>
/// <param name="Effects">Changes for one standard deviation of each input, in the order of the board's inputs.</param>
/// <param name="Own">Standard deviation of what is the figure's own: the model's error.</param>
internal sealed record ChoiceValue(double Value, double[] Effects, double Own)
{
    /// <summary>Standard deviation.</summary>
    internal double Spread => Math.Sqrt(Effects.Sum(e => e * e) + Own * Own);
}
