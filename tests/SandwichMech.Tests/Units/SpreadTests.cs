using SandwichMech.Workshop.Units;

namespace SandwichMech.Tests.Units;

/// <summary>Typed spreads: limits a give a/√3 (JCGM 100:2008, 4.3.7), 'sd' itself, 'k=2' the half.</summary>
[Trait("Check", "exact")]
public class SpreadTests
{
    private static readonly double Root3 = Math.Sqrt(3);

    public static TheoryData<string, double, double, string> Spreads() => new()
    {
        { "0.76 mm ± 0.05 mm", 0.00076, 0.00005 / Root3, "± 0.05 mm read as limits: standard deviation 0.029 mm" },
        { "0.76 mm +/- 0.05 mm", 0.00076, 0.00005 / Root3, "± 0.05 mm read as limits: standard deviation 0.029 mm" },
        { "0.76mm+-0.05mm", 0.00076, 0.00005 / Root3, "± 0.05 mm read as limits: standard deviation 0.029 mm" },
        { "0.76 ± 0.05 mm", 0.00076, 0.00005 / Root3, "± 0.05 mm read as limits: standard deviation 0.029 mm" },
        { "0,76 ± 0,05 mm", 0.00076, 0.00005 / Root3, "± 0,05 mm read as limits: standard deviation 0.029 mm" },
        { "0.030 in ± 0.002 in", 0.000762, 0.0000508 / Root3, "± 0.002 in read as limits: standard deviation 0.0012 in" },
        { "0.76 mm ± 2 thou", 0.00076, 0.0000508 / Root3, "± 2 thou read as limits: standard deviation 1.2 thou" },
        { "1/2 ± 1/64 in", 0.0127, 0.0254 / 64 / Root3, "± 1/64 in read as limits: standard deviation 0.009 in" },
        { "0.76 mm ± 0.05 mm sd", 0.00076, 0.00005, "± 0.05 mm read as a standard deviation" },
        { "0.76 ± 0.05 mm SD", 0.00076, 0.00005, "± 0.05 mm read as a standard deviation" },
        { "0.76 ± 0.05 mm (sd)", 0.00076, 0.00005, "± 0.05 mm read as a standard deviation" },
        { "0.76 ± 0.05 mm k=2", 0.00076, 0.000025, "± 0.05 mm read as expanded with k = 2: standard deviation 0.025 mm" },
        { "0.76 ± 0.05 mm k = 2", 0.00076, 0.000025, "± 0.05 mm read as expanded with k = 2: standard deviation 0.025 mm" },
        { "0.76 ± 0.05 mm (k=2)", 0.00076, 0.000025, "± 0.05 mm read as expanded with k = 2: standard deviation 0.025 mm" },
        { "0.8 mm ± 5 %", 0.0008, 0.00004 / Root3, "± 5 % of 0.8 mm read as limits: standard deviation 0.023 mm" },
        { "-0.8 mm ± 5 %", -0.0008, 0.00004 / Root3, "± 5 % of -0.8 mm read as limits: standard deviation 0.023 mm" },
        { "0.8 mm ± 5 % sd", 0.0008, 0.00004, "± 5 % of 0.8 mm read as a standard deviation: 0.04 mm" },
        { "0.8 mm ± 5% k=2", 0.0008, 0.00002, "± 5 % of 0.8 mm read as expanded with k = 2: standard deviation 0.02 mm" },
    };

    [Theory]
    [MemberData(nameof(Spreads))]
    public void A_spread_of_a_length_is_read_and_shown_back(string text, double value, double deviation, string reading)
    {
        var read = TypedValues.Read(text, Dimension.Length);

        AssertSpread(read, value, deviation, reading);
    }

    [Fact]
    public void A_spread_of_a_temperature_has_no_zero_of_its_own() =>
        AssertSpread(
            TypedValues.Read("20 °C ± 1.8 °F", Dimension.Temperature),
            293.15,
            1 / Root3,
            "± 1.8 °F read as limits: standard deviation 1 °F");

    [Theory]
    [InlineData("50 ± 5 %")]
    [InlineData("50 % ± 5 %")]
    public void Per_cent_of_a_percentage_are_points_and_the_ends_are_shown(string text) =>
        AssertSpread(
            TypedValues.Read(text, Dimension.Ratio),
            0.5,
            0.05 / Root3,
            "± 5 % (45 % to 55 %) read as limits: standard deviation 2.9 %");

