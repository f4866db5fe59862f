using SandwichMech.Core.Acoustics;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Acoustics;

/// <summary>Radiation ratio, bending waves and where they pass the speed of sound.</summary>
public class WaveTests
{
    private static readonly BendingWave Stiff = new(22.9, 250e3, 0.843, 1.2e-6), Thin = new(22.9, 1e14, 0.843);

    // One layer: the thickness falls out. √(E/ρ³) of Sitka spruce, E_L 11.91 GPa and 448 kg/m³ (Wood Handbook FPL-GTR-282, Table 5-3b, modulus raised by 10 %).
    [Theory]
    [Trait("Check", "exact")]
    [InlineData(0.7e-3)]
    [InlineData(2.6e-3)]
    public void One_layers_ratio_is_its_materials(double thickness)
    {
        Laminate top = Board.SolidPlate(SampleBoard.Spruce, thickness);
        double material = RadiationRatio.OfMaterial(11.91e9, 448);
        Checks.Near(Math.Sqrt(11.91e9 / 448) / 448, material, 1e-12);
        Checks.Near(material, RadiationRatio.Along(top), 1e-9);
        Checks.Near(RadiationRatio.OfMaterial(SampleBoard.Spruce.ER, 448), RadiationRatio.Across(top), 1e-9);
        Checks.Near(Math.Sqrt(RadiationRatio.Along(top) * RadiationRatio.Across(top)), RadiationRatio.Mean(top), 1e-12);
    }

    // Both sides of the dispersion relation, evaluated as it is printed.
    [Theory]
    [Trait("Check", "exact")]
    [InlineData(30)]
    [InlineData(400)]
    [InlineData(9000)]
    public void A_waves_number_solves_the_dispersion_relation(double frequency)
    {
        double w = Math.Pow(2 * Math.PI * frequency, 2), k2 = Math.Pow(Stiff.WaveNumber(frequency), 2), mass = Stiff.ArealMass;
        double left = (Stiff.Shear * k2 - mass * w) * (Stiff.Bending * k2 + Stiff.Shear - Stiff.RotaryInertia * w);
        Checks.Near(Stiff.Shear * Stiff.Shear * k2, left, 1e-9);
        // Without rotary inertia the wave that shear softening is read from.
        BendingWave light = Stiff with { RotaryInertia = 0 };
        Checks.Near(WaveSoftening.WaveNumberSquared(22.9, 250e3, 0.843, frequency), Math.Pow(light.WaveNumber(frequency), 2), 1e-12);
    }

    [Theory]
    [Trait("Check", "independent")]
    [InlineData(50)]
    [InlineData(1500)]
    [InlineData(15000)]
    public void Group_speed_is_the_slope_of_frequency_over_wave_number(double frequency)
    {
        double step = 1e-4 * frequency;
        double slope = 2 * Math.PI * 2 * step / (Stiff.WaveNumber(frequency + step) - Stiff.WaveNumber(frequency - step));
        Checks.Near(slope, Stiff.GroupSpeed(frequency), 1e-6);
    }

    // Thin plate: c = (D/m)^¼ √ω and twice that for the energy; where shear is all, both are √(S/m).
    [Fact]
    [Trait("Check", "exact")]
    public void Waves_have_the_speeds_of_both_limits()
    {
        double omega = 2 * Math.PI * 200, thin = Math.Pow(22.9 / 0.843, 0.25) * Math.Sqrt(omega);
        Checks.Near(thin, Thin.PhaseSpeed(200), 1e-6);
        Checks.Near(2 * thin, Thin.GroupSpeed(200), 1e-6);
        var soft = new BendingWave(22.9, 20e3, 0.843);
        Checks.Near(Math.Sqrt(20e3 / 0.843), soft.PhaseSpeed(1e6), 1e-3);
        Checks.Near(Math.Sqrt(20e3 / 0.843), soft.GroupSpeed(1e6), 1e-3);
    }

    // f_c = c²/2π √(m/D) (Cremer 1942; in every textbook of building acoustics).
    [Fact]
    [Trait("Check", "published")]
    public void A_thin_plates_critical_frequency_is_the_textbooks() =>
        Checks.Near(343.2 * 343.2 / (2 * Math.PI) * Math.Sqrt(0.843 / 22.9), Thin.Critical()!.Value, 1e-6);

    // Against bisection on the phase speed, which knows nothing of the closed form.
    [Theory]
    [Trait("Check", "independent")]
    [InlineData(22.9, 250e3, 0.843, 0)]
    [InlineData(22.9, 250e3, 0.843, 1.2e-6)]
    [InlineData(22.9, 100e3, 0.843, 1.2e-6)]
    [InlineData(2.1, 110e3, 0.843, 1.2e-6)]
    [InlineData(17.5, 1.57e6, 1.16, 6.5e-7)]
    public void A_critical_frequency_is_where_the_wave_reaches_the_speed_of_sound(double d, double s, double m, double inertia)
    {
        var wave = new BendingWave(d, s, m, inertia);
        double low = 10, high = 1e7;
        while (high / low > 1 + 1e-12)
        {
            double middle = Math.Sqrt(low * high);
            if (wave.PhaseSpeed(middle) < AmbientAir.SoundSpeed) { low = middle; } else { high = middle; }
        }

        Checks.Near(low, wave.Critical()!.Value, 1e-9);
        // Shear puts it off.
        Assert.True(wave.Critical() > (wave with { Shear = 1e14, RotaryInertia = 0 }).Critical());
    }

    // S just below and just above m c² = 99.3 kN/m.
    [Fact]
    [Trait("Check", "exact")]
    public void A_core_too_soft_has_no_critical_frequency()
    {
        double least = 0.843 * 343.2 * 343.2;
        Assert.Null(new BendingWave(22.9, 0.999 * least, 0.843).Critical());
        Assert.NotNull(new BendingWave(22.9, 1.001 * least, 0.843).Critical());
        Assert.True(new BendingWave(22.9, 0.999 * least, 0.843).PhaseSpeed(1e7) < 343.2);
        Assert.Null(new BendingWave(22.9, 10 * least, 0.843, 22.9 / (343.2 * 343.2)).Critical());
    }
}
