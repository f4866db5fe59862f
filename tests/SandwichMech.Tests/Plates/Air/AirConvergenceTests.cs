namespace SandwichMech.Tests.Plates.Air;

/// <summary>How fast the air's added mass settles, with the slope and the ceiling of each error.</summary>
public class AirConvergenceTests
{
    private static readonly int[] Rings = [2, 4, 8], Degrees = [6, 8, 10, 12];
    private static readonly int[][] Waves = [[8, 10, 12], [16, 20, 24], [32, 40, 48]];

    // With chords in the place of arcs the outline is off by h²; all else must be far below that.
    [Theory]
    [Trait("Check", "exact")]
    [InlineData(false, 8.0 / 3)]
    [InlineData(true, 16.0 / 3)]
    public void A_disc_with_straight_sides_is_off_by_the_square_of_the_size(bool baffled, double exact)
    {
        double[] errors = [.. Rings.Select(rings =>
            1 - AirSamples.Volume(SamplePlate.DiscMesh(1, rings, curved: false), baffled, AirSamples.Heave, new(24, 36, 8)) / exact)];
        Checks.Within(1.85, 2.15, Math.Log2(errors[0] / errors[1]), "slope");
        Checks.Within(1.7, 2.3, Math.Log2(errors[1] / errors[2]), "slope");
        // The polygon of 48 sides has 0.29 % less area than the disc, and V goes with its power 3/2; the corners take a little more.
        Checks.Within(4e-3, 6e-3, errors[2], "ceiling");
    }

    // Galerkin's method: the energy rises with the space, and for a smooth deflection faster than any power.
    [Fact]
    [Trait("Check", "exact")]
    public void A_wavy_deflection_settles_from_below_with_the_degree()
    {
        double[] v = [.. Degrees.Select(degree =>
            AirSamples.Volume(SamplePlate.DiscMesh(1, 5), false, p => Math.Cos(6 * p.X) * Math.Cos(5 * p.Y), new(24, 36, degree)))];
        for (int i = 1; i < v.Length; i++) { Assert.True(v[i] > v[i - 1]); }
        Assert.True(v[1] - v[0] > 10 * (v[2] - v[1]));
        Assert.True(v[2] - v[1] > 5 * (v[3] - v[2]));
        Checks.Within(0, 5e-4, v[3] / v[2] - 1, "last step");
    }

    // What the waves left out do is given by the edge alone; the rest of it falls with the square of their number at least. It has either sign, so the
    // largest over a few numbers of waves stands for it.
    [Fact]
    [Trait("Check", "exact")]
    public void The_error_falls_with_the_square_of_the_number_of_waves()
    {
        double[] errors = [.. Waves.Select(few => few.Max(Error))];
        Assert.True(Math.Log2(errors[0] / errors[1]) > 2, $"{errors[0]}, {errors[1]}");
        Assert.True(Math.Log2(errors[1] / errors[2]) > 2, $"{errors[1]}, {errors[2]}");
        Checks.Within(0, 5e-5, errors[2], "ceiling");

        static double Error(int waves)
        {
            double[,] v = AirSamples.Volumes(SamplePlate.DiscMesh(1, 4), false, [AirSamples.Heave, AirSamples.RockX], new(waves, 2 * waves, 4));
            return Math.Max(Math.Abs(v[0, 0] / (8.0 / 3) - 1), Math.Abs(v[1, 1] / (16.0 / 45) - 1));
        }
    }
}
