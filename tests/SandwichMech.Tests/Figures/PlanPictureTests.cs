using SandwichMech.Core.Uncertainty;
using SandwichMech.Figures;
using SandwichMech.Figures.Drawing;
using SandwichMech.Tests.EndToEnd;
using SandwichMech.Workshop.Log;
using SandwichMech.Workshop.Tables;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;
using ScottPlot;
using ScottPlot.Plottables;

namespace SandwichMech.Tests.Pictures;

/// <summary>The picture of a build plots what `plan` says of its masses, and a verdict is told by shape and word.</summary>
[Trait("Check", "exact")]
public sealed class PlanPictureTests : IDisposable
{
    private const int Mass = 0, Off = 1;

    private static readonly (string Stage, string[] Readings)[] Usual =
    [
        ("skins", ["outer 42.4 g", "core 5.7 g", "let-in 31.5 g", "witness 128.0 g"]), ("bond1", ["mixed 36 g", "board 96.2 g", "witness 127.2 g"]), ("level", ["board 95.4 g"]),
    ];

    // Let-in wood too heavy by some two deviations, and a bond that cannot be.
    private static readonly (string Stage, string[] Readings)[] Doubtful = [("skins", ["outer 42.4 g", "core 5.7 g", "let-in 44.5 g"]), ("bond1", ["mixed 36 g", "board 190 g"])];

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void The_course_goes_part_by_part_and_stage_by_stage()
    {
        PlanResult r = Planned(Usual);
        Assert.Equal(
            ["outer skin", "core", "let-in wood", "board, first bond", "board, levelled", "inner skin", "board, second bond", "board, sanded", "board, cut out", "board, braced"],
            r.Course.Select(c => c.IsPart ? c.What : $"{c.What}, {c.Stage}"));
        // Each part comes on what is there: 42.4 g, 48.1 g, and the board as it was levelled.
        Assert.Equal([0, 0.0424, 0.0481, 0.0954], r.Course.Where(c => c.IsPart).Select(c => Math.Round(c.StartsAt, 6)));
        Assert.Equal([false, false, false, false, false, true, true, true, true, true], r.Course.Select(c => c.IsToCome));
        // What is next is expected as `plan` says it, and what was read as its verdicts do.
        Assert.Equal(r.Expected.Single().Mass.Value, r.Course.Single(c => c.Stage == "second bond" && !c.IsPart).Expected!.Value);
        foreach (JudgedRow j in r.Readings.Where(j => j.Expected is not null))
        {
            CourseRow row = r.Course.Single(c => c.Stage == j.Stage && c.What == j.What);
            Assert.Equal((j.Expected!.Low90, j.Expected.High90, j.Verdict, (double?)j.Value), (row.Expected!.Low90, row.Expected.High90, row.Verdict!, row.Read));
        }
    }

    [Fact]
    public void Before_anything_is_read_all_of_it_is_to_come()
    {
        PlanResult r = Planned([]);
        Assert.All(r.Course, c => Assert.True(c.IsToCome && c.Read is null && c.Verdict is null && c.Expected is not null));
        Assert.DoesNotContain(BoardPictures.Plan(r, UnitSystem.Metric).Panels[Mass].Plot.GetPlottables<Scatter>(), s => s.Data.GetScatterPoints().Count == 1);
    }

    // The inner skin is judged when it is weighed late, too.
    [Fact]
    public void An_inner_skin_weighed_at_the_second_bond_is_expected_and_judged()
    {
        PlanResult go = Planned([.. Usual, ("bond2", ["inner 41.2 g"])]), stop = Planned([.. Usual, ("bond2", ["inner 80 g"])]);
        Assert.Equal("go", go.Course.Single(c => c.What == "inner skin").Verdict);
        Assert.Equal("stop", stop.Course.Single(c => c.What == "inner skin").Verdict);
        Assert.Equal("stop", stop.Readings.Single(j => j.What == "inner skin").Verdict);
    }

