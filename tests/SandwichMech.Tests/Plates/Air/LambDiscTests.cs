using MathNet.Numerics;
using SandwichMech.Core.Plates;

namespace SandwichMech.Tests.Plates.Air;

/// <summary>A disc clamped in a baffle, fluid on its faces.</summary>
/// <remarks>
/// H. Lamb (1920), On the vibrations of an elastic plate in contact with water, Proc. R. Soc. A 98, 205: with w = (1 − r²/a²)² the fluid of one face adds 0.6689
/// ρa/(ρₚh) to the plate's mass and divides the frequency by √(1 + 0.6689 ρa/(ρₚh)). Two faces add twice that.
/// </remarks>
public class LambDiscTests
{
    [Fact]
    [Trait("Check", "published")]
    public void One_face_under_Lambs_shape()
    {
        double v = AirSamples.Volume(SamplePlate.DiscMesh(1, 4), true, p => Math.Pow(1 - p.Dot(p), 2));
        // ∫w² = π/5.
        Checks.Printed("0.6689", v / 2 / (Math.PI / 5));
    }

    // Rw = 16/15 (1 − s²)^(5/2), ∫(1 − s²)⁵ ds = 512/693: the same number in closed form.
    [Fact]
    [Trait("Check", "exact")]
    public void Lambs_number_in_closed_form()
    {
        double exact = 16.0 / 15 * 16 / 15 * 512 / 693 * 5 / (2 * Math.PI);
        double v = AirSamples.Volume(SamplePlate.DiscMesh(1, 4), true, p => Math.Pow(1 - p.Dot(p), 2));
        Checks.Printed("0.6689", exact);
        Checks.Near(exact, v / 2 / (Math.PI / 5), 1e-5);
    }

    // The true first shape of a thin clamped disc, J₀(λr) − J₀(λ)/I₀(λ) I₀(λr) with λ = 3.19622 (Leissa 1969, table 2.1: λ² = 10.2158), by one-dimensional integrals.
    [Fact]
    [Trait("Check", "independent")]
    public void The_solvers_first_mode_carries_the_air_of_the_true_shape()
    {
        const double radius = 0.15, thickness = 0.3e-3, density = 7800, air = 1.2;
        double expected = TrueShape() * air * radius / (density * thickness);

        var section = SamplePlate.Isotropic(thickness, 0.3, 200e9, density);
        PlateProblem problem = SamplePlate.Disc(section, radius, 4, 'C');
        var system = new PlateSystem(problem, 5);
        PlateModes.Result vacuum = PlateModes.Solve(system, problem, 16);
        AirModes inAir = AirMass.Of(system, vacuum, true, air, 6);
        Checks.Near(2 * expected, inAir.AddedMass[0, 0], 2e-4, "added mass of both faces");
        // Other modes mix in, which lowers it a trifle further.
        double alone = 1 / Math.Sqrt(1 + 2 * expected);
        Checks.Within(alone * (1 - 5e-5), alone, inAir.Modes[0].Ratio, "frequency");
    }

    // A steel disc with water on one face; here half the density on each of the two. The true shape's added mass is 2.3 % below that of Lamb's, of which the
    // water's share of the mass, 0.7, and the root leave 0.8 %; the change of shape in water takes a little of it back.
    [Fact]
    [Trait("Check", "published")]
    public void In_water_the_frequency_is_Lambs_within_a_hundredth()
    {
        const double radius = 0.09, thickness = 0.003, density = 7800;
        var section = SamplePlate.Isotropic(thickness, 0.3, 200e9, density);
        PlateProblem problem = SamplePlate.Disc(section, radius, 4, 'C');
        var system = new PlateSystem(problem, 5);
        PlateModes.Result vacuum = PlateModes.Solve(system, problem, 24);
        double ratio = AirMass.Of(system, vacuum, true, 500, 1).Modes[0].Ratio;
        double lamb = 1 / Math.Sqrt(1 + 0.6689 * 1000 * radius / (density * thickness));
        Checks.Within(lamb, lamb * 1.008, ratio);
    }

    // V/(2 ∫w²) for radius 1: V = ∫(Rw)² ds with Rw(s) = ∫ w(√(s² + t²)) dt along the chord.
    private static double TrueShape()
    {
        const double lambda = 3.19622062;
        const int n = 200;
        double share = SpecialFunctions.BesselJ(0, lambda) / SpecialFunctions.BesselI0(lambda);
        double Shape(double r) => SpecialFunctions.BesselJ(0, lambda * r) - share * SpecialFunctions.BesselI0(lambda * r);
        double volume = Integrate.GaussLegendre(s =>
        {
            double half = Math.Sqrt(1 - s * s);
            return Math.Pow(2 * Integrate.GaussLegendre(t => Shape(Math.Sqrt(s * s + t * t)), 0, half, n), 2);
        }, -1, 1, n);
        double square = 2 * Math.PI * Integrate.GaussLegendre(r => r * Math.Pow(Shape(r), 2), 0, 1, n);
        return volume / (2 * square);
    }
}
