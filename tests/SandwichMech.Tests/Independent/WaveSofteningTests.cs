using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Independent;

/// <summary>Where shear begins to soften a board, from the wave's dispersion relation the other way round: wave number from frequency.</summary>
[Trait("Check", "independent")]
public class WaveSofteningTests
{
    // Timoshenko without rotary inertia: Dk⁴ = mω²(1 + Dk²/S), a quadratic in k². The effective stiffness is mω²/k⁴.
    [Theory]
    [InlineData(22.9, 99.9e3, 0.843, 0.1)]
    [InlineData(2.10, 34.2e3, 0.843, 0.1)]
    [InlineData(22.9, 99.9e3, 0.843, 0.3)]
    [InlineData(17.5, 1.57e6, 1.16, 0.1)]
    public void At_that_frequency_the_wave_has_lost_just_that_share(double d, double s, double mass, double loss)
    {
        double omega2 = Math.Pow(2 * Math.PI * WaveSoftening.Frequency(d, s, mass, loss), 2);
        Checks.Near((1 - loss) * d, mass * omega2 / Math.Pow(WaveNumberSquared(d, s, mass, omega2), 2), 1e-12);
        // A little lower it has lost less, a little higher more.
        Assert.True(mass * 0.9 * omega2 / Math.Pow(WaveNumberSquared(d, s, mass, 0.9 * omega2), 2) > (1 - loss) * d);
        Assert.True(mass * 1.1 * omega2 / Math.Pow(WaveNumberSquared(d, s, mass, 1.1 * omega2), 2) < (1 - loss) * d);
    }

    // The same wave as one half wave of a plate endless across, with rotary inertia and coupling, against the plate that
    // does not shear: stiffness down to nine tenths, frequency to its root; rotary inertia leaves 0.02 %.
    [Fact]
    public void A_plates_wave_of_that_length_has_lost_a_tenth_of_its_stiffness()
    {
        Laminate board = SampleBoard.Unsymmetric.Laminate(), rigid = board with { Shear = new(1e11, 1e11, 0) };
        double along = HalfWave(board.Bending.M11, board.Shear.Sx, WaveSoftening.Along(board));
        double across = HalfWave(board.Bending.M22, board.Shear.Sy, WaveSoftening.Across(board));
        Checks.Near(Math.Sqrt(0.9), FirstOrderNavier.Frequency(board, along, 1e4, 1, 1) / FirstOrderNavier.Frequency(rigid, along, 1e4, 1, 1), 0.0005);
        Checks.Near(Math.Sqrt(0.9), FirstOrderNavier.Frequency(board, 1e4, across, 1, 1) / FirstOrderNavier.Frequency(rigid, 1e4, across, 1, 1), 0.0005);

        double HalfWave(double d, double s, double f) =>
            Math.PI / Math.Sqrt(WaveNumberSquared(d, s, board.ArealMass, Math.Pow(2 * Math.PI * f, 2)));
    }

    private static double WaveNumberSquared(double d, double s, double mass, double omega2)
    {
        double b = mass * omega2 / s;
        return (b + Math.Sqrt(b * b + 4 * mass * omega2 / d)) / 2;
    }
}
