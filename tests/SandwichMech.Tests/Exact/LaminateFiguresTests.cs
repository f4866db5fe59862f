using SandwichMech.Core.Layups;
using SandwichMech.Core.Predictions;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Exact;

/// <summary>Mass, neutral plane and effective moduli where a closed form exists.</summary>
[Trait("Check", "exact")]
public class LaminateFiguresTests
{
    [Fact]
    public void A_boards_mass_is_skins_core_and_what_is_kept_of_two_bond_lines()
    {
        BoardFigures figures = BoardFigures.Of(SampleBoard.Unsymmetric);
        double kept = 0.2325 * 0.50;
        double areal = 448 * 0.76e-3 + 28.8 * 1.8e-3 + 358 * 0.61e-3 + 2 * kept;
        Checks.Near(areal, figures.Laminate.ArealMass, 1e-14);
        Checks.Near(areal * 0.140, figures.Mass, 1e-14);
        Checks.Near(2 * kept * 0.140, figures.AdhesiveKept, 1e-14);
        Checks.Near(areal, figures.Laminate.Shares().Sum(s => s.ArealMass), 1e-14);
    }

    [Fact]
    public void Film_and_fillets_share_the_kept_adhesive()
    {
        Laminate board = SampleBoard.Unsymmetric.Laminate();
        double kept = 0.2325 * 0.50, film = kept * 0.45 / 1150;
        Checks.Near(film, SampleBoard.Epoxy.FilmThickness, 1e-14);
        Checks.Near(kept * 0.55, SampleBoard.Epoxy.Fillets, 1e-14);
        Checks.Near(0.76e-3 + 0.61e-3 + 1.8e-3 + 2 * film, board.Thickness, 1e-14);
        Assert.Equal(["inner skin", "inner bond line", "core", "outer bond line", "outer skin"], board.Plies.Select(p => p.Name));
    }

    [Fact]
    public void Grain_and_ribbon_angles_reach_their_plies()
    {
        Board board = SampleBoard.Unsymmetric;
        Board turned = board with
        {
            Outer = board.Outer with { GrainAngle = 0.02 },
            Core = board.Core with { RibbonAngle = Math.PI / 2 },
            Inner = board.Inner with { GrainAngle = -0.3 },
        };
        Assert.Equal([-0.3, 0, Math.PI / 2, 0, 0.02], turned.Plies().Select(p => p.Angle));
    }

    // Foam is the same in every direction of its plane; honeycomb carries nothing there.
    [Fact]
    public void A_foam_core_is_isotropic_in_its_plane()
    {
        Board board = SampleBoard.Unsymmetric with { Core = new(SampleBoard.Honeycomb with { InPlaneModulus = 69e6 }, new(2e-3, 0), 0.7) };
        Checks.Near(new Sym3(69e6, 0, 69e6, 0, 0, 34.5e6), board.Plies()[2].ReducedStiffness(), 1e-12);
        Checks.Near(default, SampleBoard.Unsymmetric.Plies()[2].ReducedStiffness(), 0, 1);
    }

    // ∫ρ dz, ∫ρz dz, ∫ρz² dz of two layers, densities r and s, thicknesses t and u, about half the total thickness.
    [Fact]
    public void First_moment_and_rotary_inertia_are_the_integrals_of_density()
    {
        const double r = 450, s = 30, t = 1e-3, u = 2e-3, glue = 0.06;
        Laminate two = Laminate.From([SamplePly.Isotropic(t, 1e9, 0.3, r) with { AddedArealMass = glue }, SamplePly.Isotropic(u, 1e9, 0.3, s)]);
        double bottom = -(t + u) / 2, joint = bottom + t, top = -bottom;
        Checks.Near(r * t + s * u + glue, two.ArealMass, 1e-14);
        Checks.Near((r * (joint * joint - bottom * bottom) + s * (top * top - joint * joint)) / 2 + glue * (bottom + joint) / 2, two.FirstMoment, 1e-12);
        Checks.Near(
            (r * (Math.Pow(joint, 3) - Math.Pow(bottom, 3)) + s * (Math.Pow(top, 3) - Math.Pow(joint, 3))) / 3 + glue * Math.Pow((bottom + joint) / 2, 2),
            two.RotaryInertia, 1e-12);
    }

    // Timoshenko's bimetal strip, ν = 0: modular ratio and transformed section.
    [Theory]
    [InlineData(200e9, 1e-3, 70e9, 2e-3)]
    [InlineData(10e9, 0.6e-3, 3e9, 0.05e-3)]
    public void Two_bonded_strips_bend_about_their_common_neutral_axis(double e1, double t1, double e2, double t2)
    {
        Laminate strip = Laminate.From([SamplePly.Isotropic(t1, e1, 0), SamplePly.Isotropic(t2, e2, 0)]);
        double mid = (t1 + t2) / 2;
        double neutral = (e1 * t1 * t1 / 2 + e2 * t2 * (t1 + t2 / 2)) / (e1 * t1 + e2 * t2);
        double stiffness = e1 * (Math.Pow(t1, 3) / 12 + t1 * Math.Pow(t1 / 2 - neutral, 2)) + e2 * (Math.Pow(t2, 3) / 12 + t2 * Math.Pow(t1 + t2 / 2 - neutral, 2));
        Checks.Near(neutral - mid, strip.NeutralPlaneAlong, 1e-12);
        Checks.Near(neutral - mid, strip.NeutralPlaneAcross, 1e-12);
        Checks.Near(stiffness, strip.Bending.M11, 1e-12);
        Checks.Near(12 * stiffness / Math.Pow(t1 + t2, 3), strip.FlexuralModulusAlong, 1e-12);
    }

    [Fact]
    public void A_homogeneous_plate_has_its_own_moduli_in_bending_and_in_stretching()
    {
        Laminate solid = Board.SolidPlate(SampleBoard.Spruce, 2.6e-3);
        Checks.Near(11.91e9, solid.FlexuralModulusAlong, 1e-12);
        Checks.Near(11.91e9, solid.MembraneModulusAlong, 1e-12);
        Checks.Near(0.078 * 11.91e9, solid.FlexuralModulusAcross, 1e-12);
        Checks.Near(0.078 * 11.91e9, solid.MembraneModulusAcross, 1e-12);
        Checks.Close(0, solid.NeutralPlaneAlong, 1e-18);
    }

    // Zenkert, An Introduction to Sandwich Construction, eq. 3.4: D = E_f t_f³/6 + E_f t_f d²/2 + E_c t_c³/12 (ν = 0).
    [Theory]
    [InlineData(0.5e-3, 3e-3)]
    [InlineData(0.6e-3, 2e-3)]
    public void A_symmetric_sandwich_has_the_handbooks_bending_stiffness(double skin, double core)
    {
        const double ef = 11e9, ec = 69e6;
        Ply face = SamplePly.Isotropic(skin, ef, 0);
        Laminate sandwich = Laminate.From([face, SamplePly.Isotropic(core, ec, 0), face]);
        double d = core + skin;
        Checks.Near(ef * Math.Pow(skin, 3) / 6 + ef * skin * d * d / 2 + ec * Math.Pow(core, 3) / 12, sandwich.D.M11, 1e-12);
        Checks.Near(sandwich.D.M11, sandwich.Bending.M11, 1e-12);
    }
}
