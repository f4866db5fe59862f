using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Tests.Published;

/// <summary>Sobol' indices of the two functions that the literature tries estimators on.</summary>
/// <remarks>Closed forms are exact; the estimates have to lie within four of their own standard errors, and these have to be small.</remarks>
[Trait("Check", "published")]
public class SobolIndicesTests
{
    private const int Draws = 1 << 16;
    private const double Errors = 4, LargestError = 0.015;

    // Ishigami & Homma (1990): sin x1 + a sin² x2 + b x3⁴ sin x1, inputs uniform over −π to π. V = a²/8 + bπ⁴/5 + b²π⁸/18 + 1/2, V1 = (1 + bπ⁴/5)²/2, V2 = a²/8, V3 = 0,
    // V13 = b²π⁸ (1/18 − 1/50), no other. For a = 7, b = 0.1 Saltelli et al. (2008), "Global Sensitivity Analysis", print these shares (from memory; the closed form gives the same).
    [Fact]
    public void The_function_of_Ishigami_and_Homma()
    {
        const double a = 7, b = 0.1;
        double p4 = Math.Pow(Math.PI, 4), v1 = Math.Pow(1 + b * p4 / 5, 2) / 2, v2 = a * a / 8, v13 = b * b * p4 * p4 * (1.0 / 18 - 1.0 / 50);
        double v = a * a / 8 + b * p4 / 5 + b * b * p4 * p4 / 18 + 0.5;
        Checks.Near(v, v1 + v2 + v13, 1e-12, "the parts add up");
        double[] first = [v1 / v, v2 / v, 0], total = [(v1 + v13) / v, v2 / v, v13 / v];
        foreach ((string printed, double exact) in ((string, double)[])[("0.3139", first[0]), ("0.4424", first[1]), ("0.5576", total[0]), ("0.4424", total[1]), ("0.2437", total[2])])
        {
            Checks.Printed(printed, exact);
        }

        Agree(3, u =>
        {
            double[] x = [.. u.Select(s => Math.PI * (2 * s - 1))];
            return Math.Sin(x[0]) + a * Math.Pow(Math.Sin(x[1]), 2) + b * Math.Pow(x[2], 4) * Math.Sin(x[0]);
        }, first, total);
    }

    // Sobol's g (Saltelli & Sobol' 1995): the product of (|4x_i − 2| + a_i)/(1 + a_i), inputs uniform over 0 to 1; V_i = 1/(3 (1 + a_i)²), V + 1 = Π (1 + V_i), and with all
    // interactions the total part of one input is V_i Π over the others (1 + V_k).
    [Fact]
    public void The_g_function_of_Sobol()
    {
        double[] a = [0, 1, 4.5, 9, 99, 99, 99, 99], parts = [.. a.Select(x => 1 / (3 * (1 + x) * (1 + x)))];
        double whole = parts.Aggregate(1.0, (product, part) => product * (1 + part)), v = whole - 1;
        Agree(a.Length, u => u.Zip(a, (x, c) => (Math.Abs(4 * x - 2) + c) / (1 + c)).Aggregate(1.0, (product, g) => product * g),
            [.. parts.Select(p => p / v)], [.. parts.Select(p => p * whole / (1 + p) / v)]);
    }

    private static void Agree(int inputs, Func<double[], double> model, double[] first, double[] total)
    {
        var chance = new Random(20261128);
        double[][] a = [.. Enumerable.Range(0, Draws).Select(_ => Row())], b = [.. Enumerable.Range(0, Draws).Select(_ => Row())];
        double[] fa = [.. a.Select(model)], fb = [.. b.Select(model)];
        for (int i = 0; i < inputs; i++)
        {
            var index = SobolIndices.Of($"x{i + 1}", fa, fb, [.. a.Zip(b, (x, y) => model([.. x.Select((value, k) => k == i ? y[k] : value)]))]);
            Checks.Within(0, LargestError, index.FirstError);
            Checks.Within(0, LargestError, index.TotalError);
            Checks.Close(first[i], index.First, Errors * index.FirstError, $"first order of {index.Input}");
            Checks.Close(total[i], index.Total, Errors * index.TotalError, $"total of {index.Input}");
        }

        double[] Row() => [.. Enumerable.Range(0, inputs).Select(_ => chance.NextDouble())];
    }
}
