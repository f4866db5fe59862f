using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;

namespace SandwichMech.Tests.Plates;

/// <summary>What the plate solver cannot do it says: never a number that is none, a frequency below zero, a mode missed or a rigid motion shown as one.</summary>
[Trait("Check", "exact")]
public class PlateRefusalTests
{
    [Theory]
    [InlineData("CCCC", 1, 2)]
    [InlineData("CCCC", 30, 2)]
    [InlineData("SSSS", 40, 2)]
    [InlineData("FFFF", 60, 2)]
    public void More_modes_than_a_mesh_has_are_refused(string sides, int count, int order)
    {
        PlateProblem problem = SamplePlate.Rectangle(SamplePlate.Isotropic(0.01), 1, 0.7, 1, 1, sides);
        InvalidOperationException refused = Assert.Throws<InvalidOperationException>(() => PlateSolver.Once(problem, count, order));
        Assert.Contains("unknowns", refused.Message, StringComparison.Ordinal);
    }

    // From a plate to a foil: the right count and the thin plate's frequency, or a refusal; never rigid motions among the modes.
    [Theory]
    [InlineData("FFFF", 3)]
    [InlineData("SSSS", 0)]
    [InlineData("CFFF", 0)]
    [InlineData("SFSF", 0)]
    public void Down_to_a_foil_modes_are_right_or_refused(string sides, int rigid)
    {
        double? first = null;
        foreach (double thickness in new[] { 1e-2, 1e-3, 1e-4, 3e-5, 1e-5, 1e-6, 1e-7 })
        {
            PlateProblem problem = SamplePlate.Rectangle(SamplePlate.Isotropic(thickness), 1, 0.7, 3, 3, sides);
            try
            {
                PlateSolution solution = PlateSolver.Once(problem, 3, 5);
                Assert.Equal(rigid, solution.RigidModes);
                double now = solution.Modes[0].Frequency / thickness;
                Checks.Near(first ??= now, now, 0.02, $"{thickness} m");
                Assert.All(solution.Modes, m => Assert.True(m.Frequency > 0 && double.IsFinite(m.Frequency)));
            }
            catch (InvalidOperationException e)
            {
                Assert.True(thickness < 2e-4, $"A plate of {thickness} m was refused: {e.Message}");
            }
        }
    }

    // A plate that turns about a hinge along one side has one motion left.
    [Fact]
    public void A_hinge_along_one_side_leaves_one_motion() =>
        Assert.Equal(1, PlateSolver.Once(SamplePlate.Rectangle(SamplePlate.Isotropic(0.01), 1, 0.7, 2, 2, "SFFF"), 2, 4).RigidModes);

    [Fact]
    public void A_boundary_edge_on_no_curve_is_refused()
    {
        PlateProblem whole = SamplePlate.Rectangle(SamplePlate.Isotropic(0.01), 1, 0.7, 2, 2, "CCCC");
        PlateProblem torn = whole with { Mesh = whole.Mesh with { Edges = [.. whole.Mesh.Edges.Skip(1)] } };
        Assert.Contains("lie on no curve", Assert.Throws<InvalidOperationException>(() => PlateSolver.Once(torn, 1, 3)).Message, StringComparison.Ordinal);
        Assert.Throws<InvalidOperationException>(() => PlateStatics.Of(torn, 3));
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(-1.0)]
    public void A_section_that_cannot_be_gives_no_modes(double stiffness)
    {
        PlateSection section = SamplePlate.Isotropic(0.01);
        PlateProblem problem = SamplePlate.Rectangle(section with { D = new Sym3(stiffness, section.D.M12, section.D.M22, 0, 0, section.D.M66) }, 1, 0.7, 2, 2, "SSSS");
        Assert.Throws<InvalidOperationException>(() => PlateSolver.Once(problem, 2, 3));
    }
}
