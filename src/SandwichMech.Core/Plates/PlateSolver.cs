namespace SandwichMech.Core.Plates;

/// <summary>Modes of a plate to a wanted accuracy: mesh and order follow from it.</summary>
/// <remarks>
/// One mesh is solved at a low order by block Lanczos, and its modes are raised to higher orders by inverse iteration until their
/// estimated error is small enough. Frequencies of a conforming model fall as the order rises (the spaces are nested), so the fall from one order to the next
/// measures the error at the lower, and the error at the higher is a share of it. A mesh that does not get there at the highest order is made finer.
/// </remarks>
public static class PlateSolver
{
    /// <summary>Share of the fall from p to p + 1 that is taken as what is left to fall.</summary>
    public const double Left = 0.5;

    // Of the fall from 3 to 5, and to the next order, with a bar and without. Measured on boards with let-in wood and holes, free and clamped: at most
    // 0.06 and 0.42. At a bar's corners the solution is singular and falls like a power of the order: 0.25 and 1.2 with bridge and braces.
    private const double LeftAfterTwo = 0.09, LeftAfterTwoWithBars = 0.3, LeftWithBars = 1.3;

    /// <summary>Modes to solve for beyond those wanted in air: what is left out then moves none of a board's first ten by more than 0.006 % (measured free and clamped; two beyond, 0.025 %).</summary>
    public const int BeyondForAir = 8;

    private const int MostMeshes = 6;
    private const double Finer = 0.7;

    // What inverse iteration may still change, in parts of the wanted error.
    private const double Settled = 0.15;

    private static readonly int[] Orders = [3, 5, 6, 7];

    /// <summary>Modes to a wanted accuracy.</summary>
    /// <param name="meshed">Makes the problem on a mesh of about the given size, m.</param>
    /// <param name="size">Size to begin with, m.</param>
    /// <param name="count">Flexible modes wanted.</param>
    /// <param name="accuracy">Wanted relative error of the frequencies, 1e-3 say.</param>
    /// <param name="beyond">Further modes for what is summed over modes, as the air's mass is; their error is not looked at.</param>
    /// <returns>The modes, each with its estimated error.</returns>
    public static PlateSolution Solve(Func<double, PlateProblem> meshed, double size, int count, double accuracy = 1e-3, int beyond = 0)
    {
        for (int mesh = 1; ; mesh++, size *= Finer)
        {
            PlateSolution solution = OnMesh(meshed(size), count, Orders[^1], accuracy, beyond, errors => errors.Max() <= accuracy);
            if (mesh == MostMeshes || solution.WorstError <= accuracy) { return solution; }
        }
    }

    /// <summary>Modes on a mesh at an order, whatever their error, as those of plates that are to be compared node by node.</summary>
    /// <param name="problem">The plate on its mesh.</param>
    /// <param name="count">Flexible modes wanted.</param>
    /// <param name="order">Order of the elements, one that <see cref="Solve"/> uses.</param>
    /// <param name="accuracy">How far inverse iteration settles them: a part of it.</param>
    /// <param name="beyond">Further modes.</param>
    /// <returns>The modes, each with its estimated error.</returns>
    public static PlateSolution OnMesh(PlateProblem problem, int count, int order, double accuracy = 1e-3, int beyond = 0) =>
        OnMesh(problem, count, order, accuracy, beyond, _ => false);

    private static PlateSolution OnMesh(PlateProblem problem, int count, int highest, double accuracy, int beyond, Func<double[], bool> isEnough)
    {
        bool hasBars = problem.HasInnerBars || problem.HasOuterBars;
        var system = new PlateSystem(problem, Orders[0]);
        PlateModes.Result modes = PlateModes.Start(system, problem, count + beyond);
        for (int i = 1; ; i++)
        {
            var higher = new PlateSystem(problem, Orders[i]);
            PlateModes.Result raised = PlateModes.Raised(system, modes, higher, problem, count + beyond, 2 * Settled * accuracy);
            double left = (Orders[i] - Orders[i - 1] == 1, hasBars) switch
            {
                (true, false) => Left,
                (true, true) => LeftWithBars,
                (false, false) => LeftAfterTwo,
                _ => LeftAfterTwoWithBars,
            };
            double[] errors = Errors(modes, raised, count, left);
            (system, modes) = (higher, raised);
            if (Orders[i] >= highest || isEnough(errors)) { return new(system, problem, modes.First(count + beyond), errors); }
        }
    }

    /// <summary>Modes on one mesh.</summary>
    /// <param name="problem">The plate on its mesh.</param>
    /// <param name="count">Flexible modes wanted.</param>
    /// <param name="order">Order of the finer solution, 2 to 7.</param>
    /// <param name="beyond">Further modes at that order.</param>
    /// <returns>The modes, each with its estimated error.</returns>
    public static PlateSolution Once(PlateProblem problem, int count, int order, int beyond = 0)
    {
        PlateModes.Result lower = PlateModes.Solve(new PlateSystem(problem, order - 1), problem, count);
        var fine = new PlateSystem(problem, order);
        PlateModes.Result upper = PlateModes.Solve(fine, problem, count + beyond);
        return new(fine, problem, upper, Errors(lower, upper, count, Left));
    }

    // What is left to fall with the order, and what steps to come would bring: half as much again as the last one, where each brings 0.6 of the one before (ω²
    // counts twice).
    private static double[] Errors(PlateModes.Result lower, PlateModes.Result upper, int count, double left) =>
        [.. Enumerable.Range(0, count).Select(i =>
            left * Math.Abs(Math.Sqrt(lower.Values[lower.Rigid + i] / upper.Values[upper.Rigid + i]) - 1)
            + (upper.Changes.Length == 0 ? 0 : 1.5 * upper.Changes[upper.Rigid + i] / 2))];
}
