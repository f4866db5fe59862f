using SandwichMech.Core.Building;
using SandwichMech.Core.Identification;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Outlines;
using SandwichMech.Core.Predictions;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Tables;

namespace SandwichMech.Tests.Building;

/// <summary>Boards as they lie on the bench, and what taps on them say.</summary>
public class BuildEvidenceTests
{
    private const double Margin = 0.01;
    private static readonly Board Demo = BoardFiles.Read(Repository.File("shared", "demo", "outline.toml"), MaterialTables.BuiltIn()).Board;
    private static readonly BlankAreas Areas = BlankAreas.Of(Demo, Margin);

    // The parallel-axis rule on two plies by hand: a skin of wood on a film; the honeycomb's own modulus in its plane is next to nothing.
    [Fact]
    public void A_half_built_board_bends_as_its_outer_skin_with_the_film_under_it()
    {
        Board half = Demo with { IsHalfBuilt = true };
        IReadOnlyList<Ply> plies = half.Plies();
        Assert.Equal(3, plies.Count);
        (Ply film, Ply skin) = (plies[1], plies[2]);
        double q = skin.E1 / (1 - skin.Nu12 * skin.Nu12 * skin.E2 / skin.E1), qf = film.E1 / (1 - film.Nu12 * film.Nu12);
        (double a, double b) = (q * skin.Thickness, qf * film.Thickness);
        double apart = (skin.Thickness + film.Thickness) / 2;
        double by = q * Math.Pow(skin.Thickness, 3) / 12 + qf * Math.Pow(film.Thickness, 3) / 12 + a * b / (a + b) * apart * apart;
        Checks.Close(1, half.Laminate().Bending.M11 / by, 5e-3);
        Checks.Close(Demo.Laminate().ArealMass - Demo.Plies()[0].ArealMass - Demo.Plies()[1].ArealMass, half.Laminate().ArealMass, 1e-12);
    }

    [Theory]
    [InlineData(BuildStage.Levelled)]
    [InlineData(BuildStage.SecondBond)]
    [InlineData(BuildStage.CutOut)]
    [InlineData(BuildStage.OnRim)]
    public void On_the_bench_it_has_the_areas_and_the_mass_of_its_blank(BuildStage stage)
    {
        Board bench = BoardOnBench.At(Demo, stage, Margin);
        bool blank = stage < BuildStage.CutOut;
        Checks.Close(blank ? Areas.Blank : Areas.Board, bench.Shape!.Area, 1e-4);
        Checks.Close(blank ? Areas.Blank : Areas.Board, bench.Shape.Parts.Sum(p => p.Area), 1e-4);
        BoardShape whole = Demo.Shape!;
        double letIn = blank ? Areas.LetIn : LetInOf(whole);
        Checks.Close(letIn, LetInOf(bench.Shape), 1e-4);
        // By hand: skins and films all over, the core where no wood stands in its place; the demo has one let-in wood and no bars.
        double skins = Mass(Demo.Outer) + (stage < BuildStage.SecondBond ? 0 : Mass(Demo.Inner)), films = (stage < BuildStage.SecondBond ? 1 : 2) * Demo.Adhesive.Kept;
        double wood = whole.Regions.Select(r => r.Change).OfType<LetInWood>().First().Wood.Density.Value, core = Demo.Core.Material.Density.Value, area = blank ? Areas.Blank : Areas.Board;
        Checks.Close((skins + films) * area + Demo.Core.Height.Value * (core * (area - letIn) + wood * letIn), bench.Mass(bench.Laminate()), 1e-4);
        Assert.Equal(stage == BuildStage.OnRim ? EdgeHold.Rim : EdgeHold.Free, bench.Shape.Edge);

        static double LetInOf(BoardShape shape) => shape.Parts.Where(p => p.Regions.Any(r => shape.Regions[r].Change is LetInWood)).Sum(p => p.Area);

        static double Mass(Skin skin) => skin.Wood.Density.Value * skin.Thickness.Value;
    }

