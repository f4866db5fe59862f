using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;

namespace SandwichMech.Tests.Plates;

/// <summary>Domains that cannot be meshed: one clear line each.</summary>
[Trait("Check", "exact")]
public class DomainProblemTests
{
    private static readonly Curve Plate = Shapes.Rectangle(new(0, 0, 0.4, 0.3));

    [Fact]
    public void A_hole_outside() => Refused(DomainFault.HoleOutside, "Hole 1 lies outside the outline", new(Plate, [Shapes.Circle(new(0.6, 0.1), 0.05)], [], _ => 0));

    [Fact]
    public void A_hole_over_the_edge() => Refused(DomainFault.HoleAtEdge, "Hole 1 reaches the outline at", new(Plate, [Shapes.Circle(new(0.4, 0.1), 0.05)], [], _ => 0));

    [Fact]
    public void A_hole_that_touches_the_edge() => Refused(DomainFault.HoleAtEdge, "Hole 1 reaches the outline at x = 400.0 mm, y = 100.0 mm", new(Plate, [Shapes.Circle(new(0.35, 0.1), 0.05)], [], _ => 0));

    [Fact]
    public void A_hole_that_cuts_the_board_in_two() =>
        Refused(DomainFault.CutInTwo, "Hole 1 cuts the board in two", new(Plate, [Shapes.Rectangle(new(0.1, -0.1, 0.2, 0.4))], [], _ => 0));

    [Fact]
    public void Holes_that_meet() =>
        Refused(DomainFault.HoleAtEdge, "Hole 2 reaches hole 1", new(Plate, [Shapes.Circle(new(0.2, 0.1), 0.05), Shapes.Circle(new(0.25, 0.1), 0.05)], [], _ => 0));

    [Fact]
    public void A_hole_in_a_hole() =>
        Refused(DomainFault.HoleAtEdge, "Hole 2 lies in another hole", new(Plate, [Shapes.Circle(new(0.2, 0.1), 0.05), Shapes.Circle(new(0.2, 0.1), 0.02)], [], _ => 0));

    [Fact]
    public void An_outline_that_crosses_itself() =>
        Refused(DomainFault.SelfCrossing, "The outline crosses or touches itself at x = 100.0 mm, y = 100.0 mm", new(Shapes.Polygon([new(0, 0), new(0.2, 0.2), new(0.2, 0), new(0, 0.2), new(-0.1, 0.1)]), [], [], _ => 0));

    [Fact]
    public void An_outline_drawn_there_and_back()
    {
        Curve line = Shapes.Polygon([new(0, 0), new(0.2, 0)], closed: false);
        Refused(DomainFault.Tiny, "The outline encloses next to nothing", new(new([.. line.Segments, .. line.Reversed().Segments]), [], [], _ => 0));
    }

    [Fact]
    public void An_open_outline() =>
        Refused(DomainFault.Open, "The outline is open: it ends 400 mm from its start", new(Shapes.Polygon([new(0, 0), new(0.4, 0.3), new(0, 0.4)], closed: false), [], [], _ => 0));

    [Fact]
    public void A_speck_of_a_hole() => Refused(DomainFault.Tiny, "Hole 1 encloses next to nothing", new(Plate, [Shapes.Circle(new(0.2, 0.1), 1e-6)], [], _ => 0));

    [Fact]
    public void A_border_outside() => Refused(DomainFault.BorderOutside, "Border 1 lies wholly outside the board", new(Plate, [], [Shapes.Circle(new(0.6, 0.1), 0.05)], _ => 0));

    [Fact]
    public void A_border_in_a_hole() =>
        Refused(DomainFault.BorderOutside, "Border 1 lies wholly outside the board", new(Plate, [Shapes.Circle(new(0.2, 0.1), 0.05)], [Shapes.Circle(new(0.2, 0.1), 0.02)], _ => 0));

    [Fact]
    public void Several_problems_are_told_together()
    {
        var domain = new MeshDomain(Plate, [Shapes.Circle(new(0.6, 0.1), 0.05)], [Shapes.Circle(new(0.6, 0.1), 0.02)], _ => 0);
        Assert.Equal(2, PlateMesher.Problems(domain, 0.05).Count);
    }

    [Theory]
    [InlineData(0), InlineData(-0.1), InlineData(double.NaN), InlineData(1e-6)]
    public void A_size_out_of_reach(double size)
    {
        DomainException e = Assert.Throws<DomainException>(() => PlateMesher.Mesh(new(Plate, [], [], _ => 0), size));
        Assert.Equal(DomainFault.Size, Assert.Single(e.Problems).Fault);
        Assert.DoesNotContain('\n', e.Message);
    }

    [Fact]
    public void A_sound_domain_has_no_problem() => Assert.Empty(PlateMesher.Problems(SampleDomain.Full, SampleDomain.Size));

    private static void Refused(DomainFault fault, string start, MeshDomain domain)
    {
        DomainException e = Assert.Throws<DomainException>(() => PlateMesher.Mesh(domain, 0.05));
        DomainProblem problem = Assert.Single(e.Problems);
        Assert.Equal(fault, problem.Fault);
        Assert.StartsWith(start, problem.Message, StringComparison.Ordinal);
        Assert.EndsWith(".", problem.Message, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', problem.Message);
        Assert.Equal(problem, Assert.Single(PlateMesher.Problems(domain, 0.05)));
    }
}
