using System.Globalization;

namespace SandwichMech.Workshop.Units;

/// <summary>Reads dates and times as a person types them, in the local time of a clock.</summary>
public static class TypedTime
{
    private const string Example = "write for example 2026-03-01 14:30, or 2026-03-01 alone";
    private static readonly string[] Formats = ["yyyy-MM-dd HH:mm", "yyyy-MM-dd'T'HH:mm", "yyyy-MM-dd"];

    // Nobody weighed for this tool before it was there; an older date is a slip of the year.
    private const int FirstYear = 2000;

    /// <summary>Reads a date, or a date and time; a date alone is its noon.</summary>
    /// <param name="text">What was typed.</param>
    /// <param name="clock">Gives the zone, and the present, after which nothing has been read yet.</param>
    /// <param name="problem">Why it was not read; null where it was.</param>
    /// <returns>The time, UTC.</returns>
    public static DateTimeOffset? Read(string text, TimeProvider clock, out string? problem)
    {
        string typed = TypedText.OneLine(text);
        problem = null;
        if (!DateTime.TryParseExact(typed, Formats, CultureInfo.InvariantCulture, DateTimeStyles.None, out DateTime local))
        {
            problem = $"{TypedText.Quote(typed)} is no date that is read here: {Example}";
            return null;
        }

        local = typed.Length == Formats[^1].Length ? local.AddHours(12) : local;
        TimeZoneInfo zone = clock.LocalTimeZone;
        DateTimeOffset now = clock.GetUtcNow(), time = new DateTimeOffset(local, zone.GetUtcOffset(local)).ToUniversalTime();
        // Noon of today may still be to come: today is meant all the same.
        bool isToday = TimeZoneInfo.ConvertTime(now, zone).Date == local.Date && typed.Length == Formats[^1].Length;
        problem = zone.IsInvalidTime(local) ? $"{TypedText.Quote(typed)} was left out when the clocks were put forward: {Example}"
            : time > now && !isToday ? $"{TypedText.Quote(typed)} is still to come: {Example}"
            : local.Year < FirstYear ? $"{TypedText.Quote(typed)} is too long ago to be meant: {Example}"
            : null;
        return problem is not null ? null : time > now ? now.ToUniversalTime() : time;
    }
}
