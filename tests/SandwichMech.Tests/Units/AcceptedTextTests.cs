using SandwichMech.Workshop.Units;

namespace SandwichMech.Tests.Units;

/// <summary>Texts that are read, with the SI value that they mean by the definition of their unit.</summary>
[Trait("Check", "exact")]
public class AcceptedTextTests
{
    [Theory]
    // Numbers
    [InlineData("0.7 mm", 0.0007)]
    [InlineData("0,7 mm", 0.0007)]
    [InlineData("0.7mm", 0.0007)]
    [InlineData("  0.7   mm  ", 0.0007)]
    [InlineData("\t0.7\u00A0mm\r\n", 0.0007)]
    [InlineData("+0.7 mm", 0.0007)]
    [InlineData("-0.7 mm", -0.0007)]
    [InlineData("\u22120.7 mm", -0.0007)]
    [InlineData(".5 mm", 0.0005)]
    [InlineData(",5 mm", 0.0005)]
    [InlineData("1e-3 m", 0.001)]
    [InlineData("1E+1 mm", 0.01)]
    [InlineData("1,5e2 mm", 0.15)]
    [InlineData("0 mm", 0)]
    [InlineData("0,500 mm", 0.0005)]
    [InlineData("0,030 in", 0.000762)]
    [InlineData("1.500 mm", 0.0015)]
    [InlineData("1,50 mm", 0.0015)]
    [InlineData("1,5000 mm", 0.0015)]
    [InlineData("1234,567 mm", 1.234567)]
    [InlineData("1500 mm", 1.5)]
    // Fractions
    [InlineData("3/32 in", 0.00238125)]
    [InlineData("3 / 32 in", 0.00238125)]
    [InlineData("3\u204432 in", 0.00238125)]
    [InlineData("1 3/32 in", 0.02778125)]
    [InlineData("-1 3/32 in", -0.02778125)]
    [InlineData("13/8 in", 0.041275)]
    [InlineData("½ in", 0.0127)]
    [InlineData("1½ in", 0.0381)]
    [InlineData("1 ½ in", 0.0381)]
    [InlineData("¼ in", 0.00635)]
    [InlineData("¾ in", 0.01905)]
    [InlineData("⅛ in", 0.003175)]
    [InlineData("⅜ in", 0.009525)]
    [InlineData("⅝ in", 0.015875)]
    [InlineData("⅞ in", 0.022225)]
    // Units of length as they are written
    [InlineData("30 thou", 0.000762)]
    [InlineData("30 mil", 0.000762)]
    [InlineData("30 mils", 0.000762)]
    [InlineData("0.030 in", 0.000762)]
    [InlineData("0.030 in.", 0.000762)]
    [InlineData("0.030 inch", 0.000762)]
    [InlineData("0.030 inches", 0.000762)]
    [InlineData("0.030\"", 0.000762)]
    [InlineData("0.030″", 0.000762)]
    [InlineData("0.030”", 0.000762)]
    [InlineData("0.030''", 0.000762)]
    [InlineData("0.030 IN", 0.000762)]
    [InlineData("5 MM", 0.005)]
    [InlineData("5 millimetres", 0.005)]
    [InlineData("5 Millimeters", 0.005)]
    [InlineData("5 CM", 0.05)]
    [InlineData("50 µm", 0.00005)]
    [InlineData("50 μm", 0.00005)]
    [InlineData("50 um", 0.00005)]
    [InlineData("2 feet", 0.6096)]
    public void A_length_is_read(string text, double metres) => AssertRead(text, Dimension.Length, metres);

