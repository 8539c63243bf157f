using UnitsNet;

namespace FlowSim.Warming;

/// <summary>Steers a heater: setpoint over time, hysteresis, sensor, cut-out.</summary>
/// <remarks>Switches the heater off when the probe is half the hysteresis above the setpoint, on when it is half below.</remarks>
public sealed record Thermostat
{
    /// <summary>The setpoint over time: the first step at 0, each later by at least 1 s, at most 1000 steps. Setpoints −30 to 120 °C.</summary>
    public required IReadOnlyList<SetpointStep> Schedule { get; init; }

    /// <summary>
    /// From switching on to switching off. 0.1 to 50 K; default 2 K. Plays no part without
    /// <see cref="HeatingKit.HeaterPower"/>; 0 lets a heater of limited power hold the body at the setpoint with part of its power, with the sensor in the body and no lag.
    /// </summary>
    public TemperatureDelta Hysteresis { get; init; } = TemperatureDelta.FromKelvins(2);

    /// <summary>Where the sensor is. Default in the body.</summary>
    public SensorPlace Sensor { get; init; } = SensorPlace.Body;

    /// <summary>Of a sensor in the honey: distance from the axis, share of the radius. 0 to 1. Default 0.</summary>
    public Ratio SensorRadius { get; init; } = Ratio.Zero;

    /// <summary>Of a sensor in the honey or on the wall: height above the floor, share of the level. 0 to 1. Default 50 %.</summary>
    public Ratio SensorHeight { get; init; } = Ratio.FromPercent(50);

    /// <summary>Time by which the probe lags its surroundings (time constant, first order). 0 or 1 s to 1 h. Default 0.</summary>
    public Duration Lag { get; init; } = Duration.Zero;

    /// <summary>Temperature of the body at which an independent cut-out takes the heater off for good. Null for none. −20 to 150 °C.</summary>
    public Temperature? CutOut { get; init; }

    /// <summary>A thermostat left at one setpoint.</summary>
    /// <param name="setpoint">Setpoint.</param>
    public static Thermostat At(Temperature setpoint) => new() { Schedule = [new SetpointStep(Duration.Zero, setpoint)] };
}

/// <summary>One step of a setpoint schedule.</summary>
/// <param name="At">Time from the start.</param>
/// <param name="Setpoint">Setpoint from then on.</param>
/// <param name="Ramp">Whether the setpoint moves there evenly from the step before, to arrive at <paramref name="At"/>, rather than jumping then.</param>
public sealed record SetpointStep(Duration At, Temperature Setpoint, bool Ramp = false);

/// <summary>Where a thermostat's sensor is.</summary>
public enum SensorPlace
{
    /// <summary>In the body: the air, the water, the element.</summary>
    Body,

    /// <summary>On the inside of the wall.</summary>
    Wall,

    /// <summary>In the honey.</summary>
    Honey,
}
