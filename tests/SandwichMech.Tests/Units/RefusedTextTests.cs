using SandwichMech.Workshop.Units;

namespace SandwichMech.Tests.Units;

/// <summary>Texts that are not read, each with words of the one line that says why and how to mend it.</summary>
[Trait("Check", "exact")]
public class RefusedTextTests
{
    [Theory]
    // Nothing, or no number
    [InlineData("", "nothing is written here: write for example 0.7 mm")]
    [InlineData(" \t\n", "nothing is written here")]
    [InlineData("mm", "a number is missing before 'mm': write for example 0.7 mm")]
    [InlineData("± 0.05 mm", "the value before ± is missing")]
    [InlineData("thin", "'thin' does not begin with a number")]
    [InlineData("NaN mm", "'NaN mm' does not begin with a number")]
    [InlineData("Infinity mm", "does not begin with a number")]
    [InlineData("-Infinity mm", "does not begin with a number")]
    [InlineData("∞ mm", "does not begin with a number")]
    [InlineData(". mm", "does not begin with a number")]
    [InlineData("- mm", "does not begin with a number")]
    [InlineData("۵ mm", "only 0 to 9 are")]
    [InlineData("0x1F mm", "looks hexadecimal")]
    // Out of a double's range
    [InlineData("1e999 mm", "1e999 is too large a number")]
    [InlineData("1e-999 mm", "1e-999 is too small a number")]
    [InlineData("1e-323 µm", "too small a number")]
    // Thousands, or decimals?
    [InlineData("1,500 mm", "1,500 mm can be read as 1.5 mm or as 1500 mm: write 1.5 mm or 1500 mm")]
    [InlineData("-12,340 mm", "-12,340 mm can be read as -12.34 mm or as -12340 mm: write -12.34 mm or -12340 mm")]
    [InlineData("123,456mm", "can be read as 123.456mm or as 123456mm")]
    [InlineData("1,000 mm", "can be read as 1 mm or as 1000 mm")]
    [InlineData("1,500e1 mm", "can be read as 1.5e1 mm or as 1500e1 mm")]
    [InlineData("1 500 mm", "write 1500 mm if that is meant")]
    [InlineData("1\u202F500 mm", "write 1500 mm if that is meant")]
    [InlineData("1'500 mm", "write 1500 mm if that is meant")]
    [InlineData("1,500,000 mm", "write 1500000 mm if that is meant")]
    [InlineData("1.500.000 mm", "write 1500000 mm if that is meant")]
    [InlineData("1.500,5 mm", "write 1500.5 mm if that is meant")]
    [InlineData("1,500.5 mm", "write 1500.5 mm if that is meant")]
    [InlineData("1 500,5 mm", "write 1500.5 mm if that is meant")]
    // Numbers that are none
    [InlineData("1.2.3 mm", "'1.2.3' has more than one decimal mark")]
    [InlineData("1,2.3 mm", "'1,2.3' has more than one decimal mark")]
    [InlineData("5. mm", "'5.' ends in a decimal mark: write 5")]
    [InlineData("1 5 mm", "'1 5 mm' has two numbers where one is wanted")]
    [InlineData("1.5 ½ in", "has two numbers")]
    [InlineData("1 1/2 1/4 in", "has two numbers")]
    [InlineData("3/0 in", "3/0 divides by 0")]
    [InlineData("1 5/3 in", "1 5/3 has a fraction that is not less than 1")]
    [InlineData("3/32/4 in", "write a fraction of two whole numbers, as 3/32")]
    [InlineData("3/1.5 in", "write a fraction of two whole numbers, as 3/32")]
    [InlineData("1-3/32 in", "write a mixed number with a space, 1 3/32 in")]
    [InlineData("0.5-0.7 mm", "looks like a range: write its middle and its limits, 0.6 ± 0.1 mm")]
    [InlineData("0.5 – 0.7 mm", "write its middle and its limits, 0.6 ± 0.1 mm")]
    [InlineData("0.5 to 0.7 mm", "write its middle and its limits, 0.6 ± 0.1 mm")]
    // Units
    [InlineData("0.7", "a unit is missing: write 0.7 mm or 0.0276 in")]
    [InlineData("0.030", "a unit is missing: write 0.030 in or 0.762 mm")]
    [InlineData("3/32", "a unit is missing: write 3/32 in or 2.38 mm")]
    [InlineData("0,7", "a unit is missing: write 0,7 mm or 0.0276 in")]
    [InlineData("0.7 g", "0.7 g is a mass; a thickness or length is wanted: write for example 0.7 mm")]
    [InlineData("0.7 mm²", "0.7 mm² is an area; a thickness or length is wanted")]
    [InlineData("7 %", "7 % is a percentage; a thickness or length is wanted")]
    [InlineData("0.7 mmm", "'mmm' is no unit that is known here; lengths are written in mm, cm, m, in, thou (did you mean mm?)")]
    [InlineData("7 inchs", "(did you mean inch?)")]
    [InlineData("7 furlongs", "'furlongs' is no unit that is known here; lengths are written in mm, cm, m, in, thou")]
    [InlineData("7 Mm", "'Mm' is not read, since m is a thousandth and M a million: write mm if that is meant")]
    [InlineData("0.7 mm in", "'0.7 mm in' has two units, mm and in: write one, as 0.7 mm")]
    [InlineData("0.7 m in", "has two units, m and in")]
    [InlineData("5 ft 3 in", "'3 in' behind 5 ft is not understood")]
    [InlineData("0.7 mm thick", "'thick' behind 0.7 mm is not understood: write one number and one unit, as 0.7 mm")]
    [InlineData("0.7 mm 5", "'5' behind 0.7 mm is not understood")]
    [InlineData("0.7 mm; rm", "is no unit that is known here")]
    public void A_length_is_refused(string text, string words) => AssertRefused(text, Dimension.Length, words);

