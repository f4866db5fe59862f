using SandwichMech.Tests.Log;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Tests.Units;

/// <summary>Dates and times as typed, in a zone that changes its clocks.</summary>
[Trait("Check", "exact")]
public class TypedTimeTests
{
    // An hour ahead of UTC, two from the end of March to the end of October.
    private static readonly StandingClock Clock = new(new(2026, 4, 10, 9, 0, 0, TimeSpan.Zero)) { Zone = TimeZoneInfo.FindSystemTimeZoneById("Europe/Berlin") };

    [Theory]
    [InlineData("2026-03-01 14:30", "2026-03-01T13:30")]
    [InlineData("2026-04-01T14:30", "2026-04-01T12:30")]
    [InlineData(" 2026-03-01 ", "2026-03-01T11:00")]
    [InlineData("2026-04-10", "2026-04-10T09:00")]
    public void A_time_is_read_in_the_zone_of_the_clock(string text, string utc)
    {
        Assert.Equal(DateTimeOffset.Parse(utc + "Z", System.Globalization.CultureInfo.InvariantCulture), TypedTime.Read(text, Clock, out string? problem));
        Assert.Null(problem);
    }

    [Theory]
    [InlineData("2026-04-10 11:01", "still to come")]
    [InlineData("2026-04-11", "still to come")]
    [InlineData("2026-03-29 02:30", "put forward")]
    [InlineData("0206-03-29", "too long ago")]
    [InlineData("01/03/2026", "no date")]
    [InlineData("2026-02-30", "no date")]
    [InlineData("", "no date")]
    public void What_is_no_time_of_a_reading_is_refused(string text, string says)
    {
        Assert.Null(TypedTime.Read(text, Clock, out string? problem));
        Assert.Contains(says, problem, StringComparison.Ordinal);
    }
}
