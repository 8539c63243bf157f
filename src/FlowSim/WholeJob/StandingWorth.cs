using FlowSim.Screens;
using FlowSim.Settling;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.WholeJob;

/// <summary>What standing longer saves at the strainer.</summary>
public static class StandingWorth
{
    /// <summary>Strains a tank after it has stood for each of some times, skimmed each time.</summary>
    /// <param name="setup">The job; it must have a settling. Warming and filling do not count.</param>
    /// <param name="times">How long it stands, each within the limits of <see cref="SettlingSetup.StandsFor"/>.</param>
    /// <param name="cancellation">Ends early with <see cref="OperationCanceledException"/>.</param>
    /// <exception cref="ArgumentException">Something is out of its range, or there is no settling.</exception>
    public static IReadOnlyList<StandingChoice> Of(JobSetup setup, IReadOnlyList<Duration> times, CancellationToken cancellation = default)
    {
        EquipmentCheck.Present(setup);
        EquipmentCheck.Present(times);
        SettlingSetup settling = EquipmentCheck.Present(setup.Settling, nameof(JobSetup.Settling));
        return [.. times.Select(Choice)];

        StandingChoice Choice(Duration time)
        {
            JobResult job = JobRun.Simulate(setup with { Warming = null, Filling = null, Settling = settling with { StandsFor = time } }, new JobOptions { Spread = false }, cancellation);
            StrainingResult straining = job.Straining;
            return new StandingChoice(time, job.Settling!.DebrisLeft, job.Account.Of(JobPlace.Scum), straining.Strain.To95, straining.PeakPond, straining.FirstOverflow, straining.Blinded);
        }
    }
}

/// <summary>A tank that has stood for some time, and its straining.</summary>
/// <param name="StandsFor">How long it stood.</param>
/// <param name="DebrisLeft">Bits left for the strainer; null when none were counted.</param>
/// <param name="Scum">Honey skimmed off with the scum.</param>
/// <param name="StrainTime">Time to 95 % strained; null if it is never reached.</param>
/// <param name="PeakPond">The deepest pond.</param>
/// <param name="FirstOverflow">When the strainer first ran over; null if it did not.</param>
/// <param name="Blinded">Blinded share of each cloth at the end.</param>
public sealed record StandingChoice(Duration StandsFor, Debris? DebrisLeft, Mass Scum, Duration? StrainTime, Length PeakPond, Duration? FirstOverflow, IReadOnlyList<Ratio> Blinded);
