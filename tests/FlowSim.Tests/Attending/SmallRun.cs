using FlowSim.Attending;
using FlowSim.Calibration;
using FlowSim.Straining;
using FlowSim.Tests.Straining;
using UnitsNet;

namespace FlowSim.Tests.Attending;

/// <summary>An invented small pail that is attended, everything of it known exactly, and what is read and done there.</summary>
internal static class SmallRun
{
    public static StrainingSetup Pail { get; } = SmallPail.Running();

    public static AttendedRun Plain() => AttendedRuns.Of(Pail) with { Threads = 1 };

    /// <summary>The same, looked at for a minute.</summary>
    public static AttendedRun Short() => Plain() with { Setup = Pail with { Longest = S(60) } };

    public static TimedSeries Level(params (double S, double Value)[] readings) => Series(StrainingObservable.TankLevel, readings);

    public static TimedSeries Mass(params (double S, double Value)[] readings) => Series(StrainingObservable.ReceiverMass, readings);

    public static TimedSeries Series(StrainingObservable quantity, params (double S, double Value)[] readings) => new()
    {
        Quantity = quantity,
        Readings = [.. readings.Select(reading => new TimedReading(S(reading.S), reading.Value))],
    };

    public static NotedStep Gate(double s, double percent) => new(S(s), Ratio.FromPercent(percent));

    public static NotedStep Scraped(double s) => NotedStep.Scrape(S(s));

    public static Duration S(double seconds) => Duration.FromSeconds(seconds);
}
