namespace FlowSim.Warming;

/// <summary>Factors on what a run is computed with, to see what they do to it.</summary>
/// <param name="Film">On the coefficient of every film.</param>
/// <param name="HeatCapacity">On the honey's heat capacity.</param>
internal readonly record struct HeatFactors(double Film, double HeatCapacity)
{
    /// <summary>As published.</summary>
    public static readonly HeatFactors None = new(1, 1);
}