    // Tones made of a board whose outer skin is stiffer than the table says, and of nothing else that the fit is told.
    [Fact]
    public void Taps_on_the_half_built_board_tell_its_outer_skin_and_narrow_the_finished_board()
    {
        const double Stiffer = 1.2;
        Board truth = Demo.Tapped();
        truth = truth with { Outer = truth.Outer with { Wood = truth.Outer.Wood with { EL = truth.Outer.Wood.EL.Times(Stiffer) } } };
        BuildReading[] weighed =
        [
            new(BuildStage.Skins, BuildQuantity.OuterThickness, [Demo.Outer.Thickness.Value, Demo.Outer.Thickness.Value], 1e-5),
            new(BuildStage.Skins, BuildQuantity.OuterMass, [Demo.Outer.Wood.Density.Value * Demo.Outer.Thickness.Value * Areas.Blank], 3e-5),
        ];
        Board bench = BoardOnBench.At(truth with { Adhesive = BuiltBoard.FirstBond(Demo, Areas, weighed) }, BuildStage.Levelled, Margin);
        double[] tones = [.. OutlineFrame.For(bench, 9, 1e-3).Own.Modes.Take(7).Select(m => m.Frequency)];
        KnownBuild before = BuildEvidence.Of(Demo, Areas, Margin, weighed), found = BuildEvidence.Of(Demo, Areas, Margin, [.. weighed, new(BuildStage.Levelled, BuildQuantity.Tones, tones, 0.3)]);
        (double told, double spread) = (found.Board.Outer.Wood.EL.Value / truth.Outer.Wood.EL.Value, found.Board.Outer.Wood.EL.Spread);
        Checks.Within(-2, 2, Math.Log(told) / spread, "the true stiffness lies within two standard deviations");
        Checks.Within(0.02, 0.6 * before.Board.Outer.Wood.EL.Spread, spread, "and is known better than before");
        Assert.True(found.Board.Outer.Wood.IsTapped);
        Assert.Equal(0, found.Taps.Single().Found.Readings.Count(r => r.Expected is null));
        // The inner skin was not there to be tapped.
        Checks.Close(before.Board.Inner.Wood.Tapped().EL.Spread, found.Board.Inner.Wood.EL.Spread, 1e-12);
    }

    [Fact]
    public void What_was_heard_of_the_rim_is_known_when_it_is_strung()
    {
        double[] tones = [.. OutlineFrame.For(BoardOnBench.At(Demo.Tapped(), BuildStage.OnRim, Margin), 8, 2e-3).Own.Modes.Take(5).Select(m => m.Frequency)];
        BuildReading At(BuildStage stage) => new(stage, BuildQuantity.Tones, tones, 0.3);
        KnownBuild twice = BuildEvidence.Of(Demo, Areas, Margin, [At(BuildStage.OnRim), At(BuildStage.Strung)]);
        PropertyFound[] rims = [.. twice.Taps.Select(t => t.Found.Properties.Single(p => p.Property.Symbol == "rim"))];
        Assert.True(rims[0].Found.Spread < 0.5 * rims[0].Table.Spread);
        Checks.Close(rims[0].Found.Value, rims[1].Table.Value, 1e-9);
        Checks.Close(Math.Sqrt(Math.Pow(rims[0].Found.Spread, 2) + 0.04), rims[1].Table.Spread, 1e-6);
        Assert.True(rims[1].Found.Spread < rims[0].Found.Spread);
    }

