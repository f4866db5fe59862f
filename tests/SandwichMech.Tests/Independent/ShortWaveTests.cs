using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Independent;

/// <summary>Where first-order shear theory ends, against exact elasticity of the same layers in three dimensions.</summary>
[Trait("Check", "independent")]
public class ShortWaveTests
{
    // A half wave of a plate that is endless across: skins of 0.7 mm on 2 mm of core ever softer. What is said to be missing is what is missing,
    // within a third of it; where little is said, little is missing.
    [Theory]
    [InlineData(20e6, 0.100)]
    [InlineData(2e6, 0.060)]
    [InlineData(0.5e6, 0.060)]
    [InlineData(0.1e6, 0.060)]
    public void What_is_said_to_be_missing_is_what_is_missing(double coreShear, double halfWave)
    {
        const double skin = 0.7e-3, core = 2e-3, e = 10e9, nu = 0.3, rho = 400, coreRho = 30;
        double g = e / (2 * (1 + nu)), k = Math.PI / halfWave;
        Ply Face() => SamplePly.Isotropic(skin, e, nu, rho);
        Ply soft = SamplePly.Orthotropic(core, 1e3, 1e3, 0, 5e2, coreShear, coreShear, 0, coreRho);
        Laminate board = Laminate.From([Face(), soft, Face()]);
        double own = 2 * e * Math.Pow(skin, 3) / (12 * (1 - nu * nu));
        double said = ShortWaves.TooLow(board.Bending.M11, board.Shear.Sx, own, k);

        double firstOrder = FirstOrderNavier.Frequency(board, halfWave, 1e4, 1, 1);
        ElasticLayer faces = new(skin, e, e, e, nu, nu, nu, g, g, g, rho);
        // Stiff through its thickness, so that the skins keep their distance as the theory has it.
        var layers = new[] { faces, new ElasticLayer(core, 1e3, 1e3, 5e9, 0, 0, 0, 5e2, coreShear, coreShear, coreRho), faces };
        double exact = LayeredElasticity.Frequency(layers, k, Math.PI / 1e4, firstOrder / (1 - said));
        double missing = 1 - firstOrder / exact;
        Checks.Close(missing, said, Math.Max(0.33 * missing, 2e-3), $"missing {missing}, said {said}");
    }

    [Fact]
    public void A_usual_board_is_within_the_theory_and_one_on_a_core_like_jelly_is_not()
    {
        Assert.Null(ShortWaves.Of(SampleBoard.Unsymmetric, 600));
        Board soft = SampleBoard.Unsymmetric with
        {
            Core = SampleBoard.Unsymmetric.Core with { Material = SampleBoard.Honeycomb with { ShearRibbon = new Estimate(0.3e6, 0), ShearAcross = new Estimate(0.1e6, 0) } },
        };
        ShortWave wave = ShortWaves.Of(soft, 600)!;
        Assert.True(wave.TooLow > 0.05 && wave.Length < 20 * wave.ShearLength, $"{wave}");
        Assert.True(ShortWaves.Of(soft, 60) is not { } longer || (longer.TooLow < wave.TooLow && longer.Length > wave.Length));
    }
}
