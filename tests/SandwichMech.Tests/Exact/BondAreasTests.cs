using SandwichMech.Core.Building;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Outlines;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Exact;

/// <summary>What a bond line covers, against shapes whose areas are known; the clock and the water against arithmetic.</summary>
[Trait("Check", "exact")]
public class BondAreasTests
{
    private const double Margin = 0.01, Radius = 0.2, HoleRadius = 0.04, RingRadius = 0.055;

    [Fact]
    public void A_margin_round_a_circle_makes_a_larger_circle()
    {
        Board board = On(Shapes.Circle(new(0, 0), Radius));
        Checks.Near(Math.PI * Radius * Radius, BondAreas.Of(board, 0, false).Total, 1e-6);
        Checks.Near(Math.PI * (Radius + Margin) * (Radius + Margin), BondAreas.Of(board, Margin, false).Total, 1e-5);
    }

    // A rectangle with rounded corners.
    [Fact]
    public void A_margin_round_a_rectangle_has_round_corners()
    {
        Board board = On(Shapes.Rectangle(new(0, -0.15, 0.5, 0.15)));
        Checks.Near(0.5 * 0.3 + 2 * (0.5 + 0.3) * Margin + Math.PI * Margin * Margin, BondAreas.Of(board, Margin, false).Total, 1e-6);
    }

    // Perimeter by many chords.
    [Fact]
    public void A_margin_round_an_ellipse_adds_its_perimeter_times_the_margin_and_a_circle()
    {
        const double a = 0.25, b = 0.18;
        const int chords = 20000;
        Point[] on = [.. Enumerable.Range(0, chords).Select(i => new Point(a * Math.Cos(2 * Math.PI * i / chords), b * Math.Sin(2 * Math.PI * i / chords)))];
        double around = Enumerable.Range(0, chords).Sum(i => (on[(i + 1) % chords] - on[i]).Norm);
        Board board = On(Shapes.Ellipse(new(0, 0), a, b, 0));
        Checks.Near(Math.PI * a * b, BondAreas.Of(board, 0, false).Total, 1e-5);
        Checks.Near(Math.PI * a * b + around * Margin + Math.PI * Margin * Margin, BondAreas.Of(board, Margin, false).Total, 1e-5);
    }

    [Fact]
    public void A_polygon_has_the_area_of_the_shoelace_formula()
    {
        Point[] corners = [new(0, -0.15), new(0.45, -0.11), new(0.5, 0.1), new(0.2, 0.17), new(0.02, 0.14)];
        double shoelace = Enumerable.Range(0, 5).Sum(i => corners[i].X * corners[(i + 1) % 5].Y - corners[(i + 1) % 5].X * corners[i].Y) / 2;
        Checks.Near(shoelace, BondAreas.Of(On(Shapes.Polygon(corners)), 0, false).Total, 1e-12);
    }

    [Fact]
    public void A_hole_counts_until_it_is_cut_and_is_let_in_wood_under_its_ring()
    {
        Curve hole = Shapes.Circle(new(0, 0), HoleRadius), rim = Shapes.Circle(new(0, 0), RingRadius);
        double ring = Math.PI * (RingRadius * RingRadius - HoleRadius * HoleRadius), open = Math.PI * HoleRadius * HoleRadius, all = Math.PI * Radius * Radius;
        Board board = On(Shapes.Circle(new(0, 0), Radius));
        board = board with
        {
            Shape = board.Shape! with
            {
                Holes = [hole],
                Regions = [new("hole ring", [rim], rim.Contains, new LetInWood(board.Inner.Wood))],
                Parts = [new([], [new(new(0.1, 0), all - ring - open)]), new([0], [new(new(0.05, 0), ring)])],
            },
        };
        var uncut = BondAreas.Of(board, 0, holeCut: false);
        Checks.Near(all, uncut.Total, 1e-6);
        Checks.Near(ring + open, uncut.LetIn, 1e-6);
        var cut = BondAreas.Of(board, 0, holeCut: true);
        Checks.Near(all - open, cut.Total, 1e-6);
        Checks.Near(ring, cut.LetIn, 1e-6);
    }

    [Fact]
    public void Without_an_outline_a_margin_needs_length_and_width()
    {
        Board board = SampleBoard.Unsymmetric with { Shape = null, Size = new(0.15, 0.5, 0.3) };
        Checks.Near(0.52 * 0.32, BondAreas.Of(board, Margin, false).Total, 1e-12);
        Assert.Throws<ArgumentException>(() => BondAreas.Of(board with { Size = new(0.15, null, 0.3) }, Margin, false));
    }

    [Fact]
    public void Each_region_takes_its_own_coverage()
    {
        BondLinePlan plan = AdhesivePlan.Of(SampleBoard.Epoxy, new BondAreas(0.1, 0.05), 0.1, null);
        Checks.Near(0.2325 * 0.1 + 0.1 * 0.05, plan.Mixed, 1e-14);
    }

    // Common practice, no source: halves per 10 °C warmer.
    [Fact]
    public void Times_halve_ten_degrees_warmer()
    {
        var adhesive = SampleBoard.Epoxy with { WorkingTime = 3600, TimesAt = 293.15, UnbagTime = 43200, FullCureTime = null };
        var warm = CureTimes.At(adhesive, 303.15);
        Checks.Near(1800, warm.FullVacuum!.Value, 1e-12);
        Checks.Near(21600, warm.Unbag!.Value, 1e-12);
        Assert.Null(warm.FullCure);
        Checks.Near(7200, CureTimes.At(adhesive, 283.15).FullVacuum!.Value, 1e-12);
    }

    // 128 g of wood at 7 %: 1 % of the dry mass is 1.2 g, 7 % of a bond that keeps 17 g.
    [Fact]
    public void A_percent_of_moisture_is_grams_and_a_witness_shows_a_fifth_of_it()
    {
        double water = WaterWitness.Water(0.128, 0.07, 0.01);
        Checks.Printed("1.2e-3", water);
        Checks.Printed("0.07", water / 0.017);
        double least = WaterWitness.LeastMass(1e-4, 0.002, 0.08);
        Checks.Near(0.054, least, 1e-12);
        Checks.Near(1e-4, WaterWitness.Water(least, 0.08, 0.002), 1e-12);
    }

    private static Board On(Curve outline) => SampleBoard.Unsymmetric with
    {
        Shape = new() { Outline = outline, Parts = [new([], [new(new(0, 0), Math.Abs(outline.SignedArea))])] },
    };
}
