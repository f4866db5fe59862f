using System.Globalization;
using SandwichMech.Figures;
using SandwichMech.Figures.Drawing;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Tests.Pictures;

/// <summary>Nothing is clipped, nothing lies over anything else, whatever the names are and in both unit systems.</summary>
[Trait("Check", "exact")]
public class LayoutTests
{
    public static TheoryData<string, string, UnitSystem> Cases => PictureCases.All(PictureCases.Boards);

    public static TheoryData<string, string, UnitSystem> CasesWithUsualNames => PictureCases.All(PictureCases.Boards.Where(b => b != PictureCases.LongNames));

    public static TheoryData<string, UnitSystem> BoardsWithUsualNames => PictureCases.Each(PictureCases.Boards.Where(b => b != PictureCases.LongNames));

    [Theory]
    [MemberData(nameof(Cases))]
    public void All_words_lie_within_the_picture(string board, string kind, UnitSystem units)
    {
        Picture picture = PictureCases.Draw(board, kind, units);
        IReadOnlyList<SvgWord> words = SvgWords.Of(picture);
        // Where nothing is uncertain, sources have little to say.
        Assert.True(words.Count > (kind == "sources" ? 8 : 20));
        Assert.All(words, w => Assert.All(w.Corners(), c =>
        {
            Assert.True(c.X >= 5 && c.X <= picture.Width - 5 && c.Y >= 5 && c.Y <= picture.Height - 5, $"'{w.Text}' reaches ({c.X:0}, {c.Y:0})");
        }));
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void No_words_lie_over_other_words(string board, string kind, UnitSystem units)
    {
        IReadOnlyList<SvgWord> words = SvgWords.Of(PictureCases.Draw(board, kind, units));
        string[] over = [.. words.SelectMany((a, i) => words.Skip(i + 1).Where(a.Overlaps).Select(b => $"'{a.Text}' and '{b.Text}'"))];
        Assert.Empty(over);
    }

    [Theory]
    [MemberData(nameof(CasesWithUsualNames))]
    public void No_sentence_is_cut_short_unless_a_name_is_long(string board, string kind, UnitSystem units)
    {
        // The name of a sloping line is cut where it would lie over something else; titles, head lines, numbers and the solid that the file names never are.
        Assert.DoesNotContain(SvgWords.Of(PictureCases.Draw(board, kind, units)), w => w.Text.Contains('…', StringComparison.Ordinal) && w.Angle == 0);
    }

    [Theory]
    [MemberData(nameof(BoardsWithUsualNames))]
    public void What_is_saved_stands_clear_of_both_lines_and_the_file_s_solid_is_named_in_full(string board, UnitSystem units)
    {
        Picture picture = BoardPictures.Sweep(PictureCases.SweepSkins(board), units);
        IReadOnlyList<SvgWord> words = SvgWords.Of(picture);
        Assert.DoesNotContain(words, w => w.Text.Contains('…', StringComparison.Ordinal) && w.Angle == 0);
        const int Mass = 2;
        Panel panel = picture.Panels[Mass];
        (double X, double Y)[] saved = Assert.Single(words, w => w.Text.StartsWith("saves", StringComparison.Ordinal) || w.Text.StartsWith("costs", StringComparison.Ordinal)).Corners();
        foreach ((double X, double Y)[] line in picture.Series(Mass))
        {
            foreach (((double X, double Y) a, (double X, double Y) b) in line.Zip(line.Skip(1)))
            {
                for (int i = 0; i <= 50; i++)
                {
                    double x = panel.PixelX(a.X + (b.X - a.X) * i / 50), y = panel.PixelY(a.Y + (b.Y - a.Y) * i / 50);
                    Assert.False(x > saved.Min(c => c.X) && x < saved.Max(c => c.X) && y > saved.Min(c => c.Y) && y < saved.Max(c => c.Y), $"a line goes through the saving at ({x:0}, {y:0})");
                }
            }
        }
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Words_in_the_fonts_of_this_machine_take_no_more_room_than_was_kept(string board, string kind, UnitSystem units)
    {
        Assert.All(SvgWords.Of(PictureCases.Draw(board, kind, units)), w =>
            Assert.True(w.Width <= TextWidth.Of(w.Text, w.Size, w.Bold), $"'{w.Text}' is {w.Width:0.0} wide, {TextWidth.Of(w.Text, w.Size, w.Bold):0.0} was kept"));
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Numbers_of_an_axis_are_round_rising_and_within_it(string board, string kind, UnitSystem units)
    {
        foreach (Panel panel in PictureCases.Draw(board, kind, units).Panels)
        {
            foreach (Scale scale in new[] { panel.X, panel.Y }.Where(s => s.Ticks.Count > 0))
            {
                Assert.True(scale.Ticks.Count >= 3, $"{scale.Ticks.Count} numbers from {scale.Low} to {scale.High}");
                Assert.Equal(scale.Ticks.Count, scale.Ticks.Select(t => t.Label).Distinct().Count());
                Assert.All(scale.Ticks, t =>
                {
                    Checks.Close(t.Value, double.Parse(t.Label, CultureInfo.InvariantCulture), 1e-9 * scale.High, t.Label);
                    Assert.InRange(scale.Share(t.Value), -1e-9, 1 + 1e-9);
                });
            }
        }
    }

    [Fact]
    public void Control_characters_of_a_name_do_not_reach_the_picture()
    {
        var words = new Words("two\r\nlines\tand\u0007 more", 0, 0, 10);
        Assert.Equal("two lines and more", words.Text);
        Assert.Equal("a b", (words with { Text = "a\u0000b" }).Text);
    }

    [Theory]
    [InlineData("short", 100, "short")]
    [InlineData("a rather long name", 60, "a rathe…")]
    [InlineData("abc", 0, "…")]
    public void A_name_that_does_not_fit_is_cut_with_an_ellipsis(string name, double room, string fitted)
    {
        Assert.Equal(fitted, TextWidth.Fit(name, room, 12));
        Assert.True(room == 0 || TextWidth.Of(fitted, 12, false) <= room);
    }

    [Fact]
    public void A_letter_keeps_its_accent_when_a_name_is_cut()
    {
        string name = string.Concat(Enumerable.Repeat("e\u0301", 20));
        string cut = TextWidth.Fit(name, 200, 12);
        Assert.EndsWith("\u0301…", cut, StringComparison.Ordinal);
    }
}
