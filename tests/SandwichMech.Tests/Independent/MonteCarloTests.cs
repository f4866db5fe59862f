using MathNet.Numerics.Distributions;
using MathNet.Numerics.Statistics;
using SandwichMech.Core.Choosing;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Materials;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Predictions;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Independent;

/// <summary>The intervals of a prediction against drawing whole boards at random (JCGM 101:2008).</summary>
/// <remarks>
/// Every uncertain quantity is drawn here from its own distribution, log-normal or, for a share, normal in its log-odds;
/// E_L goes with density. It is written out without the product's list of inputs: one forgotten there, or counted twice, shows.
/// </remarks>
[Trait("Check", "independent")]
public class MonteCarloTests
{
    private const int Draws = 40_000;

    private static readonly Lazy<IReadOnlyList<Drawn>> Sampled = new(() =>
    {
        var source = new Random(20240607);
        return [.. Enumerable.Range(0, Draws).Select(_ => Draw(source))];
    });

    private static readonly Lazy<Propagation<BoardFigures>> Propagated = new(() => BoardFigures.WithSpread(SampleBoard.Unsymmetric));

    private sealed record Drawn(double Mass, double Along, double Across, double FirstMode, double SofteningAlong, double SolidAlong, double Saved);

    // The ends of the 90 % interval within 3 %, of the 50 % interval within 2 %, and the share of draws inside.
    [Fact]
    public void Mass() => Agrees(Propagated.Value.Positive(f => f.Mass), d => d.Mass);

    [Fact]
    public void Bending_stiffness_along() => Agrees(Propagated.Value.Positive(f => f.Laminate.Bending.M11), d => d.Along);

    [Fact]
    public void Bending_stiffness_across() => Agrees(Propagated.Value.Positive(f => f.Laminate.Bending.M22), d => d.Across);

    [Fact]
    public void First_mode() => Agrees(Propagated.Value.Positive(f => f.FrequencyOf(f.Modes[0])), d => d.FirstMode);

    [Fact]
    public void Softening_along() => Agrees(Propagated.Value.Positive(f => f.SofteningAlong), d => d.SofteningAlong);

    [Fact]
    public void Thickness_of_the_solid_as_stiff_along() => Agrees(Propagated.Value.Positive(f => Along(f).Thickness), d => d.SolidAlong);

    // Grams saved may be of either sign and are not log-normal; the interval is symmetric and the draws are a little skew.
    // Ends within a tenth of the interval's width.
    [Fact]
    public void Mass_saved()
    {
        Prediction p = Propagated.Value.OfEitherSign(f => Along(f).Saved);
        double[] draws = [.. Sampled.Value.Select(d => d.Saved)];
        double width = p.High90 - p.Low90;
        Checks.Close(draws.Quantile(0.05), p.Low90, 0.1 * width, "low");
        Checks.Close(draws.Quantile(0.95), p.High90, 0.1 * width, "high");
        Checks.Close(0.90, draws.Count(x => x >= p.Low90 && x <= p.High90) / (double)Draws, 0.02, "share of draws inside 90 %");
    }

    private static SolidEquivalent Along(BoardFigures f) => f.Solids.Single(s => s.Criterion == StiffnessCriterion.Along);

    private static void Agrees(Prediction p, Func<Drawn, double> figure)
    {
        double[] draws = [.. Sampled.Value.Select(figure)];
        Checks.Near(draws.Median(), p.Value, 0.02, "median");
        Checks.Near(draws.Quantile(0.05), p.Low90, 0.03, "low end of 90 %");
        Checks.Near(draws.Quantile(0.95), p.High90, 0.03, "high end of 90 %");
        Checks.Near(draws.Quantile(0.25), p.Low50, 0.02, "low end of 50 %");
        Checks.Near(draws.Quantile(0.75), p.High50, 0.02, "high end of 50 %");
        Checks.Close(0.90, draws.Count(x => x >= p.Low90 && x <= p.High90) / (double)Draws, 0.015, "share of draws inside 90 %");
    }

    private static Drawn Draw(Random source)
    {
        double Normally() => Normal.Sample(source, 0, 1);
        Estimate One(Estimate e) => e.Shifted(e.Spread * Normally());
        // A share is normal in the logarithm of its odds.
        Estimate Share(Estimate e) =>
            e with { Value = 1 / (1 + (1 - e.Value) / e.Value * Math.Exp(-e.Spread * Normally() / (1 - e.Value))) };

        Wood AnyPiece(Wood w)
        {
            double dense = Normally(), stiff = 0.5 * dense + Math.Sqrt(0.75) * Normally();
            return w with
            {
                Density = w.Density.Shifted(w.Density.Spread * dense),
                EL = w.EL.Shifted(w.EL.Spread * stiff),
                ErOverEl = One(w.ErOverEl),
                GlrOverEl = One(w.GlrOverEl),
                GltOverEl = One(w.GltOverEl),
                GrtOverEl = One(w.GrtOverEl),
            };
        }

        Board median = SampleBoard.Unsymmetric;
        CoreMaterial core = median.Core.Material;
        double coreShear = core.ShearRibbon.Spread * Normally();
        Adhesive glue = median.Adhesive;
        Board board = median with
        {
            Outer = new(AnyPiece(median.Outer.Wood), One(median.Outer.Thickness), 0),
            Inner = new(AnyPiece(median.Inner.Wood), One(median.Inner.Thickness), 0),
            Core = new(
                core with { Density = One(core.Density), ShearRibbon = core.ShearRibbon.Shifted(coreShear), ShearAcross = core.ShearAcross.Shifted(coreShear) },
                One(median.Core.Height), 0),
            Adhesive = glue with
            {
                Density = One(glue.Density),
                Mixed = One(glue.Mixed),
                KeptShare = Share(glue.KeptShare),
                FilmShare = Share(glue.FilmShare),
                FilmModulus = One(glue.FilmModulus),
            },
            Solid = new(AnyPiece(median.Solid.Wood), null),
        };
        Laminate laminate = board.Laminate();
        EquivalentRectangle r = EquivalentRectangle.Of(board.Size)!.Value;
        double outline = Math.Exp(EquivalentRectangle.Spread * Normally());
        Wood solid = board.Solid.Wood;
        double mu = 1 - solid.NuLR * solid.NuLR * solid.ErOverEl.Value;
        double thickness = Math.Cbrt(12 * laminate.Bending.M11 * mu / solid.EL.Value);
        return new(
            laminate.ArealMass * board.Size.Area,
            laminate.Bending.M11,
            laminate.Bending.M22,
            outline * HingedRectangle.Frequency(laminate, r.Length, r.Width, 1, 1),
            WaveSoftening.Along(laminate),
            thickness,
            (solid.Density.Value * thickness - laminate.ArealMass) * board.Size.Area);
    }
}
