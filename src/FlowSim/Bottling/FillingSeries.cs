namespace FlowSim.Bottling;

/// <summary>A run jar by jar, as columns of equal length in SI units (named in each).</summary>
public sealed record FillingSeries
{
    /// <summary>When the gate was opened for the jar, s.</summary>
    public required IReadOnlyList<double> StartS { get; init; }

    /// <summary>How long it was open, s.</summary>
    public required IReadOnlyList<double> FillS { get; init; }

    /// <summary>How long the jar stood under the shut gate, s.</summary>
    public required IReadOnlyList<double> WaitS { get; init; }

    /// <summary>Level in the tank when the jar was full, m.</summary>
    public required IReadOnlyList<double> TankLevelM { get; init; }

    /// <summary>Flow when the gate began to shut, kg/s.</summary>
    public required IReadOnlyList<double> FlowKgPerS { get; init; }

    /// <summary>Temperature of the tank, K.</summary>
    public required IReadOnlyList<double> TemperatureK { get; init; }
}
