using MathNet.Numerics.LinearAlgebra;

namespace SandwichMech.Tests.Plates.Air;

/// <summary>The free square, whole and with a square hole, by another method: panels of constant pressure jump (vortex rings) that meet the velocity at their middles.</summary>
/// <remarks>
/// A rectangular panel of unit jump has the normal velocity (1/4π) [F] over its corners, F = √(x² + y²)/(xy), in its own plane (Biot–Savart of its four sides;
/// Katz &amp; Plotkin 2001, Low-Speed Aerodynamics, ch. 10). The jump's edge behaviour is not built in, so the error falls with the panels' size alone; two
/// steps of extrapolation remove h and h².
/// </remarks>
public class DoubletPanelTests
{
    [Theory]
    [Trait("Check", "independent")]
    [InlineData(0)]
    [InlineData(4)]
    public void A_free_square_in_heave(int holeInTenths)
    {
        double v = AirSamples.Volume(AirSamples.SquareWithSquareHole(10, holeInTenths), false, AirSamples.Heave);
        double h1 = Panels(10, holeInTenths), h2 = Panels(20, 2 * holeInTenths), h4 = Panels(40, 4 * holeInTenths);
        double once = 2 * h2 - h1, again = 2 * h4 - h2, twice = (4 * again - once) / 3;
        // The extrapolation's own step stands for its error.
        Checks.Near(twice, v, 3e-3 + Math.Abs(twice / again - 1));
    }

    // Quarter by quarter: the four panels that mirror each other share one jump.
    private static double Panels(int side, int hole)
    {
        double h = 1.0 / side;
        var middles = new List<(double X, double Y)>();
        for (int i = side / 2; i < side; i++)
        {
            for (int j = side / 2; j < side; j++)
            {
                if (i >= (side + hole) / 2 || j >= (side + hole) / 2) { middles.Add(((i + 0.5) * h - 0.5, (j + 0.5) * h - 0.5)); }
            }
        }

        Matrix<double> influence = Matrix<double>.Build.Dense(middles.Count, middles.Count, (i, j) =>
            Velocity(middles[i].X - middles[j].X, middles[i].Y - middles[j].Y, h) + Velocity(middles[i].X + middles[j].X, middles[i].Y - middles[j].Y, h)
            + Velocity(middles[i].X - middles[j].X, middles[i].Y + middles[j].Y, h) + Velocity(middles[i].X + middles[j].X, middles[i].Y + middles[j].Y, h));
        Vector<double> jump = influence.Solve(Vector<double>.Build.Dense(middles.Count, 1));
        return 4 * jump.Sum() * h * h;
    }

    private static double Velocity(double x, double y, double h)
    {
        double left = x - h / 2, right = x + h / 2, low = y - h / 2, high = y + h / 2;
        return (F(right, high) - F(left, high) - F(right, low) + F(left, low)) / (4 * Math.PI);

        static double F(double a, double b) => Math.Sqrt(a * a + b * b) / (a * b);
    }
}
