using FlowSim.OverflowRisk;
using FlowSim.Straining;

namespace FlowSim.Calibration;

/// <summary>What is known of honey, kit and a run before it is timed.</summary>
public static class CalibrationPriors
{
    /// <summary>The priors of a setup that says nothing about its own.</summary>
    /// <param name="setup">Setup that passes its checks.</param>
    public static IReadOnlyList<UncertainInput> For(StrainingSetup setup) => DefaultSpreads.For(setup);

    /// <summary>Whether an input is of honey or kit, which runs share, and not of one run alone.</summary>
    /// <param name="input">Input.</param>
    public static bool IsShared(StrainingInput input) => !OfOneRun.Contains(input);

    private static readonly HashSet<StrainingInput> OfOneRun =
    [
        StrainingInputs.HoneyTemperature, StrainingInputs.RoomTemperature, StrainingInputs.TankLevel, StrainingInputs.Opening, StrainingInputs.RideDepth,
        StrainingInputs.ScrapeRecovery, StrainingInputs.ScrapeDepth, StrainingInputs.ScrapePause, StrainingInputs.AlreadyIn, StrainingInputs.ReceiverTemperature,
    ];
}
