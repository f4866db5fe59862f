using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Plates;

/// <summary>The change of a frequency with thicknesses and moduli against solving again, and where the energy sits.</summary>
[Trait("Check", "exact")]
public class PlateDerivativeTests
{
    private const double Length = 0.48, Width = 0.365;

    // The derivative is exact for the polynomials that are there, few or many: few will do.
    private const int Order = 3;

    // Two regions: the unsymmetric board, and for x > Length/2 a board with a thicker outer skin whose reference plane lies
    // elsewhere. Five motions.
    private static readonly Ply[] Left = [.. SampleBoard.Unsymmetric.Laminate().Plies];
    private static readonly Ply[] Right = [.. Left[..^1], Left[^1] with { Thickness = 1.3 * Left[^1].Thickness }];

    private static readonly PlateMesh Mesh = SamplePlate.SplitAt(PlateMesh.Rectangle(Length, Width, 4, 3), Length / 2);

    public static TheoryData<string, int> Changes
    {
        get
        {
            var data = new TheoryData<string, int>();
            for (int ply = 0; ply < Left.Length; ply++)
            {
                data.Add("thickness", ply);
            }

            data.Add("E1", Left.Length - 1);
            data.Add("E2", 0);
            data.Add("G13", 2);
            data.Add("density", 0);
            return data;
        }
    }

    // (f(1 + δ) − f(1 − δ))/f against the same change of the sections in the mode's own products. Both are the derivative
    // times 2δ to first order, so they part as δ³: the relative difference falls as δ² (slope 2), and what Richardson leaves of
    // it is below a millionth. Left region only: a change in part of the board.
    [Theory]
    [MemberData(nameof(Changes))]
    public void The_change_of_each_mode_is_that_of_solving_again(string property, int ply)
    {
        PlateSolution solution = PlateSolver.Once(Problem(0), 3, Order);
        double[] coarse = Differences(0.04), fine = Differences(0.02), finest = Differences(0.01);
        for (int mode = 0; mode < 3; mode++)
        {
            double exact = solution.Modes[mode].RelativeChange(Sections(-1e-6), Sections(1e-6)) / 2e-6;
            double one = coarse[mode] - exact, two = fine[mode] - exact, three = finest[mode] - exact;
            // Differences beyond rounding fall fourfold at each halving.
            if (Math.Abs(three) > 1e-6 * Math.Abs(exact))
            {
                Checks.Within(1.85, 2.15, Math.Log2(one / two), $"slope, mode {mode + 1}");
                Checks.Within(1.9, 2.1, Math.Log2(two / three), $"slope, mode {mode + 1}");
            }

            double first = (4 * fine[mode] - coarse[mode]) / 3, second = (4 * finest[mode] - fine[mode]) / 3;
            Checks.Close(exact, (16 * second - first) / 15, 1e-6 * Math.Abs(exact) + 1e-10, $"{property} of ply {ply}, mode {mode + 1}");
        }

        double[] Differences(double step)
        {
            double[] up = SamplePlate.Frequencies(Problem(step), 3, Order), down = SamplePlate.Frequencies(Problem(-step), 3, Order);
            return [.. up.Zip(down, (x, y) => x - y).Select((d, i) => d / (2 * step * solution.Modes[i].Frequency))];
        }

        PlateProblem Problem(double change) => new(Mesh, Sections(change), _ => EdgeSupport.Free);

        PlateSection[] Sections(double change)
        {
            Ply[] changed = [.. Left];
            Ply p = changed[ply];
            double factor = 1 + change;
            changed[ply] = property switch
            {
                "thickness" => p with { Thickness = p.Thickness * factor },
                "E1" => p with { E1 = p.E1 * factor },
                "E2" => p with { E2 = p.E2 * factor },
                "G13" => p with { G13 = p.G13 * factor },
                _ => p with { Density = p.Density * factor },
            };
            return [PlateSection.Of(Laminate.From(changed)), PlateSection.Of(Laminate.From(Right), 0.2e-3)];
        }
    }

