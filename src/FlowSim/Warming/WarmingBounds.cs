using UnitsNet;

namespace FlowSim.Warming;

/// <summary>A run by its best estimate, between the two bounds on how heat moves inside the honey.</summary>
public sealed record WarmingBounds
{
    /// <summary>The best estimate.</summary>
    public required WarmingResult Best { get; init; }

    /// <summary>The fast bound, as if stirred; without a series.</summary>
    public required WarmingResult WellMixed { get; init; }

    /// <summary>The slow bound, conduction alone; without a series.</summary>
    public required WarmingResult ConductionOnly { get; init; }

    /// <summary>Shortest time to the targets among the three; null when none of them gets there.</summary>
    public Duration? TimeToTargetLow => Times.Min();

    /// <summary>Longest time to the targets among the three; null when one never gets there.</summary>
    public Duration? TimeToTargetHigh => Times.Contains(null) ? null : Times.Max();

    private Duration?[] Times => [Best.TimeToTarget, WellMixed.TimeToTarget, ConductionOnly.TimeToTarget];

    /// <summary>Runs a setup three times.</summary>
    /// <param name="setup">What is warmed, and with what.</param>
    /// <param name="options">How it is computed; <see cref="WarmingOptions.Inside"/> is replaced. Null for the defaults.</param>
    /// <param name="cancellation">Ends early with <see cref="OperationCanceledException"/>.</param>
    /// <exception cref="ArgumentException">Something in the setup is out of its range.</exception>
    public static WarmingBounds Of(WarmingSetup setup, WarmingOptions? options = null, CancellationToken cancellation = default)
    {
        options ??= new WarmingOptions();
        WarmingOptions bound = options with { SeriesPoints = 0, MapTimes = [] };
        return new WarmingBounds
        {
            Best = WarmingRun.Simulate(setup, options with { Inside = InsideHeat.BestEstimate }, cancellation),
            WellMixed = WarmingRun.Simulate(setup, bound with { Inside = InsideHeat.WellMixed }, cancellation),
            ConductionOnly = WarmingRun.Simulate(setup, bound with { Inside = InsideHeat.ConductionOnly }, cancellation),
        };
    }
}
