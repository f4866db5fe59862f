using MathNet.Numerics.Distributions;
using SandwichMech.Core.Choosing;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Tests.Choosing;

/// <summary>The chosen board against all boards looked at one by one, and against closed forms.</summary>
[Trait("Check", "independent")]
public class ChoosingTests
{
    private const double Accuracy = 0.02;

    // The own plate of each lighter board is solved for the one answer, some few for the other; the benchmark solves all.
    [Theory]
    [InlineData(0.5, 30, 0.7)]
    [InlineData(0.9, 32, 0.6)]
    public void No_board_of_all_is_lighter_and_a_fiftieth_of_the_plates_is_enough(double along, double mode, double sure)
    {
        ChoiceWish wish = Wish(BruteForce.Variants([1.5e-3, 2.5e-3], BruteForce.Steps(0.5e-3, 1.1e-3, 0.05e-3)), sure,
            new(ChoiceFigure.StiffnessAlong) { OfSolid = true, Least = along }, new(ChoiceFigure.Mode) { Mode = 1, Least = mode });
        Choice chosen = Choose.Among(wish);
        Assert.NotNull(chosen.Best);
        (double? lighter, int solves) = BruteForce.Lightest(wish, Accuracy, chosen.Best.Mass * (1 - 1e-9));
        Assert.Null(lighter);
        Assert.True(chosen.Best.Solved && chosen.Best.Chance >= sure);
        Assert.True(chosen.Solves * 50 <= solves, $"{chosen.Solves} plates beside {solves}");
    }

    [Fact]
    public void A_seed_gives_one_answer()
    {
        ChoiceWish wish = Wish(Layups(), 0.8, new(ChoiceFigure.StiffnessAlong) { OfSolid = true, Least = 0.8 }, new(ChoiceFigure.StiffnessRatio) { Most = 14 });
        (Choice one, Choice two) = (Choose.Among(wish), Choose.Among(wish));
        Assert.Equal(one.Best!.At, two.Best!.At);
        Assert.Equal(one.Best.Chance, two.Best.Chance);
        Assert.Equal(one.Front.Select(f => f.Board.At), two.Front.Select(f => f.Board.At));
    }

    // Two bounds at once: by drawing all inputs of the board itself, with no linear step between.
    [Fact]
    public void The_joint_chance_is_that_of_boards_drawn_one_by_one()
    {
        ChoiceTarget along = new(ChoiceFigure.StiffnessAlong) { Least = 12 }, mass = new(ChoiceFigure.Mass) { Most = 0.115 };
        Choice chosen = Choose.Among(Wish(Layups(), 0.5, along, mass));
        Board board = chosen.Best!.Board;
        UncertainInput<Board>[] inputs = [.. BoardInputs.Of(board).Where(i => i.Spread > 0)];
        InputShift<Board>[] shifts = [.. BoardInputs.Shifts(board).Where(i => i.Spread > 0)];
        var random = new Random(3);
        int met = 0;
        const int Draws = 20_000;
        for (int i = 0; i < Draws; i++)
        {
            Board drawn = shifts.Aggregate(board, (b, s) => s.Shift(b, s.Spread * Normal.Sample(random, 0, 1)));
            Laminate l = drawn.Laminate();
            met += l.Bending.M11 >= 12 && drawn.Mass(l) <= 0.115 ? 1 : 0;
        }

        // Three standard errors of the draws, and what curvature may leave.
        Checks.Close(met / (double)Draws, chosen.Best.Chance, 0.03);
        Assert.True(inputs.Length >= shifts.Length);
    }

    // One bound: the normal distribution itself.
    [Fact]
    public void One_bound_holds_with_the_chance_that_its_interval_says()
    {
        Choice chosen = Choose.Among(Wish(Layups(), 0.9, new ChoiceTarget(ChoiceFigure.StiffnessAlong) { Least = 10 }));
        Prediction p = chosen.Best!.Outcomes[0].Figure;
        double spread = Math.Log(p.High90 / p.Low90) / (2 * Propagation.Z90);
        Checks.Near(Normal.CDF(0, 1, Math.Log(p.Value / 10) / spread), chosen.Best.Chance, 1e-9);
        Checks.Within(0.9, 0.99, chosen.Best.Chance);
        // One step lighter in either skin is not enough, or is heavier.
        Assert.All(chosen.Front.Where(f => f.Mass < chosen.Best.Mass), f => Assert.True(f.Chance < 0.9));
    }

