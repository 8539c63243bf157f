using FlowSim.Bottling;
using FlowSim.Settling;
using FlowSim.Straining;
using FlowSim.Warming;
using UnitsNet;
using static System.FormattableString;

namespace FlowSim.WholeJob;

/// <summary>How long each step takes if all goes quickly, as it should, and slowly.</summary>
/// <param name="options">How it is computed.</param>
/// <param name="cancellation">Ends early.</param>
internal sealed class JobTimes(JobOptions options, CancellationToken cancellation)
{
    private static readonly WarmingOptions s_brief = new() { SeriesPoints = 0 };

    /// <summary>Until the targets are reached, and the hold after that. Quick and slow are the outermost of the bounds on the heat inside and the corners of films and properties.</summary>
    public JobStep OfWarming(WarmingResult best)
    {
        if (best.TimeToTarget is not { } likely)
            return new JobStep { Kind = JobStepKind.Warm, Times = null, Never = Invariant($"it is not warm enough after {best.Elapsed.Hours:0.#} h") };
        if (!options.Spread)
            return Step(JobStepKind.Warm, StepTimes.Exactly(likely + best.Setup.HoldAfter));

        var bounds = WarmingBounds.Of(best.Setup, s_brief, cancellation);
        var spread = WarmingSpread.Of(best.Setup, s_brief, cancellation);
        Duration quick = new[] { bounds.TimeToTargetLow, spread.TimeToTarget.Low }.Min() ?? likely;

        // Where a slow bound never gets there, it takes the longest that was looked at.
        Duration slow = bounds.TimeToTargetHigh is { } inside && spread.TimeToTarget.High is { } outside ? (inside > outside ? inside : outside) : best.Setup.Longest;
        Duration hold = best.Setup.HoldAfter;
        return Step(JobStepKind.Warm, StepTimes.Around(likely + hold, quick + hold, slow + hold));
    }

    /// <summary>As long as it is left.</summary>
    public static JobStep OfSettling(SettlingResult settling) => Step(JobStepKind.Settle, StepTimes.Exactly(settling.Setup.StandsFor));

    /// <summary>Until the strainer has run through, somebody standing by.</summary>
    public JobStep OfStraining(StrainingResult best)
    {
        if (best.Ending is StrainingStatus.Stalled or StrainingStatus.TimeLimit)
            return new JobStep { Kind = JobStepKind.Strain, Times = null, Never = Invariant($"after {best.Elapsed.Hours:0.#} h honey still stands in the tank or on the strainer") };
        if (!options.Spread)
            return Step(JobStepKind.Strain, StepTimes.Exactly(best.Elapsed));
        (Duration quick, Duration slow) = StrainingTimes.Of(best.Setup, options.StrainingSpreads, options.Seed, cancellation) ?? (best.Elapsed, best.Elapsed);
        return Step(JobStepKind.Strain, StepTimes.Around(best.Elapsed, quick, slow));
    }

    /// <summary>Until the last jar is taken away, somebody filling.</summary>
    public JobStep OfFilling(FillingSetup? setup, FillingResult? best)
    {
        if (setup is null || best is null || best.Jars == 0)
            return new JobStep { Kind = JobStepKind.Fill, Times = null, Never = best?.Status == FillingStatus.JarTooSmall ? "the jar cannot hold the fill" : "no jar can be filled from what is in the bottling tank" };
        if (!options.Spread)
            return Step(JobStepKind.Fill, StepTimes.Exactly(best.Elapsed));
        FillingBand band = FillingBand.Of(setup, cancellation: cancellation);
        return Step(JobStepKind.Fill, StepTimes.Around(best.Elapsed, band.Quick.Elapsed, band.Slow.Elapsed));
    }

    private static JobStep Step(JobStepKind kind, StepTimes times) => new() { Kind = kind, Times = times };
}
