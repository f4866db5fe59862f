using CsCheck;
using SandwichMech.Core.Layups;

namespace SandwichMech.Tests.Properties;

/// <summary>Thicker is stiffer: for every board, in both directions; and what is not true of every layup.</summary>
[Trait("Check", "exact")]
public class ThicknessPropertyTests
{
    // Skins, core, each bond line's film. The twist stiffness too.
    [Fact]
    public void Both_bending_stiffnesses_of_a_board_grow_with_each_thickness() =>
        Gen.Select(AnyLayup.Boards, Gen.Int[0, 4], Gen.Double[0.001, 0.5]).Sample((board, at, more) =>
        {
            Ply[] plies = [.. board.Plies()];
            Laminate before = Laminate.From(plies);
            plies[at] = plies[at] with { Thickness = (1 + more) * plies[at].Thickness };
            Laminate after = Laminate.From(plies);
            Grows(before.Bending.M11, after.Bending.M11, "reduced, along");
            Grows(before.Bending.M22, after.Bending.M22, "reduced, across");
            Grows(before.Bending.M66, after.Bending.M66, "reduced, twist");
            Grows(before.D.M11, after.D.M11, "D along");
            Grows(before.D.M22, after.D.M22, "D across");
            Grows(before.D.M66, after.D.M66, "D twist");
        });

    // About its neutral plane a section's stiffness is the least over all planes; take the added slice out again, move the
    // rest towards that plane, and no part is farther from it. So the reduced stiffness of layers with one Poisson's ratio
    // grows with each thickness, whatever the layers.
    [Fact]
    public void The_reduced_stiffness_grows_with_each_thickness_for_any_layers_of_one_Poissons_ratio() =>
        Gen.Select(AnyLayup.Plies, Gen.Int[0, 6], Gen.Double[0.001, 0.5]).Sample((any, at, more) =>
        {
            Ply[] plies = [.. any.Select(p => SamplePly.Isotropic(p.Thickness, p.E1, 0.3))];
            double before = Laminate.From(plies).Bending.M11;
            at %= plies.Length;
            plies[at] = plies[at] with { Thickness = (1 + more) * plies[at].Thickness };
            Grows(before, Laminate.From(plies).Bending.M11, "reduced");
        });

    // D about the middle of the thickness need not grow: a soft layer on one side moves the middle towards the stiff one.
    // This is one more reason to quote the reduced stiffness.
    [Fact]
    public void D_about_the_middle_can_fall_when_a_soft_layer_thickens()
    {
        Laminate thin = Layers(0.1e-3), thick = Layers(1.0e-3);
        Assert.True(thick.D.M11 < thin.D.M11);
        Assert.True(thick.Bending.M11 > thin.Bending.M11);

        static Laminate Layers(double soft) => Laminate.From(
            [SamplePly.Isotropic(1e-3, 0.01e9, 0.3), SamplePly.Isotropic(1e-3, 10e9, 0.3), SamplePly.Isotropic(soft, 0.01e9, 0.3)]);
    }

    private static void Grows(double before, double after, string what) => Assert.True(after > before, $"{what}: {before:R} became {after:R}");
}
