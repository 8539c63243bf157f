namespace FlowSim.Straining;

/// <summary>Runs a tank of honey through a strainer.</summary>
public static class StrainingRun
{
    /// <summary>Simulates a setup from the opening of the gate to the end.</summary>
    /// <param name="setup">What is strained, and with what.</param>
    /// <param name="options">How it is computed; null for the defaults.</param>
    /// <param name="cancellation">Ends the computation early with <see cref="OperationCanceledException"/>.</param>
    /// <exception cref="ArgumentException">Something in the setup is out of its range; the message names it.</exception>
    public static StrainingResult Simulate(
        StrainingSetup setup,
        StrainingOptions? options = null,
        CancellationToken cancellation = default) => throw new NotSupportedException("being built");
}
