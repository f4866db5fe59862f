namespace SandwichMech.Core.Plates;

/// <summary>Solves a plate to a wanted accuracy.</summary>
/// <remarks>
/// Each mesh is solved at two orders, p and p + 1, on the same triangles. Frequencies of this conforming method fall
/// towards the exact ones as spaces are enlarged (nested), so the fall from p to p + 1 measures the error at p, and the error at p + 1 is a
/// fraction of it. The step is reported as the error of the finer solution times <see cref="Left"/>; a mesh that does not reach the
/// wanted accuracy is made finer.
/// </remarks>
public static class PlateSolver
{
    /// <summary>Orders that are compared.</summary>
    public const int LowerOrder = 3;

    /// <summary>Share of the fall from p to p + 1 that is taken as what is left to fall.</summary>
    public const double Left = 0.5;

    /// <summary>Modes to solve for beyond those wanted in air: what is left out then moves none of a board's first ten by more than 0.006 % (measured free and clamped; two beyond, 0.025 %).</summary>
    public const int BeyondForAir = 8;

    private const int MostMeshes = 6;

    /// <summary>Modes to a wanted accuracy.</summary>
    /// <param name="meshed">Makes the problem on a mesh of about the given size, m.</param>
    /// <param name="size">Size to begin with, m.</param>
    /// <param name="count">Flexible modes wanted.</param>
    /// <param name="accuracy">Wanted relative error of the frequencies, 1e-3 say.</param>
    /// <param name="order">Order of the finer solution.</param>
    /// <param name="beyond">Further modes for what is summed over modes, as the air's mass is; their error is not looked at.</param>
    /// <returns>The modes, each with its estimated error.</returns>
    public static PlateSolution Solve(Func<double, PlateProblem> meshed, double size, int count, double accuracy = 1e-3, int order = 4, int beyond = 0)
    {
        for (int attempt = 1; ; attempt++)
        {
            PlateSolution solution = Once(meshed(size), count, order, beyond);
            double worst = solution.Modes.Max(m => m.Error);
            if (worst <= accuracy || attempt == MostMeshes)
            {
                return solution;
            }

            // Error falls at least with the square of the size; a little finer than that asks for.
            size *= Math.Clamp(0.9 * Math.Pow(accuracy / worst, 1.0 / (2 * order - 2)), 0.5, 0.85);
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
        var coarse = new PlateSystem(problem, order - 1);
        PlateModes.Result lower = PlateModes.Solve(coarse, problem, count);
        var fine = new PlateSystem(problem, order);
        PlateModes.Result upper = PlateModes.Solve(fine, problem, count + beyond);
        var errors = Enumerable.Range(0, count).Select(i =>
            Left * Math.Abs(Math.Sqrt(lower.Values[lower.Rigid + i] / upper.Values[upper.Rigid + i]) - 1)).ToArray();
        return new(fine, problem, upper, errors);
    }
}
