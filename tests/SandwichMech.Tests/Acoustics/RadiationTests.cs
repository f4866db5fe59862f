using System.Numerics;
using MathNet.Numerics;
using SandwichMech.Core.Acoustics;
using SandwichMech.Core.Plates;
using SandwichMech.Tests.Outlines;
using SandwichMech.Tests.Plates;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Acoustics;

/// <summary>Sound of plates in a baffle, and the volume that a force moves.</summary>
public class RadiationTests
{
    private static readonly PlateAction Everywhere = new(PlatePush.Deflect, null);

    // A rigid piston's resistance is ρcS(1 − J1(2ka)/(ka)) (Rayleigh 1896, Theory of Sound, §302); power ½ R v². The mesh's straight cells leave 0.2 % of the area.
    [Theory]
    [Trait("Check", "exact")]
    [InlineData(0.05)]
    [InlineData(0.5)]
    [InlineData(2)]
    [InlineData(5)]
    public void A_piston_radiates_as_in_closed_form(double ka)
    {
        const double a = 0.15;
        PlateSolution plate = PlateSolver.Once(SamplePlate.Disc(SamplePlate.Isotropic(0.002), a, 4, 'C'), 1, 5);
        double frequency = ka * AmbientAir.SoundSpeed / (2 * Math.PI * a), area = Math.PI * a * a;
        double exact = 0.5 * AmbientAir.Density * AmbientAir.SoundSpeed * area * (1 - SpecialFunctions.BesselJ(1, 2 * ka) / ka);
        Checks.Near(exact, new Radiation(plate.Field).Power([.. plate.Field.Nodes.Select(_ => 1.0)], frequency), 0.005);
    }

    // First mode of a thin clamped disc: w = J0(kr) − J0(λ)/I0(λ) I0(kr), λ = 3.19622 (Leissa 1969, NASA SP-160: λ² = 10.2158). It moves 2πa²/λ (J1(λ) − J0(λ)/I0(λ) I1(λ)).
    [Fact]
    [Trait("Check", "exact")]
    public void A_clamped_discs_first_mode_moves_the_volume_of_its_Bessel_functions()
    {
        const double a = 1, lambda = 3.1962206;
        PlateSection section = SamplePlate.Isotropic(0.002, density: 3);
        PlateSolution plate = PlateSolver.Once(SamplePlate.Disc(section, a, 4, 'C'), 1, 6);
        Checks.Near(lambda * lambda * Math.Sqrt(section.D.M11 / section.Mass), 2 * Math.PI * plate.Frequencies[0], 1e-4);
        double ratio = SpecialFunctions.BesselJ(0, lambda) / SpecialFunctions.BesselI0(lambda);
        double moved = 2 * Math.PI / lambda * (SpecialFunctions.BesselJ(1, lambda) - ratio * SpecialFunctions.BesselI1(lambda));
        double W(double r) => SpecialFunctions.BesselJ(0, lambda * r) - ratio * SpecialFunctions.BesselI0(lambda * r);
        double mass = section.Mass * Integrate.GaussLegendre(r => 2 * Math.PI * r * W(r) * W(r), 0, 1, 32);
        double volume = plate.At(Everywhere)[0] * plate.Area;
        Checks.Near(Math.PI, plate.Area, 1e-9);
        Checks.Near(moved / Math.Sqrt(mass), Math.Abs(volume), 1e-4);
        // Effective area: over the deflection of the middle.
        Checks.Near(moved / W(0), volume / plate.At(PlateAction.At(default))[0], 1e-4);
        // Its sound while it is small against the wavelength, by Rayleigh's integral and by its volume alone.
        double low = 0.03 * AmbientAir.SoundSpeed / (2 * Math.PI * a);
        Checks.Near(Radiation.MonopoleLoss(volume, low), new Radiation(plate.Field).Loss(plate.Shape(0), low), 0.005);
        Checks.Near(AmbientAir.SoundSpeed / (2 * Math.PI * a), Radiation.MonopoleLimit(plate.Area), 1e-9);
    }

    // A mass on a spring that pushes air: η = ½ R v²/(ω ½ M v²), R of the piston at low ka, ρcS (ka)²/2.
    [Fact]
    [Trait("Check", "exact")]
    public void A_small_pistons_loss_is_its_resistance_over_its_mass()
    {
        const double mass = 0.05, a = 0.1, f = 20;
        double area = Math.PI * a * a, omega = 2 * Math.PI * f, ka = omega * a / 343.2;
        Checks.Near(1.2 * 343.2 * area * ka * ka / 2 / (omega * mass), Radiation.MonopoleLoss(area / Math.Sqrt(mass), f), 1e-12);
    }

    // At rest all modes and the residual move the volume that the plate under a steady force does, and by Betti a steady pressure moves the foot as much.
    [Fact]
    [Trait("Check", "independent")]
    public void At_rest_the_volume_is_that_of_the_steady_load()
    {
        PlateProblem problem = new(PlateMesher.Mesh(SampleDomain.Standard, SampleDomain.Size), [Section, Section, Section], _ => EdgeSupport.Clamped);
        PlateSolution plate = PlateSolver.Once(problem, 8, 4);
        var foot = new PlateAction(PlatePush.Deflect, SampleOutline.BridgePatch);
        double[] volumes = [.. plate.At(Everywhere).Select(v => v * plate.Area)];
        ModalTransfer transfer = new([.. plate.Modes.Select(m => m.Frequency)], plate.At(foot), volumes, plate.Area * plate.Residual(foot, Everywhere), [.. volumes.Select(_ => 0.01)]);
        IReadOnlyList<PlateResponse> steady = PlateStatics.Of(problem, 4).Respond([foot, Everywhere]);
        double exact = plate.Area * PlateStatics.Movement(steady[1], steady[0]);
        Checks.Near(exact, transfer.Steady, 1e-4);
        Checks.Near(exact, plate.Area * PlateStatics.Movement(steady[0], steady[1]), 1e-9);
        // Far below the first mode the volume velocity is iω of it.
        Complex slow = transfer.At(0.01 * transfer.Frequencies[0]);
        Checks.Near(2 * Math.PI * 0.01 * transfer.Frequencies[0] * exact, slow.Imaginary, 1e-3);
        // Either way round the residual is the same.
        Checks.Near(plate.Residual(foot, Everywhere), plate.Residual(Everywhere, foot), 1e-6);
        // The modes alone are not all.
        Assert.True(Math.Abs(transfer.Residual) > 1e-4 * Math.Abs(exact));
    }

    private static PlateSection Section { get; } = PlateSection.Of(SampleBoard.Unsymmetric.Laminate()).FreeInItsPlane();
}
