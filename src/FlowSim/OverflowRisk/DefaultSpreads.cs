using FlowSim.Straining;

namespace FlowSim.OverflowRisk;

/// <summary>How far the inputs of a setup commonly lie from what is said of them, each with its standing.</summary>
public static class DefaultSpreads
{
    /// <summary>The spreads of a setup that says nothing about its own.</summary>
    /// <param name="setup">Setup; the spreads lie about its values.</param>
    public static IReadOnlyList<UncertainInput> For(StrainingSetup setup) => throw new NotSupportedException("Not yet.");
}