    [Fact]
    public void Per_cent_of_a_plain_number_are_a_part_of_it() =>
        AssertSpread(
            TypedValues.Read("0.4 ± 5 %", Dimension.Ratio, "1"),
            0.4,
            0.02 / Root3,
            "± 5 % of 0.4 read as limits: standard deviation 0.012");

    [Theory]
    [InlineData("0.76 ± 0.05")]
    [InlineData("0.76 mm ± 0.05")]
    public void A_bare_spread_takes_the_unit_shown_beside_the_field(string text) =>
        AssertSpread(
            TypedValues.Read(text, Dimension.Length, "mm"),
            0.00076,
            0.00005 / Root3,
            "± 0.05 mm read as limits: standard deviation 0.029 mm");

    [Fact]
    public void The_unit_behind_the_spread_is_for_both_and_stronger_than_the_one_shown() =>
        AssertSpread(
            TypedValues.Read("0.030 ± 0.002 in", Dimension.Length, "mm"),
            0.000762,
            0.0000508 / Root3,
            "± 0.002 in read as limits: standard deviation 0.0012 in");

    [Theory]
    [InlineData("0.76 mm ± 0.05", null, "the spread lacks a unit: write ± 0.05 mm if that is meant")]
    [InlineData("0.76 mm ± 0.05 sd", null, "the spread lacks a unit")]
    [InlineData("0.030 in ± 0.002", "mm", "the spread lacks a unit: write ± 0.002 in if that is meant")]
    [InlineData("0.76 ± 0.05", null, "a unit is missing: write 0.76 mm")]
    [InlineData("0.76 ± 5 %", null, "a unit is missing: write 0.76 mm")]
    [InlineData("0.76 mm ± 0 mm", null, "a spread of 0 is not greater than 0")]
    [InlineData("0.76 mm ± -0.05 mm", null, "a spread of -0.05 is not greater than 0")]
    [InlineData("0.76 mm ±", null, "a number is missing behind ±")]
    [InlineData("0.76 mm ± mm", null, "a number is missing behind ±")]
    [InlineData("0.76 mm ± NaN mm", null, "a number is missing behind ±")]
    [InlineData("0.76 mm ± 0.05 mm ± 5 %", null, "has more than one ±")]
    [InlineData("0.76 mm ± 0.05 g", null, "0.05 g is a mass; a thickness or length is wanted")]
    [InlineData("0.76 ± 0.05 g", null, "0.76 g is a mass; a thickness or length is wanted")]
    [InlineData("0.76 mm ± 0.05 mmm", null, "'mmm' is no unit that is known here")]
    [InlineData("0.76 mm ± 1,500 mm", null, "1,500 mm can be read as 1.5 mm or as 1500 mm")]
    [InlineData("0.76 mm ± 1e999 mm", null, "1e999 is too large a number")]
    [InlineData("0.76 mm ± 1e-320 µm", null, "too small a number")]
    [InlineData("0.76 mm ± 0.05 mm k=0", null, "'k=0' is no coverage factor: write for example k=2")]
    [InlineData("0.76 mm ± 0.05 mm k=", null, "is no coverage factor")]
    [InlineData("0.76 mm ± 0.05 mm k=-2", null, "is no coverage factor")]
    [InlineData("0.76 mm ± 0.05 mm k=2 sd", null, "is not understood")]
    [InlineData("0.76 mm ± 0.05 mm at most", null, "'at most' behind 0.05 mm is not understood")]
    [InlineData("0 mm ± 5 %", null, "± 5 % of 0 is no spread: write it in mm")]
    [InlineData("0.76 mm sd", null, "'sd' behind 0.76 mm is not understood")]
    public void A_spread_is_refused(string text, string? shown, string words)
    {
        var read = TypedValues.Read(text, Dimension.Length, shown);

        Assert.Null(read.Value);
        Assert.Contains(words, read.Problem, StringComparison.Ordinal);
    }

    [Fact]
    public void Per_cent_of_a_temperature_mean_nothing() =>
        Assert.Contains(
            "± 5 % of a temperature means nothing",
            TypedValues.Read("20 °C ± 5 %", Dimension.Temperature).Problem,
            StringComparison.Ordinal);

    private static void AssertSpread(ReadResult read, double value, double deviation, string reading)
    {
        Assert.True(read.IsRead, read.Problem);
        Assert.Equal(value, read.Value.Value, 1e-15 * Math.Abs(value));
        Assert.Equal(deviation, read.Value.StandardDeviation, 1e-15 * deviation);
        Assert.Equal(reading, read.Value.SpreadReading);
    }
}
