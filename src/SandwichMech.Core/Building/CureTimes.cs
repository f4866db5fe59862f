using SandwichMech.Core.Materials;

namespace SandwichMech.Core.Building;

/// <summary>An adhesive's times at the shop's temperature; each only where the adhesive's row has it.</summary>
/// <param name="FullVacuum">From the first stir to full vacuum at the latest, s.</param>
/// <param name="Unbag">From full vacuum until the bag may be opened, s.</param>
/// <param name="FullCure">Until it may be machined and sanded, s.</param>
public sealed record CureTimes(double? FullVacuum, double? Unbag, double? FullCure)
{
    /// <summary>The temperature that a row's times belong to where it does not say, K: 22 °C, a warm room.</summary>
    public const double Room = 273.15 + 22;

    private const double HalvesPer = 10;

    /// <summary>Times at a temperature.</summary>
    /// <remarks>Each halves per 10 K warmer: a rough rule of the trade, common practice, no source; good for a room, not for an oven.</remarks>
    /// <param name="adhesive">The adhesive.</param>
    /// <param name="temperature">K.</param>
    /// <returns>The times.</returns>
    public static CureTimes At(Adhesive adhesive, double temperature)
    {
        double factor = Math.Pow(2, ((adhesive.TimesAt ?? Room) - temperature) / HalvesPer);
        return new(adhesive.WorkingTime * factor, adhesive.UnbagTime * factor, adhesive.FullCureTime * factor);
    }
}
