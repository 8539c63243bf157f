using FlowSim.Straining;
using FlowSim.Warming;
using UnitsNet;

namespace FlowSim.Setpoints;

/// <summary>Which setpoint gets a batch warmed and strained soonest within the limits. Change a copy with <c>with</c>.</summary>
public sealed record SetpointQuestion
{
    /// <summary>
    /// How the honey is warmed. The search varies the last setpoint of the schedule; earlier steps stay, as far as they are below
    /// it. Targets other than crystals gone are replaced: the search decides how warm is warm enough.
    /// </summary>
    public required WarmingSetup Warming { get; init; }

    /// <summary>How it is strained afterwards: the honey of <see cref="Warming"/>, at the temperature it has got. Temperature and opening are replaced.</summary>
    public required StrainingSetup Straining { get; init; }

    /// <summary>The limits.</summary>
    public SetpointLimits Limits { get; init; } = new();

    /// <summary>How the warming runs are computed; series and maps are the search's own. Default the defaults of a run.</summary>
    public WarmingOptions Options { get; init; } = new();

    /// <summary>Lowest setpoint tried. 15 to 95 °C, below the ceiling. Default 30 °C.</summary>
    public Temperature Lowest { get; init; } = Temperature.FromDegreesCelsius(30);

    /// <summary>
    /// Coldest mean temperature at which straining is wanted: what "warm enough" means. 10 to 90 °C. Default 30 °C (engineering
    /// choice: colder, honey of usual moisture creeps through a fine cloth and somebody has to stand by all the while).
    /// </summary>
    public Temperature ColdestStraining { get; init; } = Temperature.FromDegreesCelsius(30);
}
