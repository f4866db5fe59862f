using SandwichMech.Core.Choosing;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Predictions;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Exact;

/// <summary>All figures of a board belong to the same board.</summary>
[Trait("Check", "exact")]
public class BoardFiguresTests
{
    private static Board Board => SampleBoard.Unsymmetric;

    [Fact]
    public void Modes_and_solids_are_those_of_the_boards_own_layup_and_rectangle()
    {
        BoardFigures f = BoardFigures.Of(Board);
        EquivalentRectangle r = EquivalentRectangle.Of(Board.Size)!.Value;
        Assert.Equal(HingedRectangle.Lowest(Board.Laminate(), r.Length, r.Width, BoardFigures.ModeCount), f.Modes);
        Assert.All(f.Modes, mode => Assert.Equal(mode.Frequency, f.FrequencyOf(mode)));
        Assert.Equal(Enum.GetValues<StiffnessCriterion>(), f.Solids.Select(s => s.Criterion));
    }

    [Fact]
    public void Without_length_and_width_there_are_no_modes_and_only_the_criteria_that_need_none()
    {
        BoardFigures f = BoardFigures.Of(Board with { Size = new(0.14, null, null) });
        Assert.Empty(f.Modes);
        Assert.Equal(
            [StiffnessCriterion.Along, StiffnessCriterion.Across, StiffnessCriterion.GeometricMean], f.Solids.Select(s => s.Criterion));
        Assert.Throws<InvalidOperationException>(() => f.FrequencyOf(new RectangleMode(1, 1, 60)));
        Checks.Near(0.8432 * 0.14, f.Mass, 1e-9);
    }

    [Fact]
    public void The_outlines_shift_moves_every_frequency_and_nothing_else()
    {
        BoardFigures f = BoardFigures.Of(Board), shifted = BoardFigures.Of(new BoardCase(Board, 0.1));
        Assert.All(f.Modes.Zip(shifted.Modes), pair => Checks.Near(Math.Exp(0.1) * pair.First.Frequency, pair.Second.Frequency, 1e-12));
        Checks.Near(Math.Exp(0.1) * f.Modes[2].Frequency, shifted.FrequencyOf(f.Modes[2]), 1e-12);
        Assert.Equal((f.Mass, f.SofteningAlong), (shifted.Mass, shifted.SofteningAlong));
        Assert.Equal(f.Solids, shifted.Solids);
    }

    [Fact]
    public void Every_input_has_its_own_name_and_the_sources_of_a_figure_make_up_all_of_it()
    {
        string[] names = [.. BoardInputs.Of(Board).Select(i => i.Name)];
        Assert.Equal(names.Length, names.Distinct().Count());
        Prediction mass = BoardFigures.WithSpread(Board).Positive(f => f.Mass);
        Checks.Near(1, mass.MostlyFrom.Sum(s => s.Share), 1e-12);
        Assert.Equal(mass.MostlyFrom.OrderByDescending(s => s.Share), mass.MostlyFrom);
        Assert.DoesNotContain(mass.MostlyFrom, s => s.Input.Contains("E_L", StringComparison.Ordinal) || s.Input.Contains("solid", StringComparison.Ordinal));
    }

    // Mass is the sum of areal masses; its log-spread from the outer skin's thickness alone is that skin's share of the mass.
    [Fact]
    public void The_skins_thickness_brings_its_share_of_the_mass_to_the_spread()
    {
        Board only = Board with { Outer = Board.Outer with { Thickness = Estimate.FromCv(0.76e-3, 0.03) } };
        Prediction mass = BoardFigures.WithSpread(only).Positive(f => f.Mass);
        double sd = Math.Log(mass.High90 / mass.Value) / 1.644853626951473;
        double share = 448 * 0.76e-3 / BoardFigures.Of(only).Laminate.ArealMass;
        double expected = Math.Pow(share * only.Outer.Thickness.Spread / sd, 2);
        Checks.Near(expected, mass.MostlyFrom.Single(s => s.Input == "outer skin thickness").Share, 1e-3);
    }

    [Fact]
    public void With_nothing_uncertain_but_the_outline_a_mode_is_as_uncertain_as_the_outline()
    {
        static Estimate Sure(Estimate e) => e with { Spread = 0 };
        static Core.Materials.Wood SureWood(Core.Materials.Wood w) => w with
        {
            Density = Sure(w.Density),
            EL = Sure(w.EL),
            ErOverEl = Sure(w.ErOverEl),
            GlrOverEl = Sure(w.GlrOverEl),
            GltOverEl = Sure(w.GltOverEl),
            GrtOverEl = Sure(w.GrtOverEl),
        };
        var glue = Board.Adhesive;
        var core = Board.Core.Material;
        Board sure = Board with
        {
            Outer = new(SureWood(Board.Outer.Wood), Sure(Board.Outer.Thickness), 0),
            Inner = new(SureWood(Board.Inner.Wood), Sure(Board.Inner.Thickness), 0),
            Core = new(core with { Density = Sure(core.Density), ShearRibbon = Sure(core.ShearRibbon), ShearAcross = Sure(core.ShearAcross) }, Sure(Board.Core.Height), 0),
            Adhesive = glue with { Density = Sure(glue.Density), Mixed = Sure(glue.Mixed), KeptShare = Sure(glue.KeptShare), FilmShare = Sure(glue.FilmShare), FilmModulus = Sure(glue.FilmModulus) },
            Solid = new(SureWood(Board.Solid.Wood), null),
        };
        Propagation<BoardFigures> spread = BoardFigures.WithSpread(sure);
        Prediction mode = spread.Positive(f => f.FrequencyOf(f.Modes[0])), mass = spread.Positive(f => f.Mass);
        Checks.Near(Math.Exp(1.644853626951473 * 0.12), mode.High90 / mode.Value, 1e-10);
        Assert.Equal("rectangle for outline", Assert.Single(mode.MostlyFrom).Input);
        Assert.Equal((mass.Value, mass.Value), (mass.Low90, mass.High90));
    }
}
