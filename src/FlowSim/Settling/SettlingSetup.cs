using FlowSim.Screens;
using UnitsNet;

namespace FlowSim.Settling;

/// <summary>A layer of honey that stands, in a tank, a pail or a bottling tank: everything a run needs. Change a copy with <c>with</c>.</summary>
public sealed record SettlingSetup
{
    /// <summary>The honey.</summary>
    public required Honey Honey { get; init; }

    /// <summary>Depth of the layer. 1 mm to 20 m.</summary>
    public required Length Depth { get; init; }

    /// <summary>
    /// Temperature of the honey over time, 0 when it is left alone; before the first and after the last point it stays. Within the outer range of the
    /// viscosity correlation (<see cref="ViscosityCorrelation.TemperatureRange"/>). <see cref="TemperatureHistory.Hold"/> makes a constant one.
    /// </summary>
    public required TemperatureHistory Temperature { get; init; }

    /// <summary>How long it stands before it is skimmed or drawn off. 1 min to 3650 days. Default 24 h.</summary>
    public Duration StandsFor { get; init; } = Duration.FromHours(24);

    /// <summary>Air bubbles, even over the layer at the start; null for none. Default: those of <see cref="Settling.Bubbles"/>.</summary>
    public Bubbles? Bubbles { get; init; } = new();

    /// <summary>
    /// Wax, or with its <see cref="Debris.Density"/> other matter, even over the layer at the start; null for none. What is denser than the honey sinks.
    /// Default: 1 g/kg, straight from the extractor (engineering choice, no field data), of the sizes of <see cref="Screens.Debris"/>.
    /// </summary>
    public Debris? Debris { get; init; } = DebrisFromExtractor;

    /// <summary>Debris that has not settled yet: the default of <see cref="Debris"/>.</summary>
    public static Debris DebrisFromExtractor { get; } = new() { Load = Ratio.FromPartsPerMillion(1000) };

    /// <summary>When it counts as clear. Default <see cref="Clarity.Default"/>.</summary>
    public Clarity ClearTo { get; init; } = Clarity.Default;

    /// <summary>What has to be clear. Default <see cref="Settling.ClearOf.Everything"/> that is there.</summary>
    public ClearOf ClearOf { get; init; } = ClearOf.Everything;

    /// <summary>
    /// Volume of the matter over that of the scum (or the deposit on the floor) that it gathers in; the rest is honey. 30 to 74 %. Default 50 %, loosely heaped (engineering
    /// choice; spheres shaken together take 64 %, from memory).
    /// </summary>
    public Ratio Packing { get; init; } = Ratio.FromPercent(50);

    /// <summary>Mass of the honey in the layer, so that scum has a mass too; null leaves masses out. 0.001 to 1000000 kg.</summary>
    public Mass? HoneyMass { get; init; }

    /// <summary>How far ahead the time to be clear is looked for. 1 min to 3650 days. Default 60 days.</summary>
    public Duration Longest { get; init; } = Duration.FromDays(60);
}

/// <summary>What has to be clear.</summary>
public enum ClearOf
{
    /// <summary>Everything that the setup has.</summary>
    Everything,

    /// <summary>Bubbles alone: debris is left to the strainer.</summary>
    Bubbles,

    /// <summary>Debris alone.</summary>
    Debris,
}
