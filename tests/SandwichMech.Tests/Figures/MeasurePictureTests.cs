using SandwichMech.Figures;
using SandwichMech.Tests.EndToEnd;
using SandwichMech.Tests.Log;
using SandwichMech.Workshop.Log;
using SandwichMech.Workshop.Pieces;
using SandwichMech.Workshop.Tables;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;
using ScottPlot.Plottables;

namespace SandwichMech.Tests.Pictures;

/// <summary>What the picture of `measure` plots is what the result says, and nothing lies over anything else.</summary>
[Trait("Check", "exact")]
public sealed class MeasurePictureTests : IDisposable
{
    private const int Bars = 0, Off = 3;

    private const string WithStray = "30.1 Hz, 41.3 Hz, 77 Hz, 97.6 Hz, 188 Hz";

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData(UnitSystem.Metric)]
    [InlineData(UnitSystem.Inch)]
    public void Bars_are_the_intervals_before_and_after_in_times_the_table_s_value(UnitSystem units)
    {
        MeasureResult r = Measured(WithStray);
        Picture picture = BoardPictures.Measure(r, units)!;
        // Two bars a property, the table's first.
        Rectangle[] bars = picture.Bars(Bars);
        Assert.Equal(2 * r.Properties.Count, bars.Length);
        for (int i = 0; i < r.Properties.Count; i++)
        {
            PropertyRow p = r.Properties[i];
            foreach ((GiveOrTake of, Rectangle bar) in new[] { (p.Table, bars[2 * i]), (p.Found, bars[2 * i + 1]) })
            {
                Checks.Near(of.Low90 / p.Table.Value, Math.Pow(10, bar.X1), 1e-9);
                Checks.Near(of.High90 / p.Table.Value, Math.Pow(10, bar.X2), 1e-9);
            }

            string words = $"{MeasurePiece.Text(p.Table.Value, p.Unit, p.Symbol, units)} ± {Say.Percent(p.Table.Relative)}";
            Assert.Contains(SvgWords.Of(picture), w => w.Text.StartsWith(words, StringComparison.Ordinal));
        }
    }

    [Fact]
    public void Each_tone_stands_in_the_row_of_its_mode_and_a_stray_is_marked()
    {
        MeasureResult r = Measured(WithStray);
        ReadingRow[] tones = [.. r.Readings.Where(x => x.Unit == "Hz")];
        ReadingRow stray = Assert.Single(tones, t => t.Expected is null);
        ReadingRow?[] rows = ToneRows.Read(r.Modes, tones);
        Assert.Equal(tones.Length - 1, rows.OfType<ReadingRow>().Count());
        Assert.All(rows.Zip(r.Modes), p => Assert.True(p.First is null || p.First.NodalLines == p.Second.NodalLines));
        Picture picture = BoardPictures.Measure(r, UnitSystem.Metric)!;
        picture.Series(1).Holds([(0.25, stray.Read)], "the stray");
        foreach ((ReadingRow? tone, int at) in rows.Select((t, i) => (t, i)).Where(p => p.t is not null)) { picture.Series(Off).Holds([(tone!.Misfit, at + 0.5)], "a misfit"); }
        string[] words = [.. SvgWords.Of(picture).Select(w => w.Text)];
        Assert.Contains("× no mode of it", words);
        Assert.Contains(words, w => w.Contains("left out as no mode of it 1", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("", "", UnitSystem.Metric)]
    [InlineData("", WithStray, UnitSystem.Inch)]
    [InlineData("half of the long billet from under the stairs with the bear claw and the small knot at the upper end", WithStray, UnitSystem.Metric)]
    [InlineData("", "recording", UnitSystem.Metric)]
    public void Words_lie_within_the_picture_and_clear_of_each_other(string name, string taps, UnitSystem units)
    {
        Picture picture = BoardPictures.Measure(Measured(taps, name), units)!;
        IReadOnlyList<SvgWord> words = SvgWords.Of(picture);
        Assert.True(words.Count > 20);
        Assert.All(words, w => Assert.All(w.Corners(), c => Assert.True(c.X >= 5 && c.X <= picture.Width - 5 && c.Y >= 5 && c.Y <= picture.Height - 5, $"'{w.Text}' reaches ({c.X:0}, {c.Y:0})")));
        Assert.Empty(words.SelectMany((a, i) => words.Skip(i + 1).Where(a.Overlaps).Select(b => $"'{a.Text}' and '{b.Text}'")));
        Assert.DoesNotContain(words, w => w.Text.Contains('…', StringComparison.Ordinal) && name.Length == 0);
    }

    [Fact]
    public void A_wrong_name_of_a_picture_is_refused_before_anything_is_kept()
    {
        string log = DemoLog.In(_folder);
        foreach (string[] command in new[] { ["measure", "1", "--weight", "88 g"], new[] { "listen", Repository.File("shared", "demo", "taps.wav"), "--piece", "1" } })
        {
            Commanded run = Commanded.Run([.. command, "--plot", "picture.gif", "--log", log]);
            Assert.Equal(2, run.Code);
            Assert.Contains(".png or as .svg", Assert.Single(run.Err.Trim().Split('\n')), StringComparison.Ordinal);
        }

        using ShopLog after = ShopLog.Open(log);
        Assert.Equal(DemoLog.Entries, after.Entries());
    }

    [Fact]
    public void Without_properties_there_is_no_picture_and_that_is_said()
    {
        string log = DemoLog.In(_folder), picture = _folder.File("none.png");
        Commanded run = Commanded.Run("measure", "2", "--plot", picture, "--log", log);
        Assert.Equal(0, run.Code);
        Assert.Contains("was not written: there is nothing to draw yet", run.Err, StringComparison.Ordinal);
        Assert.False(File.Exists(picture));
    }

    // The shape of a free beam of length 1 is cosh βx + cos βx − σ (sinh βx + sin βx), σ = (cosh β − cos β)/(sinh β − sin β), with cosh β cos β = 1 (textbook).
    [Theory]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(6)]
    public void Nodal_lines_stand_where_a_free_beam_rests(int count)
    {
        double beta = (count - 0.5) * Math.PI;
        for (int i = 0; i < 20; i++) { beta -= (Math.Cos(beta) - 1 / Math.Cosh(beta)) / (-Math.Sin(beta) + Math.Tanh(beta) / Math.Cosh(beta)); }
        double sigma = (Math.Cosh(beta) - Math.Cos(beta)) / (Math.Sinh(beta) - Math.Sin(beta));
        double Shape(double x) => Math.Cosh(beta * x) + Math.Cos(beta * x) - sigma * (Math.Sinh(beta * x) + Math.Sin(beta * x));
        double[] nodes = [.. ToneRows.Nodes(count)];
        Assert.Equal(count, nodes.Length);
        Assert.Equal(nodes.Order(), nodes);
        Assert.All(nodes, x => Assert.True(Shape(x - 0.006) * Shape(x + 0.006) < 0, $"{x} of {count}"));
    }

    private MeasureResult Measured(string taps, string name = "")
    {
        string log = DemoLog.In(_folder);
        if (name.Length > 0) { Assert.Equal(0, Commanded.Run("piece", "correct", "1", "1", "--name", name, "--log", log).Code); }
        if (taps == "recording") { Assert.Equal(0, Commanded.Run("listen", Repository.File("shared", "demo", "taps.wav"), "--piece", "1", "--log", log).Code); }
        using ShopLog open = ShopLog.Open(log);
        return MeasurePiece.Run(open, MaterialTables.BuiltIn(), 1, new ReadingWords(), new([], taps.Contains("Hz", StringComparison.Ordinal) ? taps : null));
    }
}
