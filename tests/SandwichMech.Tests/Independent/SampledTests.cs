using SandwichMech.Core.Layups;
using SandwichMech.Core.Predictions;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Independent;

/// <summary>Predictions from draws: against closed forms, and against exact derivatives where these hold.</summary>
[Trait("Check", "independent")]
public class SampledTests
{
    private static readonly Lazy<Sampled<BoardFigures>> Boards = new(() => BoardFigures.Drawn(SampleBoard.Unsymmetric, new(20_000, 7)));

    private static InputShift<Place>[] Both { get; } =
        [new("x1", 1, (p, t) => p with { X1 = p.X1 + 0.005 * t }), new("x2", 1, (p, t) => p with { X2 = p.X2 + 0.005 * t })];

    // The model of JCGM 101:2008, 9.4, comparison loss in microwave power meter calibration: y = x1² + x2², both of standard uncertainty 0.005, not correlated, x2 about 0. Its moments in
    // closed form: mean x1² + 2u², variance 4u²x1² + 4u⁴, skewed to the right and never below 0; about x1 = 0, y/u² is chi-squared of two degrees, so that its
    // quantiles are −2u² ln(1 − p). The law of propagation has an interval of no width there.
    [Theory]
    [InlineData(0)]
    [InlineData(0.010)]
    [InlineData(0.050)]
    public void Comparison_loss_has_the_moments_of_its_closed_form(double x1)
    {
        const double u = 0.005;
        const int draws = 200_000;
        Sampled<Place> loss = Sampled.Through(new Place(x1, 0), Both, p => p, new(draws, 3, WithSources: false));
        double mean = loss.Mean(Y), variance = loss.Mean(p => Math.Pow(Y(p) - mean, 2)), exact = 4 * u * u * x1 * x1 + 4 * Math.Pow(u, 4);
        Checks.Close(x1 * x1 + 2 * u * u, mean, 4 * Math.Sqrt(exact / draws));
        // Four standard errors of a variance whose fourth moment is at most nine times its square.
        Checks.Near(exact, variance, 4 * Math.Sqrt(8.0 / draws));
        Prediction y = loss.OfEitherSign(Y);
        Assert.True(y.Low90 >= 0);
        if (x1 == 0)
        {
            // Four standard errors √(p(1 − p)/n)/density, the density being exp(−y/2u²)/2u².
            foreach ((double p, double found) in ((double, double)[])[(0.05, y.Low90), (0.25, y.Low50), (0.75, y.High50), (0.95, y.High90)])
            {
                Checks.Close(-2 * u * u * Math.Log(1 - p), found, 4 * Math.Sqrt(p * (1 - p) / draws) * 2 * u * u / (1 - p));
            }

            Prediction linear = Propagation.Through(new Place(0, 0), Both.Select(i => new UncertainInput<Place>(i.Name, i.Spread, t => i.Shift(new(0, 0), t))), p => p).OfEitherSign(Y);
            Checks.Close(0, linear.High90 - linear.Low90, 1e-18);
        }

        static double Y(Place p) => p.X1 * p.X1 + p.X2 * p.X2;
    }

    // x1·x2 about nothing: no input brings anything by itself, both bring all together. About (1, 2): V = 4u² + u² + u⁴ over u² with u = 0.5.
    [Fact]
    public void A_product_is_all_interaction_about_nothing()
    {
        InputShift<Place>[] inputs = [new("x1", 0.5, (p, t) => p with { X1 = p.X1 + t }), new("x2", 0.5, (p, t) => p with { X2 = p.X2 + t })];
        foreach (SobolIndex i in Sampled.Through(new Place(0, 0), inputs, p => p, new(2000, 5)).Indices(p => p.X1 * p.X2))
        {
            Checks.Close(0, i.First, 4 * i.FirstError);
            Checks.Close(1, i.Total, 4 * i.TotalError);
        }

        IReadOnlyList<SobolIndex> about = Sampled.Through(new Place(1, 2), inputs, p => p, new(2000, 5)).Indices(p => p.X1 * p.X2);
        Assert.Equal(["x1", "x2"], about.Select(i => i.Input));
        double v = 4 * 0.25 + 0.25 + 0.25 * 0.25;
        Checks.Close(1 / v, about[0].First, 4 * about[0].FirstError);
        Checks.Close((1 + 0.0625) / v, about[0].Total, 4 * about[0].TotalError);
        Checks.Close(0.25 / v, about[1].First, 4 * about[1].FirstError);
    }

