using SandwichMech.Figures;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.Tests.Pictures;

/// <summary>What the sweep's picture plots is what the result says.</summary>
[Trait("Check", "exact")]
public class SweepPictureTests
{
    private const int Along = 0, Across = 1, Third = 2, Fourth = 3;

    public static TheoryData<string, UnitSystem> Cases => PictureCases.AllBoards();

    [Theory]
    [MemberData(nameof(Cases))]
    public void One_thickness_plots_its_rows(string board, UnitSystem units)
    {
        SweepResult r = PictureCases.SweepOne(board);
        Picture picture = BoardPictures.Sweep(r, units);
        double[] x = [.. r.Rows.Select(row => units.In(row.Values[0], Shown.Thickness))];
        picture.Series(Along).Holds(x.Zip(r.Rows.Select(row => units.In(row.StiffnessAlong, Shown.BendingStiffness))), "stiffness along");
        picture.Series(Across).Holds(x.Zip(r.Rows.Select(row => units.In(row.StiffnessAcross, Shown.BendingStiffness))), "stiffness across");
        picture.Series(Third).Holds(x.Zip(r.Rows.Select(row => units.In(row.Mass, Shown.Mass))), "mass");
        picture.Series(Third).Holds(x.Zip(r.Rows.Select(row => units.In(row.Mass + row.Saved, Shown.Mass))), "mass of the solid");
        if (r.Rows[0].Modes.Count > 0)
        {
            foreach (int i in new[] { 0, 1, 2 })
            {
                picture.Series(Fourth).Holds(x.Zip(r.Rows.Select(row => row.Modes[i])), $"mode {i + 1}");
            }
        }
        else
        {
            picture.Series(Fourth).Holds(x.Zip(r.Rows.Select(row => units.In(row.SolidThickness, Shown.Thickness))), "the solid's thickness");
        }
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void The_bands_are_the_intervals_of_90_and_50_percent(string board, UnitSystem units)
    {
        SweepResult r = PictureCases.SweepOne(board);
        Picture picture = BoardPictures.Sweep(r, units);
        double[] x = [.. r.Rows.Select(row => units.In(row.Values[0], Shown.Thickness))];
        foreach ((int panel, Shown kind, Func<SweepRow, double> low, Func<SweepRow, double> high) in new (int, Shown, Func<SweepRow, double>, Func<SweepRow, double>)[]
        {
            (Along, Shown.BendingStiffness, row => row.StiffnessAlongLow90, row => row.StiffnessAlongHigh90),
            (Along, Shown.BendingStiffness, row => row.StiffnessAlongLow50, row => row.StiffnessAlongHigh50),
            (Across, Shown.BendingStiffness, row => row.StiffnessAcrossLow90, row => row.StiffnessAcrossHigh90),
            (Across, Shown.BendingStiffness, row => row.StiffnessAcrossLow50, row => row.StiffnessAcrossHigh50),
            (Third, Shown.Mass, row => row.MassLow90, row => row.MassHigh90),
            (Third, Shown.Mass, row => row.MassLow50, row => row.MassHigh50),
        })
        {
            picture.Bands(panel).Holds(Around(row => units.In(low(row), kind), row => units.In(high(row), kind)), "the interval");
        }

        for (int i = 0; i < Math.Min(3, r.Rows[0].Modes.Count); i++)
        {
            picture.Bands(Fourth).Holds(Around(row => row.ModesLow90[i], row => row.ModesHigh90[i]), $"90 % of mode {i + 1}");
            picture.Bands(Fourth).Holds(Around(row => row.ModesLow50[i], row => row.ModesHigh50[i]), $"50 % of mode {i + 1}");
        }

        (double, double)[] Around(Func<SweepRow, double> low, Func<SweepRow, double> high) => [.. x.Zip(r.Rows.Select(high)), .. x.Zip(r.Rows.Select(low)).Reverse()];
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void The_solid_that_the_file_names_is_a_level_or_is_said_to_lie_beyond(string board, UnitSystem units)
    {
        foreach (SweepResult r in new[] { PictureCases.SweepOne(board), PictureCases.SweepTwo(board) })
        {
            Picture picture = BoardPictures.Sweep(r, units);
            foreach (int panel in r.NamedSolid is null ? [] : new[] { Along, Across })
            {
                var p = picture.Panels[panel];
                double level = units.In(r.NamedSolid![panel], Shown.BendingStiffness);
                if (level >= p.Y.Low && level <= p.Y.High)
                {
                    picture.Series(panel).Holds([(p.X.Low, level), (p.X.High, level)], "the solid's level");
                    Assert.Contains(SvgWords.Of(picture), w => w.Text.StartsWith("your solid", StringComparison.Ordinal));
                }
                else
                {
                    Assert.Contains(SvgWords.Of(picture), w => w.Text.StartsWith("beyond: your solid", StringComparison.Ordinal));
                }
            }
        }
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void The_scale_of_the_solid_reads_what_the_rows_say(string board, UnitSystem units)
    {
        // Each number at the right of the stiffness panel stands at the height where a row in between would have it.
        SweepResult r = PictureCases.SweepOne(board);
        Picture picture = BoardPictures.Sweep(r, units);
        int panel = r.Criterion == "stiffness across" ? Across : Along;
        var p = picture.Panels[panel];
        var rows = r.Rows.Select(row => (
            H: units.In(row.SolidThickness, Shown.Thickness),
            D: units.In(panel == Along ? row.StiffnessAlong : row.StiffnessAcross, Shown.BendingStiffness))).ToList();
        var numbers = SvgWords.Of(picture).Where(w => Math.Abs(w.X - (p.Data.Right + 10)) < 0.01 && w.Middle > p.Data.Top && w.Middle < p.Data.Bottom).ToList();
        Assert.True(numbers.Count >= 2, $"{numbers.Count} numbers");
        foreach (SvgWord number in numbers)
        {
            double h = double.Parse(number.Text, System.Globalization.CultureInfo.InvariantCulture);
            double d = p.Y.Low + (p.Data.Bottom - number.Middle) / p.Data.Height * (p.Y.High - p.Y.Low);
            int i = rows.FindIndex(1, row => row.H >= h - 1e-9);
            double wanted = rows[i - 1].D + (h - rows[i - 1].H) / (rows[i].H - rows[i - 1].H) * (rows[i].D - rows[i - 1].D);

            // Positions are written to a hundredth of a pixel.
            Checks.Close(wanted, d, 0.02 / p.Data.Height * (p.Y.High - p.Y.Low), number.Text);
        }
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Two_thicknesses_plot_one_line_for_each_value_of_the_second(string board, UnitSystem units)
    {
        SweepResult r = PictureCases.SweepTwo(board);
        Picture picture = BoardPictures.Sweep(r, units);
        foreach (double second in r.Varied[1].Values)
        {
            SweepRow[] rows = [.. r.Rows.Where(row => row.Values[1] == second)];
            Assert.Equal(r.Varied[0].Values.Count, rows.Length);
            IEnumerable<(double, double)> Line(Func<SweepRow, double> pick, Shown kind) => rows.Select(row => (units.In(row.Values[0], Shown.Thickness), units.In(pick(row), kind)));
            picture.Series(Along).Holds(Line(row => row.StiffnessAlong, Shown.BendingStiffness), "stiffness along");
            picture.Series(Across).Holds(Line(row => row.StiffnessAcross, Shown.BendingStiffness), "stiffness across");
            picture.Series(Third).Holds(Line(row => row.ArealDensity, Shown.ArealDensity), "areal density");
            picture.Series(Fourth).Holds(Line(row => row.SolidThickness, Shown.Thickness), "the solid's thickness");
        }
    }

    [Theory]
    [InlineData(UnitSystem.Metric, "core height, mm", "bending stiffness across, N·m", "mass, g", "per area, g/m²", "as stiff as solid western redcedar, mm")]
    [InlineData(UnitSystem.Inch, "core height, in", "bending stiffness across, lbf·in", "mass, g", "per area, g/in²", "as stiff as solid western redcedar, in")]
    public void Axes_carry_their_units(UnitSystem units, params string[] titles)
    {
        string[] words = [.. SvgWords.Of(PictureCases.Draw(PictureCases.Demo, "sweep of one", units)).Select(w => w.Text)];
        Assert.All(titles, t => Assert.Contains(t, words));
        Assert.Equal(4, words.Count(w => w == titles[0]));
    }

    [Fact]
    public void Of_many_lines_at_most_eight_are_labelled_the_first_and_the_last_among_them()
    {
        SweepResult r = PictureCases.SweepTwo(PictureCases.Demo);
        Picture picture = BoardPictures.Sweep(r, UnitSystem.Metric);
        var p = picture.Panels[Along];
        string[] ends = [.. SvgWords.Of(picture).Where(w => w.Bold && Math.Abs(w.X - (p.Data.Right + 10)) < 0.01 && w.Middle < p.Data.Bottom + 1).Select(w => w.Text)];
        Assert.InRange(ends.Length, 3, 8);
        Assert.Contains("1.40", ends);
        Assert.Contains("2.75", ends);
    }
}
