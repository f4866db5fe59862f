using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Exact;

/// <summary>The hinged rectangle where a closed form exists.</summary>
[Trait("Check", "exact")]
public class HingedRectangleLimitTests
{
    private const double A = 0.43, B = 0.33;

    // ω = (π²/a²)√[(D11 m⁴ + 2(D12 + 2D66) m²n²(a/b)² + D22 n⁴(a/b)⁴)/m], the hinged orthotropic thin plate.
    [Theory]
    [InlineData(1, 1)]
    [InlineData(2, 1)]
    [InlineData(1, 3)]
    [InlineData(4, 4)]
    public void Stiff_in_shear_it_is_the_orthotropic_thin_plate(int m, int n)
    {
        Laminate solid = Solid(1e10);
        double r = A / B;
        double omega = Math.PI * Math.PI / (A * A) * Math.Sqrt(
            (solid.D.M11 * Math.Pow(m, 4) + 2 * (solid.D.M12 + 2 * solid.D.M66) * m * m * n * n * r * r + solid.D.M22 * Math.Pow(n * r, 4))
            / solid.ArealMass);
        double thin = omega / (2 * Math.PI);

        // Ten times the shear modulus, a tenth of the distance; a stiffer one yet only loses digits in the elimination.
        double first = 1 - HingedRectangle.Frequency(solid, A, B, m, n) / thin;
        double second = 1 - HingedRectangle.Frequency(Solid(1e11), A, B, m, n) / thin;
        Checks.Within(0, 1e-3, first);
        Checks.Near(first / 10, second, 0.01, "slope");
        Checks.Near(thin, HingedRectangle.Frequency(Solid(1e14), A, B, m, n), 2e-7, "ceiling");

        static Laminate Solid(double g) =>
            Laminate.From([SamplePly.Orthotropic(2.6e-3, 11.91e9, 0.93e9, 0.372, 0.76e9, g, g, 0, 448)]) with { RotaryInertia = 0 };
    }

    // Isotropic: with k² = α² + β² the rotation is a gradient and (Sk² − mω²)(Dk² + S − Iω²) = S²k² (Mindlin 1951); lower root.
    [Theory]
    [InlineData(0.05, 1, 1)]
    [InlineData(0.05, 3, 2)]
    [InlineData(0.50, 1, 1)]
    [InlineData(3.00, 2, 5)]
    public void Isotropic_it_is_the_thick_plates_dispersion_relation(double thickness, int m, int n)
    {
        Laminate plate = Laminate.From([SamplePly.Isotropic(thickness, 200e9, 0.3, 8000)]);
        double k2 = Math.Pow(m * Math.PI / 10, 2) + Math.Pow(n * Math.PI / 7, 2);
        double s = plate.Shear.Sx, d = plate.D.M11, mass = plate.ArealMass, inertia = plate.RotaryInertia;
        double b = s * k2 * inertia + mass * (d * k2 + s), c = s * k2 * d * k2;
        double omega2 = 2 * c / (b + Math.Sqrt(b * b - 4 * mass * inertia * c));
        Checks.Near(Math.Sqrt(omega2) / (2 * Math.PI), HingedRectangle.Frequency(plate, 10, 7, m, n), 1e-11);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(5)]
    [InlineData(12)]
    public void The_lowest_modes_are_the_lowest_of_all_and_in_order(int count)
    {
        Laminate board = SampleBoard.Unsymmetric.Laminate();
        double[] all = [.. from m in Enumerable.Range(1, 14) from n in Enumerable.Range(1, 14) select HingedRectangle.Frequency(board, A, B, m, n)];
        IReadOnlyList<RectangleMode> lowest = HingedRectangle.Lowest(board, A, B, count);
        Assert.Equal(all.Order().Take(count), lowest.Select(mode => mode.Frequency));
        Assert.All(lowest, mode => Assert.Equal(HingedRectangle.Frequency(board, A, B, mode.HalfWavesAlong, mode.HalfWavesAcross), mode.Frequency));
    }

    [Fact]
    public void A_narrow_plate_keeps_all_its_modes_along() => Assert.Equal(
        Enumerable.Range(1, 12), HingedRectangle.Lowest(SampleBoard.Unsymmetric.Laminate(), 2.0, 0.02, 12).Select(mode => mode.HalfWavesAlong));

    [Fact]
    public void Twice_the_size_in_all_three_directions_halves_every_frequency()
    {
        Board board = SampleBoard.Unsymmetric;
        Laminate small = board.Laminate(), large = Laminate.From([.. board.Plies().Select(p => p with { Thickness = 2 * p.Thickness, AddedArealMass = 2 * p.AddedArealMass })]);
        Checks.Near(HingedRectangle.Frequency(small, A, B, 2, 3) / 2, HingedRectangle.Frequency(large, 2 * A, 2 * B, 2, 3), 1e-12);
    }

    [Theory]
    [InlineData(0.140, 0.480, 0.365)]
    [InlineData(0.02, 0.1, 0.3)]
    public void The_equivalent_rectangle_keeps_area_and_proportion(double area, double length, double width)
    {
        EquivalentRectangle r = EquivalentRectangle.Of(new(area, length, width))!.Value;
        Checks.Near(area, r.Length * r.Width, 1e-14);
        Checks.Near(length / width, r.Length / r.Width, 1e-14);
    }

    [Fact]
    public void Without_length_or_width_there_is_no_rectangle()
    {
        Assert.Null(EquivalentRectangle.Of(new(0.14, null, 0.365)));
        Assert.Null(EquivalentRectangle.Of(new(0.14, 0.48, null)));
    }
}
