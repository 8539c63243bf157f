namespace FlowSim.Numerics.Sampling;

/// <summary>
/// The logarithm of a density that need not be normalised, at many points at once. A point's answer may depend on nothing but that point, neither on its
/// neighbours in the batch nor on threads: else the chain is not the same twice.
/// </summary>
public interface ILogDensity
{
    /// <summary>Coordinates of a point, at least 1.</summary>
    int Dimensions { get; }

    /// <summary>Evaluates every point of a batch; may share the work among threads.</summary>
    /// <param name="points">Points, count × <see cref="Dimensions"/>, row by row, all finite.</param>
    /// <param name="logDensities">Natural logarithm of the density of each; −∞ or NaN where a point is impossible.</param>
    /// <param name="cancellation">Asks to stop.</param>
    void Evaluate(ReadOnlySpan<double> points, Span<double> logDensities, CancellationToken cancellation);
}
