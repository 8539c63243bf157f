using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Straining;

namespace FlowSim.Calibration;

/// <summary>What is known of honey, kit and a run before it is timed.</summary>
public static class CalibrationPriors
{
    /// <summary>A factor of 1.27 either way about the middle of 0.62 and 1 (engineering choice): those two then lie one standard deviation out, and a cloth beyond them can show itself.</summary>
    private static readonly double ScreenFactorLogSd = 0.5 * Math.Log(1 / DefaultSpreads.LowScreenFactor);

    /// <summary>
    /// The priors of a setup that says nothing about its own: the common spreads, but for the cloth's resistance. There the hard limits of 0.62 and 1 of its factor become
    /// one standard deviation of a log-normal distribution, for a run may show what no publication foresaw.
    /// </summary>
    /// <param name="setup">Setup that passes its checks.</param>
    public static IReadOnlyList<UncertainInput> For(StrainingSetup setup) =>
    [
        .. DefaultSpreads.For(setup).Select(common => common.Input == StrainingInputs.ScreenFactor
            ? common with { Spread = new LogNormalDistribution(Math.Sqrt(DefaultSpreads.LowScreenFactor) * setup.Strainer.ScreenFactor, ScreenFactorLogSd) }
            : common),
    ];

    /// <summary>
    /// A prior as the fit takes it. That of opening and bore becomes log-normal, with the same median and standard deviation: the flow goes with a power of them, so
    /// in their logarithms all that a run cannot tell apart lies on straight lines, which intervals and sampler follow well. At ± 8 % the two distributions differ by 0.3 % of the value at one
    /// standard deviation.
    /// </summary>
    /// <param name="prior">Prior.</param>
    internal static UncertainInput Straight(UncertainInput prior)
    {
        if (prior.Spread is LogNormalDistribution or MovedDistribution { IsLogNormal: true })
            return prior;
        double median = prior.Spread.Median, relative = prior.Spread.StandardDeviation / median;
        return (prior.Input == StrainingInputs.Opening || prior.Input == StrainingInputs.Bore) && relative is > 0 and < MostRelative
            ? prior with { Spread = new LogNormalDistribution(median, relative) }
            : prior;
    }

    /// <summary>Relative standard deviation up to which a normal and a log-normal distribution are the same for our purposes (engineering choice).</summary>
    private const double MostRelative = 0.35;

    /// <summary>Whether an input is of honey or kit, which runs share, and not of one run alone.</summary>
    /// <param name="input">Input.</param>
    public static bool IsShared(StrainingInput input) => !OfOneRun.Contains(input);

    private static readonly HashSet<StrainingInput> OfOneRun =
    [
        StrainingInputs.HoneyTemperature, StrainingInputs.RoomTemperature, StrainingInputs.TankLevel, StrainingInputs.Opening, StrainingInputs.RideDepth,
        StrainingInputs.ScrapeRecovery, StrainingInputs.ScrapeDepth, StrainingInputs.ScrapePause, StrainingInputs.AlreadyIn, StrainingInputs.ReceiverTemperature,
    ];
}
