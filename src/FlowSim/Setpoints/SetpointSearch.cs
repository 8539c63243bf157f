namespace FlowSim.Setpoints;

/// <summary>Finds the setpoint that finishes warming and straining soonest within the limits.</summary>
public static class SetpointSearch
{
    /// <summary>Searches setpoints and straining temperatures.</summary>
    /// <param name="question">What is warmed and strained, and within which limits.</param>
    /// <param name="progress">Told the share of the search that is done, 0 to 1; null for nobody.</param>
    /// <param name="cancellation">Ends early with <see cref="OperationCanceledException"/>.</param>
    /// <exception cref="ArgumentException">Something is out of its range; the message names it.</exception>
    public static SetpointAnswer Find(SetpointQuestion question, IProgress<double>? progress = null, CancellationToken cancellation = default) =>
        throw new NotSupportedException();
}
