using CsCheck;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Tests.Units;

/// <summary>How SI values are shown.</summary>
[Trait("Check", "exact")]
public class DisplayTests
{
    private static readonly Dictionary<Shown, Dimension> TypedAs = new()
    {
        [Shown.Thickness] = Dimension.Length,
        [Shown.Length] = Dimension.Length,
        [Shown.Area] = Dimension.Area,
        [Shown.Mass] = Dimension.Mass,
        [Shown.ArealDensity] = Dimension.ArealDensity,
        [Shown.Density] = Dimension.Density,
        [Shown.LineDensity] = Dimension.LineDensity,
        [Shown.Modulus] = Dimension.Pressure,
        [Shown.Stress] = Dimension.Pressure,
        [Shown.Pressure] = Dimension.Pressure,
        [Shown.Frequency] = Dimension.Frequency,
        [Shown.Angle] = Dimension.Angle,
        [Shown.Percent] = Dimension.Ratio,
        [Shown.Force] = Dimension.Force,
        [Shown.Temperature] = Dimension.Temperature,
    };

    [Theory]
    [InlineData(0.000762, Shown.Thickness, "0.76 mm", "0.030 in")]
    [InlineData(0.00004, Shown.Thickness, "0.040 mm", "0.0016 in")] // an adhesive film is not shown as nothing
    [InlineData(0.508, Shown.Length, "508.0 mm", "20.00 in")]
    [InlineData(0.14, Shown.Area, "1400 cm²", "217.0 in²")]
    [InlineData(0.1234, Shown.Mass, "123.4 g", "123.4 g")]
    [InlineData(0.512, Shown.ArealDensity, "512 g/m²", "0.330 g/in²")]
    [InlineData(0.05, Shown.ArealDensity, "50.0 g/m²", "0.0323 g/in²")]
    [InlineData(400, Shown.Density, "400 kg/m³", "25.0 lb/ft³")]
    [InlineData(0.0046, Shown.LineDensity, "4.60 g/m", "0.117 g/in")]
    [InlineData(10.3e9, Shown.Modulus, "10.3 GPa", "1.49 Mpsi")]
    [InlineData(32e6, Shown.Stress, "32.0 MPa", "4.64 ksi")]
    [InlineData(84.66e3, Shown.Pressure, "84.7 kPa", "25.0 inHg")]
    [InlineData(70, Shown.BendingStiffness, "70.0 N·m", "620 lbf·in")]
    [InlineData(90_000, Shown.ShearStiffness, "90.0 kN/m", "514 lbf/in")]
    [InlineData(90_000, Shown.Stiffness, "90.0 N/mm", "514 lbf/in")]
    [InlineData(183.44, Shown.Frequency, "183.4 Hz", "183.4 Hz")]
    [InlineData(Math.PI / 15, Shown.Angle, "12.0°", "12.0°")]
    [InlineData(0.245, Shown.Percent, "25 %", "25 %")]
    [InlineData(0.055, Shown.Percent, "5.5 %", "5.5 %")]
    [InlineData(10, Shown.Force, "10.0 N", "2.25 lbf")]
    [InlineData(293.15, Shown.Temperature, "20.0 °C", "68.0 °F")]
    [InlineData(0, Shown.Thickness, "0.00 mm", "0.000 in")]
    [InlineData(-1e-13, Shown.Mass, "0.0 g", "0.0 g")] // the residue of a difference
    [InlineData(-0.0031, Shown.Mass, "-3.1 g", "-3.1 g")]
    [InlineData(1e20, Shown.Frequency, "1.00E+20 Hz", "1.00E+20 Hz")]
    public void A_value_is_shown_in_both_systems(double si, Shown kind, string metric, string inch)
    {
        Assert.Equal(metric, Display.Text(si, kind, UnitSystem.Metric));
        Assert.Equal(inch, Display.Text(si, kind, UnitSystem.Inch));
    }

    [Fact]
    public void Nought_has_no_sign() => Assert.Equal("0.00 mm", Display.Text(-0.0, Shown.Thickness, UnitSystem.Metric));

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    public void What_is_no_number_is_never_shown_as_one(double si)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Display.Text(si, Shown.Mass, UnitSystem.Metric));
        Assert.Throws<ArgumentOutOfRangeException>(() => Display.In(si, Shown.Mass, UnitSystem.Metric));
    }

    [Fact]
    public void Every_kind_has_a_unit_for_column_heads()
    {
        foreach (var kind in Enum.GetValues<Shown>())
        {
            foreach (var system in Enum.GetValues<UnitSystem>())
            {
                Assert.EndsWith(Display.Unit(kind, system), Display.Text(1, kind, system), StringComparison.Ordinal);
                Assert.StartsWith(Display.Number(1, kind, system), Display.Text(1, kind, system), StringComparison.Ordinal);
            }
        }
    }

    [Fact]
    public void What_is_shown_is_read_back_to_its_last_digit() =>
        Gen.Select(Gen.OneOf(TypedAs.Keys.ToArray()), Gen.Enum<UnitSystem>(), Gen.Double[-3.9, 9], Gen.Bool)
            .Sample((kind, system, exponent, negative) =>
            {
                var inUnit = (negative ? -1 : 1) * Math.Pow(10, exponent);
                var dimension = TypedAs[kind];
                var si = TypedValues.Read(Texts.Plain(inUnit), dimension, Display.Unit(kind, system)).Value!.Value;
                var text = Display.Text(si, kind, system);
                var read = TypedValues.Read(text, dimension);

                Assert.True(read.IsRead, $"{text}: {read.Problem}");
                var number = Display.Number(si, kind, system);
                var point = number.IndexOf('.', StringComparison.Ordinal);
                var half = 0.5 * Math.Pow(10, point < 0 ? 0 : point + 1 - number.Length);
                var again = Display.In(read.Value.Value, kind, system);
                Assert.Equal(inUnit, again, (half * 1.000001) + (1e-12 * Math.Abs(inUnit)) + (kind == Shown.Temperature ? 1e-10 : 0));
                // Nothing but a temperature near its arbitrary zero is shown as nought.
                Assert.True(kind == Shown.Temperature || again != 0, text);
            });

    [Fact]
    public void A_plotted_number_is_the_value_itself() =>
        Gen.Select(Gen.OneOf(TypedAs.Keys.ToArray()), Gen.Enum<UnitSystem>(), Gen.Double[1e-6, 1e10])
            .Sample((kind, system, si) =>
            {
                var plotted = Display.In(si, kind, system);
                var read = TypedValues.Read(Texts.Plain(plotted) + " " + Display.Unit(kind, system), TypedAs[kind]);

                Assert.True(read.IsRead, read.Problem);
                Assert.Equal(si, read.Value.Value, (1e-14 * si) + (kind == Shown.Temperature ? 1e-12 : 0));
            });
}
