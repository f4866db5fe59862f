using CsCheck;
using MathNet.Numerics.LinearAlgebra;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;

namespace SandwichMech.Tests.Properties;

/// <summary>What must hold for every layup.</summary>
[Trait("Check", "exact")]
public class LayupPropertyTests
{
    private const double Rounding = 1e-9, A = 0.43, B = 0.33;

    [Fact]
    public void Turning_the_layup_by_90_degrees_swaps_x_and_y() => AnyLayup.Plies.Sample(plies =>
    {
        Laminate l = Laminate.From(plies), turned = Laminate.From([.. plies.Select(p => p with { Angle = p.Angle + Math.PI / 2 })]);
        Same(Swapped(l.A), turned.A, Size(l.A), "A");
        Same(Swapped(l.B), turned.B, Size(l.A) * l.Thickness, "B");
        Same(Swapped(l.D), turned.D, Size(l.D), "D");
        Same(Swapped(l.Bending), turned.Bending, Size(l.D), "reduced");
        Same(new(l.Shear.Sy, l.Shear.Sx, -l.Shear.Sxy), turned.Shear);
        Checks.Near(HingedRectangle.Frequency(l, A, B, 2, 3), HingedRectangle.Frequency(turned, B, A, 3, 2), 1e-7);

        static Sym3 Swapped(Sym3 s) => new(s.M22, s.M12, s.M11, -s.M26, -s.M16, s.M66);
    });

    [Fact]
    public void Splitting_a_ply_changes_nothing() => Gen.Select(AnyLayup.Plies, Gen.Int[0, 6], Gen.Double[0.05, 0.95]).Sample((plies, at, share) =>
    {
        Ply p = plies[at % plies.Length];
        Ply Part(double s) => p with { Thickness = s * p.Thickness, AddedArealMass = s * p.AddedArealMass };
        Laminate l = Laminate.From(plies);
        Laminate split = Laminate.From([.. plies.Take(at % plies.Length), Part(share), Part(1 - share), .. plies.Skip(at % plies.Length + 1)]);
        Unchanged(l, split);
        Checks.Near(l.ArealMass, split.ArealMass, Rounding);
    });

    [Fact]
    public void Splitting_a_ply_without_fillets_keeps_rotary_inertia_and_every_mode() => Gen.Select(AnyLayup.CrossPlies, Gen.Int[0, 6], Gen.Double[0.05, 0.95]).Sample((plies, at, share) =>
    {
        // Fillets are a mass at the middle of their ply: split in two they lie in two places.
        Ply[] bare = [.. plies.Select(p => p with { AddedArealMass = 0 })];
        Ply p = bare[at % bare.Length];
        Laminate l = Laminate.From(bare);
        Laminate split = Laminate.From(
            [.. bare.Take(at % bare.Length), p with { Thickness = share * p.Thickness }, p with { Thickness = (1 - share) * p.Thickness }, .. bare.Skip(at % bare.Length + 1)]);
        Checks.Near(l.RotaryInertia, split.RotaryInertia, Rounding);
        Checks.Close(l.FirstMoment, split.FirstMoment, Rounding * l.ArealMass * l.Thickness);
        Checks.Near(HingedRectangle.Frequency(l, A, B, 2, 3), HingedRectangle.Frequency(split, A, B, 2, 3), 1e-7);
    });

    [Fact]
    public void Reversing_the_order_negates_B_and_leaves_A_and_D() => AnyLayup.Plies.Sample(plies =>
    {
        Laminate l = Laminate.From(plies), reversed = Laminate.From([.. plies.Reverse()]);
        Same(l.A, reversed.A, Size(l.A), "A");
        Same(l.B * -1, reversed.B, Size(l.A) * l.Thickness, "B");
        Same(l.D, reversed.D, Size(l.D), "D");
        Same(l.Bending, reversed.Bending, Size(l.D), "reduced");
        Same(l.Shear, reversed.Shear);
        Checks.Near(l.RotaryInertia, reversed.RotaryInertia, Rounding);
        Checks.Close(-l.FirstMoment, reversed.FirstMoment, Rounding * l.ArealMass * l.Thickness);
        Checks.Near(HingedRectangle.Frequency(l, A, B, 2, 3), HingedRectangle.Frequency(reversed, A, B, 2, 3), 1e-7);
    });

    // Turned over about the x axis, the inner face is outermost and a grain that rose to the left now rises to the right.
    [Fact]
    public void Turning_the_board_over_negates_the_grain_angles_too() => AnyLayup.Plies.Sample(plies =>
    {
        Laminate l = Laminate.From(plies), over = Laminate.From([.. plies.Reverse().Select(p => p with { Angle = -p.Angle })]);
        Same(Mirrored(l.A), over.A, Size(l.A), "A");
        Same(Mirrored(l.B) * -1, over.B, Size(l.A) * l.Thickness, "B");
        Same(Mirrored(l.D), over.D, Size(l.D), "D");
        Same(Mirrored(l.Bending), over.Bending, Size(l.D), "reduced");
        Same(l.Shear with { Sxy = -l.Shear.Sxy }, over.Shear);

        static Sym3 Mirrored(Sym3 s) => s with { M16 = -s.M16, M26 = -s.M26 };
    });