    // Shifts of one name move together: their sum is one source.
    [Fact]
    public void Inputs_of_one_name_are_one_source()
    {
        InputShift<Place>[] inputs = [new("x", 1, (p, t) => p with { X1 = p.X1 + t }), new("x", 1, (p, t) => p with { X2 = p.X2 + t })];
        SobolIndex only = Assert.Single(Sampled.Through(new Place(0, 0), inputs, p => p, new(1000, 5)).Indices(p => p.X1 + p.X2));
        Checks.Close(1, only.First, 4 * only.FirstError);
    }

    // The same seed, the same numbers to the last digit, whatever the order in which threads come to them; another seed, others.
    [Fact]
    public void The_seed_decides()
    {
        double[] once = Ends(11), again = Ends(11), other = Ends(12);
        Assert.Equal(once, again);
        Assert.NotEqual(once, other);

        static double[] Ends(int seed)
        {
            Prediction p = BoardFigures.Drawn(SampleBoard.Unsymmetric, new(300, seed)).Positive(f => f.Laminate.Bending.M11);
            return [p.Low50, p.High50, p.Low90, p.High90, .. p.MostlyFrom.Select(s => s.Share)];
        }
    }

    // Stiffness and mass are close to log-normal: both ways agree. Ends of 90 % within 3 %, of 50 % within 2 %; shares within four standard errors of 2000 draws and the
    // 0.03 that the figures' curvature is worth.
    [Fact]
    public void Boards_drawn_and_exact_derivatives_agree()
    {
        Propagation<BoardFigures> exact = BoardFigures.WithSpread(SampleBoard.Unsymmetric);
        foreach ((string name, Func<BoardFigures, double> figure) in ((string, Func<BoardFigures, double>)[])
            [("along", f => f.Laminate.Bending.M11), ("across", f => f.Laminate.Bending.M22), ("mass", f => f.Mass), ("first mode", f => f.FrequencyOf(f.Modes[0]))])
        {
            Prediction drawn = Boards.Value.Positive(figure), derived = exact.Positive(figure);
            Assert.Equal(derived.Value, drawn.Value);
            Checks.Near(derived.Low90, drawn.Low90, 0.03, name);
            Checks.Near(derived.High90, drawn.High90, 0.03, name);
            Checks.Near(derived.Low50, drawn.Low50, 0.02, name);
            Checks.Near(derived.High50, drawn.High50, 0.02, name);
            IReadOnlyList<SobolIndex> indices = Boards.Value.Indices(f => Math.Log(figure(f)));
            foreach (VarianceShare share in derived.MostlyFrom.Take(4))
            {
                SobolIndex index = indices.Single(i => i.Input == share.Input);
                Checks.Close(share.Share, index.First, 4 * index.FirstError + 0.03, $"{name}: {share.Input}");
                Checks.Close(share.Share, index.Total, 4 * index.TotalError + 0.03, $"{name}: {share.Input}, total");
            }
        }
    }

    [Fact]
    public void A_board_with_nothing_uncertain_has_its_value_alone()
    {
        Sampled<Place> sure = Sampled.Through(new Place(2, 3), Both.Select(i => i with { Spread = 0 }), p => p, new(100, 1));
        Prediction p = sure.Positive(x => x.X1 * x.X2);
        Assert.Equal((6.0, 6.0, 6.0, 6.0, 6.0), (p.Value, p.Low50, p.High50, p.Low90, p.High90));
        Assert.Empty(p.MostlyFrom);
    }

    private sealed record Place(double X1, double X2);
}
