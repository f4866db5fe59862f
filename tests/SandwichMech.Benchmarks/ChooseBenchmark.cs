using SandwichMech.Core.Choosing;
using SandwichMech.Tests.Choosing;

namespace SandwichMech.Benchmarks;

/// <summary>Choosing on the demo outline against each board solved by itself, on the steps of a shop: how much lighter either finds it, and plates solved.</summary>
internal static class ChooseBenchmark
{
    private const double Accuracy = 3e-3, FewerSolves = 50;

    internal static bool Run()
    {
        ChoiceTarget along = new(ChoiceFigure.StiffnessAlong) { OfSolid = true, Least = 0.7 };
        bool met = true;
        foreach ((string what, double sure, ChoiceTarget[] targets) in new (string, double, ChoiceTarget[])[]
        {
            ("first mode at least 34 Hz, and as stiff along as 0.7 of the solid top, 90 % sure", 0.9, [along, new(ChoiceFigure.Mode) { Mode = 1, Least = 34 }]),
            ("second mode 48 to 70 Hz, 60 % sure", 0.6, [along with { Least = 0.4 }, new(ChoiceFigure.Mode) { Mode = 2, Least = 48, Most = 70 }]),
            ("first and third mode at least 30 and 60 Hz, 80 % sure", 0.8, [along with { Least = 0.3 }, new(ChoiceFigure.Mode) { Mode = 1, Least = 30 }, new(ChoiceFigure.Mode) { Mode = 3, Least = 60 }]),
        })
        {
            var wish = new ChoiceWish
            {
                Variants = BruteForce.Variants([1.5e-3, 2e-3, 3e-3], BruteForce.Steps(0.4e-3, 1.1e-3, 0.05e-3)),
                Targets = targets,
                Sure = sure,
                Plate = new(_ => null, _ => new([]), Accuracy),
            };
            Choice chosen = null!;
            double seconds = Stopclock.Seconds(() => chosen = Choose.Among(wish));
            (double? mass, int solves) = BruteForce.Lightest(wish, Accuracy);
            Report.Line($"{what}: {chosen.Best?.Mass * 1000:F2} g with {chosen.Solves} plates in {seconds:F1} s, {mass * 1000:F2} g with {solves}");
            met &= Report.Gate("mass beside the lightest of all", (chosen.Best?.Mass ?? double.PositiveInfinity) / (mass ?? double.PositiveInfinity), chosen.Best is null == mass is null && (mass is null || chosen.Best!.Mass <= mass * (1 + 1e-9)), $"at most 1", "F6");
            met &= Report.Gate("times fewer plates", (double)solves / chosen.Solves, solves >= FewerSolves * chosen.Solves, $"at least {FewerSolves:F0}");
        }

        return met;
    }
}