    [Theory]
    [InlineData("50", Dimension.Ratio, "a unit is missing: write 50 %")]
    [InlineData("0.5", Dimension.Ratio, "a unit is missing: write 50 % or 0.5 %, whichever is meant")]
    [InlineData("120", Dimension.Mass, "a unit is missing: write 120 g or 4.23 oz")]
    [InlineData("1400", Dimension.Area, "write 1400 cm² or 217 in²")]
    [InlineData("50", Dimension.ArealDensity, "write 50 g/m² or 0.0323 g/in²")]
    [InlineData("400", Dimension.Density, "write 400 kg/m³ or 25 lb/ft³")]
    [InlineData("5", Dimension.LineDensity, "write 5 g/m or 0.127 g/in")]
    [InlineData("10", Dimension.Pressure, "write 10 GPa or 10 MPa for a modulus, 10 kPa for a pressure")]
    [InlineData("12", Dimension.Angle, "write 12° or 12 deg")]
    [InlineData("183", Dimension.Frequency, "write 183 Hz")]
    [InlineData("10", Dimension.Force, "write 10 N or 2.25 lbf")]
    [InlineData("20", Dimension.Temperature, "write 20 °C or 68 °F")]
    [InlineData("30", Dimension.Duration, "write 30 min or 0.5 h")]
    [InlineData("1,500,000 g", Dimension.Mass, "write 1500000 g if that is meant")]
    [InlineData("5 lbf", Dimension.Mass, "5 lbf is a force; a mass is wanted: write 5 lb")]
    [InlineData("5 lb", Dimension.Force, "5 lb is a mass; a force is wanted: write 5 lbf")]
    [InlineData("5 MN", Dimension.Force, "'MN' is not read, since m is a thousandth and M a million: write mN")]
    [InlineData("10 mPa", Dimension.Pressure, "write MPa if that is meant")]
    [InlineData("10 mpa", Dimension.Pressure, "write MPa if that is meant")]
    [InlineData("1.5 mpsi", Dimension.Pressure, "write Mpsi if that is meant")]
    [InlineData("5 MG", Dimension.Mass, "write mg if that is meant")]
    [InlineData("1e300 GPa", Dimension.Pressure, "1e300 or its spread is too large a number")]
    [InlineData("5 m", Dimension.Duration, "5 m is a length; a time is wanted")]
    [InlineData("5 m in", Dimension.Duration, "has two units, m and in")]
    [InlineData("45 °", Dimension.Temperature, "45° is an angle; a temperature is wanted: write for example 20 °C")]
    [InlineData("7 lb/ft3", Dimension.ArealDensity, "7 lb/ft³ is a density; a mass per area is wanted")]
    public void Other_dimensions_are_refused(string text, Dimension wanted, string words) => AssertRefused(text, wanted, words);

    [Theory]
    [InlineData("", "nothing is written here: write two parts, as 100:30")]
    [InlineData("100", "'100' is no ratio of two parts: write two parts, as 100:30")]
    [InlineData("100/30", "is no ratio of two parts")]
    [InlineData("1:2:3", "is no ratio of two parts")]
    [InlineData("100:", "lacks a number on one side of the colon")]
    [InlineData("100 g:30 g", "'g' behind 100 is not read")]
    [InlineData("100:0", "the part 0 is not greater than 0")]
    [InlineData("100:-30", "the part -30 is not greater than 0")]
    [InlineData("1:1,500", "1,500 can be read as 1.5 or as 1500: write 1.5 or 1500")]
    [InlineData("1:1e999", "too large a number")]
    public void A_mixing_ratio_is_refused(string text, string words) =>
        AssertOneLine(words, TypedValues.ReadParts(text).Problem);

    [Fact]
    public void An_endless_text_is_quoted_in_short()
    {
        var problem = TypedValues.Read(new string('9', 100_000) + " mm", Dimension.Length).Problem;

        AssertOneLine("is too long for a value", problem);
        Assert.True(problem!.Length < 200);
    }

    private static void AssertRefused(string text, Dimension wanted, string words)
    {
        var read = TypedValues.Read(text, wanted);

        Assert.False(read.IsRead, $"'{text}' was read as {read.Value}");
        Assert.Null(read.Value);
        AssertOneLine(words, read.Problem);
    }

    private static void AssertOneLine(string words, string? problem)
    {
        Assert.Contains(words, problem, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', problem!);
    }
}
