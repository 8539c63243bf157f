namespace FlowSim.Straining;

/// <summary>Places of the unknowns in the state vector; the sum of the first four is constant.</summary>
internal static class StrainingState
{
    public const int TankKg = 0;
    public const int PondKg = 1;
    public const int StrainedKg = 2;
    public const int OverRimKg = 3;
    public const int TankK = 4;
    public const int PondK = 5;
    public const int ReceiverK = 6;
    public const int FirstOpenShare = 7;
}

/// <summary>What governs the pond.</summary>
internal enum PondMode
{
    /// <summary>Below the rim, rising and falling as it will.</summary>
    Free,

    /// <summary>At the rim, the surplus going over.</summary>
    OverRim,

    /// <summary>Held at a depth by somebody at the gate.</summary>
    Ridden,
}
