using CsCheck;
using SandwichMech.Figures;
using SandwichMech.Figures.Drawing;

namespace SandwichMech.Tests.Pictures;

/// <summary>The parts that pictures are made of.</summary>
[Trait("Check", "exact")]
public class DrawingTests
{
    [Fact]
    public void Labels_that_are_spread_keep_their_order_their_distance_and_their_room() =>
        Gen.Double[0, 300].Array[1, 12].Sample(wanted =>
        {
            double[] placed = TwoThicknesses.Spread(wanted, 18, 0, 300);
            int[] order = [.. Enumerable.Range(0, wanted.Length).OrderBy(i => wanted[i])];
            foreach ((int a, int b) in order.Zip(order.Skip(1)))
            {
                Assert.True(placed[b] - placed[a] >= 18 - 1e-9, $"{placed[a]} and {placed[b]}");
            }

            Assert.All(placed, y => Assert.InRange(y, -1e-9, 300 + 1e-9));
        });

    [Fact]
    public void Labels_with_room_stay_where_they_are() =>
        Assert.Equal([200, 40, 100], TwoThicknesses.Spread([200, 40, 100], 18, 0, 300));

    [Fact]
    public void A_straight_scale_has_round_numbers_within_it_and_no_more_than_wanted() =>
        Gen.Select(Gen.Double[-50, 50], Gen.Double[0.001, 500], Gen.Int[3, 9]).Sample((low, span, most) =>
        {
            Scale scale = Scale.Linear(low, low + span, most);
            Assert.InRange(scale.Ticks.Count, 1, most);
            Assert.All(scale.Ticks, t => Assert.InRange(t.Value, low - 1e-9 * span, low + span + 1e-9 * span));
            Assert.All(scale.Ticks, t => Checks.Close(t.Value, double.Parse(t.Label, System.Globalization.CultureInfo.InvariantCulture), 1e-9 * (span + 50)));
        });

    [Theory]
    [InlineData(0.4, 1.0, "0.4 0.5 0.6 0.7 0.8 0.9 1.0")]
    [InlineData(0, 50, "0 10 20 30 40 50")]
    [InlineData(1.5, 3, "1.50 1.75 2.00 2.25 2.50 2.75 3.00")]
    [InlineData(2400, 9100, "3000 4000 5000 6000 7000 8000 9000")]
    public void Round_numbers_by_hand(double low, double high, string labels) =>
        Assert.Equal(labels, string.Join(' ', Scale.Linear(low, high, 8).Ticks.Select(t => t.Label)));

    [Fact]
    public void Numbers_on_a_logarithmic_scale_keep_their_distance() =>
        Gen.Select(Gen.Double[-3, 4], Gen.Double[0.3, 3]).Sample((from, decades) =>
        {
            Scale scale = Scale.Log(Math.Pow(10, from), Math.Pow(10, from + decades), 600, 34);
            Assert.NotEmpty(scale.Ticks);
            double[] pixels = [.. scale.Ticks.Select(t => 600 * scale.Share(t.Value))];
            Assert.All(pixels, p => Assert.InRange(p, -1e-6, 600 + 1e-6));
            Assert.All(pixels.Zip(pixels.Skip(1)), p => Assert.True(p.Second - p.First >= 34 - 1e-6));
        });

    [Fact]
    public void An_ordered_row_of_colours_darkens_all_the_way_in_grey_and_stays_apart_from_paper()
    {
        double[] grey = [.. Enumerable.Range(0, 11).Select(i => Grey(Palette.Ordered(i / 10.0)))];
        Assert.All(grey.Zip(grey.Skip(1)), g => Assert.True(g.Second < g.First - 5));
        Assert.True(grey[0] < 170);
    }

    [Fact]
    public void Lines_differ_by_their_dashes_and_layers_by_their_grey()
    {
        Dash[] dashes = [Palette.Board.Dash, .. Palette.Solids.Select(s => s.Dash)];
        Assert.Equal(dashes.Length, dashes.Distinct().Count());
        double[] layers = [.. new[] { Palette.Orange, Palette.Blue, Palette.PaleBlue }.Select(Grey).Order()];
        Assert.All(layers.Zip(layers.Skip(1)), g => Assert.True(g.Second - g.First > 40));
    }

    [Fact]
    public void Words_find_a_free_place_before_a_better_liked_one_that_is_taken()
    {
        var places = new FreePlaces(new Box(0, 0, 200, 200));
        places.KeepClear(new Box(40, 40, 60, 60));
        var taken = new Words("word", 45, 50, 12);
        var free = new Words("word", 100, 150, 12);
        var outside = new Words("word", 190, 150, 12);
        Assert.Equal([free], places.Choose([[taken], [outside], [free]], needed: true)!);
        Assert.Null(places.Choose([[taken], [outside]], needed: false));
        Assert.Equal([taken], places.Choose([[outside], [taken]], needed: true)!);
    }

    [Fact]
    public void Words_along_a_line_keep_off_it_on_the_side_that_is_asked_for()
    {
        (double X, double Y)[] line = [.. Enumerable.Range(0, 41).Select(i => (i * 10.0, 300 - 0.0015 * i * i * 100))];
        foreach (bool above in new[] { true, false })
        {
            foreach (Words words in AlongLine.Places(line, new Words("some words", 0, 0, 15), above))
            {
                double y = line.Last(p => p.X <= words.X).Y;
                Assert.Equal(above, words.Y < y);
                (double sin, double cos) = Math.SinCos(words.Angle * Math.PI / 180);

                // The half of the words' height that is nearest to the line touches no point of it.
                Assert.All(line, p =>
                {
                    double along = (p.X - words.X) * cos + (p.Y - words.Y) * sin, off = Math.Abs((p.Y - words.Y) * cos - (p.X - words.X) * sin);
                    Assert.True(Math.Abs(along) > words.Width / 2 || off > 0.5 * words.Size, $"{off:0.0} off");
                });
            }
        }
    }

    private static double Grey(string colour)
    {
        double Part(int at) => Convert.ToInt32(colour[at..(at + 2)], 16);
        return 0.2126 * Part(1) + 0.7152 * Part(3) + 0.0722 * Part(5);
    }
}
