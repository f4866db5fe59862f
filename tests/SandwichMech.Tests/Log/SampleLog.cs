using SandwichMech.Core.Identification;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Tests.EndToEnd;
using SandwichMech.Workshop.Log;

namespace SandwichMech.Tests.Log;

/// <summary>A clock that stands where it is put.</summary>
internal sealed class StandingClock(DateTimeOffset now) : TimeProvider
{
    internal DateTimeOffset Now { get; set; } = now;

    internal TimeZoneInfo Zone { get; init; } = TimeZoneInfo.Utc;

    public override TimeZoneInfo LocalTimeZone => Zone;

    public override DateTimeOffset GetUtcNow() => Now;
}

/// <summary>Logs and readings for tests.</summary>
internal static class SampleLog
{
    internal static readonly DateTimeOffset Noon = new(2026, 3, 1, 12, 0, 0, TimeSpan.Zero);

    internal static ShopLog Open(TemporaryFolder folder, StandingClock? clock = null) => ShopLog.Open(folder.File("log.sqlite"), clock ?? new(Noon));

    internal static Weighing Weighed(double grams) => new(Estimate.FromSd(grams / 1000, 0.0001));
}
