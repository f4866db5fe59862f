using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;

namespace SandwichMech.Tests.Plates.Air;

/// <summary>Rigid plates whose added mass is known in closed form or from a published table.</summary>
/// <remarks>
/// Disc of radius a: heave 8/3 ρa³, rocking 16/45 ρa⁵ (Lamb 1932, Hydrodynamics, art. 108, 373). Piston in a baffle, both faces: 16/3 ρa³
/// (Rayleigh; end correction 8a/3π of each face). The tolerances are a little above what was measured; they bound the method, not the sources.
/// </remarks>
public class RigidPlateAirTests
{
    private const double Radius = 0.2;

    [Theory]
    [Trait("Check", "exact")]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(6)]
    [InlineData(9)]
    public void A_free_disc_in_heave_and_rocking(int rings)
    {
        double[,] v = AirSamples.Volumes(SamplePlate.DiscMesh(Radius, rings), false, [AirSamples.Heave, AirSamples.RockX, AirSamples.RockY]);
        Checks.Near(8.0 / 3 * Math.Pow(Radius, 3), v[0, 0], 5e-4, "heave");
        Checks.Near(16.0 / 45 * Math.Pow(Radius, 5), v[1, 1], 5e-4, "rocking about y");
        Checks.Near(16.0 / 45 * Math.Pow(Radius, 5), v[2, 2], 5e-4, "rocking about x");
        Checks.Close(0, v[0, 1] / Math.Sqrt(v[0, 0] * v[1, 1]), 1e-4, "heave with rocking");
        Checks.Close(0, v[1, 2] / v[1, 1], 1e-4, "rocking with rocking");
    }

    // Rocking: Rw = 2 s cos θ √(a² − s²), whose square over s and θ gives 8π/15 a⁵.
    [Theory]
    [Trait("Check", "exact")]
    [InlineData(3)]
    [InlineData(6)]
    public void A_disc_in_a_baffle_in_heave_and_rocking(int rings)
    {
        double[,] v = AirSamples.Volumes(SamplePlate.DiscMesh(Radius, rings), true, [AirSamples.Heave, AirSamples.RockX]);
        Checks.Near(16.0 / 3 * Math.Pow(Radius, 3), v[0, 0], 1e-4, "heave");
        Checks.Near(8.0 / 15 * Math.Pow(Radius, 5), v[1, 1], 2e-4, "rocking");
    }

    // μ = C √(1 − x²/a² − y²/b²): ∫μ = 2π/3 C ab, ⟨Nμ, μ⟩ = π/3 C² a E(e) with E the complete elliptic integral, e² = 1 − b²/a²;
    // hence 4π/3 a b²/E.
    [Theory]
    [Trait("Check", "exact")]
    [InlineData(1, 0.7)]
    [InlineData(1, 0.4)]
    [InlineData(1, 0.2)]
    public void A_free_ellipse_in_heave(double a, double b)
    {
        double sum = 0;
        const int n = 400;
        for (int i = 0; i < n; i++)
        {
            double angle = (i + 0.5) * Math.PI / (2 * n);
            sum += Math.Sqrt(1 - (1 - b * b / (a * a)) * Math.Pow(Math.Sin(angle), 2));
        }

        double integral = sum * Math.PI / (2 * n);
        double expected = 4 * Math.PI / 3 * a * b * b / integral;
        Checks.Near(expected, AirSamples.Volume(AirSamples.Ellipse(a, b, 5), false, AirSamples.Heave), 5e-4);
    }

    // DNV-RP-H103 (2011), Modelling and analysis of marine operations, table A-2, thin rectangular plates moving along their normal:
    // added mass C ρ π/4 a² b, a the short side.
    // One unit of its last digit: half for its rounding, half for ours, 0.1 %.
    [Theory]
    [Trait("Check", "published")]
    [InlineData(1, "0.579")]
    [InlineData(1.25, "0.642")]
    [InlineData(1.5, "0.690")]
    [InlineData(2, "0.757")]
    [InlineData(2.5, "0.801")]
    [InlineData(4, "0.872")]
    [InlineData(5, "0.897")]
    public void A_free_rectangle_in_heave(double ratio, string printed)
    {
        double v = AirSamples.Volume(PlateMesh.Rectangle(ratio, 1, (int)(5 * ratio), 5), false, AirSamples.Heave);
        Checks.Printed(printed, v / (Math.PI / 4 * ratio), 1);
    }

    // A lid at rest on the hole: what a disc has with itself, less twice what it has with the hole, and the hole with itself.
    // ∫∫ over two discs about one centre: π ∫ 4 √(a² − s²) √(b² − s²) ds, with s = b sin t.
    [Fact]
    [Trait("Check", "exact")]
    public void A_ring_in_a_baffle_moves_as_a_disc_whose_middle_is_at_rest()
    {
        const double a = 1, b = 0.4;
        double both = 0;
        const int n = 2000;
        for (int i = 0; i < n; i++)
        {
            double t = -Math.PI / 2 + (i + 0.5) * Math.PI / n, s = b * Math.Sin(t);
            both += 4 * Math.Sqrt(a * a - s * s) * Math.Pow(b * Math.Cos(t), 2) * Math.PI / n;
        }

        double expected = 16.0 / 3 * (Math.Pow(a, 3) + Math.Pow(b, 3)) - 2 * both;
        Checks.Near(expected, AirSamples.Volume(AirSamples.Annulus(b, a, 4, 24), true, AirSamples.Heave), 5e-4);
    }

    // The shape of a mesh of triangles does not matter: a disc from our own mesher, with and without the thin band along its edge that a free plate asks for.
    [Theory]
    [Trait("Check", "exact")]
    [InlineData(false)]
    [InlineData(true)]
    public void A_disc_from_the_mesher(bool banded)
    {
        Curve[] band = banded ? [Shapes.Circle(default, 0.95)] : [];
        PlateMesh mesh = PlateMesher.Mesh(new MeshDomain(Shapes.Circle(default, 1), [], band, _ => 0), 0.2);
        Checks.Near(8.0 / 3, AirSamples.Volume(mesh, false, AirSamples.Heave), 5e-4);
        Checks.Near(16.0 / 3, AirSamples.Volume(mesh, true, AirSamples.Heave), 1e-4);
    }
}
