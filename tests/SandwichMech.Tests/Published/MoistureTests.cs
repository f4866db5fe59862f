using SandwichMech.Core.Materials;
using SandwichMech.Workshop.Tables;

namespace SandwichMech.Tests.Published;

/// <summary>Moisture against the Wood Handbook (FPL-GTR-282).</summary>
[Trait("Check", "published")]
public class MoistureTests
{
    // Table 4-2 at 21.1 °C (70 °F); its digits from memory, equation 4-5 gives the same.
    [Theory]
    [InlineData(30, 6.2)]
    [InlineData(40, 7.7)]
    [InlineData(50, 9.2)]
    [InlineData(60, 11.0)]
    [InlineData(65, 12.0)]
    [InlineData(70, 13.1)]
    [InlineData(80, 16.0)]
    [InlineData(90, 20.5)]
    public void Wood_comes_to_the_tabulated_moisture_in_air(double humidity, double percent) => Checks.Close(percent, Moisture.Equilibrium(humidity, 21.1), 0.051, $"{humidity} %");

    // Table 5-13, middle trends from 12 to 6 % moisture: E along +9 %, E across +20 %, shear +20 % (from memory).
    [Fact]
    public void Drying_stiffens_as_tabulated_and_back_again()
    {
        Wood wood = MaterialTables.Find(MaterialTables.BuiltIn().Woods, "Sitka spruce")!.Item, dry = Moisture.At(wood, 6), back = Moisture.At(dry, 12);
        Checks.Near(1.09, dry.EL.Value / wood.EL.Value, 1e-9);
        Checks.Near(1.20, dry.ER / wood.ER, 1e-9);
        Checks.Near(1.20, dry.Glr / wood.Glr, 1e-9);
        Checks.Near(wood.Density.Value, back.Density.Value, 1e-12);
        Checks.Near(wood.ER, back.ER, 1e-12);
        // Less water, but less volume too: lighter, though by less than the water.
        Checks.Within(106.0 / 112, 1, dry.Density.Value / wood.Density.Value, "density");
        // Beyond fibre saturation nothing stiffens or swells.
        Checks.Near(Moisture.At(wood, 30).EL.Value, Moisture.At(wood, 60).EL.Value, 1e-12);
    }
}
