namespace FlowSim.Numerics.Sampling;

/// <summary>
/// A model evaluated at many points at once. Coordinates are uniform on (0, 1); the model maps them to its inputs. A point's outputs may depend
/// on nothing but that point, neither on its neighbours in the batch nor on threads: else the answers are not the same twice.
/// </summary>
public interface IBatchModel
{
    /// <summary>Coordinates of a point, at least 1.</summary>
    int Dimensions { get; }

    /// <summary>Outputs of a point, at least 1.</summary>
    int Outputs { get; }

    /// <summary>Evaluates every point of a batch; may share the work among threads.</summary>
    /// <param name="points">Points, count × <see cref="Dimensions"/>, row by row; every coordinate strictly inside (0, 1).</param>
    /// <param name="outputs">Outputs, count × <see cref="Outputs"/>, row by row; no NaN.</param>
    /// <param name="cancellation">Asks to stop.</param>
    void Evaluate(ReadOnlySpan<double> points, Span<double> outputs, CancellationToken cancellation);
}
