namespace FlowSim.Native;

/// <summary>The system's time, told in UTC: the zone would be read from files and from the environment.</summary>
internal sealed class UtcClock : TimeProvider
{
    public override TimeZoneInfo LocalTimeZone => TimeZoneInfo.Utc;
}
