using SandwichMech.Core.Layups;
using SandwichMech.Core.Materials;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Exact;

/// <summary>The list of a board's uncertain inputs: all there, each with its own spread, each moving its own quantity alone.</summary>
[Trait("Check", "exact")]
public class BoardInputsTests
{
    private const double T = 0.1;

    private static Board Board => SampleBoard.Unsymmetric;

    public static TheoryData<string> Names => [.. Expected.Keys];

    private static Dictionary<string, (double Spread, Board At)> Expected
    {
        get
        {
            Adhesive glue = Board.Adhesive;
            CoreSheet core = Board.Core;
            CoreMaterial material = core.Material;
            var expected = new Dictionary<string, (double, Board)>
            {
                ["outer skin thickness"] = (Board.Outer.Thickness.Spread, Board with { Outer = Board.Outer with { Thickness = Board.Outer.Thickness.Shifted(T) } }),
                ["inner skin thickness"] = (Board.Inner.Thickness.Spread, Board with { Inner = Board.Inner with { Thickness = Board.Inner.Thickness.Shifted(T) } }),
                ["solid top thickness"] = (Board.Solid.Thickness!.Value.Spread, Board with { Solid = Board.Solid with { Thickness = Board.Solid.Thickness.Value.Shifted(T) } }),
                ["core height"] = (core.Height.Spread, Board with { Core = core with { Height = core.Height.Shifted(T) } }),
                ["core density"] = (material.Density.Spread, Core(material with { Density = material.Density.Shifted(T) })),
                ["core shear moduli"] = (material.ShearRibbon.Spread, Core(material with { ShearRibbon = material.ShearRibbon.Shifted(T), ShearAcross = material.ShearAcross.Shifted(T) })),
                ["adhesive mixed"] = (glue.Mixed.Spread, Board with { Adhesive = glue with { Mixed = glue.Mixed.Shifted(T) } }),
                ["adhesive kept"] = (glue.KeptShare.Spread, Board with { Adhesive = glue with { KeptShare = glue.KeptShare.ShiftedShare(T) } }),
                ["film share"] = (glue.FilmShare.Spread, Board with { Adhesive = glue with { FilmShare = glue.FilmShare.ShiftedShare(T) } }),
                ["adhesive density"] = (glue.Density.Spread, Board with { Adhesive = glue with { Density = glue.Density.Shifted(T) } }),
                ["film modulus"] = (glue.FilmModulus.Spread, Board with { Adhesive = glue with { FilmModulus = glue.FilmModulus.Shifted(T) } }),
            };
            Add("outer skin", Board.Outer.Wood, w => Board with { Outer = Board.Outer with { Wood = w } });
            Add("inner skin", Board.Inner.Wood, w => Board with { Inner = Board.Inner with { Wood = w } });
            Add("solid top", Board.Solid.Wood, w => Board with { Solid = Board.Solid with { Wood = w } });
            return expected;

            Board Core(CoreMaterial m) => Board with { Core = core with { Material = m } };

            void Add(string piece, Wood w, Func<Wood, Board> with)
            {
                // Half of E_L's spread goes with density (correlation 0.5), the rest is its own.
                double follows = 0.5 * w.EL.Spread / w.Density.Spread;
                expected[$"{piece} density"] = (w.Density.Spread, with(w with { Density = w.Density.Shifted(T), EL = w.EL.Shifted(T * follows) }));
                expected[$"{piece} E_L"] = (w.EL.Spread * Math.Sqrt(0.75), with(w with { EL = w.EL.Shifted(T) }));
                expected[$"{piece} E_R/E_L"] = (w.ErOverEl.Spread, with(w with { ErOverEl = w.ErOverEl.Shifted(T) }));
                expected[$"{piece} G_LR/E_L"] = (w.GlrOverEl.Spread, with(w with { GlrOverEl = w.GlrOverEl.Shifted(T) }));
                expected[$"{piece} G_LT/E_L"] = (w.GltOverEl.Spread, with(w with { GltOverEl = w.GltOverEl.Shifted(T) }));
                expected[$"{piece} G_RT/E_L"] = (w.GrtOverEl.Spread, with(w with { GrtOverEl = w.GrtOverEl.Shifted(T) }));
            }
        }
    }

    // Pieces of one wood are cut from one plank: what is uncertain about it moves all of them, another wood's not.
    [Fact]
    public void Regions_of_one_wood_move_together()
    {
        Wood plank = SampleBoard.Spruce with { Name = "plank" };
        BoardRegion Region(Wood wood) => new("somewhere", [], _ => false, new LetInWood(wood));
        Board board = Board with { Shape = new BoardShape { Outline = Outlines.SampleOutline.Board, Parts = [], Regions = [Region(plank), Region(SampleBoard.Cedar), Region(plank)] } };
        UncertainInput<Board> stiffness = BoardInputs.Of(board).Single(i => i.Name == "let-in plank E_L");
        Wood[] woods = [.. stiffness.At(T).Shape!.Regions.Select(r => r.Change.OwnWood!)];
        Assert.Equal([plank.EL.Shifted(T), SampleBoard.Cedar.EL, plank.EL.Shifted(T)], woods.Select(w => w.EL));
        // Of shifts that follow on each other each keeps what came before.
        InputShift<Board>[] shifts = [.. BoardInputs.Shifts(board).Where(s => s.Name is "let-in plank E_L" or "let-in plank density")];
        Wood both = shifts.Aggregate(board, (b, s) => s.Shift(b, T)).Shape!.Regions[2].Change.OwnWood!;
        Assert.Equal(plank.Density.Shifted(T), both.Density);
        Checks.Near(plank.EL.Value * Math.Exp(T * (1 + 0.5 * plank.EL.Spread / plank.Density.Spread)), both.EL.Value, 1e-12);
    }

    [Fact]
    public void All_are_there() =>
        Assert.Equal(Expected.Keys.Order(StringComparer.Ordinal), BoardInputs.Of(Board).Select(i => i.Name).Order(StringComparer.Ordinal));

    [Theory]
    [MemberData(nameof(Names))]
    public void Each_has_its_spread_and_moves_its_own_quantity_alone(string name)
    {
        UncertainInput<Board> input = BoardInputs.Of(Board).Single(i => i.Name == name);
        Checks.Near(Expected[name].Spread, input.Spread, 1e-12);
        Assert.Equal(Expected[name].At, input.At(T));
    }

    [Fact]
    public void A_solid_top_without_thickness_brings_none() =>
        Assert.DoesNotContain(BoardInputs.Of(Board with { Solid = Board.Solid with { Thickness = null } }), i => i.Name == "solid top thickness");

    // A weighed piece: its density has no spread, and E_L then keeps all of its own.
    [Fact]
    public void Where_density_is_known_E_L_keeps_its_whole_spread()
    {
        Wood weighed = SampleBoard.Spruce with { Density = new(448, 0) };
        UncertainInput<Board> el = BoardInputs.Of(Board with { Outer = Board.Outer with { Wood = weighed } }).Single(i => i.Name == "outer skin E_L");
        Checks.Near(weighed.EL.Spread, el.Spread, 1e-12);
    }
}
