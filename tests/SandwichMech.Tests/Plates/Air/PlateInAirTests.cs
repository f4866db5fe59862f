using MathNet.Numerics.LinearAlgebra;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Plates.Air;

/// <summary>Frequencies of plates in air from their modes in vacuo.</summary>
public class PlateInAirTests
{
    private const double Air = 1.2, Length = 0.520, Width = 0.200;

    private static readonly PlateSection Spruce = PlateSection.Of(Board.SolidPlate(SampleBoard.Spruce, 2.6e-3));
    private static readonly PlateSection Sandwich = PlateSection.Of(SampleBoard.Unsymmetric.Laminate());

    // The project's own computation with another program and other meshes, of the first modes: a free solid top falls by 2 to 4 %, a free sandwich by 3 to
    // 6 %, a board clamped in a baffle by 5 to 16 %. Higher modes carry less air: they swing shorter waves.
    [Fact]
    [Trait("Check", "independent")]
    public void A_free_spruce_blank_falls_by_two_to_four_per_cent() => FallsWithin(0.02, 0.04, 4, SamplePlate.Rectangle(Spruce, Length, Width, 10, 4), false);

    [Fact]
    [Trait("Check", "independent")]
    public void A_free_sandwich_blank_falls_by_three_to_six_per_cent() => FallsWithin(0.03, 0.06, 4, SamplePlate.Rectangle(Sandwich, Length, Width, 10, 4), false);

    [Fact]
    [Trait("Check", "independent")]
    public void A_free_spruce_board_falls_by_two_to_four_per_cent() => FallsWithin(0.02, 0.04, 6, OnOutline(Spruce, EdgeSupport.Free), false);

    [Fact]
    [Trait("Check", "independent")]
    public void A_free_sandwich_board_falls_by_three_to_six_per_cent() => FallsWithin(0.03, 0.06, 6, OnOutline(Sandwich.FreeInItsPlane(), EdgeSupport.Free), false);

    [Fact]
    [Trait("Check", "independent")]
    public void A_sandwich_board_clamped_in_a_baffle_falls_by_five_to_sixteen_per_cent() =>
        FallsWithin(0.05, 0.16, 6, OnOutline(Sandwich.FreeInItsPlane(), EdgeSupport.Clamped), true);

    [Theory]
    [Trait("Check", "exact")]
    [InlineData(false, "FFFF")]
    [InlineData(true, "SSSS")]
    [InlineData(true, "CFCF")]
    [InlineData(false, "FSFF")]
    public void More_air_lowers_every_frequency(bool baffled, string edges)
    {
        PlateProblem problem = SamplePlate.Rectangle(Sandwich, Length, Width, 6, 3, edges);
        var system = new PlateSystem(problem, 4);
        PlateModes.Result vacuum = PlateModes.Solve(system, problem, 16);
        double[] before = [.. vacuum.Values[vacuum.Rigid..].Select(v => Math.Sqrt(v) / (2 * Math.PI))];
        foreach (double density in new[] { 0, 0.6, 1.2, 5, 1000 })
        {
            AirModes inAir = AirMass.Of(system, vacuum, baffled, density, 16);
            double[] after = [.. inAir.Modes.Select(m => m.Frequency)];
            for (int i = 0; i < after.Length; i++)
            {
                Assert.True(after[i] <= before[i] * (1 + 1e-9), $"mode {i}: {before[i]} to {after[i]} Hz at {density} kg/m³");
            }

            before = after;
        }
    }

    [Fact]
    [Trait("Check", "exact")]
    public void Without_air_nothing_changes()
    {
        PlateProblem problem = SamplePlate.Rectangle(Spruce, Length, Width, 6, 3);
        var system = new PlateSystem(problem, 4);
        PlateModes.Result vacuum = PlateModes.Solve(system, problem, 8);
        AirModes inAir = AirMass.Of(system, vacuum, false, 0, 8);
        for (int i = 0; i < 8; i++)
        {
            Checks.Near(Math.Sqrt(vacuum.Values[vacuum.Rigid + i]) / (2 * Math.PI), inAir.Modes[i].Frequency, 1e-9);
            Assert.Equal(i, inAir.Modes[i].Nearest);
            Checks.Near(1, inAir.Modes[i].Ratio, 1e-9);
            Checks.Near(1, Math.Abs(inAir.Modes[i].Parts[i]), 1e-9);
        }
    }

    // Nothing holds a free plate: between each of its modes and its moving as a whole there is no mass of plate and air together.
    [Fact]
    [Trait("Check", "exact")]
    public void A_free_plate_and_its_air_keep_their_momentum()
    {
        PlateProblem problem = SamplePlate.Rectangle(Spruce, Length, Width, 8, 3);
        var system = new PlateSystem(problem, 4);
        AirModes inAir = AirMass.Of(system, PlateModes.Solve(system, problem, 16), false, 50, 6);
        double[] weights = Weights(system);
        double[][] shapes = [.. inAir.Modes.Select(m => m.Shape.ToArray())];
        double[][] rigid = [[.. system.Mesh.Points.Select(_ => 1.0)], [.. system.Mesh.Points.Select(p => p.X)], [.. system.Mesh.Points.Select(p => p.Y)]];
        var points = new AirPoints(system.Mesh, system.IntegralsOf, AirDetail.Usual);
        double[,] v = AirVolume.Of(points, [.. rigid, .. shapes], false);
        for (int i = 0; i < shapes.Length; i++)
        {
            double plate = Spruce.Mass * Sum(weights, shapes[i], rigid[0]), air = 50 * v[0, 3 + i];
            Checks.Close(0, plate + air, 1e-6 * Math.Sqrt(Spruce.Mass * Length * Width), $"mode {i}");
        }

        // And they do move together, so that the check means something.
        Assert.Contains(shapes, s => Math.Abs(Sum(weights, s, rigid[0])) > 1e-3 * Math.Sqrt(Length * Width / Spruce.Mass));
    }

