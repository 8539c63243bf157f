using FlowSim.OverflowRisk;
using FlowSim.Properties;
using FlowSim.Straining;
using FlowSim.Warming;
using UnitsNet;
using static System.FormattableString;

namespace FlowSim.Planning;

/// <summary>How long a vessel takes to warm and to strain, by the models, as a plan counts it.</summary>
/// <remarks>
/// Warming: the best estimate; quick and slow are the shortest and longest of stirring, conduction alone and <see cref="WarmingSpread"/>.
/// Straining: until 95 % of what can drain is through; quick and slow are those of <see cref="StrainingSpread"/>. The quick, likely and slow of a
/// plan are what-ifs, no chances.
/// </remarks>
public sealed record BatchSteps
{
    private static readonly StrainingOptions s_brief = new() { SeriesPoints = 0 };

    /// <summary>Warming; null where none was asked for, or the honey never gets there.</summary>
    public required StepTimes? Warm { get; init; }

    /// <summary>Straining; null when 95 % never gets through.</summary>
    public required StepTimes? Strain { get; init; }

    /// <summary>When the cloth is scraped, from the opening of the gate.</summary>
    public required IReadOnlyList<Duration> Scrapes { get; init; }

    /// <summary>What gets into the bottling tank, at the temperature at which it is strained.</summary>
    public required Volume Volume { get; init; }

    /// <summary>Honey in the vessel at the start.</summary>
    public required Mass Mass { get; init; }

    /// <summary>Why the vessel cannot be planned: it is never warm, or never through; null when it can.</summary>
    public required string? Refusal { get; init; }

    /// <summary>What the user should know about the times.</summary>
    public required IReadOnlyList<Notice> Notices { get; init; }

    /// <summary>Runs the models.</summary>
    /// <param name="warming">How the vessel is warmed; null when it is warm.</param>
    /// <param name="straining">How it is strained.</param>
    /// <param name="cancellation">Ends early with <see cref="OperationCanceledException"/>.</param>
    /// <exception cref="ArgumentException">Something in a setup is out of its range.</exception>
    public static BatchSteps Of(WarmingSetup? warming, StrainingSetup straining, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(straining);
        List<Notice> notices = [];
        StepTimes? warm = warming is null ? null : WarmOf(warming, notices, cancellation);
        StrainingResult run = StrainingRun.Simulate(straining, s_brief, cancellation);
        StrainingSpread spread = StrainingSpread.Of(straining, cancellation);
        StepTimes? strain = Times(run.Strain.To95, [spread.Strain95.Low], [spread.Strain95.High], "straining", notices);
        if (spread.RunsThatRunOver > 0)
        {
            string when = run.FirstOverflow is { } first ? Invariant($"the strainer runs over after {first.Minutes:0} min") : Invariant($"the strainer runs over in {spread.RunsThatRunOver} of {spread.Runs} cases");
            notices.Add(new("runs-over", when, "honey goes past the cloth, and the plan counts with it", "open the gate less or ride it, as the straining page says"));
        }

        Density density = HoneyProperties.Of(straining.Honey).DensityAt(straining.HoneyTemperature);
        return new BatchSteps
        {
            Warm = warm,
            Strain = strain,
            Scrapes = [.. run.Scrapes],
            Volume = (run.Masses.Strained + run.Masses.Bypassed) / density,
            Mass = run.Masses.Start,
            Refusal = warming is not null && warm is null ? "the honey never gets as warm as is asked for"
                : strain is null ? "95 % of the honey never gets through the strainer" : null,
            Notices = notices,
        };
    }

    private static StepTimes? WarmOf(WarmingSetup warming, List<Notice> notices, CancellationToken cancellation)
    {
        WarmingOptions brief = new() { SeriesPoints = 0 };
        WarmingBounds bounds = WarmingBounds.Of(warming, brief, cancellation);
        WarmingSpread spread = WarmingSpread.Of(warming, brief, cancellation);
        return Times(bounds.Best.TimeToTarget, [bounds.TimeToTargetLow, spread.TimeToTarget.Low], [bounds.TimeToTargetHigh, spread.TimeToTarget.High], "warming", notices);
    }

    private static StepTimes? Times(Duration? likely, Duration?[] lows, Duration?[] highs, string what, List<Notice> notices)
    {
        if (likely is not { } time)
            return null;
        Duration[] known = [.. highs.OfType<Duration>(), time];
        if (highs.Contains(null))
            notices.Add(new(what + "-may-never-end", $"in some cases {what} does not come to its end", "the slow time in the plan is too short for them", "warm hotter or longer, or see what the page of that step says"));

        // A vessel that is as it should be from the start still has to be put there.
        Duration least = Duration.FromMinutes(1);
        Duration low = lows.OfType<Duration>().Append(time).Min();
        return new StepTimes(Longer(low), Longer(time), Longer(known.Max()));

        Duration Longer(Duration one) => one < least ? least : one;
    }
}
