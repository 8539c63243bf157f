using FlowSim.Straining;
using FlowSim.Warming;
using static System.FormattableString;

namespace FlowSim.WholeJob;

/// <summary>What no step can see by itself.</summary>
internal static class JobNotices
{
    /// <summary>Difference of temperature from which the steps do not go together, K (engineering choice: twice what a thermometer in a stirred tank is off).</summary>
    private const double MuchK = 2;

    /// <summary>The notices.</summary>
    /// <param name="setup">The job.</param>
    /// <param name="warming">The warming.</param>
    /// <param name="strained">The straining as it was run.</param>
    public static IReadOnlyList<Notice> Of(JobSetup setup, WarmingResult? warming, StrainingSetup strained)
    {
        if (warming is null || setup.Settling is not null)
            return [];
        double ends = warming.End.Mean.DegreesCelsius, begins = strained.HoneyTemperature.DegreesCelsius;
        return Math.Abs(ends - begins) <= MuchK
            ? []
            :
            [
                new Notice(
                    "job-temperature-jump",
                    Invariant($"the warming ends at {ends:0.0} °C on average and the straining begins at {begins:0.0} °C"),
                    "the steps are computed each by itself, and one of the two temperatures is not meant",
                    "warm until the mean is where straining begins, or strain as warm as the warming leaves it"),
            ];
    }
}
