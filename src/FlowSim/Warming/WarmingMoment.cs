namespace FlowSim.Warming;

/// <summary>What is looked at after every step.</summary>
internal struct WarmingMoment
{
    public double TimeS;
    public double ColdestK;
    public double MeanK;
    public double HottestK;
    public double BodyK;
    public double ProbeK;
    public double SetpointK;

    /// <summary>Power that holding the setpoint takes, W; of no meaning in other modes.</summary>
    public double HeaterW;

    /// <summary>Share of the crystals left, 0 to 1.</summary>
    public double CrystalsLeft;
}
