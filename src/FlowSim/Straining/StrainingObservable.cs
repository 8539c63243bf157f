namespace FlowSim.Straining;

/// <summary>What can be read off tank, strainer and receiver while a run goes on.</summary>
public enum StrainingObservable
{
    /// <summary>Depth of the pond above the cloth's lowest point, m.</summary>
    PondDepth,

    /// <summary>Level in the tank above its lowest point, m.</summary>
    TankLevel,

    /// <summary>Honey in the tank by weight, what clings to the wall included, kg.</summary>
    TankMass,

    /// <summary>Honey in the tank by the marks on its wall, m³.</summary>
    TankVolume,

    /// <summary>Level in the receiver above its lowest point, m.</summary>
    ReceiverLevel,

    /// <summary>Honey in the receiver by weight, what was in it at the start included, kg.</summary>
    ReceiverMass,

    /// <summary>Honey in the receiver by the marks on its wall, m³.</summary>
    ReceiverVolume,
}