    // Thin skins on a core that bears shear alone: D = E t c²/2 and mass 2 ρf t + ρc c are least together where the core weighs twice the skins
    // (d/dc of 4 ρf D/(E c²) + ρc c = 0; Gibson & Ashby 1997, Cellular Solids, ch. 9, and Allen 1969 have the same optimum, from memory).
    [Fact]
    [Trait("Check", "exact")]
    public void At_given_stiffness_the_lightest_sandwich_has_a_core_twice_as_heavy_as_its_skins()
    {
        Board demo = BruteForce.Variants([1.8e-3], [1e-3])[0].Board with { Shape = null };
        Board bare = demo with
        {
            Core = demo.Core with { Material = demo.Core.Material with { Density = new(30, 0), InPlaneModulus = 1 } },
            Outer = demo.Inner,
            Inner = demo.Inner,
            Adhesive = demo.Adhesive with { Mixed = demo.Adhesive.Mixed with { Value = 1e-9 } },
        };
        double e = bare.Outer.Wood.EL.Value, density = bare.Outer.Wood.Density.Value;
        const double D = 200;
        double best = Math.Cbrt(8 * density * D / (e * 30));
        double[] skins = BruteForce.Steps(0.10e-3, 0.50e-3, 0.002e-3);
        ChoiceVariant[] variants = [.. Enumerable.Range(-8, 17).Select(i => best * (1 + 0.03 * i)).Select(h => new ChoiceVariant(bare with { Core = bare.Core with { Height = new(h, 0) } }, 0, skins, skins))];
        Choice chosen = Choose.Among(Wish(variants, 0.5, new ChoiceTarget(ChoiceFigure.StiffnessAlong) { Least = D }));
        Board found = chosen.Best!.Board;
        Laminate l = found.Laminate();
        double skinMass = density * (found.Outer.Thickness.Value + found.Inner.Thickness.Value), coreMass = 30 * found.Core.Height.Value;
        // The optimum is flat: half a step of the core's height, 1.5 %, moves the ratio by three times that; skins of 2 % of the core by 4 % more.
        Checks.Near(2, coreMass / skinMass, 0.09);
        Checks.Near(3 * 2 * density * D / (e * best * best) * 2, l.ArealMass, 0.02);
    }

    [Fact]
    public void What_stands_in_the_way_is_enough_when_it_gives_way()
    {
        ChoiceTarget along = new(ChoiceFigure.StiffnessAlong) { Least = 14 }, mass = new(ChoiceFigure.Mass) { Most = 0.098 };
        ChoiceWish wish = Wish(Layups(), 0.9, along, mass);
        Choice none = Choose.Among(wish);
        Assert.Null(none.Best);
        Assert.Equal(2, none.Obstacles.Count);
        foreach (Obstacle o in none.Obstacles)
        {
            ChoiceTarget[] loosened = [along, mass];
            double bound = o.Bound;
            loosened[o.Target] = o.IsLeast ? loosened[o.Target] with { Least = bound * (1 - 1e-6) } : loosened[o.Target] with { Most = bound * (1 + 1e-6) };
            Assert.NotNull(Choose.Among(wish with { Targets = loosened }).Best);
            // And not when it gives way by a tenth of the way less.
            ChoiceTarget[] less = [along, mass];
            double asked = o.IsLeast ? less[o.Target].Least!.Value : less[o.Target].Most!.Value, part = bound + (asked - bound) * 0.1;
            less[o.Target] = o.IsLeast ? less[o.Target] with { Least = part } : less[o.Target] with { Most = part };
            Assert.Null(Choose.Among(wish with { Targets = less }).Best);
        }
    }

    [Fact]
    public void The_sanding_allowed_is_just_sure_enough()
    {
        ChoiceWish wish = Wish(Layups(), 0.8, new ChoiceTarget(ChoiceFigure.StiffnessAlong) { Least = 12 });
        Choice chosen = Choose.Among(wish);
        double allowed = chosen.Tolerances!.Allowed!.Value;
        Assert.True(allowed > 0);
        Estimate Limited(Estimate e) => Estimate.FromSd(e.Value, allowed / Math.Sqrt(3));
        Board b = chosen.Best!.Board;
        Board sanded = b with { Outer = b.Outer with { Thickness = Limited(b.Outer.Thickness) }, Inner = b.Inner with { Thickness = Limited(b.Inner.Thickness) } };
        Choice again = Choose.Among(wish with { Sure = 0.5, Variants = [new(sanded, 0, [b.Outer.Thickness.Value], [b.Inner.Thickness.Value])] });
        Checks.Close(0.8, again.Best!.Chance, 2e-3);
    }

    private static ChoiceVariant[] Layups() =>
        [.. BruteForce.Variants([1.5e-3, 2e-3], BruteForce.Steps(0.4e-3, 1e-3, 0.05e-3)).Select(v => v with { Board = v.Board with { Shape = null } })];

    private static ChoiceWish Wish(IReadOnlyList<ChoiceVariant> variants, double sure, params ChoiceTarget[] targets) => new()
    {
        Variants = variants,
        Targets = targets,
        Sure = sure,
        Plate = new(_ => null, _ => new([]), Accuracy),
    };
}