    [Theory]
    [InlineData("200 in²", Dimension.Area, 0.129032)]
    [InlineData("200 in2", Dimension.Area, 0.129032)]
    [InlineData("200 in^2", Dimension.Area, 0.129032)]
    [InlineData("200 in ^ 2", Dimension.Area, 0.129032)]
    [InlineData("200 in ²", Dimension.Area, 0.129032)]
    [InlineData("200 sq in", Dimension.Area, 0.129032)]
    [InlineData("200 sq. in.", Dimension.Area, 0.129032)]
    [InlineData("200 sq.in", Dimension.Area, 0.129032)]
    [InlineData("200 square inches", Dimension.Area, 0.129032)]
    [InlineData("1400 cm2", Dimension.Area, 0.14)]
    [InlineData("1400 sq cm", Dimension.Area, 0.14)]
    [InlineData("140000 MM2", Dimension.Area, 0.14)]
    [InlineData("2 sq ft", Dimension.Area, 0.18580608)]
    [InlineData("12.5 g", Dimension.Mass, 0.0125)]
    [InlineData("12.5 grams", Dimension.Mass, 0.0125)]
    [InlineData("1.2 Kg", Dimension.Mass, 1.2)]
    [InlineData("2 lbs", Dimension.Mass, 0.90718474)]
    [InlineData("16 oz.", Dimension.Mass, 0.45359237)]
    [InlineData("64.516 g/in²", Dimension.ArealDensity, 100)]
    [InlineData("64.516 g/in2", Dimension.ArealDensity, 100)]
    [InlineData("64.516 g/in^2", Dimension.ArealDensity, 100)]
    [InlineData("64.516 g / in²", Dimension.ArealDensity, 100)]
    [InlineData("64.516 g/sq in", Dimension.ArealDensity, 100)]
    [InlineData("64.516 g per square inch", Dimension.ArealDensity, 100)]
    [InlineData("50 g/m2", Dimension.ArealDensity, 0.05)]
    [InlineData("50 gsm", Dimension.ArealDensity, 0.05)]
    [InlineData("0.4 g/cm3", Dimension.Density, 400)]
    [InlineData("0,4 g/cm^3", Dimension.Density, 400)]
    [InlineData("0.4 g/cc", Dimension.Density, 400)]
    [InlineData("400 kg/m³", Dimension.Density, 400)]
    [InlineData("0.0254 g/in", Dimension.LineDensity, 0.001)]
    [InlineData("10 GPa", Dimension.Pressure, 1e10)]
    [InlineData("10 gpa", Dimension.Pressure, 1e10)]
    [InlineData("10 Mpa", Dimension.Pressure, 1e7)]
    [InlineData("10 MPA", Dimension.Pressure, 1e7)]
    [InlineData("80 kpa", Dimension.Pressure, 8e4)]
    [InlineData("800 mbar", Dimension.Pressure, 8e4)]
    [InlineData("0.8 Bar", Dimension.Pressure, 8e4)]
    [InlineData("45 °", Dimension.Angle, Math.PI / 4)]
    [InlineData("45°", Dimension.Angle, Math.PI / 4)]
    [InlineData("45º", Dimension.Angle, Math.PI / 4)]
    [InlineData("45 deg", Dimension.Angle, Math.PI / 4)]
    [InlineData("45 degrees", Dimension.Angle, Math.PI / 4)]
    [InlineData("50 %", Dimension.Ratio, 0.5)]
    [InlineData("50%", Dimension.Ratio, 0.5)]
    [InlineData("50 percent", Dimension.Ratio, 0.5)]
    [InlineData("½ %", Dimension.Ratio, 0.005)]
    [InlineData("183 hz", Dimension.Frequency, 183)]
    [InlineData("0.183 khz", Dimension.Frequency, 183)]
    [InlineData("10 n", Dimension.Force, 10)]
    [InlineData("20 ° C", Dimension.Temperature, 293.15)]
    [InlineData("20 ℃", Dimension.Temperature, 293.15)]
    [InlineData("20 C", Dimension.Temperature, 293.15)]
    [InlineData("20 deg C", Dimension.Temperature, 293.15)]
    [InlineData("30 min", Dimension.Duration, 1800)]
    [InlineData("1½ hours", Dimension.Duration, 5400)]
    [InlineData("20 Sec", Dimension.Duration, 20)]
    public void Other_dimensions_are_read(string text, Dimension wanted, double si) => AssertRead(text, wanted, si);

    [Theory]
    [InlineData("25 inHg")]
    [InlineData("25 in.Hg")]
    [InlineData("25 in. Hg")]
    [InlineData("25 in Hg")]
    [InlineData("25 inhg")]
    [InlineData("635 mmHg")]
    [InlineData("635 mm Hg")]
    public void Inches_and_millimetres_of_mercury_are_the_same_column(string text) =>
        // 0.635 m of mercury of 13 595.1 kg/m³ under standard gravity.
        AssertRead(text, Dimension.Pressure, 13595.1 * 9.80665 * 0.635);

    [Theory]
    [InlineData("0.7", Dimension.Length, "mm", 0.0007)]
    [InlineData("0,7", Dimension.Length, "mm", 0.0007)]
    [InlineData("1 3/32", Dimension.Length, "in", 0.02778125)]
    [InlineData("12", Dimension.Angle, "°", Math.PI / 15)]
    [InlineData("50", Dimension.Ratio, "%", 0.5)]
    [InlineData("0.37", Dimension.Ratio, "1", 0.37)]
    [InlineData("37 %", Dimension.Ratio, "1", 0.37)]
    [InlineData("68", Dimension.Temperature, "°F", 293.15)]
    public void A_bare_number_takes_the_unit_shown_beside_it(string text, Dimension wanted, string unit, double si)
    {
        var read = TypedValues.Read(text, wanted, unit);

        Assert.True(read.IsRead, read.Problem);
        Assert.Equal(si, read.Value.Value, 1e-14 * Math.Abs(si));
    }

    [Fact]
    public void A_typed_unit_is_stronger_than_the_one_shown() =>
        Assert.Equal(0.000762, TypedValues.Read("0.030 in", Dimension.Length, "mm").Value!.Value, 1e-18);

    [Fact]
    public void A_unit_that_does_not_fit_the_field_is_a_fault_of_the_program()
    {
        Assert.Throws<ArgumentException>(() => TypedValues.Read("1", Dimension.Length, "g"));
        Assert.Throws<ArgumentException>(() => TypedValues.Read("1", Dimension.Length, "1"));
        Assert.Throws<ArgumentException>(() => TypedValues.Read("1", Dimension.Length, "furlong"));
    }

    [Theory]
    [InlineData("100:30", 100, 30)]
    [InlineData("100 : 30", 100, 30)]
    [InlineData("3:1", 3, 1)]
    [InlineData("1:0,35", 1, 0.35)]
    [InlineData("1 1/2:1", 1.5, 1)]
    public void A_mixing_ratio_is_read_in_two_parts(string text, double first, double second)
    {
        var parts = TypedValues.ReadParts(text);

        Assert.Null(parts.Problem);
        Assert.Equal(first, parts.First);
        Assert.Equal(second, parts.Second);
    }

    private static void AssertRead(string text, Dimension wanted, double si)
    {
        var read = TypedValues.Read(text, wanted);

        Assert.True(read.IsRead, read.Problem);
        // Two or three roundings of a double.
        Assert.Equal(si, read.Value.Value, 5e-16 * Math.Abs(si));
        Assert.Equal(0, read.Value.StandardDeviation);
        Assert.Null(read.Value.SpreadReading);
    }
}
