using SandwichMech.Core.Plates;
using SandwichMech.Core.Predictions;

namespace SandwichMech.Core.Acoustics;

/// <summary>The acoustics of a plate that is a little other than the one solved, without solving it.</summary>
/// <remarks>
/// Each mode keeps its shape: ω'² = (ω² + dC : strains)/(1 + dm : motions), Rayleigh's quotient, whose first derivative is exact (Fox &amp; Kapoor 1968). Its modal mass grows to 1 + dm : motions,
/// so that what it moves at unit modal mass falls by the root of that. How shapes themselves change, and with them what they move at the bridge and how a mode's
/// energy is shared among the materials, is left out: to first order in the frequencies alone. A rim acts on ln ω by its share of the energy. What the modes
/// left out give way goes with the highest mode's compliance. Boards drawn and then solved: first tone within 2 % where the edge is clamped, within 5 % on a rim, whose own spread is the largest.
/// </remarks>
internal static class ChangedAcoustics
{
    // However far the inputs go, something of a mode's stiffness and mass is left.
    private const double LeastLeft = 0.1;

    /// <summary>The changed plate.</summary>
    /// <param name="own">The plate as solved.</param>
    /// <param name="before">Its sections.</param>
    /// <param name="after">The changed ones.</param>
    /// <param name="rim">Shift of the logarithm of the rim's stiffness.</param>
    /// <param name="theory">Shift of the logarithm of all frequencies.</param>
    /// <param name="losses">Shift of each kind of loss, in its own standard deviations.</param>
    internal static BoardAcoustics Changed(
        this BoardAcoustics own, IReadOnlyList<PlateSection> before, IReadOnlyList<PlateSection> after, double rim, double theory, Func<LossKind, double> losses)
    {
        var modes = new SoundingMode[own.Modes.Count];
        double left = 1;
        for (int i = 0; i < modes.Length; i++)
        {
            SoundingMode mode = own.Modes[i];
            (double stiffness, double mass) = Factors(own.Products[i], before, after);
            double faster = Math.Sqrt(stiffness / mass) * Math.Exp(BoardModes.Rim(own.Products[i].Energy) / 2 * rim + theory), moves = 1 / Math.Sqrt(mass);
            modes[i] = new(mode.Frequency * faster, mode.AtBridge * moves, mode.Volume * moves, new(
            [
                .. mode.Loss.Parts.Select(p => p with { Value = p.Value with { Value =
                    p.Value.Value * Math.Exp(p.Value.Spread * losses(p.Kind)) * (p.Kind == LossKind.Radiation ? faster * moves * moves : 1) } }),
            ]));
            left = moves * moves / (faster * faster);
        }

        return BoardAcoustics.Of(own.Area, modes, own.Mobility.Residual * left, own.Volume.Residual * left);
    }

    private static (double Stiffness, double Mass) Factors(PlateMode mode, IReadOnlyList<PlateSection> before, IReadOnlyList<PlateSection> after)
    {
        double stiffness = 0, mass = 0;
        for (int r = 0; r < mode.Regions.Count; r++)
        {
            if (before[r] == after[r]) { continue; }
            stiffness += mode.Regions[r].Stiffness(after[r]) - mode.Regions[r].Stiffness(before[r]);
            mass += mode.Regions[r].Inertia(after[r]) - mode.Regions[r].Inertia(before[r]);
        }

        return (Math.Max(LeastLeft, 1 + stiffness / Math.Pow(2 * Math.PI * mode.Frequency, 2)), Math.Max(LeastLeft, 1 + mass));
    }
}