    // ω² = Σ C : strains over the regions and 1 = Σ inertia : motions, so the shares are shares.
    [Theory]
    [InlineData("FFFF")]
    [InlineData("SCSF")]
    public void Shares_add_up(string sides)
    {
        PlateSection[] sections = [PlateSection.Of(Laminate.From(Left)), PlateSection.Of(Laminate.From(Right), 0.2e-3)];
        var problem = new PlateProblem(Mesh, sections, SamplePlate.Rectangle(sections[0], 1, 1, 1, 1, sides).Support);
        Assert.All(PlateSolver.Once(problem, 6, 4).Modes, mode =>
        {
            EnergyShares e = mode.Energy;
            Checks.Close(1, e.Along + e.Across + e.Twist + e.Shear + e.Membrane, 1e-9);
            Assert.True(e.Twist > 0 && e.Shear > 0);
            double square = Math.Pow(2 * Math.PI * mode.Frequency, 2);
            Checks.Near(square, mode.Regions.Select((r, i) => r.Stiffness(sections[i])).Sum(), 1e-8);
            Checks.Near(1, mode.Regions.Select((r, i) => r.Inertia(sections[i])).Sum(), 1e-9);
        });
    }

    // With springs the shares add up to what the springs leave: 1 less ½kw² over the whole.
    [Fact]
    public void Springs_take_their_share()
    {
        PlateSection section = PlateSection.Of(Laminate.From(Left)).FreeInItsPlane();
        var problem = new PlateProblem(PlateMesh.Rectangle(Length, Width, 4, 3), [section], _ => new(5e3, 0, 0));
        PlateMode mode = PlateSolver.Once(problem, 1, 5).Modes[0];
        double sum = mode.Energy.Along + mode.Energy.Across + mode.Energy.Twist + mode.Energy.Shear + mode.Energy.Membrane;
        // By the derivative: d ln f/d ln k is half the springs' share.
        double stiffer = Frequency(5e3 * 1.01), softer = Frequency(5e3 / 1.01);
        Checks.Within(0.05, 0.95, sum);
        Checks.Near(1 - sum, 2 * Math.Log(stiffer / softer) / (2 * Math.Log(1.01)), 1e-3);

        double Frequency(double spring) => SamplePlate.Frequencies(problem with { Support = _ => new(spring, 0, 0) }, 1, 5)[0];
    }

    // A strip bends along; without Poisson's ratio there is nothing else but shear.
    [Fact]
    public void A_free_strip_bends_along_and_twists()
    {
        PlateSection section = SamplePlate.Wood(0.5e-3, 11.91e9, 0.93e9, 0, 0.76e9, 0.76e9, 0.76e9, 448);
        PlateSolution strip = PlateSolver.Once(SamplePlate.Rectangle(section, 0.6, 0.03, 8, 1), 4, 5);
        Checks.Close(1, strip.Modes[0].Energy.Along, 1e-4);
        PlateMode twist = strip.Modes.MaxBy(m => m.Energy.Twist)!;
        Checks.Within(0.98, 1, twist.Energy.Twist);
        Checks.Within(0, 0.02, twist.Energy.Along);
        PlateMode across = PlateSolver.Once(SamplePlate.Rectangle(section, 0.03, 0.6, 1, 8), 1, 5).Modes[0];
        Checks.Close(1, across.Energy.Across, 1e-4);
    }

    // The first mode of a free plate is w ~ xy but for its edges: nearly all twist. Thick and soft in shear, a mode is shear.
    [Fact]
    public void A_free_plates_first_mode_twists_and_a_soft_cores_modes_shear()
    {
        PlateSection wood = SamplePlate.Wood(2.6e-3, 11.91e9, 0.93e9, 0.372, 0.76e9, 0.73e9, 0.036e9, 448);
        Checks.Within(0.93, 0.97, PlateSolver.Once(SamplePlate.Rectangle(wood, 0.5, 0.4, 4, 3), 1, 5).Modes[0].Energy.Twist);
        PlateSection soft = wood with { S = new(wood.S.Sx * 1e-5, wood.S.Sy * 1e-5, 0) };
        Checks.Within(0.95, 1, PlateSolver.Once(SamplePlate.Rectangle(soft, 0.5, 0.4, 4, 3, "CCCC"), 1, 5).Modes[0].Energy.Shear);
    }
}
