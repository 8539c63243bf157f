using FlowSim.Gates;
using FlowSim.Screens;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Straining;

/// <summary>One tank of honey to be strained: everything a run needs. Change a copy with <c>with</c>.</summary>
public sealed record StrainingSetup
{
    /// <summary>The honey.</summary>
    public required Honey Honey { get; init; }

    /// <summary>Temperature of the honey in the tank at the start, within the outer range of its viscosity correlation (<see cref="ViscosityCorrelation.TemperatureRange"/>).</summary>
    public required Temperature HoneyTemperature { get; init; }

    /// <summary>Temperature of the room. −10 to 60 °C. Default 22 °C.</summary>
    public Temperature RoomTemperature { get; init; } = Temperature.FromDegreesCelsius(22);

    /// <summary>The tank that is emptied.</summary>
    public required Tank Tank { get; init; }

    /// <summary>Its gate.</summary>
    public required Gate Gate { get; init; }

    /// <summary>What is done with the gate. Default: fully open and left.</summary>
    public GateControl Control { get; init; } = GateControl.LeaveAt(Ratio.FromPercent(100));

    /// <summary>The strainer under the gate.</summary>
    public required Strainer Strainer { get; init; }

    /// <summary>Bits carried by the honey.</summary>
    public Debris Debris { get; init; } = new();

    /// <summary>When the cloth is scraped. Default never.</summary>
    public Scraping Scraping { get; init; } = Scraping.Never;

    /// <summary>The vessel under the strainer.</summary>
    public required Receiver Receiver { get; init; }

    /// <summary>Longest time simulated. 1 s to 30 days. Default 48 h.</summary>
    public Duration Longest { get; init; } = Duration.FromHours(48);
}
