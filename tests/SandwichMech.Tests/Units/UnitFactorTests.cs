using SandwichMech.Workshop.Units;
using UnitsNet;
using Display = SandwichMech.Workshop.Units.Display;
using UnitSystem = SandwichMech.Workshop.Units.UnitSystem;

namespace SandwichMech.Tests.Units;

/// <summary>Every factor of the reader against UnitsNet, whose own units are composed where it has not the one wanted.</summary>
[Trait("Check", "independent")]
public class UnitFactorTests
{
    /// <summary>SI value of a number in each unit, by UnitsNet.</summary>
    internal static readonly Dictionary<string, Func<double, double>> ByUnitsNet = new()
    {
        ["mm"] = x => Length.FromMillimeters(x).Meters,
        ["cm"] = x => Length.FromCentimeters(x).Meters,
        ["m"] = x => Length.FromMeters(x).Meters,
        ["in"] = x => Length.FromInches(x).Meters,
        ["thou"] = x => Length.FromMils(x).Meters,
        ["ft"] = x => Length.FromFeet(x).Meters,
        ["µm"] = x => Length.FromMicrometers(x).Meters,
        ["cm²"] = x => Area.FromSquareCentimeters(x).SquareMeters,
        ["mm²"] = x => Area.FromSquareMillimeters(x).SquareMeters,
        ["m²"] = x => Area.FromSquareMeters(x).SquareMeters,
        ["in²"] = x => Area.FromSquareInches(x).SquareMeters,
        ["ft²"] = x => Area.FromSquareFeet(x).SquareMeters,
        ["g"] = x => Mass.FromGrams(x).Kilograms,
        ["kg"] = x => Mass.FromKilograms(x).Kilograms,
        ["mg"] = x => Mass.FromMilligrams(x).Kilograms,
        ["oz"] = x => Mass.FromOunces(x).Kilograms,
        ["lb"] = x => Mass.FromPounds(x).Kilograms,
        ["g/m²"] = x => AreaDensity.FromGramsPerSquareMeter(x).KilogramsPerSquareMeter,
        ["g/in²"] = x => Mass.FromGrams(x).Kilograms / Area.FromSquareInches(1).SquareMeters,
        ["kg/m²"] = x => AreaDensity.FromKilogramsPerSquareMeter(x).KilogramsPerSquareMeter,
        ["oz/ft²"] = x => Mass.FromOunces(x).Kilograms / Area.FromSquareFeet(1).SquareMeters,
        ["oz/in²"] = x => Mass.FromOunces(x).Kilograms / Area.FromSquareInches(1).SquareMeters,
        ["lb/ft²"] = x => Mass.FromPounds(x).Kilograms / Area.FromSquareFeet(1).SquareMeters,
        ["kg/m³"] = x => Density.FromKilogramsPerCubicMeter(x).KilogramsPerCubicMeter,
        ["g/cm³"] = x => Density.FromGramsPerCubicCentimeter(x).KilogramsPerCubicMeter,
        // Composed, since UnitsNet's own pound per cubic foot is rounded in the ninth digit.
        ["lb/ft³"] = x => Mass.FromPounds(x).Kilograms / Volume.FromCubicFeet(1).CubicMeters,
        ["g/m"] = x => LinearDensity.FromGramsPerMeter(x).KilogramsPerMeter,
        ["g/cm"] = x => LinearDensity.FromGramsPerCentimeter(x).KilogramsPerMeter,
        ["g/in"] = x => Mass.FromGrams(x).Kilograms / Length.FromInches(1).Meters,
        ["kg/m"] = x => LinearDensity.FromKilogramsPerMeter(x).KilogramsPerMeter,
        ["GPa"] = x => Pressure.FromGigapascals(x).Pascals,
        ["MPa"] = x => Pressure.FromMegapascals(x).Pascals,
        ["kPa"] = x => Pressure.FromKilopascals(x).Pascals,
        ["Pa"] = x => Pressure.FromPascals(x).Pascals,
        ["Mpsi"] = x => 1000 * Pressure.FromKilopoundsForcePerSquareInch(x).Pascals,
        ["ksi"] = x => Pressure.FromKilopoundsForcePerSquareInch(x).Pascals,
        ["psi"] = x => Pressure.FromPoundsForcePerSquareInch(x).Pascals,
        ["inHg"] = x => Pressure.FromInchesOfMercury(x).Pascals,
        ["mbar"] = x => Pressure.FromMillibars(x).Pascals,
        ["bar"] = x => Pressure.FromBars(x).Pascals,
        ["mmHg"] = x => Pressure.FromMillimetersOfMercury(x).Pascals,
        ["°"] = x => Angle.FromDegrees(x).Radians,
        ["rad"] = x => Angle.FromRadians(x).Radians,
        ["%"] = x => Ratio.FromPercent(x).DecimalFractions,
        ["Hz"] = x => Frequency.FromHertz(x).Hertz,
        ["kHz"] = x => Frequency.FromKilohertz(x).Hertz,
        ["N"] = x => Force.FromNewtons(x).Newtons,
        ["mN"] = x => Force.FromMillinewtons(x).Newtons,
        ["lbf"] = x => Force.FromPoundsForce(x).Newtons,
        ["kgf"] = x => Force.FromKilogramsForce(x).Newtons,
        ["gf"] = x => Force.FromKilogramsForce(x / 1000).Newtons,
        ["°C"] = x => Temperature.FromDegreesCelsius(x).Kelvins,
        ["°F"] = x => Temperature.FromDegreesFahrenheit(x).Kelvins,
        ["K"] = x => Temperature.FromKelvins(x).Kelvins,
        ["s"] = x => Duration.FromSeconds(x).Seconds,
        ["min"] = x => Duration.FromMinutes(x).Seconds,
        ["h"] = x => Duration.FromHours(x).Seconds,
    };

