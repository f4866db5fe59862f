using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Published;

/// <summary>Natural frequencies of a hinged aluminium honeycomb panel, 1.83 m by 1.22 m.</summary>
/// <remarks>
/// M. E. Raville and C. E. S. Ueng (1967), Determination of natural frequencies of vibration of a sandwich plate,
/// Experimental Mechanics 7, 490–493; tabulated again by Nayak, Moy and Shenoi (2002), Composites B 33, 505, Table 6, read
/// in the examples of the public repository PetrKryslUCSD/FinEtoolsFlexStructures.jl. Skins and core as other papers
/// quote them (from memory, high confidence): 0.4064 and 6.35 mm, E = 68.948 GPa, ν = 0.33, 2768 and 121.8 kg/m³, core
/// shear 134.45 MPa along, 51.71 MPa across.
/// </remarks>
public class HoneycombPanelTests
{
    private const double Length = 1.83, Width = 1.22, Skin = 0.4064e-3, Core = 6.35e-3, Modulus = 68.948e9, Nu = 0.33;

    private static readonly (int M, int N)[] Modes = [(1, 1), (2, 1), (1, 2), (3, 1), (2, 2), (3, 2), (4, 1), (1, 3), (2, 3), (4, 2)];

    private static Laminate Panel
    {
        get
        {
            Ply face = SamplePly.Isotropic(Skin, Modulus, Nu, 2768);
            return Laminate.From([face, SamplePly.Core(Core, 134.45e6, 51.71e6, 121.8), face]);
        }
    }

    // Theory as printed, whole hertz. Within 1 Hz or 1 %, whichever is more.
    [Fact]
    [Trait("Check", "published")]
    public void The_lowest_modes_are_those_of_the_published_theory()
    {
        double[] printed = [23, 45, 71, 80, 91, 126, 129];
        IReadOnlyList<RectangleMode> lowest = HingedRectangle.Lowest(Panel, Length, Width, 7);
        Assert.Equal(Modes.Take(7), lowest.Select(mode => (mode.HalfWavesAlong, mode.HalfWavesAcross)));
        for (int i = 0; i < printed.Length; i++)
        {
            Checks.Close(printed[i], lowest[i].Frequency, Math.Max(1, 0.01 * printed[i]), $"mode {i + 1}");
        }
    }

    // Measured on the panel (from memory, medium confidence, so a wide margin): 45, 69, 78, 92, 125, 129, 152, 169, 177 Hz
    // for the second mode onwards. An edge is never ideally hinged: 5 %.
    [Fact]
    [Trait("Check", "published")]
    public void The_measured_frequencies_are_met_within_five_per_cent()
    {
        double[] measured = [45, 69, 78, 92, 125, 129, 152, 169, 177];
        for (int i = 0; i < measured.Length; i++)
        {
            (int m, int n) = Modes[i + 1];
            Checks.Near(measured[i], HingedRectangle.Frequency(Panel, Length, Width, m, n), 0.05, $"mode {m},{n}");
        }
    }

    // Without its core's shear the panel would be up to 6 % too stiff: the agreement above is not for free.
    [Fact]
    [Trait("Check", "independent")]
    public void Without_shear_the_higher_modes_miss_the_published_ones()
    {
        Laminate rigid = Panel with { Shear = new(1e11, 1e11, 0) };
        Checks.Within(1.04, 1.07, HingedRectangle.Frequency(rigid, Length, Width, 2, 3) / HingedRectangle.Frequency(Panel, Length, Width, 2, 3));
    }

    // Recomputed elsewhere with thin skins: D = E t d²/2(1 − ν²), S = G d²/tc, no rotary inertia; and by exact elasticity in
    // three dimensions (core with E_x = E_y = 0.1 MPa, E_z = 1 GPa). The layup's own D holds the skins' bending about their
    // own middle (t²/3d² = 0.12 % of D), its S the true shear profile (0.22 % more than G d²/tc, from the same skins):
    // half of that in frequency is the difference between the columns, and it is the exact one that the layup meets.
    [Theory]
    [Trait("Check", "independent")]
    [InlineData(1, 1, "23.314", "23.327")]
    [InlineData(2, 1, "44.690", "44.714")]
    [InlineData(1, 2, "70.415", "70.451")]
    [InlineData(3, 1, "80.017", "80.055")]
    [InlineData(2, 2, "91.260", "91.305")]
    [InlineData(3, 2, "125.724", "125.779")]
    [InlineData(4, 1, "128.856", "128.909")]
    [InlineData(1, 3, "145.286", "145.351")]
    [InlineData(2, 3, "165.330", "165.400")]
    [InlineData(4, 2, "173.400", "173.465")]
    public void Thin_skin_formulas_and_exact_elasticity_agree_with_their_recomputed_columns(int m, int n, string thin, string exact)
    {
        const double d = Core + Skin;
        double bending = Modulus * Skin * d * d / (2 * (1 - Nu * Nu));
        Laminate thinSkins = Panel with
        {
            D = new(bending, Nu * bending, bending, 0, 0, (1 - Nu) / 2 * bending),
            Shear = new(134.45e6 * d * d / Core, 51.71e6 * d * d / Core, 0),
            RotaryInertia = 0,
        };
        Checks.Printed(thin, HingedRectangle.Frequency(thinSkins, Length, Width, m, n));
        Checks.Near(double.Parse(exact, System.Globalization.CultureInfo.InvariantCulture), HingedRectangle.Frequency(Panel, Length, Width, m, n), 5e-5);
    }
}
