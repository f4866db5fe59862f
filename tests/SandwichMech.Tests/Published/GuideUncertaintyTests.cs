using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Tests.Published;

/// <summary>The guides' additive and correlated examples through the law of propagation.</summary>
[Trait("Check", "published")]
public class GuideUncertaintyTests
{
    private const double Z95 = 1.959963984540054, Z90 = 1.644853626951473;

    // JCGM 101:2008, 9.2.2 to 9.2.4: sums of four inputs of mean 0, three of standard uncertainty 1 and one of 1 or 10. What the kind of spread is (normal, rectangular) the
    // law does not ask: printed for it are u 2.00, 2.00, 10.15 and 95 % intervals ±3.92, ±3.92, ±19.9 (printed values from memory, recomputed); the Monte Carlo method
    // finds ±3.88 and ±17.0 for the rectangular ones, which no linear law can.
    [Theory]
    [InlineData(1, "2.00", "3.92")]
    [InlineData(10, "10.15", "19.9")]
    public void A_sum_of_four_has_the_printed_uncertainty(double last, string uncertainty, string half)
    {
        double[] each = [1, 1, 1, last];
        Prediction sum = Propagation.Through(
            0.0, each.Select((u, i) => new UncertainInput<double>($"x{i + 1}", 1, t => u * t)), x => x).OfEitherSign(x => x);
        double u = (sum.High90 - sum.Low90) / 2 / Z90;
        Checks.Printed(uncertainty, u);
        Checks.Printed(half, Z95 * u);
        Checks.Near(last * last / (3 + last * last), sum.MostlyFrom.Where(s => s.Input == "x4").Sum(s => s.Share), 1e-9);
    }

    // JCGM 100:2008, H.2: resistance, reactance and impedance from five sets of voltage, current and phase that go together; R = V/I cos φ, X = V/I sin φ, Z = V/I.
    // A set that is off moves all three: a shift of the mean by its own deviations over √(n(n − 1)) gives the covariances of the means, and with them the printed
    // results. X's uncertainty is printed as 0.295, recomputed 0.2956.
    [Fact]
    public void Inputs_that_go_together_give_the_printed_impedance()
    {
        (double V, double I, double Phi)[] sets = [(5.007, 19.663, 1.0456), (4.994, 19.639, 1.0438), (5.005, 19.640, 1.0468), (4.990, 19.685, 1.0428), (4.999, 19.678, 1.0433)];
        double v = sets.Average(s => s.V), i = sets.Average(s => s.I), phi = sets.Average(s => s.Phi), part = 1 / Math.Sqrt(sets.Length * (sets.Length - 1));
        Propagation<Means> through = Propagation.Through(
            new Means(v, i, phi),
            sets.Select((s, k) => new UncertainInput<Means>($"set {k + 1}", 1, t => new(v + part * t * (s.V - v), i + part * t * (s.I - i), phi + part * t * (s.Phi - phi)))), m => m);
        Checks.Printed("127.732", R(through.Nominal));
        Checks.Printed("219.847", X(through.Nominal));
        Checks.Printed("254.260", Z(through.Nominal));
        Checks.Printed("0.071", U(R));
        Checks.Printed("0.295", U(X), 1);
        Checks.Printed("0.236", U(Z));
        // −0.36, 0.86, −0.65 of the inputs; of the results −0.588, −0.485, 0.993 (from memory, recomputed).
        Checks.Printed("-0.36", Correlation(m => m.V, m => m.I));
        Checks.Printed("0.86", Correlation(m => m.V, m => m.Phi));
        Checks.Printed("-0.65", Correlation(m => m.I, m => m.Phi));
        Checks.Printed("-0.588", Correlation(R, X));
        Checks.Printed("-0.485", Correlation(R, Z));
        Checks.Printed("0.993", Correlation(X, Z));

        double U(Func<Means, double> of) => through.OfEitherSign(of) is var p ? (p.High90 - p.Low90) / 2 / Z90 : 0;

        // u²(a + b) = u²(a) + u²(b) + 2 r u(a) u(b), each in parts of its own.
        double Correlation(Func<Means, double> a, Func<Means, double> b)
        {
            double ua = U(a), ub = U(b);
            return Math.Pow(U(m => a(m) / ua + b(m) / ub), 2) / 2 - 1;
        }

        static double R(Means m) => 1e3 * m.V / m.I * Math.Cos(m.Phi);

        static double X(Means m) => 1e3 * m.V / m.I * Math.Sin(m.Phi);

        static double Z(Means m) => 1e3 * m.V / m.I;
    }

    private sealed record Means(double V, double I, double Phi);
}
