using MathNet.Numerics.Distributions;

namespace FlowSim.Numerics.Sampling;

/// <summary>
/// A mean over independent replicates with Student's t interval. That the replicates are independent and unbiased is all it asks; the points
/// within a replicate may depend on each other, as scrambled Sobol' points do.
/// </summary>
/// <param name="Value">Mean of the replicates.</param>
/// <param name="StandardError">Standard deviation of the replicates over √R.</param>
/// <param name="Low">Low end of the interval.</param>
/// <param name="High">High end of the interval.</param>
/// <param name="Confidence">Confidence of the interval.</param>
/// <param name="Replicates">Replicates R.</param>
public sealed record ReplicateEstimate(double Value, double StandardError, double Low, double High, double Confidence, int Replicates) : IEstimate
{
    /// <summary>The estimate from what each replicate gave.</summary>
    /// <param name="values">At least two finite numbers.</param>
    /// <param name="confidence">Confidence wanted, between 0 and 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">Fewer than two values, one that is not finite, or a confidence outside its interval.</exception>
    public static ReplicateEstimate FromReplicates(ReadOnlySpan<double> values, double confidence = 0.95)
    {
        Arguments.InsideUnit(confidence);
        Arguments.From(2, values.Length, name: nameof(values));
        double sum = 0;
        foreach (double value in values)
        {
            if (!double.IsFinite(value)) throw Arguments.Bad(nameof(values), value, "must all be finite");
            sum += value;
        }
        double mean = sum / values.Length;
        double squares = 0;
        foreach (double value in values) squares += (value - mean) * (value - mean);
        double error = Math.Sqrt(squares / (values.Length - 1) / values.Length);
        double half = StudentFactor(values.Length, confidence) * error;
        return new(mean, error, mean - half, mean + half, confidence, values.Length);
    }

    /// <summary>Half the width of the interval in standard errors.</summary>
    internal static double StudentFactor(int replicates, double confidence) => StudentT.InvCDF(0, 1, replicates - 1, 0.5 + 0.5 * confidence);
}
