namespace FlowSim.Warming;

/// <summary>What the heater does.</summary>
internal enum HeaterMode
{
    /// <summary>Gives or takes whatever keeps the body at the setpoint: a heater without a limit.</summary>
    Follows,

    /// <summary>Gives all it has.</summary>
    On,

    /// <summary>Gives nothing until the thermostat asks for it.</summary>
    Off,

    /// <summary>Gives part of what it has, so that the body stays at the setpoint.</summary>
    Holds,

    /// <summary>Taken off by the cut-out, for good.</summary>
    CutOut,
}
