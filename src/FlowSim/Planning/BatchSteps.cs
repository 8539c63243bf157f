using FlowSim.Properties;
using FlowSim.WholeJob;
using UnitsNet;

namespace FlowSim.Planning;

/// <summary>How long the steps of one vessel take by the models, as a plan counts them.</summary>
/// <remarks>What quick and slow mean is said in <see cref="StepTimes"/>. A step takes a minute at least: somebody has to do it.</remarks>
public sealed record BatchSteps
{
    /// <summary>Warming; null where there is none.</summary>
    public required StepTimes? Warm { get; init; }

    /// <summary>Settling; null where there is none.</summary>
    public required StepTimes? Settle { get; init; }

    /// <summary>Straining; null when it never comes to its end.</summary>
    public required StepTimes? Strain { get; init; }

    /// <summary>Filling; null where there is none.</summary>
    public required StepTimes? Fill { get; init; }

    /// <summary>When the cloth is scraped, from the opening of the gate.</summary>
    public required IReadOnlyList<Duration> Scrapes { get; init; }

    /// <summary>What gets into the bottling tank, at the temperature at which it is strained.</summary>
    public required Volume Volume { get; init; }

    /// <summary>Honey in the vessel when it is strained.</summary>
    public required Mass Mass { get; init; }

    /// <summary>Why the vessel cannot be planned: the step that never comes to its end, and why; null when it can.</summary>
    public required string? Refusal { get; init; }

    /// <summary>What the user should know about the times.</summary>
    public required IReadOnlyList<Notice> Notices { get; init; }

    /// <summary>Runs the models.</summary>
    /// <param name="job">The vessel from cold honey to full jars, as far as the models are to say.</param>
    /// <param name="options">How they are computed; null for the defaults.</param>
    /// <param name="cancellation">Ends early with <see cref="OperationCanceledException"/>.</param>
    /// <exception cref="ArgumentException">Something in a setup is out of its range, or the steps do not go together.</exception>
    public static BatchSteps Of(JobSetup job, JobOptions? options = null, CancellationToken cancellation = default)
    {
        JobResult result = JobRun.Simulate(job, options, cancellation);
        Density density = HoneyProperties.Of(result.Straining.Setup.Honey).DensityAt(result.Straining.Setup.HoneyTemperature);
        JobStep? never = result.Steps.FirstOrDefault(step => step.Times is null);
        return new BatchSteps
        {
            Warm = Times(JobStepKind.Warm),
            Settle = Times(JobStepKind.Settle),
            Strain = Times(JobStepKind.Strain),
            Fill = Times(JobStepKind.Fill),
            Scrapes = [.. result.Straining.Scrapes],
            Volume = (result.Straining.Masses.Strained + result.Straining.Masses.Bypassed) / density,
            Mass = result.Straining.Masses.Start,
            Refusal = never is null ? null : $"{Words(never.Kind)} does not come to its end: {never.Never}",
            Notices = result.Notices,
        };

        StepTimes? Times(JobStepKind kind) => result.Steps.FirstOrDefault(step => step.Kind == kind)?.Times is { } times
            ? new StepTimes(Longer(times.Quick), Longer(times.Likely), Longer(times.Slow))
            : null;
    }

    private static string Words(JobStepKind kind) => kind switch
    {
        JobStepKind.Warm => "warming",
        JobStepKind.Settle => "settling",
        JobStepKind.Strain => "straining",
        _ => "filling",
    };

    private static Duration Longer(Duration time) => time.Minutes < 1 ? Duration.FromMinutes(1) : time;
}
