using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Materials;

/// <summary>What moisture does to wood: its content from the room's air, and how density and moduli follow it.</summary>
public static class Moisture
{
    // Relative change of the logarithm a percent of moisture: from +9 % and +20 % between 12 % and 6 % (Wood Handbook, FPL-GTR-282,
    // table 5-13, middle trends of Gerhards 1982; from memory).
    private static readonly double Along = Math.Log(1.09) / 6, Across = Math.Log(1.20) / 6;

    // Shrinkage in volume from green to dry of Sitka spruce (Wood Handbook, table 4-3, from memory); softwoods for soundboards lie between 7 and 12 %.
    private const double VolumeShrinkage = 0.115, FibreSaturation = 30;

    /// <summary>Moisture content that wood comes to in air.</summary>
    /// <remarks>Wood Handbook, FPL-GTR-282, equation 4-5 (Hailwood &amp; Horrobin 1946; from memory, checked against table 4-2).</remarks>
    /// <param name="humidity">Relative humidity, percent, 0 to 100.</param>
    /// <param name="temperature">°C.</param>
    /// <returns>Percent of the dry mass.</returns>
    public static double Equilibrium(double humidity, double temperature)
    {
        double t = temperature, h = humidity / 100;
        double w = 349 + 1.29 * t + 0.0135 * t * t, k = 0.805 + 0.000736 * t - 0.00000273 * t * t;
        double k1 = 6.27 - 0.00938 * t - 0.000303 * t * t, k2 = 1.91 + 0.0407 * t - 0.000293 * t * t;
        double kh = k * h, both = k1 * kh + 2 * k1 * k2 * kh * kh;
        return 1800 / w * (kh / (1 - kh) + both / (1 + k1 * kh + k1 * k2 * kh * kh));
    }

    /// <summary>A wood at another moisture content than its values belong to.</summary>
    /// <param name="wood">The wood, at its own content.</param>
    /// <param name="percent">Percent of the dry mass, from 0; beyond fibre saturation nothing stiffens or swells.</param>
    /// <returns>The wood with density and moduli at that content.</returns>
    public static Wood At(Wood wood, double percent)
    {
        double drier = Math.Min(wood.MoisturePercent, FibreSaturation) - Math.Min(percent, FibreSaturation);
        double along = Math.Exp(Along * drier), ratio = Math.Exp((Across - Along) * drier);
        return wood with
        {
            Density = wood.Density.Times((100 + percent) / (100 + wood.MoisturePercent) * Volume(wood.MoisturePercent) / Volume(percent)),
            EL = wood.EL.Times(along),
            ErOverEl = wood.ErOverEl.Times(ratio),
            EtOverEl = wood.EtOverEl.Times(ratio),
            GlrOverEl = wood.GlrOverEl.Times(ratio),
            GltOverEl = wood.GltOverEl.Times(ratio),
            GrtOverEl = wood.GrtOverEl.Times(ratio),
            MoisturePercent = percent,
        };
    }

    /// <summary>
    /// Shrinkage along the grain from green to dry: 0.1 to 0.2 % for most woods (Wood Handbook, chapter 4, from memory). The spread is judgement.
    /// </summary>
    public static readonly Estimate ShrinkageAlong = new(0.0015, 0.5);

    /// <summary>Growth of wood in one direction between two moisture contents.</summary>
    /// <remarks>Straight from dry to fibre saturation at 30 % (Wood Handbook, chapter 4: S = S₀ (30 − M)/30; from memory).</remarks>
    /// <param name="shrinkage">S₀ from green to dry in this direction, a share.</param>
    /// <param name="from">Percent of the dry mass.</param>
    /// <param name="to">Percent of the dry mass.</param>
    /// <returns>Strain, positive where it grows.</returns>
    public static double Growth(double shrinkage, double from, double to)
    {
        double Size(double percent) => 1 - shrinkage * (1 - Math.Min(percent, FibreSaturation) / FibreSaturation);
        return Size(to) / Size(from) - 1;
    }

    private static double Volume(double percent) => 1 - VolumeShrinkage * (1 - Math.Min(percent, FibreSaturation) / FibreSaturation);
}