    // A first bond that kept far more than the second is expected to: the half-built board has the first one's adhesive alone.
    [Fact]
    public void The_half_built_board_weighs_what_its_own_bond_made_it()
    {
        BuildReading Read(BuildStage stage, BuildQuantity quantity, double value, double deviation) => new(stage, quantity, [value], deviation);
        BuildReading[] read =
        [
            Read(BuildStage.Skins, BuildQuantity.OuterMass, 0.0424, 3e-5), Read(BuildStage.Skins, BuildQuantity.OuterThickness, 0.76e-3, 1e-5), Read(BuildStage.Skins, BuildQuantity.CoreMass, 0.0057, 3e-5),
            Read(BuildStage.Skins, BuildQuantity.LetInMass, 0.0315, 3e-5), Read(BuildStage.Skins, BuildQuantity.LetInHeight, 1.8e-3, 1e-5), Read(BuildStage.FirstBond, BuildQuantity.AdhesiveMixed, 0.05, 3e-5),
            Read(BuildStage.FirstBond, BuildQuantity.BoardMass, 0.1096, 3e-5), new(BuildStage.FirstBond, BuildQuantity.Tones, [14.5, 21, 23], 0.3),
        ];
        PropertyFound mass = BuildEvidence.Of(Demo, Areas, Margin, read).Taps.Single().Found.Properties.First(p => p.Property.Symbol == "mass");
        Checks.Close(0.1096, mass.Table.Value, 0.0015);
    }

    // ASTM D7250/D7250M's beam, to which a rectangle of one layup comes down.
    [Theory]
    [InlineData(false, 0, false)]
    [InlineData(true, 0, false)]
    [InlineData(false, 0.1, false)]
    // All its stiffness far from the core's middle, which the slices refer to.
    [InlineData(false, 0, true)]
    [InlineData(true, 0, true)]
    public void A_plain_rectangle_bends_as_the_beam_of_the_standard(bool across, double lines, bool half)
    {
        const double length = 0.5, width = 0.36;
        Board plain = Demo with { IsHalfBuilt = half, Shape = new() { Outline = Shapes.Rectangle(new(0, -width / 2, length, width / 2)), Parts = [] } };
        var test = new BendingReading(across, new(0.3, 0), lines, new(0.5, 0), new(1, 0), 0);
        Laminate l = plain.Laminate();
        double wide = across ? length : width;
        Sym3 free = l.Bending.Inverse();
        var beam = Core.Plates.BeamBending.Deflection(0.5 * Observations.Gravity, 0.3, lines, wide / (across ? free.M22 : free.M11), wide * (across ? l.Shear.Sy : l.Shear.Sx));
        Core.Plates.BeamDeflection sliced = BoardSlices.Of(plain.Shape!, test)!.Deflected(plain);
        Checks.Close(1, sliced.Bending / beam.Bending, 1e-4);
        Checks.Close(1, sliced.Shear / beam.Shear, lines > 0 ? 0.02 : 1e-9);
        Assert.Null(BoardSlices.Of(plain.Shape!, test with { Span = new(0.6, 0) }));
    }

    // A round plate of radius R as a beam over its middle: the width at s is 2√(R² − s²), so that δ = P/(4D) ∫₀^{L/2} (L/2 − s)²/√(R² − s²) ds,
    // by Simpson's rule here.
    [Fact]
    public void A_round_blank_bends_as_a_beam_of_its_widths()
    {
        const double r = 0.2, span = 0.3;
        Board round = Demo with { Shape = new() { Outline = Shapes.Circle(new(0, 0), r), Parts = [] } };
        double d = 1 / round.Laminate().Bending.Inverse().M11, sum = 0;
        const int n = 400;
        for (int i = 0; i <= n; i++)
        {
            double s = span / 2 * i / n, f = Math.Pow(span / 2 - s, 2) / Math.Sqrt(r * r - s * s);
            sum += (i == 0 || i == n ? 1 : i % 2 == 1 ? 4 : 2) * f * (span / 2 / n) / 3;
        }

        var test = new BendingReading(false, new(span, 0), 0, new(0.5, 0), new(1, 0), 0);
        Checks.Close(1, BoardSlices.Of(round.Shape!, test)!.Deflected(round).Bending / (0.5 * Observations.Gravity / (4 * d) * sum), 2e-3);
    }

