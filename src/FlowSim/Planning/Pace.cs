using FlowSim.WholeJob;
using UnitsNet;

namespace FlowSim.Planning;

/// <summary>Which of a step's times is meant.</summary>
public enum Pace
{
    /// <summary>All steps go quickly.</summary>
    Quick,

    /// <summary>All steps take their best estimate.</summary>
    Likely,

    /// <summary>All steps go slowly.</summary>
    Slow,
}

/// <summary>Reads a step's time at a pace.</summary>
internal static class Paces
{
    public static Duration At(this StepTimes times, Pace pace) => pace switch
    {
        Pace.Quick => times.Quick,
        Pace.Slow => times.Slow,
        _ => times.Likely,
    };
}
