namespace FlowSim.Calibration;

/// <summary>Fits honey and kit to timed runs.</summary>
public static class CalibrationFit
{
    /// <summary>Finds what the runs and measurements of a question say.</summary>
    /// <param name="question">Question.</param>
    /// <param name="cancellation">Ends early with <see cref="OperationCanceledException"/>.</param>
    /// <exception cref="ArgumentException">Something in the question is out of its range, or the runs are not of one honey and one kit; the message names it.</exception>
    public static CalibrationAnswer Of(CalibrationQuestion question, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(question);
        throw new NotSupportedException("The fit is being built.");
    }
}
