using UnitsNet;

namespace FlowSim.Planning;

/// <summary>How long a step takes.</summary>
/// <param name="Quick">If all goes quickly.</param>
/// <param name="Likely">As a best estimate.</param>
/// <param name="Slow">If all goes slowly.</param>
public sealed record StepTimes(Duration Quick, Duration Likely, Duration Slow)
{
    /// <summary>A step that takes the same time however it goes.</summary>
    /// <param name="time">Its time.</param>
    public static StepTimes Of(Duration time) => new(time, time, time);
}
