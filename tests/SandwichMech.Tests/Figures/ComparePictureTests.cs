using SandwichMech.Core.Choosing;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Figures;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.Tests.Pictures;

/// <summary>What the comparison's picture plots is what the result says.</summary>
[Trait("Check", "exact")]
public class ComparePictureTests
{
    public static TheoryData<string, UnitSystem> Cases => PictureCases.AllBoards();

    [Theory]
    [MemberData(nameof(Cases))]
    public void Curves_board_and_named_solid_stand_where_the_result_says(string board, UnitSystem units)
    {
        CompareResult r = PictureCases.Compare(board);
        Picture picture = BoardPictures.Compare(r, units);
        foreach ((int panel, Prediction stiffness, Func<MeritPoint, double> pick, double? named) in Panels(r))
        {
            var series = picture.Series(panel);
            foreach (MeritCurve curve in r.Curves)
            {
                series.Holds(curve.Points.Select(p => (M(units, p.ArealDensity), D(units, pick(p)))), curve.Name);
            }

            double mass = M(units, r.ArealDensity.Value), d = D(units, stiffness.Value);
            series.Holds([(mass, d)], "the board");
            series.Holds([(mass, D(units, stiffness.Low90)), (mass, D(units, stiffness.High90))], "its interval of stiffness");
            series.Holds([(M(units, r.ArealDensity.Low90), d), (M(units, r.ArealDensity.High90), d)], "its interval of mass");
            series.Holds([(mass, D(units, stiffness.Low50)), (mass, D(units, stiffness.High50))], "its likely half of stiffness");
            series.Holds([(M(units, r.ArealDensity.Low50), d), (M(units, r.ArealDensity.High50), d)], "its likely half of mass");
            if (named is { } n)
            {
                series.Holds([(M(units, r.NamedSolid!.Mass / r.Area), D(units, n))], "the solid that the file names");
            }
        }
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void The_arrow_spans_the_mass_saved_and_ends_on_the_solid_s_own_line(string board, UnitSystem units)
    {
        CompareResult r = PictureCases.Compare(board);
        Picture picture = BoardPictures.Compare(r, units);
        foreach ((int panel, Prediction stiffness, Func<MeritPoint, double> pick, _) in Panels(r))
        {
            SolidRow solid = r.Solids.Single(s => s.Criterion == BoardFields.NameOf(panel == 0 ? StiffnessCriterion.Along : StiffnessCriterion.Across));
            (double X, double Y)[] arrow = picture.Arrow(panel);
            Checks.Near(D(units, stiffness.Value), arrow[0].Y, 1e-12);
            Checks.Near(arrow[0].Y, arrow[1].Y, 1e-12);
            Checks.Close(M(units, solid.Saved.Value / r.Area), arrow[1].X - arrow[0].X, 1e-9 * arrow[1].X);

            // D/m³ of the reference solid is the same at the arrow's tip: the solid's line is one of equal merit.
            MeritPoint any = r.Curves.First(c => !c.IsSandwich).Points[7];
            Checks.Near(D(units, pick(any)) / Math.Pow(M(units, any.ArealDensity), 3), arrow[1].Y / Math.Pow(arrow[1].X, 3), 1e-6);
            string saved = Display.Text(Math.Abs(solid.Saved.Value / r.Area), Shown.ArealDensity, units);
            Assert.Contains(SvgWords.Of(picture), w => w.Text.StartsWith($"{(solid.Saved.Value >= 0 ? "saves" : "costs")} {saved}", StringComparison.Ordinal));
            Assert.Contains(SvgWords.Of(picture), w => w.Text == $"{Display.Text(solid.Thickness.Value, Shown.Thickness, units)} solid");
        }
    }

    [Fact]
    public void A_board_that_is_heavier_than_its_solid_is_said_to_cost_mass()
    {
        CompareResult r = PictureCases.Compare(PictureCases.Heavier);
        Assert.Contains(r.Solids, s => s.Saved.Value < 0);
        Assert.Contains(SvgWords.Of(BoardPictures.Compare(r, UnitSystem.Metric)), w => w.Text.StartsWith("costs ", StringComparison.Ordinal));
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Lines_of_equal_merit_are_2_4_8_times_the_solid_at_equal_mass(string board, UnitSystem units)
    {
        CompareResult r = PictureCases.Compare(board);
        Picture picture = BoardPictures.Compare(r, units);
        foreach ((int panel, _, Func<MeritPoint, double> pick, _) in Panels(r))
        {
            MeritPoint any = r.Curves.First(c => !c.IsSandwich).Points[12];
            double merit = D(units, pick(any)) / Math.Pow(M(units, any.ArealDensity), 3);
            double[] times = [.. picture.Panels[panel].Plot.GetPlottables<ScottPlot.Plottables.Scatter>()
                .Where(s => s.LineColor.ToHex() == "#A6A6A6")
                .Select(s => s.Data.GetScatterPoints())
                .Select(ends => (ends[0], ends[1]))
                .Select(e => (Times(e.Item1), Times(e.Item2)))
                .Select(t => Math.Abs(t.Item1 - t.Item2) < 1e-9 * t.Item1 ? t.Item1 / merit : double.NaN)];
            Assert.True(times.Length >= 3, $"{times.Length} lines");
            Assert.All(times, t => Assert.Contains(new[] { 2.0, 4, 8, 16, 32 }, wanted => Math.Abs(t / wanted - 1) < 1e-9));

            static double Times(ScottPlot.Coordinates c) => Math.Pow(10, c.Y) / Math.Pow(Math.Pow(10, c.X), 3);
        }
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Everything_that_is_marked_lies_in_view(string board, UnitSystem units)
    {
        CompareResult r = PictureCases.Compare(board);
        Picture picture = BoardPictures.Compare(r, units);
        foreach ((int panel, Prediction stiffness, _, double? named) in Panels(r))
        {
            var p = picture.Panels[panel];
            double[] masses = [M(units, r.ArealDensity.Low90), M(units, r.ArealDensity.High90), picture.Arrow(panel)[1].X, M(units, (r.NamedSolid?.Mass ?? r.Mass.Value) / r.Area)];
            double[] stiffnesses = [D(units, stiffness.Low90), D(units, stiffness.High90), D(units, named ?? stiffness.Value)];
            Assert.All(masses, m => Assert.InRange(m, p.X.Low, p.X.High));
            Assert.All(stiffnesses, d => Assert.InRange(d, p.Y.Low, p.Y.High));
        }
    }

    [Theory]
    [InlineData(UnitSystem.Metric, "bending stiffness along, N·m", "areal density, g/m²", "2.0 mm")]
    [InlineData(UnitSystem.Inch, "bending stiffness along, lbf·in", "areal density, g/in²", "0.08 in")]
    public void Axes_curves_and_thicknesses_are_named(UnitSystem units, string y, string x, string thickness)
    {
        CompareResult r = PictureCases.Compare(PictureCases.Demo);
        string[] words = [.. SvgWords.Of(BoardPictures.Compare(r, units)).Select(w => w.Text)];
        Assert.Equal(2, words.Count(w => w == x));
        Assert.Contains(y, words);
        Assert.Contains(y.Replace("along", "across", StringComparison.Ordinal), words);
        Assert.Contains(thickness, words);
        Assert.Contains("this board", words);
        Assert.All(r.Curves, c => Assert.Equal(2, words.Count(w => Names(w, c.Name))));
        Assert.Equal(2, words.Count(w => w == "2 × as stiff at equal weight"));
    }

    /// <summary>Whether words give a curve's name, in a crowded place at least the first fifteen letters of it.</summary>
    private static bool Names(string words, string name)
    {
        string bare = words.StartsWith("1 ×, ", StringComparison.Ordinal) ? words[5..] : words;
        return bare == name || (bare.EndsWith('…') && bare.Length > 15 && name.StartsWith(bare[..^1], StringComparison.Ordinal));
    }

    [Fact]
    public void A_point_between_two_of_a_solid_s_is_exact()
    {
        MeritCurve solid = PictureCases.Compare(PictureCases.Demo).Curves.First(c => !c.IsSandwich);
        Core.Materials.Wood wood = PictureCases.File(PictureCases.Demo).Board.Solid.Wood;
        foreach (double thickness in new[] { 0.7e-3, 1.234e-3, 2.55e-3, 6e-3 })
        {
            Core.Layups.Laminate exact = Core.Layups.Board.SolidPlate(wood, thickness);
            MeritPoint found = Curve.At(solid, thickness);
            Checks.Near(exact.ArealMass, found.ArealDensity, 1e-9);
            Checks.Near(exact.Bending.M11, found.Along, 1e-9);
            Checks.Near(exact.Bending.M22, found.Across, 1e-9);
        }
    }

    [Fact]
    public void A_point_between_two_of_the_sandwich_s_is_right_within_a_line_s_width()
    {
        MeritCurve sandwich = PictureCases.Compare(PictureCases.Demo).Curves.Single(c => c.IsSandwich);
        BoardFile file = PictureCases.File(PictureCases.Demo);
        Core.Layups.Laminate exact = SweepBoard.With(file.Board, "skins", 0.777e-3).Laminate();
        MeritPoint found = Curve.At(sandwich, 0.777e-3);

        // A line is 3 of some 240 pixels per doubling wide: 0.9 %.
        Checks.Near(exact.ArealMass, found.ArealDensity, 1e-3);
        Checks.Near(exact.Bending.M11, found.Along, 1e-3);
        Checks.Near(exact.Bending.M22, found.Across, 1e-3);
    }

    private static (int Panel, Prediction Stiffness, Func<MeritPoint, double> Pick, double? Named)[] Panels(CompareResult r) =>
        [(0, r.StiffnessAlong, p => p.Along, r.NamedSolid?.StiffnessAlong), (1, r.StiffnessAcross, p => p.Across, r.NamedSolid?.StiffnessAcross)];

    private static double M(UnitSystem units, double areal) => units.In(areal, Shown.ArealDensity);

    private static double D(UnitSystem units, double stiffness) => units.In(stiffness, Shown.BendingStiffness);
}
