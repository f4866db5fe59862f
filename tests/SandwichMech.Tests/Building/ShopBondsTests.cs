using System.Globalization;
using SandwichMech.Core.Building;
using SandwichMech.Figures;
using SandwichMech.Tests.EndToEnd;
using SandwichMech.Tests.Pictures;
using SandwichMech.Workshop.Log;
using SandwichMech.Workshop.Tables;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.Tests.Building;

/// <summary>All bonds of an invented shop as a control chart.</summary>
[Trait("Check", "exact")]
public sealed class ShopBondsTests : IDisposable
{
    private static readonly MaterialTables Tables = MaterialTables.BuiltIn();
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    // Pyzdek & Keller 2013 (authors and year from memory), The Handbook for Quality Management: A Complete Guide to Operational Excellence, p. 172: Table 9.4 (measurements and their ranges as printed)
    // and "LCL = X − 2.66 R, UCL = X + 2.66 R"; the limits themselves are printed in a figure only, so they are put together here from the printed ranges.
    [Fact]
    [Trait("Check", "published")]
    public void The_limits_of_a_published_table_are_those_of_its_printed_ranges()
    {
        double[] measured = [110, 103, 97, 96, 105, 110, 100, 93, 90, 103, 97, 103, 90, 97, 99, 106, 90, 96, 109, 90, 91, 108, 96, 101, 96];
        double[] ranges = [7, 6, 1, 9, 5, 10, 7, 3, 13, 6, 6, 13, 7, 2, 7, 16, 6, 13, 19, 1, 17, 12, 5, 5];
        var chart = KeptShares.Of(measured);
        // 2.66 is printed to half a hundredth.
        double tolerance = 0.005 * ranges.Average();
        Checks.Close(measured.Average(), chart.Mean, 1e-9);
        Checks.Close(measured.Average() - 2.66 * ranges.Average(), chart.Low, tolerance);
        Checks.Close(measured.Average() + 2.66 * ranges.Average(), chart.High, tolerance);
        Assert.Empty(chart.Out);
    }

    // Ibid., p. 401, factors for control charts of two: A3 = 2.659, which is 3/(c4 √2) and so 3/d2.
    [Fact]
    [Trait("Check", "published")]
    public void The_factor_is_that_of_the_printed_table() => Checks.Printed("2.659", KeptShares.Factor);

    [Fact]
    public void Fewer_than_three_bonds_have_no_limits_and_it_says_so()
    {
        using ShopLog log = Log();
        Assert.StartsWith("0 bonds were weighed; from 3 on", ShopBonds.Run(log, Tables).ToDo[0], StringComparison.Ordinal);
        Bonded(log, 16.6, 17.2);
        ShopBondsResult r = ShopBonds.Run(log, Tables);
        Assert.Equal(2, r.Bonds.Count);
        Assert.Null(r.Chart);
        Assert.Null(BoardPictures.Bonds(r, UnitSystem.Metric));
        Assert.StartsWith("2 bonds were weighed", r.ToDo[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Bonds_come_in_the_order_of_time_with_what_they_kept_and_a_steady_shop_is_left_alone()
    {
        using ShopLog log = Log();
        int first = Bonded(log, 16.6, null, "2026-01-05"), second = Bonded(log, 17.0, 17.2, "2026-01-10");
        Second(log, first, 16.9, "2026-02-01");
        ShopBondsResult r = ShopBonds.Run(log, Tables);
        Assert.Equal([(first, "first bond"), (second, "first bond"), (second, "second bond"), (first, "second bond")], r.Bonds.Select(b => (b.Board, b.Bond)));
        Assert.Equal([0.0166, 0.0170, 0.0172, 0.0169], r.Bonds.Select(b => Math.Round(b.Kept, 7)));
        Assert.All(r.Bonds, b => Checks.Near(b.Kept / 0.036, b.KeptShare, 1e-9));
        var chart = KeptShares.Of([.. r.Bonds.Select(b => b.KeptShare)]);
        Assert.Equal((chart.Mean, chart.Low, chart.High), (r.Chart!.Mean, r.Chart.Low, r.Chart.High));
        Assert.Contains("Change nothing because of a single bond", r.ToDo[0], StringComparison.Ordinal);
    }

    [Fact]
    public void What_lies_outside_is_named_with_what_to_look_for_and_a_withdrawn_board_or_an_impossible_share_is_not_charted()
    {
        using ShopLog log = Log();
        for (int i = 0; i < 5; i++) { Bonded(log, 16.6 + 0.2 * i, 17.2 - 0.1 * i); }
        int odd = Bonded(log, 24.5, 16.9);
        int impossible = Bonded(log, 70, null), gone = Bonded(log, 1, 1);
        log.WithdrawOfBoard(gone, log.BoardEntries(gone)[0].Number, "invented");
        ShopBondsResult r = ShopBonds.Run(log, Tables);
        ShopBondRow outside = Assert.Single(r.Bonds, b => b.IsOut);
        Assert.Equal((odd, "first bond"), (outside.Board, outside.Bond));
        Assert.Contains(r.ToDo, t => t.StartsWith(string.Create(CultureInfo.InvariantCulture, $"Board {odd}, first bond, kept 68 %, above"), StringComparison.Ordinal));
        Assert.Contains(r.ToDo, t => t.StartsWith(string.Create(CultureInfo.InvariantCulture, $"Left out: Board {impossible}"), StringComparison.Ordinal));
        Assert.DoesNotContain(r.Bonds, b => b.Board == gone || b.Board == impossible);

        Picture picture = BoardPictures.Bonds(r, UnitSystem.Metric)!;
        List<(double X, double Y)[]> drawn = picture.Series(0);
        drawn.Holds(r.Bonds.Select((b, i) => (i + 0.5, 100 * b.KeptShare)), "the shares");
        foreach (double line in new[] { r.Chart!.Low, r.Chart.Mean, r.Chart.High }) { drawn.Holds([(0, 100 * line), (r.Bonds.Count, 100 * line)], "a limit"); }
        IReadOnlyList<SvgWord> words = SvgWords.Of(picture);
        Assert.Contains(words, w => w.Text == string.Create(CultureInfo.InvariantCulture, $"board {odd}, first bond: 68 %"));
        Assert.Empty(words.SelectMany((a, i) => words.Skip(i + 1).Where(a.Overlaps).Select(b => $"'{a.Text}' and '{b.Text}'")));
    }

    private ShopLog Log() => ShopLog.Open(_folder.File("log.sqlite"));

    // A board whose bonds gained so many grams of 36 mixed.
    private static int Bonded(ShopLog log, double first, double? second, string day = "2026-03-01")
    {
        int board = KeepBuild.Start(log, Repository.File("shared", "demo", "outline.toml"), Tables, 0.01, []).Board;
        KeepBuild.Add(log, board, "skins", ["outer 42.4 g", "core 5.7 g", "let-in 31.5 g", "inner 41.0 g"], Tables, At(day));
        KeepBuild.Add(log, board, "bond1", ["mixed 36 g", Grams(79.6 + first)], Tables, At(day));
        KeepBuild.Add(log, board, "level", ["board 95.0 g"], Tables, At(day));
        if (second is { } gain) { Second(log, board, gain, day); }
        return board;
    }

    private static void Second(ShopLog log, int board, double gain, string day) => KeepBuild.Add(log, board, "bond2", ["mixed 36 g", Grams(95.0 + 41.0 + gain)], Tables, At(day));

    private static DateTimeOffset At(string day) => DateTimeOffset.Parse(day, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal);

    private static string Grams(double grams) => string.Create(CultureInfo.InvariantCulture, $"board {grams:F1} g");
}
