namespace FlowSim.Straining;

/// <summary>The outcome of a run, the worst thing first to be named.</summary>
public enum StrainingStatus
{
    /// <summary>The tank drained to its heel and the strainer ran through.</summary>
    Drained,

    /// <summary>The receiver was full and the gate was shut.</summary>
    ReceiverFull,

    /// <summary>The longest time was reached first.</summary>
    TimeLimit,

    /// <summary>The flow all but stopped with honey left.</summary>
    Stalled,

    /// <summary>The receiver ran over onto the floor.</summary>
    ReceiverOverfilled,

    /// <summary>The strainer ran over.</summary>
    Overflowed,
}
