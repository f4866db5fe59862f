using SandwichMech.Core.Identification;
using SandwichMech.Tests.EndToEnd;
using SandwichMech.Tests.Log;
using SandwichMech.Workshop.Log;

namespace SandwichMech.Tests.Exact;

/// <summary>Maps of thickness: planes and domes that are known, one set reckoned by hand, and files.</summary>
[Trait("Check", "exact")]
public sealed class ThicknessMapTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    // t = 2 mm - 0.06 mm ξ + 0.04 mm η, ξ and η from -1/2 to 1/2 at the ends of the piece: the falls from end to end are those factors, and nothing is left over.
    [Theory]
    [InlineData(2, 3)]
    [InlineData(4, 3)]
    [InlineData(7, 5)]
    public void A_plane_gives_its_falls_and_leaves_no_scatter(int rows, int places)
    {
        ThicknessMap map = ThicknessMap.Of(new(Field(rows, places, (x, y) => 2e-3 - 0.06e-3 * x + 0.04e-3 * y), 1e-5));
        Checks.Near(2e-3, map.Thickness.Mean.Value, 1e-12);
        Checks.Near(-0.06e-3, map.Along.Whole, 1e-9);
        Checks.Near(0.04e-3, map.Across.Whole, 1e-9);
        Assert.InRange(map.Scatter, 0, 1e-15);
        // Even grading does not widen the mean; the callipers do.
        Checks.Near(1e-5 / 2e-3, map.Thickness.Mean.Spread, 1e-4);
        Assert.Equal((rows - 1, 0), (map.ThinRow, map.ThinPlace));
        if (map.MiddleLessEdge is { } middle) { Assert.InRange(middle, -1e-15, 1e-15); }
    }

    // Eight at the edge of 2.0 mm round one of 1.91 mm: mean 1.99; off the plane -0.08 and eight times 0.01; s² = (0.0064 + 8·0.0001)/6 = 0.0012 mm².
    [Fact]
    public void A_hollow_is_reckoned_as_by_hand()
    {
        ThicknessMap map = ThicknessMap.Of(new([[2.0e-3, 2.0e-3, 2.0e-3], [2.0e-3, 1.91e-3, 2.0e-3], [2.0e-3, 2.0e-3, 2.0e-3]], 0.01e-3));
        Checks.Near(1.99e-3, map.Thickness.Mean.Value, 1e-12);
        Checks.Near(Math.Sqrt(0.0012) * 1e-3, map.Scatter, 1e-9);
        Checks.Near(-0.09e-3, map.MiddleLessEdge!.Value, 1e-9);
        // u² = 0.01² + 0.0012/9 mm².
        Checks.Near(Math.Sqrt(1e-4 + 0.0012 / 9) / 1.99, map.Thickness.Mean.Spread, 1e-4);
        // Σ ξ² = 3 (1/9 + 0 + 1/9) = 2/3.
        Checks.Near(Math.Sqrt(0.0012 / (2.0 / 3)) * 1e-3, map.Along.Deviation, 1e-9);
        Assert.Equal((1, 1), (map.ThinRow, map.ThinPlace));
        // Σ (t - mean)² = 0.0072 as well, over 8.
        Checks.Near(Math.Sqrt(0.0072 / 8) * 1e-3, map.Thickness.OverPlaces!.Value, 1e-9);
    }

    [Fact]
    public void Four_places_are_not_taken_to_be_known_better_than_the_callipers_are()
    {
        ThicknessMap map = ThicknessMap.Of(new([[2e-3, 2e-3], [2e-3, 2e-3]], 1e-5));
        Checks.Near(1e-5, map.Scatter, 1e-12);
        Checks.Near(1e-5 * Math.Sqrt(1.25) / 2e-3, map.Thickness.Mean.Spread, 1e-4);
        Assert.Null(map.MiddleLessEdge);
    }

    [Theory]
    [InlineData("mm\n2.02,1.98,2.00\n2.05,2.01,1.99\n", 0.02 / 1.7320508)]
    [InlineData("# invented\r\nmm;;\r\n2,02;1,98;2,00\r\n\r\n2,05;2,01;1,99\r\n", 0.02 / 1.7320508)]
    [InlineData("mm ± 0.01 mm\n2.02\t1.98\t2.00\n2.05\t2.01\t1.99\n", 0.01 / 1.7320508)]
    [InlineData("in\n0.079527559,0.077952756,0.078740157\n0.080708661,0.079133858,0.078346457\n", 0.02 / 1.7320508)]
    public void A_file_says_the_same_as_typed_rows(string text, double instrumentMm)
    {
        string file = _folder.File("map.csv"), log = DemoLog.In(_folder);
        File.WriteAllText(file, text);
        Assert.Equal(0, Commanded.Run("piece", "read", "1", "--thickness-map", file, "--log", log).Code);
        ThicknessMapReading read = Last(log);
        foreach ((double value, double expected) in read.Rows.SelectMany(r => r).Zip([2.02, 1.98, 2.00, 2.05, 2.01, 1.99])) { Checks.Near(expected / 1000, value, 1e-7); }
        Assert.Equal(2, read.Rows.Count);
        Checks.Near(instrumentMm / 1000, read.Instrument, 1e-6);
    }

    [Theory]
    [InlineData("", "holds no rows")]
    [InlineData("mm\n", "holds no rows")]
    [InlineData("2.02,1.98\n2.05,2.01\n", "a unit is missing")]
    [InlineData("mm\n2.02,1.98\n2.05\n", "row 2 has 1 numbers and row 1 has 2")]
    [InlineData("mm\n2.02,1.98\n", "holds one row")]
    public void A_wrong_file_is_one_clear_line_and_nothing_is_kept(string text, string says)
    {
        string file = _folder.File("map.csv"), log = DemoLog.In(_folder);
        File.WriteAllText(file, text);
        Commanded run = Commanded.Run("piece", "read", "1", "--thickness-map", file, "--log", log);
        Assert.Equal(2, run.Code);
        Assert.Contains(says, Assert.Single(run.Err.Trim().Split('\n')), StringComparison.Ordinal);
        using ShopLog after = ShopLog.Open(log);
        Assert.Equal(DemoLog.Entries, after.Entries());
    }

    [Fact]
    public void A_map_counts_as_the_thickness_until_a_later_reading_and_is_shown_with_its_grading()
    {
        string log = DemoLog.In(_folder);
        Commanded Run(params string[] words) => Commanded.Run([.. words, "--log", log]);
        Assert.Equal(0, Run("piece", "read", "1", "--thickness-map", "2.04 2.00, 1.96; 2,02 1.98mm 1.94 mm").Code);
        string shown = Run("piece", "show", "1").Out;
        // Mean 1.99; 0.02 mm over two middles half a length apart is 0.04 mm from end to end, 0.0077 mm for each 100 of 520 mm; 0.04 mm over a third is 0.12 mm across.
        Assert.Contains("thinner towards the upper end by 0.040 mm", shown, StringComparison.Ordinal);
        Assert.Contains("0.0077 mm for each 100 mm", shown.Replace("\n ", "", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Contains("thinner towards the right by 0.12 mm", shown.Replace("\n ", "", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Contains("row 2 from the lower end, place 3 from the left, about 390.0 mm", shown.Replace("\n ", "", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Contains("thickness-map", Run("log", "export").Out, StringComparison.Ordinal);
        // The fit knows density by mass over volume; the table's own pull is small beside it.
        using (System.Text.Json.JsonDocument measured = System.Text.Json.JsonDocument.Parse(Run("measure", "1", "--json").Out))
        {
            Checks.Near(0.0886 / (0.52 * 0.2 * 0.00199), measured.RootElement.GetProperty("density_as_read_kg_m3").GetDouble(), 0.003);
            Assert.DoesNotContain("from place to place", measured.RootElement.GetProperty("notes").ToString(), StringComparison.Ordinal);
        }

        // 2.2 and 1.8 mm by turns: 10.7 % (sd), 3 s² of it 3.4 %.
        Assert.Equal(0, Run("piece", "read", "1", "--thickness-map", "2.2 1.8 2.2 1.8; 1.8 2.2 1.8 2.2 mm").Code);
        Assert.Contains("differs by 11 % (sd) from place to place", Run("measure", "1", "--json").Out, StringComparison.Ordinal);
        Assert.Contains("about 3.4 % stiffer", Run("measure", "1", "--json").Out, StringComparison.Ordinal);
        Assert.Equal(0, Run("piece", "read", "1", "--thickness", "2.00 mm").Code);
        Assert.DoesNotContain("Thickness all over", Run("piece", "show", "1").Out, StringComparison.Ordinal);
    }

    private static IReadOnlyList<double>[] Field(int rows, int places, Func<double, double, double> of) =>
        [.. Enumerable.Range(0, rows).Select(i => (IReadOnlyList<double>)[.. Enumerable.Range(0, places).Select(j => of((i + 0.5) / rows - 0.5, (j + 0.5) / places - 0.5))])];

    private static ThicknessMapReading Last(string log)
    {
        using ShopLog open = ShopLog.Open(log);
        return open.Readings(1).Select(e => e.Reading).OfType<ThicknessMapReading>().Single();
    }
}
