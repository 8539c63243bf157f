namespace FlowSim.Numerics.Events;

/// <summary>One accepted step with its continuous extension.</summary>
public readonly ref struct DenseStep
{
    /// <summary>Start of the step.</summary>
    public double Start { get; }

    /// <summary>End of the part that counts: the end of the step, or the event located inside it.</summary>
    public double End { get; }

    /// <summary>Writes the state at <paramref name="t"/>.</summary>
    /// <param name="t">Time in [<see cref="Start"/>, <see cref="End"/>].</param>
    /// <param name="y">Receives the state.</param>
    public void Evaluate(double t, Span<double> y) => y.Clear();

    /// <summary>One component of the state at <paramref name="t"/>.</summary>
    /// <param name="t">Time in [<see cref="Start"/>, <see cref="End"/>].</param>
    /// <param name="component">Index of the component.</param>
    public double Evaluate(double t, int component) => 0;
}
