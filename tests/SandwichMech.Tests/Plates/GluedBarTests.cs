using SandwichMech.Core.Layups;
using SandwichMech.Core.Materials;
using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Tests.Outlines;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Plates;

/// <summary>Bars glued on a face, sections that change from place to place, and domes, against closed forms and against solving again.</summary>
[Trait("Check", "exact")]
public class GluedBarTests
{
    private const double Length = 0.4, Width = 0.05, Thin = 2e-3, Rest = 3e-3;
    private static readonly Ply Steel = SamplePly.Isotropic(1, 200e9, 0, 7850);

    // Area, first and second moment about the foot of a section 6 mm wide: a rectangle with half an ellipse or a triangle on it, each
    // by its own closed form (half an ellipse, e.g. Young & Budynas 2002, table A.1: area πab/2, centroid 4b/3π, second moment about its base
    // πab³/8; a triangle: bh/2, h/3, bh³/12) and the parallel-axis rule.
    [Theory]
    [InlineData(BarTop.Flat, 1)]
    [InlineData(BarTop.Rounded, 0.6)]
    [InlineData(BarTop.Rounded, 0)]
    [InlineData(BarTop.Gabled, 0.6)]
    [InlineData(BarTop.Gabled, 0)]
    public void A_bar_s_moments_are_those_of_its_section(BarTop top, double sides)
    {
        const double Half = 3e-3, Height = 4e-3;
        var bar = new GluedBar(Face.Inner, SampleBoard.Unsymmetric.Outer.Wood, 0, new(2 * Height, 0), top, sides, _ => 0.5);
        (double height, double square, double cube) = bar.Moments(default);
        double s = sides * Height, b = Height - s, wide = 2 * Half;
        (double area, double centroid, double second) = top switch
        {
            BarTop.Rounded => (Math.PI * Half * b / 2, 4 * b / (3 * Math.PI), Math.PI * Half * b * b * b / 8),
            BarTop.Gabled => (wide * b / 2, b / 3, wide * b * b * b / 12),
            _ => (0, 0, 0),
        };
        // About the foot, s below the crown's own base: ∫(s + η)² dA = s² A + 2 s Aη̄ + I.
        Checks.Near(wide * s + area, wide * height, 1e-12, "area");
        Checks.Near(wide * s * s / 2 + area * (s + centroid), wide * square / 2, 1e-12, "first moment");
        Checks.Near(wide * s * s * s / 3 + s * s * area + 2 * s * area * centroid + second, wide * cube / 3, 1e-12, "second moment");
    }

    [Fact]
    public void A_rounded_top_of_no_height_is_flat_and_a_half_round_bar_is_half_a_circle()
    {
        GluedBar Bar(BarTop top, double sides) => new(Face.Inner, SampleBoard.Unsymmetric.Outer.Wood, 0, new(3e-3, 0), top, sides, null);
        Assert.Equal(Bar(BarTop.Flat, 1).Moments(default), Bar(BarTop.Rounded, 1).Moments(default));
        // 3 mm high on 6 mm: area πr²/2 and πr⁴/8 about the diameter.
        (double height, _, double cube) = Bar(BarTop.Rounded, 0).Moments(default);
        Checks.Near(Math.PI * 9e-6 / 2, 6e-3 * height, 1e-12, "half circle");
        Checks.Near(Math.PI * 81e-12 / 8, 6e-3 * cube / 3, 1e-12, "its second moment");
    }

    // A slender strip of 2 mm with a bar of 3 mm glued all over one face is a strip of 5 mm: Euler's free beam, 22.3733 = (4.73004)².
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_bar_all_over_a_face_makes_one_thick_strip(bool outward)
    {
        double whole = Thin + Rest, bending = 22.3733 / (2 * Math.PI * Length * Length) * Math.Sqrt(200e9 * whole * whole / 12 / 7850);
        PlateSolution glued = PlateSolver.Once(Strip([Glued(Rest, outward)], null, default), 1, 5);
        double first = glued.Modes[0].Frequency;
        // Shear and rotary inertia take some 0.1 % of a free beam 80 times as long as thick.
        Checks.Within(bending * (1 - 2e-3), bending, first, "first mode, Hz");
        Assert.Equal(6, glued.RigidModes);
    }

    [Fact]
    public void A_higher_bar_changes_each_mode_as_solving_again_says_where_it_tapers_too()
    {
        // Its height falls from 3 mm at one end to 2 mm at the other; changed by δ all along.
        PlateProblem At(double change)
        {
            PlateMesh mesh = PlateMesh.Rectangle(Length, Width, 6, 1);
            var nodes = new NodalMesh(mesh, 2);
            return Strip([.. nodes.Points.Select(p => Glued((Rest - 1e-3 * p.X / Length) * (1 + change), outward: false))], nodes.Nodes, default);
        }

        PlateProblem nominal = At(0), more = At(1e-4), less = At(-1e-4);
        PlateSolution solution = PlateSolver.Once(nominal, 3, 4), up = PlateSolver.Once(more, 3, 4), down = PlateSolver.Once(less, 3, 4);
        for (int mode = 0; mode < 3; mode++)
        {
            double solved = Math.Log(up.Modes[mode].Frequency / down.Modes[mode].Frequency);
            double exact = solution.Modes[mode].RelativeChange(less.Sections, more.Sections);
            Assert.True(Math.Abs(solved) > 2e-5, "The bar's height does nothing to this mode.");
            Checks.Near(solved, exact, 1e-4, $"mode {mode + 1}");
            Assert.True(solution.Modes[mode].Energy.Bars > 0.1, "The bar carries nothing.");
        }
    }