    [Fact]
    [Trait("Check", "exact")]
    public void Ten_modes_beyond_those_wanted_are_enough()
    {
        PlateProblem problem = SamplePlate.Rectangle(Sandwich.FreeInItsPlane(), Length, Width, 10, 4);
        var system = new PlateSystem(problem, 4);
        double[] few = Frequencies(22), many = Frequencies(50);
        for (int i = 0; i < 12; i++) { Checks.Near(many[i], few[i], 5e-5, $"mode {i}"); }

        double[] Frequencies(int count) => [.. AirMass.Of(system, PlateModes.Solve(system, problem, count), false, Air, 12).Modes.Select(m => m.Frequency)];
    }

    // Plate and air together have unit modal mass, and different modes nothing in common.
    [Fact]
    [Trait("Check", "exact")]
    public void Modes_in_air_have_unit_mass_with_their_air()
    {
        PlateProblem problem = SamplePlate.Disc(Spruce, 0.15, 4, 'C');
        var system = new PlateSystem(problem, 4);
        AirModes inAir = AirMass.Of(system, PlateModes.Solve(system, problem, 14), true, Air, 14);
        var parts = Matrix<double>.Build.DenseOfRows(inAir.Modes.Select(m => m.Parts));
        var mass = Matrix<double>.Build.DenseIdentity(14) + Matrix<double>.Build.DenseOfArray(inAir.AddedMass);
        Matrix<double> product = parts * mass * parts.Transpose();
        Assert.True((product - Matrix<double>.Build.DenseIdentity(14)).InfinityNorm() < 1e-9);
    }

    [Theory]
    [Trait("Check", "exact")]
    [InlineData(-1, 3, "The density of the air must be 0 kg/m³ or more.")]
    [InlineData(double.NaN, 3, "The density of the air must be 0 kg/m³ or more.")]
    [InlineData(1.2, 0, "In air, 1 to 5 modes can be had from 5 in vacuo: solve for more of those.")]
    [InlineData(1.2, 6, "In air, 1 to 5 modes can be had from 5 in vacuo: solve for more of those.")]
    public void What_cannot_be_done_is_refused(double density, int wanted, string message)
    {
        PlateProblem problem = SamplePlate.Rectangle(Spruce, Length, Width, 2, 1);
        var system = new PlateSystem(problem, 3);
        PlateModes.Result vacuum = PlateModes.Solve(system, problem, 5);
        var refused = Assert.Throws<ArgumentOutOfRangeException>(() => AirMass.Of(system, vacuum, false, density, wanted));
        Assert.StartsWith(message, refused.Message, StringComparison.Ordinal);
    }

    // An outline of our own with a soundhole of 85 mm; sizes invented.
    private static PlateProblem OnOutline(PlateSection section, EdgeSupport edge) => new(
        PlateMesher.Mesh(new MeshDomain(OutlineFamily.Of(0.489), [Shapes.Circle(new(0.335, 0), 0.0425)], [], _ => 0), 0.05),
        [section],
        e => e.Curve == 0 ? edge : EdgeSupport.Free);

    private static void FallsWithin(double least, double most, int wanted, PlateProblem problem, bool baffled)
    {
        var system = new PlateSystem(problem, 4);
        AirModes inAir = AirMass.Of(system, PlateModes.Solve(system, problem, wanted + 10), baffled, Air, wanted);
        for (int i = 0; i < inAir.Modes.Count; i++)
        {
            Checks.Within(least, most, 1 - inAir.Modes[i].Ratio, $"mode {i}, {inAir.Modes[i].Frequency:F1} Hz");
        }
    }

    private static double Sum(double[] weights, double[] a, double[] b)
    {
        double sum = 0;
        for (int i = 0; i < weights.Length; i++) { sum += weights[i] * a[i] * b[i]; }
        return sum;
    }

    // ∫ N_i dA: enough for a product with a function that is constant.
    private static double[] Weights(PlateSystem system)
    {
        double[] weights = new double[system.Mesh.Points.Length];
        int n = system.Mesh.Basis.Count, m = 3 * n;
        for (int e = 0; e < system.Mesh.Nodes.Length; e++)
        {
            double[] g = system.IntegralsOf(e);
            for (int i = 0; i < n; i++)
            {
                for (int j = 0; j < n; j++) { weights[system.Mesh.Nodes[e][i]] += g[(PlateStrains.Op1 * n + i) * m + PlateStrains.Op1 * n + j]; }
            }
        }

        return weights;
    }
}
