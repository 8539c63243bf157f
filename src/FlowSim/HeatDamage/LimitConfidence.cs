namespace FlowSim.HeatDamage;

/// <summary>How much of the band lies within a limit, from the worst to the best answer.</summary>
public enum LimitConfidence
{
    /// <summary>No part of the band is within the limit.</summary>
    Broken,

    /// <summary>Only the kind end of the band is within the limit; the best estimate is beyond it.</summary>
    OnlyAtTheKindEnd,

    /// <summary>The best estimate is within the limit, the harsh end of the band is beyond it.</summary>
    AtTheBestEstimate,

    /// <summary>The whole band is within the limit.</summary>
    OverTheWholeBand,
}