    [Fact]
    public void A_free_dome_still_moves_as_a_whole_in_six_ways_and_a_held_one_in_none()
    {
        Assert.Equal(6, PlateSolver.Once(Strip([Plain], null, new(1 / 3.0, 1 / 2.0)), 2, 5).RigidModes);
        PlateProblem held = Strip([Plain], null, new(1 / 3.0, 1 / 2.0)) with { Support = _ => EdgeSupport.Clamped };
        Assert.Equal(0, PlateSolver.Once(held, 2, 5).RigidModes);
    }

    // At the order and on the mesh that the solver starts from, on the tightest dome that a board file may ask for too; and not a motion as a whole stays among the
    // modes, where it would be the first at a few Hz.
    [Theory]
    [InlineData(1 / 7.5, 1 / 5.0)]
    [InlineData(2, 2)]
    [InlineData(0, 2)]
    public void A_free_domed_board_on_its_outline_moves_as_a_whole_in_six_ways(double along, double across)
    {
        Board board = SampleBoard.Unsymmetric with
        {
            Shape = new()
            {
                Outline = SampleOutline.Board,
                Holes = [SampleOutline.Soundhole],
                Parts = BoardPlate.Parts(SampleOutline.Board, [SampleOutline.Soundhole], []),
                DomeAlong = along,
                DomeAcross = across,
            },
        };
        (PlateProblem problem, _) = BoardPlate.Problem(board, BoardPlate.FirstSize(SampleOutline.Board), EdgeHold.Free);
        PlateSolution lowest = PlateSolver.Once(problem, 2, 3);
        Assert.Equal(6, lowest.RigidModes);
        PlateSolution higher = PlateSolver.Once(problem, 2, 5);
        Assert.Equal(6, higher.RigidModes);
        Checks.Near(higher.Frequencies[0], lowest.Frequencies[0], 0.01, "first frequency");
        // In its plane free, else held: the three motions in the plane.
        Assert.Equal(3, PlateSolver.Once(problem with { Support = _ => EdgeSupport.Hinged }, 2, 4).RigidModes);
    }

    [Fact]
    public void What_regions_change_adds_up_where_they_lie_over_each_other()
    {
        Board board = SampleBoard.Unsymmetric;
        Wood wood = board.Outer.Wood;
        BoardRegion Over(string name, RegionChange change) => new(name, [], _ => true, change);
        Board with = board with
        {
            Shape = new()
            {
                Outline = Shapes.Circle(default, 0.1),
                Parts = [],
                Regions =
                [
                    Over("let in", new LetInWood(wood)),
                    Over("thinner", new SkinPart(Face.Outer, null, 0.5, null)),
                    Over("graded", new GradedSkin(Face.Outer, p => 1 + p.X)),
                    Over("turned", new SkinPart(Face.Inner, null, 1, 0.2)),
                    Over("mirrored", new MirroredGrain(Face.Inner)),
                    Over("weight", new AddedMass(new(0.3, 0))),
                    Over("bar", new GluedBar(Face.Inner, wood, 0, new Estimate(5e-3, 0), BarTop.Flat, 1, null)),
                ],
            },
        };
        LocalLayup none = LocalLayup.Of(with, [], default), all = LocalLayup.Of(with, [0, 1, 2, 3, 4, 5, 6], new(0.5, 0));
        Checks.Near(0.75 * none.Plies[^1].Thickness, all.Plies[^1].Thickness, 1e-14);
        Checks.Near(-0.2, all.Plies[0].Angle, 1e-14);
        Assert.Equal("let-in wood", all.Plies[2].Name);
        Checks.Near(0.3, all.Added, 1e-12);
        Checks.Near(all.Plies.Sum(p => p.Density * p.Thickness), all.ArealMassWithoutBars, 1e-12);
        Checks.Near(all.ArealMassWithoutBars + 0.3 + wood.Density.Value * 5e-3, all.ArealMass, 1e-12);
        Assert.Null(none.Inner);
    }

    private static PlateSection Plain => PlateSection.Of(Laminate.From([Steel with { Thickness = Thin }]));

    private static PlateSection Glued(double height, bool outward)
    {
        BarSection bar = BarSection.Of(Steel, outward ? Thin / 2 : -Thin / 2, outward, height, height * height, height * height * height);
        return outward ? Plain with { Outer = bar } : Plain with { Inner = bar };
    }

    private static PlateProblem Strip(PlateSection[] sections, int[][]? places, Dome dome) =>
        new(PlateMesh.Rectangle(Length, Width, 6, 1), sections, _ => EdgeSupport.Free) { Places = places, Dome = dome };
}