    // Without wood let in: where an edge band runs along, the band carries most of it and the skin is told little.
    [Theory]
    [InlineData(false, 0.02, 0.6)]
    [InlineData(true, 0.6, 1.001)]
    public void Bending_the_half_built_board_tells_what_carries_it(bool letIn, double least, double most)
    {
        const double Stiffer = 1.25;
        Board wish = letIn ? Demo : Demo with { Shape = Demo.Shape! with { Regions = [], Parts = [] } };
        var areas = BlankAreas.Of(wish, Margin);
        Board truth = wish with { Outer = wish.Outer with { Wood = wish.Outer.Wood with { EL = wish.Outer.Wood.EL.Times(Stiffer) } } };
        BuildReading thick = new(BuildStage.Skins, BuildQuantity.OuterThickness, [wish.Outer.Thickness.Value, wish.Outer.Thickness.Value], 1e-5);
        Board bench = BoardOnBench.At(truth with { Adhesive = BuiltBoard.FirstBond(wish, areas, [thick]) }, BuildStage.Levelled, Margin);
        var test = new BendingReading(false, new(0.3, 1e-3), 0, new(0.05, 1e-3), new(1, 0.01), 0);
        double down = BoardSlices.Of(bench.Shape!, test)!.Deflected(bench).Total;
        test = test with { Deflection = new(down, 0.01) };
        Board before = BuildEvidence.Of(wish, areas, Margin, [thick]).Board, found = BuildEvidence.Of(wish, areas, Margin, [thick, new(BuildStage.Levelled, BuildQuantity.BendingAlong, [down], 0.01 * down) { Bending = test }]).Board;
        double told = found.UnderWeight().Outer.Wood.EL.Value / truth.Outer.Wood.EL.Value;
        Checks.Within(-2, 2, Math.Log(told) / found.Outer.Wood.EL.Spread, "the true stiffness lies within two standard deviations");
        Checks.Within(least, most, found.Outer.Wood.EL.Spread / before.Outer.Wood.EL.Spread, "spread that is left");
    }

    [Fact]
    public void A_skin_that_is_heavier_than_its_table_is_taken_for_stiffer_and_better_known()
    {
        Board plain = BuiltBoard.Of(Demo, Areas, []);
        double usual = Demo.Outer.Wood.Density.Value * Demo.Outer.Thickness.Value * Areas.Blank;
        Board heavy = BuiltBoard.Of(Demo, Areas, [new(BuildStage.Skins, BuildQuantity.OuterThickness, [Demo.Outer.Thickness.Value], 1e-5), new(BuildStage.Skins, BuildQuantity.OuterMass, [1.1 * usual], 3e-5)]);
        Assert.True(heavy.Outer.Wood.EL.Value > plain.Outer.Wood.EL.Value);
        // Of the variance a quarter goes with the density (correlation 0.5).
        Checks.Within(Math.Sqrt(0.75), 0.88, heavy.Outer.Wood.EL.Spread / Demo.Outer.Wood.EL.Spread, "spread that is left");
        // Normal in the logarithms: what the regression line says.
        double density = heavy.Outer.Wood.Density.Value / Demo.Outer.Wood.Density.Value;
        Checks.Close(0.5 * Demo.Outer.Wood.EL.Spread / Demo.Outer.Wood.Density.Spread * Math.Log(density), Math.Log(heavy.Outer.Wood.EL.Value / Demo.Outer.Wood.EL.Value), 1e-9);
    }

    [Fact]
    public void What_was_sanded_off_is_off_the_outer_skin_and_finish_weighs_on_it()
    {
        BuildReading[] bonded = [new(BuildStage.SecondBond, BuildQuantity.BoardThickness, [3.4e-3], 1e-5), new(BuildStage.Sanded, BuildQuantity.BoardThickness, [3.3e-3], 1e-5)];
        Board before = BuiltBoard.Of(Demo, Areas, []), sanded = BuiltBoard.Of(Demo, Areas, bonded);
        Checks.Close(before.Outer.Thickness.Value - 0.1e-3, sanded.Outer.Thickness.Value, 1e-9);
        Board finished = BuiltBoard.Of(Demo, Areas, [.. bonded, new(BuildStage.Lacquered, BuildQuantity.FinishMass, [0.009], 1e-4)]);
        Checks.Close(0.009 / Areas.Board, finished.Laminate().ArealMass - sanded.Laminate().ArealMass, 1e-9);
        Checks.Close(sanded.Laminate().Bending.M11, finished.Laminate().Bending.M11, 1e-12);
    }
}