    // The reference plane is at half the total thickness. Air on one side moves it, and nothing that can be measured may notice.
    [Fact]
    public void Where_the_reference_plane_lies_does_not_matter() => Gen.Select(AnyLayup.CrossPlies, Gen.Double[0.1e-3, 5e-3], Gen.Bool).Sample((plies, gap, outside) =>
    {
        Ply air = SamplePly.Core(gap, 1e6, 1e6);
        Laminate l = Laminate.From(plies), moved = Laminate.From(outside ? [.. plies, air] : [air, .. plies]);
        Same(l.Bending, moved.Bending, Size(l.Bending) + Size(moved.D), "reduced");
        Same(l.Shear, moved.Shear);
        double shift = (outside ? 1 : -1) * gap / 2;
        Same(l.B - l.A * shift, moved.B, Size(l.A) * moved.Thickness, "B");
        Same(l.D - l.B * (2 * shift) + l.A * (shift * shift), moved.D, Size(moved.D), "D");
        Checks.Near(HingedRectangle.Frequency(l, A, B, 1, 2), HingedRectangle.Frequency(moved, A, B, 1, 2), 1e-6);
    });

    [Fact]
    public void The_plies_shares_add_up_to_the_reduced_stiffness() => AnyLayup.Plies.Sample(plies =>
    {
        Laminate l = Laminate.From(plies);
        IReadOnlyList<PlyShare> shares = l.Shares();
        Checks.Close(l.Bending.M11, shares.Sum(s => s.StiffnessAlong), Rounding * Size(l.D));
        Checks.Close(l.Bending.M22, shares.Sum(s => s.StiffnessAcross), Rounding * Size(l.D));
        Checks.Close(l.Bending.M66, shares.Sum(s => s.StiffnessTwist), Rounding * Size(l.D));
        Checks.Near(l.ArealMass, shares.Sum(s => s.ArealMass), Rounding);
        Assert.All(shares, s => Assert.True(s.StiffnessAlong >= 0 && s.StiffnessAcross >= 0 && s.StiffnessTwist >= 0));
    });

    // D − (D − BA⁻¹B) = BA⁻¹B, a square: bending with the plane free to stretch is never stiffer.
    [Fact]
    public void Reduced_bending_stiffness_is_positive_and_never_above_D() => AnyLayup.Plies.Sample(plies =>
    {
        Laminate l = Laminate.From(plies);
        Checks.Within(0, double.MaxValue, LowestEigenvalue(l.Bending) / Size(l.D), "least eigenvalue of D − BA⁻¹B");
        Checks.Within(-Rounding, double.MaxValue, LowestEigenvalue(l.D - l.Bending) / Size(l.D), "least eigenvalue of BA⁻¹B");
    });

    // Any stress in balance stores at least the energy of the true one, so S is below ∫G dz, with the coupling too.
    [Fact]
    public void Transverse_shear_stiffness_is_positive_and_below_the_summed_moduli() => AnyLayup.Plies.Sample(plies =>
    {
        Laminate l = Laminate.From(plies);
        double xx = 0, yy = 0, xy = 0;
        foreach (Ply p in plies)
        {
            double c = Math.Cos(p.Angle), s = Math.Sin(p.Angle);
            xx += p.Thickness * (c * c * p.G13 + s * s * p.G23);
            yy += p.Thickness * (s * s * p.G13 + c * c * p.G23);
            xy += p.Thickness * c * s * (p.G13 - p.G23);
        }

        Checks.Within(0, double.MaxValue, LowestEigenvalue(l.Shear.Sx, l.Shear.Sy, l.Shear.Sxy));
        Checks.Within(0, double.MaxValue, LowestEigenvalue(xx - l.Shear.Sx, yy - l.Shear.Sy, xy - l.Shear.Sxy));
    });

    [Fact]
    public void All_lengths_doubled_scale_A_B_D_and_S_by_their_powers() => AnyLayup.Plies.Sample(plies =>
    {
        Laminate l = Laminate.From(plies), twice = Laminate.From([.. plies.Select(p => p with { Thickness = 2 * p.Thickness })]);
        Same(l.A * 2, twice.A, Size(twice.A), "A");
        Same(l.B * 4, twice.B, Size(twice.A) * twice.Thickness, "B");
        Same(l.D * 8, twice.D, Size(twice.D), "D");
        Same(new(2 * l.Shear.Sx, 2 * l.Shear.Sy, 2 * l.Shear.Sxy), twice.Shear);
    });

    private static void Unchanged(Laminate l, Laminate other)
    {
        Same(l.A, other.A, Size(l.A), "A");
        Same(l.B, other.B, Size(l.A) * l.Thickness, "B");
        Same(l.D, other.D, Size(l.D), "D");
        Same(l.Bending, other.Bending, Size(l.D), "reduced");
        Same(l.Shear, other.Shear);
    }

    private static void Same(Sym3 expected, Sym3 actual, double size, string what) => Checks.Near(expected, actual, Rounding, size, what);

    private static void Same(ShearStiffness expected, ShearStiffness actual)
    {
        double size = Math.Max(expected.Sx, expected.Sy);
        Checks.Close(expected.Sx, actual.Sx, 1e-7 * size, "Sx");
        Checks.Close(expected.Sy, actual.Sy, 1e-7 * size, "Sy");
        Checks.Close(expected.Sxy, actual.Sxy, 1e-7 * size, "Sxy");
    }

    private static double Size(Sym3 s) => s.M11 + s.M22 + s.M66;

    private static double LowestEigenvalue(Sym3 s) =>
        Matrix<double>.Build.DenseOfArray(new[,] { { s.M11, s.M12, s.M16 }, { s.M12, s.M22, s.M26 }, { s.M16, s.M26, s.M66 } })
            .Evd(Symmetricity.Symmetric).EigenValues.Min(e => e.Real);

    private static double LowestEigenvalue(double xx, double yy, double xy) =>
        (xx + yy) / 2 - Math.Sqrt((xx - yy) * (xx - yy) / 4 + xy * xy);
}
