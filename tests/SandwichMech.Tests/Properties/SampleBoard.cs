using SandwichMech.Core.Layups;
using SandwichMech.Core.Materials;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Tests.Properties;

/// <summary>An invented board of real materials: spruce outside, cedar inside, aramid-paper honeycomb between.</summary>
/// <remarks>
/// Wood: Wood Handbook FPL-GTR-282 (2021), Tables 5-1 to 5-3b (cedar's ratios from memory). Core: 3.2 mm cells, 28.8 kg/m³,
/// from its data sheet. Adhesive: common practice, no source. Sizes invented.
/// </remarks>
internal static class SampleBoard
{
    public static Wood Spruce { get; } = Wood("spruce", 448, 11.91e9, (0.078, 0.043, 0.064, 0.061, 0.003), (0.372, 0.467, 0.435));

    public static Wood Cedar { get; } = Wood("cedar", 358, 8.42e9, (0.081, 0.055, 0.087, 0.086, 0.005), (0.378, 0.296, 0.484));

    public static CoreMaterial Honeycomb { get; } = new()
    {
        Name = "honeycomb",
        Kind = "honeycomb",
        CellSize = 3.2e-3,
        Density = Estimate.FromCv(28.8, 0.06),
        ShearRibbon = Estimate.FromCv(26.2e6, 0.35),
        ShearAcross = Estimate.FromCv(10.3e6, 0.35),
        CompressionModulus = Estimate.FromCv(55.2e6, 0.20),
        InPlaneModulus = 0,
    };

    public static Adhesive Epoxy { get; } = new()
    {
        Name = "epoxy",
        Density = Estimate.FromCv(1150, 0.08),
        Mixed = Estimate.FromCv(0.2325, 0.10),
        KeptShare = Estimate.FromCv(0.50, 0.20),
        FilmShare = Estimate.FromCv(0.45, 0.30),
        FilmModulus = Estimate.FromCv(3.0e9, 0.30),
        FilmNu = 0.35,
        ResinParts = 100,
        HardenerParts = 45,
        ResinDensity = 1150,
        HardenerDensity = 1035,
    };

    public static Board Unsymmetric { get; } = new()
    {
        Name = "unsymmetric sample",
        Outer = new(Spruce, Estimate.FromCv(0.76e-3, 0.03), 0),
        Core = new(Honeycomb, Estimate.FromCv(1.8e-3, 0.03), 0),
        Inner = new(Cedar, Estimate.FromCv(0.61e-3, 0.04), 0),
        Adhesive = Epoxy,
        Size = new(0.140, 0.480, 0.365),
        Solid = new(Spruce, Estimate.FromCv(2.6e-3, 0.03)),
    };

    private static Wood Wood(
        string name, double density, double el, (double R, double T, double Lr, double Lt, double Rt) ratios, (double Lr, double Lt, double Rt) nu) => new()
        {
            Name = name,
            Density = Estimate.FromCv(density, 0.10),
            EL = Estimate.FromCv(el, 0.22),
            ErOverEl = Estimate.FromCv(ratios.R, 0.25),
            EtOverEl = Estimate.FromCv(ratios.T, 0.25),
            GlrOverEl = Estimate.FromCv(ratios.Lr, 0.25),
            GltOverEl = Estimate.FromCv(ratios.Lt, 0.25),
            GrtOverEl = Estimate.FromCv(ratios.Rt, 0.25),
            NuLR = nu.Lr,
            NuLT = nu.Lt,
            NuRT = nu.Rt,
            MoisturePercent = 12,
        };
}
