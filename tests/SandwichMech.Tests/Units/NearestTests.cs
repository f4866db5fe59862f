using CsCheck;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Tests.Units;

/// <summary>The name that a mistyped one stands for.</summary>
[Trait("Check", "exact")]
public class NearestTests
{
    private static readonly string[] Woods =
        ["Sitka spruce", "Engelmann spruce", "Norway spruce", "western red cedar", "redwood", "balsa"];

    [Theory]
    [InlineData("Sitka spruce", "Sitka spruce")]
    [InlineData("sitka SPRUCE", "Sitka spruce")]
    [InlineData("sitka spurce", "Sitka spruce")] // neighbours swapped
    [InlineData("stika", "Sitka spruce")] // a word, mistyped
    [InlineData("engel", "Engelmann spruce")] // a beginning
    [InlineData("cedar", "western red cedar")] // a word of it
    [InlineData("red cedar", "western red cedar")]
    [InlineData("spruce norway", "Norway spruce")] // words the other way round
    [InlineData("blasa", "balsa")]
    [InlineData("  balsa ", "balsa")]
    [InlineData("rosewood", null)] // three slips in eight letters are another wood
    [InlineData("mahogany", null)]
    [InlineData("x", null)]
    [InlineData("", null)]
    [InlineData("-", null)]
    public void The_nearest_wood_is_found_or_none(string typed, string? nearest) =>
        Assert.Equal(nearest, Nearest.Name(typed, Woods));

    [Fact]
    public void Of_equals_the_first_is_taken()
    {
        Assert.Equal("mm", Nearest.Name("xm", ["mm", "cm"]));
        Assert.Equal("cm", Nearest.Name("xm", ["cm", "mm"]));
    }

    [Fact]
    public void Without_names_there_is_no_nearest() => Assert.Null(Nearest.Name("balsa", []));

    [Fact]
    public void One_slip_in_a_long_name_is_always_mended() =>
        Gen.Select(Gen.OneOf(Woods), Gen.Int[0, 100], Gen.Char['a', 'z'], Gen.Int[0, 3]).Sample((name, where, letter, slip) =>
        {
            var at = where % (name.Length - 1);
            var typed = slip switch
            {
                0 => name.Insert(at, letter.ToString()),
                1 => name.Remove(at, 1),
                2 => name.Remove(at, 1).Insert(at, letter.ToString()),
                _ => name[..at] + name[at + 1] + name[at] + name[(at + 2)..],
            };

            Assert.Equal(name, Nearest.Name(typed, Woods));
        });

    [Fact]
    public void Any_text_is_borne() =>
        Gen.Select(Gen.String, Gen.String.Array[0, 5]).Sample((typed, known) =>
            Assert.True(Nearest.Name(typed, known) is not { } name || known.Contains(name)));
}
