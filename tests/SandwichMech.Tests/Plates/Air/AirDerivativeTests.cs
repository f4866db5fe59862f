using SandwichMech.Core.Layups;
using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Plates.Air;

/// <summary>Derivatives of frequencies in air, and how many modes in vacuo they need.</summary>
public class AirDerivativeTests
{
    private const int Order = 3, Wanted = 4;

    // Air as dense as ten times the usual, so that what it does shows; a free edge and one in a baffle.
    private const double Air = 12;

    private static readonly Ply[] Layup = [.. SampleBoard.Unsymmetric.Laminate().Plies];
    private static readonly PlateMesh Mesh = SamplePlate.SplitAt(PlateMesh.Rectangle(0.48, 0.365, 4, 3), 0.24);

    // (f(1 + δ) − f(1 − δ))/(2δf), solved again in air, against the mode's own products. The modes left out beyond 40
    // separate the two by less than 0.2 % of the derivative; the mode in vacuo's own derivative is off by 10 % and more.
    [Theory]
    [Trait("Check", "exact")]
    [InlineData(false, "FFFF", "thickness")]
    [InlineData(false, "FFFF", "density")]
    [InlineData(true, "CCCC", "thickness")]
    [InlineData(true, "SFSF", "density")]
    public void The_change_of_a_mode_in_air_is_that_of_solving_again(bool baffled, string sides, string property)
    {
        PlateSolution solution = Solve(0);
        IReadOnlyList<AirMode> modes = solution.InAir(baffled, Air, Wanted).Modes;
        double[] coarse = Differences(0.02), fine = Differences(0.01);
        double worstInVacuo = 0;
        for (int i = 0; i < Wanted; i++)
        {
            double exact = solution.InAir([modes[i]])[0].RelativeChange(Sections(-1e-6), Sections(1e-6)) / 2e-6;
            double again = (4 * fine[i] - coarse[i]) / 3;
            Checks.Close(again, exact, 2e-3 * Math.Abs(again) + 1e-4, $"mode {i + 1}");
            double inVacuo = solution.Modes[modes[i].Nearest].RelativeChange(Sections(-1e-6), Sections(1e-6)) / 2e-6;
            worstInVacuo = Math.Max(worstInVacuo, Math.Abs(inVacuo - again) / Math.Abs(again));
        }

        Assert.True(worstInVacuo > 0.1, $"The check would pass in vacuo: {worstInVacuo}");

        double[] Differences(double step)
        {
            double[] up = Frequencies(step), down = Frequencies(-step);
            return [.. up.Zip(down, (x, y) => x - y).Select((d, i) => d / (2 * step * modes[i].Frequency))];
        }

        double[] Frequencies(double change) => [.. Solve(change).InAir(baffled, Air, Wanted).Modes.Select(m => m.Frequency)];

        PlateSolution Solve(double change) => PlateSolver.Once(
            new PlateProblem(Mesh, Sections(change), SamplePlate.Rectangle(default, 1, 1, 1, 1, sides).Support), Wanted + 4, Order, beyond: 40);

        PlateSection[] Sections(double change)
        {
            Ply[] changed = [.. Layup];
            Ply p = changed[^1];
            changed[^1] = property == "thickness" ? p with { Thickness = p.Thickness * (1 + change) } : p with { Density = p.Density * (1 + change) };
            return [PlateSection.Of(Laminate.From(changed)), PlateSection.Of(Laminate.From(Layup))];
        }
    }

    [Fact]
    [Trait("Check", "exact")]
    public void Shares_of_energy_in_air_add_up_and_without_air_are_those_in_vacuo()
    {
        PlateSection section = PlateSection.Of(Laminate.From(Layup));
        PlateSolution solution = PlateSolver.Once(SamplePlate.Rectangle(section, 0.48, 0.365, 4, 3), 6, 4, beyond: 6);
        foreach (AirMode m in solution.InAir(false, 1.2, 6).Modes)
        {
            EnergyShares e = solution.InAir([m])[0].Energy;
            Checks.Close(1, e.Along + e.Across + e.Twist + e.Shear + e.Membrane, 1e-9);
        }

        IReadOnlyList<AirMode> none = solution.InAir(false, 0, 6).Modes;
        for (int i = 0; i < 6; i++)
        {
            Checks.Near(solution.Modes[i].Frequency, solution.InAir([none[i]])[0].Frequency, 1e-9);
            Checks.Close(solution.Modes[i].Energy.Twist, solution.InAir([none[i]])[0].Energy.Twist, 1e-9);
            Checks.Near(solution.Modes[i].Error, solution.InAir([none[i]])[0].Error, 1e-9);
        }
    }

    // On a board's outline with its hole: the first ten of ten and the modes beyond, against those with fifty beyond.
    [Theory]
    [Trait("Check", "exact")]
    [InlineData(false)]
    [InlineData(true)]
    public void The_modes_beyond_are_enough_for_the_first_ten(bool baffled)
    {
        PlateSection section = PlateSection.Of(SampleBoard.Unsymmetric.Laminate()).FreeInItsPlane();
        var problem = new PlateProblem(
            PlateMesher.Mesh(new MeshDomain(OutlineFamily.Of(0.489), [Shapes.Circle(new(0.335, 0), 0.0425)], [], _ => 0), 0.06),
            [section], e => baffled && e.Curve == 0 ? EdgeSupport.Clamped : EdgeSupport.Free);
        double[] many = Frequencies(50), few = Frequencies(PlateSolver.BeyondForAir);
        for (int i = 0; i < 10; i++) { Checks.Near(many[i], few[i], 5e-4, $"mode {i + 1}"); }

        double[] Frequencies(int beyond) => [.. PlateSolver.Once(problem, 10, 4, beyond).InAir(baffled, AmbientAir.Density, 10).Modes.Select(m => m.Frequency)];
    }

    // The two rows of the CIPM-2007 density that it lies between, 20 °C and 101 325 Pa: humidity 0 and 50 % (Picard et al. 2008).
    [Fact]
    [Trait("Check", "published")]
    public void The_airs_density_is_that_of_a_room() => Checks.Within(1.1993, 1.2046, AmbientAir.Density);
}
