using UnitsNet;

namespace FlowSim.Settling;

/// <summary>A run over time, as columns of equal length in SI units (named in each); those of matter that was not there are empty.</summary>
public sealed record SettlingSeries
{
    /// <summary>Time from the start, s.</summary>
    public required IReadOnlyList<double> TimeS { get; init; }

    /// <summary>Temperature of the honey, K.</summary>
    public required IReadOnlyList<double> TemperatureK { get; init; }

    /// <summary>Viscosity of the honey, lot factor included, Pa·s.</summary>
    public required IReadOnlyList<double> ViscosityPaS { get; init; }

    /// <summary>Share of the bubbles that is left, mean over the layer, 0 to 1.</summary>
    public required IReadOnlyList<double> BubblesLeft { get; init; }

    /// <summary>Depth that is clear of bubbles, m.</summary>
    public required IReadOnlyList<double> BubblesClearM { get; init; }

    /// <summary>Share of the debris that is left, mean over the layer, 0 to 1.</summary>
    public required IReadOnlyList<double> DebrisLeft { get; init; }

    /// <summary>Depth that is clear of debris, m.</summary>
    public required IReadOnlyList<double> DebrisClearM { get; init; }
}

/// <summary>What is left over the depth at one time, as columns of equal length; those of matter that was not there are empty.</summary>
public sealed record SettlingProfile
{
    /// <summary>Time from the start.</summary>
    public required Duration At { get; init; }

    /// <summary>Height above the floor, m.</summary>
    public required IReadOnlyList<double> HeightM { get; init; }

    /// <summary>Bubbles left there, share of the start, 0 to 1.</summary>
    public required IReadOnlyList<double> BubblesLeft { get; init; }

    /// <summary>Debris left there, share of the start, 0 to 1.</summary>
    public required IReadOnlyList<double> DebrisLeft { get; init; }
}
