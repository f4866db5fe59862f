using SandwichMech.Core.Layups;
using SandwichMech.Tests.Independent;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Published;

/// <summary>Transverse shear stiffness against printed tables, laminates and sandwiches.</summary>
/// <remarks>
/// K. Rohwer (1988), Improved transverse shear stiffness for layered finite elements, DFVLR-FB 88-32; S. Vlachoutsis
/// (1992), Shear correction factors for plates and shells, Int. J. Numer. Methods Eng. 33, 1537–1552. Both read in the
/// transcription, with page numbers, in the tests of the public repository saullocastro/composites.
/// </remarks>
[Trait("Check", "published")]
public class TransverseShearTests
{
    // Rohwer, Table 1, p. 19, kN/mm²; plies of 0.25 mm, [0,90]s, p. 18.
    private static Ply Carbon(double thickness, double degrees) => SamplePly.Orthotropic(thickness, 138, 9.3, 0.3, 4.6, 4.6, 2.3, degrees);

    private static Laminate CrossPly => Laminate.From([Carbon(0.25, 0), Carbon(0.25, 90), Carbon(0.25, 90), Carbon(0.25, 0)]);

    // Table 2, p. 19, and p. 18.
    [Fact]
    public void A_cross_ply_laminate_has_the_printed_shear_stiffness()
    {
        ShearStiffness s = CrossPly.Shear;
        Checks.Printed("2.313", s.Sx);
        // 2.525 here: 0.17 % above the printed figure. The other three figures of this layup agree in every digit, and so
        // does an independent program; the digit is taken for a slip or a rounded input of 1988.
        Checks.Near(2.521, s.Sy, 0.002);
        Checks.Close(0, s.Sxy, 1e-12);
        double constantStress = 1 / (0.5 / 4.6 + 0.5 / 2.3);
        Checks.Printed("0.75", s.Sx / constantStress);
        Checks.Printed("0.82", s.Sy / constantStress);
    }

    // Sec. 4.2, p. 21: simply supported, a/b = 1.5, double-cosine load: deflection against that of the thin plate.
    [Theory]
    [InlineData(10, "1.36")]
    [InlineData(19, "1.10")]
    public void A_plate_of_it_deflects_as_printed(double spanOverThickness, string ratio)
    {
        double a = spanOverThickness * CrossPly.Thickness, b = a / 1.5;
        Laminate rigid = CrossPly with { Shear = new(1e9, 1e9, 0) };
        Checks.Printed(ratio, FirstOrderNavier.Deflection(CrossPly, a, b) / FirstOrderNavier.Deflection(rigid, a, b));
    }

    // Sec. 4.3, pp. 22–23: [0,90,+45,−45] of 0.125 mm on both sides of 9 mm of foam. The printed shear stiffnesses follow
    // with a foam of G = 0.040 kN/mm²; E = 0.1 and ν = 0.3 of Table 3 give 0.0385, and with that 0.400 and 0.387. The
    // printed coupling H12 = 0.008 is left out: Rohwer keeps σx alone in the balance along x, here τ balances both σx
    // and σxy, which is not the same where plies are turned (0.002).
    [Fact]
    public void A_panel_with_turned_plies_has_the_printed_shear_stiffness_and_bending_twist_coupling()
    {
        Ply[] face = [.. new[] { 0.0, 90, 45, -45 }.Select(d => Carbon(0.125, d))];
        Ply foam = SamplePly.Isotropic(9, 0.1, 0.3) with { G13 = 0.040, G23 = 0.040 };
        Laminate panel = Laminate.From([.. face, foam, .. face.Reverse()]);
        Checks.Printed("0.416", panel.Shear.Sx);
        Checks.Printed("0.403", panel.Shear.Sy);
        Checks.Printed("9.36", panel.D.M16);
        Checks.Printed("9.36", panel.D.M26);
    }

    // P. 18 and Fig. 5: E_f/E_c = 10,000, ν = 0.3; over all thicknesses "the minimum value is a little less than 0.45".
    [Fact]
    public void Over_all_core_heights_a_sandwich_has_the_printed_least_ratio()
    {
        double least = Enumerable.Range(-240, 481).Min(i =>
        {
            double core = Math.Pow(10, i / 40.0);
            Ply face = SamplePly.Isotropic(1, 1, 0.3);
            Laminate sandwich = Laminate.From([face, SamplePly.Isotropic(core, 1e-4, 0.3), face]);
            double constantStress = sandwich.Thickness * sandwich.Thickness / sandwich.Plies.Sum(p => p.Thickness / p.G13);
            return sandwich.Shear.Sx / constantStress;
        });
        Checks.Within(0.44, 0.45, least);
    }

    // Vlachoutsis, Tables I (c/h = 0.8) and II (E1/E2 = 15), p. 1548, and the example of eqs (49)–(50), p. 1546: isotropic
    // skins and core, ν = 0.3; K = S/∫G dz.
    [Theory]
    [InlineData(1, 0.8, "0.8333")]
    [InlineData(5, 0.8, "0.5324")]
    [InlineData(10, 0.8, "0.3525")]
    [InlineData(15, 0.8, "0.2625")]
    [InlineData(50, 0.8, "0.09385")]
    [InlineData(15, 0.9, "0.4087")]
    [InlineData(15, 0.6, "0.1636")]
    [InlineData(15, 0.4, "0.1400")]
    [InlineData(1000, 0.95, "0.01964")]
    public void A_sandwich_has_the_printed_shear_factor(double skinOverCore, double coreShare, string factor)
    {
        Ply face = SamplePly.Isotropic((1 - coreShare) / 2, 1, 0.3);
        Laminate sandwich = Laminate.From([face, SamplePly.Isotropic(coreShare, 1 / skinOverCore, 0.3), face]);
        double summed = sandwich.Plies.Sum(p => p.G13 * p.Thickness);
        Checks.Printed(factor, sandwich.Shear.Sx / summed);
        Checks.Printed(factor, sandwich.Shear.Sy / summed);
    }
}