    /// <summary>
    /// Relative tolerance: a few roundings of a double; of mercury, UnitsNet carries seven or more printed digits.
    /// </summary>
    internal static double Tolerance(string unit) => unit is "inHg" or "mmHg" ? 2e-7 : 1e-14;

    public static TheoryData<Dimension, string> EveryUnit()
    {
        var rows = new TheoryData<Dimension, string>();
        foreach (var dimension in Enum.GetValues<Dimension>())
        {
            foreach (var unit in TypedValues.UnitNames(dimension))
            {
                rows.Add(dimension, unit);
            }
        }

        return rows;
    }

    [Theory]
    [MemberData(nameof(EveryUnit))]
    public void Every_unit_agrees_with_UnitsNet(Dimension dimension, string unit)
    {
        Assert.True(ByUnitsNet.TryGetValue(unit, out var convert), $"no independent factor is stated for {unit}");

        foreach (var number in new[] { 1.0, 0.03, 75.0 })
        {
            var read = TypedValues.Read(Texts.Plain(number) + " " + unit, dimension);

            Assert.True(read.IsRead, read.Problem);
            var expected = convert(number);
            Assert.Equal(expected, read.Value.Value, Tolerance(unit) * Math.Abs(expected));
        }
    }

    [Fact]
    public void No_unit_is_compared_that_is_not_known()
    {
        var known = Enum.GetValues<Dimension>().SelectMany(TypedValues.UnitNames).ToList();

        Assert.Equal(known.Order(StringComparer.Ordinal), ByUnitsNet.Keys.Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Stiffness_per_width_is_shown_as_UnitsNet_converts_it()
    {
        Assert.Equal(
            Torque.FromNewtonMeters(70).PoundForceInches,
            Display.In(70, Shown.BendingStiffness, UnitSystem.Inch),
            1e-12 * 620);
        Assert.Equal(
            // Composed, since UnitsNet's own pound-force per inch is rounded in the ninth digit.
            Force.FromNewtons(90_000).PoundsForce / Length.FromMeters(1).Inches,
            Display.In(90_000, Shown.ShearStiffness, UnitSystem.Inch),
            1e-12 * 514);
        Assert.Equal(
            ForcePerLength.FromNewtonsPerMeter(90_000).KilonewtonsPerMeter,
            Display.In(90_000, Shown.ShearStiffness, UnitSystem.Metric),
            1e-12 * 90);
    }

    [Theory]
    [InlineData("0 °C", 273.15)]
    [InlineData("20 °C", 293.15)]
    [InlineData("32 °F", 273.15)]
    [InlineData("-40 °F", 233.15)]
    public void A_temperature_has_its_own_zero(string text, double kelvin) =>
        Assert.Equal(kelvin, TypedValues.Read(text, Dimension.Temperature).Value!.Value, 1e-12 * kelvin);
}