    [Theory]
    [InlineData(UnitSystem.Metric)]
    [InlineData(UnitSystem.Inch)]
    public void Bands_and_marks_are_those_of_the_result(UnitSystem units)
    {
        PlanResult r = Planned(Usual);
        Picture picture = BoardPictures.Plan(r, units);
        Rectangle[] bands = [.. picture.Bars(Mass)];
        List<(double X, double Y)[]> mass = picture.Series(Mass), off = picture.Series(Off);
        for (int i = 0; i < r.Course.Count; i++)
        {
            CourseRow c = r.Course[i];
            Prediction e = c.Expected!;
            foreach ((double low, double high) in new[] { (e.Low90, e.High90), (e.Low50, e.High50) })
            {
                Assert.Contains(bands, b => Same(b, i + 0.5, 1000 * (c.StartsAt + low), 1000 * (c.StartsAt + high)));
                Assert.Contains(picture.Bars(Off), b => Same(b, i + 0.5, 1000 * (low - e.Value), 1000 * (high - e.Value)));
            }

            if (c.Read is not { } read) { continue; }
            mass.Holds([(i + 0.5, 1000 * (c.StartsAt + read))], "a reading");
            Assert.Contains(off, s => s.Length == 1 && s[0].X == i + 0.5 && Math.Abs(s[0].Y - 1000 * (read - e.Value)) < 1e-9);
        }
    }

    [Fact]
    public void A_doubtful_reading_has_its_own_shape_and_word_and_what_lies_far_off_stays_on_the_picture()
    {
        PlanResult r = Planned(Doubtful);
        Picture picture = BoardPictures.Plan(r, UnitSystem.Metric);
        foreach (int panel in new[] { Mass, Off })
        {
            MarkerShape[] marks = [.. picture.Panels[panel].Plot.GetPlottables<Scatter>().Where(s => s.Data.GetScatterPoints().Count == 1).Select(s => s.MarkerShape)];
            Assert.Equal([MarkerShape.FilledCircle, MarkerShape.FilledCircle, MarkerShape.OpenTriangleUp, MarkerShape.Eks], marks);
            Panel p = picture.Panels[panel];
            Assert.All(picture.Series(panel).SelectMany(s => s), at => Assert.True(at.Y <= p.Y.High && at.Y >= p.Y.Low));
        }

        Assert.Equal(["go", "go", "look again", "stop"], SvgWords.Of(picture).Select(w => w.Text).Where(t => t is "go" or "look again" or "stop"));
    }

    [Theory]
    [InlineData(UnitSystem.Metric, true)]
    [InlineData(UnitSystem.Inch, false)]
    public void Words_lie_within_the_picture_and_not_over_each_other(UnitSystem units, bool usual)
    {
        Picture picture = BoardPictures.Plan(Planned(usual ? Usual : Doubtful), units);
        IReadOnlyList<SvgWord> words = SvgWords.Of(picture);
        Assert.All(words, w => Assert.All(w.Corners(), c => Assert.True(c.X >= 5 && c.X <= picture.Width - 5 && c.Y >= 5 && c.Y <= picture.Height - 5, w.Text)));
        Assert.Empty(words.SelectMany((a, i) => words.Skip(i + 1).Where(a.Overlaps).Select(b => $"'{a.Text}' and '{b.Text}'")));
        Assert.DoesNotContain(words, w => w.Text.Contains('…', StringComparison.Ordinal));
    }

    // A grey printer has to keep half and nine tenths apart, and both from paper: Rec. 709 luma, steps of a tenth at least.
    [Fact]
    public void Bands_differ_in_grey()
    {
        double[] grey = [.. new[] { "#FFFFFF", Figures.Drawing.Palette.PaleBlue, Figures.Drawing.Palette.Ordered(0), Figures.Drawing.Palette.Ink }.Select(Luma)];
        Assert.All(grey.Zip(grey.Skip(1)), p => Assert.True(p.First - p.Second >= 0.1));

        static double Luma(string hex)
        {
            int rgb = Convert.ToInt32(hex[1..], 16);
            return (0.2126 * (rgb >> 16) + 0.7152 * ((rgb >> 8) & 255) + 0.0722 * (rgb & 255)) / 255;
        }
    }

    private static bool Same(Rectangle bar, double x, double low, double high) => Math.Abs((bar.X1 + bar.X2) / 2 - x) < 1e-9 && Math.Abs(bar.Y1 - low) < 1e-9 && Math.Abs(bar.Y2 - high) < 1e-9;

    private PlanResult Planned((string Stage, string[] Readings)[] readings)
    {
        using ShopLog log = ShopLog.Open(_folder.File($"{Guid.NewGuid():N}.sqlite"));
        MaterialTables tables = MaterialTables.BuiltIn();
        int board = KeepBuild.Start(log, Repository.File("shared", "demo", "outline.toml"), tables, 0.01, ["along at least 0.6 solid"]).Board;
        foreach ((string stage, string[] read) in readings) { KeepBuild.Add(log, board, stage, read, tables); }
        return PlanBoard.Run(KeepBuild.Build(log, board, tables), tables, new() { Free = ["inner.thickness 0.5 mm"] });
    }
}
