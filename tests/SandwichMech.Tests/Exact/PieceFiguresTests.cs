using SandwichMech.Core.Identification;

namespace SandwichMech.Tests.Exact;

/// <summary>Thickness and density by weighing and measuring, reckoned by hand.</summary>
[Trait("Check", "exact")]
public class PieceFiguresTests
{
    [Fact]
    public void The_mean_thickness_averages_the_places_and_not_the_callipers()
    {
        // s² = (0.0133² + 0.0167² + 0.0033²)/2 = 2.333e-4 mm²; u² = (0.02/√3)² + s²/3 = 1.3333e-4 + 0.7778e-4 mm².
        MeanThickness t = MeanThickness.Of(new([0.00261, 0.00258, 0.00260], 0.00002 / Math.Sqrt(3)));
        Checks.Near(0.00779 / 3, t.Mean.Value, 1e-12);
        Checks.Near(Math.Sqrt(2.3333333e-4) / 1000, t.OverPlaces!.Value, 1e-7);
        Checks.Near(Math.Sqrt(2.1111111e-4) / 1000 / t.Mean.Value, t.Mean.Spread, 1e-4, "sd of the logarithm");
        Assert.Equal((0.00258, 0.00261, 3), (t.Least, t.Most, t.Places));

        // However many places: what the callipers are wrong by stays.
        MeanThickness many = MeanThickness.Of(new([.. Enumerable.Repeat(0.0026, 10000)], 1e-5));
        Checks.Near(1e-5 / 0.0026, many.Mean.Spread, 1e-4);
        MeanThickness one = MeanThickness.Of(new([0.0026], 1e-5));
        Assert.Null(one.OverPlaces);
        Checks.Near(1e-5 / 0.0026, one.Mean.Spread, 1e-4);
    }

    [Fact]
    public void Density_is_mass_over_volume_and_relative_spreads_add_in_squares()
    {
        PieceFigures figures = PieceFigures.Of(
        [
            new Weighing(new(0.2124, 0.003)), new SizeReading(false, new(0.52, 0.001)), new SizeReading(true, new(0.2, 0.002)),
            new ThicknessReading([0.004], 0), new TapReading([]), new MoistureReading(7, null, null),
        ]);
        // 0.2124/(0.52·0.2·0.004) = 510.577; √(3² + 1² + 2²) = √14 thousandths.
        Checks.Printed("510.577", figures.Density!.Value.Value);
        Checks.Near(Math.Sqrt(14) / 1000, figures.Density.Value.Spread, 1e-12);
    }

    [Fact]
    public void The_last_reading_of_a_kind_counts_and_without_all_four_there_is_no_density()
    {
        Reading[] all = [new Weighing(new(0.2, 0)), new Weighing(new(0.1, 0)), new SizeReading(false, new(0.5, 0)), new SizeReading(true, new(0.2, 0)), new ThicknessReading([0.0025], 0)];
        Checks.Near(400, PieceFigures.Of(all).Density!.Value.Value, 1e-12);
        foreach (Reading without in all[2..])
        {
            Assert.Null(PieceFigures.Of(all.Where(r => r != without)).Density);
        }

        Assert.Null(PieceFigures.Of(all[2..]).Density);
    }
}
