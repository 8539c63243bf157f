namespace FlowSim.Commands.Tests.Watching;

/// <summary>A clock that stands until it is moved.</summary>
internal sealed class HandClock : TimeProvider
{
    private DateTimeOffset _now = new(2026, 11, 29, 14, 3, 20, 400, TimeSpan.Zero);

    public override TimeZoneInfo LocalTimeZone => TimeZoneInfo.Utc;

    public override DateTimeOffset GetUtcNow() => _now;

    public void Move(double seconds) => _now = _now.AddSeconds(seconds);
}
